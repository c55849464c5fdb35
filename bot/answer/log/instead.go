package log

import (
	"fmt"
	"slices"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/answer/settle"
	"strapline/calc/event"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/record"
	"strapline/grammar/things"
)

// instead corrects the wall, the kind or the room of a thing, or where its distances were measured to; of any
// other entry, the part that is named.
func instead(c answer.Ctx, e record.Instead) answer.Reply {
	en, stop := corrected(&c, e.Of, func(n string) grammar.Entry { next := e; next.Of = n; return next })
	if stop != nil {
		return *stop
	}
	b, ok := en.Body.(event.Thing)
	if !ok || e.Edge || e.Centre {
		return insteadIn(c, en, e)
	}
	c = c.In(c.State.Room(b.Room))
	switch {
	case e.Wall != "":
		return otherWall(c, b, e)
	case e.Room != "":
		return otherRoom(c, b, e.Room)
	}
	return again(c, c, b, e.What)
}

// insteadIn corrects the one part of an entry that was said otherwise, and asks which if it may be several.
func insteadIn(c answer.Ctx, en *site.Entry, e record.Instead) answer.Reply {
	next := revise.Retyped(c, en)
	if next == nil {
		return revise.Unread(en)
	}
	if room := c.State.Room(e.Room); room != nil && en.Room != "" && room.Name != en.Room && answer.OfRoom(next) {
		there := c.In(room)
		there.Line.Room = room.Name
		return strikeAll(c, revise.SaidTogether(c, en), false, false, nil).After(func(struck answer.Reply) answer.Reply {
			return there.Answer(next).After(func(r answer.Reply) answer.Reply { return answer.Join([]answer.Reply{struck, r}) })
		})
	}
	of := func(en *site.Entry) bool { b, ok := en.Body.(event.Hung); return ok && b.Row == e.Row }
	if all := revise.SaidTogether(c, en); len(all) > 1 && slices.ContainsFunc(all, of) { // "rows 2 and 3 up", "only row 2"
		return strikeAll(c, slices.DeleteFunc(all, of), false, true, nil)
	}
	return revise.Last(c, en, e)
}

// again strikes all notes of a thing and notes it anew in the room that there refers to.
func again(c, there answer.Ctx, b event.Thing, what string) answer.Reply {
	next := things.Thing{What: what, Size: b.Size, Label: b.Label, Surface: answer.SaidOn(b.Surface), Fixes: b.Fixes}
	if _, _, stop := settle.Place(there, b.Surface, b.Fixes, b.Size, func([]place.Fix) grammar.Entry { return next }); stop != nil {
		return answer.No(fmt.Sprintf("%s does not fit in %s: it was noted %s", b.Name, there.Room.Name, fixesOf(c, b)), "find "+b.Name)
	}
	return strikeAll(c, c.Room.Thing(b.Name).Standing(), false, true, nil).After(func(answer.Reply) answer.Reply {
		return there.Answer(next).After(func(r answer.Reply) answer.Reply {
			r.Note("moved", fmt.Sprintf("in place of %s in %s", b.Name, b.Room))
			return r
		})
	})
}

// otherWall measures the distance off one wall from another instead.
func otherWall(c answer.Ctx, b event.Thing, e record.Instead) answer.Reply {
	a, _, ok := b.Surface.Axis(e.Wall)
	var found []int
	for i, f := range b.Fixes {
		across, _, _ := b.Surface.Axis(f.Wall)
		if f.Wall != "" && f.Wall != e.Wall && (f.Wall == e.NotWall || e.NotWall == "" && ok && across == a) {
			found = append(found, i)
		}
	}
	if on := place.Wall(b.Surface); len(found) == 0 && b.Surface.IsWall() && on != e.Wall && (e.NotWall == "" || e.NotWall == on) { // it is in another wall
		b.Surface = place.Surface(e.Wall)
		return again(c, c, b, b.What)
	}
	if !ok || len(found) != 1 {
		return answer.No(fmt.Sprintf("which distance of %s would be off %s? It was noted %s", b.Name, e.Wall, fixesOf(c, b)), "fix "+b.Name+" 26 off "+string(e.Wall))
	}
	fixes := slices.Clone(b.Fixes)
	fixes[found[0]].Wall = e.Wall
	return c.Answer(record.Refix{Name: b.Name, Fixes: fixes})
}

// otherRoom strikes a thing's note and notes it in the other room.
func otherRoom(c answer.Ctx, b event.Thing, name string) answer.Reply {
	room := c.State.Room(name)
	if room == nil || room.Name == b.Room {
		return answer.No(fmt.Sprintf("%s is noted in %s", b.Name, b.Room), "find "+b.Name)
	}
	there := c.In(room)
	there.Line.Room = room.Name
	return again(c, there, b, b.What)
}

func fixesOf(c answer.Ctx, b event.Thing) string {
	th := c.Room.Thing(b.Name)
	if th == nil {
		return "it is not in " + c.Room.Name
	}
	return c.Coords(b.Surface, th.At())
}
