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
notes on $all = photo|photos|pic|pics|picture|pictures @any !hang|hook|heavy|many|ready|PASS|where|want|WHO|add
status = all|everything|rooms|room status|by @any
log today = miss|new|changed|happened today|morning|since|while @lone @few !yesterday
log yesterday = miss|new|changed|happened|DONE|anything|WHAT yesterday @lone @few !@wall|@row|@board|COATING
log today = WHO DONE|been WHAT|today @lone @clean !@row|@wall|@board|@room|ceiling
log today = WHAT|anything|much new|done|finished new|today @lone @clean
log today = WHAT did|have do|done|note|noted|get we @lone @clean !@wall|@room|@row|next|yesterday|last ?today
log = WHO measured|noted|entered @lone @room @clean
notes on $all = WHAT did|have SAID @run @trade
log = WHO|WHAT last did|do|in|here|worked @room @lone @few !row|@board|coat|measured|piece|strip|rip
log of $thing = WHAT did|have @thing we|you SAID ?about
log of $thing = WHO @thing @length
log last = last|just|message|one SAID|send|sent|get|got|save|saved|logged|noted|through|told we|me|my|mine @lone @clean !today|yesterday
log $trade = @trade WHAT|anything|something|any did|have|all DONE|SAID @lone @few !@board|@row|@wall

# where the sender is, and how big it all is
list here = where am @lone @clean
list here = which|what room am|this|set|now|we @lone @few !size|big|next|left|first|@board|need|ready|done|best
list area = area|m2|sqm|sqft|sq|footage ASK|size|total|@mark|left @lone @few
list area = square metres|meters|metre|meter|feet|foot|ft|m @lone @few
# what the next trade has to know, and who comes when
handoff = left|ready|next tape|taping|mud|mudding WHAT|how @lone @few !@board|enough|many|much
ready = WHEN can|could|may get|start|come|begin|in|go we @room @lone @few !COATING
ready = MAY COVER @run @few !@fix|@length|WHERE
handoff = WHAT|anything|something tell|know|say|warn should|must|need|do|have|to|for @lone @trade|TRADE !did|said|told|WHEN
todo who = WHO next|tomorrow|today|monday|tuesday|wednesday|thursday|friday|after|coming|tonight|will|works|working|comes|come|starts @room|@trade|TRADE|there|here|ceiling|walls|works @lone @few !hung|boarded|hang|up|did|put|@row|key|keys

# how it stands
status = rundown|summary|overview|update|recap @lone @few
status = WHAT|any|all|everything rooms started|begun|start @lone @few
status = WHAT|any|all|everything rooms|ceiling CLOSED|done|left|open|finished @lone @few
status = hows|how's @lone @room !@board
status = status @room|@clean
status = how along|it|things|everything|all|we along|going|coming|looking|doing|get|got|gotten @lone @clean !@row|many|much|@length
status = where everybody|we|you|they|it|things|that at|with|standing|stand @room @lone @few !@row|@wall|start
list everything = WHAT did|have we|you put|note|log @room @lone @few !today|yesterday
list size = sizes|dimension|dimensions|measurement|measurements|height|width|length|size @room|room|ceiling|@mark @lone @clean !last|first|final|piece|strip|rip|@length|@row|@board
status = how|where we at|far|along @lone @clean !SCREWS|apart
status = is|@mark done|finished|closed|complete @lone @room @clean !wall|@check|WHEN|WHO
status = is|did|have|anybody|anyone|somebody BOARDED @lone @room !@length|SCREW|@row|@wall|@board|WHEN|WHO|WHAT
how many boards up = anything|any gone|went|hung up @lone @few
how clear is $thing = HIT @thing WOOD|anything|something !SCREW|WHERE|@length|many
how clear is it = HIT it|that|this|they|those|these|one|both|them WOOD|anything|something|clear @lone !SCREW|@length|@support|WHERE|hang|mount
how clear is $thing = did|do|end|ended|sit|sitting on|under WOOD @thing !@length|many|which
how clear is $thing = WHAT|how @thing WOOD nearest|closest|nearer|close|clear !@length|SCREW
how clear is it = is on|onto|there|here|clear WOOD @lone @clean !@length|@thing|@room|WHAT|how|WHERE|spacing|@supports
how clear is it = any|is|that|all|look issue|issues|problem|problems|OK|trouble|clash|clashes @lone @clean !@room|CLOSE|PASS

# when the next coat may go on, and what holds a weight
order = heavy|weigh|weighs|weight board|boards how|what @lone @few !hold|holds|hang|carry|take|ceiling|wall
coat due $air? = many|which coat|coats has|have|is|on|did|got|so @lone @few !need|more|next
order = enough|got|have|much|many|left tape|mud|compound|bead|screws|plates|material|materials|paper|mesh @lone @few !coat|@row|spacing|apart|WHEN|box|boxes|SCREW|where|who
coat due $air? = COATING MAY|WHEN|how|if|dry|again|next|wait|enough|cold|wet|damp @lone !ready|begin|start|WHO|WHERE|@wall|@board|SCREW|need|many|much
what holds = BACKING WHERE|is|any|did|have|anybody|anyone !@length|SCREWS|@boardsof|@trade|PASS
what holds = HOLD MAY|WHERE @lone @few !@board|@row|hung|WHEN|WHO|SCREW|@clean|@fix|@fixes
what holds = WHERE LOAD SCREW|CARRY @any !drill|drilling|@wall|@row|hung|@fix|@fixes
what holds = CARRY LOAD MAY|WHERE|how|much|many|is|do @any !SCREW|@board|@row|hung|@fix|@fixes
what holds = HOLD MAY|WHERE from|into|something|anything @lone @few !@board|@row|hung|SCREW|@fix|@fixes
what holds = WOOD HOLD|SCREW WHERE @lone @any !@board|hung|cut|@length
what holds = heavy|weight|strong|sturdy|lb|lbs|pounds|kg MAY|WHERE|is @any !@board|@row|@fix|@fixes

# what may not be covered, and what is next
what stays reachable = @panel|KEEP|access WHAT|anything|any|need|needed|have|must|do|everything|should|something @lone @few !@length|@wall
what stays reachable = list|show|WHAT stay|stays|staying|remain open|accessible @lone @few
stays reachable $thing = @thing KEEP|@panel @few !WHERE|WHO|many|HANG|WHEN
stays reachable $thing = @thing COVER MAY|need|have|allowed @few !WHERE|WHO|WHEN|yet|@row|still
stays reachable $thing = @thing get|reach at|to can|could|will|able @few
what stays reachable = WHAT|anything|something|everything|any not|never|must can|should|supposed|must|never COVER|KEEP @lone
stays reachable it = it|that|this KEEP|COVER MAY|need|have|do @lone @clean !@room|ceiling|wall|@board|close
todo = WHAT|where next|start|begin|tackle|forget|forgot|missing|forgotten|outstanding|unfinished @lone @clean !@board|@row|SCREW|HIDDEN|cut|hang|top|walls
todo = WHAT should|supposed|can|gonna doing|do|tackle we|me @lone @clean !@length|SCREW|cut|hang
todo = WHAT not done|finished|closed @lone @few !@row|@wall
todo = WHAT do we @room|here|now|there|next|first @lone @few !need|bring|order|buy|get|tomorrow|take|SCREW|cut|hang|use|@wall|@support|@supports|@board|did|put|note|know|say|tell
todo = WHAT want us|me @lone @few !@board|@row|SCREW|cut|hang
todo = WHAT|how left|still|remain|remains|remaining|needs|happen|happens do|done|finish|doing|now|next|before|us @lone @few !@board|SCREW|@wall|cut|hang|hung

# the piece over a thing
find $opening = size|big|wide|high|tall|dimension|dimensions|wide|location|position|measurement|measurements @opening @lone @few !piece|board|sheet|bit|strip|rip|cut|gap|over|above|under|below|beside|@row
whats piece over $thing = is|which|what @thing row on|in|under|behind|land|fall|be @any !@length|hung|up|over
whats piece over $opening = @opening piece|board|sheet|bit|strip|rip|cut|gap|WHAT around|round|over|above|under|below|beside|covers|left|right cut|size|big|long|wide|high|tall|piece|board|bit @lone !@row|@fix|WHO|up
whats piece over $thing = piece|board|sheet size|big|long|wide|cut|WHAT around|round|over|covers|covering|at|by|next|with @thing !@row|@fix|WHERE|WHO|DONE|up
ready = anything|something|WHAT|all|everything missing|forgot|forget|forgotten|forgetting|miss|missed|before|need|stopping|holding CLOSE|hanging|lidding @lone !@row|@boardsof|order|HIT|SCREW|many|yard
todo who = come|comes|coming|start|starts|begin|here|back|in TRADE|@trade WHEN @lone @few !board
todo = ready|start|begin|good|come TRADE @lone @room @few
todo = come|start|begin TRADE MAY @lone @few
ready = everything|all|any|anything|is place|set|reason CLOSE|hang @lone @few

# screws, and what they meet
notes on $all = safe cut|drill|open @lone @few !@fix
reach $screw = go|over|near|through|under|HIT @length @thing !@fix|WOOD|WHERE
reach $screw? at $fixes = @fixes HIT|MAY|OK|SCREW|above|behind|over|under|screw|there|anything|what|hook|drill
reach $screw? at $fix = @fix screw|drill|nail|hook|anchor|screws MAY|OK|@mark|where|HIT !@thing
reach $screw = SCREWS @length MAY|use|about|anything !@lengths|@fix|far|spacing|apart|many|or
how many screws = SCREWS @lengths or|WHAT|use|need|should !HIT|WHERE|@thing|@fix|@wall
how many screws = SCREWS|SCREW edge|edges WHERE|how|what|first @lone @few !rooms|@lengths|@thing|@fix|HIT|over
how many screws = screw WHAT use|take|grab|need|goes|lid|ceiling @lone @few !HIT|@fix|@length|@run|@row|WHERE|say|head|bit
how many screws = SCREWS @lone spacing|apart|long|length|size|count|many|boxes|far|WHAT !rooms|HIT|behind|wrong|popped|snag|snags|missed|@row
reach $screw? = SCREW HIT|MAY|avoid|miss|where !popped|snag|snags|wrong|spacing|length|many|much|long|longest|use
covered = everything|all|anything cut is @lone @clean
covered = WHAT|list|show|everything|all|anything|something|any HIDDEN @lone @few !@boardsof|behind|@wall|MAY|need|not|@row|who|when
reach = deep MAY|before|safely SCREW|go|drive|we !many|@named
notes on $all = @live is|any|still !@row|@length
reach = WHAT|how SCREWS @run @few !@length|@fix
any $kind noted = @run near|nearby|close|around|hit|by is|any|there|do|will|would
ready = what|something|anything|who stopping|holding|stops|blocking|hold|holdup|delay !@thing
ready = CLOSE|closed|ready can|could|OK|ready @lone @room !WHO|WHEN|did|@wall|wall|window|door|reachable|WHAT|use|many|how|where|SCREW|COATING
ready = ready|OK TRADE @lone @few !coat
ready = CLOSE|ready can|could|to|OK|ready @lone @clean it|up|ceiling|this|rest|everything !WHO|WHEN|did|open|@wall|wall
state of $check = @check is|have|did|do|get DONE|PASS|been|in !WHO|WHEN|WHERE|said|say|day|@wall|@trade

# boards
covered = cut|cutting out left|still|remaining|need|needs|yet @lone !@row|list
cut list $on? = CUTS list|sizes|size|lengths|cuts|cutlist|first|next|ceiling @lone !@thing|out|@row|@fix|@length|need|anything
cut list = WHAT|how cut|length @room|piece|end|side @lone !SCREW|@thing|@row|@fix|@length|need|anything|out|order|not|left|still|yet|did
whats row 1 = first board|piece|row length|size|long|wide|width|big @lone @few !@length|@row|@wall|WHO|WHEN|HUNG|longest|start
whats bottom row = rip|ripped|taper|tapers|tapered|last|final|end rip|ripped|row|piece|strip|one|board|course @lone !@length|@wall|@thing|hung|up|many|WHO|WHEN|said|say|did
layout = WHICH|WHAT|where side|end|wall|edge|corner|off|board|piece start|starting|starts|begin|first|count|counts @lone @few !@length|@thing|COATING
layout = run|hang|go|lay|lie|way across|along|lengthwise|crosswise|long|short|ew|ns|direction them|they|it|board|boards|that|this @lone !@length|@thing|@row|many|much|far|WHERE
$rest = @lengths WHAT|how|size top|last|left|rest|remaining|bottom|piece wall|board|boards|high|height|wide !SCREW|@thing
cuts = biggest|longest|widest|shortest|smallest|narrowest|largest piece|cut|rip|strip|one @lone @few !gets|fits|stairs
boards left = offcut|offcuts|scrap|scraps|leftovers any|is|WHAT|where|use|enough|have @lone @few
list board = get|fit|fits|gets|bring|carry|come @boardsof|longest up|in|stairs|through|around|there MAY|WHAT|is|do
cuts = notch|notched|notches WHICH|WHAT|where|any|has @lone @few
how many boards up = @board many|much up|hang|hung|put|installed|on !@row|LEFT|need|needs|more|order|take|takes|cut|@boardsof|hand
bring tomorrow = WHAT pick|grab|need|buy|get|bring|take tomorrow|bring @lone @clean ?yard|up
whats left to hang = when|long finish|finished|done @lone @few !@length|COATING
whats left to hang = many|much|which rows|much go|left|more|remain @lone @few !@board
order = how|what much|about mud|tape|compound|bead|plates|material|materials @lone ?corner|board
status = many rows HUNG @lone @few
order = many @board eat|take|use|need|for|go|more|@clean @lone !LEFT|up|hung|did|you|got|have
how many $boards left = @boardsof many|much|count|any|how|got|where LEFT|got|have !enough|need|order|hang|finish
boards left = @board many|much|count|any|how|got|where LEFT !need|order|hang|finish|enough
order = run|runs|running out|short @board|@boardsof !screws|screw|@row
order = @board enough|short|order|ordering|need|needed|finish|more !screws|screw|@row
order = @boardsof|@board MAY|is|do|have do|cover|reach|OK|enough @lone @room|ceiling|both|rest|all !SCREW|@row|WHERE|WHO|WHEN|cut
order = all|total|every|each|whole|altogether|three|both room|house|job|place|everything|altogether|@rooms @board|SCREWS|many|need @few !up|HUNG|left|cut|WHERE
order = many for|in ceiling|room|walls @lone @few !SCREW|@row|@board|rows|up
order = WHAT buy|order|pick|get|need yard|order|store|@room @lone @clean ?look|like|up
order = order|ordering|enough|short @lone @room|@here|@clean !SCREW|@row|square|COATING ?ceiling|walls|finish
whats $piece = how|what|which|where|cut big|long|length|size|cut|go @piece
whats row $row = read|give|size|length|big|long|pieces @row @lone !SCREW
whats row $row = WHAT|how|does|need @row @lone @few !SCREW|waiting|wait|wrong|doing|up|hung|hang|up|put|boarded|done|many|WHO|WHEN|over|above|behind|under|anything|after|next|before|first|did|said|over|in|take|takes|going
boards left = WHEN|what|is|any @board|delivery|truck arrive|arriving|arrives|come|coming|comes|due|delivered @lone @few !@row|type|thick|WHO
who hung row $row = WHO|WHEN HUNG|boarding|put|did @row @lone
who hung $wall = WHO|WHEN HUNG|boarding @wall @lone
list board = WHAT @board using|use|this @lone @clean
layout = joint|joints|butt|butts|seam|seams !taped|mud
layout = how|WHAT way|direction they|boards|board|run|go|lie|lay @lone !@supports|WOOD
top or bottom first = first|start top bottom
what goes up first = first|before walls ceiling or|do|hang|board
snags = many open still @lone @clean
snags = snag|snags|popped !who|when
list $kinds = gap|between|apart two|both|three|all|apart @several !@named|@two
list size = @supports|beams|rafters @lone ASK|where|spacing|apart !@row|left|bowed|used|who|when|HIT|between
how square is it = square @room|room|it|corners|walls ASK
list everything = open WHAT @lone @room !@wall
status = open WHAT|anything|everything|all @lone !@wall|need|@length|leave|keep
list everything = behind|above|under|over WHAT|anything|something there|that|it|here|this @lone @clean
list everything = behind|above|buried|in WHAT|anything ceiling|board @lone @room !@boardsof|hang|thick|type|rated|live
notes on $label = WHAT|anything above|over|behind|under|by|near|around|beside @label @lone !@length|@board|size|big|long|piece
list everything = WHAT|list|show have|got|noted|there|all|know|everything @lone @here|@room @clean !many|much|COVER|cut|open|left
list everything = what @room @bare
list board = @board ASK|do|should thickness|thick|type|green|purple|moisture|waterproof|fire|fireboard|rated|x|longest|kind|regular @lone !many|where|@wall
list board = rated|fireboard|thickness|thick WHAT|is how|rated|fireboard ceiling|wall|walls @lone @few
list board = thickness|longest @board|@length @lone !@support|@supports|strap|straps
find $thing = @thing covered|buried who|when !@several
who hung ceiling = day|date|WHEN|WHO HUNG|CLOSE|put|closed|covered ceiling|@room @lone !@row|@wall|SCREW|pass|signed|missing|COATING

# what all words are known of
~gap $length = cut|gap|opening @length @lone !@support|@supports|@wall
~find $thing = is @thing centre|center|middle|edge|bottom|top !@length|strap|straps
~- = @length !WHERE
~- = @row @lone !what|any|anything|something|which
~- = hung|hang|hanging|sheets|boards
~anything over row $row = @row @lone
~any $kind over row $row = @row @thing !@named
~find $support $off? = @support @lone !between|many where|location|position|distance|whereabouts|how
~list size = @support|@supports @lone many|between|@supports !where|location|position|distance|whereabouts
~- = @support|@supports @lone
~- = @trade @lone
~help fix = how do|can add|enter|type|tell @thing moved|wrong !me|us
~help $kind = how do|can add|enter|type|tell @thing !me|us
~find $thing = did|is|have cut|cutting|open|opened|covered|buried @thing !WHO|WHEN|SAID|@several|@run
~log $thing = @thing WHO|WHEN|@trade
~list $kinds $on = @wall !how|which|where|location|position|distance|whereabouts|@named
~covered = covered|buried @lone !@wall
~list everything = read|give|list|show|tell|everything back|everything|all|them @lone !screw|screws|cut
~list size = how|WHAT big|size|high|height|long|wide @lone room|ceiling|@room
~list size = what|which wall @lone
~covered = cut|cutting|covered|buried|closed left|still|needs|not|yet|any @lone
~find $label $off = how|where @label @off @lone
~- = @lone
~what lies between $thing, $other = @two between WHAT|anything|any|something !far|distance|apart|close
~apart $thing, $other = @two apart|between|from|distance|to|close|closer|further|farther|higher|lower|nearer how|where|WHAT|distance
~- = @two
~covered = @several covered|behind|buried|hidden|closed|cut|uncut !@named
~list $kinds = @service|@several !@named
list $kinds = number|count|total|many @thing !@named|@row|@wall|WHO
~list $kinds = any|anything|there|much|many|list|show|give|have|got @thing !@named
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
	"LEFT":    "left leftover leftovers remaining remain kicking around extra spare now still count",
	"COATING": "coat coats recoat sand sanding sanded prime priming mud skim paint repaint", "TRADE": "tape taping taper paint painting painter painters mud mudding skim skimming plaster plasterer prime priming finish finishing",
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
