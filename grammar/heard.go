package grammar

import (
	"errors"
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar/lex"
)

// A line that tells or asks something of the job is not met with silence. Where no
// rule reads it, it is looked up here: other words for a line that a rule reads, what
// has to be asked first, what cannot be noted yet. What is left of that kind is
// offered as a note in its own words; talk stays unanswered.

// otherwise are lines in other words than the rules have: what stands for them, $1 and
// so on being what the pattern took. They are tried in lower case behind the frame; the
// first that can be read is taken.
var otherwise = table(`
	^what(?:'?s| is) (?:the |my |our )?cut(?: size| length)?(?: for| on)?(?: an?| the)? (\d.*)$ => gap $1
	^(\d.*?) (?:gap|opening)$ => gap $1
	^gap (?:is |of )?(\d.*?) (?:at |on )?(?:the )?one end,? (?:and )?(\d.*?) (?:at |on )?(?:the )?other(?: end)?$ => gap $1, $2
	^gap between \D*\d*\D+ (\d.*)$ => gap $1
	^(.*\d"?(?: in)?) in from (.*)$ => $1 off $2
	^(?:i )?meant (\d.*)$ => *$1
	^(?:mud|tape|compound|corner bead|bead|screws) for .*$ => order
	^ready to (?:board|hang|close).*$ => ready
	^(?:no )?(.*?),? (?:thats|that's|that is) (?:a mistake|wrong)$ => delete $1
	^rm (.*)$ => room $1
	^\d+ (straps|joists|studs|channels) (east-west|north-south), (.*) on centre, first (.*), last .* (off \w+)$ => $1 $2 $3 oc first $4 $5
	^\d+ (straps|joists|studs|channels) ((?:east-west|north-south|upright) at .*)$ => $1 $2
	^((?:strap|joist|stud|channel) \d+) runs (from .*)$ => $1 $2
	^(north|east|south|west) wall \d+ (straps|joists|studs|channels), (.*) on centre, first (.*), last .* (off \w+)$ => $2 $3 oc first $4 $5 on $1 wall
	^(north|east|south|west) wall \d+ (straps|joists|studs|channels) (at .*)$ => $2 $3 on $1 wall
	^(north|east|south|west) wall (.*\d.*)$ => $2 on $1 wall
	^on hand (.*)$ => stock $1
	^(.*\S) open$ => open $1
	^(\d.*) (?:ceilings?|lids?)$ => ceiling height $1
	^(?:is |its )?(?:high|height) (\d.*)$ => ceiling height $1
	^new job (?:is |at |on )?(.*)$ => job $1
	^(?:the )?first strap (?:is )?(?:at )?(.*)$ => strap 1 at $1
	^straps? (?:are|is) (?:actually|really|only) (\d.*?)(?: thick)?$ => straps $1 thick
	^(straps?|strapping|joists|studs) (.*?)(\d+) (?:centers|centres|center|centre|apart)$ => $1 $2 $3 oc
	^(straps?|strapping|joists|studs) (?:are )?(\d+) apart$ => $1 $2 oc
	^strap (\d+) is off,? (?:its|it's|it is) (at .*)$ => strap $1 $2
	^(\d\S*(?: \d/\d)?) (?:screws|long screws)$ => screw $1
	^(\d/\d)(?:"| inch)? (?:board )?(\d+)(?:s|'|ft|footers| footers)(?: and (\d+)(?:s|'|ft|footers| footers))?$ => board $1 lengths $2 $3
	^(\d/\d)(?:"| inch)? ?(?:boards? |sheets? )?4x(\d+)s?(?: sheets?| boards?)?(?: and 4x(\d+)s?)?$ => board $1 x 48 lengths $2 $3
	^(?:sheets?|boards?) (?:is |are )?(\d+)(?:s|'| footers| foot)$ => board lengths $1
	^longest board we can get in is (\d+)(?:'| ?ft| foot)$ => longest in $1'
	^nothing over (\d+)(?:'| ?ft| foot)? (?:will|gets|makes|fits).*$ => longest in $1'
	^(?:longest|longest board) (?:in )?is (\d+)(?:'| ?ft| foot) .*$ => longest in $1'
	^they (?:brought|delivered|dropped) (\d+) not (\d+)$ => $1 not $2
	^they (?:brought|delivered|dropped(?: off)?) (\d+) (?:sheets|boards) of (\d+)(?:s|'|ft)?$ => delivered $1 x $2'
	^(?:got )?(\d+) more (\d+)(?:s|'|footers| footers)$ => delivered $1 x $2'
	^oops wrong number,? (.*)$ => $1
	^(?:scrap|forget|scratch|ignore)(?: that| the)?(?: last)?(?: one| note)?$ => undo
	^(?:move|moved|shift|shifted|we moved) (?:the )?(.*?) (?:over )?to (\d.*)$ => fix $1 $2
	^(?:move|moved|shift|shifted|we moved) (?:the )?(.*)$ => fix $1
	^(?:the )?(.*) is wrong,? (?:its|it's|it is) (.*)$ => fix $1 $2
	^(?:the )?(.*) should be (.*)$ => fix $1 $2
	^(?:the )?(.*) is (\d+ ?x ?\d+)$ => fix $1 $2
	^(\d+) (?:more )?(\S+s) (\d\S*) (?:apart|in) .*$ => $2 $3
	^(\S+) (\d+) ?(?:"|in|inch)? \d+ of (?:them|em) (\d+ rows? of \d+)$ => $1 $2" $3
	^(row \d+|r\d+) (?:is )?up (?:with|and) (?:the )?(.*) cut(?: out)?$ => hung $1 cut $2
	^(?:cut|cutting) (?:the )?(.*) out$ => open $1
	^what (?:did|have) (?:i|we) just cover(?:ed)?.*$ => covered
	^which .* (?:covered|buried)$ => covered
	^who(?:'s|s| is| has)?(?: been)? (?:hanging|hung|boarding|boarded) (row \d+|.* wall|ceiling)$ => who hung $1
	^when did (row \d+|.* wall|ceiling) go up$ => who hung $1
	^(row \d+) (?:is )?not up(?: yet)?$ => who hung $1
	^who (?:noted|measured|put|marked|placed|opened|cut|said|told(?: us)?|moved|laid out)(?: that| about)? (?:the )?(.*?)(?: there| in| here| (?:is|was|were|are) .*)?$ => log $1
	^who (?:did|has) (?:the )?(.*)$ => log $1
	^when (?:was|did|were)(?: we)? (?:the )?(.*?) (?:noted|measured|cut|opened|covered|put in|moved|go in|get covered|said)$ => log $1
	^what (?:did|has) .* (?:say|said|note|noted) (?:about|on|for) (?:the )?(.*)$ => log $1
	^what (?:did|have) (?:i|we) (?:do|done|note|noted|get done|say)(?: today)?$ => log today
	^what did (?:i|we) (?:do|note|say) (?:in|about) (.*)$ => log $1
	^is (?:the )?(.*) (?:done|finished|closed)$ => $1: status
	^(?:what(?:'?s| is) left|how much (?:is )?left)(?: to do| to hang)?$ => whats left to hang
	^what board(?: type)? .*$ => list board
	^what (?:board|boards|sheets)(?: are we using| is this)?$ => list board
	^(?:what|which) (?:size |length )?screws?(?: length| size| do (?:i|we) (?:use|need))?$ => how many screws
	^will (\d.*?)(?:"| inch| in)? screws? (?:hit|reach) .*$ => reach $1
	^where (?:can|should) (?:i|we) not screw.*$ => reach
	^what(?:'?s)? (?:is )?(?:the )?cut ?list.*$ => cuts
	^what do (?:i|we) cut (?:first|next)$ => cuts
	^(?:read me|read|give me) (row \d+|r\d.*)$ => whats $1
	^(?:how big|how long|what size|what length) (?:is )?(?:the )?(row \d+|r\d\S*)$ => whats $1
	^(?:how big|how long|what size) is (?:the )?first piece$ => whats r1.1
	^how (?:big|deep|high|wide|far|far up) is (?:the )?(.*)$ => find $1
	^what size is (?:the )?(.*)$ => find $1
	^is (?:the )?(.*) (?:open|cut|covered|done)(?: yet)?$ => find $1
	^did (?:anyone|anybody|somebody|someone|you|we|they) (?:cut|open|find|get|cover|note) (?:the )?(.*)$ => find $1
	^what do (?:i|we) (?:pick up|grab|need|buy|get|bring) .*tomorrow$ => bring tomorrow
	^what do (?:i|we) (?:pick up|buy|order|get) at the yard$ => order
	^what(?:'s|s)? (?:is )?the order.*$ => order
	^(?:how much|what about) (?:mud|tape|compound|corner bead|bead|board|plates)(?: and [a-z ]*)? for (?:the )?(.*)$ => $1: order
	^(?:how much|what about) (?:mud|tape|compound|corner bead|bead|board|plates)(?: and .*)?(?: for)?$ => order
	^how many (?:sheets|boards)(?: for)?$ => order
	^what(?:'?s| is) (?:stopping|holding) (?:us|it)(?: up)?$ => ready
	^how many screws (?:for|in) row \d+$ => how many screws
	^(.*?) (?:called|is called|aka) .*$ => find $1
`)

// asking are lines that may mean what stands for them: it is asked first. The words
// before the arrow's second part are the question.
var asking = table(`
	^(?:first room is |next room is |room is )?(?:the )?([a-z]+(?: [a-z]+)?),?(?: is| its| it's)* (\d.*?) ?(?:by|x) ?(\d.*)$ => a room?|room $1 $2 x $3
	^([a-z]+) (\d.*?) wide (\d.*?) long$ => a room?|room $1 $2 x $3
	^(?:the )?(.*)is l shaped,? (.*?) with a (\d+) ?x ?(\d+) notch (?:out of|in) the (north|south) ?(east|west) corner$ => an L of these sizes?|room $1 $2 less $3' x $4' $5-$6
	^(?:need (?:an? )?)?cut(?: me)?(?: an?| one)? (\d.*)$ => the gap, or the size to cut?|gap $1|note cut $1
	^need (?:an? |one )?(\d[\d /]*)$ => the gap, or the size to cut?|gap $1|note cut $1
	^(\d[\d /]*)(?:"|in)? (?:by|x) (\d[\d /]*)"?$ => what is it, the gap?|gap $1|note cut $1 x $2
	^(\d[\d /]*)"? (?:and|&) (\d[\d /]*)"?$ => a gap, its two ends?|gap $1, $2
	^(?:need (?:an? )?|cut (?:an? )?)?rip(?: one| of| at|,)? (?:is )?(\d.*)$ => the gap, or the width to rip?|gap $1|note rip $1
	^(?:last|first|end) (?:row|rip) is (\d[\d /]*)(?: at .*)?$ => the gap, or the width as cut?|gap $1|note rip $1
	^(?:first|next) (?:cut|one|piece)(?: is)? (\d[\d /]*)(?: long)?$ => the gap, or the size to cut?|gap $1|note cut $1
	^hung (?:the )?first (?:sheet|board|piece)$ => which is it?|hung r1.1|hung row 1
	^(?:that board|that one|that sheet) is up.*$ => which is it?|hung r1.1|hung row 1
	^(pots?|lights?|cans?)(?: light)? (?:(\d+) ?(?:"|in|inch)? )?row of (\d+).*$ => spread evenly?|lights $2" $3 x 1 even
	^first row (?:is )?(?:on|in|done)$ => is row 1 up?|hung row 1
	^(row \d+) (?:is )?up and (?:the )?cut around (.*)$ => up, and is $2 cut out?|hung $1 cut $2
	^(?:row )?r?(\d+) (?:is )?(?:up|done|hung) but .*$ => up, in what sizes? as planned?|hung row $1
	^(?:the )?(\S+) (?:is )?(?:all )?(?:done|finished|boarded)$ => is its ceiling up?|$1: ceiling up
	^(\w+) wall half (?:up|boarded|done)$ => which rows?|hung row 1 on $1 wall
	^(\d) rows (?:are )?up.*$ => the first $1?|rows 1 to $1 up|hung row $1
	^(?:(\d/\d)(?:"| inch)? )?(?:type ?(x|c)|(green|purple|blue|mould|mold|moisture|cement|tile|ultralight)(?: ?boards?)?)(?: (?:in|for) .*)?$ => the board for this job?|board $1 type $2$3
	^(\d/\d)(?:"| inch)? (?:type ?(x|c)|(green|purple|blue|mould|mold|moisture|cement|tile|ultralight))(?: ?boards?)?,? 4x(\d+)s?(?: and 4x(\d+)s?)?$ => the board for this job?|board $1 x 48 lengths $4 $5 type $2$3
	^put (?:the |an? )?(.*)$ => a new one, or moved?|$1|fix $1
	^(?:is )?(?:all )?done$ => is its ceiling up?|ceiling up
	^(?:start|starting|started)(?: on| in)? (?:the )?(\S+)(?: now)?$ => are you there now?|in $1
	^(?:the )?inspect(?:ion|or) (?:passed|signed off)(?: on)? (?:the )?(electrical|plumbing|framing|insulation)$ => passed, for the list?|check $1 inspection passed
	^(?:the )?fire ?caulk(?:ing)? (?:is )?(?:done|in)$ => passed, for the list?|check fire caulk ok
	^(?:there's |theres |there is )?water (?:is )?(?:everywhere|coming|leaking|spraying|pouring|running).*$ => did a screw or a blade hit a pipe?|hit water
	^hung (?:the )?first two (?:sheets|boards|pieces)$ => which are they?|hung r1.1 r1.2
	^(?:lid|whole lid|ceiling) (?:is )?(?:up|on|done) .*$ => is the ceiling up?|ceiling up
	^up in one (?:sheet|board|piece)$ => is the ceiling up?|ceiling up
	^(?:cutting|opening) (?:the )?(.*?)(?: now)?$ => is it cut out?|open $1
	^(?:pulled|pull) r(\d)\S* .*$ => down again? strike the note that hung it|who hung row $1
	^(?:boards?|sheets?) off (row \d+)$ => down again? strike the note that hung it|who hung $1
	^(?:the )?(insulation|vapour barrier|vapor barrier|backing|blocking|photos|nails) (?:is |are )?(?:in|on|done|up|good|ok|is|are)$ => passed, for the list?|check $1 ok
	^(?:the )?(electrical|plumbing|framing)(?: inspection)? (?:passed|signed off|is good)$ => passed, for the list?|check $1 inspection passed
	^.*\b(?:an|1|one)[ -]hour.*$ => fire-rated, 60 min?|set rated 60
	^(\S+) (\d.*) not (\d.*)$ => in the last note?|$2 not $3
	^.*(\d+) (?:of the |x )?(\d+)(?:s|'|footers)? (?:are |were )?(?:broken|damaged|wrecked|smashed)$ => used up?|used $1 x $2'
	^(\d+) x (\d+)(?:'|s) left$ => all there is?|stock $1 x $2'
`)

// unbuilt are what the board meets and nothing is worked out from yet.
var unbuilt = []struct {
	said *regexp.Regexp
	what string
}{
	{regexp.MustCompile(`^no straps?\b|\bstraps? \d+ (?:is |are )?(?:missing|gone)\b`), "a strap that is not there: send those that are, `straps ns at ... off west`"},
	{regexp.MustCompile(`\b(?:slopes?|sloped|sloping|pitch|vaulted|cathedral)\b`), "slopes are not worked out yet"},
	{regexp.MustCompile(`^(?:\S+ ){0,3}(?:bulkhead|soffit|beam|boxed in)\b`), "bulkheads and beams are not worked out yet"},
	{regexp.MustCompile(`^(?:\S+ ){0,2}(?:doors?|windows?|skylight) [^w]`), "doors and windows cannot be noted yet"},
	{regexp.MustCompile(`^(?:\S+ ){0,2}(?:niches?|recess)\b`), "niches cannot be noted yet"},
	{regexp.MustCompile(`^(?:\S+ ){0,2}(?:stack|post|column|chimney|pole)\b`), "stacks and posts cannot be noted yet"},
	{regexp.MustCompile(`\b(?:layers?|tile board|cement board)\b`), "layers and types of board are not worked out yet"},
	{regexp.MustCompile(`\b(?:(?:out of|isnt|isn't|not) (?:square|plumb|level)|diagonals?|wider|narrower)\b`), "`square` with four walls and both diagonals works that out"},
	{regexp.MustCompile(`\b(?:in mm|in inches|half of|minus|plus)\b`), "no sums here yet"},
}

// flawed is work to be put right.
var flawed = regexp.MustCompile(`\b(?:crack(?:ed)?|popped|proud|missed|loose|dented|gouged?|broken|damaged|too (?:long|short|big|wide|small)|\d short|replace|wavy|bowed)\b`)

type restated struct {
	said  *pattern
	means []string // the question first where one is asked
}

// table reads one row a line: a pattern, an arrow, what it means.
func table(rows string) (all []restated) {
	for row := range strings.Lines(strings.TrimSpace(rows)) {
		said, means, _ := strings.Cut(strings.TrimSpace(row), " => ")
		all = append(all, restated{compile(said), strings.Split(means, "|")})
	}
	return all
}

// asSaid is the line behind its frame as it was said, in lower case with single spaces.
func (l *line) asSaid() string {
	if l.begin >= len(l.Pieces) {
		return ""
	}
	said := strings.TrimRight(strings.Join(strings.Fields(lex.Lower(l.Read[l.Pieces[l.begin].Start:])), " "), " .!?,")
	said = begun.ReplaceAllString(ended.ReplaceAllString(said, ""), "")
	return strings.Replace(said, "half inch", "1/2", 1)
}

// begun are words before what is said.
var begun = regexp.MustCompile(`^(?:(?:now|so|then|and|also|ok|okay|alright),? )+|^(?:(?:we're|were|we are|i'm) )?using (?:the )?|^(?:theres|there's|there is|we have|we've got|weve got|another) (?:an? )?`)

// ended are words behind it.
var ended = regexp.MustCompile(`(?:,? (?:for real|again|btw|fyi|thanks|boss|now))+$`)

// heard reads a line that no rule reads. It gives err back where it knows no better.
func (l *line) heard(err error) (Line, error) {
	if _, asks := errors.AsType[*Ask](err); asks {
		return l.Line, err
	}
	said := l.asSaid()
	if said == "" || len(said) > longestHeard || l.Asked && strings.HasPrefix(said, "first ") { // it answers "where is the first one?"
		return l.Line, err
	}
	if plain := l.kinds(said); !l.Question && plain != lex.Lower(strings.TrimSpace(l.Text)) {
		if got, gerr := l.again(plain); gerr == nil {
			return got, nil
		}
	}
	for _, r := range otherwise {
		if m := r.said.FindStringSubmatchIndex(said); m != nil && l.ofRoomSaid(r.means[0], said, m) {
			got, gerr := l.again(string(r.said.ExpandString(nil, r.means[0], said, m)))
			if of, ok := got.Entry.(Log); ok && of.Of != "" && !l.noun(of.Of) { // "who has the keys"
				continue
			}
			if gerr == nil {
				return got, nil
			}
			if ask, ok := errors.AsType[*Ask](gerr); ok {
				return l.Line, l.choices(ask)
			}
		}
	}
	for _, r := range asking {
		m := r.said.FindStringSubmatchIndex(said)
		if m == nil || !l.ofRoomSaid(r.means[1], said, m) || strings.HasPrefix(r.means[1], "room ") && l.cmd != nil || l.first && l.Tokens[0].Type == lex.Number {
			continue
		}
		ask := l.asks(string(r.said.ExpandString(nil, r.means[0], said, m)))
		for _, means := range r.means[1:] {
			text := plainSpaces(string(r.said.ExpandString(nil, means, said, m)))
			got, gerr := l.again(text)
			if inner, ok := errors.AsType[*Ask](gerr); ok && len(inner.Choices) > 0 {
				return l.Line, l.choices(inner)
			}
			if gerr == nil {
				ask.Choices = append(ask.Choices, Choice{Label: text, Text: got.String()})
			}
		}
		if len(ask.Choices) > 0 {
			ask.Why = said + ": " + ask.Why
			return l.Line, ask
		}
	}
	return l.Line, err
}

// ofRoomSaid reports whether what is said of a room, $1, is said of one that is declared.
func (l *line) ofRoomSaid(means, said string, m []int) bool {
	if means == "ceiling up" && l.Room == "" {
		return strings.Contains(said, "lid") || strings.Contains(said, "ceiling")
	}
	return !strings.HasPrefix(means, "$1: ") || l.Rooms[said[m[2]:m[3]]] != ""
}

// longestHeard bounds the work for one line, in bytes.
const longestHeard = 200

// again reads the line in other words, within its own frame.
func (l *line) again(text string) (Line, error) {
	got, err := parse(plainSpaces(text), l.Context, true)
	if got.Room == "" {
		got.Room = l.Room
	}
	if got.At == "" {
		got.At, got.Exact = l.At, l.Exact
	}
	if got.Before+got.After == 0 {
		got.Before, got.After = l.Before, l.After
	}
	if err == nil && (l.room2 != "" || l.before != "" || l.mistimed > 0 || l.Question && !words.rows[got.Entry.Kind()].asks && got.Entry.Kind() != "gap") {
		return got, ErrChatter
	}
	return got, err
}

// plainSpaces puts single spaces where what was not said left more, and the sign of its unit.
func plainSpaces(s string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(s, ` " `, " ")), " ")
}

func (l *line) asks(why string) *Ask {
	p := l.Pieces[l.begin]
	return &Ask{Col: p.Col, Word: l.Text[p.Start:p.End], Why: why}
}

// choices puts the frame around the choices of what the line says in other words.
func (l *line) choices(inner *Ask) *Ask {
	ask := l.asks(inner.Why)
	for _, c := range inner.Choices {
		got, err := l.again(c.String())
		if err == nil {
			ask.Choices = append(ask.Choices, Choice{Label: c.Label, Text: got.String()})
		}
	}
	return ask
}

// kept asks whether to keep the line as a note.
func (l *line) kept(why string) *Ask {
	ask := l.asks(why)
	text := strings.TrimSpace(l.Read[l.Pieces[l.begin].Start:])
	ask.Choices = []Choice{reads("keep it as a note", Line{Room: l.Room, At: l.At, Exact: l.Exact, Entry: Note{text}}.String())}
	return ask
}

// kinds is what was said with the kinds of numbered things in our words: "jb 1" is
// "junction box 1".
func (l *line) kinds(said string) string {
	words := strings.Fields(said)
	for i := 1; i < len(words); i++ {
		what := lex.ThingOf[words[i-1]]
		if what != "" && words[i] != "" && strings.Trim(words[i], "0123456789") == "" {
			words[i-1] = what
		}
	}
	return strings.Join(words, " ")
}

// unbuiltYet answers what cannot be noted yet, and what is to be put right; nil for all else.
func (l *line) unbuiltYet() error {
	said := l.asSaid()
	if said == "" || l.nested || l.addressed && l.cmd != nil {
		return nil
	}
	number := l.has(lex.Number, "")
	if l.cmd != nil && l.cmd.Kind != "room" && l.cmd.Kind != "screws" {
		return nil
	}
	if flawed.MatchString(said) && (number && trade.MatchString(said) || slices.ContainsFunc(l.Tokens, func(t lexer.Token) bool { return t.Type == lex.Name && lex.Shape(t.Value) })) {
		ask := l.asks("a snag, to put right later?")
		ask.Choices = []Choice{reads("snag", Line{Room: l.Room, Entry: Snag{Text: said}}.String())}
		return ask
	}
	for _, u := range unbuilt {
		if u.said.MatchString(said) && (l.measure() || trade.MatchString(said) && (number || l.has(lex.Key, "ceiling") || strings.HasSuffix(said, "square"))) {
			return l.kept(u.what + "; keep it as a note?")
		}
	}
	return nil
}

// unread answers a line that tells or asks something of the job and that nothing
// reads; nil for talk.
func (l *line) unread() error {
	said := l.asSaid()
	if said == "" || l.nested {
		return nil
	}
	if m := roomSaid.FindStringSubmatch(said); m != nil {
		room := m[1] + m[2] + m[3]
		for _, known := range l.roomNames() { // "bathroom" where it is "bath"
			if strings.HasPrefix(room, known) || strings.HasPrefix(known, room) {
				if got, err := l.again(known + ": " + strings.TrimSpace(strings.Replace(strings.Replace(said, "in the "+room, "", 1), room, "", 1))); err == nil {
					ask := l.asks(room + ": " + known + "?")
					ask.Choices = []Choice{reads(known, got.String())}
					return ask
				}
			}
		}
		return l.noRoom(strings.Index(lex.Lower(l.Read), room), room)
	}
	if m := twoSides.FindStringSubmatch(said); m != nil && l.Tokens[0].Type == lex.Number {
		hint := "room bath " + m[1] + " x " + m[2]
		if _, err := l.again(hint); err == nil {
			r := l.refuse(l.Tokens[0].Pos, "which room that is, before its sides")
			r.Hint = hint
			return r
		}
	}
	if name := l.known(); name != "" && (l.Name != nil && l.Name(name) || l.Noun != nil && l.Noun(name)) && (l.asksSomething() || lex.Shape(name) || forgotten.MatchString(said)) {
		r := l.refuse(l.Tokens[0].Pos, `"where is", "open" or "fix" and the thing`)
		r.Hint, r.Once = "find "+name, l.opens("is", "are", "was", "does", "did", "has") && !lex.Shape(name) ||
			!l.asksSomething() && !l.has(lex.Number, "") && l.Tokens[0].Type != lex.Name && !forgotten.MatchString(said)
		return r
	}
	if name := l.known(); name != "" && l.Tokens[0].Type == lex.Name && l.Name != nil && l.Name(name) && l.has(lex.Number, "") && !isPiece(name) {
		r := l.refuse(l.Tokens[0].Pos, `"fix `+name+`" and its new distances off two walls`)
		r.Hint = "find " + name
		return r
	}
	if m := wallSaid.FindStringSubmatch(said); m != nil && l.wall(m[1]) == "" && l.asksSomething() {
		r := l.refuse(l.Tokens[0].Pos, "a wall of this room, or first which one the "+m[1]+" wall is: `north is "+m[1]+" wall`")
		r.Hint = "list everything on north wall"
		return r
	}
	if todo.MatchString(said) {
		return l.kept("keep it as a note?")
	}
	if damaged.MatchString(said) {
		return l.kept("boards spoiled count when you say how long, `used 2 x 12'`; keep it as a note?")
	}
	if up := l.asPieces(); up != "" {
		ask := l.asks("are they up?")
		ask.Choices = []Choice{reads(up, up)}
		return ask
	}
	if needed.MatchString(said) {
		return l.kept("boards to order: keep it as a note?")
	}
	if l.asksSomething() || !l.has(lex.Number, "") || !strings.ContainsAny(said, "0123456789") || len(l.Tokens) < 4 && !l.measure() {
		return nil
	}
	placed, work := l.measure() && trade.MatchString(said), false
	for i, t := range l.Tokens {
		placed = placed || t.Type == lex.Wall && strings.HasPrefix(lex.Lower(l.wordAt(t.Pos.Offset)), t.Value) || t.Type == lex.Support ||
			t.Type == lex.Place && l.Tokens[i+1].Value == "of" || t.Type == lex.Thing && l.measure()
		work = work || t.Type == lex.Thing && t.Value != "box" || t.Value == "row" || t.Type == lex.Name && isPiece(t.Value)
	}
	if placed || (work || trade.MatchString(said)) && l.talkIn(said) == "" {
		return l.kept("I cannot make out what is where; keep it as a note?")
	}
	return nil
}

// gist is a line of a thing and the distances that are said of it, without the words
// that cannot be read; "" where less than two distances or anything but words is lost.
func (l *line) gist() string {
	if l.talkIn(lex.Plain(l.Read)) != "" || l.has(lex.Name, "") {
		return ""
	}
	what, head, at, from := "", "", "", -1
	for i := 0; i < len(l.Tokens)-1; i++ {
		t := l.Tokens[i]
		switch {
		case t.Type == lex.Thing:
			what, from = t.Value, t.Pos.Offset
		case t.Type == lex.Wall && i > 0 && l.Tokens[i-1].Value == "on":
			at += ", on " + t.Value + " wall"
		case t.Type == lex.Number && from >= 0:
			_, n, _ := length.Scan(l.Read[t.Pos.Offset:], l.Units, length.One)
			for l.Tokens[i+1].Pos.Offset < t.Pos.Offset+n && !l.Tokens[i+1].EOF() {
				i++
			}
			said := strings.TrimSpace(l.Read[t.Pos.Offset : t.Pos.Offset+n])
			rest := l.Tokens[i+1:]
			switch {
			case rest[0].Value == "up":
				at += ", " + said + " up"
			case rest[0].Value == "off" && rest[1].Type == lex.Wall:
				at += ", " + said + " off " + rest[1].Value
			case at != "":
				return "" // it would be lost
			default:
				continue // its size
			}
			if head == "" {
				head = l.Read[from:t.Pos.Offset]
			}
		}
	}
	if strings.Count(at, ",") < 2 {
		return ""
	}
	if strings.ContainsAny(head, "0123456789") {
		what = ""
	}
	return l.attempt(strings.TrimRight(head, " ,")+at, what+at)
}

// roomSaid is a room that is told or asked of.
var roomSaid = regexp.MustCompile(`^(` + roomNouns + `) (?:is )?(?:all )?done$|^(` + roomNouns + `) (?:ceiling|lid|up in one) |^(?:what(?:'?s| is) left|(?:whole )?(?:ceiling|lid) (?:is )?up) in (?:the )?(` + roomNouns + `)$`)

const roomNouns = `bath|bathroom|kitchen|den|bedroom|hall|hallway|closet|laundry|garage|living room|dining room|basement|office|pantry|stairwell`

// twoSides are two lengths and nothing more.
var twoSides = regexp.MustCompile(`^(\d.*?(?:'|ft|foot|feet|m)\S*.*?) (?:by|x) (\d.*)$`)

// wallSaid is a wall by another name than its direction.
var wallSaid = regexp.MustCompile(`\b(?:behind|on|in) (?:the )?([a-z]+) wall$`)

var (
	todo    = regexp.MustCompile(`^(?:todo|to do|remind me|reminder)[: ]`)
	damaged = regexp.MustCompile(`^\d+ (?:of (?:them|those) |more )?(?:are |were |is )?(?:damaged|broken|wrecked|smashed)$`)
)

// needed asks for boards.
var needed = regexp.MustCompile(`^(?:i |we |we're |were )?(?:need|short|deliver|order) \d+ .*(?:\d+s|sheets|boards|footers)\b`)

// trade are words of the work: a number beside one tells something.
var trade = regexp.MustCompile(`\b(?:straps?|strapping|joists?|studs?|rows?|layers?|gap|rip|piece|butt|joint|ceilings?|soffit|wall|walls|corner|romex|blocking|cabinet|r\d\.\d|plates?|slope|square|diagonals?|tub|hatch|fan|vent|beam|skylight|chimney|landing|it was|type x|boxed|bulkhead|gets a|\d/\d board|screws? at|next one|spacing|\d+ sheets|sheets? (?:up|damaged|in row)|board lengths|4x8|(?:too|1/\d) (?:long|short|big)|replace)\b`)

var forgotten = regexp.MustCompile(`^(?:i |we )?(?:forgot|didnt|didn't|did not|couldnt|couldn't|cant|can't)\b`)

func (l *line) asksSomething() bool {
	return l.Question || l.opens("is", "are", "was", "does", "did", "has", "how", "what", "whats", "what's", "which", "when", "who", "whos", "who's", "where", "wheres", "any")
}
