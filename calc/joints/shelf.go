package joints

import (
	"math"
	mathbits "math/bits"
	"slices"
)

// shelf is patterns of a lane in order of cost, with the places in that order of those that have a butt at a position.
type shelf struct {
	by      []priced
	has     [][]uint64
	blocked [][]uint64 // position of a neighbour's butt -> places of those that it does not go with; nil = not asked yet
	clash   [][]uint64 // see first
	words   []uint64   // what the sets of places are cut from
}

type priced struct {
	cost float64
	pat  int32
}

func cheaper(a, b priced) int {
	switch {
	case a.cost < b.cost:
		return -1
	case a.cost > b.cost:
		return 1
	}
	return int(a.pat - b.pat)
}

// shelves hold as many of the cheapest patterns; most neighbours find theirs on the first, which is a word of places.
var shelves = [3]int{64, 1024, math.MaxInt}

// take puts the cheapest patterns that can be reached on the shelf, as many as most, and says how many can be.
func (s *shelf) take(nb *kind, cost []float64, most, positions int) (reached int) {
	s.by = s.by[:0]
	dear := math.Inf(1)
	for p, c := range cost {
		if math.IsInf(c, 1) {
			continue
		}
		if reached++; c >= dear {
			continue
		}
		if s.by = append(s.by, priced{c, int32(p)}); len(s.by)/2 >= most {
			slices.SortFunc(s.by, cheaper)
			s.by = s.by[:most]
			dear = s.by[most-1].cost
		}
	}
	slices.SortFunc(s.by, cheaper)
	s.by = s.by[:min(len(s.by), most)]
	s.sort(nb, positions)
	return reached
}

// sort finds the places of those with a butt at each position.
func (s *shelf) sort(nb *kind, positions int) {
	s.words = s.words[:0]
	s.has, s.blocked = slices.Grow(s.has[:0], positions)[:positions], slices.Grow(s.blocked[:0], positions)[:positions]
	clear(s.has)
	clear(s.blocked)
	for n, b := range s.by {
		if int(b.pat) == len(nb.pats) {
			continue // the stand-in clashes with nothing
		}
		for w, x := range nb.pats[b.pat].mask {
			for ; x != 0; x &= x - 1 {
				i := 64*w + mathbits.TrailingZeros64(x)
				if s.has[i] == nil {
					s.has[i] = s.set()
				}
				s.has[i][n/64] |= 1 << (n % 64)
			}
		}
	}
}

// first is the cheapest pattern that goes with the butts of p, -1 when there is none; words is the work done.
func (s *shelf) first(p *pattern, near []bits) (found priced, words int64) {
	s.clash = s.clash[:0]
	for w, x := range p.mask {
		for ; x != 0; x &= x - 1 {
			i := 64*w + mathbits.TrailingZeros64(x)
			if s.blocked[i] == nil {
				s.blocked[i] = s.union(&near[i])
				words += int64(2 * len(s.blocked[i]))
			}
			s.clash = append(s.clash, s.blocked[i])
		}
	}
	for n := 0; n*64 < len(s.by); n++ {
		var taken uint64
		for _, c := range s.clash {
			taken |= c[n]
		}
		words += int64(1 + len(s.clash))
		if taken != math.MaxUint64 {
			if i := n*64 + mathbits.TrailingZeros64(^taken); i < len(s.by) {
				return s.by[i], words
			}
		}
	}
	return priced{math.Inf(1), -1}, words
}

// set is an empty set of places.
func (s *shelf) set() []uint64 {
	n := (len(s.by) + 63) / 64
	if cap(s.words)-len(s.words) < n {
		s.words = make([]uint64, 0, max(2*cap(s.words), 64*n)) // sets cut from the old stay as they are
	}
	at := len(s.words)
	s.words = s.words[:at+n]
	clear(s.words[at:])
	return s.words[at : at+n : at+n]
}

// union are the places of the patterns with a butt on any of the positions.
func (s *shelf) union(of *bits) []uint64 {
	all := s.set()
	for w, x := range of {
		for ; x != 0; x &= x - 1 {
			for n, h := range s.has[64*w+mathbits.TrailingZeros64(x)] {
				all[n] |= h
			}
		}
	}
	return all
}
