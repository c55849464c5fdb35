package rooms

import (
	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/numbers"
	"strapline/grammar/read"
)

// Floor: `finished floor 3/4`: heights are measured from it from now on.
type Floor struct{ Thick length.Said }

func (e Floor) String() string   { return "finished floor " + e.Thick.String() }
func (Floor) Kind() grammar.Kind { return "floor" }

func (s *floorSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	return Floor{numbers.Said(l, &s.Thick.Number, numbers.BoardThickness)}, nil
}

type floorSyntax struct {
	Thick numbers.NeedLength `parser:"'floor' @@ 'thick'?"`
}

var FloorKinds = []read.Row{
	{Command: read.Command{Kind: "floor", Words: []string{"finished floor", "finish floor"}, About: "how thick the finished floor is: heights are off it from then on, else off the subfloor",
		Example: "finished floor 3/4", Metric: "finished floor 19mm", Fits: "its thickness"},
		Rule: read.Rule[floorSyntax](), Makes: []grammar.Entry{Floor{}},
		Chat: func(l *read.Source) bool { return !l.Measure() },
	},
}
