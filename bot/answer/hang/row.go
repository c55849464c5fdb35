package hang

import (
	"cmp"
	"fmt"
	"slices"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/hanging"
)

// row is the strip of a surface that one row of boards covers, to the framing.
type row struct {
	rect place.Rect
	run  place.Direction
	axis place.Axis // along the row
	says string     // where its edges are, in words
}

// rowRect works out where row N lies: board widths from the present face of the wall that the rows start
// at.
func rowRect(c answer.Ctx, e hanging.Hung, s place.Surface) (row, *answer.Reply) {
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
		return row{}, answer.Stop(answer.Ask("no straps are noted here: which way do the boards run?", "", choices...))
	}
	board, _ := c.State.BoardNow()
	r := row{run: run, axis: s.Lie(run), rect: c.Room.Shell().Clear(s)}
	p, stop := c.InForce(s)
	if stop != nil {
		return row{}, stop
	}
	across := r.axis.Other()
	from, end := r.rect.Span(across)
	if p != nil && p.Run == run {
		if e.Row < 1 || e.Row > len(p.Rows) {
			return row{}, answer.Stop(answer.No(fmt.Sprintf("the layout of %s has %d rows, there is no row %d", c.Where(s), len(p.Rows), e.Row), answer.LayoutOf(s, 0)))
		}
		pr := p.Rows[e.Row-1]
		return r.between(c, s, from+pr.From, from+pr.To), nil
	}
	if end <= 0 {
		return row{}, answer.Stop(c.NoHeight())
	}
	if last := Rows(c, c.Room, s, run); e.Row < 1 || e.Row > last {
		return row{}, answer.Stop(answer.No(fmt.Sprintf("%s takes %d rows of %s, there is no row %d", c.Where(s), last, c.Len(board.Wide), e.Row), ""))
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
func (r row) between(c answer.Ctx, s place.Surface, a, z length.Length) row {
	lo, hi := r.rect.Span(r.axis.Other())
	from, to := c.Room.Shell().Within(s, r.axis, a, z)
	r.rect = r.rect.With(r.axis.Other(), a, z).With(r.axis, from, to)
	start := c.Room.RowsFrom(s, r.run)
	off := "off " + string(start)
	if start == "" {
		off = "down from the ceiling"
	}
	if frame.Far(start) {
		a, z = lo+hi-z, lo+hi-a
	}
	r.says = fmt.Sprintf("%s to %s %s", c.Near(a-lo), c.Near(z-lo), off)
	return r
}

// bare returns the stretches of a row without board, from its west or north end. Those no wider than the
// clearance are left out.
func bare(c answer.Ctx, n int, s place.Surface, r row) (out [][2]length.Length) {
	from, to := r.rect.Span(r.axis)
	taken := append(gone(c.Room, s, r.rect, r.axis), [2]length.Length{to, to})
	for _, p := range c.Room.Pieces(s) {
		if p.Row == n || p.Row == 0 {
			a, z := p.Rect.Span(r.axis)
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

// pieces lays the pieces of a row end to end from its west or north end, after what hangs there and past
// notches. Without sizes it takes all that is left of the row.
func pieces(c answer.Ctx, e hanging.Hung, s place.Surface, r row) ([]place.Rect, *answer.Reply) {
	left := bare(c, e.Row, s, r)
	if len(left) == 0 {
		return nil, answer.Stop(answer.No(fmt.Sprintf("%s row %d is up already", c.Where(s), e.Row), fmt.Sprintf("who hung row %d", e.Row)))
	}
	along := func(a, z length.Length) place.Rect { return r.rect.With(r.axis, a, z) }
	var out []place.Rect
	if len(e.Pieces) == 0 {
		for _, q := range left {
			out = append(out, along(q[0], q[1]))
		}
		return out, nil
	}
	if e.Begun != "" && e.Begun == s.Start(r.axis).Opposite() { // laid from the other end, towards what hangs there
		z := left[len(left)-1]
		at := z[1]
		for _, p := range e.Pieces {
			at -= p.L
		}
		if at-z[0] > length.Inch {
			left = [][2]length.Length{{at, z[1]}}
		}
	}
	at := left[0][0]
	// Pieces are cut short of the walls, so the last one of a stretch counts as reaching its end.
	full := func() *answer.Reply {
		from, to := left[0][0], left[0][1]
		if over := at - to; over > length.Inch/2 {
			return answer.Stop(answer.Ask(fmt.Sprintf("that is %s longer than what is left of row %d (%s). Send the pieces again", c.Len(over), e.Row, c.Len(to-from)), ""))
		}
		if last := &out[len(out)-1]; to-at < length.Inch {
			a, _ := last.Span(r.axis)
			*last = along(a, to)
		}
		return nil
	}
	for i, p := range e.Pieces {
		if p.L > answer.LongestBoard {
			return nil, answer.Stop(answer.Ask(fmt.Sprintf("a piece of %s? no board is that long; send the row again", c.Len(p.L)), ""))
		}
		if p.L < length.Inch {
			return nil, answer.Stop(answer.Ask(fmt.Sprintf("a piece of %s? send the row again", c.Len(p.L)), ""))
		}
		if i > 0 && len(left) > 1 && left[0][1]-at < length.Inch {
			if stop := full(); stop != nil {
				return nil, stop
			}
			left = left[1:]
			at = left[0][0]
		}
		out = append(out, along(at, at+p.L))
		at += p.L
	}
	return out, full()
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

// looseButts says which butts of the new pieces miss the support that both ends are screwed to.
func looseButts(c answer.Ctx, r *answer.Reply, b event.Hung) {
	set := c.Room.Supports(b.Surface)
	lie := b.Surface.Lie(b.Run)
	if b.All || len(set) == 0 || set[0].Lie == lie {
		return
	}
	hung := c.Room.Pieces(b.Surface)
	var butts []length.Length
	for _, q := range b.Pieces {
		start, end := q.Span(lie)
		lo, hi := q.Span(lie.Other())
		for _, p := range hung {
			from, to := p.Rect.Span(lie)
			if a, z := p.Rect.Span(lie.Other()); max(a, lo) < min(z, hi) {
				if from == end {
					butts = append(butts, end)
				}
				if to == start {
					butts = append(butts, start)
				}
			}
		}
	}
	slices.Sort(butts)
	for _, at := range slices.Compact(butts) {
		away := func(s place.Support) length.Length { return max(s.Pos-at, at-s.Pos) }
		near := slices.MinFunc(set, func(a, b place.Support) int { return cmp.Compare(away(a), away(b)) })
		off, side := away(near), "short of"
		if near.Pos < at {
			side = "past"
		}
		if 2*off >= near.Wide {
			r.Note("check", fmt.Sprintf("butt at %s is %s %s %s: back-block it", c.Len(at), c.Len(off), side, place.Of{Sup: near.Kind, N: near.N}))
		}
	}
}
