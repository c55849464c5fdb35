package note

import (
	"fmt"
	"slices"

	"strapline/bot/answer"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar/things"
)

// framed completes a rough opening: its distances are to its near edges unless they were said to its
// centre, and a door stands on the floor.
func framed(c answer.Ctx, e things.Thing) (things.Thing, *answer.Reply) {
	said := e
	e.Fixes = held(e.Fixes)
	up := place.HasHeight(e.Fixes)
	if e.What == "door" && !up {
		e.Fixes = append(e.Fixes, onFloor)
	}
	switch old := c.Room.Thing(nameFor(c, e)); {
	case e.Size.B == 0 && (old == nil || e.Size.A != 0):
		return e, answer.Stop(answer.No(fmt.Sprintf("width x height of the %s's rough opening", e.What), "door 36 x 80 on north wall 40 off west"))
	case e.Size.B != 0 && min(e.Size.A, e.Size.B) < 6*length.Inch:
		return e, answer.Stop(answer.Ask(fmt.Sprintf("a %s%s? send it again with feet and inches", e.What, c.Size(e.Size)), ""))
	case e.Surface == "" && e.What != "skylight":
		return e, answer.Stop(askSurface(c, said))
	case e.What == "window" && !up:
		return e, answer.Stop(answer.Ask("how far up is its sill? e.g. `36 up`", c.LineOf(said).String()))
	}
	return e, nil
}

// held returns distances to a rough opening, taken to its near edges unless they were said to its centre.
func held(fixes []place.Fix) []place.Fix {
	fixes = slices.Clone(fixes)
	for i, f := range fixes {
		switch f.How {
		case place.OffWall, place.UpFrom, place.DownTo, place.DirOf:
			fixes[i].ToEdge = !f.ToCentre
		}
	}
	return fixes
}

// onFloor returns the height of a door: on the floor.
var onFloor = place.Fix{How: place.UpFrom, ToEdge: true, Face: place.Subfloor}

// saidOf returns the fixes without the implied onFloor.
func saidOf(fixes []place.Fix) []place.Fix {
	return slices.DeleteFunc(slices.Clone(fixes), func(f place.Fix) bool { return f == onFloor })
}

// Spans gives the extent of a rough opening, off the present faces of the walls.
func Spans(c answer.Ctx, s place.Surface, q place.Rect) string {
	mid := place.Point{X: (q.X0 + q.X1) / 2, Y: (q.Y0 + q.Y1) / 2}
	off := func(a place.Axis) string {
		from, to := q.Span(a)
		w := s.Start(a)
		return fmt.Sprintf("%s to %s off %s", c.Near(c.Room.Shell().Off(s, w, mid.With(a, from))), c.Near(c.Room.Shell().Off(s, w, mid.With(a, to))), w)
	}
	text := off(place.X) + ", "
	switch {
	case !s.Upright():
		return text + off(place.Y)
	case q.Y0 == 0:
		return text + c.Near(q.Y1) + " high"
	}
	floor := c.Room.FloorNow()
	if text += fmt.Sprintf("%s to %s up", c.Near(q.Y0-floor), c.Near(q.Y1-floor)); s.FromFloor() && floor > 0 {
		text += " off the finished floor"
	}
	return text
}

// inTheWay warns of whatever a rough opening overlaps, and of what is noted inside one.
func inTheWay(c answer.Ctx, r *answer.Reply, th *site.ThingState) {
	v, _ := th.Now()
	others := c.Room.Framed
	if v.Framed {
		others = c.Room.Things
	}
	for _, o := range others {
		ov, e := o.Now()
		if e == nil || o == th || ov.Surface != v.Surface || !v.Framed && !ov.Framed {
			continue
		}
		if q := ov.Size.At(o.At()); q.Meets(v.Size.At(th.At())) {
			r.Note("clash", fmt.Sprintf("it meets %s (%s)", o.Name, Spans(c, ov.Surface, q)))
		}
	}
}
