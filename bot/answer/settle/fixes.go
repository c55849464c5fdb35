// Package settle finds the place that the distances of an entry lead to, or what to ask or refuse instead, and reads
// it back.
package settle

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/frame"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/rooms"
)

// Agrees is how far apart two distances to one place may be and still agree.
const Agrees = length.Inch / 4

// Place resolves the fixes of an entry in the room at hand, or returns what to ask or refuse. with returns
// the entry with other fixes, for the choices of a question.
func Place(c answer.Ctx, s place.Surface, fixes []place.Fix, size place.Size, with func([]place.Fix) grammar.Entry) (out []place.Fix, p frame.Placed, stop *answer.Reply) {
	if fixes, stop = aimed(c, fixes, with); stop != nil {
		return nil, p, stop
	}
	for i, f := range fixes {
		if (f.How == place.OffWall || f.How == place.Along) && f.Wall == "" {
			return nil, p, answer.Stop(AskWall(c, s, fixes, i, with))
		}
		out = append(out, f.Settled())
	}
	if stop := askFace(c, s, fixes, with); stop != nil {
		return nil, p, stop
	}
	if stop := askCorner(c, s, fixes, out, with); stop != nil {
		return nil, p, stop
	}
	p, err := c.Room.Place(s, out, size, c.Sent.UnixMilli())
	if u, bad := errors.AsType[*frame.Unplaced](err); bad {
		return nil, p, answer.Stop(unplaced(c, s, out[u.Fix], u.Why))
	}
	if !p.Whole() {
		return nil, p, answer.Stop(askMissing(c, s, p, with(fixes)))
	}
	if stop := askShape(c, s, fixes, p, with); stop != nil {
		return nil, p, stop
	}
	if s == place.Ceiling || s.IsWall() {
		if stop := askNotch(c, s, fixes, out, &p, size, with); stop != nil {
			return nil, p, stop
		}
	}
	for _, x := range p.Checks {
		if max(x.Diff, -x.Diff) > Agrees {
			return nil, p, answer.Stop(askCheck(c, fixes, x, with))
		}
	}
	if !c.Room.Shell().Inside(s, p.Point) {
		return nil, p, answer.Stop(askOutside(c, s, p.Point, with))
	}
	if !c.Room.Shell().Holds(s, p.Point, size) {
		return nil, p, answer.Stop(askPartly(c, s, fixes, p.Point, size, with))
	}
	return out, p, askShort(c, s, out, p)
}

// aimed replaces descriptions of things in fixes by their names: "the sink light" is light 2. It asks
// which if the words fit several. A distance off an opening in the framing is off its near edge.
func aimed(c answer.Ctx, fixes []place.Fix, with func([]place.Fix) grammar.Entry) ([]place.Fix, *answer.Reply) {
	out := slices.Clone(fixes)
	for i, f := range fixes {
		if f.Name == "" || f.Sup != "" || c.Room.Thing(f.Name) != nil || c.IsMark(f.Name) {
			continue
		}
		found := slices.DeleteFunc(c.Named(f.Name), func(th *site.ThingState) bool { return th.Room != c.Room })
		doors := slices.DeleteFunc(slices.Clone(found), func(th *site.ThingState) bool { v, _ := th.Now(); return !v.Framed || v.What != f.Name })
		if len(doors) > 0 { // not the switch by the door
			found = doors
		}
		if len(found) == 1 {
			out[i].Name = found[0].Name
			continue
		}
		var choices []grammar.Choice
		for _, th := range found[:min(len(found), 9)] {
			next := slices.Clone(fixes)
			next[i].Name = th.Name
			v, _ := th.Now()
			choices = append(choices, c.As(fmt.Sprintf("%s (%s)", th.Name, c.Coords(v.Surface, th.At())), with(next)))
		}
		if choices != nil {
			return nil, answer.Stop(answer.Ask(fmt.Sprintf("which %s?", f.Name), "", choices...))
		}
	}
	for i, f := range out {
		if th := c.Room.Thing(f.Name); th != nil && f.How == place.DirOf && f.L != 0 {
			v, _ := th.Now()
			out[i].Edge = v.Framed
		}
	}
	return out, nil
}

// AskWall asks off which wall a distance was measured. It offers only walls that fix a coordinate that no
// other distance fixes.
func AskWall(c answer.Ctx, s place.Surface, fixes []place.Fix, i int, with func([]place.Fix) grammar.Entry) answer.Reply {
	var taken [2]bool
	for k, f := range fixes {
		if k == i || f.Wall == "" && (f.How == place.OffWall || f.How == place.Along) {
			continue
		}
		if p, err := c.Room.Place(s, []place.Fix{f}, place.Size{}, c.Sent.UnixMilli()); err == nil && p.InLine == "" {
			taken[place.X] = taken[place.X] || p.Pinned[place.X]
			taken[place.Y] = taken[place.Y] || p.Pinned[place.Y]
		}
	}
	var choices []grammar.Choice
	for _, w := range place.Walls {
		a, _, ok := s.Axis(w)
		if !ok || taken[a] {
			continue
		}
		next := slices.Clone(fixes)
		next[i].Wall, next[i].Side = w, ""
		choices = append(choices, c.As(string(w), with(next)))
	}
	said := c.Said(fixes[i].Said)
	if fixes[i].Side != "" {
		said += " " + fixes[i].Side + ":"
	}
	if len(choices) == 0 {
		return answer.No(fmt.Sprintf("%s is one distance too many", said), "")
	}
	return answer.Ask(said+" off which wall?", "", choices...)
}

// askFace asks to which face a distance was measured, if the wall got its board in the day before the
// message came in and nobody knows when it was written.
func askFace(c answer.Ctx, s place.Surface, fixes []place.Fix, with func([]place.Fix) grammar.Entry) *answer.Reply {
	if !c.Arrived || c.Line.At != "" || c.Line.Before > 0 || c.Line.After > 0 {
		return nil
	}
	sent := c.Sent.UnixMilli()
	const day = 24 * 60 * 60 * 1000
	for i, f := range fixes {
		what, now := front(c, s, f, place.Point{}, sent)
		if _, was := front(c, s, f, place.Point{}, sent-day); what == "" || f.Face != "" || was == now {
			continue
		}
		var choices []grammar.Choice
		for _, n := range []struct {
			label string
			face  place.Face
		}{{"studs", place.Framing}, {"board", place.BoardFace}} {
			next := slices.Clone(fixes)
			next[i].Face = n.face
			choices = append(choices, c.As(n.label, with(next)))
		}
		if f.Wall != "" {
			what = c.Room.Shell().Front(s, f, place.Point{}).Name()
		}
		return answer.Stop(answer.Ask(fmt.Sprintf("the %s has been boarded since: was %s to the studs or to the board?", what, c.Said(f.Said)), "", choices...))
	}
	return nil
}

// front returns what a distance is measured from, a wall or the ceiling ("" for neither), and the
// thickness of the board on its framing at time t.
func front(c answer.Ctx, s place.Surface, f place.Fix, at place.Point, t int64) (what string, board length.Length) {
	if f.How == place.DownTo {
		return string(place.Ceiling), c.Room.CeilingFace(t)
	}
	if w := s.SlopeTo(); w != "" && f.How == place.UpFrom {
		f.Wall = w
	}
	board = c.Room.FrontBoard(s, f, at, t)
	return string(f.Wall), max(board, -board)
}

// askMissing asks for the coordinate that nothing fixes. The answer is added to the line.
func askMissing(c answer.Ctx, s place.Surface, p frame.Placed, e grammar.Entry) answer.Reply {
	base := c.LineOf(e).String()
	if (s.Upright() || s.SlopeTo() != "") && !p.Pinned[place.Y] {
		return answer.Ask("how far up? e.g. `16 up`", base)
	}
	var names []string
	for _, w := range place.Walls {
		if a, _, ok := s.Axis(w); ok && !p.Pinned[a] {
			names = append(names, string(w))
		}
	}
	if len(names) == 4 {
		return answer.Ask("where? two distances, e.g. `26 off west 41 off north`", base)
	}
	return answer.Ask(fmt.Sprintf("and how far off %s? e.g. `41 off %s`", strings.Join(names, " or "), names[0]), base)
}

// askNotch asks from which wall a distance was measured if a notch stands at that wall. It offers every
// reading that puts the place in the room; if there is just one, it takes it.
func askNotch(c answer.Ctx, s place.Surface, fixes []place.Fix, out []place.Fix, p *frame.Placed, size place.Size, with func([]place.Fix) grammar.Entry) *answer.Reply {
	var open []int // distances that could be off a notch's wall
	for i, f := range fixes {
		stands := c.Room.Shell().NotchOn(out[i].Wall)
		if s.IsWall() {
			_, _, stands = c.Room.Shell().NotchToward(s, out[i].Wall, p.Point)
		}
		if f.How == place.OffWall && !f.Notch && !f.Main && stands {
			open = append(open, i)
		}
	}
	if len(open) == 0 || len(open) > 4 {
		return nil
	}
	type reading struct {
		notch []bool
		at    frame.Placed
	}
	var found []reading
	for n := range 1 << len(open) {
		alt := slices.Clone(out)
		notch := make([]bool, len(open))
		for k, i := range open {
			notch[k] = n>>k&1 == 1
			alt[i].Notch = notch[k]
		}
		q, err := c.Room.Place(s, alt, size, c.Sent.UnixMilli())
		same := func(r reading) bool { return r.at.Point == q.Point }
		if err == nil && q.Whole() && c.Room.Shell().Inside(s, q.Point) && !slices.ContainsFunc(found, same) {
			found = append(found, reading{notch, q})
		}
	}
	switch len(found) {
	case 0:
		return nil // outside: asked about next
	case 1:
		for k, i := range open {
			out[i].Notch = found[0].notch[k]
		}
		*p = found[0].at
		return nil
	}
	var choices []grammar.Choice
	for _, r := range found {
		next := slices.Clone(fixes)
		var label []string
		for k, i := range open {
			own := "the room's own "
			next[i].Notch, next[i].Main = r.notch[k], !r.notch[k]
			if r.notch[k] {
				own = "the notch's "
			}
			if !slices.ContainsFunc(found, func(o reading) bool { return o.notch[k] != r.notch[k] }) {
				continue // the same in all readings
			}
			label = append(label, fmt.Sprintf("%s off %s%s wall", c.Said(fixes[i].Said), own, fixes[i].Wall))
		}
		choices = append(choices, c.As(strings.Join(label, ", "), with(next)))
	}
	return answer.Stop(answer.Ask("which walls?", "", choices...))
}

// askCorner settles whether a distance along a notch's face is off its outside corner or off the room's
// wall on that side, which it asks if both are on the face.
func askCorner(c answer.Ctx, s place.Surface, fixes, out []place.Fix, with func([]place.Fix) grammar.Entry) *answer.Reply {
	long, _ := c.Room.Shell().Extent(s)
	t := c.Sent.UnixMilli()
	for i, f := range fixes {
		corner := c.Room.Shell().FromCorner(s, f.Wall)
		if f.How != place.OffWall || corner == 0 || f.Notch {
			continue
		}
		out[i].Notch = true
		front := c.Room.BoardAt(s, f.Wall, t)
		in := f.L + c.Room.Board(f.Wall, t) - corner // the same off the wall, to the corner's framing
		if in < 0 || in > long {
			continue
		}
		off, own := slices.Clone(fixes), slices.Clone(fixes)
		off[i].L, off[i].Notch, off[i].Main = in-front, true, false
		own[i].Notch = true
		if f.Main {
			out[i] = off[i]
			continue
		}
		choices := []grammar.Choice{c.As(fmt.Sprintf("%s off the %s wall: %s off the notch's corner", c.Said(f.Said), f.Wall, c.Len(in-front)), with(off))}
		if f.L+front <= long {
			choices = append([]grammar.Choice{c.As(fmt.Sprintf("%s off the notch's corner", c.Said(f.Said)), with(own))}, choices...)
		}
		return answer.Stop(answer.Ask(fmt.Sprintf("the %s ends at its corner, %s off the %s wall. Off which?", s.Name(), c.Near(corner), f.Wall), "", choices...))
	}
	return nil
}

// askShort refuses a distance off a support that does not extend to the place.
func askShort(c answer.Ctx, s place.Surface, fixes []place.Fix, p frame.Placed) *answer.Reply {
	for _, f := range fixes {
		if f.Sup == "" {
			continue
		}
		for _, sup := range c.Room.SupportsOf(s, f.Sup) {
			along := p.On(sup.Axis().Other())
			if sup.N != f.N || sup.Reaches(along) {
				continue
			}
			return answer.Stop(answer.No(fmt.Sprintf("%s stops: it runs from %s to %s off %s, not to %s", sup.Name(), c.Near(sup.From), c.Near(sup.To),
				say.Start(sup.Run), c.Near(along)), ""))
		}
	}
	return nil
}

// askCheck asks which of two distances for one coordinate counts.
func askCheck(c answer.Ctx, fixes []place.Fix, x frame.Check, with func([]place.Fix) grammar.Entry) answer.Reply {
	without := func(i int) []place.Fix { return slices.Delete(slices.Clone(fixes), i, i+1) }
	d := max(x.Diff, -x.Diff)
	return answer.Ask(fmt.Sprintf("%s and %s are %s apart; which counts?", c.Fix(fixes[x.First]), c.Fix(fixes[x.Second]), c.Len(d)), "",
		c.As(c.Fix(fixes[x.First]), with(without(x.Second))),
		c.As(c.Fix(fixes[x.Second]), with(without(x.First))))
}

func askOutside(c answer.Ctx, s place.Surface, p place.Point, with func([]place.Fix) grammar.Entry) answer.Reply {
	x, y := c.Room.Shell().Extent(s)
	where := fmt.Sprintf("%s, %s x %s", c.Room.Name, c.Len(x), c.Len(y))
	if s.Upright() {
		where = fmt.Sprintf("the %s of %s, %s long", s.Name(), c.Room.Name, c.Len(x))
		if y != 0 {
			where += ", " + c.Len(y) + " high"
		}
	}
	return answer.Ask(fmt.Sprintf("that is outside %s: it would be %s. Send the distances again", where, c.Coords(s, p)), c.LineOf(with(nil)).String())
}

// askPartly asks about a hole that would be partly in a wall or past its end; often it was measured to its
// edge.
func askPartly(c answer.Ctx, s place.Surface, fixes []place.Fix, p place.Point, size place.Size, with func([]place.Fix) grammar.Entry) answer.Reply {
	why := fmt.Sprintf("a hole of%s at %s is not all on the %s", c.Size(size), c.Coords(s, p), s.Name())
	edges := slices.Clone(fixes)
	for i, f := range edges {
		edges[i].ToEdge = f.How == place.OffWall || f.How == place.UpFrom || f.How == place.DownTo
	}
	if q, err := c.Room.Place(s, edges, size, c.Sent.UnixMilli()); err == nil && q.Whole() && c.Room.Shell().Holds(s, q.Point, size) {
		return answer.Ask(why, "", c.As("measured to its edge", with(edges)), grammar.Choice{Label: "no: send the distances again"})
	}
	return answer.Ask(why+". Send the distances again", c.LineOf(with(nil)).String())
}

// lacks refuses an entry until something else is noted.
func lacks(want, hint string) answer.Reply {
	r := answer.No(want+": note it first, then send this again", hint)
	r.Refuse.Lacks = true
	return r
}

// unplaced refuses a fix that does not fix a coordinate.
func unplaced(c answer.Ctx, s place.Surface, f place.Fix, why frame.Why) answer.Reply {
	on, support := "the "+s.Name(), place.Of{Sup: f.Sup, N: f.N}.String()
	switch why {
	case frame.NoSupport:
		n := len(c.Room.SupportsOf(s, f.Sup))
		if n == 0 {
			return answer.No(fmt.Sprintf("no %s noted on %s of %s", f.Sup, on, c.Room.Name), string(f.Sup)+" ew 16 oc first 14 3/8 off north")
		}
		return answer.No(fmt.Sprintf("%s has %s, there is no %s", c.Room.Name, say.Supports(n, f.Sup), support), "")
	case frame.WrongWay:
		run := place.Direction("")
		for _, q := range c.Room.SupportsOf(s, f.Sup) {
			run = q.Run
		}
		a, b, turns := place.North, place.South, place.NS
		if f.How == place.Along {
			turns = place.EW
		}
		if run == turns {
			a, b = place.West, place.East
		}
		if f.How == place.Along {
			return answer.No(fmt.Sprintf("%s runs %s: along it is from %s or %s", support, say.Direction(run), a, b), "")
		}
		return answer.No(fmt.Sprintf("%s runs %s: say %s or %s of it", support, say.Direction(run), a, b), fmt.Sprintf("%s %s of %s", strings.TrimSuffix(c.Len(f.L), `"`), b, support))
	case frame.NotHere:
		return answer.No(fmt.Sprintf("%s is not a side of %s", cmp.Or(f.Wall, f.Dir), on), "")
	case frame.NoPoint:
		return answer.No(fmt.Sprintf("no mark or thing %q on %s of %s%s", f.Name, on, c.Room.Name, nearestName(c, f.Name)), "")
	case frame.NoHeight:
		return c.NoHeight()
	case frame.NoBoard:
		if f.How == place.DownTo {
			return lacks("no board is noted on the ceiling", "ceiling up")
		}
		return lacks(fmt.Sprintf("no board is noted on the %s wall", f.Wall), string(f.Wall)+" wall boarded 1/2")
	case frame.NoFloor:
		return answer.No(fmt.Sprintf("no finished floor is noted in %s, so how thick it is", c.Room.Name), "finished floor 3/4")
	case frame.OnFloor:
		return answer.No("up and down go with a wall", "box 2x4 on north wall 52 off west 16 up")
	default:
		return answer.No("that goes in a circle: each is measured off the other", "")
	}
}

// nearestName suggests the known name closest to a word.
func nearestName(c answer.Ctx, word string) string {
	known := say.Each(c.Room.Things, func(th *site.ThingState) string { return th.Name })
	known = append(known, c.Room.Marks(place.Ceiling)...)
	if n := grammar.Nearest(word, known); n != "" {
		return fmt.Sprintf("; did you mean %s?", n)
	}
	return ""
}

// askShape asks whether a distance off the wall that a slope comes down to runs up the slope or level, on
// plan; and, if a place was given for the ceiling, whether it is on the slope or bulkhead there.
func askShape(c answer.Ctx, s place.Surface, fixes []place.Fix, p frame.Placed, with func([]place.Fix) grammar.Entry) *answer.Reply {
	over := s
	if s == place.Ceiling {
		if over = c.Room.Shell().Overhead(p.Point); over == s {
			return nil
		}
	}
	on := func(fixes []place.Fix) grammar.Entry {
		return rooms.Resolve(with(fixes), func(place.Surface) place.Surface { return over })
	}
	w := over.SlopeTo()
	switch _, boxed, _ := over.BulkheadOf(); {
	case w == "" && over == s:
		return nil
	case w == "":
		return answer.Stop(answer.Ask(fmt.Sprintf("the %s bulkhead is there: on its bottom?", boxed), "", c.As("on the "+string(over), on(fixes))))
	}
	for i, f := range fixes {
		if f.How != place.OffWall || f.Wall != w || f.Level {
			continue
		}
		up, level := slices.Clone(fixes), slices.Clone(fixes)
		up[i].How, up[i].Wall, up[i].Face = place.UpFrom, "", ""
		level[i].Level = true
		return answer.Stop(answer.Ask(fmt.Sprintf("%s off %s: up the slope, or level on plan?", c.Said(f.Said), w), "",
			c.As("up the slope", on(up)), c.As("on plan", on(level))))
	}
	if over == s {
		return nil
	}
	for i, f := range fixes {
		if f.How == place.OffWall && f.Wall == w.Opposite() {
			level := slices.Clone(fixes)
			level[i] = place.Fix{How: place.OffWall, Wall: w, Level: true, Said: length.Said{L: c.Room.Shell().Off(s, w, p.Point)}}
			return answer.Stop(answer.Ask(fmt.Sprintf("that is on the %s: on plan?", over), "", c.As(c.Fix(level[i]), on(level))))
		}
	}
	return answer.Stop(answer.No(fmt.Sprintf("that is on the %s: how far up it?", over), fmt.Sprintf("%s on %s, 26 off %s, 30 up", "light l1", over, over.Start(place.X))))
}
