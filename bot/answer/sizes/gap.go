// Package sizes works out what to cut: from an opening that was measured, and by adding up lengths.
package sizes

import (
	"fmt"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/fit"
	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/hanging"
)

// Register registers the handlers of this package.
func Register(k answer.Kinds) {
	answer.OnNote(k, gap)
	answer.OnQuestion(k, sum)
}

// How much the two sides of a gap may differ: above oddTaper it asks, as crews do; above widestTaper they
// are not sides of one gap. Both bounds are our own choice.
const (
	oddTaper    = length.Inch
	widestTaper = 6 * length.Inch
)

type cutFacts struct {
	A     say.Len  `json:"a"`
	B     *say.Len `json:"b,omitempty"`
	Taper bool     `json:"taper"`
	Long  *say.Len `json:"long,omitempty"` // the other side, if measured
}

// gap says what to cut for a gap.
func gap(c answer.Ctx, e hanging.Gap) answer.Reply {
	widest := max(e.A.L, e.B.L, e.Long.L)
	if widest > answer.LongestRoom {
		return answer.Ask(fmt.Sprintf("a gap of %s? send it again", c.Len(widest)), "")
	}
	if c.Room != nil {
		ew, ns := c.Room.Shell().Framing()
		if most := max(ew, ns); most > 0 && widest > most+length.Foot {
			return answer.Ask(fmt.Sprintf("a gap of %s in a room %s x %s? send it again", c.Len(widest), c.Len(ew), c.Len(ns)), "")
		}
	}
	if d := max(e.A.L-e.B.L, e.B.L-e.A.L); e.B.L != 0 && d > oddTaper && !c.Line.Sure {
		apart := fmt.Sprintf("%s and %s are %s apart: two ends of one gap?", gapSaid(c, e.A), gapSaid(c, e.B), c.Len(d))
		if d > widestTaper {
			return answer.Ask(apart+" send it again", "")
		}
		return answer.Ask(apart, "", c.Sure("yes, a taper", e), grammar.Choice{Label: "no, measure again"})
	}
	cut := fit.Size(e.A.L, e.B.L, c.State.Clear(), c.Units)
	if cut.A == 0 || cut.Taper && cut.B == 0 {
		return nothing(c, e.A)
	}
	b := event.Gap{A: e.A.L, B: e.B.L, CutA: cut.A, CutB: cut.B}
	if c.Room != nil {
		b.Room = c.Room.Name
	}
	facts := cutFacts{A: c.Fact(cut.A), Taper: cut.Taper}
	said := gapSaid(c, e.A)
	if e.B.L != 0 {
		said += " and " + gapSaid(c, e.B)
	}
	var text string
	switch {
	case cut.Taper:
		second := c.Fact(cut.B)
		facts.B = &second
		text = fmt.Sprintf("taper cut %s and %s, in the order measured; gap %s", c.Len(cut.A), c.Len(cut.B), said)
	case cut.OneEnd:
		text = fmt.Sprintf("cut %s; gap %s, one end only", c.Len(cut.A), said)
	default:
		text = fmt.Sprintf("cut %s; gap %s", c.Len(cut.A), said)
	}
	if e.Long.L != 0 {
		long := fit.Size(e.Long.L, e.Long.L, c.State.Clear(), c.Units).A
		if long == 0 {
			return nothing(c, e.Long)
		}
		fact := c.Fact(long)
		b.Long, b.CutLong, facts.Long = e.Long.L, long, &fact
		ends := ""
		if cut.Taper {
			ends = fmt.Sprintf(" to %s", c.Len(cut.B))
		}
		text = fmt.Sprintf("cut %s%s x %s; gap %s x %s", c.Len(cut.A), ends, c.Len(long), said, gapSaid(c, e.Long))
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		return answer.Tell("cut", facts, fmt.Sprintf("%s; noted %d", text, en.Seq))
	})
}

// gapSaid reads a gap back in one unit, since the cut beside it has both.
func gapSaid(c answer.Ctx, l length.Said) string {
	if c.Units == length.Metric {
		return c.Said(l)
	}
	s := length.Canon(l.L)
	if l.L%length.SixtyFourth != 0 {
		s = c.Len(l.L) + " (" + s + ")"
	}
	if l.Tag != length.Exact {
		s += " " + string(l.Tag)
	}
	return s
}

func nothing(c answer.Ctx, gap length.Said) answer.Reply {
	return answer.Ask(fmt.Sprintf("a gap of %s leaves nothing to cut. Send it again", c.Said(gap)), "")
}
