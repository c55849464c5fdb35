package joints

import (
	"cmp"
	"math"
	"slices"

	"strapline/calc/cutting"
	"strapline/calc/work"
)

// candidate is a choice of patterns found in the relaxation.
type candidate struct {
	path   []int32
	counts []int
	excess int
}

// best solves the relaxation and searches for a plan whose total meets the bound, then for higher totals
// until it finds one or has used the steps. If p is not nil, only better plans count. If p is nil, it
// stops once boards of More turn out to be unavoidable.
func (v *solver) best(p *Plan) *Plan {
	first := p == nil
	k := v.k
	buttCost := int64(k.ButtCost)
	v.relaxed = cutting.Relaxation{Price: make([]float64, len(v.Items))}
	var tried []candidate
	take := func(c candidate, d *verdict) {
		if d.err != nil {
			return
		}
		if total := buttCost*int64(c.excess) + d.cut.Cost; p == nil || total < p.total {
			p = &Plan{Ends: k.Ends(c.path), Stagger: k.StaggerOf(c.path), Boards: d.cut.Boards,
				counts: c.counts, excess: c.excess, cost: d.cut.Cost, total: total}
		}
	}
	seen := map[uint64]bool{}
	paths := map[*cutting.Wanted][]int32{}
	remember := func(path []int32) {
		counts, excess := v.demand(path)
		if h := hash(counts); !seen[h] {
			seen[h] = true
			tried = append(tried, candidate{path, counts, excess})
		}
	}
	// The most that the boards may cost in a plan better than p.
	under := func(excess int) int64 {
		if p == nil {
			return 0
		}
		return max(1, p.total-v.unit-buttCost*int64(excess))
	}
	// A first plan, at prices proportional to length, whatever the budget.
	byLength := make([]float64, len(v.Items))
	longest := slices.MaxFunc(v.stock, func(a, b cutting.Stock) int { return cmp.Compare(a.Length, b.Length) }).Length
	for i, z := range v.Items {
		byLength[i] = float64(z.Length) / float64(longest)
	}
	k.Reprice(byLength)
	path, _ := k.Cheapest(false)
	if path == nil {
		path = k.Greedy()
	}
	if path == nil {
		return p
	}
	remember(path)
	take(tried[0], v.judge(tried[0].counts, 0, v.Work.Steps/50))
	share := v.Work.Steps / 4 // the rest is for what follows the relaxation
	demand := cutting.Demand{
		Smooth: v.smooth,
		Cheapest: func(y []float64) *cutting.Wanted {
			if v.Work.Steps < share {
				return nil
			}
			k.Reprice(y)
			path, sum := k.Cheapest(true)
			if math.IsInf(sum, 1) {
				return &cutting.Wanted{Fee: sum}
			}
			counts, excess := v.demand(path)
			w := &cutting.Wanted{Count: counts, Fee: k.ButtCost * float64(excess)}
			stands := standsIn(k, path) // must precede repaired, which lists patterns and so renumbers the stand-in
			paths[w] = k.Repaired(path)
			if stands {
				if path, _ = k.Cheapest(false); path != nil {
					remember(path)
				}
				path = k.Greedy()
			}
			if path != nil {
				remember(path)
			}
			return w
		},
		Enough: func(bound float64) bool { return p != nil && v.up(bound) >= p.total || first && v.up(bound) >= v.lack },
		Look: func(w *cutting.Wanted) {
			excess := int(w.Fee / k.ButtCost)
			d := v.judge(w.Count, under(excess), v.Work.Steps/50)
			if i := slices.IndexFunc(tried, func(c candidate) bool { return c.excess == excess && slices.Equal(c.counts, w.Count) }); i >= 0 {
				take(tried[i], d)
			}
		},
	}
	var r cutting.Relaxation
	var err error
	v.Work.Part(v.Work.Steps-share, func(part *work.Budget) {
		r, err = cutting.Relax(cutting.Problem{Items: v.Items, Stock: v.stock, Work: part}, demand, 400)
	})
	if err != nil {
		return p
	}
	v.relaxed = r
	bound := v.up(r.Bound)
	worth := func(c candidate) float64 { return r.Worth(c.counts) + k.ButtCost*float64(c.excess) }
	slices.SortStableFunc(tried, func(a, b candidate) int { return cmp.Compare(worth(a), worth(b)) })
	for i, c := range tried {
		if p != nil && (p.total <= bound || i > 60 || v.up(worth(c)) >= p.total) {
			break
		}
		take(c, v.judge(c.counts, under(c.excess), v.Work.Steps/50))
	}
	if p == nil || v.up(r.Bound) < p.total {
		for _, path := range v.round(r, paths) {
			counts, excess := v.demand(path)
			if c := (candidate{path, counts, excess}); p == nil || v.up(worth(c)) < p.total {
				take(c, v.judge(counts, under(excess), v.Work.Steps/50))
			}
		}
	}
	if p == nil {
		return nil
	}
	p.bound = bound
	if first && bound >= v.lack {
		return p
	}
	proving := true
	for n := 0; n < 6 && bound < p.total && v.Work.Steps > 0; n++ {
		target := bound + int64(n)*v.unit
		if proving {
			target = bound
		}
		if target >= p.total {
			break
		}
		c, d, done := v.seek(target, 150, v.Work.Steps/4)
		if d != nil {
			take(c, d)
			break
		}
		if proving = proving && done; proving {
			bound = target + v.unit
		}
	}
	for bound < p.total && v.Work.Steps > 0 { // the bound cannot be met: look for anything better than p
		c, d, done := v.seek(p.total-v.unit, 100, v.Work.Steps/4)
		if d != nil {
			take(c, d)
			continue
		}
		if done {
			bound = p.total
		}
		break
	}
	p.bound = bound
	return p
}

// up rounds b up to a total that whole boards can have.
func (v *solver) up(b float64) int64 {
	return int64(math.Ceil(max(b, 0)/float64(v.unit)-1e-6)) * v.unit
}

// hash hashes a multiset, independent of order.
func hash(counts []int) (h uint64) {
	for i, n := range counts {
		h += uint64(n) * mix(uint64(i))
	}
	return h
}

// mix is the finaliser of splitmix64 (Steele, Lea and Flood, 2014).
func mix(x uint64) uint64 {
	x = (x + 1) * 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// seeker is a depth-first search over the lanes, cheapest patterns first, through all patterns whose bound
// allows the target.
type seeker struct {
	*solver
	target int64
	limit  float64 // of the sum of the patterns' prices
	rest   [][]float64
	order  [][]int32
	seen   map[[2]uint64]bool
	leaves int
	until  int64
	path   []int32
	counts []int
	excess int
	open   bool // something was skipped, so finding nothing proves nothing
}

// seek searches for a plan with a total of at most target. done reports whether the search was complete.
func (v *solver) seek(target int64, leaves int, steps int64) (candidate, *verdict, bool) {
	k := v.k
	k.Reprice(v.relaxed.Price)
	s := &seeker{solver: v, target: target, limit: float64(target) - v.relaxed.Worth(nil) + 1e-6, leaves: leaves, until: v.Work.Steps - steps,
		seen: map[[2]uint64]bool{}, counts: make([]int, len(v.Items))}
	s.rest = k.Rest(s.limit, false)
	all := k.Rest(s.limit, true)
	k.Under(s.limit, true)
	for i, l := range k.Lanes {
		if n := len(l.Kind.Pats); k.Best[i][n]+all[i][n] <= s.limit {
			s.open = true // a stand-in could meet the target
		}
		var ok []int32
		for p, c := range l.Kind.Cost {
			if k.Best[i][p]+s.rest[i][p] <= s.limit && c < math.Inf(1) {
				ok = append(ok, int32(p))
			}
		}
		v.Work.Spend(int64(10 * len(l.Kind.Pats)))
		slices.SortFunc(ok, func(a, b int32) int {
			return cmp.Or(cmp.Compare(l.Kind.Cost[a]+s.rest[i][a], l.Kind.Cost[b]+s.rest[i][b]), int(a-b))
		})
		s.order = append(s.order, ok)
	}
	if d := s.down(0, 0, 0); d != nil {
		return candidate{s.path, slices.Clone(s.counts), s.excess}, d, true
	}
	return candidate{}, nil, !s.open
}

// down chooses the pattern of lane i. sum is the price of the lanes before it, h the hash of their pieces.
func (s *seeker) down(i int, sum float64, h uint64) *verdict {
	if i == len(s.k.Lanes) {
		if s.leaves--; s.leaves < 0 || s.Work.Steps < s.until {
			s.open = true
			return nil
		}
		most := s.target - int64(s.k.ButtCost)*int64(s.excess)
		if most <= 0 {
			return nil
		}
		d := s.judge(s.counts, most, s.Work.Steps/100)
		if total := int64(s.k.ButtCost)*int64(s.excess) + d.cut.Cost; d.err == nil && total <= s.target {
			return d
		}
		s.open = s.open || d.err != nil || d.cut.Bound <= most
		return nil
	}
	kd := s.k.Lanes[i].Kind
	for _, q := range s.order[i] {
		s.Work.Spend(10)
		at := sum + kd.Cost[q]
		if at+s.rest[i][q] > s.limit || s.leaves < 0 || s.Work.Steps < s.until {
			s.open = s.open || s.Work.Steps < s.until
			break
		}
		pat := &kd.Pats[q]
		if i > 0 && s.k.Lanes[i-1].Kind.Pats[s.path[i-1]].Mask.Meets(&pat.Excludes) {
			continue
		}
		g := h
		for _, it := range pat.Items {
			g += mix(uint64(it))
		}
		key := [2]uint64{g, uint64(i)<<32 | uint64(q)}
		if s.seen[key] {
			continue
		}
		if len(s.seen) < 1<<16 {
			s.seen[key] = true
		}
		for _, it := range pat.Items {
			s.counts[it]++
		}
		s.excess += len(pat.Ends) - kd.Base
		s.path = append(s.path[:i], q)
		if d := s.down(i+1, at, g); d != nil {
			return d
		}
		s.excess -= len(pat.Ends) - kd.Base
		for _, it := range pat.Items {
			s.counts[it]--
		}
		s.Work.Spend(100)
	}
	return nil
}

// widen searches for plans as good as p with a greater stagger.
func (v *solver) widen(p *Plan) {
	for range 8 {
		if p.Stagger < 0 || v.Work.Steps < 0 {
			break
		}
		wider := p.Stagger
		for _, a := range v.k.Pos {
			for _, b := range v.k.Pos {
				if d := b - a; d > p.Stagger && (wider == p.Stagger || d < wider) {
					wider = d
				}
			}
		}
		if wider == p.Stagger {
			break
		}
		v.k.Keep(wider)
		c, d, _ := v.seek(p.total, 20, v.Work.Steps/16)
		if d == nil {
			break
		}
		st := v.k.StaggerOf(c.path)
		if st >= 0 && st <= p.Stagger {
			break // a fixed butt sets the stagger
		}
		p.Ends, p.Boards, p.counts, p.excess, p.cost, p.total = v.k.Ends(c.path), d.cut.Boards, c.counts, c.excess, d.cut.Cost, int64(v.k.ButtCost)*int64(c.excess)+d.cut.Cost
		p.Stagger = st
	}
}

// fewerLengths drops stock lengths that are not needed to cut the same pieces at the same cost.
func (v *solver) fewerLengths(p *Plan) {
	for v.Work.Steps > 0 {
		used := map[int]int{}
		for _, b := range p.Boards {
			used[b.Stock]++
		}
		if len(used) < 2 {
			return
		}
		dropped := false
		for s := range v.stock {
			if used[s] == 0 {
				continue
			}
			w := *v
			w.known = map[string]*verdict{}
			w.stock = slices.Clone(v.stock)
			for i := range w.stock {
				if used[i] == 0 || i == s {
					w.stock[i].Count = 0
				}
			}
			d := w.judge(p.counts, p.cost, v.Work.Steps/50)
			if d.err == nil && d.cut.Cost == p.cost {
				p.Boards, dropped = d.cut.Boards, true
				break
			}
		}
		if !dropped {
			return
		}
	}
}
