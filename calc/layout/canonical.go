package layout

import (
	"cmp"
	"math"
	"slices"

	"strapline/calc/cutting"
	"strapline/calc/joints"
	"strapline/calc/length"
)

// Canonical returns the input without anything that no plan depends on: default rules filled in, boards of
// one size merged, unusable boards left out, and counts capped at what a plan could take. Equal canonical
// inputs have the same layout and the same alternatives. Plan and Alternatives use the canonical input.
func (in Input) Canonical() Input {
	in.Rules = in.Rules.filled()
	long := func(b Stock) bool { return in.Longest > 0 && b.Length > in.Longest }
	var stock []Stock
	for _, b := range in.Stock {
		i := slices.IndexFunc(stock, func(o Stock) bool {
			return o.Width == b.Width && o.Length == b.Length && o.Offcut == b.Offcut && (o.Count < 0) == (b.Count < 0)
		})
		switch {
		case !b.usable() || b.Count == cutting.Unlimited && long(b):
		case i < 0:
			stock = append(stock, b)
		case b.Count > 0:
			stock[i].Count += min(b.Count, math.MaxInt32) // far above any cap
		}
	}
	slices.SortFunc(stock, func(a, b Stock) int {
		return cmp.Or(cmp.Compare(a.Width, b.Width), cmp.Compare(a.Length, b.Length), cmp.Compare(a.Count, b.Count))
	})
	if in.Stock = stock; !slices.ContainsFunc(stock, long) {
		in.Longest = 0
	}
	if s, err := newSite(in); err == nil && slices.ContainsFunc(stock, func(b Stock) bool { return b.Count > 1 }) {
		s.cap(in.Stock)
	}
	return in
}

// usable reports whether a plan could take such boards, on hand or bought.
func (b Stock) usable() bool {
	if b.Width <= 0 || b.Length < length.Foot || b.Width > 10*length.Foot || b.Length > maxSide || b.Count < cutting.Unlimited {
		return false
	}
	return b.Offcut && b.Count > 0 || !b.Offcut && b.Width >= length.Foot
}

// cap reduces the counts in stock to the most that a plan could take.
//
// A plan has at most as many boards as pieces, and in each chain at most one piece more than there are
// places for butts. If a single size suffices for some plan, the best plan has no more butts than that
// one. So it has at most that many pieces, counting the chains of the division into rows that has the
// most. A layout with less board than the best takes less area than that many pieces, each from the
// largest board.
func (s *site) cap(stock []Stock) {
	plans := s.rowPlans()
	if plans == nil {
		return
	}
	most, chains := 0, 0
	places := len(s.posts)
	if s.in.Along {
		places = len(s.anywhere())
	}
	for _, rows := range plans {
		lanes, err := s.lanes(rows)
		if err != nil {
			return
		}
		n := 0
		for _, l := range lanes {
			n += len(l.chains)
		}
		most = max(most, n+places*len(lanes))
		chains = max(chains, n)
	}
	area := func(b Stock) float64 { return metres(b.Width) * metres(b.Length) }
	pieces, largest := math.Inf(1), 0.0
	if butts, ok := s.oneSize(plans[0]); ok {
		pieces = float64(butts + chains)
	}
	for _, b := range s.stock {
		largest = max(largest, area(b))
	}
	for i, b := range stock {
		n := float64(most)
		if !b.Offcut {
			n = min(n, math.Ceil(pieces*largest/area(b)))
		}
		stock[i].Count = min(b.Count, int(n))
	}
}

// oneSize returns the number of butts of a plan of these rows from boards of a single size, of which there
// is one for every piece. That plan keeps the strictest rules.
func (s *site) oneSize(rows []band) (butts int, ok bool) {
	hardest := s.rules.ways()[0]
	all, err := s.lanes(rows)
	if err != nil {
		return 0, false
	}
	if _, err := s.fillAll(all, hardest); err != nil {
		return 0, false
	}
	for _, b := range slices.Backward(s.stock[:s.there]) {
		if b.Offcut || b.Length > s.longest { // longer than what gets in: cut down outside first
			continue
		}
		in := s.in
		in.Stock = []Stock{{Width: b.Width, Length: b.Length, Count: cutting.Unlimited}}
		one, err := newSite(in)
		if err != nil {
			continue
		}
		lanes, err := one.lanes(rows)
		if err != nil {
			continue
		}
		sizes, err := one.fillAll(lanes, hardest)
		if err != nil || !slices.EqualFunc(lanes, all, (*lane).within) {
			continue
		}
		p := joints.Problem{Items: sizes, Stagger: hardest.stagger}
		pieces, fixed := 0, 0
		for _, l := range lanes {
			p.Lanes = append(p.Lanes, l.Lane)
			pieces += len(l.chains)
			fixed += len(l.Fixed)
		}
		if butts, ok := joints.First(p); ok && (b.Count < 0 || b.Count >= pieces+butts) {
			return fixed + butts, true
		}
	}
	return 0, false
}

// within reports whether o allows everything that l allows.
func (l *lane) within(o *lane) bool {
	return slices.EqualFunc(l.chains, o.chains, func(c, d *chain) bool {
		return (d.short || !c.short) && !slices.ContainsFunc(c.candidates, func(u length.Length) bool { return !slices.Contains(d.candidates, u) })
	})
}
