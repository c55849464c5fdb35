package question

import (
	"slices"
	"strings"
)

// The questions by topic. A row is one of our lines and what a question needs to mean it, in any order: one
// word of each group; of a group with ! none; those of a group with ? may be said. Words in capitals stand for a class, those with @ for a part of
// the question. What begins with $ is put in from it, and a row whose own part is missing does not fit, unless
// there is a ? behind it. The first row that fits is taken; - takes the question out. A row with ~ needs all
// words of the question to be known, or nearly all.
var table = rows(`
# the log
status = everything|all|rooms status @any
status = room by @any
log today = miss|new|changed|happened today|morning|since|while @lone @few !yesterday
log yesterday = miss|new|changed|happened|DONE yesterday @lone @few !@wall|@row|@board
log today = WHO DONE WHAT|today @lone @clean !@row|@wall|@board|@room|ceiling|lid|lids
log today = WHAT|anything new @lone @clean
log today = WHAT did|have|has do|done|note|noted|get i|we @lone @clean !@wall|@room|@row|next|yesterday|last ?today
log = WHO measured|noted|entered @lone @room @clean
log of $thing = WHAT did|have @thing i|we|you SAID ?about
log of $thing = who|whos|who's @thing @length
log last = last|just SAID|send|sent|got|get|save|saved i|me|my|mine @lone @clean !today
log $trade = @trade WHAT did|has|have|all DONE|SAID @lone @few !@board|@row|@wall

log yesterday = anything|WHAT since yesterday @lone @few
log today = how much done|finished today @lone @few
log $trade = @trade did|has|have SAID anything|something|any @lone @few
log last = message|last|one saved|logged|noted|through|told|said my|i @lone @few

# how it stands
status = rundown|summary|overview|update|recap @lone @few
status = which|WHAT rooms|ceilings|lids closed|done|up|finished|boarded|hung|left|open @lone @few
how many boards up = anything|any gone|went|hung up @lone @few
status = how's|hows @lone @room !@board
status = status @room|@clean
status = how along @lone
status = is|are done|finished|closed|complete @lone @room @clean !wall|@check
status = how far we|i get|got|gotten|are @lone @clean
status = where are we at @lone @clean
status = hows|how's|how it|things|everything|all|we going|coming|looking|doing @lone @clean
status = is|are|did|has|anybody|anyone|somebody hung|hang|boarded|lidded|sheeted @lone @room !@length|SCREW|@row|@wall|@board|WHEN|WHO|WHAT
how clear is $thing = HIT @thing WOOD|anything|something !SCREW|WHERE|@length|many
how clear is it = HIT it|that|this|they|those|these|one|both|them WOOD|anything|something|clear @lone !SCREW|@length|@support|WHERE|hang|mount
how clear is $thing = did|does|end|ended|sit|sitting on|under WOOD @thing !@length|many|which
how clear is $thing = WHAT|how @thing WOOD nearest|closest|nearer|close|clear !@length|SCREW
how clear is it = am|is|are on|onto WOOD @lone @clean !@length|@thing
how clear is it = is stud|strap|joist|rafter there|here @lone @clean !@length|@room
how clear is it = any|is|are|that|all|look issue|issues|problem|problems|ok|okay|good|alright|fine|trouble|clash|clashes @lone @clean !@room|CLOSE|PASS

# what may not be covered, and what is next
what stays reachable = @panel|KEEP|access WHAT|anything|any|need|needs|needed|have|has|must|do|does|everything|should|which|something @lone @few !@length|@wall
what stays reachable = list|show|WHAT stay|stays|staying|remain open|accessible @lone @few
stays reachable $thing = @thing KEEP|@panel @few !WHERE|WHO|many|HANG|WHEN
stays reachable $thing = @thing COVER MAY|need|has|have|allowed @few !WHERE|WHO|WHEN|yet|@row|still
stays reachable $thing = @thing get|reach at|to can|could|will|able @few
stays reachable it = it|that|this KEEP|COVER MAY|need|has|have|does @lone @clean !@room|ceiling|lid|wall|@board|close
what stays reachable = WHAT|anything|something|everything|any cant|can't|cannot|mustnt|must|shouldnt|shouldn't|never COVER|KEEP @lone
what stays reachable = WHAT|anything|something|everything|any not should|can|supposed COVER|KEEP @lone
todo = WHAT|where next|start|begin|tackle @lone @clean !@board|@row|SCREW|cut|hang|top|walls
todo = WHAT should|supposed|can|gonna doing|do|tackle i|we|me @lone @clean !@length|SCREW|cut|hang
todo = WHAT|how left|still|remains|remaining|needs do|done|finish|doing @lone @few !@board|SCREW|@wall|cut|hang|hung
todo = WHAT forget|forgot|missing|forgotten|outstanding|unfinished @lone @clean !cover|covered|buried

# the piece over a thing
whats piece over $thing = piece|board|sheet size|big|long|wide|cut|WHAT around|round|over|covers|covering|at|by|next|with @thing !@row|@fix|WHERE|WHO|DONE|up
todo = WHAT happen|happens|want|remains|remain still|now|next|before|us @lone @few !@board|SCREW|@wall
ready = anything|something|WHAT gotta|need|must|do|check before lid|ceiling|close|closing|board|cover|drywall @lone @few !@row|HIT|SCREW
todo = ready|start|begin|good tape|taping|paint|painting|mud|mudding|prime|priming|finish|finishing @lone @room @few
ready = everything|all|any|anything|is place|set|reason board|lid|close|hang|cover|boarding|closing @lone @few

# screws, and what they meet
notes on $all = safe cut|drill|open @lone @few !@fix
reach $screw = go|over|near|through|under|HIT @length @thing !@fix|WOOD|WHERE
how many screws = SCREWS use|need|should|which @lengths
reach $screw? at $fixes = @fixes HIT|MAY|above|behind|over|under|screw|there|anything|what|whats|what's|hook|drill
reach $screw? at $fix = @fix screw|drill|nail|hook|anchor|screws MAY|where|HIT !@thing
reach $screw = SCREWS @length MAY|use|ok !@lengths|@fix|far|spacing|apart|many
reach $screw? = SCREW HIT|MAY|avoid|miss|where !popped|snag|snags|wrong|spacing|length|many|much|long|longest|use
covered = everything|all|anything cut is|are @lone @clean
covered = cover|covered|bury|buried anything|something|any did|have|has @lone @few !@wall|@row|who|when
list size = hang|mount|attach|put WOOD WHERE @lone @any !@board|hung
covered = WHAT|list|show|everything|all cover|covered|buried|bury|hidden|hide|hid @lone @few !@wall|MAY|need|not|NOT|@row|who|when
reach = hang|mount|attach|fasten|swing MAY from|into ceiling|lid|wall|walls @lone @few !@board
reach = how deep MAY|before|safely SCREW|go|drive|i|we !many|@named
notes on $all = @live is|are|was|any|still !@row|@length
any $kind noted = @run near|nearby|close|around|hit|by is|are|any|theres|there's|do|will|would|isnt|isn't
ready = what|whats|what's|something|anything|who|whos stopping|holding|stops|blocking|hold|holdup|delay !@thing
ready = close|closing|cover can|could|ok @lone @room !WHO|WHEN|did|@wall|wall|window|door
ready = board|lid can|could we|i @lone @room !WHAT|use|many|how|where|SCREW|@wall
ready = close|closing|closed|cover|ready|go|lid can|could|ok|okay|good|ready @lone @room !WHO|WHEN|did|open|@wall|wall|reachable
ready = ready|good|ok|okay skim|skimming|plaster|tape|taping|mud|mudding @lone @few !coat
ready = close|closing|ready|cover can|could|ok|okay|good|ready @lone @clean it|up|ceiling|lid|this|rest|everything !WHO|WHEN|did|open|@wall|wall
ready = CLOSE|boarding|hanging|lidding anything|something|WHAT|all|everything missing|forgot|forget|forgotten|forgetting|miss|missed|before|need|stopping|holding @lone !@row|@board|order
state of $check = @check is|are|was|were|has|have|had|did|does|get DONE|PASS|been|in !WHO|WHEN|WHERE|said|say|day|@wall|@trade

# boards
covered = cut|cutting out left|still|remaining|need|needs|yet @lone !@row|list
cut list on $wall wall = cuts|cutlist|list @wall cut|cuts|cutlist @lone !@thing|out|@row|@fix|need|anything
cut list = cut list|cutlist|sizes|lengths @lone !@thing|out|@row|@wall|@length|need|anything
cut list = cuts|cutlist @lone !@thing|out|@row|@wall|need|anything
cut list = WHAT cut first|next|ceiling|lid @lone !@thing|out|@row|@wall|@length|need|anything
whats bottom row = wide|width|size|big|long|WHAT rip @lone !@length|@wall
whats bottom row = wide|width|size|big|long last row|piece|strip|rip @lone !@length|@wall|@thing
how many boards up = @board many|much up|hang|hung|put|installed|on !LEFT|need|needs|more|order|take|takes|cut|@boardsof|hand
bring tomorrow = WHAT pick|grab|need|buy|get|bring|take tomorrow|tmrw @lone @clean ?yard|up
order = WHAT buy|order|pick|get yard|order|store @lone @clean ?look|like|up
order = many more @board
order = order need|anything|have|should @lone @clean
whats left to hang = when finish|finished|done @lone @few !@length|coat
whats left to hang = many|which rows go|left|more|remain @lone @few
order = how|what much|about mud|tape|compound|bead|plates|material|materials @lone ?corner|board
cuts = WHAT|how|where|is cutlist|cut list|cutlist|first|next|look @lone @few
status = many rows up|hung|on @lone @few
order = many @board eat|take|use|need|for|go @lone !LEFT|up|hung|did|you
whats left to hang = how much left @lone @clean
how many $boards left = @boardsof many|much|count|any|hows|how's|got|where LEFT !need|order|hang|finish
boards left = @board many|much|count|any|hows|how's|got|where LEFT !need|order|hang|finish
order = @board enough|enuf|short|order|ordering|need|needed|finish !screws|screw|@row
order = order|ordering|enough|enuf @lone @room|@here !screws|screw|@row
order = enough|enuf|short finish|have|got|we|is|it|that @lone @clean ?lid|ceiling|walls
whats $piece = how|what|which big|long|length|size|cut @piece
whats row $row = read|give|size|length|big|long|pieces @row @lone !SCREW
who hung row $row = WHO|WHEN hung|hang|hanging|boarded|boarding|put|up|did @row @lone
who hung $wall = WHO|WHEN hung|hang|hanging|boarded|boarding|up @wall @lone
list board = WHAT @board using|use|this @lone @clean
how many screws = SCREWS @lone spacing|apart|long|length|size|count|many|boxes|far !HIT|wrong|popped|snag|snags|missed|@row|@thing
how many screws = SCREWS @lone WHAT !@lengths|HIT|wrong|popped|snag|snags|missed|@row
layout = wide|width|size last|first|end row @lone !@row
layout = joint|joints|butt|butts|seam|seams !taped|mud
layout = how|WHAT way|direction they|boards|board|sheets|drywall|sheet run|go|lie|lay @lone !@supports
top or bottom first = first|start top bottom
what goes up first = first|before walls ceiling|lid|lids or|do|hang|board
notes on coat = when|left|next|ready|long sand|sanding|sanded|coat|recoat|prime|priming|mud @lone @clean !ceiling|lid
snags = many open still @lone @clean
snags = snag|snags|popped !who|when
list $kinds = gap|between|apart two|both|three|all @several !@named|@two
list $kinds = apart @several !@named
list size = @supports @lone ASK|where|wheres|where's|spacing|apart !@row|left|bowed|used|who|when|whats|what's|HIT|between
how square is it = square @room|room|it|corners|walls ASK
list everything = open WHAT @lone @room !@wall
status = open WHAT @lone !@wall|need|@length|leave|keep
list everything = behind|above|buried|in WHAT|anything ceiling|lid|board|drywall @lone @room !@boardsof|hang|thick|type|rated|live
notes on $label = WHAT|anything above|over|behind|under|by|near|around|beside @label @lone !@length|@board|size|big|long|piece
list everything = WHAT|list|show have|got|noted|there|all|know|everything @lone @here|@room @clean !many|much|COVER|cut|open|left
list everything = whats|what's|what @room @bare
list board = @board ASK|does|do|should thickness|thick|type|green|purple|moisture|fire|fireboard|rated|x|longest|kind|regular @lone !many|@wall
list board = rated|fireboard|thickness|thick WHAT|is|are|was how|rated|fireboard ceiling|lid|wall|walls @lone @few
list board = thickness|longest @board|@length @lone !@support|@supports|strap|straps
find $thing = @thing covered|buried who|when|whod !@several
who hung ceiling = day|date up|hung|closed|boarded|covered|lidded ceiling|lid|@room @lone @few !@row|@wall|@board
who hung ceiling = WHEN board ceiling|lid @lone
who hung ceiling = WHEN|WHO CLOSE|put|hung|hang|hanging|boarding|boarded|up|lidded|covered ceiling|lid|@room @lone !@row|@wall|@board|SCREW|pass|signed|missing

# what all words are known of
~cut list = cut|cuts|cutlist list|sizes|size|lengths|cuts|cutlist @lone !@thing|out|@row|@wall|@length|need|anything
~whats bottom row = size|width|wide|long last piece|strip|rip|row @lone !@length|@wall|@thing
~gap $length = cut|gap|opening @length @lone !@support|@supports|@wall
~reach $screw = screw|screws hit|reach|catch|through @length !@lengths
~find $thing = is|was|are @thing @fix !SCREW|HIT
~find $thing $off? = where|wheres|where's @thing @length !@fix
~- = @length
~how clear is $thing = HIT @thing clear|fall|falls|land|lands
~reach = screw|screws|screwing where|can|safe|should|shouldnt|shouldn't|hit @lone !many
~how many screws = screw|screws @lone what|whats|which|how|spacing|length|long !@row
~- = @row @lone !what|whats|what's|any|anything|something|which
~- = hung|hang|hanging
~- = sheets|boards
~- = many screws
~anything over row $row = @row @lone
~find $thing = WHERE @thing @row @named
~any $kind over row $row = @row @thing !@named
~list size = @support|@supports many @lone
~find $support $off? = @support @lone !between where|wheres|where's|location|position|distance|whereabouts|how
~list size = @supports @lone !where|wheres|where's|location|position|distance|whereabouts
~list size = between @support @lone
~- = @support|@supports @lone
~log $thing = @thing @trade SAID
~log $trade = @trade @lone what|whats|what's|when SAID|put|write
~- = @trade @lone
~help fix = how do|can add|enter|type|tell @thing moved|wrong
~help $kind = how do|can add|enter|type|tell @thing
~log $thing = @thing who|whos|who's|when|whens
~list $kinds on $wall wall = @wall !how|which|where|wheres|where's|location|position|distance|whereabouts|@named
~covered = covered|buried @lone !@wall
~list everything = read|give|list|show|tell|everything back|everything|all|them @lone !screw|screws|cut
~list everything = WHAT|have|got|know have|got|know|noted|there|in room|ceiling|lid @lone !big|size|high|height|long|wide|how|which|wall
~list size = how|WHAT big|size|high|height|long|wide @lone room|ceiling|lid|@room
~list size = what|which wall @lone
~covered = cut|cutting|covered|buried|closed left|havent|haven't|still|needs|not|yet|any|didnt|didn't @lone
~find $label $off = how|where|wheres @label @off @lone
~- = @lone
~what lies between $thing, $other = @two between WHAT|anything|any|something !far|distance|apart|close
~apart $thing, $other = @two apart|between|from|distance|to|close|closer|further|farther|higher|lower|nearer how|where|wheres|where's|WHAT|distance
~- = @two
~covered = @several covered|behind|buried|hidden|closed|cut|uncut !@named
~list $kinds = @service
~list $kinds = @several !@named
~find $thing $off? = inches|feet|mm|cm @thing @off
~list $kinds = any|anything|there|much|many|list|show|give|have|got @thing !@named
~find $thing $off? = cant|can't|cannot|dont|don't|lost|forgot|forget|looking|trying|any|no find|see|know|where|lost|remember|looking|idea|clue|for @thing !WHEN|how
~find $thing $off? = need|gimme|give|get location|position|spot|place|where|off|distance|quick @thing
~find $thing $off? = how|WHAT|read|give|tell|show|remind @thing
~find $thing $off? = is|are|was|were|did|has|have|do|does @thing @support|@supports|cut|get|got|covered|buried|open|opened|closed|found|noted|note|behind|there|clear|centred|centered
~find $thing $off? = @mark @thing !is|are|was|were|does|did|do|can
~find $thing $off? = WHERE @thing
`)

// orders are what somebody says to do or not to do with a thing, likewise.
var orders = rows(`
check add $thing has to stay reachable = dont|don't|never|nobody|noone|no|not COVER|lidding|boarding|burying|buries|covers @thing !@two|@row|until|till|before|yet|needs|need|ceiling|lid|wall|first|been|was|is|are
check add $thing has to stay reachable = leave|keep|must|has|have|needs|stay|stays|make|need KEEP|access @thing !@two|@row|until|till|before|ceiling|lid|first|no
check add $thing has to stay reachable = must|has|needs|have stay|be|remain open|uncovered @thing !@two|@row|until|till|before
`)

// classes are words that ask for the same.
var classes = map[string]string{
	"ASK": "what whats what's which is was are were how", "WHAT": "what whats what's which wht", "WHO": "who whos who's whod", "WHEN": "when whens",
	"WHERE": "where wheres where's where'd whers whereabouts location position distance find locate looking lost see",
	"DONE":  "did do does done doing finish finished complete completed happened worked", "SAID": "say said note noted tell told read log entry sent send wrote write text texted message put",
	"HIT": "hit hits land lands landing fall falls clear clears sit sits catch catches foul interfere", "WOOD": "strap straps strapping joist joists stud studs framing wood support supports rafter rafters truss beam furring batten battens lumber channel",
	"MAY": "can could may should shouldnt shouldn't must ok okay safe safely allowed alright good will would cant can't supposed", "NOT": "not cant can't cannot mustnt mustn't must shouldnt shouldn't never dont don't without",
	"COVER": "cover covered covering bury buried burying hide hidden close closed board boarded conceal concealed lid sheet", "KEEP": "reachable access accessible accessable exposed serviceable unburied uncovered",
	"SCREW": "screw screws screwed screwing nail nails drill drilling anchor hook hooks", "SCREWS": "screw screws",
	"CLOSE": "close closing closed cover covering lid board boarding go", "PASS": "pass passed passes ok okay ok'd test tested inspect inspected sign signed approved good failed fail complete",
	"LEFT": "left leftover leftovers remaining remain kicking around extra spare now still count",
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
