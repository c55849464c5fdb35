package setup

import (
	"fmt"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

type shapeFacts struct {
	Surface string  `json:"surface"`
	X       say.Len `json:"x"`
	Y       say.Len `json:"y"`
}

func shapeOf(c answer.Ctx, on place.Surface) shapeFacts {
	x, y := c.Room.Extent(on)
	return shapeFacts{string(on), c.Fact(x), c.Fact(y)}
}

// slope notes a ceiling that slopes down to a wall.
func slope(c answer.Ctx, e grammar.Slope) answer.Reply {
	if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	ew, ns := c.Room.Framing()
	b, stop := slopeBody(c, c.Room.Name, e, ew, ns)
	if stop != nil {
		return *stop
	}
	before := c.Snap(c.Room)
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		on := place.Slope(b.Wall)
		x, up := c.Room.Extent(on)
		r := c.Noted(en, "slope", shapeOf(c, on), fmt.Sprintf("%s %s; %s long x %s up along it", c.Room.Name, slopeText(c, b), c.Near(x), c.Near(up)))
		slopeCheck(&r, b.Wall)
		c.Moves(&r, before)
		return r
	})
}

// slopeBody returns a slope of a room of that size, or what is wrong with it.
func slopeBody(c answer.Ctx, room string, e grammar.Slope, ew, ns length.Length) (event.Slope, *answer.Reply) {
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
func bulkhead(c answer.Ctx, e grammar.Bulkhead) answer.Reply {
	if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	deep := e.Wall.Deep(c.Room.Framing())
	if e.Off.L+e.Wide.L > deep {
		return answer.Ask(fmt.Sprintf("that is past the %s wall: %s off %s and %s wide in %s; send it again", e.Wall.Opposite(), c.Len(e.Off.L), e.Wall, c.Len(e.Wide.L), c.Len(deep)), "")
	}
	b := event.Bulkhead{Room: c.Room.Name, Wall: e.Wall, Wide: e.Wide.L, Drop: e.Drop.L}
	if e.Off.L > 0 {
		b.Off = e.Off.L + c.Room.Board(e.Wall, c.Sent.UnixMilli())
	}
	was := ""
	old, ok := c.Room.Bulkhead(e.Wall)
	if clear := b.Off >= old.Off+old.Wide || old.Off >= b.Off+b.Wide; ok && clear && !c.Line.Sure {
		return second(c, e, b, old, deep)
	}
	if ok {
		was = fmt.Sprintf(" (was %s x %s)", c.Len(old.Wide), c.Len(old.Drop))
	}
	before := c.Snap(c.Room)
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		bottom := place.Part(b.Wall, place.Bottom)
		x, _ := c.Room.Extent(bottom)
		at, faces := "along "+string(b.Wall), "face"
		if b.Off > 0 {
			at, faces = fmt.Sprintf("%s off %s", c.Said(e.Off), b.Wall), "face and back"
		}
		r := c.Noted(en, "bulkhead", shapeOf(c, bottom), fmt.Sprintf("%s bulkhead%s %s x %s, %s; %s long, bottom %s, %s %s; the ceiling stops at it",
			c.Room.Name, was, c.Len(b.Wide), c.Len(b.Drop), at, c.Near(x), c.Len(b.Wide), faces, c.Len(b.Drop)))
		c.Moves(&r, before)
		return r
	})
}

// second asks about a bulkhead along a wall that already has one, clear of it: whether that one moved, or
// this is another, named by the wall across.
func second(c answer.Ctx, e grammar.Bulkhead, b, old event.Bulkhead, deep length.Length) answer.Reply {
	across := e.Wall.Opposite()
	at := "along " + string(e.Wall)
	if old.Off > 0 {
		at = c.Len(old.Off) + " off " + string(e.Wall)
	}
	why := fmt.Sprintf("%s has a bulkhead %s, %s x %s. Is it this one?", c.Room.Name, at, c.Len(old.Wide), c.Len(old.Drop))
	choices := []grammar.Choice{c.Sure("yes, moved", e)}
	if _, taken := c.Room.Bulkhead(across); taken {
		choices = append(choices, grammar.Choice{Label: "no: a third one that way cannot be noted"})
	} else {
		another := e
		another.Wall, another.Off = across, length.Said{L: deep - b.Off - b.Wide - c.Room.Board(across, c.Sent.UnixMilli())}
		label := fmt.Sprintf("no, another one: noted as %s off %s", c.Len(another.Off.L), across)
		if another.Off.L <= 0 {
			another.Off = length.Said{}
			label = fmt.Sprintf("no, another one: noted along %s", across)
		}
		choices = append(choices, c.As(label, another))
	}
	return answer.Ask(why, "", choices...)
}
