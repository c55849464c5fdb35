package grammar

import (
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"
)

// Layout: `layout`, `layout 2` takes the second of those offered.
type Layout struct{ Pick int }

func (e Layout) String() string {
	if e.Pick == 0 {
		return "layout"
	}
	return "layout " + strconv.Itoa(e.Pick)
}

func (Layout) Kind() Kind { return "layout" }

func (s *layoutSyntax) entry(l *line) (Entry, error) {
	if s.N == nil {
		return Layout{}, nil
	}
	if s.N.N < 1 || s.N.N > 9 {
		return nil, l.refuse(s.N.Pos, "the number of one that was offered")
	}
	return Layout{s.N.N}, nil
}

type layoutSyntax struct {
	Pos      lexer.Position
	Courtesy *courtesy `parser:"'layout' @@?"`
	N        *count    `parser:"@@?"`
}

// Cuts: `cuts`, `cut list`.
type Cuts struct{}

func (e Cuts) String() string { return "cut list" }

func (Cuts) Kind() Kind { return "cuts" }

// Order: `order`, `what do i order`.
type Order struct{}

func (e Order) String() string { return "order" }

func (Order) Kind() Kind { return "order" }

// Bring: `bring tomorrow`, `what do i bring`.
type Bring struct{}

func (e Bring) String() string { return "what do i bring" }

func (Bring) Kind() Kind { return "bring" }

func (s *planAskSyntax) entry(l *line) (Entry, error) {
	if s.Ceiling && s.What != "painted" && s.What != "texture" || s.Board && s.What != "order" {
		return nil, l.refuse(l.tokens[1].Pos, words.rows[Kind(s.What)].Fits)
	}
	if s.What == "cuts" && (s.ID != nil || s.Row != nil) {
		return planned(l, s.ID, s.Row)
	}
	switch want := words.rows[Kind(s.What)].Fits; {
	case s.ID != nil:
		return nil, l.refuse(s.ID.Pos, want)
	case s.Row != nil:
		return nil, l.refuse(s.Row.Pos, want)
	}
	switch s.What {
	case "cuts":
		return Cuts{}, nil
	case "rest":
		return Rest{}, nil
	case "otherway":
		return OtherWay{}, nil
	case "order":
		return Order{}, nil
	case "bring":
		return Bring{}, nil
	case "painted":
		return Painted{}, nil
	}
	return Texture{!strings.Contains(lower(l.text[:l.ended]), "no ")}, nil
}

// planAskSyntax is a question about the plan, or a word that says it all.
type planAskSyntax struct {
	Pos      lexer.Position
	What     string    `parser:"@('cuts' | 'order' | 'bring' | 'painted' | 'texture' | 'rest' | 'otherway')"`
	Ceiling  bool      `parser:"@'ceiling'?"`
	Board    bool      `parser:"@'board'?"`
	Courtesy *courtesy `parser:"@@?"`
	ID       *pieceID  `parser:"( @@"`
	Row      *count    `parser:"| 'row' @@ )?"`
}

// Planned: `whats r2.1`, `row 2?`: what is planned of a piece, or of a row.
type Planned struct{ ID string }

func (e Planned) String() string { return "whats " + e.ID }

func (Planned) Kind() Kind { return "piece" }

func (s *pieceSyntax) entry(l *line) (Entry, error) { return planned(l, s.ID, s.Row) }

// pieceSyntax is "whats r2.1", "which board for row 2", "r2?".
type pieceSyntax struct {
	Pos      lexer.Position
	ID       *pieceID  `parser:"( 'piece' | 'find' )* ( @@"`
	Row      *count    `parser:"  | 'row' @@ )"`
	Courtesy *courtesy `parser:"@@?"`
	Up       bool      `parser:"@( 'up' | 'hung' | 'go' )?"`
}

// planned is the question of a piece or of a row.
func planned(l *line, id *pieceID, row *count) (Entry, error) {
	if row != nil {
		id, err := l.rowID(row)
		return Planned{id}, err
	}
	if !isPiece(id.Text) {
		return nil, l.refuse(id.Pos, words.rows["piece"].Fits)
	}
	return Planned{id.Text}, nil
}

// asksPiece reports whether a line is nothing but a piece or a row that is asked
// about: "r2.1?", "is r2.1 up".
func (l *line) asksPiece() bool {
	if !l.question && !l.opens("is", "are", "has") {
		return false
	}
	for i, t := range l.tokens[:len(l.tokens)-1] {
		switch {
		case i == 0 && (t.Type == tName && isPiece(t.Value) || t.Value == "row"):
		case i > 0 && (t.Type == tNumber || t.Value == "." || t.Value == "up" || t.Value == "hung"):
		default:
			return false
		}
	}
	return true
}

// pieceNext reports whether a piece or a row of the plan stands at piece i.
func (l *line) pieceNext(i int) bool {
	for i < len(l.ps) && (words.filler[l.ps[i].low] || l.ps[i].low == "piece") {
		i++
	}
	return i < len(l.ps) && (l.ps[i].low == "row" && l.numberAt(i+1) || isPiece(l.ps[i].low) && !(l.Name != nil && l.Name(l.ps[i].low)))
}

// Rest: `whats left to hang`.
type Rest struct{}

func (Rest) String() string { return "whats left to hang" }

func (Rest) Kind() Kind { return "rest" }

// OtherWay: `boards the other way`: the run they do not have now.
type OtherWay struct{}

func (OtherWay) String() string { return "boards the other way" }

func (OtherWay) Kind() Kind { return "otherway" }

// Texture: `texture` (a water-based texture goes on), `no texture`.
type Texture struct{ On bool }

func (e Texture) String() string {
	if e.On {
		return "texture"
	}
	return "no texture"
}

func (Texture) Kind() Kind { return "texture" }
