package note

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/even"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/record"
	"strapline/grammar/things"
)

// mostInGrid is the maximum number of lights in a grid.
const mostInGrid = 100

// evenGrid notes an even grid of lights.
func evenGrid(c answer.Ctx, e things.Even) answer.Reply {
	if stop := sane(c, e.What, e.Size); stop != nil {
		return *stop
	}
	if e.A < 1 || e.B < 1 || e.A*e.B > mostInGrid {
		return answer.No(fmt.Sprintf("a grid of 1 to %d", mostInGrid), "lights 3 x 2 even")
	}
	places, moved, why := grid(c, e)
	if why != "" {
		return answer.No(why, "")
	}
	if stop := again(c, e, places); stop != nil {
		return *stop
	}
	b := event.Things{Room: c.Room.Name}
	n := c.Room.Nth(e.What)
	for i, p := range places {
		off := c.Room.Shell().FromStart(place.Ceiling, p)
		th := event.Thing{
			Room: c.Room.Name, Name: fmt.Sprintf("%s %d", e.What, n+i+1), What: e.What, Surface: place.Ceiling,
			Size: e.Size, Point: p, New: true,
			Fixes: []place.Fix{
				{How: place.OffWall, Wall: place.West, Said: length.Said{L: off.X}, Face: place.Framing},
				{How: place.OffWall, Wall: place.North, Said: length.Said{L: off.Y}, Face: place.Framing},
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
		var each []string
		for _, th := range b.Each {
			facts.Things = append(facts.Things, FactsOf(c, c.Room.Thing(th.Name)))
			xs, ys = append(xs, th.Point.X), append(ys, th.Point.Y)
			each = append(each, c.Coords(place.Ceiling, th.Point))
		}
		at := fmt.Sprintf("%s off west; %s off north", inOrder(c, xs), inOrder(c, ys))
		if _, leans := c.Room.Shell().Shape(); leans { // each light has an offset of its own
			at = strings.Join(say.Most(each, 8), "; ")
		}
		name := b.Each[0].Name
		if len(b.Each) > 1 {
			name += fmt.Sprintf(" to %d", n+len(b.Each))
		}
		r := c.Noted(en, "things", facts, fmt.Sprintf("%s %s%s, %d x %d even = %s: %s (studs, centre)",
			c.Room.Name, lex.Plural(e.What), c.Size(e.Size), e.A, e.B, name, at))
		if moved != "" {
			r.Note("moved", fmt.Sprintf("moved off even, to clear the supports by %s: %s", c.Len(even.NonIC), moved))
		}
		for _, th := range b.Each {
			clash(c, &r, th, th.Point)
		}
		return r
	})
}

// again asks about a grid of which some would meet those that are noted: instead of them, or as well.
func again(c answer.Ctx, e things.Even, places []place.Point) *answer.Reply {
	var first *site.Entry
	var met []string
	for _, th := range c.Room.Things {
		v, en := th.Now()
		if st, _ := th.Stands(); en == nil || v.What != e.What || v.Surface != place.Ceiling || st != site.Noted {
			continue
		}
		at := th.At()
		if slices.ContainsFunc(places, func(p place.Point) bool {
			reach := max(e.Size.A/2+v.Size.A/2, sameWithin)
			return abs(p.X-at.X) < reach && abs(p.Y-at.Y) < reach
		}) {
			if met = append(met, th.Name); first == nil || first == en {
				first = en
				continue
			}
			first = new(site.Entry) // of several entries
		}
	}
	if met == nil || c.Line.Sure {
		return nil
	}
	var choices []grammar.Choice
	if first.Seq > 0 {
		instead := c.As(fmt.Sprintf("instead of entry %d", first.Seq), record.Strike{Seq: int(first.Seq)})
		instead.Lines = append(instead.Lines, c.LineOf(e))
		choices = append(choices, instead)
	}
	choices = append(choices, c.Sure("as well", e), grammar.Choice{Label: "no: they stay as they are"})
	return answer.Stop(answer.Ask(fmt.Sprintf("that would meet %s, noted already", strings.Join(say.Most(met, 4), ", ")), "", choices...))
}

// inOrder returns the positions, each once.
func inOrder(c answer.Ctx, ls []length.Length) string {
	slices.Sort(ls)
	return strings.Join(say.Each(slices.Compact(ls), c.Near), ", ")
}

// moves says how far the lines of a grid along one axis were moved: all by the same, or each by its own
// distance.
func moves(c answer.Ctx, by []length.Length, a place.Axis) (out []string) {
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
			out = append(out, fmt.Sprintf("line %d from %s %s", i+1, toward[0], said(m)))
		}
	}
	return out
}

// farOff reports whether lines moved together went more than a quarter of their spacing, so that they are
// no longer even between the walls. The quarter is our own choice.
func farOff(by []length.Length, spacing length.Length) bool {
	return slices.ContainsFunc(by, func(m length.Length) bool { return max(m, -m) > spacing/4 })
}

// grid returns an even grid between the present faces of the walls, moved as little as clears the
// supports: as a whole, or line by line if that is not possible or too far.
func grid(c answer.Ctx, e things.Even) (places []place.Point, moved, why string) {
	clear := c.Room.Shell().Middle()
	q := even.Query{
		X: clear.X0, Y: clear.Y0, W: clear.X1 - clear.X0, H: clear.Y1 - clear.Y0, Cols: e.A, Rows: e.B,
		Across: 2 * e.Size.Half(place.X), Down: 2 * e.Size.Half(place.Y), Clear: even.NonIC,
		Supports: c.Room.Supports(place.Ceiling),
	}
	g, ok := even.Whole(q)
	if each, can := even.Each(q); can && (!ok || farOff(g.MovedX, q.W/length.Length(e.A)) || farOff(g.MovedY, q.H/length.Length(e.B))) {
		g, ok = each, true
	}
	if !ok {
		g = even.Spaced(q)
	}
	if len(g.X) == 0 {
		return nil, "", "the room is too small for that grid"
	}
	moved = strings.Join(slices.Concat(moves(c, g.MovedX, place.X), moves(c, g.MovedY, place.Y)), ", ")
	for _, y := range g.Y {
		for _, x := range g.X {
			p := place.Point{X: x, Y: y}
			if !c.Room.Shell().Holds(place.Ceiling, p, e.Size) {
				return nil, "", fmt.Sprintf("the grid puts one at %s, where the notch is", c.Coords(place.Ceiling, p))
			}
			places = append(places, p)
		}
	}
	return places, moved, ""
}
