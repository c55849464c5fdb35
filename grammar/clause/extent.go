package clause

import (
	"slices"
	"strings"
)

// edge is where an extent begins: so far up, so far off a wall, or as only its end says.
type edge struct {
	far, wall string
	up, off   bool
}

// fromHere is the "to" at i behind where an extent begins: "30 up to 72 up", "20 off north to 80".
func (f *frame) fromHere(i int) bool {
	c := f.cur
	switch is := f.At(f.Prev(i)).Is; {
	case (is == up || is == floor) && len(c.Ups) > 0:
		last := len(c.Ups) - 1
		far, ok := strings.CutSuffix(c.Ups[last], " up")
		c.Ups = c.Ups[:last]
		return ok && f.reaches(edge{far: far, up: true})
	case (is == wall || is == corner || is == end || is == wallish || is == off) && len(c.Dists) > 0:
		d := c.Dists[len(c.Dists)-1]
		c.Dists = slices.Clip(c.Dists[:len(c.Dists)-1])
		return f.reaches(edge{d.Far, d.Wall, false, true})
	}
	return false
}

// reaches begins or ends an extent.
func (f *frame) reaches(e edge) bool {
	from, to := f.from, &f.cur.Band
	switch {
	case from.far == "":
		f.from = e
		return true
	case from.up && e.off, from.off && e.up, from.wall != "" && e.wall != "" && from.wall != e.wall:
		return false
	case from.off || e.off:
		to = &f.cur.Span
	case !from.up && !e.up:
		return false
	}
	f.from = edge{}
	f.mixed = f.mixed || *to != Reach{}
	*to = Reach{from.far, e.far, from.wall + e.wall[min(len(e.wall), len(from.wall)):]}
	return true
}
