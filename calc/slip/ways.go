package slip

import (
	"fmt"
	"math"
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// other is a coordinate that a distance may have meant instead.
type other struct {
	at     length.Length
	weight float64 // 0 to 1
	reason Reason
}

// others lists what one of the note's distances may have meant instead.
func (s Scene) others(n Note, axis place.Axis) []other {
	c, far := n.X, s.W
	if axis == place.Y {
		c, far = n.Y, s.H
	}
	half := n.Size.Half(axis)
	now := c.at(c.L, half)
	var out []other
	add := func(k Kind, weight float64, at length.Length, words string) {
		if at != now && !s.disproved(n.Who, c.Wall, k) {
			out = append(out, other{at, weight / 1000, Reason{k, words}})
		}
	}
	shift := func(l length.Length) length.Length { // away from From
		if !c.Grows {
			l = -l
		}
		return now + l
	}
	if c.said() {
		for _, r := range Misread(c.L, c.Form) {
			add(r.Kind, r.Weight, c.at(r.L, half), r.words(c.L))
		}
		if c.ToEdge {
			add(Edge, row(Edge).Per, shift(-half), "measured to its centre, not its edge")
		} else {
			add(Edge, row(Edge).Per/2, shift(half), "measured to its near edge, not its centre")
			add(Edge, row(Edge).Per/2, shift(-half), "measured to its far edge, not its centre")
		}
	}
	switch {
	case c.offWall() && c.Wall != "":
		if c.Mirror != 0 {
			far = c.Mirror + now
		}
		if far > 0 {
			add(Mirror, row(Mirror).Per, far-now, fmt.Sprintf("off %s, not %s", c.Wall.Opposite(), c.Wall))
		}
		if c.Face == place.BoardFace {
			add(Face, row(Face).Per, shift(-c.Board), fmt.Sprintf("off the studs of %s, not its board", c.Wall))
		} else {
			add(Face, row(Face).Per, shift(c.Board), fmt.Sprintf("off the board of %s, not its studs", c.Wall))
		}
	case c.How == place.UpFrom && c.Face == place.FinishedFloor:
		add(Face, row(Face).Per, shift(-c.Board), "off the subfloor, not the finished floor")
	case c.How == place.UpFrom && c.Board != 0:
		add(Face, row(Face).Per, shift(c.Board), "off the finished floor, not the subfloor")
	case c.How == place.DownTo && c.Face == place.BoardFace:
		add(Face, row(Face).Per, shift(-c.Board), "off the framing of the ceiling, not its board")
	case c.How == place.DownTo && c.Board != 0:
		add(Face, row(Face).Per, shift(c.Board), "off the board of the ceiling, not its framing")
	case c.How == place.DirOf && c.said():
		add(OtherSide, row(OtherSide).Per, 2*c.From-now, "the other side of "+c.Of.String())
	}
	if c.Sup != "" && !c.offWall() {
		i, set := s.beside(c, axis)
		for _, j := range [2]int{i - 1, i + 1} {
			if i >= 0 && j >= 0 && j < len(set) {
				add(NextSupport, row(NextSupport).Per/2, now+set[j].Pos-set[i].Pos, fmt.Sprintf("off %s, not %s", set[j].Name(), set[i].Name()))
			}
		}
		if i >= 0 && c.said() && c.Edge {
			add(SupportEdge, row(SupportEdge).Per, shift(-set[i].Wide/2), "off the centre of "+set[i].Name()+", not its edge")
		} else if i >= 0 && c.said() {
			add(SupportEdge, row(SupportEdge).Per, shift(set[i].Wide/2), "off the near edge of "+set[i].Name()+", not its centre")
		}
	}
	return out
}

// beside returns the supports like the one of the coordinate, in order of position, and
// the index of that one, -1 if it is not among them.
func (s Scene) beside(c Coord, axis place.Axis) (i int, set []place.Support) {
	for _, o := range s.Supports {
		if o.Kind == c.Sup && o.Axis() == axis {
			set = append(set, o)
		}
	}
	slices.SortFunc(set, func(a, b place.Support) int { return int(min(max(a.Pos-b.Pos, -1), 1)) })
	return slices.IndexFunc(set, func(o place.Support) bool { return o.N == c.N }), set
}

// disproved reports whether a slip is a habit that this person does not have at this wall,
// since another thing of theirs was where they noted it.
func (s Scene) disproved(who string, w place.Wall, k Kind) bool {
	return row(k).Habit && w != "" && slices.ContainsFunc(s.Opened, func(o Opened) bool {
		return o.Who == who && slices.Contains(o.Walls, w)
	})
}

// lean corrects a place that was worked out from the noted one as if the walls were at
// right angles, for the lean of the walls that the distances are measured from.
func (n Note) lean(p place.Point) place.Point {
	a, b := n.X.Lean, n.Y.Lean
	if a == 0 && b == 0 {
		return p
	}
	at := n.Place()
	x, y := math.Hypot(1, a)*float64(p.X-at.X), math.Hypot(1, b)*float64(p.Y-at.Y)
	move := func(d float64) length.Length { return length.Length(math.Round(d / (1 - a*b))) }
	return place.Point{X: at.X + move(x+a*y), Y: at.Y + move(y+b*x)}
}

// ways lists every place that the note may have meant, the noted one first.
func (s Scene) ways(n Note) []Way {
	at := n.Place()
	xs, ys := s.others(n, place.X), s.others(n, place.Y)
	left := func(list []other) float64 {
		sum := 1.0
		for _, o := range list {
			sum -= o.weight
		}
		return sum
	}
	x0, y0 := left(xs), left(ys)
	var whole []Way
	if n.X.said() && n.Y.said() {
		p := n.lean(place.Point{X: n.X.at(n.Y.L, n.Size.Half(place.X)), Y: n.Y.at(n.X.L, n.Size.Half(place.Y))})
		whole = append(whole, Way{p, []Reason{{Swapped, "the two distances swapped"}}, row(Swapped).Per / 1000})
	}
	for _, t := range s.Twins {
		whole = append(whole, Way{t.At, []Reason{{WrongRoom, "mixed up with " + t.Room}}, row(WrongRoom).Per / 1000 / float64(len(s.Twins))})
	}
	none := 1.0
	for i := range whole {
		none -= whole[i].Share
		whole[i].Share *= x0 * y0
	}
	out := []Way{{at, []Reason{{Elsewhere, "the noted place: no hole was made there"}}, x0 * y0 * none}}
	for _, w := range whole {
		if w.At != at {
			out = append(out, w)
		}
	}
	for _, x := range xs {
		out = append(out, Way{n.lean(at.With(place.X, x.at)), []Reason{x.reason}, x.weight * y0 * none})
	}
	for _, y := range ys {
		out = append(out, Way{n.lean(at.With(place.Y, y.at)), []Reason{y.reason}, y.weight * x0 * none})
	}
	for _, x := range xs {
		for _, y := range ys {
			out = append(out, Way{n.lean(place.Point{X: x.at, Y: y.at}), []Reason{x.reason, y.reason}, x.weight * y.weight * none})
		}
	}
	return out
}
