package note

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/calc/even"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

// mostInGrid is the largest grid of lights noted at once.
const mostInGrid = 100

// evenGrid notes an even grid of lights.
func evenGrid(c answer.Ctx, e grammar.Even) answer.Reply {
	if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	if no := sane(c, e.What, e.Size); no != nil {
		return *no
	}
	if e.A < 1 || e.B < 1 || e.A*e.B > mostInGrid {
		return answer.No(fmt.Sprintf("a grid of 1 to %d", mostInGrid), "lights 3 x 2 even")
	}
	places, moved, why := grid(c, e)
	if why != "" {
		return answer.No(why, "")
	}
	b := site.Things{Room: c.Room.Name}
	n := c.Room.Nth(e.What)
	for i, p := range places {
		th := site.Thing{
			Room: c.Room.Name, Name: fmt.Sprintf("%s %d", e.What, n+i+1), What: e.What, Surface: place.Ceiling,
			Size: e.Size, Point: p, New: true,
			Fixes: []place.Fix{
				{How: place.OffWall, Wall: place.West, Said: length.Said{L: p.X}, Face: place.Framing},
				{How: place.OffWall, Wall: place.North, Said: length.Said{L: p.Y}, Face: place.Framing},
			},
		}
		if answer.KindOf(e.What).AfterPaint {
			th.Due = "after paint"
		}
		b.Each = append(b.Each, th)
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		var facts ThingsFacts
		var xs, ys []length.Length
		for _, th := range b.Each {
			facts.Things = append(facts.Things, FactsOf(c, c.Room.Thing(th.Name)))
			xs, ys = append(xs, th.Point.X), append(ys, th.Point.Y)
		}
		r := c.Noted(en, "things", facts, fmt.Sprintf("%s %s %d to %d: %s off west; %s off north (studs, centre)",
			c.Room.Name, e.What, n+1, n+len(b.Each), inOrder(c, xs), inOrder(c, ys)))
		if moved != "" {
			r.Note("moved", fmt.Sprintf("moved off even, to clear the supports by %s: %s", c.Len(even.NonIC), moved))
		}
		for _, th := range b.Each {
			clash(c, &r, th, th.Point)
		}
		return r
	})
}

// inOrder lists positions, each once.
func inOrder(c answer.Ctx, ls []length.Length) string {
	slices.Sort(ls)
	var out []string
	for _, l := range slices.Compact(ls) {
		out = append(out, c.Near(l))
	}
	return strings.Join(out, ", ")
}

// moves says how far the lines of a grid along one axis were moved: all of them alike, or each.
func moves(c answer.Ctx, at, by []length.Length, a place.Axis) (out []string) {
	toward := [2][2]place.Wall{{place.West, place.East}, {place.North, place.South}}[a]
	said := func(m length.Length) string {
		if m < 0 {
			return fmt.Sprintf("%s %s", c.Near(-m), toward[0])
		}
		return fmt.Sprintf("%s %s", c.Near(m), toward[1])
	}
	if all := slices.Compact(slices.Clone(by)); len(by) > 1 && len(all) == 1 && all[0] != 0 {
		return []string{fmt.Sprintf("all %s", said(all[0]))}
	}
	for i, m := range by {
		if m != 0 {
			out = append(out, fmt.Sprintf("those %s off %s %s", c.Near(at[i]), toward[0], said(m)))
		}
	}
	return out
}

// grid is an even grid between the faces that are there now, moved the least
// that clears the supports: as one, or line by line where that cannot be.
func grid(c answer.Ctx, e grammar.Even) (places []place.Point, moved, why string) {
	clear := c.Room.Clear(place.Ceiling)
	q := even.Query{
		X: clear.X0, Y: clear.Y0, W: clear.X1 - clear.X0, H: clear.Y1 - clear.Y0, Cols: e.A, Rows: e.B,
		Across: 2 * e.Size.Half(place.X), Down: 2 * e.Size.Half(place.Y), Clear: even.NonIC,
		Supports: c.Room.Supports(place.Ceiling),
	}
	g, ok := even.Whole(q)
	if !ok {
		g, ok = even.Each(q)
	}
	if !ok {
		g = even.Spaced(q)
	}
	if len(g.X) == 0 {
		return nil, "", "the room is too small for that grid"
	}
	moved = strings.Join(slices.Concat(moves(c, g.X, g.MovedX, place.X), moves(c, g.Y, g.MovedY, place.Y)), ", ")
	for _, y := range g.Y {
		for _, x := range g.X {
			p := place.Point{X: x, Y: y}
			if !c.Room.Inside(place.Ceiling, p) {
				return nil, "", fmt.Sprintf("the grid puts one at %s, which is in the notch", c.Coords(place.Ceiling, p))
			}
			places = append(places, p)
		}
	}
	return places, moved, ""
}
