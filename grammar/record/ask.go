package record

import (
	"cmp"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/read"
)

// Find: `find d1`, `where is the sink light`, `find d1 off west`: off that wall.
type Find struct {
	Name string
	Off  place.Wall
}

func (e Find) String() string {
	return canon.Say("find", canon.Tail(len(e.Name) == 1, "mark"), e.Name, canon.Off(e.Off))
}
func (Find) Kind() grammar.Kind { return "find" }

func (s *findSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e := Find{Off: s.Off.Or("")}
	switch {
	case s.Mark != "":
		e.Name = s.Mark
		return e, nil
	case s.Support != nil:
		e.Name = s.Support.Of(l).String()
		return e, nil
	}
	said := s.What.Text
	if said == It {
		return Find{Name: It, Off: e.Off}, nil
	}
	for k := strings.LastIndexByte(said, ' '); k > 0 && behindNames[said[k+1:]]; k = strings.LastIndexByte(said, ' ') {
		said = said[:k]
	}
	if plural := said; strings.HasSuffix(said, "s") && strings.HasPrefix(l.Began(), "where") {
		if kind := lex.ThingOf[plural]; kind != "" && !strings.HasSuffix(kind, "s") {
			return List{What: kind}, nil
		}
	}
	if said = grammar.CanonicalThing(strings.TrimPrefix(said, "old ")); !l.MayName(said) {
		return nil, l.Refuse(s.What.Pos, "a noted thing")
	}
	count := 0
	for w := range strings.FieldsSeq(said) {
		if lex.Shape(w) {
			count++
		}
	}
	if count > 1 {
		return nil, l.Refuse(s.What.Pos, "one thing at a time")
	}
	e.Name = said
	return e, nil
}

type findSyntax struct {
	Mark    string           `parser:"'find' (  (?= 'mark' Name) 'mark' @Name"`
	Support *places.SupportN `parser:"        | @@"`
	What    *read.Noted      `parser:"        | @@ ) ('at' | 'to')*"`
	Off     *places.NeedWall `parser:"( 'off' @@ )?"`
}

// behindNames are words that may follow the name of what is looked for: "where did the light go again".
var behindNames = lex.Set("go", "sit", "sits", "again", "now", "exactly", "then", "noted", "located")

// Apart: `apart d1 d2`: how far one is from the other.
type Apart struct{ From, To string }

func (e Apart) String() string   { return canon.Say("apart", e.From, canon.Clause{e.To}) }
func (Apart) Kind() grammar.Kind { return "apart" }

func (s *apartSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	list, err := exactly(l, &s.Names, 2, "two noted things")
	if err != nil {
		return nil, err
	}
	return Apart{list[0], list[1]}, nil
}

type apartSyntax struct {
	Names read.Names `parser:"'apart' @@"`
}

// Covered: `covered`, `what's covered in kitchen`.
type Covered struct{}

func (e Covered) String() string   { return "covered" }
func (Covered) Kind() grammar.Kind { return "covered" }

// Status: `status`.
type Status struct{}

func (e Status) String() string   { return "status" }
func (Status) Kind() grammar.Kind { return "status" }

func (s *askSyntax) Entry(*read.Source) (grammar.Entry, error) {
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
		return canon.Say("any", e.What, "noted", where)
	case e.What == "":
		return canon.Say("anything over row", e.Row, where)
	}
	return canon.Say("any", e.What, "over row", e.Row, where)
}
func (AnyOver) Kind() grammar.Kind { return "any" }

func (s *anySyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e := AnyOver{What: s.What, Surface: s.On.Surface()}
	if row := cmp.Or(s.Row, s.Row2); row != nil {
		e.Row = numbers.Counted(l, row)
	}
	return e, nil
}

type anySyntax struct {
	What string              `parser:"'any'? @(Thing | Service)"`
	Over bool                `parser:"( @('over' | 'in' | 'above' | 'behind' | 'under' | 'at')"`
	Row  *numbers.Count      `parser:"  ( 'row' @@ )? )?"`
	Said bool                `parser:"@('noted' | 'logged')?"`
	On   *places.WhereSyntax `parser:"( ( 'on' | 'of' | 'in' | 'off' )? @@ )?"`
	Row2 *numbers.Count      `parser:"( 'row' @@ )?"`
}

// Log: `log`, `log kitchen`, `log today`, `log yesterday`, `log last`, `log hanger`, `log of d1`.
type Log struct {
	Today     bool
	Yesterday bool   // since then
	Last      bool   // only the last of the sender
	Of        string // a thing, a person; "" = all
	Since     int    // `log since 12`
}

func (e Log) String() string {
	return canon.Say("log", canon.Tail(e.Today, "today"), canon.Tail(e.Yesterday, "yesterday"), canon.Tail(e.Last, "last"), canon.Some("since", e.Since), canon.Some("of", e.Of))
}
func (Log) Kind() grammar.Kind { return "log" }

func (s *logSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	var e Log
	for _, it := range s.Items {
		switch {
		case it.Today:
			e.Today = true
		case it.Who != nil && it.Who.Text == "yesterday":
			e.Yesterday = true
		case it.Who != nil && it.Who.Text == "last":
			e.Last = true
		case it.Since != nil:
			e.Since = numbers.Counted(l, it.Since)
		case it.Room != "":
			l.InRoom(it.Room)
		case e.Of != "":
			return nil, l.Refuse(it.Pos, "one person or one thing")
		case it.Of != "":
			e.Of = it.Of
		default:
			// A person's name may be any word, but no sentence.
			if n := len(strings.Fields(it.Who.Text)); n > 1 && !l.MayName(it.Who.Text) || l.TalkIn(it.Who.Text) != "" || it.Who.Text == "in" || it.Who.Text == "out" {
				return nil, l.Refuse(it.Pos, read.Words.Rows["log"].Fits)
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
	Today bool           `parser:"  @'today'"`
	Since *numbers.Count `parser:"| 'since' @@"`
	Room  string         `parser:"| @Room"`
	Of    string         `parser:"| 'of'? ( @Name"`
	Who   *read.Label    `parser:"        | @@ )"`
}

// Who: `who hung row 2`. Row 0 with a Surface means the whole surface.
type Who struct {
	Row     int
	Surface place.Surface
}

func (e Who) String() string   { return canon.Say("who hung", canon.Some("row", e.Row), e.Surface) }
func (Who) Kind() grammar.Kind { return "who" }

func (s *whoSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e := Who{Surface: s.On.Surface()}
	if s.Row != nil {
		e.Row = numbers.Counted(l, s.Row)
	}
	if e == (Who{}) && l.Room == "" {
		return nil, l.RefuseEnd("a row, the ceiling or a wall")
	}
	return e, nil
}

type whoSyntax struct {
	Row *numbers.Count      `parser:"'who' ( 'row' @@ )?"`
	On  *places.WhereSyntax `parser:"( 'on'? @@ )?"`
}

// Help: `help`, `help light`.
type Help struct{ Topic string }

func (e Help) String() string   { return canon.Say("help", e.Topic) }
func (Help) Kind() grammar.Kind { return "help" }

func (s *helpSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.Topic == nil {
		return Help{}, nil
	}
	if len(read.Topic(s.Topic.Text)) == 0 {
		return nil, l.Refuse(s.Topic.Pos, "one word of the list")
	}
	return Help{s.Topic.Text}, nil
}

type helpSyntax struct {
	Topic *read.Anything `parser:"'help' @@?"`
}

// Sketch: `sketch kitchen`, `sketch kitchen looking up`, `sketch north wall`.
type Sketch struct {
	Up      bool
	Surface place.Surface // "" means the ceiling
}

func (e Sketch) String() string {
	return canon.Say("sketch", e.Surface, canon.Tail(e.Up, "looking up"))
}
func (Sketch) Kind() grammar.Kind { return "sketch" }

func (s *sketchSyntax) Entry(*read.Source) (grammar.Entry, error) {
	e := Sketch{s.Up, s.On.Surface()}
	if e.Surface == place.Ceiling {
		e.Surface = ""
	}
	return e, nil
}

type sketchSyntax struct {
	On *places.WhereSyntax `parser:"'sketch' ('of' | 'on')? @@?"`
	Up bool                `parser:"( @'looking' 'up' | @'off' 'below' )?"`
}

var AskKinds = []read.Row{
	{Command: read.Command{Kind: "find", Words: []string{"find", "where is", "where did", "locate"},
		About: "where a thing is now, from what can still be seen", Example: "where is d1", Fits: "a noted thing"},
		Rule: read.Rule[findSyntax](), Makes: []grammar.Entry{Find{}}, Asks: true},
	{Command: read.Command{Kind: "apart", Words: []string{"apart"}, About: "how far two noted things are apart", Example: "apart d1 d2", Fits: "two noted things"},
		Rule: read.Rule[apartSyntax](), Makes: []grammar.Entry{Apart{}}, Asks: true, Chat: read.Always},
	{Command: read.Command{Kind: "covered", Words: []string{"covered", "what's covered"}, About: "what is behind the board and not cut yet", Example: "what's covered", Fits: `nothing, or "in" and a room`},
		Rule: read.Rule[askSyntax](), Makes: []grammar.Entry{Covered{}}, Asks: true},
	{Command: read.Command{Kind: "any", Words: []string{"any", "is there any"}, About: "whether something was noted over a row",
		Example: "any pipe over row 3", Fits: `a thing, pipe, wire or gas, then "over row 3" or "noted"`},
		Rule: read.Rule[anySyntax](), Makes: []grammar.Entry{AnyOver{}}, Asks: true},
	{Command: read.Command{Kind: "who", Words: []string{"who hung", "who put up", "who boarded", "who did"}, About: "who hung a row",
		Example: "who hung row 2", Fits: `"row 2", "ceiling" or a wall`},
		Rule: read.Rule[whoSyntax](), Makes: []grammar.Entry{Who{}}, Asks: true},
	{Command: read.Command{Kind: "log", Words: []string{"log"}, About: "what was said, all of it or of one room, day, person or thing",
		Example: "log today", Fits: `nothing, "today", "yesterday", "last", "since 12", a room, a person or a thing`},
		Rule: read.Rule[logSyntax](), Makes: []grammar.Entry{Log{}}, Asks: true},
	{Command: read.Command{Kind: "sketch", Words: []string{"sketch"}, About: "a picture of the ceiling, a wall, a slope or a bulkhead; the ceiling's with \"looking up\" is mirrored, as seen from the floor",
		Example: "sketch looking up", Fits: `nothing, a room, a wall, or "looking up"`},
		Rule: read.Rule[sketchSyntax](), Makes: []grammar.Entry{Sketch{}}, Asks: true, OfRoom: true,
		Chat: (*read.Source).InWords},
	{Command: read.Command{Kind: "status", Words: []string{"status"}, About: "the job at a glance", Example: "status", Fits: "nothing"},
		Rule: read.Rule[askSyntax](), Makes: []grammar.Entry{Status{}}, Asks: true},
}
