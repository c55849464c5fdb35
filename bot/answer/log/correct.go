package log

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/answer/settle"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/amend"
	"strapline/grammar/boards"
	"strapline/grammar/record"
)

// undo strikes the sender's last entry.
func undo(c answer.Ctx, _ record.Undo) answer.Reply {
	en := c.State.LastOf(c.Who)
	if en == nil {
		return answer.No("nothing of yours to take back", "log")
	}
	all := revise.SaidTogether(c, en)
	return strikeAll(c, all, true, len(all) > 1, nil)
}

// strikeAll strikes several entries, one after another.
func strikeAll(c answer.Ctx, all []*site.Entry, undo, many bool, before []answer.Reply) answer.Reply {
	return revise.Strike(c, all[0], undo, many).After(func(r answer.Reply) answer.Reply {
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
	return revise.Strike(c, en, false, len(revise.SaidTogether(c, en)) > 1)
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
			grammar.Choice{Label: "take them back", Lines: revise.Strikes(own)}, grammar.Choice{Label: "keep it on the list"})
	}
	return strikeAll(c, own, false, true, nil) // the oldest first: it is never back to an older note
}

// gone asks whether a thing that is said to be there no more is to be taken off the list: it may only be
// covered, or not found. Of several it asks which.
func gone(c answer.Ctx, e record.Gone) answer.Reply {
	if e.Row > 0 {
		return rowGone(c, e)
	}
	found := c.Named(e.Name)
	if len(found) == 0 {
		_, stop := c.OneThing(e.Name, func(n string) grammar.Entry { return record.Gone{Name: n} })
		return *stop
	}
	var choices []grammar.Choice
	var all []grammar.Line
	why := fmt.Sprintf("take %s off the list?", e.Name)
	for _, th := range found[:min(len(found), 7)] {
		v, en := th.Now()
		where := c.In(th.Room).Coords(v.Surface, th.At())
		if len(found) == 1 {
			why = fmt.Sprintf("take %s %s off the list: %s (%s)?", c.In(th.Room).Where(v.Surface), th.Name, where, c.ByWhen(en))
			where = "take it off"
		} else {
			where = fmt.Sprintf("%s %s (%s)", th.Room.Name, th.Name, where)
		}
		line := grammar.Line{Room: th.Room.Name, Entry: record.Delete{Name: th.Name}}
		choices, all = append(choices, grammar.Choice{Label: where, Lines: []grammar.Line{line}}), append(all, line)
	}
	switch {
	case len(choices) == 2:
		choices = append(choices, grammar.Choice{Label: "both", Lines: all})
	case len(choices) > 2:
		choices = append(choices, grammar.Choice{Label: fmt.Sprintf("all %d", len(choices)), Lines: all})
	}
	return answer.Ask(why, "", append(choices, grammar.Choice{Label: "no: leave it on"})...)
}

// rowGone asks whether a row is to be taken off the ceiling or the wall again.
func rowGone(c answer.Ctx, e record.Gone) answer.Reply {
	if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	s := answer.SurfaceOf(e.Surface)
	row := fmt.Sprintf("%s row %d", c.Where(s), e.Row)
	var hung []*site.Entry
	for _, p := range c.Room.Pieces(s) {
		if p.Row == e.Row && !slices.Contains(hung, p.Entry) {
			hung = append(hung, p.Entry)
		}
	}
	if len(hung) == 0 {
		return answer.Nothing(row+" is not up by the notes", "rows left")
	}
	return answer.Ask(fmt.Sprintf("take %s down again (%s)?", row, c.ByWhen(hung[0])), "",
		grammar.Choice{Label: "yes, it is down", Lines: revise.Strikes(hung)}, grammar.Choice{Label: "no: it is up"})
}

// swap replaces one length by another, in the sender's last entry or in that of a thing or a run.
func swap(c answer.Ctx, e record.Swap) answer.Reply {
	if s, ok := c.Support(e.Of); ok {
		return swapSupport(c, s, e)
	}
	en, stop := corrected(&c, e.Of, func(n string) grammar.Entry { next := e; next.Of = n; return next })
	if stop != nil {
		return *stop
	}
	next := revise.Retyped(c, en)
	var found []grammar.Entry
	if next != nil {
		found = append(amend.Swapped(next, e, c.Units), resized(en, e)...)
	}
	switch {
	case len(found) == 1:
		return revise.Correct(c, en, found[0])
	case len(found) > 1:
		return answer.Ask("which length?", "", revise.Choices(c, en, found)...)
	case e.Of == "" && e.Old.L != 0: // of an earlier one: another may have come between
		if r, _, _ := revise.InWords(c, e.String()); r != nil && r.Ask != nil {
			r.Ask.Why = fmt.Sprintf("your last note has no %s. This one?", c.Len(e.Old.L))
			return *r
		}
	}
	if next == nil {
		return revise.Unread(en)
	}
	want := "no length"
	if e.Old.L != 0 {
		want = "no " + c.Len(e.Old.L)
	}
	if _, ok := next.(boards.StockSet); ok {
		want = "no such number"
	}
	try := ""
	if _, thing := next.(record.Refix); thing {
		try = next.String()
	}
	return answer.No(fmt.Sprintf("there is %s in your last entry: %s", want, say.FirstLine(en.Text)), try)
}

// corrected returns the entry that a correction is of: that of what it names, which makes its room the one at
// hand, or else the sender's last.
func corrected(c *answer.Ctx, of string, with func(string) grammar.Entry) (*site.Entry, *answer.Reply) {
	if of != "" {
		return subject(c, of, with)
	}
	en := c.State.LastOf(c.Who)
	if en != nil {
		return en, nil
	}
	if _, stop := subject(c, record.It, with); stop != nil && stop.Ask != nil {
		return nil, stop
	}
	return nil, answer.Stop(answer.No("you have no entry to correct", "fix d1 26 off west"))
}

// turn asks what "other way round" means in the sender's last entry, or in that of a thing.
func turn(c answer.Ctx, e record.Turn) answer.Reply {
	en, stop := corrected(&c, e.Of, func(n string) grammar.Entry { next := e; next.Of = n; return next })
	if stop != nil {
		return *stop
	}
	next := revise.Retyped(c, en)
	if next == nil {
		return revise.Unread(en)
	}
	found := amend.Entry(next, e, c.Units)
	if len(found) == 0 {
		return answer.No(fmt.Sprintf("nothing in your last entry goes the other way round: %s", say.FirstLine(en.Text)), "fix d1 26 off west")
	}
	return answer.Ask(fmt.Sprintf("in place of %s: which one?", strings.TrimPrefix(next.String(), "fix ")), "", append(revise.Choices(c, en, found), grammar.Choice{Label: "no: leave it"})...)
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

// resized returns a noted thing with another size: "6 not 4".
func resized(en *site.Entry, e record.Swap) (out []grammar.Entry) {
	b, ok := en.Body.(event.Thing)
	if !ok || b.Size.A == 0 {
		return nil
	}
	if next, ok := amend.Resized(b.Size, e); ok {
		out = append(out, record.Refix{Name: b.Name, Size: next})
	}
	return out
}

// swapSupport corrects the position of a support, if it was noted where the sender says.
func swapSupport(c answer.Ctx, s place.Support, e record.Swap) answer.Reply {
	at := c.Room.Shell().FromStart(place.Ceiling, place.Point{}.With(s.Axis(), s.Pos)).On(s.Axis())
	from := place.Ceiling.Start(s.Axis())
	next, err := c.Parse(fmt.Sprintf("%s at %s off %s", s.Name(), e.New, from), false)
	if err != nil {
		return answer.No("no telling where that is", s.Name()+" at 57 1/4")
	}
	if d := at - e.Old.L; e.Old.L != 0 && max(d, -d) > settle.Agrees {
		return answer.Ask(fmt.Sprintf("%s was noted %s off %s, not at %s. Put it right all the same?", s.Name(), c.Near(at), from, c.Len(e.Old.L)), "",
			c.As(fmt.Sprintf("%s off %s", c.Said(e.New), from), next.Entry), grammar.Choice{Label: "leave it"})
	}
	return c.Answer(next.Entry)
}
