package bot

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/fasten"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/grammar"
)

func (t *turn) hung(e grammar.Hung) {
	if !t.needRoom() {
		return
	}
	s := surfaceOf(e.Surface)
	cut, ok := t.cutNames(e.Cut, func(names []string) grammar.Entry { next := e; next.Cut = names; return next })
	if !ok {
		return
	}
	p := t.planQuietly()
	if p != nil && s == place.Ceiling && e.Pieces == nil && (e.Run == "" || e.Run == p.run) && e.Row <= len(p.Rows) {
		t.hungPlan(grammar.HungPlan{IDs: []string{fmt.Sprintf("r%d", e.Row)}, Cut: e.Cut})
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
	if !t.cutsUnder(b) {
		return
	}
	if p != nil && s == place.Ceiling {
		p.recognise(&b)
	}
	t.saveHung(b, fmt.Sprintf("row %d", b.Row), row.says)
}

// cutsUnder refuses a cut in a board that does not lie over the thing: a wrong
// row would take a buried hole off the list.
func (t *turn) cutsUnder(b site.Hung) bool {
	for _, name := range b.Cut {
		th := t.room.Thing(name)
		v, _ := th.Now()
		at := th.At()
		if v.Surface == b.Surface && slices.ContainsFunc(b.Pieces, func(q place.Rect) bool { return q.Has(at) }) {
			continue
		}
		t.no(fmt.Sprintf("%s is at %s, not under row %d", name, t.coords(v.Surface, at), b.Row), fmt.Sprintf("hung row %d", b.Row))
		return false
	}
	return true
}

// cutNames resolves the things opened as the board hung. with makes the entry
// again with other names.
func (t *turn) cutNames(names []string, with func([]string) grammar.Entry) ([]string, bool) {
	var out []string
	for i, name := range names {
		th := t.oneThing(name, func(n string) grammar.Entry {
			next := slices.Clone(names)
			next[i] = n
			return with(next)
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

// saveHung saves pieces and answers what they cover and how they are screwed.
func (t *turn) saveHung(b site.Hung, what, says string) {
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
	for _, q := range t.standing(en) {
		pf := pieceFacts{
			X0: fact(u, q.Rect.X0), Y0: fact(u, q.Rect.Y0), X1: fact(u, q.Rect.X1), Y1: fact(u, q.Rect.Y1),
			ID: fmt.Sprintf("r%d.%d", b.Row, q.N),
		}
		a, z := q.Rect.Span(alongAxis(b))
		size := z - a
		if q.Size > 0 {
			size = q.Size
		}
		pf.Cut = fact(u, size)
		sizes = append(sizes, t.f(size))
		facts.Pieces = append(facts.Pieces, pf)
	}
	text := t.where(b.Surface)
	switch {
	case b.All && b.Surface == place.Ceiling:
		text += " ceiling up"
	case b.All:
		text += " up"
	default:
		text += fmt.Sprintf(" %s up: %s, %s, boards %s", what, strings.Join(sizes, " + "), says, runWords(b.Run))
	}
	if b.Row > 0 && b.Surface == place.Ceiling {
		if left, _ := t.rowLeft(t.room, b.Row); left > 0 {
			text += fmt.Sprintf("; %s of the row left", t.near(left))
		}
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
	for _, name := range covers {
		if v, _ := t.room.Thing(name).Now(); buried[v.What] {
			t.note("check", fmt.Sprintf("%s has to stay reachable and is behind the board now: plan a panel", name))
		}
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
		at := place.Point{X: c.At.X, Y: c.At.Y}
		if b.All || slices.ContainsFunc(b.Pieces, func(q place.Rect) bool { return q.Has(at) }) {
			under.Crossings = append(under.Crossings, c)
		}
	}
	t.screwHits(q, under, func(string) bool { return true })
}

func alongAxis(b site.Hung) place.Axis {
	if b.Run == place.NS && !b.Surface.IsWall() {
		return place.Y
	}
	return place.X
}

// open lists the things on surface s that are not covered.
func (t *turn) open(s place.Surface) []*site.ThingState {
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
	supports := set
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
	screw := t.screwFor(where, supports[0])
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

func (t *turn) upAll(e grammar.UpAll) {
	if !t.needRoom() {
		return
	}
	s := surfaceOf(e.Surface)
	run, _ := t.room.BoardsRun(s)
	b := site.Hung{Room: t.room.Name, Surface: s, Run: run, All: true}
	if p := t.planQuietly(); p != nil && s == place.Ceiling {
		for _, id := range ids(p.Layout) {
			if !p.hung[id] {
				p.take(&b, id)
			}
		}
	}
	t.saveHung(b, "", "")
	if s.IsWall() && t.err == nil && !t.room.Finished(place.Wall(s)) && t.room.BoardNow(place.Wall(s)) == 0 {
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
	was, en := t.room.WallSaid(e.Wall)
	if en != nil && was.Finished != e.Finished {
		state := fmt.Sprintf("boarded %s", t.exact(was.Thick))
		if was.Finished {
			state = "finished, so that it never moves"
		}
		t.no(fmt.Sprintf("the %s wall is noted %s (%s); strike that first if it is wrong", e.Wall, state, t.byWhen(en)), fmt.Sprintf("strike %d", en.Seq))
		return
	}
	if t.save(site.Boarded{Room: t.room.Name, Wall: e.Wall, Thick: thick, Finished: e.Finished}) == nil {
		return
	}
	if e.Finished {
		t.noted("boarded", nil, fmt.Sprintf("%s %s wall is finished and stays where it is", t.room.Name, e.Wall))
		return
	}
	before := ""
	if en != nil && was.Thick != thick {
		before = fmt.Sprintf(" (was %s)", t.exact(was.Thick))
	}
	t.noted("boarded", nil, fmt.Sprintf("%s %s wall boarded %s%s; from now on distances off it start at the board face", t.room.Name, e.Wall, t.exact(thick), before))
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
		if !t.meant(th, name, e, i) {
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
	for _, n := range names {
		if st, over := room.Thing(n).Stands(); st == site.Covered {
			t.note("covered", fmt.Sprintf("%s went up over %s at %s, after that: it is still covered", t.pieceName(over), n, t.clock(over.Entry.Sent)))
		}
	}
	if len(early) > 0 {
		t.note("check", fmt.Sprintf("no board was reported over %s", strings.Join(early, ", ")))
	}
	for _, n := range names {
		t.passes(room.Thing(n), "")
	}
}

// meant asks whether words that hold neither the thing's name nor its kind mean
// it: "open the door" must not take the door light off the list.
func (t *turn) meant(th *site.ThingState, words string, e grammar.Opened, i int) bool {
	v, _ := th.Now()
	if words == th.Name {
		return true
	}
	for w := range strings.FieldsSeq(words) {
		if slices.Contains(strings.Fields(v.What), w) {
			return true
		}
	}
	next := grammar.Opened{Names: slices.Clone(e.Names)}
	next.Names[i] = th.Name
	t.ask(fmt.Sprintf("%s: is that %s?", words, th.Name), "", t.as(th.Name+" is open", next), choice{Label: "no"})
	return false
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
