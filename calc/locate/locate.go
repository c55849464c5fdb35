// Package locate says where a noted thing is, by distances from what can be seen
// now: the present faces of walls, bare supports and marks, edges of hung boards,
// and openings already cut.
package locate

import (
	"cmp"
	"fmt"
	"slices"

	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// Kind is the kind of reference that a distance is measured from.
type Kind string

const (
	Wall    Kind = "wall"
	Support Kind = "strap"
	Mark    Kind = "mark"
	Edge    Kind = "edge"  // a long edge of a row
	Joint   Kind = "joint" // where two pieces of a row meet
	Opening Kind = "opening"
)

// Slope is the reference of a distance up a slope from its low edge.
const Slope = "slope"

// Step is one distance to measure.
type Step struct {
	Kind Kind
	Ref  string        // such as "west", "strap 3", "mark a", "row 2 north edge", "d1", Slope
	Dir  place.Wall    // direction from Ref to the thing
	Dist length.Length // never negative
	Face place.Face    // of a wall, floor or ceiling: the face measured from
	Axis place.Axis
	Old  bool          // that face is an old finished one
	err  length.Length // likely error
}

// refErr is the likely error of each kind of reference. It is our own estimate,
// without a source, and only orders the steps.
var refErr = map[Kind]length.Length{
	Wall: length.Sixteenth, Support: length.Sixteenth, Mark: length.Sixteenth,
	Edge: 2 * length.Sixteenth, Joint: 2 * length.Sixteenth, Opening: 4 * length.Sixteenth,
}

// From lists the steps to thing t: first the most reliable one for each axis, then
// the next best, and so on. Of each kind of reference it uses the nearest; of walls,
// both.
func From(t *site.ThingState) []Step {
	v, e := t.Now()
	if e == nil {
		return nil
	}
	all := candidates(t, v, t.At())
	slices.SortStableFunc(all, func(a, b Step) int { return cmp.Compare(a.err, b.err) })
	var byAxis [2][]Step
	for _, s := range all {
		same := func(o Step) bool { return o.Kind == s.Kind && s.Kind != Wall }
		if !slices.ContainsFunc(byAxis[s.Axis], same) {
			byAxis[s.Axis] = append(byAxis[s.Axis], s)
		}
	}
	var out []Step
	for n := range max(len(byAxis[0]), len(byAxis[1])) {
		for _, steps := range byAxis {
			if n < len(steps) {
				out = append(out, steps[n])
			}
		}
	}
	return out
}

func candidates(t *site.ThingState, v event.Thing, at place.Point) []Step {
	r := t.Room
	all := walls(r, v.Surface, at)
	add := func(k Kind, ref string, axis place.Axis, from length.Length) {
		d := at.On(axis) - from
		dir := toward(v.Surface, axis, d)
		d = max(d, -d)
		all = append(all, Step{Kind: k, Ref: ref, Dir: dir, Dist: d, Axis: axis, err: likelyErr(k, d)})
	}
	over := r.Over(v.Surface, at)
	if over == nil {
		for _, s := range r.Supports(v.Surface) {
			if !s.Reaches(at.On(s.Axis().Other())) {
				continue
			}
			add(Support, s.Name(), s.Axis(), s.Pos)
		}
		for _, name := range r.Marks(v.Surface) {
			if _, p, ok := r.Mark(name); ok && r.Over(v.Surface, p) == nil {
				add(Mark, "mark "+name, place.X, p.X)
				add(Mark, "mark "+name, place.Y, p.Y)
			}
		}
	} else if over.Row > 0 {
		edges(r, v.Surface, over, add)
	}
	for _, o := range r.Things {
		if o == t || len(o.Opens()) == 0 {
			continue
		}
		ov, e := o.Now()
		if e == nil || ov.Surface != v.Surface {
			continue
		}
		if st, _ := o.Stands(); st == site.Open {
			p := o.At()
			add(Opening, o.Name, place.X, p.X)
			add(Opening, o.Name, place.Y, p.Y)
		}
	}
	return all
}

// likelyErr is the likely error of a distance from a reference. A tape adds 1/16 in for
// each 4 ft held overhead, by our own estimate.
func likelyErr(k Kind, d length.Length) length.Length { return refErr[k] + d/768 }

// toward is the direction of a positive or negative step along axis: a wall or, along y
// where no wall is, "up" or "down".
func toward(s place.Surface, axis place.Axis, d length.Length) place.Wall {
	names := [2]place.Wall{"down", "up"}
	if start := s.Start(axis); start != "" {
		names = [2]place.Wall{start, start.Opposite()}
	}
	if d < 0 {
		return names[0]
	}
	return names[1]
}

// walls returns the distances off the present faces of the walls, or of a notch's wall if
// one is in between, and on an upright surface off the floor and the ceiling.
func walls(r *site.Room, s place.Surface, at place.Point) []Step {
	var out []Step
	for _, w := range place.Walls {
		axis, _, ok := s.Axis(w)
		if !ok {
			continue
		}
		of := place.Fix{Wall: w}
		ref, d := string(w), r.Shell().Off(s, w, at)
		if _, deep, ok := r.Shell().NotchToward(s, w, at); ok {
			d += r.BoardNow(w) - deep
			ref, of.Notch = string(w)+" notch", true
			d -= r.FrontBoard(s, of, at, site.EndOfTime)
		} else if r.Shell().FromCorner(s, w) > 0 {
			ref = string(w) + " notch"
		} else if s.SlopeTo() == w {
			ref = Slope
		}
		board := r.FrontBoard(s, of, at, site.EndOfTime)
		f := place.Framing
		if board != 0 {
			f = place.BoardFace
		}
		if d >= 0 {
			out = append(out, Step{Kind: Wall, Ref: ref, Dir: w.Opposite(), Dist: d, Face: f, Axis: axis, Old: r.Finished(r.Shell().Front(s, of, at)), err: likelyErr(Wall, d)})
		}
	}
	if s.Upright() {
		d, f := at.Y, place.Face("")
		if s.FromFloor() {
			if d, f = at.Y-r.FloorNow(), place.Subfloor; d != at.Y {
				f = place.FinishedFloor
			}
		}
		out = append(out, Step{Kind: Wall, Ref: "floor", Dir: "up", Dist: d, Face: f, Axis: place.Y, err: likelyErr(Wall, at.Y)})
		if _, h := r.Shell().Extent(s); h > 0 {
			face, board := place.Framing, r.CeilingFace(site.EndOfTime)
			if board > 0 {
				face = place.BoardFace
			}
			d := max(h-board-at.Y, 0)
			out = append(out, Step{Kind: Wall, Ref: "ceiling", Dir: "down", Dist: d, Face: face, Axis: place.Y, err: likelyErr(Wall, d)})
		}
	}
	return out
}

// edges adds the long edges of the row that covers the thing, and the joints at the ends of
// the piece, unless they are at a wall.
func edges(r *site.Room, s place.Surface, p *frame.Piece, add func(Kind, string, place.Axis, length.Length)) {
	x, y := r.Shell().Extent(s)
	const atWall = 2 * length.Inch
	along := s.Lie(p.Run)
	for _, axis := range []place.Axis{place.X, place.Y} {
		from, to := p.Rect.Span(axis)
		end := x
		if axis == place.Y {
			end = y
		}
		for _, v := range [2]length.Length{from, to} {
			if v <= atWall || end > 0 && v >= end-atWall {
				continue
			}
			if axis == along {
				n := p.N // joints are counted like pieces, from the west or north end
				if v == from {
					n--
				}
				add(Joint, fmt.Sprintf("joint %d of row %d", n, p.Row), axis, v)
				continue
			}
			side := toward(s, axis, 1)
			if v == from {
				side = toward(s, axis, -1)
			}
			add(Edge, fmt.Sprintf("row %d %s edge", p.Row, side), axis, v)
		}
	}
}

// Near is the support nearest to a thing, and the clear space between their edges,
// negative if they overlap.
type Near struct {
	Support place.Support
	Clear   length.Length
}

// Nearest finds the support nearest to a thing. One that stops short of the thing does not
// count. ok is false if there is none.
func Nearest(r *site.Room, s place.Surface, at place.Point, size place.Size) (best Near, ok bool) {
	for _, sup := range r.Supports(s) {
		along := at.On(sup.Axis().Other())
		half := size.Half(sup.Axis().Other())
		if along+half < sup.From || along-half > sup.To && sup.To > 0 {
			continue
		}
		d := at.On(sup.Axis()) - sup.Pos
		clear := max(d, -d) - sup.Wide/2 - size.Half(sup.Axis())
		if !ok || clear < best.Clear {
			best, ok = Near{sup, clear}, true
		}
	}
	return best, ok
}
