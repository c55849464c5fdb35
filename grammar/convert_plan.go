package grammar

import (
	"strings"

	"strapline/calc/length"
)

// settings are the bounds of the lead's own lengths. They are wide: who knows
// the trade asks about what is odd.
var settings = bounds{what: "a setting", most: 10 * length.Foot}

func (s *setSyntax) entry(l *line) (Entry, error) {
	if s.L != nil {
		e := Set{What: s.Length}
		if s.Head {
			e.What = "set"
		}
		var err error
		switch {
		case s.Length == "clearance":
			v, err := l.within(&s.L.number, clearances)
			return Clearance{v}, err
		case s.Screw && !s.Head:
			v, err := l.within(&s.L.number, screws)
			return Screw{v}, err
		}
		e.L, err = l.within(&s.L.number, settings)
		return e, err
	}
	e := Set{What: s.Number, N: s.N.N}
	switch {
	case s.Per == nil:
	case s.Number != "compound" || s.Per.N < 1 || s.Per.N > 100_000:
		return nil, l.refuse(s.Per.Pos, "compound alone goes by the square foot: set compound 9 per 1000")
	default:
		e.Per = s.Per.N
	}
	return e, nil
}

func (s *readySyntax) entry(*line) (Entry, error)   { return Ready{}, nil }
func (s *handoffSyntax) entry(*line) (Entry, error) { return Handoff{s.To}, nil }

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

func (s *layoutSyntax) entry(l *line) (Entry, error) {
	if s.N == nil {
		return Layout{}, nil
	}
	if s.N.N < 1 || s.N.N > 9 {
		return nil, l.refuse(s.N.Pos, "the number of one that was offered")
	}
	return Layout{s.N.N}, nil
}

func (s *pieceSyntax) entry(l *line) (Entry, error) { return planned(l, s.ID, s.Row) }

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
