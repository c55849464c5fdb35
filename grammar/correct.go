package grammar

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Undo: `undo`, `scratch that`.
type Undo struct{}

func (e Undo) String() string { return "undo" }
func (Undo) Kind() Kind       { return "undo" }

func (s *undoSyntax) entry(l *line) (Entry, error) {
	switch {
	case s.New == nil:
		return Undo{}, nil
	case s.Old != nil:
		return l.swap(&s.New.number, &s.Old.number), nil
	}
	if n, ok := s.New.whole(); ok && n > 0 {
		r := l.refuse(s.New.Pos, fmt.Sprintf(`"strike %d" to take back note %d`, n, n))
		r.Hint = Strike{n}.String()
		return nil, r
	}
	return nil, l.refuse(s.New.Pos, words.rows["undo"].Fits)
}

type undoSyntax struct {
	New *oneLength  `parser:"'undo' ( @@"`
	Old *needLength `parser:"( 'not' @@ )? )?"`
}

// Strike: `strike 17`.
type Strike struct{ Seq int }

func (e Strike) String() string { return say("strike", e.Seq) }
func (Strike) Kind() Kind       { return "strike" }

func (s *strikeSyntax) entry(l *line) (Entry, error) { return Strike{l.counted(&s.Seq)}, nil }

type strikeSyntax struct {
	Seq count `parser:"'strike' ('note' | 'number' | 'no')? @@"`
}

// Delete: `delete l3`: strikes all standing notes of a thing.
type Delete struct{ Name string }

func (e Delete) String() string { return "delete " + e.Name }
func (Delete) Kind() Kind       { return "delete" }

func (s *deleteSyntax) entry(l *line) (Entry, error) {
	list, err := s.Names.known(l, false)
	if err == nil && len(list) > 1 {
		err = l.refuseEnd("one thing a line")
	}
	if err != nil {
		return nil, err
	}
	return Delete{list[0]}, nil
}

type deleteSyntax struct {
	Names names `parser:"'delete' @@"`
}

// Refix: `fix d1 7-1/4 south of strap 3`, `fix d1 6"`: new distances, or a new size.
type Refix struct {
	Name  string
	Size  place.Size
	Fixes []place.Fix
	Not   length.Said // the distance to be replaced, if it was said
}

func (e Refix) String() string {
	return say("fix", e.Name, e.Size, located{"", e.Fixes, e.Size.A != 0}, some("not", e.Not))
}
func (Refix) Kind() Kind { return "fix" }

func (s *fixSyntax) entry(l *line) (Entry, error) {
	e := Refix{Name: s.Name}
	if s.Said != nil {
		if e.Name = s.Said.Text; !l.noun(e.Name) && !l.word(e.Name) {
			return nil, l.refuse(s.Said.Pos, "a noted thing")
		}
	}
	p := where{fixing: true}
	if err := p.read(l, s.Items); err != nil {
		return nil, err
	}
	if len(p.Fixes) == 0 && !p.sized && s.Said != nil && !l.noun(e.Name) {
		return nil, l.refuse(s.Said.Pos, "a noted thing")
	}
	switch {
	case p.Name != "", p.Label != "", p.even, p.paint:
		return nil, l.refuse(s.Pos, words.rows["fix"].Fits)
	case len(p.Fixes) == 0 && !p.sized:
		return nil, l.refuseEnd("its new distances")
	case p.sizeErr != nil:
		return nil, p.sizeErr
	case p.Surface != "":
		return nil, l.refuse(s.Pos, "distances only; strike the note to put it on another surface")
	}
	if e.Size, e.Fixes = p.Size, p.Fixes; s.Not != nil {
		e.Not = l.said(&s.Not.number, anyLength)
	}
	return e, nil
}

type fixSyntax struct {
	Pos   lexer.Position
	Name  string       `parser:"'fix' ( 'mark'? @Name"`
	Said  *label       `parser:"| @@ ) 'to'?"`
	Items []*placeItem `parser:"@@*"`
	Not   *needLength  `parser:"( 'not' @@ )?"`
}

// Swap: `84 not 48`, `not 48, 84`: in the sender's own last entry; `84 not 48 in d1`: in the standing
// entry of d1. `*84` has Old zero.
type Swap struct {
	New, Old length.Said
	Of       string
}

func (e Swap) String() string {
	of := clause{some("in", e.Of)}
	if e.Old == (length.Said{}) {
		return say("*"+e.New.String(), of)
	}
	return say(e.New.String(), "not", e.Old, of)
}
func (Swap) Kind() Kind { return "swap" }

func (s *swapSyntax) entry(l *line) (Entry, error) {
	e := Swap{}
	switch {
	case s.Right != nil:
		return s.Right.swap(l)
	case s.Wrong != nil:
		e = l.swap(&s.Then.number, &s.Wrong.number)
	case s.Not != nil:
		e = l.swap(&s.New.number, &s.Not.number)
	default:
		e.New = l.said(&s.New.number, anyLength)
	}
	var err error
	e.Of, err = s.In.name(l)
	return e, err
}

// inName says whose note to correct, if not the last one.
type inName struct {
	Support *supportN `parser:"'in' ( @@"`
	What    *noted    `parser:"| @@ )"`
}

func (s *inName) name(l *line) (string, error) {
	if s == nil {
		return "", nil
	}
	if s.Support != nil {
		return s.Support.of(l).String(), nil
	}
	name := canonicalThing(s.What.Text)
	if !l.noun(name) {
		return "", l.refuse(s.What.Pos, "a noted thing")
	}
	return name, nil
}

// Instead: `instead east`, `instead fan`, `instead in den`: what the sender's last note, or with "in d1"
// that of d1, should have said: another wall (in place of NotWall), kind or room.
type Instead struct {
	Wall, NotWall place.Wall
	What, Room    string
	Of            string
}

func (e Instead) String() string {
	return say("instead", e.Wall, some("not", e.NotWall), e.What, some("room", e.Room), clause{some("in", e.Of)})
}
func (Instead) Kind() Kind { return "instead" }

func (s *insteadSyntax) entry(l *line) (Entry, error) {
	of, err := s.In.name(l)
	return Instead{place.Wall(s.Wall), s.Not.or(""), s.What, s.Room, of}, err
}

type insteadSyntax struct {
	Wall string    `parser:"'instead' ( @Wall"`
	Not  *needWall `parser:"( 'not' @@ )?"`
	What string    `parser:"| @Thing"`
	Room string    `parser:"| 'room' @Room )"`
	In   *inName   `parser:"@@?"`
}

// swapSyntax corrects one number: "84 not 48", "not 48, 84", "make that 84".
type swapSyntax struct {
	Wrong *needAmong   `parser:"(  'not' @@"`
	Then  *needLength  `parser:"   'but'? @@"`
	New   *needLength  `parser:" | ('*' | 'swap') @@"`
	Not   *needLength  `parser:"   ( 'not' @@ )?"`
	Right *rightSyntax `parser:" | @@ )"`
	In    *inName      `parser:"@@?"`
}

func (s *rightSyntax) swap(l *line) (Entry, error) {
	e := l.swap(&s.New.number, &s.Old.number)
	var err error
	e.Of, err = s.In.name(l)
	return e, err
}

type rightSyntax struct {
	New oneLength  `parser:"@@"`
	Old needLength `parser:"'not' @@"`
	In  *inName    `parser:"@@?"`
}

func (l *line) swap(right, wrong *number) Swap {
	return Swap{New: l.said(right, anyLength), Old: l.said(wrong, anyLength)}
}

// Pick: a bare `1`, `2`, `3` that answers a question.
type Pick struct{ N int }

func (e Pick) String() string { return strconv.Itoa(e.N) }
func (Pick) Kind() Kind       { return "pick" }

// spoken are the number words that can answer a question: "two please".
var spoken = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
	"first": 1, "second": 2, "third": 3, "1st": 1, "2nd": 2, "3rd": 3}

var pickSaid = regexp.MustCompile(`^(?:[(#]|number |option |choice |the )*([1-9]|1st|2nd|3rd|[a-z]+)[.)!,]*(?: one)?[.!,]*(?: (?:please|pls|plz|thanks|thx|then))?[.!]*$`)

// picked reads an answer to a question: 1, 2., (3), #2, "two please".
func picked(s string) int {
	m := pickSaid.FindStringSubmatch(strings.ToLower(s))
	if m == nil {
		return 0
	}
	if n := spoken[m[1]]; n > 0 {
		return n
	}
	if len(m[1]) == 1 && '1' <= m[1][0] && m[1][0] <= '9' {
		return int(m[1][0] - '0')
	}
	return 0
}

// Bare is a length alone. It answers an open question that asks for one.
type Bare struct{ L length.Said }

func (e Bare) String() string { return e.L.String() }
func (Bare) Kind() Kind       { return "bare" }

func (s *bareSyntax) entry(l *line) (Entry, error) {
	return Bare{l.said(&s.L.number, anyLength)}, nil
}

type bareSyntax struct {
	L oneLength `parser:"@@"`
}

var correctKinds = []kind{
	{Command: Command{Kind: "undo", Words: []string{"undo", "undo that", "scratch that", "strike that"}, Talk: []string{"scrap that", "scrap it", "delete that", "cancel that", "take that back", "take that off", "forget that", "kill that"}, About: "take back your own last note",
		Example: "undo", Fits: `nothing, or "84 not 48"`},
		rule: rule[undoSyntax](), makes: []Entry{Undo{}}},
	{Command: Command{Kind: "strike", Words: []string{"strike"}, About: "take back note number 17", Example: "strike 17", Fits: "the number of a note"},
		rule: rule[strikeSyntax](), makes: []Entry{Strike{}}},
	{Command: Command{Kind: "delete", Words: []string{"delete"}, About: "take back all notes of a thing", Example: "delete d1", Fits: "a noted thing"},
		rule: rule[deleteSyntax](), makes: []Entry{Delete{}}},
	{Command: Command{Kind: "fix", Words: []string{"fix"}, About: "new distances or a new size for a noted thing",
		Example: "fix d1 7 1/4 south of strap 3", Metric: "fix d1 185 south of strap 3", Fits: "a noted thing, then its new distances"},
		rule: rule[fixSyntax](), makes: []Entry{Refix{}}},
	{Command: Command{Kind: "swap", Words: []string{"make that", "i meant", "should be"}, About: "one number of your last note was wrong",
		Example: "84 not 48", Metric: "840 not 480", Fits: "the right number, \"not\", the wrong one"},
		rule: rule[swapSyntax](), makes: []Entry{Swap{}}},
	{Command: Command{Kind: "instead", Words: []string{"instead"}, About: "what your last note should have said: another wall, another kind of thing, another room",
		Example: "instead east not west", Fits: `a wall, a kind of thing or "room" and a room, then "in d1" where it is not your last`},
		rule: rule[insteadSyntax](), makes: []Entry{Instead{}}, talk: always},
}
