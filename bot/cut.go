package bot

import (
	"fmt"

	"strapline/calc/fit"
	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar"
)

// widestTaper is how far the two ends of one gap may differ without being asked
// about: 6 in over a board (our own bound; crews find over 1 in odd).
const widestTaper = 6 * length.Inch

func (t *turn) gap(e grammar.Gap) {
	if max(e.A.L, e.B.L) > longestRoom {
		t.ask(fmt.Sprintf("a gap of %s? send it again", t.f(max(e.A.L, e.B.L))), "")
		return
	}
	if t.room != nil {
		ew, ns := t.room.Framing()
		if most := max(ew, ns); most > 0 && max(e.A.L, e.B.L) > most+length.Foot {
			t.ask(fmt.Sprintf("a gap of %s in a room %s x %s? send it again", t.f(max(e.A.L, e.B.L)), t.f(ew), t.f(ns)), "")
			return
		}
	}
	if d := max(e.A.L-e.B.L, e.B.L-e.A.L); e.B.L != 0 && d > widestTaper {
		t.ask(fmt.Sprintf("%s and %s are %s apart: two ends of one gap? send it again", t.gapSaid(e.A), t.gapSaid(e.B), t.f(d)), "")
		return
	}
	c := fit.Size(e.A.L, e.B.L, t.st.Clear(), t.units())
	if c.A == 0 || c.Taper && c.B == 0 {
		t.ask(fmt.Sprintf("a gap of %s leaves nothing to cut. Send it again", t.said1(e.A)), "")
		return
	}
	b := site.Gap{A: e.A.L, B: e.B.L, CutA: c.A, CutB: c.B}
	if t.room != nil {
		b.Room = t.room.Name
	}
	if t.save(b) == nil {
		return
	}
	u := t.units()
	facts := cutFacts{A: fact(u, c.A), Taper: c.Taper}
	gap := t.gapSaid(e.A)
	if e.B.L != 0 {
		gap += " and " + t.gapSaid(e.B)
	}
	var text string
	switch {
	case c.Taper:
		cb := fact(u, c.B)
		facts.B = &cb
		text = fmt.Sprintf("taper cut %s and %s, in the order measured; gap %s", t.f(c.A), t.f(c.B), gap)
	case c.OneEnd:
		text = fmt.Sprintf("cut %s; gap %s, one end only", t.f(c.A), gap)
	default:
		text = fmt.Sprintf("cut %s; gap %s", t.f(c.A), gap)
	}
	t.tell("cut", facts, fmt.Sprintf("%s; noted %d", text, t.ans.Seq))
}

// gapSaid reads a gap back in one unit: the cut beside it has both.
func (t *turn) gapSaid(l length.Said) string {
	if t.units() == length.Metric {
		return t.said1(l)
	}
	s := length.Canon(l.L)
	if l.L%length.SixtyFourth != 0 {
		s = t.f(l.L) + " (" + s + ")"
	}
	if l.Tag != length.Exact {
		s += " " + string(l.Tag)
	}
	return s
}
