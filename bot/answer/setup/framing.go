package setup

import (
	"cmp"
	"fmt"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/rooms"
)

// maximum number of supports in a set; more means that the spacing is wrong
const mostSupports = 400

func supportSet(c answer.Ctx, e rooms.SupportSet) answer.Reply {
	b := event.Supports{
		Room: c.Room.Name, Surface: answer.SurfaceOf(e.Surface), What: e.What,
		Run: e.Run, From: e.From, Spacing: e.Spacing.L, Thick: e.Thick.L, Wide: e.Wide.L,
	}
	if stop := askSupports(c, e, b.Surface); stop != nil {
		return *stop
	}
	if b.Surface.Upright() {
		b.Run = place.Up
		b.From = cmp.Or(b.From, b.Surface.Start(place.X))
	} else if b.From == "" {
		b.From = map[place.Direction]place.Wall{place.EW: place.North, place.NS: place.West}[b.Run]
	}
	b.At = say.Each(e.At, func(l length.Said) length.Length { return l.L })
	if b.Spacing != 0 {
		if b.Spacing < 3*length.Inch || b.Spacing > 4*length.Foot {
			return answer.Ask(fmt.Sprintf("%s %s apart? send it again", b.What, c.Len(b.Spacing)), "")
		}
		b.At = spaced(c, b, e)
	}
	if stop := onSurface(c, b); stop != nil {
		return *stop
	}
	if thickest := map[bool]length.Length{true: 5 * length.Inch / 2, false: 16 * length.Inch}[b.What == place.Straps || b.What == place.Channels]; b.Thick > thickest {
		return answer.Ask(fmt.Sprintf("%s %s thick? send it again, e.g. `%s 5/8 thick`", b.What, c.Len(b.Thick), b.What), "")
	}
	had := c.Room.SupportsOf(b.Surface, b.What)
	before := revise.Snap(c, c.Room)
	if len(b.At) == 0 && len(had) == 0 && b.Run != "" && !b.Surface.Upright() {
		u := c.State.Units()
		return answer.Ask(fmt.Sprintf("%s %s: how far apart? e.g. `%s oc`", b.What, say.Direction(b.Run), u.Pick("16", "400")), c.LineOf(e).String())
	}
	if len(b.At) == 0 && len(had) == 0 {
		return answer.No(fmt.Sprintf("no %s noted in %s yet", b.What, c.Room.Name), string(b.What)+" ew 16 oc first 14 3/8 off north")
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		r := supportsNoted(c, en, b, had)
		revise.Moves(c, &r, before)
		return r
	})
}

// askSupports asks for what a set must give: its direction, and the position of its first support. Neither
// is guessed.
func askSupports(c answer.Ctx, e rooms.SupportSet, s place.Surface) *answer.Reply {
	if e.Spacing.L == 0 && len(e.At) == 0 {
		return nil // only a thickness or a width
	}
	if w := s.SlopeTo(); e.Run == "" && w != "" && e.What == place.Joists { // rafters run up it
		e.Run = map[bool]place.Direction{true: place.EW, false: place.NS}[w.EastWest()]
	}
	if e.Run == "" && e.What == place.Studs && !s.Upright() {
		var choices []grammar.Choice
		for _, w := range place.Walls {
			if next := e; e.From == "" || w != e.From && w != e.From.Opposite() {
				next.Surface = place.Surface(w)
				choices = append(choices, c.As(string(w)+" wall", next))
			}
		}
		return answer.Stop(answer.Ask("studs on which wall?", "", choices...))
	}
	if e.Run == "" && !s.Upright() {
		var choices []grammar.Choice
		for _, r := range []place.Direction{place.EW, place.NS} {
			next := e
			next.Run = r
			choices = append(choices, c.As(say.Direction(r), next))
		}
		return answer.Stop(answer.Ask(fmt.Sprintf("which way do the %s run?", e.What), "", choices...))
	}
	if e.Spacing.L != 0 && e.First.L == 0 {
		off := s.Start(place.X)
		if !s.Upright() {
			off = s.Start(s.Lie(e.Run).Other())
		}
		first := c.State.Units().Pick("14 3/8", "365")
		in := ""
		if c.Room != c.State.RoomOf(c.Who) {
			in = c.Room.Name + ": "
		}
		if s.SlopeTo() != "" {
			in += string(s) + ": "
		}
		r := answer.Ask(fmt.Sprintf("%swhere is the first one? e.g. `first %s off %s`", in, first, off), c.LineOf(e).String())
		r.Ask.Lead = "first"
		return &r
	}
	if e.From != "" {
		return nil
	}
	var choices []grammar.Choice
	for _, w := range place.Walls {
		a, _, ok := s.Axis(w)
		if !ok || !s.Upright() && (a == place.Y) != (e.Run == place.EW) {
			continue
		}
		next := e
		next.From = w
		choices = append(choices, c.As(string(w), next))
	}
	return answer.Stop(answer.Ask("measured off which wall?", "", choices...))
}

// spaced returns the positions of an even set, from the first to the far wall.
func spaced(c answer.Ctx, b event.Supports, e rooms.SupportSet) []length.Length {
	x, y := c.Room.Shell().Extent(b.Surface)
	across := place.Point{X: x, Y: y}.On(b.Surface.Lie(b.Run).Other())
	reach := across - c.Room.BoardAt(b.Surface, b.From, site.EndOfTime)
	var at []length.Length
	for d := e.First.L; d < reach && len(at) < mostSupports; d += b.Spacing {
		at = append(at, d)
	}
	return at
}

// onSurface refuses positions outside the room.
func onSurface(c answer.Ctx, b event.Supports) *answer.Reply {
	x, y := c.Room.Shell().Extent(b.Surface)
	across := place.Point{X: x, Y: y}.On(b.Surface.Lie(b.Run).Other())
	if len(b.At) > mostSupports {
		return answer.Stop(answer.No(fmt.Sprintf("at most %d in one set", mostSupports), ""))
	}
	if _, _, ok := c.Room.Shell().NotchToward(b.Surface, b.From, place.Point{}); ok && b.Surface.IsWall() && len(b.At) > 0 {
		from := b.From.Opposite()
		return answer.Stop(answer.No(fmt.Sprintf("a notch stands at the %s end of the %s: measure its %s off %s", b.From, b.Surface.Name(), b.What, from),
			fmt.Sprintf("%s 16 oc first 15 1/4 off %s on %s", b.What, from, b.Surface.Name())))
	}
	for i, d := range b.At {
		if d > across {
			return answer.Stop(answer.Ask(fmt.Sprintf("%s %d at %s is outside %s (%s there). Send the list again", place.Of{Sup: b.What, N: i + 1}.String(), i+1, c.Len(d), c.Room.Name, c.Len(across)), ""))
		}
	}
	return nil
}

func supportsNoted(c answer.Ctx, en *site.Entry, b event.Supports, had []place.Support) answer.Reply {
	set := c.Room.SupportsOf(b.Surface, b.What)
	where := c.Where(b.Surface)
	thick := fmt.Sprintf("%s thick", c.Thick(set[0].Thick))
	if !set[0].Measured {
		thick += " assumed"
	}
	facts := strapsFacts{Surface: string(b.Surface), What: string(b.What), Run: string(set[0].Run), Thick: c.Fact(set[0].Thick)}
	facts.At = say.Each(set, func(p place.Support) say.Len { return offStart(c, b.Surface, p) })
	if len(b.At) == 0 {
		return c.Noted(en, "straps", facts, fmt.Sprintf("%s %s %s, %s wide", where, b.What, thick, c.Len(set[0].Wide)))
	}
	dir := map[place.Direction]string{place.EW: " east-west", place.NS: " north-south", place.Up: ""}[b.Run]
	text := fmt.Sprintf("%s %d %s%s", where, len(set), b.What, dir)
	if b.Spacing != 0 {
		text += fmt.Sprintf(", %s on centre, first %s, last %s off %s", c.Len(b.Spacing), c.Len(b.At[0]), c.Len(b.At[len(b.At)-1]), b.From)
	} else {
		text += " at " + strings.Join(say.Each(b.At, c.Len), ", ") + " off " + string(b.From)
	}
	r := c.Noted(en, "straps", facts, text+", "+thick)
	if now := c.Room.Supports(b.Surface); len(now) > 0 {
		for _, k := range []place.SupportKind{place.Straps, place.Channels} {
			if k != now[0].Kind && len(c.Room.SupportsOf(b.Surface, k)) > 0 {
				r.Note("check", fmt.Sprintf("the board goes on the %s; the %s are behind them", now[0].Kind, k))
			}
		}
	}
	if len(had) > 0 {
		r.Note("moved", fmt.Sprintf("replaces the %s noted before", say.Supports(len(had), b.What)))
	}
	return r
}

func supportFix(c answer.Ctx, e rooms.SupportFix) answer.Reply {
	s, kind := answer.SurfaceOf(e.Surface), e.What
	set := c.Room.SupportsOf(s, kind)
	name := place.Of{Sup: kind, N: e.N}.String()
	if e.N > len(set)+1 || (e.N > len(set) && (e.At.L == 0 || len(set) == 0)) {
		return answer.No(fmt.Sprintf("%s has %s", c.Room.Name, say.Supports(len(set), kind)), fmt.Sprintf("%s ns at 9 1/2 25 1/4 41 off west", kind))
	}
	b := event.SupportFix{
		Room: c.Room.Name, Surface: s, What: kind, N: e.N, Moved: e.At.L != 0, At: e.At.L, From: e.From,
		Start: e.Start.L, End: e.End.L, Wall: e.Wall, Stops: e.Stops,
	}
	if b.Wall != "" {
		if a, _, ok := s.Axis(b.Wall); !ok || a == set[e.N-1].Axis() {
			return answer.No(fmt.Sprintf("%s runs %s, it cannot stop short of the %s wall", name, say.Direction(set[e.N-1].Run), b.Wall), "")
		}
	}
	if b.Moved {
		if stop := strapInside(c, s, set, b); stop != nil {
			return *stop
		}
	}
	before := revise.Snap(c, c.Room)
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		r := supportFixed(c, en, e, b, set)
		revise.Moves(c, &r, before)
		return r
	})
}

// supportFixed reads back one corrected support. set is the supports as they were before.
func supportFixed(c answer.Ctx, en *site.Entry, e rooms.SupportFix, b event.SupportFix, set []place.Support) answer.Reply {
	s, kind := b.Surface, b.What
	name := place.Of{Sup: kind, N: e.N}.String()
	now := c.Room.SupportsOf(s, kind)
	if e.N > len(now) { // it was sent late
		return c.Noted(en, "straps", nil, fmt.Sprintf("%s %s at %s, but the %s were noted anew after that: there are %d", c.Room.Name, name, c.Said(e.At), kind, len(now)))
	}
	p := now[e.N-1]
	text := fmt.Sprintf("%s %s", c.Room.Name, name)
	if b.Moved {
		text += fmt.Sprintf(" at %s", c.Said(e.At))
		off := cmp.Or(b.From, c.Room.MeasuredFrom(s, kind))
		text += " off " + string(off)
		if e.N <= len(set) && set[e.N-1].Pos != p.Pos {
			text += fmt.Sprintf(" (was %s)", c.Near(c.Room.Shell().Off(s, off, midOf(c, s, set[e.N-1]))))
		}
	}
	if b.Wall != "" {
		text += fmt.Sprintf(" runs from %s to %s off %s", c.Len(p.From), c.Len(p.To), say.Start(p.Run))
	}
	facts := strapsFacts{Surface: string(s), What: string(kind), Run: string(p.Run), Thick: c.Fact(p.Thick)}
	facts.At = say.Each(now, func(p place.Support) say.Len { return offStart(c, s, p) })
	r := c.Noted(en, "straps", facts, text)
	for _, q := range now {
		if d := max(q.Pos-p.Pos, p.Pos-q.Pos); b.Moved && q.N != p.N && d < p.Wide {
			r.Note("check", fmt.Sprintf("it now lies on %s, %s apart", q.Name(), c.Near(d)))
		}
	}
	return r
}

// midOf returns the middle of a support of surface s.
func midOf(c answer.Ctx, s place.Surface, p place.Support) place.Point {
	x, y := c.Room.Shell().Extent(s)
	return place.Point{X: x / 2, Y: y / 2}.With(p.Axis(), p.Pos)
}

// strapInside asks about a corrected position outside the room.
func strapInside(c answer.Ctx, s place.Surface, set []place.Support, b event.SupportFix) *answer.Reply {
	x, y := c.Room.Shell().Extent(s)
	across := x
	if set[0].Axis() == place.Y {
		across = y
	}
	if b.At > across {
		return answer.Stop(answer.Ask(fmt.Sprintf("%s off a wall is outside %s (%s there). Send it again", c.Len(b.At), c.Room.Name, c.Len(across)), ""))
	}
	return nil
}

func offStart(c answer.Ctx, s place.Surface, p place.Support) say.Len {
	return c.Fact(c.Room.Shell().FromStart(s, midOf(c, s, p)).On(p.Axis()))
}
