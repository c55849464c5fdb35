package revise

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/amend"
	"strapline/grammar/boards"
	"strapline/grammar/record"
	"strapline/grammar/rooms"
)

// Retyped returns a log entry as the sender could type it again: a thing with its present distances,
// anything else in its own words. It returns nil if that is not possible.
func Retyped(c answer.Ctx, en *site.Entry) grammar.Entry {
	switch b := en.Body.(type) {
	case event.Thing:
		return record.Refix{Name: b.Name, Fixes: slices.Clone(b.Fixes)}
	case event.Note:
		return record.Note{Text: b.Text, Kept: true}
	}
	said := en.Text
	if i := strings.LastIndex(said, say.AnswerSign); i >= 0 {
		if e := AsTyped(en.Body); e != nil {
			return e
		}
		if line, err := c.Parse(said, false); err != nil || line.Entry.Kind() == "note" { // else the sign is the sender's own
			said = said[i+len(say.AnswerSign):]
		}
	}
	if b, ok := en.Body.(event.RoomSize); ok { // its name alone may mean that somebody is in it
		said = answer.RoomAsSaid(b)
	}
	line, err := c.Parse(said, false)
	if err != nil {
		return nil
	}
	if s, ok := line.Entry.(record.Swap); ok { // a correction: what it made of an earlier entry
		old := putRight(c, en)
		if old == nil {
			return nil
		}
		before := Retyped(c, old)
		if before == nil {
			return nil
		}
		if found := amend.Swapped(before, s, c.Units); len(found) == 1 {
			return found[0]
		}
		return nil
	}
	return line.Entry
}

// AsTyped returns what would say a body in full, nil if it is of no kind that is put right.
func AsTyped(b event.Body) grammar.Entry {
	switch b := b.(type) {
	case event.Stock:
		if b.Room == "" {
			return Boards(b)
		}
	case event.Supports:
		set := rooms.SupportSet{What: b.What, Surface: answer.SaidOn(b.Surface), Run: b.Run, From: b.From, Thick: length.Said{L: b.Thick}, Wide: length.Said{L: b.Wide}}
		if b.Spacing != 0 && len(b.At) > 0 {
			set.Spacing, set.First = length.Said{L: b.Spacing}, length.Said{L: b.At[0]}
			return set
		}
		set.At = say.Each(b.At, func(at length.Length) length.Said { return length.Said{L: at} })
		return set
	}
	return nil
}

// Boards are boards as they would be typed.
func Boards(b event.Stock) (e boards.StockSet) {
	e.How = b.How
	for _, i := range b.Items {
		said := boards.Boards{N: i.N, L: length.Said{L: i.L, Tag: length.Exact}, Type: i.Type}
		if i.Thick != 0 {
			said.Thick = length.Said{L: i.Thick, Tag: length.Exact}
		}
		e.Items = append(e.Items, said)
	}
	return e
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

// Last corrects the sender's last entry, whatever it is, and asks if the correction may mean several parts of it.
func Last(c answer.Ctx, en *site.Entry, by grammar.Entry) answer.Reply {
	next := Retyped(c, en)
	if next == nil {
		return Unread(en)
	}
	switch found := amend.Entry(next, by, c.Units); len(found) {
	case 0:
		return unchanged(en, "has nothing that this would change")
	case 1:
		return Correct(c, en, found[0])
	default:
		return answer.Ask("which one?", "", Choices(c, en, found)...)
	}
}

// Unread refuses to correct an entry that cannot be typed again as it is.
func Unread(en *site.Entry) answer.Reply { return unchanged(en, "cannot be corrected that way") }

func unchanged(en *site.Entry, why string) answer.Reply {
	return answer.No(fmt.Sprintf("your last entry %q %s; strike it and send it again", say.FirstLine(en.Text), why), fmt.Sprintf("strike %d", en.Seq))
}

// Choices returns a choice for each of what a correction could make of an entry.
func Choices(c answer.Ctx, en *site.Entry, found []grammar.Entry) (choices []grammar.Choice) {
	for _, f := range found[:min(len(found), 8)] {
		line := grammar.Line{Entry: f}
		if en.Room != "" && len(c.State.Rooms) > 1 {
			line.Room = en.Room
		}
		lines := []grammar.Line{line}
		if !versions(en) {
			lines = []grammar.Line{{Entry: record.Strike{Seq: int(en.Seq)}}, line}
		}
		choices = append(choices, grammar.Choice{Label: f.String(), Lines: lines})
	}
	return choices
}

// versions reports whether a new value of what an entry told is kept beside the old one.
func versions(en *site.Entry) bool {
	switch en.Body.(type) {
	case event.Thing, event.RoomSize, event.MarkSet, event.SupportFix:
		return true
	}
	return false
}
