package bot

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/fasten"
	"strapline/calc/frame"
	"strapline/calc/length"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/grammar"
)

func (t *turn) hung(e grammar.Hung) {
	if !t.needRoom() {
		return
	}
	s := surfaceOf(e.Surface)
	cut, ok := t.cutNames(e)
	if !ok {
		return
	}
	row, ok := t.rowRect(e, s)
	if !ok {
		return
	}
	b := site.Hung{Room: t.room.Name, Surface: s, Row: e.Row, Run: row.run, Cut: cut}
	if b.Pieces, ok = t.pieces(e, s, row); !ok {
		return
	}
	for _, p := range e.Pieces {
		b.Sizes = append(b.Sizes, p.L)
	}
	t.saveHung(b, row.says)
}

// cutNames resolves the things opened as the board hung.
func (t *turn) cutNames(e grammar.Hung) ([]string, bool) {
	var out []string
	for _, name := range e.Cut {
		th := t.oneThing(name, func(n string) grammar.Entry {
			e := e
			e.Cut = nil
			for _, c := range e.Cut {
				if c == name {
					c = n
				}
				e.Cut = append(e.Cut, c)
			}
			return e
		})
		if th == nil {
			return nil, false
		}
		if th.Room != t.room {
			t.no(fmt.Sprintf("%s is in %s", th.Name, th.Room.Name), "")
			return nil, false
		}
		out = append(out, th.Name)
	}
	return out, true
}

// row is the strip of a surface that one row of boards covers, to the framing.
type row struct {
	rect site.Rect
	run  site.Run
	axis site.Axis // along the row
	says string    // where its edges are
}

// rowRect works out where row N lies: board widths counted from the wall the
// rows start at, from the face that is there now.
func (t *turn) rowRect(e grammar.Hung, s site.Surface) (row, bool) {
	run, known := t.room.BoardsRun(s)
	if e.Run != "" {
		run, known = site.Run(e.Run), true
	}
	if !known {
		var choices []choice
		for _, r := range []grammar.Run{grammar.EW, grammar.NS} {
			next := e
			next.Run = r
			choices = append(choices, t.as(runWords(site.Run(r)), next))
		}
		t.ask("no straps are noted here: which way do the boards run?", "", choices...)
		return row{}, false
	}
	board, _ := t.st.BoardNow()
	x, y := t.room.Extent(s)
	r := row{run: run, rect: t.room.Clear()}
	if p := t.planQuietly(); p != nil && s == site.Ceiling && p.run == run {
		return t.plannedRow(e, p, r)
	}
	var from, end length.Length // across, from the wall the rows start at
	switch {
	case s.IsWall():
		if y == 0 {
			t.no("rows on a wall count from the ceiling, whose height is not noted", fmt.Sprintf("room %s %s x %s high 8'", t.room.Name, t.plain(x), t.plain(x)))
			return row{}, false
		}
		r.rect, from, end = site.Rect{X1: x, Y1: y}, 0, y
	case run == site.EW:
		from, end = r.rect.Y0, r.rect.Y1
	default:
		r.axis, from, end = site.Y, r.rect.X0, r.rect.X1
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
	case run == site.EW:
		if r.rect.Y0, r.rect.Y1 = a, z; start == site.South {
			r.rect.Y0, r.rect.Y1 = from+end-z, from+end-a
		}
	default:
		if r.rect.X0, r.rect.X1 = a, z; start == site.East {
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
	if r.run == site.EW {
		r.rect.Y0, r.rect.Y1 = pr.From+p.dy, pr.To+p.dy
		r.says = fmt.Sprintf("%s to %s off north", t.near(pr.From), t.near(pr.To))
	} else {
		r.axis = site.Y
		r.rect.X0, r.rect.X1 = pr.From+p.dx, pr.To+p.dx
		r.says = fmt.Sprintf("%s to %s off west", t.near(pr.From), t.near(pr.To))
	}
	return r, true
}

func (t *turn) plain(l length.Length) string { return length.Canon(l) }

// pieces lays the pieces of a row end to end from its west or north end, after
// those that hang there already. No sizes: all that is left of the row.
func (t *turn) pieces(e grammar.Hung, s site.Surface, r row) ([]site.Rect, bool) {
	from, to := r.rect.Span(r.axis)
	at := from
	for _, p := range t.room.Pieces(s) {
		if p.Row == e.Row || p.Row == 0 {
			_, end := p.Rect.Span(r.axis)
			at = max(at, min(end, to))
		}
	}
	// A row that is full to within the clearance has no room for more.
	if to-at < length.Inch {
		t.no(fmt.Sprintf("%s row %d is up already", t.where(s), e.Row), "undo")
		return nil, false
	}
	along := func(a, z length.Length) site.Rect {
		q := r.rect
		if r.axis == site.X {
			q.X0, q.X1 = a, z
		} else {
			q.Y0, q.Y1 = a, z
		}
		return q
	}
	if len(e.Pieces) == 0 {
		return []site.Rect{along(at, to)}, true
	}
	var out []site.Rect
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

// saveHung saves pieces and answers what they cover and how they are screwed.
func (t *turn) saveHung(b site.Hung, says string) {
	before := t.open(b.Surface)
	first := len(t.room.Pieces(b.Surface)) == 0
	en := t.save(b)
	if en == nil {
		return
	}
	covers := []string{}
	for _, th := range before {
		if st, over := th.Stands(); st == site.Covered && over.Entry == en {
			covers = append(covers, th.Name)
		}
	}
	u := t.units()
	facts := hungFacts{Surface: string(b.Surface), Row: b.Row, Pieces: []pieceFacts{}, Covers: covers}
	var sizes []string
	for i, q := range t.standing(en) {
		pf := pieceFacts{
			X0: fact(u, q.Rect.X0), Y0: fact(u, q.Rect.Y0), X1: fact(u, q.Rect.X1), Y1: fact(u, q.Rect.Y1),
			ID: fmt.Sprintf("r%d.%d", b.Row, q.N),
		}
		a, z := q.Rect.Span(alongAxis(b))
		size := z - a
		if len(b.Sizes) > 0 {
			size = b.Sizes[i]
		}
		pf.Cut = fact(u, size)
		sizes = append(sizes, t.f(size))
		facts.Pieces = append(facts.Pieces, pf)
	}
	text := t.where(b.Surface)
	switch {
	case b.All && b.Surface == site.Ceiling:
		text += " ceiling up"
	case b.All:
		text += " up"
	default:
		text += fmt.Sprintf(" row %d up: %s, %s, boards %s", b.Row, strings.Join(sizes, " + "), says, runWords(b.Run))
	}
	if len(b.Cut) > 0 {
		text += "; cut: " + strings.Join(b.Cut, ", ")
	}
	screws := t.screwsFor(b, &facts)
	t.noted("hung", facts, text)
	if len(covers) > 0 {
		t.note("covered", "covers, not cut: "+strings.Join(covers, ", "))
	}
	if screws != "" {
		t.ans.Reply += "\n" + screws
	}
	t.overRuns(b)
	if first {
		t.notReady()
		t.note("caution", cautionScrew)
	}
}

// overRuns warns of runs that pass behind the pieces just hung and that the
// screws reach.
func (t *turn) overRuns(b site.Hung) {
	q := t.reachQuery(b.Surface, 0)
	if len(q.routes) == 0 {
		return
	}
	a := reach.Check(q.Query)
	under := a
	under.Crossings = nil
	for _, c := range a.Crossings {
		at := site.Point{X: c.At.X, Y: c.At.Y}
		if b.All || slices.ContainsFunc(b.Pieces, func(q site.Rect) bool { return q.Has(at) }) {
			under.Crossings = append(under.Crossings, c)
		}
	}
	t.screwHits(q, under, func(string) bool { return true })
}

func alongAxis(b site.Hung) site.Axis {
	if b.Run == site.NS && !b.Surface.IsWall() {
		return site.Y
	}
	return site.X
}

// open lists the things on surface s that are not covered.
func (t *turn) open(s site.Surface) []*site.ThingState {
	var out []*site.ThingState
	for _, th := range t.room.Things {
		if v, e := th.Now(); e != nil && v.Surface == s {
			if st, _ := th.Stands(); st != site.Covered {
				out = append(out, th)
			}
		}
	}
	return out
}

// standing lists the pieces that entry en hung.
func (t *turn) standing(en *site.Entry) []site.Piece {
	b := en.Body.(site.Hung)
	if b.All {
		return nil
	}
	var out []site.Piece
	for _, p := range t.room.Pieces(b.Surface) {
		if p.Entry == en {
			out = append(out, p)
		}
	}
	return out
}

// screwsFor counts the screws of the pieces just hung and says their length.
func (t *turn) screwsFor(b site.Hung, facts *hungFacts) string {
	set := t.room.Supports(b.Surface)
	if len(set) == 0 || b.All {
		return ""
	}
	supports := frames(set)
	board, said := t.st.BoardNow()
	where := t.whereFixed(b.Surface, set)
	where.Across = b.Run != set[0].Run
	rule, _ := fasten.RuleFor(where)
	total := 0
	for i, q := range b.Pieces {
		c := fasten.ForPiece(fasten.Piece{X: q.X0, Y: q.Y0, W: q.X1 - q.X0, H: q.Y1 - q.Y0}, supports, rule)
		total += c.Screws()
		facts.Pieces[i].Held = len(c.Rows)
	}
	screw := fasten.ScrewLength(where, supports[0])
	if l := t.st.ScrewSet(); l != 0 {
		screw = fasten.Check(l, where, supports[0])
	}
	l := fact(t.units(), screw.Length)
	facts.Screws, facts.Screw = total, &l
	text := fmt.Sprintf("screws: about %d, %s", total, t.f(screw.Length))
	if !said {
		text += fmt.Sprintf(" for %s board (assumed)", t.f(board.Thick))
	}
	if !screw.Holds() {
		text += fmt.Sprintf("; bites only %s, %s is needed", t.f(screw.Bite), t.f(screw.Need))
	}
	return text
}

// frames are supports as fasten, reach and even see them.
func frames(set []site.Support) []frame.Support {
	out := make([]frame.Support, len(set))
	for i, s := range set {
		axis := frame.Y
		if s.Run == site.EW {
			axis = frame.X
		}
		out[i] = frame.Support{
			Axis: axis, At: s.Pos, From: s.From, To: s.To, Thick: s.Thick, Face: s.Wide,
			Steel: s.Kind == site.Channels, Measured: s.Measured,
		}
	}
	return out
}

// widestBay is the widest distance between neighbouring centre lines.
func widestBay(set []site.Support) length.Length {
	at := map[length.Length]bool{}
	for _, s := range set {
		at[s.Pos] = true
	}
	var bay, last length.Length
	first := true
	for _, l := range sortedKeys(at) {
		if !first {
			bay = max(bay, l-last)
		}
		last, first = l, false
	}
	return bay
}

func (t *turn) upAll(e grammar.UpAll) {
	if !t.needRoom() {
		return
	}
	s := surfaceOf(e.Surface)
	run, _ := t.room.BoardsRun(s)
	t.saveHung(site.Hung{Room: t.room.Name, Surface: s, Run: run, All: true}, "")
	if s.IsWall() && t.err == nil && !t.room.Finished(site.Wall(s)) && t.room.BoardNow(site.Wall(s)) == 0 {
		t.note("check", fmt.Sprintf("its face stays at the studs until you say `%s wall boarded 1/2`", s))
	}
}

func (t *turn) boarded(e grammar.Boarded) {
	if !t.needRoom() {
		return
	}
	thick := e.Thick.L
	if thick == 0 && !e.Finished {
		b, _ := t.st.BoardNow()
		thick = b.Thick
	}
	if thick > 3*length.Inch {
		t.ask(fmt.Sprintf("%s of board on a wall? send it again, e.g. `%s wall boarded 1/2`", t.f(thick), e.Wall), "")
		return
	}
	if t.save(site.Boarded{Room: t.room.Name, Wall: site.Wall(e.Wall), Thick: thick, Finished: e.Finished}) == nil {
		return
	}
	if e.Finished {
		t.noted("boarded", nil, fmt.Sprintf("%s %s wall is finished and stays where it is", t.room.Name, e.Wall))
		return
	}
	t.noted("boarded", nil, fmt.Sprintf("%s %s wall boarded %s; from now on distances off it start at the board face", t.room.Name, e.Wall, t.f(thick)))
}

func (t *turn) opened(e grammar.Opened) {
	var names []string
	var room *site.Room
	var early []string
	for i, name := range e.Names {
		th := t.oneThing(name, func(n string) grammar.Entry {
			next := grammar.Opened{Names: append([]string(nil), e.Names...)}
			next.Names[i] = n
			return next
		})
		if th == nil {
			return
		}
		if room != nil && th.Room != room {
			t.no(fmt.Sprintf("%s is in %s, %s in %s: one room a message", names[0], room.Name, th.Name, th.Room.Name), "")
			return
		}
		if st, _ := th.Stands(); st == site.Noted {
			early = append(early, th.Name)
		}
		room = th.Room
		names = append(names, th.Name)
	}
	t.room = room
	if t.save(site.Opened{Room: room.Name, Names: names}) == nil {
		return
	}
	u := thingsFacts{}
	for _, n := range names {
		u.Things = append(u.Things, t.thingFacts(room.Thing(n)))
	}
	t.noted("open", u, fmt.Sprintf("%s %s open%s", room.Name, strings.Join(names, ", "), t.leftCovered(room)))
	if len(early) > 0 {
		t.note("check", fmt.Sprintf("no board was reported over %s", strings.Join(early, ", ")))
	}
	for _, n := range names {
		t.passes(room.Thing(n), "")
	}
}

// leftCovered says how many are still covered in the room.
func (t *turn) leftCovered(r *site.Room) string {
	n := 0
	for _, th := range r.Things {
		if st, _ := th.Stands(); st == site.Covered {
			n++
		}
	}
	if n == 0 {
		return "; nothing left covered in " + r.Name
	}
	return fmt.Sprintf("; %d still covered in %s", n, r.Name)
}
