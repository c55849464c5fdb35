package bot

import (
	"fmt"
	"reflect"
	"strings"
	"time"

	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar"
)

func timeOf(ms int64, loc *time.Location) time.Time { return time.UnixMilli(ms).In(loc) }

func (t *turn) undo() {
	en := t.st.LastOf(t.in.Who)
	if en == nil {
		t.no("you have no entry to take back", "strike 17")
		return
	}
	t.strikeEntry(en)
}

func (t *turn) strike(e grammar.Strike) {
	en := t.st.Entry(uint64(max(e.Seq, 0)))
	if en == nil {
		t.no(fmt.Sprintf("there is no entry %d, the last is %d", e.Seq, len(t.st.Entries)), "log")
		return
	}
	if hidden(en.Body) {
		t.no(fmt.Sprintf("%d was a question, nothing to take back", e.Seq), "log")
		return
	}
	if en.Struck() {
		by := en.StruckBy()
		t.no(fmt.Sprintf("%d is struck already (%s)", e.Seq, t.byWhen(by)), fmt.Sprintf("strike %d", by.Seq))
		return
	}
	t.strikeEntry(en)
}

// strikeEntry takes an entry back and says what that changes.
func (t *turn) strikeEntry(en *site.Entry) {
	if b, ok := en.Body.(site.RoomSize); ok {
		if r := t.st.Room(b.Room); r != nil && t.lastSize(r, en) && r.Used() {
			t.no(fmt.Sprintf("%s has notes in it; send its right size instead", b.Room), fmt.Sprintf("room %s 13' 4 x 11' 9", b.Room))
			return
		}
	}
	_, back := en.Body.(site.Strike)
	was := t.things(en)
	if t.save(site.Strike{Seq: en.Seq}) == nil {
		return
	}
	t.room = t.st.Room(en.Room)
	verb := "struck"
	if back {
		verb = "brought back what was struck by"
	}
	t.ans.Kind = "strike"
	t.ans.Reply = fmt.Sprintf("%s %d: %s (%s)", verb, en.Seq, firstLine(en.Text), t.byWhen(en))
	for _, th := range was {
		_, e := th.Now()
		if e == nil {
			t.note("moved", th.Name+" is off the list")
		}
		t.tellTold(th, en)
	}
	if b, ok := en.Body.(site.Hung); ok && t.room != nil {
		t.uncovered(b)
	}
}

// uncovered says which things came out from under a piece that was taken back.
func (t *turn) uncovered(b site.Hung) {
	var names []string
	for _, th := range t.open(b.Surface) {
		at := th.At()
		for _, q := range b.Pieces {
			if q.Has(at) {
				names = append(names, th.Name)
			}
		}
		if b.All {
			names = append(names, th.Name)
		}
	}
	if len(names) > 0 {
		t.note("moved", "no longer covered: "+strings.Join(names, ", "))
	}
}

func (t *turn) lastSize(r *site.Room, en *site.Entry) bool {
	_, now := r.Said()
	return now == en && r.Sizes() == 1
}

// things lists the things that an entry noted.
func (t *turn) things(en *site.Entry) []*site.ThingState {
	var out []*site.ThingState
	add := func(room, name string) {
		if r := t.st.Room(room); r != nil {
			if th := r.Thing(name); th != nil {
				out = append(out, th)
			}
		}
	}
	switch b := en.Body.(type) {
	case site.Thing:
		add(b.Room, b.Name)
	case site.Things:
		for _, th := range b.Each {
			add(b.Room, th.Name)
		}
	}
	return out
}

// refix gives a thing new distances or a new size; what was not said again stays.
func (t *turn) refix(e grammar.Refix) {
	if t.room != nil && t.isMark(e.Name) {
		t.mark(grammar.Mark{Name: e.Name, Fixes: e.Fixes})
		return
	}
	th := t.oneThing(e.Name, func(n string) grammar.Entry { next := e; next.Name = n; return next })
	if th == nil {
		return
	}
	t.room = th.Room
	b, en := th.Now()
	b.New = false
	if e.Size != (grammar.Size{}) {
		if !t.sane(b.What, e.Size) {
			return
		}
		b.Size = site.Size{A: e.Size.A, B: e.Size.B}
	}
	with := func(fs []grammar.Fix) grammar.Entry { next := e; next.Fixes = fs; return next }
	kept := t.kept(b, en, e.Fixes)
	if len(e.Fixes) > 0 {
		said, p, ok := t.placeWith(b.Surface, e.Fixes, kept, b.Size, with)
		if !ok {
			return
		}
		b.Fixes, b.Point = said, p.Point
		t.saveThing(b, p)
		return
	}
	b.Fixes = kept
	p, err := t.room.Place(b.Surface, b.Fixes, b.Size, t.sent.UnixMilli())
	if err != nil || !p.Whole() {
		p.Point = th.At()
	}
	b.Point = p.Point
	t.saveThing(b, p)
}

func (t *turn) isMark(name string) bool {
	_, _, ok := t.room.Mark(name)
	return ok && t.room.Thing(name) == nil
}

// kept is the old fixes that the new ones do not replace, held to the face they
// were held to then.
func (t *turn) kept(b site.Thing, en *site.Entry, fixes []grammar.Fix) []site.Fix {
	var taken [2]bool
	for _, f := range fixes {
		if p, err := t.room.Place(b.Surface, []site.Fix{siteFix(f)}, b.Size, t.sent.UnixMilli()); err == nil {
			alone := p.InLine == ""
			taken[site.X] = taken[site.X] || p.Pinned[site.X] && alone
			taken[site.Y] = taken[site.Y] || p.Pinned[site.Y] && alone
			if !alone {
				a, _, _ := b.Surface.Axis(site.Wall(f.Dir))
				taken[a] = true
			}
		}
	}
	var out []site.Fix
	for _, f := range b.Fixes {
		p, err := t.room.Place(b.Surface, []site.Fix{f}, b.Size, en.Sent)
		if err != nil {
			continue
		}
		a := site.X
		if f.How == site.DirOf {
			a, _, _ = b.Surface.Axis(f.Dir)
		} else if p.Pinned[site.Y] {
			a = site.Y
		}
		if taken[a] {
			continue
		}
		if f.Wall != "" && f.Face == "" {
			f.L, f.Face = f.L+t.room.Board(f.Wall, en.Sent), site.Framing
		}
		out = append(out, f)
	}
	return out
}

// placeWith places new fixes together with kept ones.
func (t *turn) placeWith(s site.Surface, fixes []grammar.Fix, kept []site.Fix, size site.Size, with func([]grammar.Fix) grammar.Entry) ([]site.Fix, site.Placed, bool) {
	if len(kept) == 0 {
		return t.place(s, fixes, size, with)
	}
	all := append([]grammar.Fix(nil), fixes...)
	for _, k := range kept {
		all = append(all, grammarFix(k))
	}
	return t.place(s, all, size, func(fs []grammar.Fix) grammar.Entry { return with(fs) })
}

func grammarFix(f site.Fix) grammar.Fix {
	g := grammar.Fix{
		How: grammar.How(f.How), L: grammar.Len{L: f.L, Tag: f.Tag}, Wall: grammar.Wall(f.Wall), Dir: grammar.Wall(f.Dir),
		Of:   grammar.Of{Support: grammar.SupportKind(f.Sup), N: f.N, Edge: f.Edge, Name: f.Of},
		Edge: f.ToEdge, Face: grammar.Face(f.Face),
	}
	if f.Notch {
		g.Notch = "notch"
	}
	return g
}

// swap puts one length for another in the sender's own last entry.
func (t *turn) swap(e grammar.Swap) {
	en := t.st.LastOf(t.in.Who)
	if en == nil {
		t.no("you have no entry to correct", "fix d1 26 off west")
		return
	}
	text := en.Text
	if i := strings.LastIndex(text, " > "); i >= 0 {
		t.no(fmt.Sprintf("your last entry came from a question (%s); send it again whole", firstLine(text)), "undo")
		return
	}
	line, err := t.parse(text, false)
	if err != nil {
		t.no(fmt.Sprintf("your last entry %q cannot be corrected that way; send it again", firstLine(text)), "undo")
		return
	}
	next, n := swapIn(line.Entry, e.Old.L, e.New)
	switch {
	case n == 0 && e.Old.L != 0:
		t.no(fmt.Sprintf("there is no %s in your last entry: %s", t.f(e.Old.L), firstLine(text)), "")
		return
	case n == 0:
		t.no("there is no length in your last entry: "+firstLine(text), "")
		return
	case n > 1:
		t.no(fmt.Sprintf("which length in %q? say both", firstLine(text)), `84 not 48`)
		return
	}
	t.correct(en, next)
}

// correct replaces an own entry by another of its kind. What has versions gets a
// new one, so that the old value is kept beside it; anything else adds up, so
// the old one is struck before the new one is read.
func (t *turn) correct(en *site.Entry, next grammar.Entry) {
	if t.room = t.st.Room(en.Room); t.room == nil {
		t.room = t.st.RoomOf(t.in.Who)
	}
	switch b := en.Body.(type) {
	case site.Thing:
		if th, ok := next.(grammar.Thing); ok && th.What == b.What {
			t.refix(grammar.Refix{Name: b.Name, Size: th.Size, Fixes: th.Fixes})
			return
		}
	case site.RoomSize, site.MarkSet, site.SupportFix:
		t.answer(next)
		return
	}
	if t.save(site.Strike{Seq: en.Seq}) == nil {
		return
	}
	t.answer(next)
	if t.ans.Kind == kindError || t.ans.asks() {
		t.lead = append(t.lead, fmt.Sprintf("struck %d: %s", en.Seq, firstLine(en.Text)))
	} else {
		t.note("moved", fmt.Sprintf("in place of %d: %s", en.Seq, firstLine(en.Text)))
	}
}

// swapIn puts new for each length equal to old in a copy of e (any length when
// old is zero) and says how many there were.
func swapIn(e grammar.Entry, old length.Length, new grammar.Len) (grammar.Entry, int) {
	v := reflect.New(reflect.TypeOf(e)).Elem()
	v.Set(reflect.ValueOf(e))
	n := 0
	swapLens(v, old, new, &n)
	return v.Interface().(grammar.Entry), n
}

func swapLens(v reflect.Value, old length.Length, new grammar.Len, n *int) {
	switch v.Kind() {
	case reflect.Struct:
		if l, ok := v.Interface().(grammar.Len); ok {
			if l.L != 0 && (old == 0 || l.L == old) {
				*n++
				v.Set(reflect.ValueOf(new))
			}
			return
		}
		for i := range v.NumField() {
			swapLens(v.Field(i), old, new, n)
		}
	case reflect.Slice:
		c := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(c, v)
		v.Set(c)
		for i := range v.Len() {
			swapLens(v.Index(i), old, new, n)
		}
	}
}
