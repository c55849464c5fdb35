package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"strapline/calc/even"
	"strapline/calc/length"
	"strapline/calc/locate"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

// Largest sizes taken without asking: a box is 2 to 6 in, a gang box longer;
// anything else the board has a hole for is under 5 ft.
const (
	largestBox   = 14 * length.Inch
	largestThing = 5 * length.Foot
)

// afterPaint are the kinds cut when the ceiling is painted (common practice, no
// source); all others are cut while hanging.
var afterPaint = map[string]bool{"light": true}

// needsRoom are the kinds that pass through the board and cannot sit on a support.
var needsRoom = map[string]bool{
	"light": true, "duct": true, "vent": true, "fan": true, "speaker": true, "hatch": true, "sprinkler": true,
}

func (t *turn) thing(e grammar.Thing) {
	if !t.needRoom() || !t.sane(e.What, e.Size) {
		return
	}
	s := surfaceOf(e.Surface)
	if e.Surface == "" && slices.ContainsFunc(e.Fixes, func(f place.Fix) bool { return f.How == place.UpFrom || f.How == place.DownTo }) {
		t.askSurface(e)
		return
	}
	with := func(fs []place.Fix) grammar.Entry { e := e; e.Fixes = fs; return e }
	size := place.Size{A: e.Size.A, B: e.Size.B}
	name := t.nameFor(e)
	old := t.room.Thing(name)
	if old != nil {
		if v, _ := old.Now(); size == (place.Size{}) {
			size = v.Size
		}
	}
	fixes, p, ok := t.place(s, e.Fixes, size, with)
	if !ok {
		return
	}
	if old != nil && !t.sameThing(old, e, p.Point, s) {
		return
	}
	b := site.Thing{
		Room: t.room.Name, Name: name, What: e.What, Label: e.Label, Surface: s, Size: size,
		Fixes: fixes, Point: p.Point, New: old == nil,
	}
	if afterPaint[e.What] || e.AfterPaint {
		b.Due = "after paint"
	}
	t.saveThing(b, p)
}

// nameFor is the name a thing goes by: its own, else its kind and label, else
// its kind and the next number.
func (t *turn) nameFor(e grammar.Thing) string {
	switch {
	case e.Name != "":
		return e.Name
	case e.Label != "":
		return e.What + " " + e.Label
	}
	return fmt.Sprintf("%s %d", e.What, t.room.Nth(e.What)+1)
}

func (t *turn) sane(what string, s place.Size) bool {
	most := largestThing
	if what == "box" || what == "outlet" || what == "switch" {
		most = largestBox
	}
	if big := max(s.A, s.B); big > most {
		t.ask(fmt.Sprintf("a %s %s wide? send it again", what, t.f(big)), "")
		return false
	}
	return true
}

func (t *turn) askSurface(e grammar.Thing) {
	var choices []choice
	for _, w := range place.Walls {
		if slices.ContainsFunc(e.Fixes, func(f place.Fix) bool {
			_, _, ok := place.Surface(w).Axis(f.Wall)
			return f.Wall != "" && !ok
		}) {
			continue
		}
		e.Surface = place.Surface(w)
		choices = append(choices, t.as(string(w)+" wall", e))
	}
	t.ask("on which wall?", "", choices...)
}

// sameThing decides whether a note of a name that is taken speaks of the same
// thing: the same person, or the same place, or else ask.
func (t *turn) sameThing(old *site.ThingState, e grammar.Thing, p place.Point, s place.Surface) bool {
	v, en := old.Now()
	at := old.At()
	far := max(at.X-p.X, p.X-at.X, at.Y-p.Y, p.Y-at.Y) > agrees || v.Surface != s
	same := v.What == e.What && (strings.EqualFold(en.Who, t.in.Who) || !far)
	if same {
		return true
	}
	moved := grammar.Refix{Name: old.Name, Fixes: e.Fixes}
	other := e
	other.Name = t.freeName(old.Name)
	t.ask(fmt.Sprintf("%s noted %s at %s. The same one?", en.Who, t.thingName(v), t.coords(v.Surface, at)), "",
		t.as("same, moved", moved), t.as("another, call it "+other.Name, other))
	return false
}

// freeName is the next name after one that is taken: d1 gives d2.
func (t *turn) freeName(name string) string {
	stem := strings.TrimRight(name, "0123456789")
	if stem == name {
		stem += " "
	}
	for n := 2; ; n++ {
		if next := fmt.Sprintf("%s%d", stem, n); t.room.Thing(next) == nil {
			return next
		}
	}
}

// saveThing saves a note of a thing and answers with its read-back.
func (t *turn) saveThing(b site.Thing, p site.Placed) {
	en := t.save(b)
	if en == nil {
		return
	}
	th := t.room.Thing(b.Name)
	t.noted("thing", t.thingFacts(th), t.where(b.Surface)+" "+t.thingName(b)+": "+t.fixesText(b.Surface, b.Fixes, p)+lies(b)+t.clearOf(b, p.Point))
	t.checks(p, b.Fixes)
	t.clash(b, p.Point)
	t.corrected(th, en)
	t.underBoard(th)
	t.passes(th, "")
	if buried[b.What] {
		t.note("check", fmt.Sprintf("a %s has to stay reachable: plan a panel before the board", b.What))
	}
}

// where is the room, and the wall when it is one.
func (t *turn) where(s place.Surface) string {
	if s.IsWall() {
		return t.room.Name + " " + string(s) + " wall"
	}
	return t.room.Name
}

func (t *turn) thingName(b site.Thing) string {
	s := b.Name
	if !strings.HasPrefix(b.Name, b.What) {
		s = b.What + " " + b.Name
		if b.Label != "" {
			s += " " + b.Label
		}
	}
	return s + t.sizeText(b.Size)
}

func (t *turn) sizeText(z place.Size) string {
	switch {
	case z.A == 0:
		return ""
	case z.B == 0:
		return " " + t.f(z.A)
	}
	return " " + t.f(z.A) + " x " + t.f(z.B)
}

// lies says which way a rectangle on the ceiling lies, "" where it makes no
// difference.
func lies(b site.Thing) string {
	if b.Surface != place.Ceiling || b.Size.B == 0 || b.Size.A == b.Size.B {
		return ""
	}
	if b.Size.A > b.Size.B {
		return ", long side east-west"
	}
	return ", long side north-south"
}

func (t *turn) thingFacts(th *site.ThingState) thingFacts {
	v, _ := th.Now()
	at, st := th.At(), site.Noted
	st, _ = th.Stands()
	due := v.Due
	if due == "" {
		due = "hanging"
	}
	u := t.units()
	f := thingFacts{
		Name: th.Name, What: v.What, Label: v.Label, Surface: string(v.Surface),
		X: fact(u, at.X), Y: fact(u, at.Y), Due: due, State: string(st),
	}
	if v.Size.A != 0 {
		f.Size = append(f.Size, fact(u, v.Size.A))
	}
	if v.Size.B != 0 {
		f.Size = append(f.Size, fact(u, v.Size.B))
	}
	return f
}

// checks says what distances beyond the two needed had to tell.
func (t *turn) checks(p site.Placed, fixes []place.Fix) {
	for _, x := range p.Extra {
		d := max(x.Diff, -x.Diff)
		if d == 0 {
			t.note("check", fixText(t, fixes[x.Second])+" agrees")
		} else {
			t.note("check", fmt.Sprintf("%s agrees within %s; kept %s", fixText(t, fixes[x.Second]), t.f(d), fixText(t, fixes[x.First])))
		}
	}
}

// clearOf is how far the thing's edge is from the nearest support, where it is clear of it.
func (t *turn) clearOf(b site.Thing, at place.Point) string {
	n, ok := locate.Nearest(t.room, b.Surface, at, b.Size)
	if !ok || !needsRoom[b.What] || n.Clear < 0 {
		return ""
	}
	from := "edge"
	if b.Size.A == 0 {
		from = "centre"
	}
	return fmt.Sprintf("; %s %s clear of %s", from, t.near(n.Clear), n.Support.Name())
}

// clash warns where a thing that needs room sits on a support. It is saved all the same.
func (t *turn) clash(b site.Thing, at place.Point) {
	n, ok := locate.Nearest(t.room, b.Surface, at, b.Size)
	if ok && needsRoom[b.What] && n.Clear < 0 {
		t.note("clash", fmt.Sprintf("sits on %s: %s more would clear it", n.Support.Name(), t.near(-n.Clear)))
	}
}

// corrected says what a newer note changed, and who works by the old one.
func (t *turn) corrected(th *site.ThingState, en *site.Entry) {
	now, cur := th.Now()
	if cur != en {
		t.note("check", fmt.Sprintf("a newer note of %s stands: %s, %s", th.Name, t.coords(now.Surface, th.At()), t.byWhen(cur)))
		return
	}
	was, old := th.Was(en)
	if old == nil {
		return
	}
	t.note("moved", fmt.Sprintf("was %s (%s)", t.fixesShort(was.Fixes, was.Surface, was.Point), t.byWhen(old)))
	t.tellTold(th, old)
}

func (t *turn) fixesShort(fixes []place.Fix, s place.Surface, at place.Point) string {
	var parts []string
	for _, f := range fixes {
		parts = append(parts, fixText(t, f))
	}
	if len(parts) == 0 {
		return t.coords(s, at)
	}
	return strings.Join(parts, ", ")
}

// tellTold names those who were given the old place.
func (t *turn) tellTold(th *site.ThingState, old *site.Entry) {
	var names []string
	for _, a := range th.ToldSince(old, t.in.Who) {
		names = append(names, fmt.Sprintf("%s (%s)", a.Who, t.clock(a.Sent)))
		t.ans.Tell = append(t.ans.Tell, a.Who)
	}
	if len(names) > 0 {
		t.note("told", "given the old place of "+th.Name+": "+strings.Join(names, ", ")+". Tell them")
	}
}

// underBoard says that a thing is covered already, and whether the note came late.
func (t *turn) underBoard(th *site.ThingState) {
	st, over := th.Stands()
	if st != site.Covered {
		return
	}
	if t.sent.UnixMilli() < over.Entry.Sent {
		t.note("late", fmt.Sprintf("came in late: %s was already up, so it is covered", t.pieceName(over)))
		return
	}
	again := ""
	if _, en := th.Now(); len(th.Notes()) > 1 {
		if _, old := th.Was(en); old != nil && over.Entry.Seq > old.Seq {
			again = ", put up after the old note: check before cutting"
		}
	}
	t.note("covered", fmt.Sprintf("%s is up there since %s%s: it is covered", t.pieceName(over), t.clock(over.Entry.Sent), again))
}

func (t *turn) pieceName(p *site.Piece) string {
	h, _ := p.Entry.Body.(site.Hung)
	switch {
	case p.Row > 0 && h.Surface.IsWall():
		return fmt.Sprintf("%s wall row %d", h.Surface, p.Row)
	case p.Row > 0:
		return fmt.Sprintf("row %d", p.Row)
	case h.Surface.IsWall():
		return fmt.Sprintf("the %s wall", h.Surface)
	}
	return "the ceiling"
}

// clock prints a time of day, with its date when it is not the day of the turn.
func (t *turn) clock(ms int64) string {
	at, now := time.UnixMilli(ms).In(t.j.opt.Loc), t.in.Sent.In(t.j.opt.Loc)
	if at.YearDay() == now.YearDay() && at.Year() == now.Year() {
		return at.Format("15:04")
	}
	return at.Format("Jan 2 15:04")
}

func (t *turn) byWhen(e *site.Entry) string { return e.Who + ", " + t.clock(e.Sent) }

func (t *turn) even(e grammar.Even) {
	if !t.needRoom() || !t.sane(e.What, e.Size) {
		return
	}
	const most = 100
	if e.A < 1 || e.B < 1 || e.A*e.B > most {
		t.no(fmt.Sprintf("a grid of 1 to %d", most), "lights 3 x 2 even")
		return
	}
	size := place.Size{A: e.Size.A, B: e.Size.B}
	places, moved, why := t.grid(e, size)
	if why != "" {
		t.no(why, "")
		return
	}
	b := site.Things{Room: t.room.Name}
	n := t.room.Nth(e.What)
	for i, p := range places {
		th := site.Thing{
			Room: t.room.Name, Name: fmt.Sprintf("%s %d", e.What, n+i+1), What: e.What, Surface: place.Ceiling,
			Size: size, Point: p, New: true,
			Fixes: []place.Fix{
				{How: place.OffWall, Wall: place.West, Said: length.Said{L: p.X}, Face: place.Framing},
				{How: place.OffWall, Wall: place.North, Said: length.Said{L: p.Y}, Face: place.Framing},
			},
		}
		if afterPaint[e.What] {
			th.Due = "after paint"
		}
		b.Each = append(b.Each, th)
	}
	if t.save(b) == nil {
		return
	}
	var facts thingsFacts
	xs, ys := map[length.Length]bool{}, map[length.Length]bool{}
	for _, th := range b.Each {
		facts.Things = append(facts.Things, t.thingFacts(t.room.Thing(th.Name)))
		xs[th.Point.X], ys[th.Point.Y] = true, true
	}
	t.noted("things", facts, fmt.Sprintf("%s %s %d to %d: %s off west; %s off north (studs, centre)",
		t.room.Name, e.What, n+1, n+len(b.Each), t.sorted(xs), t.sorted(ys)))
	if moved > 0 {
		t.note("moved", fmt.Sprintf("moved up to %s off even, to clear the supports", t.near(moved)))
	}
	for _, th := range b.Each {
		t.clash(th, th.Point)
	}
}

func (t *turn) sorted(set map[length.Length]bool) string {
	var out []string
	for _, l := range sortedKeys(set) {
		out = append(out, t.near(l))
	}
	return strings.Join(out, ", ")
}

func (t *turn) mark(e grammar.Mark) {
	if !t.needRoom() {
		return
	}
	s := surfaceOf(e.Surface)
	with := func(fs []place.Fix) grammar.Entry { e := e; e.Fixes = fs; return e }
	fixes, p, ok := t.place(s, e.Fixes, place.Size{}, with)
	if !ok {
		return
	}
	old, was, had := t.room.Mark(e.Name)
	if had && !t.sameMark(e, old, was, p.Point, s) {
		return
	}
	before := t.snap(t.room)
	if t.save(site.MarkSet{Room: t.room.Name, Name: e.Name, Surface: s, Fixes: fixes, Point: p.Point}) == nil {
		return
	}
	u := t.units()
	t.noted("mark", markFacts{Name: e.Name, Surface: string(s), X: fact(u, p.X), Y: fact(u, p.Y)},
		t.where(s)+" mark "+e.Name+": "+t.fixesText(s, fixes, p))
	t.checks(p, fixes)
	if had && was != p.Point {
		t.note("moved", "was "+t.coords(s, was))
	}
	delete(before.marks, e.Name)
	t.moves(before)
}

// sameMark asks about a mark whose name a colleague has given to another place.
func (t *turn) sameMark(e grammar.Mark, old site.MarkSet, was, now place.Point, s place.Surface) bool {
	who := t.room.MarkedBy(e.Name)
	if t.fixing || strings.EqualFold(who, t.in.Who) || old.Surface == s && max(was.X-now.X, now.X-was.X, was.Y-now.Y, now.Y-was.Y) <= agrees {
		return true
	}
	other := e
	for c := 'a'; c <= 'z'; c++ {
		if _, _, taken := t.room.Mark(string(c)); !taken {
			other.Name = string(c)
			break
		}
	}
	t.ask(fmt.Sprintf("%s made mark %s at %s. The same one?", who, e.Name, t.coords(old.Surface, was)), "",
		t.as("same, moved", grammar.Refix{Name: e.Name, Fixes: e.Fixes}), t.as("another, call it "+other.Name, other))
	return false
}

// grid is an even grid between the faces that are there now, moved the least
// that clears the supports: as one, or line by line where that cannot be.
func (t *turn) grid(e grammar.Even, size place.Size) (places []place.Point, moved length.Length, why string) {
	c := t.room.Clear()
	q := even.Query{
		X: c.X0, Y: c.Y0, W: c.X1 - c.X0, H: c.Y1 - c.Y0, Cols: e.A, Rows: e.B,
		Across: 2 * size.Half(place.X), Down: 2 * size.Half(place.Y), Clear: even.NonIC,
		Supports: t.room.Supports(place.Ceiling),
	}
	g, ok := even.Whole(q)
	if !ok {
		g, ok = even.Each(q)
	}
	if !ok {
		g = even.Spaced(q)
	}
	if len(g.X) == 0 {
		return nil, 0, "the room is too small for that grid"
	}
	for _, m := range slices.Concat(g.MovedX, g.MovedY) {
		moved = max(moved, m, -m)
	}
	for _, y := range g.Y {
		for _, x := range g.X {
			places = append(places, place.Point{X: x, Y: y})
		}
	}
	for _, p := range places {
		if !t.room.Inside(place.Ceiling, p) {
			return nil, 0, fmt.Sprintf("the grid puts one at %s, which is in the notch", t.coords(place.Ceiling, p))
		}
	}
	return places, moved, ""
}
