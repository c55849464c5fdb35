package hanging

import (
	"strconv"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/canon"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/read"
)

// SoFar is board that is up, told without the numbers of its rows: `so far 4 boards`, `so far 2 rows on north
// wall cut d1`, `so far another row`, `so far all but row 3`. Which rows and pieces those are, the plan and what
// hangs say. `so far 10 boards 12' of 5/8 counted` is only counted: of those boards nobody tells which rows they are.
type SoFar struct {
	Boards  int           // a number of boards
	Of      boards.Boards `json:",omitzero"`  // which boards, if that was said
	Sum     string        `json:",omitempty"` // their rows are not asked for: "counted", "more" than were up, "total" with those
	Rows    int           // a number of rows
	Part    string        // "top row", "bottom row", "row in the middle", "another row", "partly", "rest"
	But     string        // all but that: "row 3", "bottom row", "top row", "r3.2", "2 pieces"
	Surface place.Surface // "" means the ceiling
	Begun   place.Wall    `json:",omitempty"` // the wall they were begun at, when said
	Cut     []string      `json:",omitempty"`
}

func (e SoFar) String() string {
	return canon.Say("so far", canon.Tail(e.Boards > 0, strconv.Itoa(e.Boards)+" boards"), e.Of.L, e.Of.OfKind(), e.Sum, canon.Tail(e.Rows > 0, strconv.Itoa(e.Rows)+" rows"),
		e.Part, canon.Some("all but", e.But), e.Surface, canon.Some("begun at", e.Begun), canon.CutOut(e.Cut))
}
func (SoFar) Kind() grammar.Kind { return "sofar" }

type soFarSyntax struct {
	Edge   string              `parser:"'sofar' ( @('top' | 'bottom' | 'another') ('row' | 'rows')"`
	Part   string              `parser:"| @('partly' | 'rest')"`
	Middle bool                `parser:"| @'row' 'in the middle'"`
	Row    *numbers.Count      `parser:"| 'all' 'but' ( 'row' @@"`
	Bottom string              `parser:"  | @('bottom' | 'top') 'row'"`
	ID     *boards.PieceID     `parser:"  | @@"`
	Pieces *numbers.Count      `parser:"  | @@ ('piece' | 'pieces') )"`
	N      *numbers.Count      `parser:"| @@"`
	Rows   bool                `parser:"  ( @('row' | 'rows') | 'board' )"`
	L      *numbers.ALength    `parser:"  @@?"`
	Of     *boards.BoardKind   `parser:"  ( 'of' @@ )?"`
	Sum    string              `parser:"  @('counted' | 'more' | 'total')? )"`
	On     *places.WhereSyntax `parser:"( 'on'? @@ )?"`
	Begun  *places.NeedWall    `parser:"( 'begun' 'at' @@ )?"`
	Cut    *read.Names         `parser:"( 'cut' @@ )?"`
}

func (s *soFarSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e := SoFar{Part: s.Part, Surface: s.On.Surface(), Begun: s.Begun.Or("")}
	switch {
	case s.Edge != "":
		e.Part = s.Edge + " row"
	case s.Middle:
		e.Part = "row in the middle"
	case s.Row != nil:
		e.But = "row " + strconv.Itoa(numbers.Counted(l, s.Row))
	case s.Bottom != "":
		e.But = s.Bottom + " row"
	case s.ID != nil:
		e.But = s.ID.Text
	case s.Pieces != nil:
		e.But = strconv.Itoa(numbers.Counted(l, s.Pieces)) + " pieces"
	case s.N != nil && s.Rows:
		e.Rows = numbers.Counted(l, s.N)
	case s.N != nil:
		e.Boards, e.Of, e.Sum = numbers.Counted(l, s.N), s.Of.Of(l, boards.Boards{}), s.Sum
		if s.L != nil {
			e.Of.L = numbers.Said(l, &s.L.Number, numbers.BoardLengths)
		}
	}
	if e.Rows+e.Boards+len(e.Part)+len(e.But) == 0 {
		return nil, l.RefuseEnd(read.Words.Rows["sofar"].Fits)
	}
	var err error
	if s.Cut != nil {
		e.Cut, err = s.Cut.Known(l, true)
	}
	return e, err
}

var SoFarKinds = []read.Row{
	{Command: read.Command{Kind: "sofar", Words: []string{"so far"}, About: "board that is up, without the numbers of its rows",
		Example: "so far 4 boards", Fits: `a count of boards or rows, "another row", "partly", or "all but" and what is left`},
		Rule: read.Rule[soFarSyntax](), Makes: []grammar.Entry{SoFar{}},
		Chat: read.Always,
	},
}
