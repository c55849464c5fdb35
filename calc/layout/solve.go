package layout

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"strapline/calc/cutting"
	"strapline/calc/joints"
	"strapline/calc/length"
	"strapline/calc/work"
)

// plan is a solved division into rows.
type plan struct {
	*joints.Plan
	lanes   []*lane
	sizes   []cutting.Item
	fixed   int // butts between or at hung pieces
	corners int // long joints in line with a corner
	worth   int64
}

func (p *plan) butts() int { return p.fixed + p.Butts }

// pieces returns the number of new pieces; most returns the greatest number that any plan in these rows
// can have.
func (p *plan) pieces() int { return p.Butts + p.chains() }

func (p *plan) most() (n int) {
	for _, l := range p.lanes {
		for _, c := range l.chains {
			n += len(c.candidates)
		}
	}
	return n + p.chains()
}

func (p *plan) chains() (n int) {
	for _, l := range p.lanes {
		n += len(l.chains)
	}
	return n
}

// better is the order of merit. Plans that need no more boards than there are come first.
func (p *plan) better(o *plan) bool {
	return cmp.Or(
		cmp.Compare(min(p.Missing, 1), min(o.Missing, 1)),
		p.corners-o.corners,
		cmp.Compare(p.Missing+p.worth*int64(p.butts()), o.Missing+o.worth*int64(o.butts())),
		cmp.Compare(p.Cost, o.Cost),
		-cmp.Compare(p.Stagger, o.Stagger),
		p.lengths()-o.lengths()) < 0
}

func (p *plan) lengths() int {
	seen := map[int]bool{}
	for _, b := range p.Boards {
		seen[b.Stock] = true
	}
	return len(seen)
}

// way is a set of rules to keep.
type way struct {
	stagger    length.Length
	byOpenings bool // butts near openings are allowed everywhere
}

// ways returns sets of rules, strictest first. The first that any plan can keep is used.
func (r Rules) ways() []way {
	return []way{{r.Stagger, false}, {r.Stagger, true}, {r.Stagger / 2, true}, {r.Stagger / 4, true}, {r.Stagger / 16, true}, {0, true}}
}

// buttWorth is the area of board worth buying to save one butt, if the boards on hand are not enough. Our
// own choice, no source: taping 4 ft of butt takes longer than fetching a 4 x 8.
const buttWorth = 32 * 0.09290304 // square metres

// solve returns the best plan for a division into rows. worth is the area of board to buy that saving one
// butt is worth, in square metres.
func (s *site) solve(rows []band, w joints.Weight, worth float64, b *work.Budget) (*plan, error) {
	lanes, err := s.lanes(rows)
	if err != nil {
		return nil, err
	}
	for _, h := range s.in.Hung {
		if h.Row < 1 || h.Row > len(lanes) {
			return nil, &Problem{Kind: BadHung, Row: h.Row, From: h.From, To: h.To}
		}
	}
	for _, way := range s.rules.ways() {
		sizes, err := s.fillAll(lanes, way)
		if err != nil {
			return nil, err
		}
		p := joints.Problem{Items: sizes, Stock: s.boards[:s.there], Stagger: way.stagger, Weight: w, Work: b}
		if w.Butt == 0 {
			p.More = s.boards[s.there:]
		}
		if p.Worth = joints.Any; !math.IsInf(worth, 1) {
			p.Worth = s.cost(worth, math.Ceil)
		}
		for _, l := range lanes {
			p.Lanes = append(p.Lanes, l.Lane)
		}
		got, err := joints.Solve(p)
		if errors.Is(err, joints.ErrApart) {
			continue
		}
		if err != nil {
			return nil, &Problem{Kind: TooComplex}
		}
		out := &plan{Plan: got, lanes: lanes, sizes: sizes, corners: s.inLine(rows), worth: max(p.Worth, 1)}
		for _, l := range lanes {
			out.fixed += len(l.Fixed)
		}
		return out, nil
	}
	return nil, &Problem{Kind: TooComplex}
}

// fillAll fills the chains of the lanes, each by the strictest rules that it can be filled by, and returns
// the sizes of all pieces.
func (s *site) fillAll(lanes []*lane, w way) ([]cutting.Item, error) {
	items := map[size]int32{}
	for i, l := range lanes {
		for _, c := range l.chains {
			c.byOpenings, c.short = w.byOpenings, false
			s.places(l, c)
			ok := s.fill(l, c, s.rules.Short, items)
			if !ok && !w.byOpenings {
				c.byOpenings = true
				s.places(l, c)
				ok = s.fill(l, c, s.rules.Short, items)
			}
			if !ok {
				c.short = true
				ok = s.fill(l, c, 0, items)
			}
			if !ok {
				from, to := c.stuck(s.longest)
				return nil, &Problem{Kind: TooFar, Row: i + 1, From: from, To: to, Longest: s.longest}
			}
			c.avoid(s, lanes, i, w.stagger, items)
		}
	}
	sizes := make([]cutting.Item, len(items))
	for z, i := range items {
		sizes[i] = cutting.Item{Length: z.length, Width: z.width}
	}
	return sizes, nil
}

// avoid removes candidates closer than stagger to a fixed butt in the lanes beside lane i, unless the
// chain cannot be filled without them.
func (c *chain) avoid(s *site, lanes []*lane, i int, stagger length.Length, items map[size]int32) {
	var fixed []length.Length
	if i > 0 {
		fixed = append(fixed, lanes[i-1].Fixed...)
	}
	if i < len(lanes)-1 {
		fixed = append(fixed, lanes[i+1].Fixed...)
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
