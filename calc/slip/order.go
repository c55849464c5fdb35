package slip

import (
	"cmp"
	"slices"

	"strapline/calc/place"
)

// spot is a place the thing may be at, with all ways to it.
type spot struct {
	at    place.Point
	ways  []Way
	share float64
	tier  int
	holes []int // that test it
	found bool  // a probe tests it already
}

// hole is a place to drill and what it tests.
type hole struct {
	at     place.Point
	spot   int // the one it is made for
	tests  []int
	weight float64 // of what it tests and no probe does yet
	left   int     // how many those are
}

// tier of a way: 0 for the noted place, 1 for the support beside, 2 for the rest.
func (w Way) tier() int {
	switch {
	case w.Reasons[0].Kind == Elsewhere:
		return 0
	case len(w.Reasons) == 1 && w.Reasons[0].Kind == NextSupport:
		return 1
	}
	return 2
}

// plain is the part of the greatest weight for which a hole at the likelier place
// is taken instead of one beside it that tests a little more: the crew is told why it
// drills there, and "off south, not north" has one place.
const plain = 0.9

// order is greedy: the hole that tests the most weight that no hole before it
// does, or nearly. Equal ones come by how near they are to the noted place.
func order(r rules, ways []Way) []Probe {
	spots, sum := spotsOf(ways)
	holes := r.holes(spots)
	var out []Probe
	for {
		i := r.next(spots, holes)
		if i < 0 {
			return out
		}
		p := Probe{At: holes[i].at}
		for _, t := range holes[i].tests {
			if spots[t].found {
				continue
			}
			spots[t].found = true
			for _, w := range spots[t].ways {
				w.Share /= sum
				p.Ways = append(p.Ways, w)
				p.Share += w.Share
			}
			for _, h := range spots[t].holes {
				holes[h].weight -= spots[t].share
				holes[h].left--
			}
		}
		slices.SortStableFunc(p.Ways, func(a, b Way) int { return cmp.Compare(b.Share, a.Share) })
		out = append(out, p)
	}
}

// spotsOf gathers the ways by place, the likeliest first; sum is their whole weight.
func spotsOf(ways []Way) (spots []spot, sum float64) {
	at := map[place.Point]int{}
	for _, w := range ways {
		i, ok := at[w.At]
		if !ok {
			i = len(spots)
			at[w.At] = i
			spots = append(spots, spot{at: w.At, tier: w.tier()})
		}
		s := &spots[i]
		s.ways = append(s.ways, w)
		s.share += w.Share
		s.tier = min(s.tier, w.tier())
		sum += w.Share
	}
	slices.SortStableFunc(spots, func(a, b spot) int { return cmp.Compare(b.share, a.share) })
	return spots, sum
}

// between is how many of the likeliest places get holes half-way between each two.
const between = 24

// holes are the places to drill: one for each spot that can be drilled for, and
// those half-way between two likely ones that test both. spots are the likeliest
// first.
func (r rules) holes(spots []spot) []hole {
	var holes []hole
	add := func(p place.Point, i int) {
		h := hole{at: p, spot: i}
		for j := range spots {
			if i == j || r.has(spots[j].at, p, tape) {
				h.tests = append(h.tests, j)
				h.weight += spots[j].share
				spots[j].holes = append(spots[j].holes, len(holes))
			}
		}
		h.left = len(h.tests)
		holes = append(holes, h)
	}
	for i, s := range spots {
		if p, ok := r.hole(s.at); ok {
			add(p, i)
		}
		for _, o := range spots[:min(i, between)] {
			p := place.Point{X: (s.at.X + o.at.X) / 2, Y: (s.at.Y + o.at.Y) / 2}
			if i < between && r.has(s.at, p, tape) && r.has(o.at, p, tape) && r.safe(p) {
				add(p, i)
			}
		}
	}
	return holes
}

// next is the hole to make now; -1 when none tests anything new.
func (r rules) next(spots []spot, holes []hole) int {
	tier := func(h hole) int {
		first := 2
		for _, t := range h.tests {
			if !spots[t].found {
				first = min(first, spots[t].tier)
			}
		}
		return first
	}
	own := func(h hole) float64 {
		if spots[h.spot].found {
			return 0
		}
		return spots[h.spot].share
	}
	far := func(h hole) float64 {
		dx, dy := float64(h.at.X-r.noted.X), float64(h.at.Y-r.noted.Y)
		return dx*dx + dy*dy
	}
	top := -1
	for i, h := range holes {
		if h.left > 0 && (top < 0 || cmp.Or(cmp.Compare(tier(h), tier(holes[top])), cmp.Compare(holes[top].weight, h.weight)) < 0) {
			top = i
		}
	}
	if top < 0 {
		return -1
	}
	best := top
	for i, h := range holes {
		if h.left == 0 || tier(h) != tier(holes[top]) || h.weight < plain*holes[top].weight {
			continue
		}
		b := holes[best]
		if cmp.Or(cmp.Compare(own(b), own(h)), cmp.Compare(b.weight, h.weight), cmp.Compare(far(h), far(b)),
			cmp.Compare(h.at.X, b.at.X), cmp.Compare(h.at.Y, b.at.Y)) < 0 {
			best = i
		}
	}
	return best
}
