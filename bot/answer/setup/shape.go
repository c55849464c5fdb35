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

type shapeFacts struct {
	Surface string  `json:"surface"`
	X       say.Len `json:"x"`
	Y       say.Len `json:"y"`
}

func shapeOf(c answer.Ctx, on place.Surface) shapeFacts {
	x, y := c.Room.Shell().Extent(on)
	return shapeFacts{string(on), c.Fact(x), c.Fact(y)}
}

// slope notes a ceiling that slopes down to a wall.
func slope(c answer.Ctx, e rooms.Slope) answer.Reply {
	ew, ns := c.Room.Shell().Framing()
	v, _ := c.Room.Said()
	e.High.L = cmp.Or(e.High.L, v.High, c.Room.Shell().Slopes[e.Wall.Opposite()].High) // the flat part is level
	if e.High.L == 0 {
		r := answer.Ask("how high is the ceiling where it is flat? e.g. `96`", c.LineOf(e).String())
		r.Ask.Lead = "high"
		return r
	}
	b, stop := slopeBody(c, c.Room.Name, e, ew, ns)
	if stop != nil {
		return *stop
	}
	before := revise.Snap(c, c.Room)
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		on := place.Slope(b.Wall)
		_, up := c.Room.Shell().Extent(on)
		x := c.Room.Shell().Long(on)
		r := c.Noted(en, "slope", shapeOf(c, on), fmt.Sprintf("%s %s; %s long x %s up along it", c.Room.Name, slopeText(c, b), c.Near(x), c.Near(up)))
		slopeCheck(&r, b.Wall)
		revise.Moves(c, &r, before)
		return r
	})
}

// slopeBody returns a slope of a room of that size, or what is wrong with it.
func slopeBody(c answer.Ctx, room string, e rooms.Slope, ew, ns length.Length) (event.Slope, *answer.Reply) {
	deep := e.Wall.Deep(ew, ns)
	if e.High.L < e.Low.L {
		e.High, e.Low = e.Low, e.High
	}
	switch {
	case e.High.L == e.Low.L:
		return event.Slope{}, answer.Stop(answer.Ask(fmt.Sprintf("%s at both edges is no slope; send the two heights", c.Len(e.High.L)), ""))
	case e.Over.L > deep:
		return event.Slope{}, answer.Stop(answer.Ask(fmt.Sprintf("a slope over %s? %s is only %s from the %s wall to the %s; send it again", c.Len(e.Over.L), room, c.Len(deep), e.Wall, e.Wall.Opposite()), ""))
	}
	b := event.Slope{Room: room, Wall: e.Wall, High: e.High.L, Low: e.Low.L, Over: e.Over.L}
	if b.Over == deep {
		b.Over = 0
	}
	return b, nil
}

// slopeText reads a slope back.
func slopeText(c answer.Ctx, b event.Slope) string {
	text := fmt.Sprintf("slope %s %s to %s", b.Wall, c.Len(b.High), c.Len(b.Low))
	if b.Over != 0 {
		text += ", over " + c.Len(b.Over)
	}
	return text
}

// slopeCheck gives the consequences of a slope.
func slopeCheck(r *answer.Reply, w place.Wall) {
	side := [2]place.Wall{place.West, place.East}
	if w.Along() == place.Y {
		side = [2]place.Wall{place.North, place.South}
	}
	r.Note("check", fmt.Sprintf("the boards of the %s and %s walls are planned to it", side[0], side[1]))
}

// bulkhead notes a boxed part under the ceiling.
func bulkhead(c answer.Ctx, e rooms.Bulkhead) answer.Reply {
	deep := e.Wall.Deep(c.Room.Shell().Framing())
	if e.Off.L+e.Wide.L > deep {
		return answer.Ask(fmt.Sprintf("that is past the %s wall: %s off %s and %s wide in %s; send it again", e.Wall.Opposite(), c.Len(e.Off.L), e.Wall, c.Len(e.Wide.L), c.Len(deep)), "")
	}
	b := event.Bulkhead{Room: c.Room.Name, Wall: e.Wall, Wide: e.Wide.L, Drop: e.Drop.L, N: e.N}
	if e.Off.L > 0 {
		b.Off = e.Off.L + c.Room.Board(e.Wall, c.Sent.UnixMilli())
	}
	if !c.Line.Sure && e.N == 0 {
		it, stop := which(c, e, b, deep)
		if stop != nil {
			return *stop
		}
		if b = it; b.Wall != e.Wall {
			e.Wall, e.Off = b.Wall, length.Said{L: b.Off - c.Room.Board(b.Wall, c.Sent.UnixMilli())}
		}
	}
	was := ""
	if old, ok := c.Room.Shell().Bulkhead(b.Wall, b.N); ok {
		was = fmt.Sprintf(" (was %s x %s)", c.Len(old.Wide), c.Len(old.Drop))
	}
	before := revise.Snap(c, c.Room)
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		bottom := place.Part(b.Wall, b.N, place.Bottom)
		x := c.Room.Shell().Long(bottom)
		at, faces := "along "+string(b.Wall), "face"
		if b.Off > 0 {
			at, faces = fmt.Sprintf("%s off %s", c.Said(e.Off), b.Wall), "face and back"
		}
		r := c.Noted(en, "bulkhead", shapeOf(c, bottom), fmt.Sprintf("%s %s%s %s x %s, %s; %s long, bottom %s, %s %s; the ceiling stops at it",
			c.Room.Name, place.Nth(b.N, "bulkhead"), was, c.Len(b.Wide), c.Len(b.Drop), at, c.Near(x), c.Len(b.Wide), faces, c.Len(b.Drop)))
		revise.Moves(c, &r, before)
		return r
	})
}

// which finds out whether a bulkhead said without its ordinal is one of those noted that way: the one it
// overlaps. If it is clear of all of them it asks.
func which(c answer.Ctx, e rooms.Bulkhead, b event.Bulkhead, deep length.Length) (event.Bulkhead, *answer.Reply) {
	across := e.Wall.Opposite()
	mirror := b
	mirror.Wall, mirror.Off = across, deep-b.Off-b.Wide
	var had []event.Bulkhead // along the same wall
	for _, o := range c.Room.Shell().Bulkheads {
		at := b
		switch o.Wall {
		case across:
			at = mirror
		case e.Wall:
			had = append(had, o)
		default:
			continue
		}
		if at.Off < o.Off+o.Wide && o.Off < at.Off+at.Wide {
			at.N = o.N
			return at, nil
		}
	}
	if had == nil {
		return b, nil
	}
	var choices []grammar.Choice
	is := "one of these"
	var where []string
	for _, o := range had {
		moved := e
		moved.N = o.N
		at := "along " + string(e.Wall)
		if o.Off > 0 {
			at = c.Len(o.Off) + " off " + string(e.Wall)
		}
		where = append(where, fmt.Sprintf("%s, %s x %s", at, c.Len(o.Wide), c.Len(o.Drop)))
		label := "yes, moved"
		if len(had) > 1 {
			label = "the one " + at + ", moved"
		}
		choices = append(choices, c.Sure(label, moved))
	}
	if len(had) == 1 {
		is = "this one"
	}
	another, label := e, "no, another one"
	if _, taken := c.Room.Shell().Bulkhead(across, 0); !taken {
		another.Wall, another.Off = across, length.Said{L: mirror.Off - c.Room.Board(across, c.Sent.UnixMilli())}
		label += fmt.Sprintf(": noted as %s off %s", c.Len(another.Off.L), across)
		if another.Off.L <= 0 {
			another.Off = length.Said{}
			label = fmt.Sprintf("no, another one: noted along %s", across)
		}
		choices = append(choices, c.As(label, another))
	} else if n := len(had); n < len(place.Ordinals) {
		another.N = free(c, e.Wall)
		choices = append(choices, c.Sure(fmt.Sprintf("%s: the %s off %s", label, place.Ordinals[another.N], e.Wall), another))
	} else {
		choices = append(choices, grammar.Choice{Label: fmt.Sprintf("no: %s has three along %s, no more can be noted", c.Room.Name, e.Wall)})
	}
	return b, answer.Stop(answer.Ask(fmt.Sprintf("%s has a bulkhead %s. Is it %s?", c.Room.Name, strings.Join(where, " and "), is), "", choices...))
}

// free returns the first ordinal along wall w that no bulkhead has.
func free(c answer.Ctx, w place.Wall) int {
	n := 1
	for _, ok := c.Room.Shell().Bulkhead(w, n); ok && n+1 < len(place.Ordinals); _, ok = c.Room.Shell().Bulkhead(w, n) {
		n++
	}
	return n
}
