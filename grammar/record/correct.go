package record

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/read"
)

// Undo: `undo`, `scratch that`.
type Undo struct{}

func (e Undo) String() string   { return "undo" }
func (Undo) Kind() grammar.Kind { return "undo" }

func (s *undoSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	switch {
	case s.New == nil:
		return Undo{}, nil
	case s.Old != nil:
		return swap(l, &s.New.Number, &s.Old.Number), nil
	}
	if n, ok := s.New.Whole(); ok && n > 0 {
		r := l.Refuse(s.New.Pos, fmt.Sprintf(`"strike %d" to take back note %d`, n, n))
		r.Hint = Strike{n}.String()
		return nil, r
	}
	return nil, l.Refuse(s.New.Pos, read.Words.Rows["undo"].Fits)
}

type undoSyntax struct {
	New *numbers.OneLength  `parser:"'undo' ( @@"`
	Old *numbers.NeedLength `parser:"( 'not' @@ )? )?"`
}

// Strike: `strike 17`.
type Strike struct{ Seq int }

func (e Strike) String() string   { return canon.Say("strike", e.Seq) }
func (Strike) Kind() grammar.Kind { return "strike" }

func (s *strikeSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	return Strike{numbers.Counted(l, &s.Seq)}, nil
}

type strikeSyntax struct {
	Seq numbers.Count `parser:"'strike' ('note' | 'number' | 'no')? @@"`
}

// Delete: `delete l3`: strikes all standing notes of a thing.
type Delete struct{ Name string }

func (e Delete) String() string   { return "delete " + e.Name }
func (Delete) Kind() grammar.Kind { return "delete" }

func (s *deleteSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	list, err := exactly(l, &s.Names, 1, "one thing a line")
	if err != nil {
		return nil, err
	}
	return Delete{list[0]}, nil
}

// exactly returns n things, or the refusal that wants so many. Several have to be noted.
func exactly(l *read.Source, names *read.Names, n int, want string) ([]string, error) {
	list, err := names.Known(l, n > 1)
	if err == nil && len(list) != n {
		err = l.RefuseEnd(want)
	}
	return list, err
}

type deleteSyntax struct {
	Names read.Names `parser:"'delete' @@"`
}

// Refix: `fix d1 7-1/4 south of strap 3`, `fix d1 6"`: new distances, or a new size.
type Refix struct {
	Name  string
	Size  place.Size
	Fixes []place.Fix
	Not   length.Said // the distance to be replaced, if it was said
}

func (e Refix) String() string {
	return canon.Say("fix", e.Name, e.Size, canon.Located{On: "", Fixes: e.Fixes, Comma: e.Size.A != 0}, canon.Some("not", e.Not))
}
func (Refix) Kind() grammar.Kind { return "fix" }

func (s *fixSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e := Refix{Name: s.Name}
	if s.Said != nil {
		if e.Name = s.Said.Text; !l.MayName(e.Name) && !l.Word(e.Name) {
			return nil, l.Refuse(s.Said.Pos, "a noted thing")
		}
	}
	p := places.Where{Fixing: true}
	if err := p.Read(l, s.Items); err != nil {
		return nil, err
	}
	if len(p.Fixes) == 0 && !p.Sized && s.Said != nil && !l.MayName(e.Name) {
		return nil, l.Refuse(s.Said.Pos, "a noted thing")
	}
	switch {
	case p.Name != "", p.Label != "", p.Even, p.Paint:
		return nil, l.Refuse(s.Pos, read.Words.Rows["fix"].Fits)
	case len(p.Fixes) == 0 && !p.Sized:
		return nil, l.RefuseEnd("its new distances")
	case p.SizeErr != nil:
		return nil, p.SizeErr
	case p.Surface != "":
		return nil, l.Refuse(s.Pos, "distances only; strike the note to put it on another surface")
	}
	if e.Size, e.Fixes = p.Size, p.Fixes; s.Not != nil {
		e.Not = numbers.Said(l, &s.Not.Number, numbers.AnyLength)
	}
	return e, nil
}

type fixSyntax struct {
	Pos   lexer.Position
	Name  string              `parser:"'fix' ( 'mark'? @Name"`
	Said  *read.Label         `parser:"| @@ ) 'to'?"`
	Items []*places.PlaceItem `parser:"@@*"`
	Not   *numbers.NeedLength `parser:"( 'not' @@ )?"`
}

// Swap: `84 not 48`, `not 48, 84`: in the sender's own last entry; `84 not 48 in d1`: in the standing
// entry of d1. `*84` has Old zero.
type Swap struct {
	New, Old length.Said
	Of       string
}

func (e Swap) String() string {
	of := canon.Clause{canon.Some("in", e.Of)}
	if e.Old == (length.Said{}) {
		return canon.Say("*"+e.New.String(), of)
	}
	return canon.Say(e.New.String(), "not", e.Old, of)
}
func (Swap) Kind() grammar.Kind { return "swap" }

func (s *swapSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e := Swap{}
	switch {
	case s.Right != nil:
		return s.Right.swap(l)
	case s.Wrong != nil:
		e = swap(l, &s.Then.Number, &s.Wrong.Number)
	case s.Not != nil:
		e = swap(l, &s.New.Number, &s.Not.Number)
	default:
		e.New = numbers.Said(l, &s.New.Number, numbers.AnyLength)
	}
	var err error
	e.Of, err = s.In.name(l)
	return e, err
}

// inName says whose note to correct, if not the last one.
type inName struct {
	Support *places.SupportN `parser:"'in' ( @@"`
	What    *read.Noted      `parser:"| @@ )"`
}

func (s *inName) name(l *read.Source) (string, error) {
	if s == nil {
		return "", nil
	}
	if s.Support != nil {
		return s.Support.Of(l).String(), nil
	}
	name := grammar.CanonicalThing(s.What.Text)
	if !l.MayName(name) {
		return "", l.Refuse(s.What.Pos, "a noted thing")
	}
	return name, nil
}

// Instead: `instead east`, `instead fan`, `instead in den`: what the sender's last note, or with "in d1"
// that of d1, should have said: another wall (in place of NotWall), kind, room or row, or that it was
// measured to the edge, or to the centre.
type Instead struct {
	Wall, NotWall place.Wall
	What, Room    string
	Row           int
	Edge, Centre  bool
	Of            string
}

func (e Instead) String() string {
	return canon.Say("instead", e.Wall, canon.Some("not", e.NotWall), e.What, canon.Some("room", e.Room), canon.Some("row", e.Row), canon.Tail(e.Edge, "edge"), canon.Tail(e.Centre, "centre"), canon.Clause{canon.Some("in", e.Of)})
}
func (Instead) Kind() grammar.Kind { return "instead" }

func (s *insteadSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	of, err := s.In.name(l)
	e := Instead{Wall: place.Wall(s.Wall), NotWall: s.Not.Or(""), What: s.What, Room: s.Room, Edge: s.Edge, Centre: s.Centre, Of: of}
	if s.Row != nil {
		e.Row = numbers.Counted(l, s.Row)
	}
	return e, err
}

type insteadSyntax struct {
	Wall   string           `parser:"'instead' ( @Wall"`
	Not    *places.NeedWall `parser:"( 'not' @@ )?"`
	What   string           `parser:"| @Thing"`
	Edge   bool             `parser:"| @'edge'"`
	Centre bool             `parser:"| @'centre'"`
	Row    *numbers.Count   `parser:"| 'row' @@"`
	Room   string           `parser:"| 'room' @Room )"`
	In     *inName          `parser:"@@?"`
}

// Turn: `other way round`, `other way round in d1`: the numbers, the walls or the direction were mixed up;
// `wrong wall`: it was off the wall opposite.
type Turn struct {
	Of   string
	Wall bool
}

func (e Turn) String() string {
	said := "other way round"
	if e.Wall {
		said = wrongWall
	}
	return canon.Say(said, canon.Clause{canon.Some("in", e.Of)})
}
func (Turn) Kind() grammar.Kind { return "turn" }

const wrongWall = "wrong wall"

func (s *turnSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	of, err := s.In.name(l)
	return Turn{of, l.Began() == wrongWall}, err
}

type turnSyntax struct {
	In *inName `parser:"'turn' @@?"`
}

// Repeat: `repeat room kitchen straps`: the framing of that room again in this one. `repeat east`, `repeat other`,
// `repeat room bath`: the same as the sender's last note again, off the wall
// opposite or in another room.
type Repeat struct {
	Wall place.Wall // "" for either
	Room string
	Of   string // the room whose framing is meant
}

func (e Repeat) String() string {
	if e.Of != "" {
		return "repeat room " + e.Of + " straps"
	}
	if e.Room != "" {
		return "repeat room " + e.Room
	}
	return canon.Say("repeat", canon.Tail(e.Wall == "", "other"), e.Wall)
}
func (Repeat) Kind() grammar.Kind { return "repeat" }

func (s *repeatSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.Its {
		return Repeat{Of: s.Room}, nil
	}
	return Repeat{Wall: place.Wall(s.Wall), Room: s.Room}, nil
}

type repeatSyntax struct {
	Wall  string `parser:"'repeat' ( @Wall"`
	Room  string `parser:"| 'room' @Room"`
	Its   bool   `parser:"@'straps'?"`
	Other bool   `parser:"| @'other' )"`
}

// Gone: `gone d1`, `gone row 2 on north wall`: a thing, or a row that was up, is said to be there no more. Whether
// its notes are to be taken back is asked.
type Gone struct {
	Name    string
	Row     int
	Surface place.Surface
}

func (e Gone) String() string {
	return canon.Say("gone", e.Name, canon.Some("row", e.Row), canon.Located{On: e.Surface})
}
func (Gone) Kind() grammar.Kind { return "gone" }

func (s *goneSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.Row != nil {
		return Gone{Row: numbers.Counted(l, s.Row), Surface: s.On.Surface()}, nil
	}
	list, err := exactly(l, &s.Names, 1, "one thing a line")
	if err != nil {
		return nil, err
	}
	return Gone{Name: list[0]}, nil
}

type goneSyntax struct {
	Row   *numbers.Count      `parser:"'gone' ( 'row' @@"`
	On    *places.WhereSyntax `parser:"  ( 'on'? @@ )?"`
	Names read.Names          `parser:"| @@ )"`
}

// swapSyntax corrects one number: "84 not 48", "not 48, 84", "make that 84".
type swapSyntax struct {
	Wrong *numbers.NeedAmong  `parser:"(  'not' @@"`
	Then  *numbers.NeedLength `parser:"   'but'? @@"`
	New   *numbers.NeedLength `parser:" | ('*' | 'swap') @@"`
	Not   *numbers.NeedLength `parser:"   ( 'not' @@ )?"`
	Right *rightSyntax        `parser:" | @@ )"`
	In    *inName             `parser:"@@?"`
}

func (s *rightSyntax) swap(l *read.Source) (grammar.Entry, error) {
	e := swap(l, &s.New.Number, &s.Old.Number)
	var err error
	e.Of, err = s.In.name(l)
	return e, err
}

type rightSyntax struct {
	New numbers.OneLength  `parser:"@@"`
	Old numbers.NeedLength `parser:"'not' @@"`
	In  *inName            `parser:"@@?"`
}

func swap(l *read.Source, right, wrong *numbers.Number) Swap {
	return Swap{New: numbers.Said(l, right, numbers.AnyLength), Old: numbers.Said(l, wrong, numbers.AnyLength)}
}

// Pick: a bare `1`, `2`, `3` that answers a question.
type Pick struct{ N int }

func (e Pick) String() string   { return strconv.Itoa(e.N) }
func (Pick) Kind() grammar.Kind { return "pick" }

var pickSaid = regexp.MustCompile(`^(?:[(#]|(?:ok|okay|yes|yeah|yep|its|it's|go with|number|option|choice|the),? )*([1-9]|1st|2nd|3rd|[a-z]+)[.)!,]*(?: one)?[.!,]*(?: (?:please|pls|plz|thanks|thx|then|yes|yeah|yep|ok|is right|is correct))?[.!]*$`)

// Picked reads an answer to a question: 1, 2., (3), #2, "two please".
func Picked(s string) int {
	m := pickSaid.FindStringSubmatch(strings.ToLower(s))
	if m == nil {
		return 0
	}
	if n := max(lex.Counts[m[1]], lex.Ordinal[grammar.WithOrdinals(m[1])]); 0 < n && n < 10 {
		return n
	}
	if len(m[1]) == 1 && '1' <= m[1][0] && m[1][0] <= '9' {
		return int(m[1][0] - '0')
	}
	return 0
}

// Bare is a length alone. It answers an open question that asks for one.
type Bare struct{ L length.Said }

func (e Bare) String() string   { return e.L.String() }
func (Bare) Kind() grammar.Kind { return "bare" }

func (s *BareSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	return Bare{numbers.Said(l, &s.L.Number, numbers.AnyLength)}, nil
}

type BareSyntax struct {
	L numbers.OneLength `parser:"@@"`
}

var CorrectKinds = []read.Row{
	{Command: read.Command{Kind: "undo", Words: []string{"undo", "undo that", "scratch that", "strike that"}, Talk: []string{"scrap that", "scrap it", "delete that", "cancel that", "take that back", "take that off", "forget that", "kill that"}, About: "take back your own last note",
		Example: "undo", Fits: `nothing, or "84 not 48"`},
		Rule: read.Rule[undoSyntax](), Makes: []grammar.Entry{Undo{}}},
	{Command: read.Command{Kind: "strike", Words: []string{"strike"}, About: "take back note number 17", Example: "strike 17", Fits: "the number of a note"},
		Rule: read.Rule[strikeSyntax](), Makes: []grammar.Entry{Strike{}}},
	{Command: read.Command{Kind: "delete", Words: []string{"delete"}, About: "take back all notes of a thing", Example: "delete d1", Fits: "a noted thing"},
		Rule: read.Rule[deleteSyntax](), Makes: []grammar.Entry{Delete{}}},
	{Command: read.Command{Kind: "fix", Words: []string{"fix"}, About: "new distances or a new size for a noted thing",
		Example: "fix d1 7 1/4 south of strap 3", Metric: "fix d1 185 south of strap 3", Fits: "a noted thing, then its new distances"},
		Rule: read.Rule[fixSyntax](), Makes: []grammar.Entry{Refix{}}},
	{Command: read.Command{Kind: "swap", Words: []string{"make that", "i meant", "should be"}, About: "one number of your last note was wrong",
		Example: "84 not 48", Metric: "840 not 480", Fits: "the right number, \"not\", the wrong one"},
		Rule: read.Rule[swapSyntax](), Makes: []grammar.Entry{Swap{}}},
	{Command: read.Command{Kind: "instead", Words: []string{"instead"}, About: "what your last note should have said: another wall, another kind of thing, another room",
		Example: "instead east not west", Fits: `a wall, a kind of thing or "room" and a room, then "in d1" where it is not your last`},
		Rule: read.Rule[insteadSyntax](), Makes: []grammar.Entry{Instead{}}, Chat: read.Always},
	{Command: read.Command{Kind: "turn", Words: []string{"other way round", wrongWall}, About: "the two numbers of your last note, its walls or its direction were mixed up",
		Example: "other way round", Fits: `nothing, or "in d1"`},
		Rule: read.Rule[turnSyntax](), Makes: []grammar.Entry{Turn{}}, Chat: read.Always},
	{Command: read.Command{Kind: "repeat", Words: []string{"repeat"}, About: "your last note again, off the wall opposite or in another room; or the straps of a room",
		Example: "repeat other", Fits: `a wall, "other", or "room" and a room, then "straps" for those of that room`},
		Rule: read.Rule[repeatSyntax](), Makes: []grammar.Entry{Repeat{}}, Chat: read.Always},
	{Command: read.Command{Kind: "gone", Words: []string{"gone"}, About: "a noted thing, or a row that was up, is there no more: asks whether to take it off the list",
		Example: "gone d1", Fits: "a noted thing, or a row"},
		Rule: read.Rule[goneSyntax](), Makes: []grammar.Entry{Gone{}}, Chat: read.Always},
}
