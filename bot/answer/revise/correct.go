// Package revise corrects and strikes entries, and says what that moves.
package revise

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/record"
	"strapline/grammar/things"
)

// Strikes returns lines that strike the entries, newest first.
func Strikes(all []*site.Entry) []grammar.Line {
	newest := slices.SortedFunc(slices.Values(all), func(a, b *site.Entry) int { return int(b.Seq) - int(a.Seq) })
	return say.Each(newest, func(en *site.Entry) grammar.Line { return grammar.Line{Entry: record.Strike{Seq: int(en.Seq)}} })
}

// SaidTogether returns the entries made by one line, newest first: rows of a layout hung together, or a
// correction and the strike of what it replaced.
func SaidTogether(c answer.Ctx, en *site.Entry) (all []*site.Entry) {
	for _, e := range c.State.Entries {
		rows := e.Body.Kind() == "hung" && en.Body.Kind() == "hung"
		right := e.Body.Kind() == "strike" && e.Seq+1 == en.Seq && en.Body.Kind() != "strike"
		together := (rows || right) && e.Who == en.Who && e.Sent == en.Sent && e.Text == en.Text
		if e == en || together && !e.Struck() {
			all = append(all, e)
		}
	}
	slices.Reverse(all)
	return all
}

// Strike strikes an entry and says what that changes. many: other entries of its line are struck too.
func Strike(c answer.Ctx, en *site.Entry, undo, many bool) answer.Reply {
	if b, ok := en.Body.(event.RoomSize); ok {
		if r := c.State.Room(b.Room); r != nil && r.Used() && r.Sizes() == 1 {
			if _, now := r.Said(); now == en {
				return answer.No(fmt.Sprintf("%s has notes in it; send its right size instead", b.Room), answer.RoomAsSaid(b))
			}
		}
	}
	noted := c.ThingsOf(en)
	older := map[*site.ThingState]bool{} // a newer note of it stands
	wasCovered := map[*site.ThingState]*frame.Piece{}
	for _, th := range noted {
		_, now := th.Now()
		older[th] = now != en
		if st, over := th.Stands(); st == site.Covered {
			wasCovered[th] = over
		}
	}
	before := Snap(c, c.State.Room(en.Room))
	return answer.Save(event.Strike{Seq: en.Seq, Undo: undo}, func(*site.Entry) answer.Reply {
		r := answer.Reply{Kind: "strike"}
		row := ""
		if b, ok := en.Body.(event.Hung); ok && many {
			row = fmt.Sprintf(", row %d", b.Row)
		}
		r.Text = fmt.Sprintf("struck %d: %s%s (%s)", en.Seq, say.FirstLine(en.Text), row, c.ByWhen(en))
		if b, ok := en.Body.(event.Strike); ok {
			if back := c.State.Entry(b.Seq); back != nil {
				r.Text = fmt.Sprintf("brought back %d: %s (%s)", back.Seq, say.FirstLine(back.Text), c.ByWhen(back))
			}
		}
		var gone []string
		for _, th := range noted {
			if v, e := th.Now(); e != nil && many && older[th] {
				continue
			} else if e != nil {
				r.Note("moved", fmt.Sprintf("%s is back to %d: %s", th.Name, e.Seq, c.In(th.Room).Coords(v.Surface, th.At())))
			} else {
				gone = append(gone, th.Name)
				if over := wasCovered[th]; over != nil {
					r.Note("covered", fmt.Sprintf("%s was covered by %s: it is off the list now", th.Name, say.Piece(over)))
				}
			}
			if at, had := before.at[th]; had && (len(th.Standing()) == 0 || offWalls(th) != at) {
				TellTold(c, &r, th, en)
			}
		}
		if len(gone) > 0 && len(wasCovered) == 0 {
			r.Note("moved", "off the list: "+strings.Join(gone, ", "))
		}
		Moves(c, &r, before, noted...)
		return r
	})
}

// Correct replaces one of the sender's entries by another of its kind. Values with versions get a new
// version, so the old one is kept beside it. Others add up, so the old one is struck before the new one is
// read.
func Correct(c answer.Ctx, en *site.Entry, next grammar.Entry) answer.Reply {
	if c.Room = c.State.Room(en.Room); c.Room == nil {
		c.Room = c.State.RoomOf(c.Who)
	}
	switch b := en.Body.(type) {
	case event.Thing:
		switch n := next.(type) {
		case record.Refix:
			return c.Answer(n)
		case things.Thing:
			if n.What == b.What {
				return c.Answer(record.Refix{Name: b.Name, Size: n.Size, Fixes: n.Fixes})
			}
		}
	case event.RoomSize, event.MarkSet, event.SupportFix:
		return c.Answer(next)
	}
	return answer.Save(event.Strike{Seq: en.Seq}, func(*site.Entry) answer.Reply {
		return c.Answer(next).After(func(r answer.Reply) answer.Reply {
			if r.Taken() {
				r.Note("moved", fmt.Sprintf("in place of %d: %s", en.Seq, say.FirstLine(en.Text)))
			} else {
				r.Lead = append(r.Lead, fmt.Sprintf("struck %d: %s", en.Seq, say.FirstLine(en.Text)))
			}
			return r
		})
	})
}

// InUse says why entries must not be changed without asking, "" if they may.
func InUse(c answer.Ctx, old []*site.Entry) string {
	for _, en := range old {
		for _, th := range c.ThingsOf(en) {
			if st, over := th.Stands(); st == site.Covered {
				return fmt.Sprintf("%s is covered by %s", th.Name, say.Piece(over))
			}
			if told := th.ToldSince(en, ""); len(told) > 0 {
				return fmt.Sprintf("%s was given to %s", th.Name, c.ByWhen(told[0]))
			}
		}
		if _, ok := en.Body.(event.Gap); ok {
			return "a cut size was worked out from it"
		}
	}
	return ""
}
