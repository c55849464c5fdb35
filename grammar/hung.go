package grammar

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
)

// Hung: `hung 144 + 16-3/4 row 2 cut d1 d2`, `hung row 2`.
type Hung struct {
	Pieces  []length.Said
	Row     int
	Surface place.Surface   // "" means the ceiling
	Run     place.Direction // which way the boards run, when said
	Cut     []string
}

func (e Hung) String() string {
	said := []any{"hung"}
	for i, p := range e.Pieces {
		said = append(said, tail(i > 0, "+"), p)
	}
	return say(append(said, "row", e.Row, e.Surface, e.Run, cutOut(e.Cut))...)
}
func (Hung) Kind() Kind { return "hung" }

// HungPlan: `hung r2`, `hung r2.1 r2.3 north wall cut d1`: planned pieces, by their ids.
type HungPlan struct {
	IDs     []string
	Surface place.Surface // "" means the ceiling
	Cut     []string
}

func (e HungPlan) String() string {
	return say("hung", strings.Join(e.IDs, " "), e.Surface, cutOut(e.Cut))
}
func (HungPlan) Kind() Kind { return "hung" }

type hungSyntax struct {
	Items []*hungItem `parser:"'hung' @@+"`
}

func (s *hungSyntax) entry(l *line) (Entry, error) {
	var w went
	for _, it := range s.Items {
		switch {
		case it.Rows != nil:
			w.rows = append(w.rows, it.Rows.Rows...)
		case it.IDs != nil:
			w.ids = append(w.ids, it.IDs.IDs...)
		case it.Cut != nil:
			w.cut = it.Cut
		case it.Run != "":
			w.run = it.Run
		case it.On != nil && w.on != nil:
			return nil, l.refuse(it.Pos, oneRow)
		case it.On != nil:
			w.on = it.On
		case it.Now:
		default:
			w.sizes = append(w.sizes, &it.L.number)
		}
	}
	return w.entry(l)
}

type hungItem struct {
	Pos  lexer.Position
	Rows *rowsSaid    `parser:"  'row' @@"`
	Cut  *names       `parser:"| 'cut' @@"`
	Run  string       `parser:"| @Direction"`
	On   *whereSyntax `parser:"| 'on'? @@"`
	Now  bool         `parser:"| @('today' | 'now' | 'already' | 'both')"`
	IDs  *idsSaid     `parser:"| ('+' | 'as' | 'with' | 'piece' | 'pieces' | 'board')* ( @@"`
	L    *oneLength   `parser:"       | @@ )"`
}

// rowSyntax is "rows 1 and 2 up", "row 3 up: 96 + 41 3/4".
type rowSyntax struct {
	Rows rowsSaid `parser:"'row' @@"`
	Up   upSyntax `parser:"@@"`
}

func (s *rowSyntax) entry(l *line) (Entry, error) {
	w := went{rows: s.Rows.Rows}
	w.up(&s.Up)
	return w.entry(l)
}

// piecesSyntax is "r2.1 up", "r3 96 + 41 3/4 up".
type piecesSyntax struct {
	IDs []*idsSaid `parser:"@@+"`
	Up  upSyntax   `parser:"@@"`
}

func (s *piecesSyntax) entry(l *line) (Entry, error) {
	var w went
	for _, of := range s.IDs {
		w.ids = append(w.ids, of.IDs...)
	}
	w.up(&s.Up)
	return w.entry(l)
}

// upSyntax is a statement that rows and pieces are up, with the sizes before or after it.
type upSyntax struct {
	L    []*oneLength `parser:"( ('+' | 'as' | 'with')? @@ )*"`
	Up   bool         `parser:"('both' | 'already' | 'now')* ( @('up' | 'hung') | 'went' ('up' | 'in') ) ('today' | 'now' | 'already')*"`
	Then []*oneLength `parser:"( ('+' | 'as' | 'with')? @@ )*"`
	Run  string       `parser:"@Direction?"`
	On   *whereSyntax `parser:"( 'on'? @@ )?"`
	Cut  *names       `parser:"( 'cut' @@ )?"`
}

// went is what went up, as said, before the ids are known.
type went struct {
	rows  []count // "row 2"
	ids   []*pieceID
	sizes []*number
	cut   *names
	run   string
	on    *whereSyntax
}

func (w *went) up(s *upSyntax) {
	for _, n := range append(s.L, s.Then...) {
		w.sizes = append(w.sizes, &n.number)
	}
	w.cut, w.run, w.on = s.Cut, s.Run, s.On
}

// the size as typed, if it is the only one
func (w *went) raw() string {
	if len(w.sizes) != 1 {
		return ""
	}
	return strings.ToLower(w.sizes[0].raw())
}

// entry returns what hung: planned pieces or whole rows by their ids, or one row with everything said
// about it.
func (w *went) entry(l *line) (Entry, error) {
	if l.Units == length.Imperial && w.rows == nil && !slices.ContainsFunc(w.ids, func(p *pieceID) bool { return isRow(p.Text) }) {
		w.sizes = slices.DeleteFunc(w.sizes, func(n *number) bool { // "hung 2.1" is piece r2.1
			ok := pieceNumber.MatchString(n.raw())
			if ok {
				w.ids = append(w.ids, &pieceID{n.Pos, "r" + n.raw()})
			}
			return ok
		})
	}
	if m := twoRows.FindStringSubmatch(w.raw()); m != nil && w.rows == nil && w.ids == nil {
		w.rows, w.sizes = []count{{w.sizes[0].Pos, int(m[1][0] - '0')}, {w.sizes[0].Pos, int(m[2][0] - '0')}}, nil
	}
	if rowList.MatchString(w.raw()) && w.rows == nil && w.ids == nil && consecutive(w.raw()) {
		for _, r := range strings.Fields(strings.ReplaceAll(w.raw(), ",", " ")) {
			w.rows = append(w.rows, count{w.sizes[0].Pos, int(r[0] - '0')})
		}
		w.sizes = nil
	}
	ids, whole, err := w.said(l)
	if err != nil {
		return nil, err
	}
	e := Hung{Run: place.Direction(w.run), Surface: w.on.surface()}
	planned := len(w.sizes) == 0 && e.Run == "" && (w.rows == nil || len(ids) > 1 && whole)
	switch {
	case ids == nil || planned || len(ids) == 1 && whole:
	case w.ids != nil:
		return nil, l.refuse(w.ids[0].Pos, "planned pieces alone, or lengths and one row")
	default:
		return nil, l.refuse(w.rows[1].Pos, oneRow)
	}
	if w.cut != nil {
		if e.Cut, err = w.cut.known(l, true); err != nil {
			return nil, err
		}
	}
	for _, n := range w.sizes {
		if err := l.sliver(n); err != nil {
			return nil, err
		}
		if err := l.feetOrInches(n); err != nil {
			return nil, err
		}
		e.Pieces = append(e.Pieces, l.said(n, pieceLengths))
	}
	switch {
	case ids == nil && len(w.sizes) == 0 && w.cut == nil && e.Run == "" && e.Surface != "":
		return UpAll{e.Surface}, nil
	case ids == nil:
		return nil, l.refuseEnd("which row: row 2")
	case planned:
		return HungPlan{ids, e.Surface, e.Cut}, nil
	}
	e.Row, _ = strconv.Atoi(ids[0][1:])
	return e, nil
}

// said returns the ids of all rows and pieces, each once, and whether all are rows.
func (w *went) said(l *line) (ids []string, whole bool, err error) {
	whole = true
	add := func(id string) {
		whole = whole && isRow(id)
		if !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	for _, n := range w.rows {
		add(l.rowID(&n))
	}
	if l.wrong != nil {
		return nil, false, l.wrong
	}
	for _, p := range w.ids {
		if !lex.IsPiece(p.Text) {
			return nil, false, l.refuse(p.Pos, "a row or a planned piece: row 2, r2, r2.1")
		}
		add(p.Text)
	}
	return ids, whole, nil
}

const oneRow = "one row, on one surface"

// pieceNumber matches the id of a planned piece without its r. A half such as 8.5 is a length, and in a
// metric job 2.4 is metres.
var pieceNumber = regexp.MustCompile(`^[1-9][0-9]?\.[1-46-9]$`)

// twoRows matches the whole of "hung 1 and 2", without "row".
var twoRows = regexp.MustCompile(`^([1-9]) ?(?:and|&) ?([1-9])$`)

// rowList matches the whole of "hung 1 2 3": no pieces are that small.
var rowList = regexp.MustCompile(`^[1-9](?:,? [1-9]){2,}$`)

// consecutive reports whether the figures count up by one.
func consecutive(said string) bool {
	all := strings.Fields(strings.ReplaceAll(said, ",", " "))
	for i := 1; i < len(all); i++ {
		if all[i][0] != all[i-1][0]+1 {
			return false
		}
	}
	return true
}

// sliver asks about a size too small for a piece: "hung 3 in row 2" may mean three boards.
func (l *line) sliver(n *number) error {
	v, err := strconv.Atoi(strings.TrimSuffix(n.raw(), " in"))
	if err != nil || v >= leastPiece[l.Units] || len(n.Readings) != 1 {
		return nil
	}
	piece := length.Said{L: n.Readings[0].L, Tag: n.Readings[0].Tag}
	return &Ask{Col: n.Pos.Column, Word: n.raw(), Why: n.raw() + ": how long is each piece?",
		Choices: []Choice{reads("one piece of "+shown(piece, l.Units), l.canonical(l.with(n.cut(piece.String()))))}}
}

// rowID returns the id of a whole row. No ceiling has a thousand of them.
func (l *line) rowID(n *count) string {
	id := "r" + strconv.Itoa(l.counted(n))
	if !isRow(id) {
		l.fault(l.refuse(n.Pos, "a number under 1000"))
	}
	return id
}

// feetOrInches asks about a piece given as a bare stock length.
func (l *line) feetOrInches(n *number) error {
	v, ok := n.whole()
	if !ok || l.Units == length.Metric || !slices.Contains(stockFeet, v) {
		return nil
	}
	ask := &Ask{Col: n.Pos.Column, Word: n.raw(), Why: fmt.Sprintf("%d: feet or inches?", v)}
	for _, unit := range []length.Length{length.Foot, length.Inch} {
		one := length.Length(v) * unit
		ask.Choices = append(ask.Choices, reads(fmt.Sprintf("%d %s", v, map[length.Length]string{length.Foot: "ft", length.Inch: "in"}[unit]),
			l.canonical(l.with(n.cut(length.Canon(one))))))
	}
	return ask
}

// stockFeet are the lengths that boards are sold in, in feet (common practice, no source).
var stockFeet = []int{8, 9, 10, 12, 14, 16}

// Gap: `gap 118-3/8 118-5/8`, `gap 41-7/8 x 96`. B is zero if one reading was given, Long if only one side
// was.
type Gap struct {
	A, B, Long length.Said
}

func (e Gap) String() string {
	s := say("gap", e.A.String(), clause{e.B})
	if e.Long.L != 0 {
		s = say(s, "x", e.Long)
	}
	return s
}
func (Gap) Kind() Kind { return "gap" }

func (s *gapSyntax) entry(l *line) (Entry, error) {
	if s.B != nil {
		if err := l.oneOrTwo(&s.A.number, &s.B.number); err != nil {
			return nil, err
		}
	}
	e := Gap{A: l.said(&s.A.number, distances)}
	if s.B != nil {
		e.B = l.said(&s.B.number, distances)
	}
	if s.Long != nil {
		e.Long = l.said(&s.Long.number, distances)
	}
	if s.Both {
		if s.B != nil {
			return nil, l.refuse(s.B.Pos, "one length for both ends")
		}
		e.B = e.A
	}
	return e, nil
}

type gapSyntax struct {
	A    needAmong  `parser:"'gap' @@ 'end'?"`
	B    *aLength   `parser:"@@? 'end'?"`
	Long *needAmong `parser:"( 'x' @@ )?"`
	Both bool       `parser:"@('both' 'ends')?"`
}

var hungKinds = []kind{
	{Command: Command{Kind: "gap", Words: []string{"gap", "opening"}, About: "an opening measured at both ends: the size to cut",
		Example: "gap 118 3/8 118 5/8", Metric: "gap 3007 3013", Fits: "one length, or two: one for each end; then x and how long it is"},
		rule: rule[gapSyntax](), makes: []Entry{Gap{}}},
	{Command: Command{Kind: "hung", Words: []string{"hung", "hang", "put up"}, Talk: []string{"~ hung", "~ put up"}, About: "pieces that went up, or a whole row",
		Example: "hung 144 + 16 3/4 row 2", Metric: "hung 3600 + 425 row 2", Fits: `pieces with + between, "row 2", or planned ones like r2.1, then "cut d1"`},
		rule: rule[hungSyntax](), makes: []Entry{Hung{}, HungPlan{}},
		talk: func(l *line) bool { return l.inWords() && l.began() != "put up" }, // "we hung out"
	},
	{Command: Command{Kind: "up", About: "all of a ceiling or a wall is up",
		Example: "ceiling up", Fits: `"up"`},
		makes: []Entry{UpAll{}}},
	{Command: Command{Kind: "boarded", Words: []string{"boarded"}, About: "a wall that is boarded, or finished and will not move",
		Example: "north wall boarded 1/2", Metric: "north wall boarded 12.5mm", Fits: `"boarded" and a thickness, "finished", "up", or "is window wall"`},
		rule: rule[boardedSyntax](), makes: []Entry{Boarded{}}},
	{Command: Command{Kind: "open", Words: []string{"open", "opened", "cut out", "cut", "cutout"}, About: "holes that are cut",
		Example: "open d1", Fits: "the names of noted things"},
		rule: rule[openSyntax](), makes: []Entry{Opened{}}},
}
