package wording

import (
	"strings"

	"strapline/grammar/pattern"
)

// Otherwise maps lines in other words to lines that the rules read, in which $1 and so on are the groups
// of the pattern. They are tried in lower case after the frame; the first that can be read is taken.
var Otherwise = table(`
	^(?:mud|tape|compound|corner bead|bead|screws) for .*$ => order
	^(?:the )?([a-z]+) (?:side|end) is (?:the |on the )?(WALL)(?: side| end| wall)?$ => $2 is $1 wall
	^(?:the )?(WALL)(?: side| end| wall)? is (?:the )?([a-z]+) (?:side|end)$ => $1 is $2 wall
	^(?:had to |have to |we |i |just )*(?:pull|pulled|took|take|taken|tore|ripped|removed?)(?: back)?(?: down| off| out)? (?:row |r)(\d+)(?: back)?(?: down| off| out)?(?: again)?$ => gone row $1
	^(?:row |r)(\d+) (?:is |was |has |had to |came |come |got |been |fell )*(?:be )?(?:taken |pulled |torn )?(?:back )?(?:down|off|out|isnt up|isn't up|pulled)(?: again| now| yet)?$ => gone row $1
	^ready to (?:board|hang|close).*$ => ready
	^(?:the )?diag(?:onal)?s?(?: (?:nw|ne|sw|se)(?:(?: to |-| )(?:nw|ne|sw|se))?)?$ => how square is it
	^(\d.*?) (?:gap|opening)$ => gap $1
	^gap between \D*\d*\D+ (\d.*)$ => gap $1
	^(?:no )?(.*?),? (?:thats|that's|that is) (?:a mistake|wrong)$ => delete $1
	^\d+ (SUPPORTS) (east-west|north-south), (.*) on centre, first (.*), last .* (off \w+)((?:, .* thick)?)$ => $1 $2 $3 oc first $4 $5$6
	^\d+ (SUPPORTS) ((?:east-west|north-south|upright) at .*)$ => $1 $2
	^((?:strap|joist|stud|channel) \d+) runs (from .*)$ => $1 $2
	^(FACE) \d+ (SUPPORTS)( \S+|),? (.*) on centre, first (.*), last .* (off \w+)$ => $2$3 $4 oc first $5 $6 on $1
	^(FACE) \d+ (SUPPORTS) (.*at .*)$ => $2 $3 on $1
	^(WALL) wall (window) (\d.*?) x (\d.*?): (\d.*?) to \d.*? off (\w+), (\d.*?) to \d.*? up(?: off the finished floor)?$ => $2 $3 x $4 on $1 wall $5 off $6 $7 up
	^(WALL) wall (door) (\d.*?) x (\d.*?): (\d.*?) to \d.*? off (\w+), \d.*? high$ => $2 $3 x $4 on $1 wall $5 off $6
	^(FACE) (.*\d.*)$ => $2 on $1
	^(?:the )?(?:ceiling |lid )?slopes? (?:down )?(?:from )?(\S+) (?:down )?to (\S+) (?:to |at |on )?(?:the )?(WALL)(?: wall| side)?$ => slope $3 $1 to $2
	^on hand (.*)$ => stock $1
	^((?:WALL)(?: wall)?) is finished and stays where it is$ => $1 finished
	^(.*\S) open$ => open $1
	^new job (?:is |at |on )?(.*)$ => job $1
	^straps? (?:are|is) (?:actually|really|only) (\d.*?)(?: thick)?$ => straps $1 thick
	^(?:longest|longest board) (?:in )?is (\d+)(?:'| ?ft| foot) .*$ => longest in $1'
	^(?:the )?(.*) is (\d+ ?x ?\d+)$ => fix $1 $2
	^bulkhead (?:along|across|on|down) (?:the )?(WALL)(?: side| wall)?(?: for [a-z ]*)?,? drops? (\d.*?)(?: in)? and (?:sticks|comes) out (\d.*)$ => bulkhead $3 x $2 along $1
	^(straps|studs|joists)(?: on (?:the )?(WALL))?[a-z ,.]* (?:from|off) (?:the )?(WALL)(?: wall| corner)?: (\d[\d ,/.]*)$ => $1 at $4 off $3 on $2
	^(?:room )?(\d.*) walls$ => ceiling height $1
	^walls (?:are )?(\d.*)$ => ceiling height $1
	^.*?\bCUT\b[a-z ]*? (\d.*?),? (?:at |on )?(?:the )?ONEEND,? (?:and )?(\d.*?),? (?:at |on )?(?:the )?OTHEREND$ => gap $1, $2
	^.*?\bCUT\b[a-z ]*? (\d.*?),? (?:at |on )?(?:the )?ONEEND,? (?:and )?(\d.*?),? (?:at |on )?(?:the )?OTHEREND,? (?:length |by |x )?(\d[^a-z]*?)(?: long)?$ => gap $1, $2 x $3
	^gap left end (\d.*?) right end (\d.*)$ => gap $1, $2
	^[a-z' ]*\bgap (?:is |of )?(?:[a-z]+ )*?(\d[^,]*?) (?:x|by) (\d[\d'" /.-]*?(?: ?ft)?)$ => gap $1 x $2
	^.*?(\d[^a-z]*?),? (?:at |on )?(?:the )?ONEEND,? (?:and |but )?(\d[^a-z]*?),? (?:at |on )?(?:the )?OTHERENDASKED$ => gap $1, $2
	^.*?(\d[^a-z,]*?) (?:x|by) (\d[^a-z,]*?)ASKED$ => gap $1 x $2
	^(?:whats|what's|what is|what) (?:the |size |do i |should i )*cut (?:for|of|is) (?:an? )?(?:[a-z]+ )*?(\d[^a-z,]*?) (?:x|by) (\d[^a-z,]*)$ => gap $1 x $2
	^.*?(\d[^a-z,]*?)ASKED$ => gap $1
	^(?:one )?diag(?:onal)?s? (?:is )?(\d.*?),? ((?:nw|ne|sw|se)(?: to |-| )(?:nw|ne|sw|se))$ => square $2 $1
	^(?:one )?diag(?:onal)?s? ((?:nw|ne|sw|se)(?: to |-| )(?:nw|ne|sw|se)) (?:is )?(\d.*)$ => square $1 $2
	^(\d.*) is ((?:nw|ne|sw|se)(?: to |-| )(?:nw|ne|sw|se))$ => square $2 $1
	^((?:nw|se) ?(?:to|-|/) ?(?:se|nw)) (?:is |= ?)?(\d.*)$ => square nw-se $2
	^((?:ne|sw) ?(?:to|-|/) ?(?:sw|ne)) (?:is |= ?)?(\d.*)$ => square ne-sw $2
`)

// Asking are lines that may mean the line they map to, so they are confirmed first. The words before the
// second arrow are the question.
var Asking = table(`
	^TAPED(?:the |one |a )?(?:diag(?:onal)?s?|corner to corner)(?: is| are| of| reads?| measures?)? (\d.*)$ => which diagonal?|square nw-se $1|square ne-sw $1
	^TAPED(?:the |both )?(?:diag(?:onal)?s?|corner to corner)(?: are| of| read| measure)? (\d[\d'"-]*(?: \d+/\d+)?"?)(?:,| and| &| x)? (\d.*)$ => which is which?|square nw-se $1 ne-sw $2|square nw-se $2 ne-sw $1
	^(?:first room is |next room is |room is )?(?:the )?([a-z]+(?: [a-z]+)?),?(?: is| its| it's)* (\d.*?) ?(?:by|x) ?(\d.*)$ => a room?|room $1 $2 x $3
	^(?:the )?(fireplace|window|door|tub|shower|closet|stair|street|sink|range|stove|counter|bed|patio|deck|yard|garden|garage|driveway|chimney|hall|hallway)(?:'?s| is| are| runs)* (?:on|at|along|to|in) (?:the )?(WALL)(?: side| end| wall)?$ => call it that?|$2 is $1 wall
	^(?:need (?:an? )?)?cut(?: me)?(?: an?| one)? (\d.*)$ => the gap, or the size to cut?|gap $1|note cut $1
	^need (?:an? |one )?(\d[\d /]*)$ => the gap, or the size to cut?|gap $1|note cut $1
	^(\d[\d /.]*)(?:"|in)? (?:by|x) (\d[\d /.]*?(?: and an? (?:half|quarter|eighth))?)"?(?: both ends(?: the same)?)?$ => what is it, the gap?|gap $1 x $2|note cut $1 x $2
	^(?:the )?(?:drain|vent|plumbing|water|supply)(?: pressure)?(?: test| tested| is| n| and| all)* (?:ok|okay|passed|pass|good)(?:[ .,]+no leaks)?$ => passed, for the list?|check plumbing inspection passed
	^(\d[\d /]*)"? (?:and|&) (\d[\d /]*)"?$ => a gap, its two ends?|gap $1, $2
	^(?:need (?:an? )?|cut (?:an? )?)?rip(?: one| of| at|,)? (?:is )?(\d.*)$ => the gap, or the width to rip?|gap $1|note rip $1
	^(?:first|next) (?:cut|one|piece)(?: is)? (.+?)(?: long)?$ => the gap, or the size to cut?|gap $1|note cut $1
	^put (?:the |an? )?(.*)$ => a new one, or moved?|$1|fix $1
	^(?:there's |theres |there is )?water (?:is )?(?:everywhere|coming|leaking|spraying|pouring|running).*$ => did a screw or a blade hit a pipe?|hit water
	^(?:pulled|pull) r(\d)\.\d.*$ => down again? strike the note that hung it|who hung row $1
	^(?:.* )?(?:1|one)[ -](?:hour|hr) (?:fire|rated|rating|ceiling|lid|wall|floor|assembly|separation|board)\b.*$ => fire-rated, 60 min?|set rated 60
	^(?:.* )?(?:ceiling|lid|wall|floor|assembly|separation|garage)s? (?:is|are|has to be|have to be|needs? to be|must be|gets?|needs?)(?: an?)? (?:1|one|an)[ -](?:hour|hr)\b.*$ => fire-rated, 60 min?|set rated 60
^(?:i |we )?(?:just |think i |we think )?hit (?:something|somethin|smth|sth)\b.*$ => leave it where it is, stand clear. What was it?|hit water|hit cable|hit gas
`)

// table parses rows, one a line: a pattern, an arrow, what it means. Words in capitals stand for several.
func table(rows string) (all []restated) {
	rows = strings.ReplaceAll(rows, "CUT", `(?:gap|piece|strip|rip|filler|space|hole)`)
	rows = strings.ReplaceAll(rows, "ONEEND", `(?:(?:one|left|west|north)(?: end)?|[a-z]+ end)`)
	rows = strings.ReplaceAll(rows, "OTHEREND", `(?:(?:other|right|east|south)(?: end)?|[a-z]+ end)`)
	rows = strings.ReplaceAll(rows, "ASKED", `(?: tight)?,? (?:so )?what (?:do|should|would) (?:i|we|you) cut(?: (?:it|them|that|this))?(?: at| to)?`)
	rows = strings.ReplaceAll(rows, "FACE", `(?:(?:second |third )?(?:WALL) (?:wall|slope|bulkhead \w+)|(?:\w+ )?\w+ notch \w+ face)`)
	rows = strings.NewReplacer("WALL", "north|east|south|west", "SUPPORTS", "straps|joists|studs|channels", "TAPED", "(?:we |i )?(?:measured |got |checked )?").Replace(rows)
	for row := range strings.Lines(strings.TrimSpace(rows)) {
		said, means, _ := strings.Cut(strings.TrimSpace(row), " => ")
		all = append(all, restated{pattern.Compile(said), strings.Split(means, "|")})
	}
	return all
}

type restated struct {
	Said  *pattern.Pattern
	Means []string // the question first, if there is one
}
