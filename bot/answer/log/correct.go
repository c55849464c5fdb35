package log

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/record"
	"strapline/grammar/things"
)

// undo strikes the sender's last entry.
func undo(c answer.Ctx, _ record.Undo) answer.Reply {
	en := c.State.LastOf(c.Who)
	if en == nil {
		return answer.No("nothing of yours to take back", "log")
	}
	all := c.SaidTogether(en)
	return strikeAll(c, all, true, len(all) > 1, nil)
}

// strikeAll strikes several entries, one after another.
func strikeAll(c answer.Ctx, all []*site.Entry, undo, many bool, before []answer.Reply) answer.Reply {
	return c.StrikeEntry(all[0], undo, many).After(func(r answer.Reply) answer.Reply {
		before = append(before, r)
		if len(all) > 1 {
			return strikeAll(c, all[1:], undo, many, before)
		}
		return answer.Join(before)
	})
}

// strike strikes an entry of anybody's by its number.
func strike(c answer.Ctx, e record.Strike) answer.Reply {
	en := c.State.Entry(uint64(max(e.Seq, 0)))
	switch {
	case en == nil:
		return answer.No(fmt.Sprintf("there is no entry %d, the last is %d", e.Seq, len(c.State.Entries)), "log")
	case answer.Hidden(en.Body):
		return answer.No(fmt.Sprintf("%d was a question, nothing to take back", e.Seq), "log")
	case en.Struck():
		by := en.StruckBy()
		return answer.No(fmt.Sprintf("%d is struck already (%s)", e.Seq, c.ByWhen(by)), fmt.Sprintf("strike %d", by.Seq))
	}
	return c.StrikeEntry(en, false, len(c.SaidTogether(en)) > 1)
}

// remove strikes all standing notes of a thing.
func remove(c answer.Ctx, e record.Delete) answer.Reply {
	th, stop := c.OneThing(e.Name, func(n string) grammar.Entry { return record.Delete{Name: n} })
	if stop != nil {
		return *stop
	}
	var own []*site.Entry
	for _, en := range th.Standing() {
		if b, ok := en.Body.(event.Things); ok && len(b.Each) > 1 {
			return answer.No(fmt.Sprintf("%s was noted with %d others in entry %d", th.Name, len(b.Each)-1, en.Seq), fmt.Sprintf("strike %d", en.Seq))
		}
		own = append(own, en)
	}
	if st, over := th.Stands(); st == site.Covered {
		return answer.Ask(fmt.Sprintf("%s is covered by %s. Take its notes back all the same?", th.Name, say.Piece(over)), "",
			grammar.Choice{Label: "take them back", Lines: strikes(own)}, grammar.Choice{Label: "keep it on the list"})
	}
	slices.Reverse(own)
	return strikeAll(c, own, false, false, nil)
}

// strikes returns lines that strike the entries, newest first.
func strikes(all []*site.Entry) (lines []grammar.Line) {
	for _, en := range slices.Backward(all) {
		lines = append(lines, grammar.Line{Entry: record.Strike{Seq: int(en.Seq)}})
	}
	return lines
}

// swap replaces one length by another, in the sender's last entry or in that of a thing or a run.
func swap(c answer.Ctx, e record.Swap) answer.Reply {
	en := c.State.LastOf(c.Who)
	if s, ok := supportNamed(c, e.Of); ok {
		return swapSupport(c, s, e)
	}
	if e.Of != "" {
		var stop *answer.Reply
		if en, stop = subject(&c, e.Of, func(n string) grammar.Entry { next := e; next.Of = n; return next }); stop != nil {
			return *stop
		}
	}
	if en == nil {
		return answer.No("you have no entry to correct", "fix d1 26 off west")
	}
	next := entryOf(c, en)
	if next == nil {
		return answer.No(fmt.Sprintf("your last entry %q cannot be corrected that way; strike it and send it again", say.FirstLine(en.Text)), fmt.Sprintf("strike %d", en.Seq))
	}
	found := append(swaps(c, next, e), resized(en, e)...)
	switch len(found) {
	case 1:
		return c.Correct(en, found[0])
	case 0:
		want := "no length"
		if e.Old.L != 0 {
			want = "no " + c.Len(e.Old.L)
		}
		if _, ok := next.(boards.StockSet); ok {
			want = "no such number"
		}
		return answer.No(fmt.Sprintf("there is %s in your last entry: %s", want, say.FirstLine(en.Text)), "")
	}
	var choices []grammar.Choice
	for _, f := range found[:min(len(found), 9)] {
		line := grammar.Line{Entry: f}
		if en.Room != "" && len(c.State.Rooms) > 1 {
			line.Room = en.Room
		}
		lines := []grammar.Line{line}
		if _, thing := en.Body.(event.Thing); !thing {
			lines = []grammar.Line{{Entry: record.Strike{Seq: int(en.Seq)}}, line}
		}
		choices = append(choices, grammar.Choice{Label: f.String(), Lines: lines})
	}
	return answer.Ask("which length?", "", choices...)
}

// subject returns the standing entry of a thing or a run, and makes its room the room at hand.
func subject(c *answer.Ctx, name string, with func(string) grammar.Entry) (*site.Entry, *answer.Reply) {
	if c.Room != nil {
		if rt := c.Room.Route(name); rt != nil {
			_, en := rt.Now()
			return en, nil
		}
	}
	th, stop := c.OneThing(name, with)
	if stop != nil {
		return nil, stop
	}
	*c = c.In(th.Room)
	_, en := th.Now()
	return en, nil
}

// resized returns the new sizes of a thing of which one measure is corrected: "6 not 4".
func resized(en *site.Entry, e record.Swap) (out []grammar.Entry) {
	b, ok := en.Body.(event.Thing)
	if !ok || e.Old.L == 0 && (b.Size.B != 0 || e.New.L > mostRound) {
		return nil
	}
	next := b.Size
	if next.A == e.Old.L || e.Old.L == 0 && next.A != 0 {
		next.A = e.New.L
	}
	if next.B == e.Old.L && next.B != 0 {
		next.B = e.New.L
	}
	if next == b.Size {
		return nil
	}
	return []grammar.Entry{record.Refix{Name: b.Name, Size: next}}
}

// mostRound is the largest size of a round hole that a bare new number is taken for: that of a duct.
const mostRound = 14 * length.Inch

// supportNamed returns the support of the ceiling with that name: "strap 4".
func supportNamed(c answer.Ctx, name string) (place.Support, bool) {
	if c.Room == nil || name == "" {
		return place.Support{}, false
	}
	all := c.Room.Supports(place.Ceiling)
	i := slices.IndexFunc(all, func(s place.Support) bool { return s.Name() == name })
	if i < 0 {
		return place.Support{}, false
	}
	return all[i], true
}

// swapSupport corrects the position of a support, if it was noted where the sender says.
func swapSupport(c answer.Ctx, s place.Support, e record.Swap) answer.Reply {
	at := c.Room.Shell().FromStart(place.Ceiling, place.Point{}.With(s.Axis(), s.Pos)).On(s.Axis())
	from := place.Ceiling.Start(s.Axis())
	next, err := c.Parse(fmt.Sprintf("%s at %s off %s", s.Name(), e.New, from), false)
	if err != nil {
		return answer.No("where that is cannot be read", s.Name()+" at 57 1/4")
	}
	if d := at - e.Old.L; e.Old.L != 0 && max(d, -d) > answer.Agrees {
		return answer.Ask(fmt.Sprintf("%s was noted %s off %s, not at %s. Put it right all the same?", s.Name(), c.Near(at), from, c.Len(e.Old.L)), "",
			c.As(fmt.Sprintf("%s off %s", c.Said(e.New), from), next.Entry), grammar.Choice{Label: "leave it"})
	}
	return c.Answer(next.Entry)
}

// entryOf returns a log entry as the sender could type it again: a thing with its present distances,
// anything else in its own words. It returns nil if that is not possible.
func entryOf(c answer.Ctx, en *site.Entry) grammar.Entry {
	if b, ok := en.Body.(event.Thing); ok {
		return record.Refix{Name: b.Name, Fixes: slices.Clone(b.Fixes)}
	}
	said := en.Text
	if i := strings.LastIndex(said, " > "); i >= 0 { // the choice made in a question
		said = said[i+len(" > "):]
	}
	line, err := c.Parse(said, false)
	if err != nil {
		return nil // it took more than one answer
	}
	if s, ok := line.Entry.(record.Swap); ok { // a correction: what it made of an earlier entry
		old := putRight(c, en)
		if old == nil {
			return nil
		}
		before := entryOf(c, old)
		if before == nil {
			return nil
		}
		if found := swaps(c, before, s); len(found) == 1 {
			return found[0]
		}
		return nil
	}
	return line.Entry
}

// putRight returns the entry that the correction en replaced: the one struck with it, else the last of its
// kind.
func putRight(c answer.Ctx, en *site.Entry) *site.Entry {
	for seq := en.Seq - 1; seq > 0; seq-- {
		e := c.State.Entry(seq)
		if e.Who != en.Who {
			continue
		}
		if b, ok := e.Body.(event.Strike); ok && e.Text == en.Text {
			return c.State.Entry(b.Seq)
		}
		if e.Body.Kind() == en.Body.Kind() && e.Room == en.Room {
			return e
		}
	}
	return nil
}

// swaps returns the entries that a swap could make of e, changing a length or a count of boards. A whole
// number under 6 ft, too short for a board, replaces a count rather than a length if it can.
func swaps(c answer.Ctx, e grammar.Entry, s record.Swap) []grammar.Entry {
	if run, ok := e.(things.Route); ok && s.Old.L != 0 {
		return swapsAlong(run, s)
	}
	set, ok := e.(boards.StockSet)
	if !ok {
		return swapsIn(e, s.Old.L, s.New)
	}
	unit := length.Inch
	if c.Units == length.Metric {
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

// swapsAlong returns the runs that a swap could make. A distance off a wall that is the same at both ends
// is changed at both.
func swapsAlong(run things.Route, s record.Swap) []grammar.Entry {
	next := run
	next.Points = make([][]place.Fix, len(run.Points))
	walls := map[place.Wall]bool{}
	for i, p := range run.Points {
		next.Points[i] = slices.Clone(p)
		for k, f := range p {
			if f.How == place.OffWall && f.L == s.Old.L {
				next.Points[i][k].Said = s.New
				walls[f.Wall] = true
			}
		}
	}
	if found := swapsIn(run, s.Old.L, s.New); len(walls) != 1 || len(found) == 1 {
		return found
	}
	return []grammar.Entry{next}
}

// swapsIn returns a copy of e for each length that equals old, or for each length at all if old is zero,
// with new in its place.
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

// swapNth replaces the match after skipping *left of them, and reports whether there was one.
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
