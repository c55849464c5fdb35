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
	if s.Ceiling && s.What != "painted" && s.What != "texture" {
		return nil, l.refuse(l.tokens[1].Pos, words.rows[Kind(s.What)].Fits)
	}
	switch s.What {
	case "cuts":
		return Cuts{}, nil
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
