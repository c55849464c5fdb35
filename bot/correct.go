package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

func timeOf(ms int64, loc *time.Location) time.Time { return time.UnixMilli(ms).In(loc) }

func (t *turn) undo() {
	en := t.st.LastOf(t.in.Who)
	if en == nil {
		t.no("you have no entry to take back", "log")
		return
	}
	var replies []string
	all := t.saidTogether(en)
	for _, each := range all {
		t.strikeEntry(each, true, len(all) > 1)
		replies = append(replies, t.ans.Reply)
	}
	t.ans.Reply = strings.Join(replies, "\n")
}

// saidTogether are the entries that one line made: the rows of a layout that hung together. The newest comes first.
func (t *turn) saidTogether(en *site.Entry) (all []*site.Entry) {
	for _, e := range t.st.Entries {
		together := e.Body.Kind() == "hung" && en.Body.Kind() == "hung" && e.Who == en.Who && e.Sent == en.Sent && e.ID == en.ID && e.Text == en.Text
		if e == en || together && !e.Struck() {
			all = append(all, e)
		}
	}
	slices.Reverse(all)
	return all
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
	t.strikeEntry(en, false, len(t.saidTogether(en)) > 1)
}

// strikeEntry takes an entry back and says what that changes; it is one of many when its line made others too.
func (t *turn) strikeEntry(en *site.Entry, undo, many bool) {
	if b, ok := en.Body.(site.RoomSize); ok {
		if r := t.st.Room(b.Room); r != nil && t.lastSize(r, en) && r.Used() {
			t.no(fmt.Sprintf("%s has notes in it; send its right size instead", b.Room), t.roomAsSaid(b))
			return
		}
	}
	noted := t.things(en)
	wasCovered := map[*site.ThingState]*site.Piece{}
	for _, th := range noted {
		if st, over := th.Stands(); st == site.Covered {
			wasCovered[th] = over
		}
	}
	r := t.st.Room(en.Room)
	before := t.snap(r)
	if t.save(site.Strike{Seq: en.Seq, Undo: undo}) == nil {
		return
	}
	t.room = r
	t.ans.Kind = "strike"
	row := ""
	if b, ok := en.Body.(site.Hung); ok && many {
		row = fmt.Sprintf(", row %d", b.Row)
	}
	t.ans.Reply = fmt.Sprintf("struck %d: %s%s (%s)", en.Seq, firstLine(en.Text), row, t.byWhen(en))
	if b, ok := en.Body.(site.Strike); ok {
		if back := t.st.Entry(b.Seq); back != nil {
			t.ans.Reply = fmt.Sprintf("brought back %d: %s (%s)", back.Seq, firstLine(back.Text), t.byWhen(back))
		}
	}
	var gone []string
	for _, th := range noted {
		if v, e := th.Now(); e != nil {
			t.note("moved", fmt.Sprintf("%s stands by %d: %s", th.Name, e.Seq, t.coords(v.Surface, th.At())))
		} else {
			gone = append(gone, th.Name)
			if over := wasCovered[th]; over != nil {
				t.note("covered", fmt.Sprintf("%s was covered by %s: it is off the list now", th.Name, t.pieceName(over)))
			}
		}
		if at, had := before.at[th]; had && (len(th.Standing()) == 0 || th.At() != at) {
			t.tellTold(th, en)
		}
	}
	if len(gone) > 0 && len(wasCovered) == 0 {
		t.note("moved", "off the list: "+strings.Join(gone, ", "))
	}
	t.moves(before, noted...)
}

// roomAsSaid is a room's size as a line to type again.
func (t *turn) roomAsSaid(b site.RoomSize) string {
	return fmt.Sprintf("room %s %s x %s", b.Room, length.Canon(b.EW), length.Canon(b.NS))
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
		old, _, _ := t.room.Mark(e.Name)
		t.fixing = true
		t.mark(grammar.Mark{Name: e.Name, Surface: place.Surface(old.Surface), Fixes: e.Fixes})
		return
	}
	th := t.oneThing(e.Name, func(n string) grammar.Entry { next := e; next.Name = n; return next })
	if th == nil {
		return
	}
	t.room = th.Room
	e.Name = th.Name
	b, en := th.Now()
	b.New = false
	if e.Size != (place.Size{}) {
		if !t.sane(b.What, e.Size) {
			return
		}
		b.Size = place.Size{A: e.Size.A, B: e.Size.B}
	}
	with := func(fs []place.Fix) grammar.Entry { next := e; next.Fixes = fs; return next }
	for i, f := range e.Fixes {
		if (f.How == place.OffWall || f.How == place.Along) && f.Wall == "" {
			t.askWall(b.Surface, e.Fixes, i, with)
			return
		}
	}
	before := t.snap(t.room)
	defer func() {
		if t.ans.Saved {
			t.moves(before, th)
		}
	}()
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
func (t *turn) kept(b site.Thing, en *site.Entry, fixes []place.Fix) []place.Fix {
	var taken [2]bool
	for _, f := range fixes {
		if p, err := t.room.Place(b.Surface, []place.Fix{f}, b.Size, t.sent.UnixMilli()); err == nil {
			alone := p.InLine == ""
			taken[place.X] = taken[place.X] || p.Pinned[place.X] && alone
			taken[place.Y] = taken[place.Y] || p.Pinned[place.Y] && alone
			if !alone {
				a, _, _ := b.Surface.Axis(f.Dir)
				taken[a] = true
			}
		}
	}
	var out []place.Fix
	for _, f := range b.Fixes {
		p, err := t.room.Place(b.Surface, []place.Fix{f}, b.Size, en.Sent)
		if err != nil {
			continue
		}
		a := place.X
		if f.How == place.DirOf {
			a, _, _ = b.Surface.Axis(f.Dir)
		} else if p.Pinned[place.Y] {
			a = place.Y
		}
		if taken[a] {
			continue
		}
		if f.Wall != "" && f.Face == "" {
			f.L, f.Face = f.L+t.room.Board(f.Wall, en.Sent), place.Framing
		}
		out = append(out, f)
	}
	return out
}

// placeWith places new fixes together with kept ones.
func (t *turn) placeWith(s place.Surface, fixes []place.Fix, kept []place.Fix, size place.Size, with func([]place.Fix) grammar.Entry) ([]place.Fix, site.Placed, bool) {
	if len(kept) == 0 {
		return t.place(s, fixes, size, with)
	}
	return t.place(s, slices.Concat(fixes, kept), size, with)
}
