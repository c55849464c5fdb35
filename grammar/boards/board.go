package boards

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/measure"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/read"
)

// Board: `board 1/2 x 48 lengths 8 10 12`; zero fields were not said.
type Board struct {
	Thick, Wide length.Said
	Lengths     []length.Said
	Type        string // "green", "x"
	// On is the surface it is for: a surface, "walls" or "throughout" of the room at hand, "" of the job.
	On string `json:",omitempty"`
}

func (e Board) String() string {
	said := []any{"board", e.Thick}
	switch {
	case e.Thick.L != 0 && e.Wide.L != 0:
		said = append(said, "x", e.Wide)
	case e.Thick.L != 0:
		said = append(said, "thick")
	case e.Wide.L != 0:
		said = append(said, e.Wide, "wide")
	}
	if len(e.Lengths) > 0 {
		said = append(said, "lengths", e.Lengths)
	}
	return canon.Say(append(said, canon.Some("type", e.Type), canon.Tail(e.On == Throughout, Throughout), place.Surface(strings.TrimPrefix(e.On, Throughout)))...)
}
func (Board) Kind() grammar.Kind { return "board" }

func (s *boardSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.Items == nil {
		e := BoardsRun{s.Dir, s.On.Surface()}
		if s.Stand {
			e.Dir = "standing"
		} else if s.Level {
			e.Dir = "level"
		}
		if wall := e.Surface != "" && e.Surface != place.Ceiling; wall && (e.Dir == "ew" || e.Dir == "ns") || e.Surface == place.Ceiling && (s.Stand || s.Level) {
			return nil, l.Refuse(s.On.Pos, "along, across, ew or ns on the ceiling; standing or level on a wall")
		}
		return e, nil
	}
	var e Board
	for _, it := range s.Items {
		if it.Type != "" {
			e.Type = it.Type
			continue
		}
		all := []*numbers.Number{}
		for _, n := range it.Lengths {
			all = append(all, &n.Number)
		}
		for _, n := range it.And {
			all = append(all, &n.Number)
		}
		numbers.Thousands(l, all)
		for _, n := range all {
			e.Lengths = append(e.Lengths, numbers.Said(l, n, numbers.BoardLengths))
		}
		if it.A == nil {
			continue
		}
		if err := it.sheet(l); err != nil {
			return nil, err
		}
		slot, b := &e.Thick, numbers.BoardThickness
		if it.Is == "wide" || it.B == nil && it.Is == "" && e.Thick.L != 0 {
			slot, b = &e.Wide, numbers.BoardWidths
		}
		if slot.L != 0 || it.B != nil && e.Wide.L != 0 {
			return nil, l.Refuse(it.A.Pos, "one thickness and one width: board 1/2 x 48")
		}
		*slot = numbers.Said(l, &it.A.Number, b)
		if it.B != nil {
			e.Wide = numbers.Said(l, &it.B.Number, numbers.BoardWidths)
		}
	}
	switch {
	case s.All:
		e.On = Throughout
	case s.Walls:
		e.On = Walls
	default:
		e.On = string(s.Of.Surface())
	}
	if e.On != "" && (e.Wide.L != 0 || e.Lengths != nil) {
		return nil, l.Refuse(l.Tokens[1].Pos, "a thickness, a type or both: the width and the lengths are the same on the whole job")
	}
	return e, nil
}

// sheet asks about "boards are 2.6 x 1.2": the length and the width of a sheet, where our line has its thickness and width.
func (it *boardItem) sheet(l *read.Source) error {
	if it.B == nil {
		return nil
	}
	a, b := sheetSide(l, &it.A.Number), sheetSide(l, &it.B.Number)
	if a < 6*length.Foot || a > numbers.BoardLengths.Most || b < numbers.BoardWidths.Least || b > numbers.BoardWidths.Most {
		return nil
	}
	e := Board{Wide: length.Said{L: b}, Lengths: []length.Said{{L: a}}}
	said := it.A.Raw() + " x " + it.B.Raw()
	return &grammar.Ask{Col: it.A.Pos.Column, Word: said, Why: said + ": a board's length and width?", Choices: []grammar.Choice{grammar.Reads(e.String(), e.String())}}
}

// sheetSide returns the length of a side of a board, metres for 2.6 in a metric job; 0 if it has several readings.
func sheetSide(l *read.Source, n *numbers.Number) length.Length {
	all := n.Readings
	if l.Units == length.Metric && n.Bare() && strings.Contains(n.Raw(), ".") {
		all, _, _ = measure.Scan(n.Raw()+" m", l.Units, measure.One)
	}
	if len(all) != 1 {
		return 0
	}
	return all[0].L
}

// Walls and Throughout are where a board goes, beside a surface.
const (
	Walls      = "walls"
	Throughout = "throughout"
)

type boardSyntax struct {
	Head  string              `parser:"@('board' | 'boards')"`
	Dir   string              `parser:"(  ('run' | 'running')? ( @'along' | @('across' | 'ew' | 'ns')"`
	Stand bool                `parser:"     | @('standing' | 'upright' | 'vertical')"`
	Level bool                `parser:"     | @('level' | 'horizontal') ) Support?"`
	On    *places.WhereSyntax `parser:"   ( 'on'? @@ )?"`
	Items []*boardItem        `parser:" | @@+"`
	All   bool                `parser:"   ( @'throughout'"`
	Walls bool                `parser:"   | 'on' ( @'walls'"`
	Of    *places.WhereSyntax `parser:"          | @@ ) )? )"`
}

type boardItem struct {
	Type    string               `parser:"  'type' @(Word | 'x')"`
	Lengths []*numbers.NeedAmong `parser:"| ('lengths' | 'length' | 'long') @@ 'oc'?"`
	And     []*numbers.ALength   `parser:"  ( @@ 'oc'? )*"`
	A       *numbers.ALength     `parser:"| @@"`
	B       *numbers.NeedAmong   `parser:"  ( 'x' @@ )?"`
	Is      string               `parser:"  @('thick' | 'wide')?"`
}

// BoardsRun: `boards along`, `boards across`, `boards ew`, `boards ns`; on walls
// `boards standing`, `boards level on north wall`.
type BoardsRun struct {
	Dir     string
	Surface place.Surface // "" means the ceiling, or all walls where boards stand or lie level
}

func (e BoardsRun) String() string   { return canon.Say("boards", e.Dir, e.Surface) }
func (BoardsRun) Kind() grammar.Kind { return "boards" }

// Clearance: `clearance 1/4`: how much narrower in all a cut is than its gap.
type Clearance struct{ L length.Said }

func (e Clearance) String() string   { return canon.Say("clearance", e.L.String()) }
func (Clearance) Kind() grammar.Kind { return "clearance" }

// Screw: `screw 1-5/8`: the length used on this job.
type Screw struct{ L length.Said }

func (e Screw) String() string   { return "screw " + e.L.String() }
func (Screw) Kind() grammar.Kind { return "screw" }

func (s *valueSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.What == "screw" {
		return Screw{numbers.Said(l, &s.L.Number, numbers.Screws)}, nil
	}
	return Clearance{numbers.Said(l, &s.L.Number, numbers.Clearances)}, nil
}

// valueSyntax is a setting that is one length.
type valueSyntax struct {
	What string             `parser:"@('clearance' | 'screw') 'length'?"`
	L    numbers.NeedLength `parser:"@@ ('in' 'all')?"`
}

// RowsFrom: `rows from south`, `rows from east on north wall`.
type RowsFrom struct {
	Wall    place.Wall
	Surface place.Surface // "" means the ceiling
}

func (e RowsFrom) String() string   { return canon.Say("rows from", e.Wall, e.Surface) }
func (RowsFrom) Kind() grammar.Kind { return "rows" }

func (s *rowsSyntax) Entry(*read.Source) (grammar.Entry, error) {
	return RowsFrom{s.Wall.Wall, s.On.Surface()}, nil
}

type rowsSyntax struct {
	Wall places.NeedWall     `parser:"'rows' ('start' | 'count' | 'run')? 'off' @@"`
	On   *places.WhereSyntax `parser:"( 'on' @@ )?"`
}

// Boarded: `north wall boarded 1/2`, `west wall finished` (Thick zero, never moves), `ne notch south face boarded`.
type Boarded struct {
	Surface  place.Surface // a wall or a notch's face
	Thick    length.Said
	Finished bool
}

func (e Boarded) String() string {
	if e.Finished {
		return e.Surface.Name() + " finished"
	}
	return canon.Say(e.Surface.Name(), "boarded", e.Thick)
}
func (Boarded) Kind() grammar.Kind { return "boarded" }

func (s *SurfaceSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	where := (&places.WhereSyntax{Ceiling: s.Ceiling, Wall: s.Wall, Shape: s.Shape, Face: s.Face, Alone: s.Alone}).Surface()
	switch {
	case s.Up:
		used, err := s.Used.Boards(l)
		if err != nil || s.Cut == nil {
			return UpAll{Surface: where, Used: used}, err
		}
		cut, err := s.Cut.Known(l, true)
		return UpAll{where, used, cut}, err
	case s.Shape+s.Alone != "", s.Face != "" && !strings.Contains(s.Face, "notch"):
		return nil, l.Refuse(s.Pos, `"up" behind it`)
	case s.High != nil && s.Ceiling:
		return High{numbers.Said(l, &s.High.Number, numbers.RoomHeight)}, nil
	case s.High != nil:
		return nil, l.Refuse(s.Pos, `"boarded", "finished" or "up" behind the wall`)
	case s.Painted && s.Ceiling:
		return Painted{}, nil
	case s.Ceiling, s.Painted:
		return nil, l.Refuse(s.Pos, `"ceiling up" or "ceiling painted"`)
	case s.Finished:
		return Boarded{Surface: where, Finished: true}, nil
	}
	return boarded(l, where, s.Thick)
}

// SurfaceSyntax begins with a surface and says what was done to it.
type SurfaceSyntax struct {
	Pos      lexer.Position
	Ceiling  bool               `parser:"( @'ceiling'"`
	Wall     string             `parser:"| @Wall"`
	Shape    string             `parser:"  @('slope' | 'bulkhead' | 'bulkhead bottom' | 'bulkhead face' | 'bulkhead back')?"`
	Face     string             `parser:"| @Face"`
	Alone    string             `parser:"| @('bulkhead bottom' | 'bulkhead face' | 'bulkhead back') )"`
	Up       bool               `parser:"( @('up' | 'hung')"`
	Used     *StockItems        `parser:"  ( 'using' @@ )?"`
	Cut      *read.Names        `parser:"  ( 'cut' @@ )?"`
	High     *numbers.OneLength `parser:"| ('height' | 'high')? @@ 'high'?"`
	Boarded  bool               `parser:"| @'boarded'"`
	Thick    *numbers.OneLength `parser:"  @@?"`
	Painted  bool               `parser:"| @'painted'"`
	Finished bool               `parser:"| @'finished' )"`
}

func (s *BoardedSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	return boarded(l, place.Surface(s.Face+string(s.Wall.Wall)), s.Thick)
}

type BoardedSyntax struct {
	Face  string             `parser:"'boarded' ( @Face"`
	Wall  places.NeedWall    `parser:"          | @@ )"`
	Thick *numbers.OneLength `parser:"@@?"`
}

func boarded(l *read.Source, on place.Surface, thick *numbers.OneLength) (grammar.Entry, error) {
	e := Boarded{Surface: on}
	if thick != nil {
		e.Thick = numbers.Said(l, &thick.Number, numbers.BoardThickness)
	}
	return e, nil
}

// UpAll: `ceiling up`, `north wall up using 4 x 12' cut d1`.
type UpAll struct {
	Surface place.Surface
	Used    []Boards `json:",omitempty"`
	Cut     []string `json:",omitempty"`
}

func (e UpAll) String() string {
	return canon.Say(e.Surface.Name()+" up", Using(e.Used), canon.CutOut(e.Cut))
}

// Using is what board was cut from, in a line.
func Using(all []Boards) string { return canon.Some("using", List(all)) }

// List is boards in a line.
func List(all []Boards) string {
	said := make([]string, len(all))
	for i, b := range all {
		said[i] = b.String()
	}
	return strings.Join(said, ", ")
}
func (UpAll) Kind() grammar.Kind { return "up" }

// High: `ceiling height 8'`: how high the room at hand is.
type High struct{ L length.Said }

func (e High) String() string   { return "ceiling height " + e.L.String() }
func (High) Kind() grammar.Kind { return "high" }

var BoardKinds = []read.Row{
	{Command: read.Command{Kind: "board", Words: []string{"board", "drywall"}, About: "the board: thickness, width, lengths",
		Example: "board 1/2 x 48 lengths 8 10 12", Metric: "board 12.5mm x 1200 lengths 2400 3000 3600", Fits: `a thickness x a width, or "lengths" and a list`},
		Rule: read.Rule[boardSyntax](), Makes: []grammar.Entry{Board{}}},
	{Command: read.Command{Kind: "boards", Words: []string{"boards"}, About: "which way the boards run; standing or level on walls",
		Example: "boards along", Fits: `"along" or "across" the supports, ew or ns`},
		Rule: read.Rule[boardSyntax](), Makes: []grammar.Entry{BoardsRun{}}},
	{Command: read.Command{Kind: "high", About: "how high the ceiling is", Example: "ceiling height 8'", Metric: "ceiling height 2400", Fits: "a length"},
		Makes: []grammar.Entry{High{}}},
	{Command: read.Command{Kind: "rows", Words: []string{"rows"}, About: "where the rows count from",
		Example: "rows from south", Fits: `"from" and a wall`},
		Rule: read.Rule[rowsSyntax](), Makes: []grammar.Entry{RowsFrom{}},
		Begins: func(l *read.Source, i int) bool { return !l.NumberAt(i) }, // "rows 1 and 2 up"
	},
	{Command: read.Command{Kind: "clearance", Words: []string{"clearance"}, About: "how much a cut is under its opening, in all",
		Example: "clearance 1/4", Metric: "clearance 6", Fits: "a length", Strict: true},
		Rule: read.Rule[valueSyntax](), Makes: []grammar.Entry{Clearance{}}},
	{Command: read.Command{Kind: "screw", Words: []string{"screw"}, About: "the screw length used on this job",
		Example: "screw 1 5/8", Metric: "screw 41", Fits: "a length"},
		Rule: read.Rule[valueSyntax](), Makes: []grammar.Entry{Screw{}}},
}

// Painted: `painted`, `ceiling painted`.
type Painted struct{}

func (e Painted) String() string { return "painted" }

func (Painted) Kind() grammar.Kind { return "painted" }
