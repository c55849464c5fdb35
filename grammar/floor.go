package grammar

import "strapline/calc/length"

// Floor: `finished floor 3/4`: heights are measured from it from now on.
type Floor struct{ Thick length.Said }

func (e Floor) String() string { return "finished floor " + e.Thick.String() }
func (Floor) Kind() Kind       { return "floor" }

func (s *floorSyntax) entry(l *line) (Entry, error) {
	return Floor{l.said(&s.Thick.number, boardThickness)}, nil
}

type floorSyntax struct {
	Thick needLength `parser:"'floor' @@ 'thick'?"`
}

var floorKinds = []kind{
	{Command: Command{Kind: "floor", Words: []string{"finished floor", "finish floor"}, About: "how thick the finished floor is: heights are off it from then on, else off the subfloor",
		Example: "finished floor 3/4", Metric: "finished floor 19mm", Fits: "its thickness"},
		rule: rule[floorSyntax](), makes: []Entry{Floor{}},
		talk: func(l *line) bool { return !l.measure() },
	},
}
