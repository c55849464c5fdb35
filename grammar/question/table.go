package question

import (
	"slices"
	"strings"
)

// The questions by topic. A row is one of our lines and what a question needs to mean it, in any order: one
// word of each group; of a group with ! none; those of a group with ? may be said. A word stands for all that are the
// same in plain form ([topic.Plainly]), one in capitals for a class, one with @ for a part of the question. What begins
// with $ is put in from it, and a row whose own part is missing does not fit, unless there is a ? behind it. The first
// row that fits is taken; - takes the question out. A row with ~ needs all words of the question to be known, or nearly all.
var table = rows(`
# the log
notes on offcuts = offcut WHAT|any|have|got|where|good|big|is|need|@mark @any !@row|@thing
notes on $all = photo|photos|pic|pics|picture|pictures @any !hang|hook|heavy|many|ready|PASS|where|want|WHO|add
status = all|everything|rooms|room status|by @any
log today = today|morning|miss|changed|happened|new|note|noted WHAT|WHO|anything|much WHAT|anything|new|changed|DONE|been|note|noted @lone @few !@room|@wall|@row|@board|ceiling|COATING|@trade
log = WHO measured|noted|entered @lone @room @clean
notes on $all = WHAT did|have SAID @run @trade
log of $thing = WHAT did|have @thing we|you SAID ?about
log of $thing = WHO @thing @length
log last = last|just|message|one SAID|send|sent|get|got|save|saved|logged|noted|through|told we|me|my|mine @lone @clean !today|yesterday
log $trade = @trade WHAT|anything|something|any|is did|have|all|is DONE|SAID @lone @few !@board|@row|@wall

# where the sender is, and how big it all is
list here = where am @lone @clean
list here = which|what room am|this|set|now|we @lone @few !size|big|next|left|first|@board|need|ready|done|best
list area = area|m2|sqm|sqft|sq|footage ASK|size|total|@mark|left @lone @few
# what the next trade has to know, and who comes when
handoff = left|ready|next tape|taping|mud|mudding WHAT|how @lone @few !@board|enough|many|much
ready = WHEN can|could|may get|start|come|begin|in|go we @room @lone @few !COATING
handoff = WHAT|anything|something tell|know|say|warn|look|watch should|must|need|do|have|to|for @lone @trade|TRADE !did|said|told|WHEN
handoff = WHAT|anything|something know need|must|should|before we @lone @few !did|said|told|WHEN|about|@wall|@row|behind|above
todo who = WHO next|tomorrow|today|monday|tuesday|wednesday|thursday|friday|after|coming|tonight|will|works|working|comes|come|starts @room|@trade|TRADE|there|here|ceiling|walls|works @lone @few !hung|boarded|hang|up|did|put|@row|key|keys

# how it stands
status = rundown|summary|overview|update|recap @lone @few
status = status @room|@clean
status = WHAT|any|all|everything|can|is rooms|ceiling|anywhere CLOSED|done|left|open|finished|ready|started|begun|start|next @lone @few !many|@wall
status = WHAT ready @lone @clean
status = hows|how's|how|where everybody|we|it|that|things|everything|all|@room along|going|coming|looking|doing|get|got|gotten|at|with|standing|stand @lone @few !@row|@wall|@board|many|much|deep
list size = center|centre|middle|sizes|dimension|dimensions|measurement|measurements|height|width|length|size @room|room|ceiling|@mark @lone @clean !last|first|rows|boards|sheets|cut|final|piece|strip|rip|@length|@row|@board
list size = which|what way|direction @length is|does|do @lone @few !WOOD|@board|@boardsof|@row|@wall
list size = long|wide|length how|WHAT @wall @lone @few !@row|@length|@board|piece|far|HUNG|cut
list size = still|log @length is it|room|in @lone @few !WOOD|@board|@boardsof|@row|@wall|HIT|OK
status = is|@mark done|finished|closed|complete @lone @room @clean !@check|WHEN|WHO
status = is|did|have|anybody|anyone|somebody BOARDED|close|closed @lone @room !MAY|ready|@length|SCREW|@row|@wall|@board|WHEN|WHO
how clear is $thing = @thing WOOD|nearest HIT|nearest|closest|nearer|close|clear|did|do|end|ended|sit|sitting !SCREW|WHERE|@length|many|hang
how clear is it = HIT it|that|this|they|those|these|one|both|them WOOD|anything|something|clear @lone !SCREW|@length|@support|WHERE|hang|mount
how clear is it = any|is|that|all|look issue|issues|problem|problems|OK|trouble|clash|clashes @lone @clean !@room|CLOSE|PASS

# when the next coat may go on, and what holds a weight
order = heavy|weigh|weighs|weight board|boards how|what @lone @few !hold|holds|hang|carry|take|ceiling|wall
order = enough|got|have|much|many|left|about tape|mud|compound|bead|screws|plates|material|materials|paper|mesh @lone @few !coat|@row|spacing|apart|WHEN|box|boxes|SCREW|where|who
state of $check = taped|sanded|primed is|was|has|have|@mark|WHO @lone @few !MAY|need|ready
state of coats = WHO|WHEN coated|coat|coats|tape|mud|mudded @lone @few !next|can|will|ready|start|starts|MAY
coat due $air? = COATING MAY|WHEN|how|if|dry|again|next|wait|enough|cold|wet|damp @lone !ready|begin|start|WHO|WHERE|@wall|@board|SCREW|need|much
what holds = BACKING WHERE|is|any|did|have|anybody|anyone !@length|SCREWS|@boardsof|@trade|PASS
what holds = LOAD|strong|sturdy MAY|WHERE|much|is|do @any !drill|drilling|@board|@row|hung|@fix|@fixes|screws|lights|cut

# what may not be covered, and what is next
what stays reachable = @panel|KEEP|access WHAT|anything|any|need|needed|have|must|do|everything|should|something @lone @few !@length|@wall
stays reachable $thing = @thing KEEP|@panel|COVER MAY|need|have|allowed @few !WHERE|WHO|WHEN|yet|@row|still|many|HANG|@fix|@fixes|cut
what stays reachable = WHAT|anything|something|everything|any not|never|must can|should|supposed|must|never COVER|KEEP @lone
todo = WHAT|where next|start|begin|tackle|forget|forgot|missing|forgotten|outstanding|unfinished @lone @clean !@board|@row|SCREW|HIDDEN|cut|hang|top|walls|side|end|wall|edge|corner
todo = WHAT not done|finished|closed @lone @few !@row|@wall
todo = WHAT do|doing|tackle|want we|me|us|@trade should|supposed|can|gonna|want|@room|here|now|there|next|first @lone @few !need|bring|order|buy|get|tomorrow|take|SCREW|cut|hang|use|@wall|@support|@supports|@board|did|put|note|know|say|tell|@row
todo = WHAT|how left|still|remain|remains|remaining|needs|happen|happens do|done|finish|doing|now|next|before|us @lone @few !@board|SCREW|@wall|cut|hang|hung

# the piece over a thing
find $opening = size|big|wide|high|tall|dimension|dimensions|wide|location|position|measurement|measurements @opening @lone @few !piece|board|sheet|bit|strip|rip|cut|gap|over|above|under|below|beside|@row
whats piece over $thing = is|which|what @thing row on|in|under|behind|land|fall|be @any !@length|hung|up|over
whats piece over $opening = @opening piece|board|sheet|bit|strip|rip|cut|gap|WHAT around|round|over|above|under|below|beside|covers|left|right cut|size|big|long|wide|high|tall|piece|board|bit @lone !@length|@row|@fix|WHO|up
whats piece over $thing = piece|board|sheet size|big|long|wide|cut|WHAT around|round|over|covers|covering|at|by|next|with @thing !@row|@fix|WHERE|WHO|DONE|up
ready = anything|something|WHAT|all|everything missing|forgot|forget|forgotten|forgetting|miss|missed|before|need|stopping|holding CLOSE|hanging|lidding @lone !@row|@boardsof|boards|order|HIT|SCREW|many|yard
ready = WHEN have|get @trade|TRADE @room @lone @few !@board
todo who = come|comes|coming|start|starts|begin|here|back|in TRADE|@trade WHEN @lone @few !board
todo = come|start|begin|send|book MAY ?TRADE @lone @few
ready = everything|all|any|anything|is place|set|reason CLOSE|hang @lone @few

# screws, and what they meet
reach $screw = go|over|near|through|under|HIT @length @thing !@fix|WOOD|WHERE
reach $screw? at $fixes $on? = @fixes HIT|MAY|OK|SCREW|above|behind|over|under|screw|there|anything|what|hook|drill
reach $screw? at $fix $on? = @fix screw|screws|drill|nail|hook|anchor|screws MAY|OK|@mark|where|HIT !@thing
reach $screw = SCREWS @length MAY|use|about|anything !@lengths|@fix|far|spacing|apart|many|or
reach $screw = @length ok|OK ?SCREWS @lone @clean
how many screws = screw WHAT use|take|grab|need|goes|lid|ceiling @lone @few !HIT|@fix|@length|@run|@row|WHERE|say|head|bit
how many screws = SCREWS @lone spacing|apart|long|length|size|count|many|boxes|far|WHAT !rooms|HIT|behind|wrong|popped|snag|snags|missed|@row
reach = SCREW no|between !popped|MAY
reach $screw? = SCREW|anchor|anchors HIT|MAY|avoid|miss|where !popped|snag|snags|wrong|spacing|length|many|much|long|longest|use
covered = WHICH @thing HIDDEN|missing|missed|miss !@row
covered = everything|all|anything cut is @lone @clean
covered = WHAT|list|show|everything|all|anything|something|any HIDDEN @lone @few !@boardsof|behind|@wall|MAY|need|not|@row|who|when
notes on $all = @live is|any|still !@row|@length
reach = WHAT|how SCREWS @run @few !@length|@fix
any $kind noted = @run near|nearby|close|around|hit|by|problem|trouble|issue is|any|there|do|will|would
ready = what|something|anything|who stopping|holding|stops|blocking|hold|holdup|delay|checks !@thing
ready = CLOSE|closed|ready can|could|OK|ready @lone @room !WHO|WHEN|did|@wall|wall|window|door|reachable|WHAT|use|many|how|where|SCREW|COATING
ready = ready|OK TRADE @lone @few !coat
ready = CLOSE|ready can|could|to|OK|ready @lone @clean it|up|ceiling|this|rest|everything !WHO|WHEN|did|open|@wall|wall
state of $check = @check @mark|is|have|did|do|get DONE|PASS|been|in !WHO|WHEN|WHERE|said|say|day|@wall|wall|which|@trade

# boards
whats bottom row $on = bottom|last row WHAT|size|sizes|long|length|wide|cut|cuts|cutting @wall @lone @few !up|hung|@length|WHO|WHEN
list size = again WHAT @room @lone @few !@row|@wall|@board|@thing|SAID|WHO|WHEN|screws|screw
cut list = cuts|sizes|lengths ceiling|row|rows|board|boards|sheet|sheets @lone @clean !@wall|@length|@row ?list|for|in|the
layout = row|rows different|same|equal length|size|long|wide|cut @lone @few !@length|up|hung|@thing
layout = filler|fillers length|lengths|size|sizes|long|big|cut|wide @lone @few !@length|@thing|@wall
layout = ceiling board|boards|sheet|sheets rip|ripped @lone @few !@length|up|hung|@wall
layout = many rows on ceiling|@room @lone @few !BOARDED|up|installed|left|COATING
covered = cut|cutting|covered|buried|closed left|still|remaining|needs|yet|not|out @lone !list|many|much|@length|@row|WHO|off
covered = WHERE|miss|missed|forget|forgot cut|miss|missed @lone @few !@wall|@board|@row|COATING|SCREW|@supports
cut list $on? = CUTS list|sizes|size|lengths|cuts|cutlist|first|next|ceiling @lone !@thing|out|@row|@fix|@length|need|anything
cut list = WHAT|how cut|length @room|piece|end|side @lone !SCREW|@thing|@row|@fix|@length|need|anything|out|order|not|left|still|yet|did
layout = joint|joints|butt|butts|seam|seams
layout = layout|lay|laying|laid|standing|per|rows how|WHAT|or|many @lone !WHO|@wall|COATING|@row|left|LEFT|HUNG|up|go|more|done|light|lights|screws|WOOD|@supports
layout = long|length|lengths WHAT|how|which board|rows|ceiling|sheet @lone @few !@row|@wall|@length|many|longest|need|heavy|piece|last|cut|short
layout = @board land|lands|break|breaks|run|go WOOD|across|along !SCREW|@thing|many
layout = WHICH|WHAT|where start|starting|starts|begin|first|count|counts side|end|wall|edge|corner|off|board|piece @lone @few !@thing|COATING|both
layout = WHICH|WHAT|how|or|do way|direction|along|across|lengthwise|crosswise|ew|ns they|it|that|this|them|board|boards|run|go|hang|lay|lie @lone !WOOD|@thing|@row|many|much
whats row 1 = first board|piece|row length|size|long|wide|width|big @lone @few !@length|@row|@wall|WHO|WHEN|HUNG|longest|start
whats bottom row = rip|ripped|taper|tapers|tapered|last|final|end rip|ripped|row|piece|strip|one|board|course @lone !@length|@thing|hung|up|many|WHO|WHEN|said|say|did
$rest = @lengths WHAT|how|size top|last|left|rest|remaining|bottom|piece wall|board|boards|high|height|wide !SCREW|@thing
list board = get|fit|fits|gets|make|bring|carry|come @boardsof|longest up|in|stairs|through|around|there MAY|WHAT|is|do
cuts = notch|notched|notches WHICH|WHAT|where|any|has @lone @few
status = many rows HUNG @lone @few
how many boards up = much|anything|any up|hung|gone|went @lone @few !@row|@wall|@board
how many boards up = @board many|much up|hang|hung|put|installed !@row|LEFT|need|needs|more|order|take|takes|cut|@boardsof|hand
bring tomorrow = WHAT pick|grab|need|buy|get|bring|take tomorrow|bring @lone @clean ?yard|up
whats left to hang = when|long finish|finished|done @lone @few !@length|COATING
whats left to hang = many|much|which|any rows|row|much go|left|more|remain @lone @few !@board|@row
whats left to hang = WHAT|how|much left|still|remain|remaining put|hang|hung @lone @few !@board
order = many @board eat|take|use|need|for|go|more|@clean @lone !LEFT|up|hung|did|you|got|have
boards on order = order|ordered|backorder|backordered on|still|yet|coming|been|did @lone @few !enough|@row|@length|need|short|look|screws|who|to
boards on order = WHAT|anything|any coming|come|due|arriving still|yet|us|tomorrow|monday|tuesday|wednesday|thursday|friday @lone @clean !WHO|@trade
boards left = many @lone @clean now|left|got|have
boards left = many @board got|have|there|now @lone @few !up|HUNG|need|@row|take|put|use
boards left = @board many|much|count|any|how|got|where LEFT !need|order|hang|finish|enough
order = out run|runs|running @board|@boardsof !SCREW
order = @board enough|short|order|ordering|need|needed|finish|more !screws|screw|@row
order = @boardsof|@board MAY|is|do|have do|cover|reach|OK|enough @lone @room|ceiling|both|rest|all !SCREW|@row|WHERE|WHO|WHEN|cut
order = all|total|every|each|whole|altogether|three|both|for|in room|house|job|place|everything|altogether|@rooms|ceiling|walls @board|SCREWS|many|need @lone @few !up|HUNG|left|cut|WHERE
order = WHAT buy|order|pick|get|need yard|order|store|@room @lone @clean ?look|like|up
order = order|ordering|enough|short @lone @room|@here|@clean !SCREW|@length|@row|square|COATING ?ceiling|walls|finish|more
whats $piece = how|what|which|where|cut big|long|length|size|cut|go @piece
whats row $row $on? = cut|cutting|read|give|size|length|big|biggest|long|longest|pieces @row @lone !SCREW|BOARDED|up|done|put
whats row $row = WHAT|how|does|need @row @lone @few !SCREW|waiting|wait|wrong|doing|up|hung|hang|up|put|boarded|done|many|WHO|WHEN|over|above|behind|under|anything|after|next|before|first|did|said|over|in|take|takes|going
boards left = WHEN|what|is|any @board|delivery|truck arrive|arriving|arrives|come|coming|comes|due|delivered @lone @few !@row|type|thick|WHO
who hung row $row = WHO|WHEN|time|day|is HUNG|boarding|put|did @row @lone
top or bottom first = first|start top bottom
what goes up first = first|before walls ceiling or|do|hang|board
snags = many open still @lone @clean
snags = snag|snags|popped|punch|deficiencies !who|when
list size = @supports|beams|rafters @lone ASK|where|spacing|apart !@row|left|bowed|used|who|when|HIT|between
how square is it = square @room|room|it|corners|walls ASK
list everything = open WHAT @lone @room !@wall
status = open WHAT|anything|everything|all @lone !@wall
list everything = behind|above|under|over WHAT|anything|something there|that|it|here|this @lone @clean
list everything = behind|above|buried|in WHAT|anything ceiling|board @lone @room !@boardsof|hang|thick|type|rated|live
list everything = WHAT|list|show have|got|noted|there|all|know|everything @lone @here|@room @clean !many|much|COVER|cut|open|left ?about|tell
list everything = WHAT|show @room @lone @clean !@wall|@row|@board|WHEN|CUTS|SCREW
list board = thickness|thick|longest|rated|fireboard|using WHAT|how|is @lone !many
list board = @board ASK|do|should thickness|thick|type|green|purple|moisture|waterproof|fire|fireboard|rated|longest|kind|regular @lone !many|where|@wall
find $thing = @thing covered|buried who|when !@several
who hung ceiling = day|date|WHEN|WHO HUNG|CLOSE|put|closed|covered ceiling|@room|that|this|them @lone !@row|@wall|SCREW|pass|signed|missing|COATING

# what all words are known of
~gap $length = cut|gap|opening @length @lone !@support|@supports|@wall
~- = @length !WHERE
~- = @row @lone !what|any|anything|something|which
~anything over row $row = @row @lone
~any $kind over row $row = @row @thing !@named
~find $support $off? = @support @lone !between|many where|at|location|position|distance|whereabouts|how
~list size = @support|@supports @lone many|between|@supports !where|location|position|distance|whereabouts
~help fix = how do|can add|enter|type|tell @thing moved|wrong !me|us
~help $kind = how do|can add|enter|type|tell @thing !me|us
~find $thing = did|is|have cut|cutting|open|opened|covered|buried @thing !WHO|WHEN|SAID|@several|@run
~log $thing = @thing WHO|WHEN|@trade
~list $kinds $on = @wall !how|which|where|location|position|distance|whereabouts|@named
~covered = covered|buried @lone !@wall
~list everything = read|give|list|show|tell|everything back|everything|all|them @lone !screw|screws|cut
~list size = how|WHAT big|size|high|height|long|wide @lone room|ceiling|@room
~list size = what|which wall @lone
~find $label $off = how|where @label @off @lone
~- = @lone
~what lies between $thing, $other = @two between WHAT|anything|any|something !far|distance|apart|close
~apart $thing, $other = @two apart|between|from|distance|to|close|closer|further|farther|higher|lower|nearer how|where|WHAT|distance
~- = @two
~covered = @several covered|behind|buried|hidden|closed|cut|uncut !@named
~list $kinds = @service|@several !@named
list $kinds = number|count|total|many @thing !@named|@row|@wall|WHO
~list $kinds = any|anything|there|much|many|list|show|give|have|got|numbers|distances|measurements @thing !@named
~find $thing $off? = not|lost|forgot|forget|looking|trying|any|no|need|gimme|give|get find|see|know|where|lost|remember|looking|idea|clue|for|location|position|spot|place|off|distance|quick @thing !WHEN|how
~find $thing $off? = how|WHAT|WHERE|read|give|tell|show|remind|@off @thing
~find $thing $off? = is|did|have|do @thing @support|@supports|cut|get|got|covered|buried|open|opened|closed|found|noted|note|behind|there|clear|centred|centered
~find $thing $off? = @mark @thing !is|did|do|can
`)

// orders are what somebody says to do or not to do with a thing, likewise.
var orders = rows(`
check add $thing has to stay reachable = never|nobody|noone|no|not COVER|lidding|boarding|burying|buries|covers @thing !@length|@two|@row|@fix|@fixes|until|till|before|yet|needs|need|ceiling|wall|first|been|was|is|are
check add $thing has to stay reachable = leave|keep|must|has|have|needs|stay|stays|make|need KEEP|access @thing !@length|@two|@row|until|till|before|ceiling|first|no
check add $thing has to stay reachable = must|has|needs|have stay|be|remain open|uncovered @thing !@length|@two|@row|until|till|before
`)

// classes are words that ask for the same.
var classes = map[string]string{
	"ASK": "what which is how", "WHAT": "what which", "WHICH": "which", "CARRY": "hold holds carry carries take takes support bear hang mount put", "LOAD": "heavy weight people person kids tv mirror shelf shelves cabinet cabinets swing bike rack lb lbs pounds kg picture hammock bookcase",
	"WHO": "who", "WHEN": "when",
	"WHERE": "where whers whereabouts location position distance find locate looking lost see",
	"DONE":  "did do done doing finish finished complete completed happened worked", "SAID": "say said note noted tell told read log entry sent send wrote write text texted message put",
	"HIT": "hit hits land lands landing fall falls clear clears sit sits catch catches foul interfere", "WOOD": "strap straps strapping joist joists stud studs framing wood support supports rafter rafters truss beam beams furring batten battens lumber channel",
	"MAY": "can could may should ok okay safe safely allowed alright good will would must supposed", "OK": "ok okay good fine alright", "NOT": "not never must without",
	"COVER": "cover covered covering bury buried burying hide hidden close closed board boarded conceal concealed lid sheet", "KEEP": "reachable access accessible accessable exposed serviceable unburied uncovered",
	"HIDDEN": "cover covered covering bury buried hide hid hidden", "CLOSED": "closed shut boarded hung up lidded covered sheeted", "BOARDED": "hung hang hanging boarded lidded sheeted", "HUNG": "hung hang hanging up boarded lidded sheeted installed on",
	"SCREW": "screw screws screwed screwing nail nails drill drilling anchor hook hooks", "SCREWS": "screw screws", "CUTS": "cut cuts cutlist",
	"CLOSE": "close closing cover covering lid board boarding go shut", "PASS": "pass passed passes ok okay ok'd test tested inspect inspected sign signed approved good failed fail complete",
	"LEFT":    "left leftover leftovers remaining remain kicking around extra spare now still count site",
	"COATING": "coat coats recoat sand sanding sanded prime priming mud skim paint repaint", "TRADE": "tape taping taper tapers plasterers paint painting painter painters mud mudding skim skimming plaster plasterer prime priming finish finishing",
	"BACKING": "backing block blocking nailer backer solid plywood wood", "HOLD": "hang hanging mount attach fasten heavy weight",
}

// row is one row of the table.
type row struct {
	means string
	plain bool // all words have to be known, or nearly all
	own   bool // it says itself how many may be unknown
	needs []group
	part  map[string]bool // the words that it needs, which are known in it
}

// group is a choice of words, of which one has to be said, or none.
type group struct {
	none  bool
	any   bool // any of them may be said, or none
	words []string
}

// rows parses the table.
func rows(text string) (all []row) {
	for line := range strings.Lines(strings.TrimSpace(text)) {
		means, needs, ok := strings.Cut(strings.TrimSpace(line), " = ")
		if !ok {
			continue
		}
		r := row{part: map[string]bool{}}
		r.means, r.plain = strings.CutPrefix(means, "~")
		r.own = strings.Contains(needs, "@few") || strings.Contains(needs, "@any")
		for said := range strings.FieldsSeq(needs) {
			var g group
			said, g.none = strings.CutPrefix(said, "!")
			said, g.any = strings.CutPrefix(said, "?")
			for w := range strings.SplitSeq(said, "|") {
				if class, ok := classes[w]; ok {
					g.words = append(g.words, strings.Fields(class)...)
				} else {
					g.words = append(g.words, w)
				}
			}
			if r.needs = append(r.needs, g); !g.none {
				for _, w := range g.words {
					r.part[w] = true
				}
			}
		}
		all = append(all, r)
	}
	return all
}

// fits reports whether the question has what the row needs.
func (r row) fits(q *query) bool {
	return !slices.ContainsFunc(r.needs, func(g group) bool {
		return !g.any && slices.ContainsFunc(g.words, func(w string) bool { return q.has(w, r) }) == g.none
	})
}
