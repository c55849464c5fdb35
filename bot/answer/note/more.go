package note

import (
	"cmp"
	"fmt"
	"strings"

	"strapline/bot/answer"
	"strapline/calc/event"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/relate"
)

// more notes further things in a line, each off the one before.
func more(c answer.Ctx, e relate.More) answer.Reply {
	from, stop := c.OneThing(e.Of, func(n string) grammar.Entry { next := e; next.Of = n; return next })
	if stop != nil {
		return *stop
	}
	c.Room = from.Room
	if stop := sane(c, e.What, e.Size); stop != nil {
		return *stop
	}
	v, _ := from.Now()
	a, grows, ok := v.Surface.Axis(e.Dir)
	if !ok {
		return answer.No(fmt.Sprintf("%s is not a side of the %s wall, which %s is on", e.Dir, v.Surface, from.Name), "")
	}
	step := e.Step.L
	if grows { // toward that wall
		step = -step
	}
	b := event.Things{Room: c.Room.Name}
	n, at, last := c.Room.Nth(e.What), from.At(), from.Name
	for i := range e.Count {
		at = at.With(a, at.On(a)+step)
		if !c.Room.Shell().Holds(v.Surface, at, v.Size) {
			return answer.Ask(fmt.Sprintf("number %d would be outside %s: %s. Send it again", i+1, c.Room.Name, c.Coords(v.Surface, at)), "")
		}
		th := event.Thing{
			Room: c.Room.Name, Name: fmt.Sprintf("%s %d", e.What, n+i+1), What: e.What, Surface: v.Surface, Size: e.Size, Point: at, New: true,
			Fixes: []place.Fix{{How: place.DirOf, Said: e.Step, Dir: e.Dir, Of: place.Of{Name: last}}},
		}
		if answer.KindOf(e.What).AfterPaint {
			th.Due = "after paint"
		}
		b.Each, last = append(b.Each, th), th.Name
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		var facts ThingsFacts
		var places []string
		for _, th := range b.Each {
			facts.Things = append(facts.Things, FactsOf(c, c.Room.Thing(th.Name)))
			places = append(places, c.Near(c.Room.Shell().FromStart(v.Surface, th.Point).On(a)))
		}
		r := c.Noted(en, "things", facts, fmt.Sprintf("%s %d more %s%s, %s apart %s of %s = %s: %s off %s, in line at %s off %s (studs, centre)",
			c.Where(v.Surface), e.Count, lex.Plural(e.What), c.Size(e.Size), c.Said(e.Step), e.Dir, from.Name, named(e, n), strings.Join(places, ", "), off(v.Surface, a), c.Near(c.Room.Shell().FromStart(v.Surface, at).On(a.Other())), off(v.Surface, a.Other())))
		for _, th := range b.Each {
			clash(c, &r, th, th.Point)
		}
		return r
	})
}

// named lists the names of the things noted.
func named(e relate.More, n int) string {
	if e.Count == 1 {
		return fmt.Sprintf("%s %d", e.What, n+1)
	}
	return fmt.Sprintf("%s %d to %d", e.What, n+1, n+e.Count)
}

// off returns what a coordinate of a surface is measured from.
func off(s place.Surface, a place.Axis) string {
	return cmp.Or(string(s.Start(a)), "the floor")
}
