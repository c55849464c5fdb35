package slip

import (
	"cmp"
	"slices"

	"strapline/calc/place"
)

// spot is a place where the thing may be, with all ways to it.
type spot struct {
	at     place.Point
	ways   []Way
	share  float64
	tier   int
	holes  []int // indices of the holes that test it
	tested bool  // by a probe already listed
}

// hole is a place to drill and the spots it tests.
type hole struct {
	at     place.Point
	spot   int     // the spot it is made for
	tests  []int   // indices of spots
	weight float64 // of the spots it tests that no listed probe does
	left   int     // the number of those
}

// tier is 0 for the noted place, 1 for a neighbouring support, 2 for the rest.
func (w Way) tier() int {
	switch {
	case w.Reasons[0].Kind == Elsewhere:
		return 0
	case len(w.Reasons) == 1 && w.Reasons[0].Kind == NextSupport:
		return 1
	}
	return 2
}

// preferSpot is the fraction of the greatest weight at which a hole at the likeliest
// spot is preferred. A hole between two spots may test slightly more, but the crew is
// told why to drill there, and "off south, not north" is one place.
const preferSpot = 0.9

// order lists the probes greedily: each tests nearly the most weight that is not tested
// yet. Ties go to the hole closest to the noted place.
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
			if spots[t].tested {
				continue
			}
			spots[t].tested = true
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

// spotsOf groups the ways by place, the likeliest first. sum is the total weight.
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

// between is the number of likeliest spots for which holes halfway between any two are
// considered.
const between = 24

// holes returns the places to drill: one for each spot where that is safe, and those
// halfway between two of the likeliest spots that test both. The spots are in order of
// likelihood.
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

// next is the index of the next hole to make, -1 if none tests a new spot.
func (r rules) next(spots []spot, holes []hole) int {
	tier := func(h hole) int {
		first := 2
		for _, t := range h.tests {
			if !spots[t].tested {
				first = min(first, spots[t].tier)
			}
		}
		return first
	}
	own := func(h hole) float64 {
		if spots[h.spot].tested {
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
		if h.left == 0 || tier(h) != tier(holes[top]) || h.weight < preferSpot*holes[top].weight {
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
