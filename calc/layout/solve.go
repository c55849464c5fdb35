package layout

import (
	"cmp"
	"math"
	"slices"

	"strapline/calc/cutting"
	"strapline/calc/length"
)

// plan is a solved division into rows.
type plan struct {
	lanes   []*lane
	ends    [][]end // lane -> butts
	counts  []int   // of each size
	sizes   []size
	prob    cutting.Problem
	cut     cutting.Plan
	fixed   int // butts between hung pieces
	base    int // butts that every plan has, fixed ones not counted
	excess  int
	there   int   // stock from here on stands for boards that are not there
	total   int64 // dear x excess + boards
	bound   int64 // of total
	dear    int64
	stagger length.Length // between neighbours' butts, -1 = none to compare
	corners int           // long joints in line with a corner
}

func (p *plan) butts() int { return p.fixed + p.base + p.excess }

// better is the order of merit.
func (p *plan) better(o *plan) bool {
	return cmp.Or(
		cmp.Compare(p.shortage(), o.shortage()),
		p.corners-o.corners,
		p.butts()-o.butts(),
		cmp.Compare(p.cut.Cost, o.cut.Cost),
		-cmp.Compare(p.stagger, o.stagger),
		p.lengths()-o.lengths()) < 0
}

func (p *plan) shortage() (c int64) {
	for _, b := range p.cut.Boards {
		if b.Stock >= p.there {
			c += p.prob.Stock[b.Stock].Cost
		}
	}
	return c
}

func (p *plan) lengths() int {
	seen := map[int]bool{}
	for _, b := range p.cut.Boards {
		seen[b.Stock] = true
	}
	return len(seen)
}

// ways are the rules in the order they are given up when nothing keeps them all.
func (r Rules) ways() (ws []struct {
	stagger length.Length
	near    bool
}) {
	for _, w := range []struct {
		part length.Length
		near bool
	}{{1, false}, {1, true}, {2, true}, {4, true}, {16, true}, {0, true}} {
		s := length.Length(0)
		if w.part > 0 {
			s = r.Stagger / w.part
		}
		ws = append(ws, struct {
			stagger length.Length
			near    bool
		}{s, w.near})
	}
	return ws
}

// solve finds the best plan for a division into rows.
func (s *site) solve(rows []place, t trade) (*plan, error) {
	lanes, err := s.lanes(rows)
	if err != nil {
		return nil, err
	}
	for _, h := range s.in.Hung {
		if h.Row < 1 || h.Row > len(lanes) {
			return nil, &Problem{Kind: BadHung, Row: h.Row, From: h.From, To: h.To}
		}
	}
	for _, w := range s.rules.ways() {
		k, sizes, err := s.stack(lanes, w.stagger, w.near)
		if err != nil {
			return nil, err
		}
		k.keep(w.stagger)
		if !k.join() {
			continue
		}
		v := &solver{site: s, k: k, sizes: sizes, stagger: w.stagger, known: map[string]*verdict{}, trade: t}
		v.price()
		if t.butt > 0 {
			k.relist(2)
		}
		p := v.best()
		if p == nil {
			return nil, &Problem{Kind: TooComplex}
		}
		if p.shortage() > 0 { // more butts may do with what there is
			k.relist(2)
			k.keep(w.stagger)
			if q := v.best(); q != nil && q.better(p) {
				p = q
			}
		}
		v.widen(p)
		v.fewerLengths(p)
		for _, l := range lanes {
			p.fixed += len(l.fixed)
		}
		p.corners = s.inLine(rows)
		return p, nil
	}
	return nil, &Problem{Kind: TooComplex}
}

// stack fills the lanes' chains, each under the hardest rules it can be filled under.
func (s *site) stack(lanes []*lane, stagger length.Length, near bool) (*stack, []size, error) {
	items := map[size]int32{}
	k := &stack{lanes: lanes, steps: &s.left}
	for i, l := range lanes {
		for _, c := range l.chains {
			c.near, c.short = near, false
			s.places(l, c)
			ok := s.fill(l, c, s.rules.Short, items)
			if !ok && !near {
				c.near = true
				s.places(l, c)
				ok = s.fill(l, c, s.rules.Short, items)
			}
			if !ok {
				c.short = true
				ok = s.fill(l, c, 0, items)
			}
			if !ok {
				from, to := c.stuck(s.longest)
				return nil, nil, &Problem{Kind: TooFar, Row: i + 1, From: from, To: to, Longest: s.longest}
			}
			// A butt beside one that hangs in the next row has no choice but to keep off.
			c.avoid(s, lanes, i, stagger, items)
			k.pos = append(k.pos, c.candidates...)
		}
	}
	slices.Sort(k.pos)
	k.pos = slices.Compact(k.pos)
	if len(k.pos) > maxSupports {
		return nil, nil, &Problem{Kind: TooComplex}
	}
	byShape := map[string]*kind{}
	for _, l := range lanes {
		for _, c := range l.chains {
			c.at = make([]int, len(c.nodes))
			for n, u := range c.nodes {
				c.at[n] = -1
				if n > 0 && n < len(c.nodes)-1 {
					c.at[n], _ = slices.BinarySearch(k.pos, u)
				}
			}
		}
		sig := l.signature()
		if byShape[sig] == nil {
			byShape[sig] = &kind{chains: l.chains}
			k.kinds = append(k.kinds, byShape[sig])
		}
		l.kind = byShape[sig]
	}
	sizes := make([]size, len(items))
	for z, i := range items {
		sizes[i] = z
	}
	k.dear = 1
	k.relist(0)
	return k, sizes, nil
}

// avoid takes away candidates within stagger of a fixed butt in the lanes beside
// lane i, unless the chain cannot be filled without them.
func (c *chain) avoid(s *site, lanes []*lane, i int, stagger length.Length, items map[size]int32) {
	var fixed []length.Length
	if i > 0 {
		fixed = append(fixed, lanes[i-1].fixed...)
	}
	if i < len(lanes)-1 {
		fixed = append(fixed, lanes[i+1].fixed...)
	}
	keep := slices.DeleteFunc(slices.Clone(c.candidates), func(u length.Length) bool {
		return slices.ContainsFunc(fixed, func(f length.Length) bool { return abs(u-f) < stagger })
	})
	if len(keep) == len(c.candidates) {
		return
	}
	all, short := c.candidates, s.rules.Short
	if c.short {
		short = 0
	}
	c.candidates = keep
	if !s.fill(lanes[i], c, short, items) {
		c.candidates = all
		s.fill(lanes[i], c, short, items)
	}
}

// join lists as many patterns as it takes for neighbours to go together at the
// least butts, and reports whether they do.
func (k *stack) join() bool {
	zero := make([]float64, 1<<16)
	for excess := 0; ; excess++ {
		if excess > 0 {
			k.relist(excess)
		}
		k.reprice(zero)
		_, low := k.cheapest(true)
		_, sum := k.cheapest(false)
		if sum <= low || excess == 3 || *k.steps < 0 || slices.ContainsFunc(k.kinds, func(kd *kind) bool { return kd.wild <= excess }) {
			return !math.IsInf(sum, 1)
		}
	}
}
