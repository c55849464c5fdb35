package layout

import (
	"strapline/calc/fasten"
	"strapline/calc/length"
)

// framing adds notes where the supports as noted exceed the published spacing. With a board of thickness 0, not noted,
// nothing is checked, nor with one thicker than 1/2 in that no table lists.
func (s *site) framing() (notes []Note) {
	f := s.in.Framing
	nearest := (f.Board + length.Sixteenth/2) / length.Sixteenth
	listed := nearest == 6 || nearest == 8 || nearest == 10
	if f.Board == 0 || !listed && nearest >= 8 {
		return nil
	}
	f.Board, f.Across = nearest*length.Sixteenth, !s.in.Along
	widest := s.widestBay(nil)
	for _, limit := range fasten.Limits(f) {
		if limit.Bay == 0 || !listed {
			notes = append(notes, Note{About: Thin, At: s.in.Framing.Board, Rule: limit.Table})
			continue
		}
		s.limits = append(s.limits, Note{About: Spacing, Limit: limit.Bay, Rule: limit.Table})
		if widest > limit.Bay+length.Inch { // an inch of tolerance: measured supports are seldom exactly on layout
			notes = append(notes, Note{About: Spacing, At: widest, Limit: limit.Bay, Rule: limit.Table})
		}
	}
	return notes
}

// widestBay returns the widest distance between neighbouring supports. Given a lane, it skips supports
// that do not carry its row.
func (s *site) widestBay(l *lane) (widest length.Length) {
	last := length.Length(-1)
	for _, p := range s.posts {
		if l != nil {
			if v, ok := l.section(p.at); ok && !p.carries(v) {
				continue
			}
		}
		if last >= 0 {
			widest = max(widest, p.at-last)
		}
		last = p.at
	}
	return widest
}

// bays adds a note for each row where a support that stops short leaves a bay wider than the limits allow.
func (s *site) bays(lanes []*lane, out *Layout) {
	if s.in.Along {
		return
	}
	all := s.widestBay(nil)
	for i, l := range lanes {
		widest := s.widestBay(l)
		for _, limit := range s.limits {
			if widest > all && widest > limit.Limit+length.Inch {
				limit.Row, limit.At = i+1, widest
				out.Notes = append(out.Notes, limit)
			}
		}
	}
}
