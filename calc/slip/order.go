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
	first int  // tier: the noted place, then the next supports, then the rest
	found bool // a hole tests it already
}

func (s *spot) add(w Way) {
	s.ways = append(s.ways, w)
	s.share += w.Share
	s.first = min(s.first, w.tier())
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

// order is greedy: the hole that tests the most weight that no hole before it
// does. Equal ones come by how near they are to the noted place.
func order(r rules, ways []Way) []Probe {
	at := map[place.Point]int{}
	var spots []spot
	var sum float64
	for _, w := range ways {
		i, ok := at[w.At]
		if !ok {
			i = len(spots)
			at[w.At] = i
			spots = append(spots, spot{at: w.At, first: 2})
		}
		spots[i].add(w)
		sum += w.Share
	}
	type hole struct {
		at     place.Point
		tests  []int // spots
		weight float64
		first  int
	}
	holes := make([]hole, 0, len(spots))
	testedBy := make([][]int, len(spots)) // holes
	for _, s := range spots {
		p, ok := r.hole(s.at)
		if !ok {
			continue
		}
		h := hole{at: p, first: s.first}
		for j, t := range spots {
			if t.at == s.at || r.has(t.at, p, tape) {
				h.tests = append(h.tests, j)
				h.weight += t.share
				testedBy[j] = append(testedBy[j], len(holes))
			}
		}
		holes = append(holes, h)
	}
	far := func(h hole) float64 {
		dx, dy := float64(h.at.X-r.noted.X), float64(h.at.Y-r.noted.Y)
		return dx*dx + dy*dy
	}
	best := func(a, b hole) int {
		return cmp.Or(cmp.Compare(a.first, b.first), cmp.Compare(b.weight, a.weight), cmp.Compare(far(a), far(b)),
			cmp.Compare(a.at.X, b.at.X), cmp.Compare(a.at.Y, b.at.Y))
	}
	var out []Probe
	for {
		i := -1
		for j, h := range holes {
			if open := slices.ContainsFunc(h.tests, func(t int) bool { return !spots[t].found }); open && (i < 0 || best(h, holes[i]) < 0) {
				i = j
			}
		}
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
			for _, h := range testedBy[t] {
				holes[h].weight -= spots[t].share
			}
		}
		slices.SortStableFunc(p.Ways, func(a, b Way) int {
			return cmp.Or(cmp.Compare(a.tier()/2, b.tier()/2), cmp.Compare(b.Share, a.Share))
		})
		out = append(out, p)
	}
}
