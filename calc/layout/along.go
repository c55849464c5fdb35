package layout

import (
	"cmp"
	"slices"

	"strapline/calc/length"
)

// rowsOnPosts returns the rows for boards that lie along the supports: every long joint is on a support
// that runs the full length, as far from the last joint as the widest board reaches. It returns nil if
// there is no such division.
func (s *site) rowsOnPosts() []band {
	widest := s.widths[len(s.widths)-1]
	end := s.cross
	var lines []length.Length
	at := length.Length(0)
	for end-at > widest+s.rules.Rip && len(lines) < maxRows {
		best := length.Length(-1)
		for _, p := range s.posts {
			if p.at > at && p.at-at <= widest && p.carries(span{0, s.length}) {
				best = p.at
			}
		}
		if best < 0 {
			return nil
		}
		lines = append(lines, best)
		at = best
	}
	if end-at > widest+s.rules.Rip {
		return nil
	}
	// A sliver at the end: move the last joint back to an earlier support.
	if n := len(lines); n > 0 && end-at < s.rules.Sliver {
		from := length.Length(0)
		if n > 1 {
			from = lines[n-2]
		}
		for _, p := range slices.Backward(s.posts) {
			if p.at < at && p.at-from >= s.rules.Sliver && end-p.at >= s.rules.Sliver && end-p.at <= widest && p.carries(span{0, s.length}) {
				lines[n-1] = p.at
				break
			}
		}
	}
	var rows []band
	at = 0
	for _, u := range append(lines, end) {
		rows = append(rows, band{v: span{at, u}, board: s.boardFor(u - at)})
		at = u
	}
	rows[0].first = true
	rows[len(rows)-1].last = true
	return rows
}

// missing returns the first stretch across the rows in which no support can carry a long joint.
func (s *site) missing() *Problem {
	widest := s.widths[len(s.widths)-1]
	at := length.Length(0)
	for row := 1; ; row++ {
		best := at
		for _, p := range s.posts {
			if p.at > at && p.at-at <= widest && p.carries(span{0, s.length}) {
				best = p.at
			}
		}
		if best == at {
			return &Problem{Kind: NoLongEdge, Row: row, From: at, To: min(at+widest, s.cross), Longest: widest}
		}
		at = best
	}
}

// anywhere returns the places tried for butts of boards that lie along the supports. Such a butt crosses
// every support under the board, so it may be anywhere; only steps of a foot from either end are tried, or
// of a sixtieth of the length if that is more.
func (s *site) anywhere() []length.Length {
	step := max(length.Foot, s.length/60)
	var out []length.Length
	for u := s.rules.Clear + step; u < s.length; u += step {
		out = append(out, u)
		if back := s.length - u; back > 0 {
			out = append(out, back)
		}
	}
	slices.SortFunc(out, func(a, b length.Length) int { return cmp.Compare(a, b) })
	return slices.Compact(out)
}
