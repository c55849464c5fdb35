package log

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/say"
	"strapline/calc/length"
	"strapline/calc/locate"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/record"
)

// clearOf says how far things are from the nearest framing and the nearest run.
func clearOf(c answer.Ctx, e record.Clear) answer.Reply {
	all := c.Named(e.Of)
	if len(all) == 0 {
		_, stop := c.OneThing(e.Of, func(n string) grammar.Entry { return record.Clear{Of: n} })
		return *stop
	}
	var lines []string
	r := answer.Reply{}
	for _, th := range all {
		c := c.In(th.Room)
		v, _ := th.Now()
		from := "edge"
		if v.Size.A == 0 {
			from = "centre"
		}
		text := c.Where(v.Surface) + " " + th.Name + ": "
		switch n, ok := locate.Nearest(c.Room, v.Surface, th.At(), v.Size); {
		case !ok:
			text += "no framing noted to check it against"
		case n.Clear < 0:
			text += fmt.Sprintf("on %s: %s more would clear it", n.Support.Name(), c.Near(-n.Clear))
		case n.Clear == 0:
			text += "its " + from + " touches " + n.Support.Name()
		default:
			text += fmt.Sprintf("clear of the framing, its %s %s from %s", from, c.Near(n.Clear), n.Support.Name())
		}
		if runs := runsNear(c, v.Surface, th.At()); len(runs) > 0 {
			text += "; from its centre to " + strings.Join(say.Most(runs, 3), ", ")
		}
		lines = append(lines, text)
		if len(all) == 1 {
			behind.Passes(c, &r, th, "")
		}
	}
	told := answer.Tell("clear", nil, strings.Join(say.MostLines(lines, "name one of them"), "\n"))
	told.Notes = r.Notes
	return told
}

// runsNear says how far the runs of the surface are from a place, by their centre lines, the nearest first.
func runsNear(c answer.Ctx, s place.Surface, at place.Point) (said []string) {
	far := map[string]length.Length{}
	for _, rt := range c.Room.RoutesOn(s) {
		path := rt.Path()
		v, _ := rt.Now()
		name := c.RouteName(v)
		for i := range path[1:] {
			if d := beside(path[i], path[i+1], at); i == 0 || d < far[name] {
				far[name] = d
			}
		}
	}
	names := slices.SortedFunc(maps.Keys(far), func(a, b string) int { return cmp.Or(cmp.Compare(far[a], far[b]), cmp.Compare(a, b)) })
	return say.Each(names, func(name string) string { return name + " " + c.Near(far[name]) })
}

// along returns how far along the way from a to b the foot of p is, from 0 to 1, and beside how far p is from it.
func along(a, b, p place.Point) float64 {
	x, y := float64(b.X-a.X), float64(b.Y-a.Y)
	if x == 0 && y == 0 {
		return 0
	}
	return (float64(p.X-a.X)*x + float64(p.Y-a.Y)*y) / (x*x + y*y)
}

func beside(a, b, p place.Point) length.Length {
	t := min(max(along(a, b, p), 0), 1)
	x, y := float64(a.X)+t*float64(b.X-a.X), float64(a.Y)+t*float64(b.Y-a.Y)
	return length.Length(math.Round(math.Hypot(x-float64(p.X), y-float64(p.Y))))
}

// near is how far beside the way from one thing to another something is still between them.
const near = 12 * length.Inch

// between says what is noted between two things, and how far they are apart.
func between(c answer.Ctx, e record.Between) answer.Reply {
	if len(c.Named(e.From)) == 0 || len(c.Named(e.To)) == 0 { // a run, or nothing noted
		return c.Answer(record.Apart(e))
	}
	a, stop := c.OneThing(e.From, func(n string) grammar.Entry { return record.Between{From: n, To: e.To} })
	if stop != nil {
		return *stop
	}
	b, stop := c.OneThing(e.To, func(n string) grammar.Entry { return record.Between{From: a.Name, To: n} })
	if stop != nil {
		return *stop
	}
	from, _ := a.Now()
	to, _ := b.Now()
	if a.Room != b.Room || from.Surface != to.Surface || a == b {
		return c.Answer(record.Apart{From: a.Name, To: b.Name})
	}
	c = c.In(a.Room)
	var found []string
	for _, th := range c.Room.Things {
		v, en := th.Now()
		if t := along(a.At(), b.At(), th.At()); en != nil && v.Surface == from.Surface && th != a && th != b && t > 0 && t < 1 && beside(a.At(), b.At(), th.At()) <= near {
			found = append(found, fmt.Sprintf("%s (%s)", th.Name, c.Coords(v.Surface, th.At())))
		}
	}
	for _, rt := range c.Room.RoutesOn(from.Surface) {
		path := rt.Path()
		for i := range path[1:] {
			if crosses(a.At(), b.At(), path[i], path[i+1]) {
				found = append(found, c.RouteText(rt))
				break
			}
		}
	}
	for _, s := range c.Room.Supports(from.Surface) {
		lo, hi := a.At().On(s.Axis()), b.At().On(s.Axis())
		if s.Pos > min(lo, hi) && s.Pos < max(lo, hi) {
			found = append(found, s.Name())
		}
	}
	text := fmt.Sprintf("%s between %s and %s: ", c.Where(from.Surface), a.Name, b.Name)
	if len(found) == 0 {
		text += "nothing noted: that is not the same as nothing"
	} else {
		text += strings.Join(say.Most(found, 8), ", ") + ". Only what was noted"
	}
	return answer.Tell("between", nil, text)
}

// crosses reports whether a run from c to d crosses the way from a to b.
func crosses(a, b, c, d place.Point) bool {
	side := func(p, q, r place.Point) bool {
		return float64(q.X-p.X)*float64(r.Y-p.Y) > float64(q.Y-p.Y)*float64(r.X-p.X)
	}
	return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
}
