package note

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/answer/runs"
	"strapline/bot/answer/settle"
	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/record"
	"strapline/grammar/things"
)

// mark notes a mark on the framing.
func mark(c answer.Ctx, e things.Mark) answer.Reply {
	s := answer.SurfaceOf(e.Surface)
	fixes, p, stop := settle.Place(c, s, e.Fixes, place.Size{}, func(fs []place.Fix) grammar.Entry { next := e; next.Fixes = fs; return next })
	if stop != nil {
		return *stop
	}
	old, was, had := c.Room.Mark(e.Name)
	if had {
		if stop := sameMark(c, e, old, was, p.Point, s); stop != nil {
			return *stop
		}
	}
	before := revise.Snap(c, c.Room)
	return answer.Save(event.MarkSet{Room: c.Room.Name, Name: e.Name, Surface: s, Fixes: fixes, Point: p.Point}, func(en *site.Entry) answer.Reply {
		r := c.Noted(en, "mark", MarkOf(c, e.Name, s, p.Point),
			c.Where(s)+" mark "+e.Name+": "+settle.Text(c, s, fixes, p))
		checks(c, &r, p, fixes)
		if had && was != p.Point {
			r.Note("moved", "was "+c.Coords(s, was))
		}
		revise.Moves(c, &r, before.Without(e.Name))
		return r
	})
}

func MarkOf(c answer.Ctx, name string, on place.Surface, at place.Point) markFacts {
	f := markFacts{Name: name, Surface: string(on)}
	f.X, f.Y = c.XY(on, at)
	return f
}

// sameMark asks if a colleague has used the name of the mark for another place.
func sameMark(c answer.Ctx, e things.Mark, old event.MarkSet, was, now place.Point, s place.Surface) *answer.Reply {
	who := c.Room.MarkedBy(e.Name)
	if c.Fixing || strings.EqualFold(who, c.Who) || old.Surface == s && max(was.X-now.X, now.X-was.X, was.Y-now.Y, now.Y-was.Y) <= settle.Agrees {
		return nil
	}
	other := e
	for l := 'a'; l <= 'z'; l++ {
		if _, _, taken := c.Room.Mark(string(l)); !taken {
			other.Name = string(l)
			break
		}
	}
	return answer.Stop(answer.Ask(fmt.Sprintf("%s made mark %s at %s. The same one?", who, e.Name, c.Coords(old.Surface, was)), "",
		c.As("same, moved", record.Refix{Name: e.Name, Fixes: e.Fixes}), c.As("another, call it "+other.Name, other)))
}

// refix gives a thing new distances or a new size, and keeps what is not said again.
func refix(c answer.Ctx, e record.Refix) answer.Reply {
	if last := c.State.LastOf(c.Who); e.Name == record.It && last != nil {
		return revise.Last(c, last, e)
	}
	if c.Room != nil && c.IsMark(e.Name) {
		old, _, _ := c.Room.Mark(e.Name)
		c.Fixing = true
		return mark(c, things.Mark{Name: e.Name, Surface: old.Surface, Fixes: e.Fixes})
	}
	if rt := runs.Named(c, e.Name); rt != nil {
		return refixRun(c, e)
	}
	th, stop := c.OneThing(e.Name, func(n string) grammar.Entry {
		next := e
		next.Name, next.Fixes = n, ofItself(e.Fixes, e.Name, n)
		return next
	})
	if stop != nil {
		return *stop
	}
	c.Room, e.Name, e.Fixes = th.Room, th.Name, ofItself(e.Fixes, e.Name, th.Name)
	b, en := th.Now()
	if not := e.Not.L; not != 0 && !slices.ContainsFunc(b.Fixes, func(f place.Fix) bool { return f.L == not }) {
		e.Not = length.Said{}
		return answer.Ask(fmt.Sprintf("%s was noted %s, not at %s. Put it right all the same?", e.Name, c.In(th.Room).Coords(b.Surface, th.At()), c.Len(not)), "",
			c.As("put it right", e), grammar.Choice{Label: "leave it"})
	}
	b.New = false
	if e.Size != (place.Size{}) {
		if stop := sane(c, b.What, e.Size); stop != nil {
			return *stop
		}
		b.Size = e.Size
	}
	with := func(fs []place.Fix) grammar.Entry { next := e; next.Fixes = fs; return next }
	if e.Fixes = fromItself(th, b.Surface, e.Fixes); b.Framed {
		e.Fixes = held(e.Fixes)
	}
	for i, f := range e.Fixes {
		if (f.How == place.OffWall || f.How == place.Along) && f.Wall == "" {
			return settle.AskWall(c, b.Surface, e.Fixes, i, with)
		}
	}
	before, said := revise.Snap(c, c.Room), kept(c, b, en, e.Fixes)
	var p frame.Placed
	if len(e.Fixes) > 0 {
		if len(said) > 0 {
			said = slices.Concat(e.Fixes, said)
		} else {
			said = e.Fixes
		}
		if said, p, stop = settle.Place(c, b.Surface, said, b.Size, with); stop != nil {
			return *stop
		}
	} else {
		var err error
		if p, err = c.Room.Place(b.Surface, said, b.Size, c.Sent.UnixMilli()); err != nil || !p.Whole() {
			p.Point = th.At()
		}
	}
	b.Fixes, b.Point = said, p.Point
	return saveThing(c, b, p).After(func(r answer.Reply) answer.Reply {
		revise.Moves(c, &r, before, th)
		return r
	})
}

// refixRun corrects one distance of a run. For a new path the run has to be sent again.
func refixRun(c answer.Ctx, e record.Refix) answer.Reply {
	if len(e.Fixes) == 1 && e.Not.L != 0 {
		return c.Answer(record.Swap{New: e.Fixes[0].Said, Old: e.Not, Of: e.Name})
	}
	return answer.No(fmt.Sprintf("%s is a run: say which of its distances was wrong, or send the run again", e.Name), "find "+e.Name)
}

// ofItself changes fixes that refer to the thing by the words used into fixes by its name.
func ofItself(fixes []place.Fix, said, name string) []place.Fix {
	out := slices.Clone(fixes)
	for i, f := range out {
		if f.Name == said && f.Sup == "" {
			out[i].Name = name
		}
	}
	return out
}

// fromItself turns "5 south of where it is" into a distance off a wall, to the framing.
func fromItself(th *site.ThingState, on place.Surface, fixes []place.Fix) []place.Fix {
	out := slices.Clone(fixes)
	for i, f := range fixes {
		a, grows, ok := on.Axis(f.Dir)
		if f.How != place.DirOf || f.Name != th.Name || !ok {
			continue
		}
		d := f.L
		if grows {
			d = -d
		}
		out[i] = place.Fix{How: place.OffWall, Wall: on.Start(a), Said: length.Said{L: th.Room.Shell().FromStart(on, th.At()).On(a) + d}, Face: place.Framing}
		if a == place.Y && on.Upright() {
			if out[i] = (place.Fix{How: place.UpFrom, Said: length.Said{L: th.At().Y - d}}); on.IsWall() {
				out[i].Face = place.Subfloor
			}
		}
	}
	return out
}

// kept returns the old fixes that the new ones do not replace, measured to the same faces as then.
func kept(c answer.Ctx, b event.Thing, en *site.Entry, fixes []place.Fix) []place.Fix {
	var taken [2]bool
	for _, f := range fixes {
		if p, err := c.Room.Place(b.Surface, []place.Fix{f}, b.Size, c.Sent.UnixMilli()); err == nil {
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
		p, err := c.Room.Place(b.Surface, []place.Fix{f}, b.Size, en.Sent)
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
			f.L, f.Face = f.L+c.Room.FrontBoard(b.Surface, f, p.Point, en.Sent), place.Framing
		}
		out = append(out, f)
	}
	return out
}
