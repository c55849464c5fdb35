package rows

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/slip"
)

// OnSeams says which things lie across the long edges of rows of boards that run along run, so that each
// is cut partly in both rows. edges are their positions across the rows, to the framing; where limits the
// part of the surface.
func OnSeams(c answer.Ctx, r *answer.Reply, s place.Surface, run place.Direction, edges []length.Length, where ...place.Rect) {
	across := s.Lie(run).Other()
	slices.Sort(edges)
	for _, e := range slices.Compact(edges) {
		var names []string
		for _, th := range c.Room.Things {
			v, en := th.Now()
			if en == nil || v.Surface != s || v.Framed { // the cut-outs for doors are in the cut list
				continue
			}
			v.Size.A = cmp.Or(v.Size.A, slip.Unsized)
			at, hx, hy := th.At(), v.Size.Half(place.X), v.Size.Half(place.Y)
			hole := place.Rect{X0: at.X - hx, X1: at.X + hx, Y0: at.Y - hy, Y1: at.Y + hy}
			lo, hi := hole.Span(across)
			if lo < e && e < hi && slices.ContainsFunc(where, func(q place.Rect) bool {
				return max(q.X0, hole.X0) < min(q.X1, hole.X1) && max(q.Y0, hole.Y0) < min(q.Y1, hole.Y1)
			}) {
				names = append(names, th.Name)
			}
		}
		if len(names) > 0 {
			r.Note("check", fmt.Sprintf("on the seam at %s, so cut in both rows: %s", strings.Split(c.Coords(s, place.Point{}.With(across, e)), ", ")[across], strings.Join(names, ", ")))
		}
	}
}
