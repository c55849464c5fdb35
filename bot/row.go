package bot

import (
	"cmp"
	"fmt"
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
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
func (t *turn) rowRect(e grammar.Hung, s place.Surface) (row, bool) {
	run, known := t.room.BoardsRun(s)
	if e.Run != "" {
		run, known = e.Run, true
	}
	if !known {
		var choices []choice
		for _, r := range []place.Run{place.EW, place.NS} {
			next := e
			next.Run = r
			choices = append(choices, t.as(runWords(r), next))
		}
		t.ask("no straps are noted here: which way do the boards run?", "", choices...)
		return row{}, false
	}
	board, _ := t.st.BoardNow()
	x, y := t.room.Extent(s)
	r := row{run: run, rect: t.room.Clear()}
	if p := t.planQuietly(); p != nil && s == place.Ceiling && p.run == run {
		return t.plannedRow(e, p, r)
	}
	var from, end length.Length // across, from the wall the rows start at
	switch {
	case s.IsWall():
		if y == 0 {
			said, _ := t.room.Said()
			t.no("rows on a wall count from the ceiling, whose height is not noted", t.roomAsSaid(said)+" high 8'")
			return row{}, false
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
		t.no(fmt.Sprintf("%s takes %d rows of %s, there is no row %d", t.where(s), last, t.f(board.Wide), e.Row), "")
		return row{}, false
	}
	z := min(a+board.Wide, end)
	start := t.room.RowsFrom(run)
	switch {
	case s.IsWall():
		r.rect.Y0, r.rect.Y1 = y-z, y-a
		r.says = fmt.Sprintf("%s to %s down from the ceiling", t.near(a), t.near(z))
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
		r.says = fmt.Sprintf("%s to %s off %s", t.near(a-from), t.near(z-from), start)
	}
	return r, true
}

// plannedRow is a row of the plan in force.
func (t *turn) plannedRow(e grammar.Hung, p *plan, r row) (row, bool) {
	if e.Row < 1 || e.Row > len(p.Rows) {
		t.no(fmt.Sprintf("the layout of %s has %d rows, there is no row %d", t.room.Name, len(p.Rows), e.Row), "layout")
		return row{}, false
	}
	pr := p.Rows[e.Row-1]
	if r.run == place.EW {
		r.rect.Y0, r.rect.Y1 = pr.From+p.dy, pr.To+p.dy
		r.says = fmt.Sprintf("%s to %s off north", t.near(pr.From), t.near(pr.To))
	} else {
		r.axis = place.Y
		r.rect.X0, r.rect.X1 = pr.From+p.dx, pr.To+p.dx
		r.says = fmt.Sprintf("%s to %s off west", t.near(pr.From), t.near(pr.To))
	}
	return r, true
}

// pieces lays the pieces of a row end to end from its west or north end, after
// those that hang there already. No sizes: all that is left of the row.
func (t *turn) pieces(e grammar.Hung, s place.Surface, r row) ([]place.Rect, bool) {
	from, to := r.rect.Span(r.axis)
	at := from // the first bare stretch of the row, up to what hangs after it
	var up [][2]length.Length
	for _, p := range t.room.Pieces(s) {
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
		t.no(fmt.Sprintf("%s row %d is up already", t.where(s), e.Row), fmt.Sprintf("who hung row %d", e.Row))
		return nil, false
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
		return []place.Rect{along(at, to)}, true
	}
	var out []place.Rect
	for _, p := range e.Pieces {
		if p.L > longestBoard {
			t.ask(fmt.Sprintf("a piece of %s? no board is that long; send the row again", t.f(p.L)), "")
			return nil, false
		}
		if p.L < length.Inch {
			t.ask(fmt.Sprintf("a piece of %s? send the row again", t.f(p.L)), "")
			return nil, false
		}
		out = append(out, along(at, at+p.L))
		at += p.L
	}
	if over := at - to; over > length.Inch/2 {
		t.ask(fmt.Sprintf("that is %s longer than what is left of row %d (%s). Send the pieces again", t.f(over), e.Row, t.f(to-from)), "")
		return nil, false
	}
	// Pieces are cut short of the walls; the last one is taken to reach its wall.
	last := &out[len(out)-1]
	if _, z := last.Span(r.axis); to-z < length.Inch {
		a, _ := last.Span(r.axis)
		*last = along(a, to)
	}
	return out, true
}
