package lanes

import (
	"math"
	mathbits "math/bits"
	"slices"
)

// shelf holds patterns of a lane by ascending cost. Sets of them are bit sets over their ranks in by.
type shelf struct {
	ranked  []priced
	has     [][]uint64
	blocked [][]uint64 // by position of a neighbour's butt, the ranks that clash with it; nil if not computed yet
	clash   [][]uint64 // see first
	words   []uint64   // storage for the sets
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

// Shelves are the sizes of the three shelves. Most patterns find a compatible neighbour on the first,
// whose sets are one word.
var Shelves = [3]int{64, 1024, math.MaxInt}

// take puts the cheapest reachable patterns on the shelf, at most most of them, and returns how many are
// reachable.
func (s *shelf) take(nb *Kind, cost []float64, most, positions int) (reached int) {
	s.ranked = s.ranked[:0]
	dear := math.Inf(1)
	for p, c := range cost {
		if math.IsInf(c, 1) {
			continue
		}
		if reached++; c >= dear {
			continue
		}
		if s.ranked = append(s.ranked, priced{c, int32(p)}); len(s.ranked)/2 >= most {
			slices.SortFunc(s.ranked, cheaper)
			s.ranked = s.ranked[:most]
			dear = s.ranked[most-1].cost
		}
	}
	slices.SortFunc(s.ranked, cheaper)
	s.ranked = s.ranked[:min(len(s.ranked), most)]
	s.sort(nb, positions)
	return reached
}

// sort fills has: by position, the ranks of the patterns with a butt there.
func (s *shelf) sort(nb *Kind, positions int) {
	s.words = s.words[:0]
	s.has, s.blocked = slices.Grow(s.has[:0], positions)[:positions], slices.Grow(s.blocked[:0], positions)[:positions]
	clear(s.has)
	clear(s.blocked)
	for n, b := range s.ranked {
		if int(b.pat) == len(nb.Pats) {
			continue // the stand-in clashes with nothing
		}
		for w, x := range nb.Pats[b.pat].Mask {
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

// first returns the cheapest pattern compatible with the butts of p, or -1 if there is none. words is the
// work done.
func (s *shelf) first(p *pattern, tooClose []Bits) (found priced, words int64) {
	s.clash = s.clash[:0]
	for w, x := range p.Mask {
		for ; x != 0; x &= x - 1 {
			i := 64*w + mathbits.TrailingZeros64(x)
			if s.blocked[i] == nil {
				s.blocked[i] = s.union(&tooClose[i])
				words += int64(2 * len(s.blocked[i]))
			}
			s.clash = append(s.clash, s.blocked[i])
		}
	}
	for n := 0; n*64 < len(s.ranked); n++ {
		var taken uint64
		for _, c := range s.clash {
			taken |= c[n]
		}
		words += int64(1 + len(s.clash))
		if taken != math.MaxUint64 {
			if i := n*64 + mathbits.TrailingZeros64(^taken); i < len(s.ranked) {
				return s.ranked[i], words
			}
		}
	}
	return priced{math.Inf(1), -1}, words
}

// set returns an empty set of ranks.
func (s *shelf) set() []uint64 {
	n := (len(s.ranked) + 63) / 64
	if cap(s.words)-len(s.words) < n {
		s.words = make([]uint64, 0, max(2*cap(s.words), 64*n)) // sets cut from the old block stay valid
	}
	at := len(s.words)
	s.words = s.words[:at+n]
	clear(s.words[at:])
	return s.words[at : at+n : at+n]
}

// union returns the ranks of the patterns with a butt at any of the positions.
func (s *shelf) union(of *Bits) []uint64 {
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
