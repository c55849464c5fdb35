package grammar

import (
	"cmp"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/place"
	"strapline/grammar/lex"
)

// Find: `find d1`, `where is the sink light`, `find d1 off west`: off that wall.
type Find struct {
	Name string
	Off  place.Wall
}

func (e Find) String() string {
	return say("find", tail(len(e.Name) == 1, "mark"), e.Name, off(e.Off))
}
func (Find) Kind() Kind { return "find" }

func (s *findSyntax) entry(l *line) (Entry, error) {
	e := Find{Off: s.Off.or("")}
	switch {
	case s.Mark != "":
		e.Name = s.Mark
		return e, nil
	case s.Support != nil:
		e.Name = s.Support.of(l).String()
		return e, nil
	}
	said := s.What.Text
	for k := strings.LastIndexByte(said, ' '); k > 0 && behindNames[said[k+1:]]; k = strings.LastIndexByte(said, ' ') {
		said = said[:k]
	}
	if said = canonicalThing(said); !l.noun(said) {
		return nil, l.refuse(s.What.Pos, "a noted thing")
	}
	count := 0
	for w := range strings.FieldsSeq(said) {
		if lex.Shape(w) {
			count++
		}
	}
	if count > 1 {
		return nil, l.refuse(s.What.Pos, "one thing at a time")
	}
	e.Name = said
	return e, nil
}

type findSyntax struct {
	Mark    string    `parser:"'find' (  (?= 'mark' Name) 'mark' @Name"`
	Support *supportN `parser:"        | @@"`
	What    *noted    `parser:"        | @@ ) ('at' | 'to')*"`
	Off     *needWall `parser:"( 'off' @@ )?"`
}

// behindNames are words that may follow the name of what is looked for: "where did the light go again".
var behindNames = lex.Set("go", "again", "now", "exactly", "then", "noted", "located")

// Apart: `apart d1 d2`: how far one is from the other.
type Apart struct{ From, To string }

func (e Apart) String() string { return say("apart", e.From, clause{e.To}) }
func (Apart) Kind() Kind       { return "apart" }

func (s *apartSyntax) entry(l *line) (Entry, error) {
	list, err := s.Names.known(l, true)
	if err == nil && len(list) != 2 {
		err = l.refuseEnd("two noted things")
	}
	if err != nil {
		return nil, err
	}
	return Apart{list[0], list[1]}, nil
}

type apartSyntax struct {
	Names names `parser:"'apart' @@"`
}

// Covered: `covered`, `what's covered in kitchen`.
type Covered struct{}

func (e Covered) String() string { return "covered" }
func (Covered) Kind() Kind       { return "covered" }

// Status: `status`.
type Status struct{}

func (e Status) String() string { return "status" }
func (Status) Kind() Kind       { return "status" }

func (s *askSyntax) entry(*line) (Entry, error) {
	switch s.What {
	case "status":
		return Status{}, nil
	case "snags":
		return Snags{}, nil
	}
	return Covered{}, nil
}

// askSyntax is a question complete in itself.
type askSyntax struct {
	What string `parser:"@('covered' | 'status' | 'snags')"`
}

// AnyOver: `any pipe over row 3`, `any wire behind row 2 on north wall`. With Row 0 it is about the whole
// room, or the whole surface.
type AnyOver struct {
	What    string
	Row     int
	Surface place.Surface // "" means the ceiling, or all surfaces if there is no row
}

func (e AnyOver) String() string {
	where := ""
	if e.Surface != "" {
		where = "on " + e.Surface.Name()
	}
	switch {
	case e.Row == 0:
		return say("any", e.What, "noted", where)
	case e.What == "":
		return say("anything over row", e.Row, where)
	}
	return say("any", e.What, "over row", e.Row, where)
}
func (AnyOver) Kind() Kind { return "any" }

func (s *anySyntax) entry(l *line) (Entry, error) {
	e := AnyOver{What: s.What, Surface: s.On.surface()}
	if row := cmp.Or(s.Row, s.Row2); row != nil {
		e.Row = l.counted(row)
	}
	return e, nil
}

type anySyntax struct {
	What string       `parser:"'any'? @(Thing | Service)"`
	Over bool         `parser:"( @('over' | 'in' | 'above' | 'behind' | 'under' | 'at')"`
	Row  *count       `parser:"  ( 'row' @@ )? )?"`
	Said bool         `parser:"@('noted' | 'logged')?"`
	On   *whereSyntax `parser:"( ( 'on' | 'of' | 'in' | 'off' )? @@ )?"`
	Row2 *count       `parser:"( 'row' @@ )?"`
}

// asksOver reports whether the line asks what is over a row: "pipe over row 3?".
func (l *line) asksOver() bool { return l.Question && l.has(lex.Key, "row") && !l.measure() }

// Log: `log`, `log kitchen`, `log today`, `log hanger`, `log of d1`.
type Log struct {
	Today bool
	Of    string // a thing, a person; "" = all
	Since int    // `log since 12`
}

func (e Log) String() string {
	return say("log", tail(e.Today, "today"), some("since", e.Since), some("of", e.Of))
}
func (Log) Kind() Kind { return "log" }

func (s *logSyntax) entry(l *line) (Entry, error) {
	var e Log
	for _, it := range s.Items {
		switch {
		case it.Today:
			e.Today = true
		case it.Since != nil:
			e.Since = l.counted(it.Since)
		case it.Room != "":
			l.inRoom(it.Room)
		case e.Of != "":
			return nil, l.refuse(it.Pos, "one person or one thing")
		case it.Of != "":
			e.Of = it.Of
		default:
			// A person's name may be any word, but no sentence.
			if n := len(strings.Fields(it.Who.Text)); n > 1 && !l.noun(it.Who.Text) || l.talkIn(it.Who.Text) != "" || it.Who.Text == "in" || it.Who.Text == "out" {
				r := l.refuse(it.Pos, words.rows["log"].Fits)
				if it.Who.Text == "yesterday" {
					r.Want, r.Hint = `"today", or "since" and the number of the last note that you know`, "log since 12"
				}
				return nil, r
			}
			e.Of = it.Who.Text
		}
	}
	return e, nil
}

type logSyntax struct {
	Items []*logItem `parser:"'log' @@*"`
}

type logItem struct {
	Pos   lexer.Position
	Today bool   `parser:"  @'today'"`
	Since *count `parser:"| 'since' @@"`
	Room  string `parser:"| @Room"`
	Of    string `parser:"| 'of'? ( @Name"`
	Who   *label `parser:"        | @@ )"`
}

// Who: `who hung row 2`. Row 0 with a Surface means the whole surface.
type Who struct {
	Row     int
	Surface place.Surface
}

func (e Who) String() string { return say("who hung", some("row", e.Row), e.Surface) }
func (Who) Kind() Kind       { return "who" }

func (s *whoSyntax) entry(l *line) (Entry, error) {
	e := Who{Surface: s.On.surface()}
	if s.Row != nil {
		e.Row = l.counted(s.Row)
	}
	if e == (Who{}) && l.Room == "" {
		return nil, l.refuseEnd("a row, the ceiling or a wall")
	}
	return e, nil
}

type whoSyntax struct {
	Row *count       `parser:"'who' ( 'row' @@ )?"`
	On  *whereSyntax `parser:"( 'on'? @@ )?"`
}

// Help: `help`, `help light`.
type Help struct{ Topic string }

func (e Help) String() string { return say("help", e.Topic) }
func (Help) Kind() Kind       { return "help" }

func (s *helpSyntax) entry(l *line) (Entry, error) {
	if s.Topic == nil {
		return Help{}, nil
	}
	if len(Topic(s.Topic.Text)) == 0 {
		return nil, l.refuse(s.Topic.Pos, "one word of the list")
	}
	return Help{s.Topic.Text}, nil
}

type helpSyntax struct {
	Topic *anything `parser:"'help' @@?"`
}

// Sketch: `sketch kitchen`, `sketch kitchen looking up`, `sketch north wall`.
type Sketch struct {
	Up      bool
	Surface place.Surface // "" means the ceiling
}

func (e Sketch) String() string { return say("sketch", e.Surface, tail(e.Up, "looking up")) }
func (Sketch) Kind() Kind       { return "sketch" }

func (s *sketchSyntax) entry(*line) (Entry, error) {
	e := Sketch{s.Up, s.On.surface()}
	if e.Surface == place.Ceiling {
		e.Surface = ""
	}
	return e, nil
}

type sketchSyntax struct {
	On *whereSyntax `parser:"'sketch' ('of' | 'on')? @@?"`
	Up bool         `parser:"( @'looking' 'up' | @'off' 'below' )?"`
}

var askKinds = []kind{
	{Command: Command{Kind: "find", Words: []string{"find", "where is", "where did", "locate"},
		About: "where a thing is now, from what can still be seen", Example: "where is d1", Fits: "a noted thing"},
		rule: rule[findSyntax](), makes: []Entry{Find{}}, asks: true},
	{Command: Command{Kind: "apart", Words: []string{"apart"}, About: "how far two noted things are apart", Example: "apart d1 d2", Fits: "two noted things"},
		rule: rule[apartSyntax](), makes: []Entry{Apart{}}, asks: true, talk: always},
	{Command: Command{Kind: "covered", Words: []string{"covered", "what's covered"}, Talk: []string{"still covered", "? anything covered", "what cover", "what buried"},
		About: "what is behind the board and not cut yet", Example: "what's covered", Fits: `nothing, or "in" and a room`},
		rule: rule[askSyntax](), makes: []Entry{Covered{}}, asks: true},
	{Command: Command{Kind: "any", Words: []string{"any", "is there any"}, Talk: []string{"is there"}, About: "whether something was noted over a row",
		Example: "any pipe over row 3", Fits: `a thing, pipe, wire or gas, then "over row 3" or "noted"`},
		rule: rule[anySyntax](), makes: []Entry{AnyOver{}}, asks: true},
	{Command: Command{Kind: "who", Words: []string{"who hung", "who put up", "who boarded", "who did"}, About: "who hung a row",
		Example: "who hung row 2", Fits: `"row 2", "ceiling" or a wall`},
		rule: rule[whoSyntax](), makes: []Entry{Who{}}, asks: true},
	{Command: Command{Kind: "log", Words: []string{"log"}, About: "what was said, all of it or of one room, day, person or thing",
		Example: "log today", Fits: `nothing, "today", "since 12", a room, a person or a thing`},
		rule: rule[logSyntax](), makes: []Entry{Log{}}, asks: true},
	{Command: Command{Kind: "sketch", Words: []string{"sketch"}, Talk: []string{"show sketch", "draw sketch", "get sketch", "can you show sketch", "can we see sketch"}, About: "a picture of the ceiling, a wall, a slope or a bulkhead; the ceiling's with \"looking up\" is mirrored, as seen from the floor",
		Example: "sketch looking up", Fits: `nothing, a room, a wall, or "looking up"`},
		rule: rule[sketchSyntax](), makes: []Entry{Sketch{}}, asks: true, ofRoom: true,
		talk: (*line).inWords},
	{Command: Command{Kind: "status", Words: []string{"status"}, About: "the job at a glance", Example: "status", Fits: "nothing"},
		rule: rule[askSyntax](), makes: []Entry{Status{}}, asks: true},
}
