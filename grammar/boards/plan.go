package boards

import (
	"strings"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/read"
)

// Layout: `layout`, `layout 2` takes the second of those offered, `layout north wall`.
type Layout struct {
	Pick    int
	Surface place.Surface // "" means the ceiling
}

func (e Layout) String() string   { return canon.Say("layout", e.Pick, e.Surface) }
func (Layout) Kind() grammar.Kind { return "layout" }

func (s *layoutSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	e := Layout{Surface: s.On.Surface()}
	for _, n := range []*numbers.Count{s.N, s.Then} {
		switch {
		case n == nil:
		case n.N < 1 || n.N > 9 || e.Pick != 0:
			return nil, l.Refuse(n.Pos, "the number of one that was offered")
		default:
			e.Pick = n.N
		}
	}
	return e, nil
}

type layoutSyntax struct {
	Courtesy *read.Courtesy      `parser:"'layout' @@?"`
	N        *numbers.Count      `parser:"@@?"`
	On       *places.WhereSyntax `parser:"( 'on'? @@ )?"`
	Then     *numbers.Count      `parser:"@@?"`
}

// Cuts: `cuts`, `cut list north wall`.
type Cuts struct{ Surface place.Surface } // "" means all that is planned

func (e Cuts) String() string   { return canon.Say("cut list", e.Surface) }
func (Cuts) Kind() grammar.Kind { return "cuts" }

// Order: `order`, `what do i order`.
type Order struct{}

func (e Order) String() string   { return "order" }
func (Order) Kind() grammar.Kind { return "order" }

// Bring: `bring tomorrow`, `what do i bring`.
type Bring struct{}

func (e Bring) String() string   { return "what do i bring" }
func (Bring) Kind() grammar.Kind { return "bring" }

func (s *PlanAskSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	cuts, want := s.What == "cuts", read.Words.Rows[grammar.Kind(s.What)].Fits
	switch {
	case s.Ceiling && s.What != "painted" && s.What != "texture" || s.Board && s.What != "order":
		return nil, l.Refuse(l.Tokens[1].Pos, want)
	case cuts && (s.ID != nil || s.Row != nil):
		return planned(l, s.ID, s.Row, s.On)
	case cuts:
		return Cuts{s.On.Surface()}, nil
	case s.On != nil:
		return nil, l.Refuse(s.On.Pos, want)
	case s.ID != nil:
		return nil, l.Refuse(s.ID.Pos, want)
	case s.Row != nil:
		return nil, l.Refuse(s.Row.Pos, want)
	case s.What == "texture":
		return Texture{!strings.Contains(lex.Lower(l.Text[:l.Ended]), "no ")}, nil
	}
	return map[string]grammar.Entry{"rest": Rest{}, "otherway": OtherWay{}, "order": Order{}, "bring": Bring{}, "painted": Painted{}}[s.What], nil
}

// PlanAskSyntax is a question about the plan, or a single word for one.
type PlanAskSyntax struct {
	What     string              `parser:"@('cuts' | 'order' | 'bring' | 'painted' | 'texture' | 'rest' | 'otherway')"`
	Ceiling  bool                `parser:"@'ceiling'?"`
	Board    bool                `parser:"@'board'?"`
	Courtesy *read.Courtesy      `parser:"@@?"`
	ID       *PieceID            `parser:"( @@"`
	Row      *numbers.Count      `parser:"| 'row' @@ )?"`
	On       *places.WhereSyntax `parser:"( 'on'? @@ )?"`
}

// Planned: `whats r2.1`, `row 2 north wall?`, `whats bottom row`, `whats piece over d1`: what is planned for a piece
// or a row.
type Planned struct {
	ID      string        // Bottom is the last row
	Over    string        `json:",omitempty"` // the piece that hides a thing
	Surface place.Surface // "" means the ceiling
}

func (e Planned) String() string {
	return canon.Say("whats", e.ID, canon.Some("piece over", e.Over), e.Surface)
}
func (Planned) Kind() grammar.Kind { return "piece" }

// Bottom is the last row, whichever number it has.
const Bottom = "bottom row"

func (s *pieceSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	switch {
	case s.Over != nil:
		all, err := s.Over.Known(l, true)
		if err != nil || len(all) != 1 {
			return nil, l.Refuse(s.Over.List[0].Pos, "the name of one noted thing")
		}
		return Planned{Over: all[0]}, nil
	case s.Bottom:
		return Planned{ID: Bottom, Surface: s.On.Surface()}, nil
	}
	return planned(l, s.ID, s.Row, s.On)
}

// pieceSyntax is "whats r2.1", "which board for row 2", "r2?".
type pieceSyntax struct {
	ID       *PieceID            `parser:"( 'piece' | 'find' )* ( @@"`
	Row      *numbers.Count      `parser:"  | 'row' @@"`
	Over     *read.Names         `parser:"  | 'over' @@"`
	Bottom   bool                `parser:"  | @'bottom' 'row' )"`
	Courtesy *read.Courtesy      `parser:"@@?"`
	On       *places.WhereSyntax `parser:"( 'on'? @@ )?"`
	Up       bool                `parser:"@( 'up' | 'hung' | 'go' )?"`
}

// planned is the question about a piece or a row.
func planned(l *read.Source, id *PieceID, row *numbers.Count, on *places.WhereSyntax) (grammar.Entry, error) {
	if row != nil {
		return Planned{ID: RowID(l, row), Surface: on.Surface()}, nil
	}
	if !lex.IsPiece(id.Text) {
		return nil, l.Refuse(id.Pos, read.Words.Rows["piece"].Fits)
	}
	return Planned{ID: id.Text, Surface: on.Surface()}, nil
}

// AsksPiece reports whether a line is nothing but a question about a piece or a row: "r2.1?", "is r2.1
// up".
func AsksPiece(l *read.Source) bool {
	if !l.Question && !l.Opens("is", "are", "has") {
		return false
	}
	for i, t := range l.Tokens[:len(l.Tokens)-1] {
		switch {
		case i == 0 && (t.Type == lex.Name && lex.IsPiece(t.Value) || t.Value == "row"):
		case i > 0 && (t.Type == lex.Number || t.Value == "." || t.Value == "up" || t.Value == "hung"):
		default:
			return false
		}
	}
	return true
}

// PieceNext reports whether a piece or a row of the plan is at piece i.
func PieceNext(l *read.Source, i int) bool {
	for i < len(l.Pieces) && (lex.Filler[l.Pieces[i].Low] || l.Pieces[i].Low == "piece" || l.Parts(i)) {
		i++
	}
	if i >= len(l.Pieces) || !lex.IsPiece(l.Pieces[i].Low) {
		next := i+1 < len(l.Pieces) && l.Pieces[i+1].Low == "row"
		return i < len(l.Pieces) && (l.Pieces[i].Low == "row" && l.NumberAt(i+1) || l.Pieces[i].Low == "bottom" && next || l.Pieces[i].Low == "over" && l.Pieces[i-1].Low == "piece")
	}
	one := i+2 < len(l.Pieces) && l.Pieces[i+1].Low == "." && l.Pieces[i+1].Start == l.Pieces[i].End && l.Pieces[i+2].Start == l.Pieces[i+1].End && l.Pieces[i+2].Kind == '0'
	return one || !(l.Name != nil && l.Name(l.Pieces[i].Low)) // r1.1 is a piece even if a vent is called r1
}

// Rest: `whats left to hang`.
type Rest struct{}

func (Rest) String() string     { return "whats left to hang" }
func (Rest) Kind() grammar.Kind { return "rest" }

// OtherWay: `boards the other way`: the direction they do not run now.
type OtherWay struct{}

func (OtherWay) String() string     { return "boards the other way" }
func (OtherWay) Kind() grammar.Kind { return "otherway" }

// Texture: `texture` (a water-based texture goes on), `no texture`.
type Texture struct{ On bool }

func (e Texture) String() string   { return canon.Say(canon.Tail(!e.On, "no"), "texture") }
func (Texture) Kind() grammar.Kind { return "texture" }

var PlanKinds = []read.Row{
	{Command: read.Command{Kind: "layout", Words: []string{"layout", "show layout", "what's the layout", "lay it out"}, Talk: []string{"ceiling layout", "boards layout", "board layout", "go with layout", "take layout", "use layout", "how boards go", "how boards lie", "which way boards run", "which way boards go"},
		About: "the rows and joints of a ceiling or a wall; with a number: take that one of those offered", Example: "layout", Fits: "nothing, a wall, or the number of one that was offered"},
		Rule: read.Rule[layoutSyntax](), Makes: []grammar.Entry{Layout{}}, Asks: true, OfRoom: true,
		Chat: (*read.Source).InWords,
	},
	{Command: read.Command{Kind: "cuts", Words: []string{"cuts", "cut list", "cutlist", "what to cut"}, Talk: []string{"what left to cut"}, About: "the cut list, board by board",
		Example: "cut list", Fits: `nothing, a wall, or "in" and a room`},
		Rule: read.Rule[PlanAskSyntax](), Makes: []grammar.Entry{Cuts{}}, Asks: true, OfRoom: true,
		Chat: (*read.Source).InWords,
	},
	{Command: read.Command{Kind: "order", Words: []string{"order", "what to order", "order list"}, Talk: []string{"boards for", "material list"}, About: "boards, screws, tape and compound to order", Example: "order", Fits: `nothing, or "for" and a room`},
		Rule: read.Rule[PlanAskSyntax](), Makes: []grammar.Entry{Order{}}, Asks: true, OfRoom: true,
		Chat: func(l *read.Source) bool { // "order lunch?"
			return l.InWords() || l.Tokens[1].Type == lex.Word && !l.Has(lex.Number, "") && !l.Has(lex.Key, "row")
		},
	},
}

var HangKinds = []read.Row{
	{Command: read.Command{Kind: "bring", Words: []string{"what to bring", "bring tomorrow", "bring list"}, About: "the boards still to hang, against those on hand", Example: "bring tomorrow", Fits: `nothing, or "for" and a room`},
		Rule: read.Rule[PlanAskSyntax](), Makes: []grammar.Entry{Bring{}}, Asks: true, OfRoom: true,
		Chat: read.Always,
	},
	{Command: read.Command{Kind: "piece", Words: []string{"what's", "how long is", "size of", "which board for"}, Talk: []string{"cut for"}, About: "what is planned of a piece or of a row: its cuts, the board it comes out of, whether it is up",
		Example: "whats r2.1", Fits: "a planned piece or a row: r2.1, r2, row 2"},
		Rule: read.Rule[pieceSyntax](), Makes: []grammar.Entry{Planned{}}, Asks: true, OfRoom: true,
		Begins: PieceNext, // "what is" begins all kinds of talk
		Chat:   read.Always,
	},
	{Command: read.Command{Kind: "rest", Words: []string{"what's left to hang", "how many rows left", "what's not up"}, Talk: []string{"rows left"}, About: "what does not hang yet, by rows and pieces", Example: "whats left to hang", Fits: `nothing, or "in" and a room`},
		Rule: read.Rule[PlanAskSyntax](), Makes: []grammar.Entry{Rest{}}, Asks: true, OfRoom: true,
		Chat: read.Always,
	},
	{Command: read.Command{Kind: "otherway", Words: []string{"boards the other way", "lay it out the other way", "run them the other way"}, Talk: []string{"boards go other way", "boards run other way", "run boards other way", "run it other way", "lay them other way", "layout other way"},
		About: "the boards run the way they do not run now", Example: "boards the other way", Fits: "nothing, or a room"},
		Rule: read.Rule[PlanAskSyntax](), Makes: []grammar.Entry{OtherWay{}}, OfRoom: true,
		Chat: read.Always,
	},
}
