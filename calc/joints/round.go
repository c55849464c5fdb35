package joints

import (
	"cmp"
	"math"
	"slices"

	"strapline/calc/cutting"
	"strapline/calc/lanes"
)

// The limits of the beam search in round.
const (
	beamWidth = 40 // partial paths kept
	beamEnds  = 16 // paths returned
)

// beam is a path through the first lanes.
type beam struct {
	path   []int32
	counts []float64 // of its pieces, minus those of the mix so far
	off    float64   // distance from the mix, weighted by price
}

// round searches for paths whose pieces are as close as possible to those of the fractional plan. Lane by
// lane it takes patterns of the mix, and patterns fitted to the pieces still missing, that are compatible
// with the previous lane.
func (v *solver) round(r cutting.Relaxation, paths map[*cutting.Wanted][]int32) [][]int32 {
	k := v.k
	k.Reprice(r.Price)
	pats := map[*lanes.Kind][]int32{} // of the mix
	for i, l := range k.Lanes {
		for _, c := range r.Mix {
			if path := paths[c.Wanted]; path != nil && !slices.Contains(pats[l.Kind], path[i]) {
				pats[l.Kind] = append(pats[l.Kind], path[i])
			}
		}
	}
	y := make([]float64, len(v.Items))
	beams := []beam{{counts: make([]float64, len(v.Items))}}
	for i, l := range k.Lanes {
		var next []beam
		for _, c := range r.Mix {
			path := paths[c.Wanted]
			if path == nil {
				continue
			}
			for _, it := range l.Kind.Pats[path[i]].Items {
				for _, b := range beams {
					b.counts[it] -= c.Weight
				}
			}
		}
		for _, b := range beams {
			off := 0.0
			for j, n := range b.counts {
				off += r.Price[j] * math.Abs(n)
			}
			var ban lanes.Bits
			if i > 0 {
				ban = k.Lanes[i-1].Kind.Pats[b.path[i-1]].Excludes
			}
			offer := func(p int32) {
				pat := &l.Kind.Pats[p]
				if pat.Mask.Meets(&ban) {
					return
				}
				at := off
				for _, it := range pat.Items {
					b.counts[it]++
					at += r.Price[it] * (math.Abs(b.counts[it]) - math.Abs(b.counts[it]-1))
				}
				for _, it := range pat.Items {
					b.counts[it]--
				}
				next = append(next, beam{append(b.path[:i:i], p), b.counts, at})
			}
			for _, p := range pats[l.Kind] {
				offer(p)
			}
			for _, most := range []float64{0.5, 3, 100} {
				for j, n := range b.counts {
					y[j] = r.Price[j] * min(max(n+0.5, -most), most)
				}
				if p := k.Fit(i, y, 0, &ban); p >= 0 && !slices.Contains(pats[l.Kind], p) {
					offer(p)
				}
			}
			v.Work.Spend(int64(4*len(b.counts) + 40*len(pats[l.Kind])))
		}
		slices.SortStableFunc(next, func(a, b beam) int { return cmp.Compare(a.off, b.off) })
		beams = beams[:0]
		for _, b := range next {
			if len(beams) == beamWidth {
				break
			}
			b.counts = slices.Clone(b.counts)
			for _, it := range l.Kind.Pats[b.path[i]].Items {
				b.counts[it]++
			}
			beams = append(beams, b)
		}
	}
	var out [][]int32
	seen := map[uint64]bool{}
	for _, b := range beams {
		counts, _ := v.demand(b.path)
		if h := hash(counts); !seen[h] && len(out) < beamEnds {
			seen[h] = true
			out = append(out, b.path)
		}
	}
	return out
}
