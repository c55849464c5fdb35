package close

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/answer/settle"
	"strapline/bot/say"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/grammar"
	"strapline/grammar/hanging"
)

// nearby is how far around a place is looked: the hand that holds the screw is not surer than that.
const nearby = 12 * length.Inch

// at says what is noted around a place, and whether a screw there reaches it. It never says that nothing is
// there.
func at(c answer.Ctx, e hanging.Reach) answer.Reply {
	s := answer.SurfaceOf(e.Surface)
	_, p, stop := settle.Place(c, s, e.Fixes, place.Size{}, func(fs []place.Fix) grammar.Entry { next := e; next.Fixes = fs; return next })
	if stop != nil {
		return *stop
	}
	q := behind.Of(c, s, e.Screw.L)
	facts := factsOf(c, q)
	tip := max(reach.Tip(q.Screw, q.Board, q.Allow.Set), 0)
	allow := q.Allow
	allow.Beside = nearby
	var lines, away []string
	for _, pass := range reach.Holes(reach.Hole{At: p.Point, Bit: tip}, q.Supports, q.Runs, allow) {
		run := q.Routes[pass.Run]
		v, _ := run.Now()
		x, y := c.XY(s, p.Point)
		fact := hitFacts{Run: run.Name, X: x, Y: y, Past: c.Fact(max(pass.Past, 0))}
		depth := c.Len(pass.Depth) + " behind the board"
		if pass.Assumed {
			depth += " or less"
		}
		switch on := reach.Holes(reach.Hole{At: p.Point, Bit: tip}, q.Supports, q.Runs[pass.Run:pass.Run+1], q.Allow); {
		case len(on) > 0:
			head, list := "close", &facts.Close
			if pass.Past > 0 {
				head, list = "HIT", &facts.Hits
			}
			*list = append(*list, fact)
			lines = append(lines, fmt.Sprintf("%s: %s runs there, %s; a %s screw comes %s past the board", head, c.RouteName(v), depth, c.Len(q.Screw), c.Fine(tip)))
		default:
			away = append(away, fmt.Sprintf("%s, %s", c.RouteName(v), depth))
		}
	}
	where := c.Where(s) + " " + c.Coords(s, p.Point)
	for _, th := range c.Room.Things {
		v, en := th.Now()
		if en == nil || v.Surface != s {
			continue
		}
		d := length.Length(math.Hypot(float64(th.At().X-p.Point.X), float64(th.At().Y-p.Point.Y))) - max(v.Size.A, v.Size.B)/2
		switch {
		case d <= 0:
			lines = append(lines, fmt.Sprintf("HIT: %s is there", th.Name))
		case d <= nearby:
			away = append(away, fmt.Sprintf("%s %s away", th.Name, c.Near(d)))
		}
	}
	if len(lines) == 0 {
		lines = append(lines, "nothing noted right there: that is not the same as nothing")
	}
	lines[0] = where + ": " + lines[0]
	if len(away) > 0 {
		lines = append(lines, fmt.Sprintf("within %s: %s", c.Len(nearby), strings.Join(say.Most(away, 4), "; ")))
	}
	if text := wood(c, q.Set, p.Point); text != "" {
		lines = append(lines, text)
	}
	r := answer.Tell("reach", facts, strings.Join(lines, "\n"))
	behind.Unplanned(c, &r)
	r.Note("caution", answer.CautionScrew)
	return r
}

// wood says where the nearest support is, which a screw has to bite.
func wood(c answer.Ctx, set []place.Support, p place.Point) string {
	set = slices.DeleteFunc(slices.Clone(set), func(s place.Support) bool { return !s.Reaches(p.On(s.Lie)) })
	if len(set) == 0 {
		return ""
	}
	off := func(s place.Support) length.Length { return p.On(s.Axis()) - s.Pos }
	near := slices.MinFunc(set, func(a, b place.Support) int { return int(abs(off(a)) - abs(off(b))) })
	d := off(near)
	if abs(d) <= near.Wide/2 {
		return near.Name() + " is right there"
	}
	way := place.Ceiling.Start(near.Axis())
	if d < 0 {
		way = way.Opposite()
	}
	return fmt.Sprintf("nearest %s: %s, %s %s of there to its centre", strings.TrimSuffix(string(near.Kind), "s"), near.Name(), c.Near(abs(d)), way)
}

func abs(l length.Length) length.Length { return max(l, -l) }
