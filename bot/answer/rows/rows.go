// Package rows says which rows of boards a surface has, where each of them lies, and what of it is up.
package rows

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/frame"
	"strapline/calc/inforce"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/hanging"
)

// Row is the strip of a surface that one row of boards covers, to the framing.
type Row struct {
	Rect place.Rect
	Run  place.Direction
	Axis place.Axis // along the row
	Says string     // where its edges are, in words
}

// Of works out where row N lies: board widths from the present face of the wall that the rows start
// at.
func Of(c answer.Ctx, e hanging.Hung, s place.Surface) (Row, *answer.Reply) {
	run, known := c.Room.BoardsRun(s)
	if e.Run != "" {
		run, known = s.DirectionOf(s.Lie(e.Run)), true
	}
	if !known {
		var choices []grammar.Choice
		runs := []place.Direction{place.EW, place.NS}
		if e.Begun == place.East || e.Begun == place.West { // the first row is along the wall it was begun at
			slices.Reverse(runs)
		}
		for _, r := range runs {
			next := e
			next.Run = r
			choices = append(choices, c.As(say.Direction(r), next))
		}
		return Row{}, answer.Stop(answer.Ask("no straps are noted here: which way do the boards run?", "", choices...))
	}
	board, _ := c.State.BoardNow()
	r := Row{Run: run, Axis: s.Lie(run), Rect: c.Room.Shell().Clear(s)}
	p, stop := c.InForce(s)
	if stop != nil {
		return Row{}, stop
	}
	across := r.Axis.Other()
	from, end := r.Rect.Span(across)
	if p != nil && p.Run == run {
		if e.Row < 1 || e.Row > len(p.Rows) {
			return Row{}, answer.Stop(answer.No(fmt.Sprintf("the layout of %s has %d rows, there is no row %d", c.Where(s), len(p.Rows), e.Row), answer.LayoutOf(s, 0)))
		}
		pr := p.Rows[e.Row-1]
		return r.between(c, s, from+pr.From, from+pr.To), nil
	}
	if end <= 0 {
		return Row{}, answer.Stop(c.NoHeight())
	}
	if last := Count(c, c.Room, s, run); e.Row < 1 || e.Row > last {
		return Row{}, answer.Stop(answer.No(fmt.Sprintf("%s takes %d rows of %s, there is no row %d", c.Where(s), last, c.Len(board.Wide), e.Row), ""))
	}
	a, z := rowAt(c, c.Room, s, run, e.Row)
	if z = min(z, end-from); frame.Far(c.Room.RowsFrom(s, run)) {
		a, z = end-from-z, end-from-a
	}
	return r.between(c, s, from+a, from+z), nil
}

// rowAt returns the extent of row n of a surface without a layout, across from where the rows start. It is
// that of its hung pieces, else it follows from a hung row next to it, else from the boards and, in a room
// out of square, the control line of the first row.
func rowAt(c answer.Ctx, r *site.Room, s place.Surface, run place.Direction, n int) (a, z length.Length) {
	board, _ := c.State.BoardNow()
	up := hungRowsAt(r, s, run)
	if at, ok := up[n]; ok {
		return at[0], at[1]
	}
	if at, ok := up[n-1]; ok {
		return at[1], at[1] + board.Wide
	}
	if at, ok := up[n+1]; ok {
		return max(at[0]-board.Wide, 0), at[0]
	}
	for i, w := range inforce.RowsByLine(site.Plane{Room: r, Surface: s}, run, board.Wide, c.State) {
		if i+1 == n {
			return a, a + w
		}
		a += w
	}
	a = length.Length(n-1) * board.Wide
	return a, a + board.Wide
}

// hungRowsAt returns the extents of the hung rows, across from where the rows start.
func hungRowsAt(r *site.Room, s place.Surface, run place.Direction) map[int][2]length.Length {
	across := s.Lie(run).Other()
	from, end := r.Shell().Clear(s).Span(across)
	out := map[int][2]length.Length{}
	for _, p := range r.Pieces(s) {
		if p.Row == 0 || s.Lie(p.Run) != s.Lie(run) {
			continue
		}
		a, z := p.Rect.Span(across)
		if a, z = a-from, z-from; frame.Far(r.RowsFrom(s, run)) {
			a, z = end-from-z, end-from-a
		}
		if at, ok := out[p.Row]; ok {
			a, z = min(a, at[0]), max(z, at[1])
		}
		out[p.Row] = [2]length.Length{a, z}
	}
	return out
}

// between returns the row from a to z across, on the axis of the rows.
func (r Row) between(c answer.Ctx, s place.Surface, a, z length.Length) Row {
	lo, hi := r.Rect.Span(r.Axis.Other())
	from, to := c.Room.Shell().Within(s, r.Axis, a, z)
	r.Rect = r.Rect.With(r.Axis.Other(), a, z).With(r.Axis, from, to)
	start := c.Room.RowsFrom(s, r.Run)
	off := "off " + string(start)
	if start == "" {
		off = "down from the ceiling"
	}
	if frame.Far(start) {
		a, z = lo+hi-z, lo+hi-a
	}
	r.Says = fmt.Sprintf("%s to %s %s", c.Near(a-lo), c.Near(z-lo), off)
	return r
}

// Bare returns the stretches of a row without board, from its west or north end. Those no wider than the
// clearance are left out.
func Bare(c answer.Ctx, n int, s place.Surface, r Row) (out [][2]length.Length) {
	from, to := r.Rect.Span(r.Axis)
	taken := append(gone(c.Room, s, r.Rect, r.Axis), [2]length.Length{to, to})
	for _, p := range c.Room.Pieces(s) {
		if p.Row == n || p.Row == 0 {
			a, z := p.Rect.Span(r.Axis)
			taken = append(taken, [2]length.Length{a, z})
		}
	}
	slices.SortFunc(taken, func(a, b [2]length.Length) int { return cmp.Compare(a[0], b[0]) })
	for _, q := range taken {
		if q[0]-from >= length.Inch {
			out = append(out, [2]length.Length{from, q[0]})
		}
		from = max(from, min(q[1], to))
	}
	return out
}

// gone returns the stretches of a row with nothing to board, because a notch or a rough opening takes its
// full width.
func gone(r *site.Room, s place.Surface, row place.Rect, along place.Axis) (out [][2]length.Length) {
	lo, hi := row.Span(along.Other())
	for _, q := range append(r.Shell().NotchesOn(s), r.Openings(s)...) {
		if a, z := q.Span(along.Other()); a <= lo && z >= hi && q.Meets(row) {
			from, to := q.Span(along)
			out = append(out, [2]length.Length{from, to})
		}
	}
	return out
}

// NotUp says which rows of a surface have not been reported hung, if some have, and how much of a row is
// left.
func NotUp(c answer.Ctx, r *site.Room, on place.Surface) string {
	pieces := r.Pieces(on)
	if len(pieces) == 0 {
		return Counted(c, r, on)
	}
	var missing, part []string
	for n := 1; n <= Count(c, r, on, pieces[0].Run); n++ {
		switch left, any := Left(r, on, n); {
		case !any:
			missing = append(missing, fmt.Sprint(n))
		case left > 0:
			part = append(part, fmt.Sprintf("row %d has %s left", n, c.Near(left)))
		}
	}
	if len(missing) > 0 {
		part = append([]string{fmt.Sprintf("nobody reported %s %s hung", say.Plural(len(missing), "row"), strings.Join(missing, ", "))}, part...)
	}
	return strings.Join(part, "; ")
}

// Counted says how many boards of a surface are up whose rows nobody told, "" for none.
func Counted(c answer.Ctx, r *site.Room, on place.Surface) string {
	if n := c.State.Boards().Up(r.Name, on); n > 0 {
		return fmt.Sprintf("%d %s up, rows not told", n, say.Plural(n, "board"))
	}
	return ""
}

// Left returns how much of row n of a surface is bare, and whether anything hangs in it.
func Left(r *site.Room, s place.Surface, n int) (left length.Length, any bool) {
	var up, whole length.Length
	for _, p := range r.Pieces(s) {
		if p.Row == 0 {
			return 0, true
		}
		if p.Row != n {
			continue
		}
		any = true
		axis := s.Lie(p.Run)
		from, to := p.Rect.Span(axis)
		a, z := p.Rect.Span(axis.Other())
		lo, hi := r.Shell().Within(s, axis, a, z)
		if whole == 0 {
			whole = hi - lo
			for _, g := range gone(r, s, p.Rect.With(axis, lo, hi), axis) {
				whole -= min(g[1], hi) - max(g[0], lo)
			}
		}
		up += to - from
	}
	if left = whole - up; left < length.Inch {
		left = 0 // just the clearance at the walls
	}
	return left, any
}

// Count returns the number of rows of a surface without a layout: up to the last one that hangs, plus as
// many rows of the board in use as the rest takes. The gap that a rip leaves does not count.
func Count(c answer.Ctx, r *site.Room, on place.Surface, run place.Direction) int {
	board, _ := c.State.BoardNow()
	from, to := r.Shell().Clear(on).Span(on.Lie(run).Other())
	open := c.State.SettingOr("rip", layout.Defaults().Rip)
	last, at := 0, length.Length(0)
	for n, up := range hungRowsAt(r, on, run) {
		if n > last {
			last, at = n, up[1]
		}
	}
	if rows := inforce.RowsByLine(site.Plane{Room: r, Surface: on}, run, board.Wide, c.State); last == 0 && rows != nil {
		return len(rows)
	}
	return last + max(int((to-from-at-open+board.Wide-1)/board.Wide), 0)
}
