package hang

import (
	"cmp"
	"fmt"
	"slices"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

// row is the strip of a surface that one row of boards covers, to the framing.
type row struct {
	rect place.Rect
	run  place.Run
	axis place.Axis // along the row
	says string     // where its edges are
}

// rowRect works out where row N lies: board widths counted from the wall the
// rows start at, from the face that is there now.
func rowRect(c answer.Ctx, e grammar.Hung, s place.Surface) (row, *answer.Reply) {
	run, known := c.Room.BoardsRun(s)
	if e.Run != "" {
		run, known = e.Run, true
	}
	if !known {
		var choices []grammar.Choice
		for _, r := range []place.Run{place.EW, place.NS} {
			next := e
			next.Run = r
			choices = append(choices, c.As(say.Run(r), next))
		}
		return row{}, answer.Stop(answer.Ask("no straps are noted here: which way do the boards run?", "", choices...))
	}
	board, _ := c.State.BoardNow()
	x, y := c.Room.Extent(s)
	r := row{run: run, rect: c.Room.Clear()}
	p, stop := c.InForce()
	if stop != nil {
		return row{}, stop
	}
	if p != nil && s == place.Ceiling && p.Run == run {
		return plannedRow(c, e, p, r)
	}
	var from, end length.Length // across, from the wall the rows start at
	switch {
	case s.IsWall():
		if y == 0 {
			said, _ := c.Room.Said()
			return row{}, answer.Stop(answer.No("rows on a wall count from the ceiling, whose height is not noted", answer.RoomAsSaid(said)+" high 8'"))
		}
		r.rect, from, end = place.Rect{X1: x, Y1: y}, 0, y
	case run == place.EW:
		from, end = r.rect.Y0, r.rect.Y1
	default:
		r.axis, from, end = place.Y, r.rect.X0, r.rect.X1
	}
	a := from + length.Length(e.Row-1)*board.Wide
	if e.Row < 1 || a >= end {
		last := (end - from + board.Wide - 1) / board.Wide
		return row{}, answer.Stop(answer.No(fmt.Sprintf("%s takes %d rows of %s, there is no row %d", c.Where(s), last, c.Len(board.Wide), e.Row), ""))
	}
	z := min(a+board.Wide, end)
	start := c.Room.RowsFrom(run)
	switch {
	case s.IsWall():
		r.rect.Y0, r.rect.Y1 = y-z, y-a
		r.says = fmt.Sprintf("%s to %s down from the ceiling", c.Near(a), c.Near(z))
	case run == place.EW:
		if r.rect.Y0, r.rect.Y1 = a, z; start == place.South {
			r.rect.Y0, r.rect.Y1 = from+end-z, from+end-a
		}
	default:
		if r.rect.X0, r.rect.X1 = a, z; start == place.East {
			r.rect.X0, r.rect.X1 = from+end-z, from+end-a
		}
	}
	if r.says == "" {
		r.says = fmt.Sprintf("%s to %s off %s", c.Near(a-from), c.Near(z-from), start)
	}
	return r, nil
}

// plannedRow is a row of the plan in force.
func plannedRow(c answer.Ctx, e grammar.Hung, p *inforce.Plan, r row) (row, *answer.Reply) {
	if e.Row < 1 || e.Row > len(p.Rows) {
		return row{}, answer.Stop(answer.No(fmt.Sprintf("the layout of %s has %d rows, there is no row %d", c.Room.Name, len(p.Rows), e.Row), "layout"))
	}
	pr := p.Rows[e.Row-1]
	if r.run == place.EW {
		r.rect.Y0, r.rect.Y1 = pr.From+p.Dy, pr.To+p.Dy
		r.says = fmt.Sprintf("%s to %s off north", c.Near(pr.From), c.Near(pr.To))
	} else {
		r.axis = place.Y
		r.rect.X0, r.rect.X1 = pr.From+p.Dx, pr.To+p.Dx
		r.says = fmt.Sprintf("%s to %s off west", c.Near(pr.From), c.Near(pr.To))
	}
	return r, nil
}

// pieces lays the pieces of a row end to end from its west or north end, after
// those that hang there already. No sizes: all that is left of the row.
func pieces(c answer.Ctx, e grammar.Hung, s place.Surface, r row) ([]place.Rect, *answer.Reply) {
	from, to := r.rect.Span(r.axis)
	at := from // the first bare stretch of the row, up to what hangs after it
	var up [][2]length.Length
	for _, p := range c.Room.Pieces(s) {
		if p.Row == e.Row || p.Row == 0 {
			a, z := p.Rect.Span(r.axis)
			up = append(up, [2]length.Length{a, z})
		}
	}
	slices.SortFunc(up, func(a, b [2]length.Length) int { return cmp.Compare(a[0], b[0]) })
	for _, q := range up {
		if q[0]-at >= length.Inch {
			to = min(to, q[0])
			break
		}
		at = max(at, min(q[1], to))
	}
	// A row that is full to within the clearance has no room for more.
	if to-at < length.Inch {
		return nil, answer.Stop(answer.No(fmt.Sprintf("%s row %d is up already", c.Where(s), e.Row), fmt.Sprintf("who hung row %d", e.Row)))
	}
	along := func(a, z length.Length) place.Rect {
		q := r.rect
		if r.axis == place.X {
			q.X0, q.X1 = a, z
		} else {
			q.Y0, q.Y1 = a, z
		}
		return q
	}
	if len(e.Pieces) == 0 {
		return []place.Rect{along(at, to)}, nil
	}
	var out []place.Rect
	for _, p := range e.Pieces {
		if p.L > answer.LongestBoard {
			return nil, answer.Stop(answer.Ask(fmt.Sprintf("a piece of %s? no board is that long; send the row again", c.Len(p.L)), ""))
		}
		if p.L < length.Inch {
			return nil, answer.Stop(answer.Ask(fmt.Sprintf("a piece of %s? send the row again", c.Len(p.L)), ""))
		}
		out = append(out, along(at, at+p.L))
		at += p.L
	}
	if over := at - to; over > length.Inch/2 {
		return nil, answer.Stop(answer.Ask(fmt.Sprintf("that is %s longer than what is left of row %d (%s). Send the pieces again", c.Len(over), e.Row, c.Len(to-from)), ""))
	}
	// Pieces are cut short of the walls; the last one is taken to reach its wall.
	last := &out[len(out)-1]
	if _, z := last.Span(r.axis); to-z < length.Inch {
		a, _ := last.Span(r.axis)
		*last = along(a, to)
	}
	return out, nil
}

// looseButts says which butts of the pieces just hung land beside the
// support that both ends are to be screwed to.
func looseButts(c answer.Ctx, r *answer.Reply, b site.Hung) {
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
