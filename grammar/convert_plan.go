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

// mostBoards bounds a count of boards of one length.
const mostBoards = 100_000

func (s *stockSyntax) entry(l *line) (Entry, error) {
	said := lower(l.text[:l.ended])
	e := StockSet{How: "is"}
	switch {
	case strings.HasSuffix(said, "delivered"), strings.HasSuffix(said, "delivery"):
		e.How = "delivered"
	case strings.HasSuffix(said, "used"), strings.HasSuffix(said, "spoiled"):
		e.How = "used"
	case len(s.Items) == 0:
		return BoardsLeft{}, nil
	}
	if len(s.Items) == 0 {
		return nil, l.refuseEnd(words.rows["stock"].Fits)
	}
	for _, it := range s.Items {
		if it.N.N > mostBoards {
			return nil, l.refuse(it.N.Pos, "a count of boards")
		}
		n := &it.L.number
		if it.Long != nil { // 4 x 12, its width first
			if err := l.fourWide(n); err != nil {
				return nil, err
			}
			n, it.Many = &it.Long.number, true
		}
		v, err := l.board(n, it.Many)
		if err != nil {
			return nil, err
		}
		e.Items = append(e.Items, Boards{it.N.N, v})
	}
	return e, nil
}

// board is the length of a board: 12s are feet for everybody, a bare 12 is
// asked about.
func (l *line) board(n *number, many bool) (Len, error) {
	if !many {
		if err := l.feetOrInches(n); err != nil {
			return Len{}, err
		}
	}
	return l.within(n, boardLengths)
}

// fourWide refuses a board said with another width than 4 ft or 1200 mm: the
// count would be lost among those of the usual width.
func (l *line) fourWide(n *number) error {
	v, err := l.within(n, boardWidths)
	if err == nil && v.L != 48*length.Inch && v.L != 1200*length.Millimetre && v.L != 1220*length.Millimetre {
		err = l.refuse(n.Pos, "boards 4 ft wide: 9 x 12'")
	}
	return err
}

func (s *leftSyntax) entry(l *line) (Entry, error) {
	if s.L == nil {
		if strings.HasSuffix(lower(l.text[:l.ended]), "many") {
			return nil, l.refuseEnd(words.rows["left"].Fits)
		}
		return BoardsLeft{}, nil
	}
	v, err := l.within(&s.L.number, boardLengths)
	return BoardsLeft{v}, err
}

func (s *longestSyntax) entry(l *line) (Entry, error) {
	v, err := l.board(&s.L.number, false)
	return Longest{v}, err
}
