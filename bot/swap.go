package bot

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar"
)

// swap puts one length for another in the sender's own last entry.
func (t *turn) swap(e grammar.Swap) {
	en := t.st.LastOf(t.in.Who)
	if en == nil {
		t.no("you have no entry to correct", "fix d1 26 off west")
		return
	}
	next := t.entryOf(en)
	if next == nil {
		t.no(fmt.Sprintf("your last entry %q cannot be corrected that way; strike it and send it again", firstLine(en.Text)), fmt.Sprintf("strike %d", en.Seq))
		return
	}
	found := t.swaps(next, e)
	switch len(found) {
	case 1:
		t.correct(en, found[0])
	case 0:
		want := "no length"
		if e.Old.L != 0 {
			want = "no " + t.f(e.Old.L)
		}
		if _, ok := next.(grammar.StockSet); ok {
			want = "no such number"
		}
		t.no(fmt.Sprintf("there is %s in your last entry: %s", want, firstLine(en.Text)), "")
	default:
		var choices []choice
		for _, f := range found[:min(len(found), 9)] {
			line := grammar.Line{Entry: f}
			if en.Room != "" && len(t.st.Rooms) > 1 {
				line.Room = en.Room
			}
			text := line.String()
			if _, thing := en.Body.(site.Thing); !thing {
				text = fmt.Sprintf("strike %d\n%s", en.Seq, text)
			}
			choices = append(choices, choice{Label: f.String(), Text: text})
		}
		t.ask("which length?", "", choices...)
	}
}

// entryOf is an entry of the log as the sender could say it again: a thing by
// its distances as they stand, anything else by its words. Nil when it cannot.
func (t *turn) entryOf(en *site.Entry) grammar.Entry {
	if b, ok := en.Body.(site.Thing); ok {
		return grammar.Refix{Name: b.Name, Fixes: slices.Clone(b.Fixes)}
	}
	text := en.Text
	if i := strings.LastIndex(text, " > "); i >= 0 {
		return nil // it took a question to understand it
	}
	line, err := t.parse(text, false)
	if err != nil {
		return nil
	}
	if s, ok := line.Entry.(grammar.Swap); ok { // a correction itself: what it made of the entry before it
		old := t.putRight(en)
		if old == nil {
			return nil
		}
		before := t.entryOf(old)
		if before == nil {
			return nil
		}
		if found := t.swaps(before, s); len(found) == 1 {
			return found[0]
		}
		return nil
	}
	return line.Entry
}

// putRight is the entry that en, a correction, put right: the one that was struck with it, else the last of its kind.
func (t *turn) putRight(en *site.Entry) *site.Entry {
	for seq := en.Seq - 1; seq > 0; seq-- {
		e := t.st.Entry(seq)
		if e.Who != en.Who {
			continue
		}
		if b, ok := e.Body.(site.Strike); ok && e.Text == en.Text {
			return t.st.Entry(b.Seq)
		}
		if e.Body.Kind() == en.Body.Kind() && e.Room == en.Room {
			return e
		}
	}
	return nil
}

// swaps are the entries that a swap can make of e: of its lengths, and of its counts of boards. A bare number can be a count,
// and where any number will do, one that is too short for a board is.
func (t *turn) swaps(e grammar.Entry, s grammar.Swap) []grammar.Entry {
	set, ok := e.(grammar.StockSet)
	if !ok {
		return swapsIn(e, s.Old.L, s.New)
	}
	unit := length.Inch
	if t.units() == length.Metric {
		unit = length.Millimetre
	}
	var out []grammar.Entry
	if s.New.L%unit == 0 && s.New.L < 6*length.Foot {
		for i, it := range set.Items {
			if s.Old.L == 0 || length.Length(it.N)*unit == s.Old.L {
				next := set
				next.Items = slices.Clone(set.Items)
				next.Items[i].N = int(s.New.L / unit)
				out = append(out, next)
			}
		}
	}
	if out != nil {
		return out
	}
	return swapsIn(e, s.Old.L, s.New)
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
		switch n := next.(type) {
		case grammar.Refix:
			t.refix(n)
			return
		case grammar.Thing:
			if n.What == b.What {
				t.refix(grammar.Refix{Name: b.Name, Size: n.Size, Fixes: n.Fixes})
				return
			}
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

// swapsIn is a copy of e for each length equal to old (any length when old is
// zero), with new in its place.
func swapsIn(e grammar.Entry, old length.Length, new length.Said) []grammar.Entry {
	var out []grammar.Entry
	for n := 0; ; n++ {
		v := reflect.New(reflect.TypeOf(e)).Elem()
		v.Set(reflect.ValueOf(e))
		left := n
		if !swapNth(v, old, new, &left) {
			return out
		}
		out = append(out, v.Interface().(grammar.Entry))
	}
}

// swapNth replaces the length that is *left matches from the first, and says
// whether there was one.
func swapNth(v reflect.Value, old length.Length, new length.Said, left *int) bool {
	switch v.Kind() {
	case reflect.Struct:
		if l, ok := v.Interface().(length.Said); ok {
			if l.L == 0 || old != 0 && l.L != old {
				return false
			}
			*left--
			if *left < 0 {
				v.Set(reflect.ValueOf(new))
				return true
			}
			return false
		}
		for i := range v.NumField() {
			if swapNth(v.Field(i), old, new, left) {
				return true
			}
		}
	case reflect.Slice:
		c := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(c, v)
		v.Set(c)
		for i := range v.Len() {
			if swapNth(v.Index(i), old, new, left) {
				return true
			}
		}
	}
	return false
}
