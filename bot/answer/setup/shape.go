package setup

import (
	"fmt"

	"strapline/bot/answer"
	"strapline/bot/say"
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

// slope notes a ceiling that comes down to a wall.
func slope(c answer.Ctx, e grammar.Slope) answer.Reply {
	if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	ew, ns := c.Room.Framing()
	b, no := slopeBody(c, c.Room.Name, e, ew, ns)
	if no != nil {
		return *no
	}
	before := c.Snap(c.Room)
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		r := c.Noted(en, "slope", shapeOf(c, place.Slope(b.Wall)), "")
		slopeLines(c, &r, b.Wall)
		r.Text, r.Notes = r.Text+r.Notes[0].Text, r.Notes[1:]
		c.Moves(&r, before)
		return r
	})
}

// slopeBody is a slope of a room of that size, or what is wrong with it.
func slopeBody(c answer.Ctx, room string, e grammar.Slope, ew, ns length.Length) (site.Slope, *answer.Reply) {
	deep := ns
	if e.Wall.Along() == place.Y {
		deep = ew
	}
	if e.High.L < e.Low.L {
		e.High, e.Low = e.Low, e.High
	}
	switch {
	case e.High.L == e.Low.L:
		return site.Slope{}, answer.Stop(answer.Ask(fmt.Sprintf("%s at both edges is no slope; send the two heights", c.Len(e.High.L)), ""))
	case e.Over.L > deep:
		return site.Slope{}, answer.Stop(answer.Ask(fmt.Sprintf("a slope over %s? %s is only %s from the %s wall to the %s; send it again", c.Len(e.Over.L), room, c.Len(deep), e.Wall, e.Wall.Opposite()), ""))
	}
	b := site.Slope{Room: room, Wall: e.Wall, High: e.High.L, Low: e.Low.L, Over: e.Over.L}
	if b.Over == deep {
		b.Over = 0
	}
	return b, nil
}

// slopeLines say what a slope is as read, and what follows it.
func slopeLines(c answer.Ctx, r *answer.Reply, w place.Wall) {
	b, _ := c.Room.SlopeTo(w)
	x, up := c.Room.Extent(place.Slope(w))
	r.Line(fmt.Sprintf("%s: %s long x %s up along it; %s high at the %s wall, %s at its top, over %s on plan", c.Where(place.Slope(w)),
		c.Near(x), c.Near(up), c.Len(b.Low), w, c.Len(b.High), c.Near(b.Over)))
	side := [2]place.Wall{place.West, place.East}
	if w.Along() == place.Y {
		side = [2]place.Wall{place.North, place.South}
	}
	r.Note("check", fmt.Sprintf("boards of the %s and %s walls are planned square: their top edge is cut to the slope", side[0], side[1]))
}

// bulkhead notes a boxed part under the ceiling.
func bulkhead(c answer.Ctx, e grammar.Bulkhead) answer.Reply {
	if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	ew, ns := c.Room.Framing()
	deep := ns
	if e.Wall.Along() == place.Y {
		deep = ew
	}
	if e.Off.L+e.Wide.L > deep {
		return answer.Ask(fmt.Sprintf("that is past the %s wall: %s off %s and %s wide in %s; send it again", e.Wall.Opposite(), c.Len(e.Off.L), e.Wall, c.Len(e.Wide.L), c.Len(deep)), "")
	}
	b := site.Bulkhead{Room: c.Room.Name, Wall: e.Wall, Wide: e.Wide.L, Drop: e.Drop.L}
	if e.Off.L > 0 {
		b.Off = e.Off.L + c.Room.Board(e.Wall, c.Sent.UnixMilli())
	}
	was := ""
	if old, ok := c.Room.Bulkhead(e.Wall); ok {
		was = fmt.Sprintf(" (was %s x %s)", c.Len(old.Wide), c.Len(old.Drop))
	}
	before := c.Snap(c.Room)
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		bottom := place.Part(b.Wall, place.Bottom)
		x, _ := c.Room.Extent(bottom)
		at := "tight to the wall"
		faces := "face"
		if b.Off > 0 {
			at, faces = c.Said(e.Off)+" off it", "face and back"
		}
		r := c.Noted(en, "bulkhead", shapeOf(c, bottom), fmt.Sprintf("%s %s bulkhead%s: %s wide x %s down, %s long, %s", c.Room.Name, b.Wall, was, c.Len(b.Wide), c.Len(b.Drop), c.Near(x), at))
		r.Line(fmt.Sprintf("its bottom is %s wide, %s %s high; the ceiling stops at it", c.Len(b.Wide), faces, c.Len(b.Drop)))
		c.Moves(&r, before)
		return r
	})
}
