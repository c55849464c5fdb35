package log

import (
	"cmp"
	"fmt"
	"slices"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/amend"
	"strapline/grammar/record"
	"strapline/grammar/things"
)

// repeat asks whether the sender's last note is to be noted again, off the wall opposite or in another room.
func repeat(c answer.Ctx, e record.Repeat) answer.Reply {
	if e.Of != "" {
		return framedAs(c, e.Of)
	}
	en := c.State.LastOf(c.Who)
	if en == nil {
		return answer.No("you have no entry to repeat", "light 26 off west 41 off north")
	}
	next := anew(c, en)
	if th := c.State.LastThing(c.Who); th != nil && (next == nil || !answer.OfRoom(next)) { // "in bath" has come between
		_, en = th.Now()
		next = anew(c, en)
	}
	if next == nil {
		return revise.Unread(en)
	}
	var choices []grammar.Choice
	line := c.Line
	offer := func(e grammar.Entry) {
		line.Entry = e
		choices = append(choices, grammar.Choice{Label: line.String(), Lines: []grammar.Line{line}})
	}
	if e.Room != "" {
		if line.Room = e.Room; e.Room != en.Room && answer.OfRoom(next) {
			offer(next)
		}
	} else if line.Room = ""; en.Room != "" && len(c.State.Rooms) > 1 {
		line.Room = en.Room
	}
	others := amend.Entry(next, record.Turn{Wall: true}, c.Units)
	if th, ok := next.(things.Thing); ok && e.Room == "" && th.Surface.IsWall() && place.Wall(th.Surface) != e.Wall {
		others = slices.Concat(onWall(th, cmp.Or(e.Wall, place.Wall(th.Surface).Opposite())), others)
	}
	for _, other := range others {
		if th, ok := other.(things.Thing); ok && e.Room == "" && (e.Wall == "" || place.Wall(th.Surface) == e.Wall || offOf(th, e.Wall)) {
			offer(th)
		}
	}
	if len(choices) == 0 {
		return answer.No(fmt.Sprintf("your last entry %q cannot be repeated there", say.FirstLine(en.Text)), next.String())
	}
	return answer.Ask("note this too?", "", append(choices, grammar.Choice{Label: "no: leave it"})...)
}

// framedAs asks whether the framing of another room is noted for this one too: the set that was said last, if it was by its spacing.
func framedAs(c answer.Ctx, room string) answer.Reply {
	if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	if room == c.Room.Name {
		return answer.No("you are in "+room, answer.NoStraps)
	}
	for _, en := range slices.Backward(c.State.Entries) {
		b, ok := en.Body.(event.Supports)
		if !ok || en.Room != room || en.Struck() || b.Spacing == 0 || len(b.At) == 0 {
			continue
		}
		line := grammar.Line{Room: c.Room.Name, Entry: revise.AsTyped(b)}
		return answer.Ask("note this too?", "", grammar.Choice{Label: line.String(), Lines: []grammar.Line{line}}, grammar.Choice{Label: "no: leave it"})
	}
	return answer.No("no straps by their spacing are noted in "+room, answer.NoStraps)
}

// anew returns an entry as it would be typed for another of its kind, nil if that is not possible.
func anew(c answer.Ctx, en *site.Entry) grammar.Entry {
	if b, ok := en.Body.(event.Thing); ok {
		return things.Thing{What: b.What, Size: b.Size, Surface: answer.SaidOn(b.Surface), Fixes: b.Fixes}
	}
	return revise.Retyped(c, en)
}

// onWall puts a thing of one wall in another, off the same corner first if that has it.
func onWall(th things.Thing, on place.Wall) (all []grammar.Entry) {
	from, to := on.Ends()
	for _, w := range []place.Wall{from, to} {
		next, same := th, false
		next.Surface, next.Fixes = place.Surface(on), slices.Clone(th.Fixes)
		for i, f := range next.Fixes {
			if f.How == place.OffWall && f.Wall != "" {
				same, next.Fixes[i].Wall = f.Wall == w, w
			} else if f.How != place.UpFrom && f.How != place.DownTo {
				return nil
			}
		}
		if all = append(all, next); same {
			slices.Reverse(all)
		}
	}
	return all
}

// offOf reports whether a thing is placed off that wall.
func offOf(th things.Thing, w place.Wall) bool {
	return slices.ContainsFunc(th.Fixes, func(f place.Fix) bool { return f.How == place.OffWall && f.Wall == w })
}
