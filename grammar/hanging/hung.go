package hanging

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/things"
)

// Hung: `hung 144 + 16-3/4 row 2 cut d1 d2`, `hung row 2`.
type Hung struct {
	Pieces  []length.Said
	Row     int
	Surface place.Surface   // "" means the ceiling
	Run     place.Direction // which way the boards run, when said
	Begun   place.Wall      `json:",omitempty"` // the wall it was begun at, when said
	Used    []boards.Boards `json:",omitempty"` // what it was cut from, when said
	Cut     []string
}

func (e Hung) String() string {
	said := []any{"hung"}
	for i, p := range e.Pieces {
		said = append(said, canon.Tail(i > 0, "+"), p)
	}
	return canon.Say(append(said, "row", e.Row, e.Surface, e.Run, canon.Some("begun at", e.Begun), boards.Using(e.Used), canon.CutOut(e.Cut))...)
}
func (Hung) Kind() grammar.Kind { return "hung" }

// HungPlan: `hung r2`, `hung r2.1 r2.3 north wall cut d1`: planned pieces, by their ids.
type HungPlan struct {
	IDs     []string
	Surface place.Surface // "" means the ceiling
	Cut     []string
}

func (e HungPlan) String() string {
	return canon.Say("hung", strings.Join(e.IDs, " "), e.Surface, canon.CutOut(e.Cut))
}
func (HungPlan) Kind() grammar.Kind { return "hung" }

type hungSyntax struct {
	Items []*hungItem `parser:"'hung' @@+"`
}

func (s *hungSyntax) Entry(l *read.Source) (grammar.Entry, error) {
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
		case it.Begun != nil:
			w.begun = it.Begun.Wall
		case it.Used != nil:
			w.used = it.Used
		case it.On != nil && w.on != nil:
			return nil, l.Refuse(it.Pos, oneRow)
		case it.On != nil:
			w.on = it.On
		case it.Now:
		default:
			w.sizes = append(w.sizes, &it.L.Number)
		}
	}
	return w.Entry(l)
}

type hungItem struct {
	Pos   lexer.Position
	Rows  *boards.RowsSaid    `parser:"  'row' @@"`
	Cut   *read.Names         `parser:"| 'cut' @@"`
	Run   string              `parser:"| @Direction"`
	Begun *places.NeedWall    `parser:"| 'begun' 'at' @@"`
	Used  *boards.StockItems  `parser:"| 'using' @@"`
	On    *places.WhereSyntax `parser:"| 'on'? @@"`
	Now   bool                `parser:"| @('today' | 'now' | 'already' | 'both')"`
	IDs   *boards.IdsSaid     `parser:"| ('+' | 'as' | 'with' | 'piece' | 'pieces' | 'board')* ( @@"`
	L     *numbers.OneLength  `parser:"       | @@ )"`
}

// RowSyntax is "rows 1 and 2 up", "row 3 up: 96 + 41 3/4".
type RowSyntax struct {
	Rows boards.RowsSaid `parser:"'row' @@"`
	Up   upSyntax        `parser:"@@"`
}

func (s *RowSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	w := went{rows: s.Rows.Rows}
	w.up(&s.Up)
	return w.Entry(l)
}

// PiecesSyntax is "r2.1 up", "r3 96 + 41 3/4 up".
type PiecesSyntax struct {
	IDs []*boards.IdsSaid `parser:"@@+"`
	Up  upSyntax          `parser:"@@"`
}

func (s *PiecesSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	var w went
	for _, of := range s.IDs {
		w.ids = append(w.ids, of.IDs...)
	}
	w.up(&s.Up)
	return w.Entry(l)
}

// upSyntax is a statement that rows and pieces are up, with the sizes before or after it.
type upSyntax struct {
	L    []*numbers.OneLength `parser:"( ('+' | 'as' | 'with')? @@ )*"`
	Up   bool                 `parser:"('both' | 'already' | 'now')* ( @('up' | 'hung') | 'went' ('up' | 'in') ) ('today' | 'now' | 'already')*"`
	Then []*numbers.OneLength `parser:"( ('+' | 'as' | 'with')? @@ )*"`
	Run  string               `parser:"@Direction?"`
	On   *places.WhereSyntax  `parser:"( 'on'? @@ )?"`
	Cut  *read.Names          `parser:"( 'cut' @@ )?"`
}

// went is what went up, as said, before the ids are known.
type went struct {
	rows  []numbers.Count // "row 2"
	ids   []*boards.PieceID
	sizes []*numbers.Number
	cut   *read.Names
	run   string
	begun place.Wall
	used  *boards.StockItems
	on    *places.WhereSyntax
}

func (w *went) up(s *upSyntax) {
	for _, n := range append(s.L, s.Then...) {
		w.sizes = append(w.sizes, &n.Number)
	}
	w.cut, w.run, w.on = s.Cut, s.Run, s.On
}

// the size as typed, if it is the only one
func (w *went) raw() string {
	if len(w.sizes) != 1 {
		return ""
	}
	return strings.ToLower(w.sizes[0].Raw())
}

// Entry returns what hung: planned pieces or whole rows by their ids, or one row with everything said
// about it.
func (w *went) Entry(l *read.Source) (grammar.Entry, error) {
	if l.Units == length.Imperial && w.rows == nil && !slices.ContainsFunc(w.ids, func(p *boards.PieceID) bool { return boards.IsRow(p.Text) }) {
		w.sizes = slices.DeleteFunc(w.sizes, func(n *numbers.Number) bool { // "hung 2.1" is piece r2.1
			ok := pieceNumber.MatchString(n.Raw())
			if ok {
				w.ids = append(w.ids, &boards.PieceID{Pos: n.Pos, Text: "r" + n.Raw()})
			}
			return ok
		})
	}
	if all := rowsAlone(w.raw()); all != nil && w.rows == nil && w.ids == nil {
		for _, r := range all {
			w.rows = append(w.rows, numbers.Count{Pos: w.sizes[0].Pos, N: int(r[0] - '0')})
		}
		w.sizes = nil
	}
	ids, whole, err := w.said(l)
	if err != nil {
		return nil, err
	}
	e := Hung{Run: place.Direction(w.run), Surface: w.on.Surface(), Begun: w.begun}
	if e.Used, err = w.used.Boards(l); err != nil {
		return nil, err
	}
	planned := len(w.sizes) == 0 && e.Run == "" && e.Begun == "" && e.Used == nil && (w.rows == nil || len(ids) > 1 && whole)
	switch {
	case ids == nil || planned || len(ids) == 1 && whole:
	case w.ids != nil:
		return nil, l.Refuse(w.ids[0].Pos, "planned pieces alone, or lengths and one row")
	default:
		return nil, l.Refuse(w.rows[1].Pos, oneRow)
	}
	if w.cut != nil {
		if e.Cut, err = w.cut.Known(l, true); err != nil {
			return nil, err
		}
	}
	for _, n := range w.sizes {
		if err := sliver(l, n); err != nil {
			return nil, err
		}
		if err := feetOrInches(l, n); err != nil {
			return nil, err
		}
		e.Pieces = append(e.Pieces, numbers.Said(l, n, numbers.PieceLengths))
	}
	switch {
	case ids == nil:
		return nil, l.RefuseEnd("which row: row 2")
	case planned:
		return HungPlan{ids, e.Surface, e.Cut}, nil
	}
	e.Row, _ = strconv.Atoi(ids[0][1:])
	return e, nil
}

// said returns the ids of all rows and pieces, each once, and whether all are rows.
func (w *went) said(l *read.Source) (ids []string, whole bool, err error) {
	whole = true
	add := func(id string) {
		whole = whole && boards.IsRow(id)
		if !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	for _, n := range w.rows {
		add(boards.RowID(l, &n))
	}
	if l.Wrong != nil {
		return nil, false, l.Wrong
	}
	for _, p := range w.ids {
		if !lex.IsPiece(p.Text) {
			return nil, false, l.Refuse(p.Pos, "a row or a planned piece: row 2, r2, r2.1")
		}
		add(p.Text)
	}
	return ids, whole, nil
}

const oneRow = "one row, on one surface"

// pieceNumber matches the id of a planned piece without its r. A half such as 8.5 is a length, and in a
// metric job 2.4 is metres.
var pieceNumber = regexp.MustCompile(`^[1-9][0-9]?\.[1-46-9]$`)

// rowsAlone returns the rows of "hung 1 and 2" or "hung 1 2 3", without "row": no pieces are that small.
func rowsAlone(said string) []string {
	all := aDigit.FindAllString(said, -1)
	for i := range all[:max(len(all)-1, 0)] {
		if len(all) > 2 && all[i+1][0] != all[i][0]+1 {
			return nil
		}
	}
	if !twoRows.MatchString(said) && !rowList.MatchString(said) {
		return nil
	}
	return all
}

var (
	twoRows = regexp.MustCompile(`^[1-9] ?(?:and|&) ?[1-9]$`)
	rowList = regexp.MustCompile(`^[1-9](?:,? [1-9]){2,}$`)
	aDigit  = regexp.MustCompile(`[1-9]`)
)

// sliver asks about a size too small for a piece: "hung 3 in row 2" may mean three boards.
func sliver(l *read.Source, n *numbers.Number) error {
	v, err := strconv.Atoi(strings.TrimSuffix(n.Raw(), " in"))
	if err != nil || v >= boards.LeastPiece[l.Units] || len(n.Readings) != 1 {
		return nil
	}
	piece := length.Said{L: n.Readings[0].L, Tag: n.Readings[0].Tag}
	return &grammar.Ask{Col: n.Pos.Column, Word: n.Raw(), Why: n.Raw() + ": how long is each piece?",
		Choices: []grammar.Choice{grammar.Reads("one piece of "+numbers.Shown(piece, l.Units), numbers.Canonical(l, l.With(n.Cut(piece.String()))))}}
}

// feetOrInches asks about a piece given as a bare stock length.
func feetOrInches(l *read.Source, n *numbers.Number) error {
	v, ok := n.Whole()
	if !ok || l.Units == length.Metric || !slices.Contains(boards.StockFeet, v) {
		return nil
	}
	ask := &grammar.Ask{Col: n.Pos.Column, Word: n.Raw(), Why: fmt.Sprintf("%d: feet or inches?", v)}
	for _, unit := range []length.Length{length.Foot, length.Inch} {
		one := length.Length(v) * unit
		ask.Choices = append(ask.Choices, grammar.Reads(fmt.Sprintf("%d %s", v, map[length.Length]string{length.Foot: "ft", length.Inch: "in"}[unit]),
			numbers.Canonical(l, l.With(n.Cut(length.Canon(one))))))
	}
	return ask
}

// Gap: `gap 118-3/8 118-5/8`, `gap 41-7/8 x 96`. B is zero if one reading was given, Long if only one side
// was.
type Gap struct {
	A, B, Long length.Said
}

func (e Gap) String() string {
	s := canon.Say("gap", e.A.String(), canon.Clause{e.B})
	if e.Long.L != 0 {
		s = canon.Say(s, "x", e.Long)
	}
	return s
}
func (Gap) Kind() grammar.Kind { return "gap" }

func (s *gapSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.B != nil {
		if err := numbers.OneOrTwo(l, &s.A.Number, &s.B.Number); err != nil {
			return nil, err
		}
	}
	e := Gap{A: numbers.Said(l, &s.A.Number, numbers.Distances)}
	if e.A.L < length.Inch && s.B == nil { // between boards, or at a wall: nothing to cut
		return nil, l.Refuse(s.A.Pos, "an opening to fill of an inch or more")
	}
	if s.B != nil {
		e.B = numbers.Said(l, &s.B.Number, numbers.Distances)
	}
	if s.Long != nil {
		e.Long = numbers.Said(l, &s.Long.Number, numbers.Distances)
	}
	if s.Both {
		if s.B != nil {
			return nil, l.Refuse(s.B.Pos, "one length for both ends")
		}
		e.B = e.A
	}
	return e, nil
}

type gapSyntax struct {
	A    numbers.NeedAmong  `parser:"'gap' @@ 'end'?"`
	B    *numbers.ALength   `parser:"@@? 'end'?"`
	Long *numbers.NeedAmong `parser:"( 'x' @@ )?"`
	Both bool               `parser:"@('both' 'ends')?"`
}

var HungKinds = []read.Row{
	{Command: read.Command{Kind: "gap", Words: []string{"gap", "opening"}, About: "an opening measured at both ends: the size to cut",
		Example: "gap 118 3/8 118 5/8", Metric: "gap 3007 3013", Fits: "one length, or two: one for each end; then x and how long it is"},
		Rule: read.Rule[gapSyntax](), Makes: []grammar.Entry{Gap{}}},
	{Command: read.Command{Kind: "hung", Words: []string{"hung", "hang", "put up"}, Talk: []string{"~ hung", "~ put up"}, About: "pieces that went up, or a whole row",
		Example: "hung 144 + 16 3/4 row 2", Metric: "hung 3600 + 425 row 2", Fits: `pieces with + between, "row 2", or planned ones like r2.1, then "cut d1"`},
		Rule: read.Rule[hungSyntax](), Makes: []grammar.Entry{Hung{}, HungPlan{}},
		Chat: func(l *read.Source) bool { return l.InWords() && l.Began() != "put up" }, // "we hung out"
	},
	{Command: read.Command{Kind: "up", About: "all of a ceiling or a wall is up",
		Example: "ceiling up", Fits: `"up"`},
		Makes: []grammar.Entry{boards.UpAll{}}},
	{Command: read.Command{Kind: "boarded", Words: []string{"boarded"}, About: "a wall that is boarded, or finished and will not move",
		Example: "north wall boarded 1/2", Metric: "north wall boarded 12.5mm", Fits: `"boarded" and a thickness, "finished", "up", or "is window wall"`},
		Rule: read.Rule[boards.BoardedSyntax](), Makes: []grammar.Entry{boards.Boarded{}}},
	{Command: read.Command{Kind: "open", Words: []string{"open", "opened", "cut out", "cut", "cutout", "buried"}, About: "holes that are cut; buried is one that board is over, not cut",
		Example: "open d1", Fits: "the names of noted things"},
		Rule: read.Rule[things.OpenSyntax](), Makes: []grammar.Entry{things.Opened{}}},
}
