package things

import (
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
)

// Route: `pipe p1 40 off west from strap 2 to strap 7 depth 3/4`,
// `wire w1 from 22 off west 30 off north to 22 off west 90 off north on top of the straps`.
type Route struct {
	What    string      // pipe, wire, gas, duct run, heat tube
	Name    string      // p1; "" when not said
	Size    length.Said // diameter, zero when not said
	Surface place.Surface
	Shared  []place.Fix   // said before "from": they apply to every point
	Points  [][]place.Fix // from, ... through ..., to; at least two
	How     string        // "" not said, "depth", "top" (on top of the straps), "notched" (Depth in a notch)
	Depth   length.Said
	Conduit bool
	Notch   place.Of // the one support it is notched into; zero: "notched" applies to all
	Full    bool     // from end to end of the support, or the bay, in Shared: there are no Points
}

func (e Route) String() string {
	name := e.Name
	if e.Size != (length.Said{}) && strings.Contains(name, " ") { // pipe 3, 1/2"
		name += ","
	}
	said := []any{e.What, name, e.Size, canon.Located{On: e.Surface, Fixes: e.Shared, Comma: e.Size != (length.Said{})}}
	for i, p := range e.Points {
		word := "through"
		switch i {
		case 0:
			word = "from"
		case len(e.Points) - 1:
			word = "to"
		}
		var at []string
		for _, f := range p {
			if f.How == place.OnLine {
				at = append(at, f.Of.String())
			} else {
				at = append(at, f.String())
			}
		}
		said = append(said, word, strings.Join(at, ", "))
	}
	if e.Full {
		said = append(said, canon.Clause{"full length"})
	}
	into := canon.Clause{"notched", canon.Tail(e.Notch.N > 0, "into "+e.Notch.String())}
	depth := canon.Some("depth", e.Depth)
	switch e.How {
	case "top":
		said = append(said, canon.Clause{"on top of the straps"})
		if e.Notch.N > 0 {
			said = append(said, into, canon.Clause{depth})
		}
	case "depth":
		said = append(said, canon.Clause{"depth", e.Depth.String()})
	case "notched":
		said = append(said, append(into, depth))
	}
	return canon.Say(append(said, canon.Clause{canon.Tail(e.Conduit, "in conduit")})...)
}
func (Route) Kind() grammar.Kind { return "run" }
