package note

import (
	"math"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/calc/slip"
)

// Strip is the clearance on each side of a run. Our own choice.
const Strip = length.Inch

// strip is the clearance on each side of a run. Our own choice.
const strip = length.Inch

// SceneFor returns what is known of the surface that a thing is looked for on.
func SceneFor(c answer.Ctx, th *site.ThingState) slip.Scene {
	v, _ := th.Now()
	s := slip.Scene{Supports: c.Room.Supports(v.Surface), Empty: th.Missed()}
	s.W, s.H = c.Room.Shell().Extent(v.Surface)
	s.Less = c.Room.Shell().NotchesOn(v.Surface)
	if shape, leans := c.Room.Shell().Shape(); leans && v.Surface == place.Ceiling {
		s.Corners = shape.Corners[:]
	} else {
		s.Corners = c.Room.Shell().Gable(v.Surface)
	}
	for _, rt := range c.Room.RoutesOn(v.Surface) {
		rv, _ := rt.Now()
		s.Runs = append(s.Runs, slip.Run{Path: rt.Path(), Half: rv.Size/2 + strip})
	}
	for _, o := range c.Room.Things {
		ov, oe := o.Now()
		if st, _ := o.Stands(); oe == nil || st != site.Open || ov.Surface != v.Surface {
			continue
		}
		opened := slip.Opened{Who: oe.Who, At: o.At(), Size: ov.Size}
		for _, f := range ov.Fixes {
			if f.Wall != "" {
				opened.Walls = append(opened.Walls, f.Wall)
			}
		}
		s.Opened = append(s.Opened, opened)
	}
	ew, ns := c.Room.Shell().Framing()
	for _, r := range c.State.Standing() {
		x, y := r.Shell().Framing()
		if twin := r.Thing(th.Name); r != c.Room && x == ew && y == ns && twin != nil {
			if tv, e := twin.Now(); e != nil && tv.Surface == v.Surface {
				s.Twins = append(s.Twins, slip.Twin{Room: r.Name, At: twin.At()})
			}
		}
	}
	return s
}

// NoteOf returns how a thing at a place was noted: its two distances, and what each was measured from.
func NoteOf(c answer.Ctx, on place.Surface, fixes []place.Fix, size place.Size, at place.Point, en *site.Entry) slip.Note {
	n := slip.Note{Who: en.Who, Size: size}
	shape, leans := c.Room.Shell().Shape()
	leans = leans && on == place.Ceiling
	n.X, n.Y = slip.Coord{From: at.X, Grows: true}, slip.Coord{From: at.Y, Grows: true}
	for _, f := range fixes {
		held := f
		held.L, held.ToEdge = 0, false
		p, err := c.Room.Place(on, []place.Fix{held}, place.Size{}, en.Sent)
		if err != nil {
			continue
		}
		a := place.X
		switch {
		case f.How == place.DirOf:
			a, _, _ = on.Axis(f.Dir)
		case p.Pinned[place.Y] && !p.Pinned[place.X]:
			a = place.Y
		}
		co := slip.Coord{Fix: f, From: p.On(a), Grows: true, Form: form(c, en.Text)}
		switch {
		case f.How == place.OffWall || f.How == place.Along:
			_, co.Grows, _ = on.Axis(f.Wall)
			if co.Board = c.Room.FrontBoard(on, f, at, site.EndOfTime); co.Board == 0 && !c.Room.Finished(c.Room.Shell().Front(on, f, at)) {
				board, _ := c.Room.BoardFor(c.Room.Shell().Front(on, f, at))
				co.Board = board.Thick
			}
			if f.Face == "" && c.Room.FrontBoard(on, f, at, en.Sent) != 0 { // taken to the board that was there
				co.Face = place.BoardFace
			}
		case f.How == place.DirOf:
			_, grows, _ := on.Axis(f.Dir)
			co.Grows = !grows // distances off a wall grow away from it, and this goes toward it
		case f.How == place.DownTo:
			co.Grows = false
			if co.Board = c.Room.CeilingFace(site.EndOfTime); co.Board == 0 {
				board, _ := c.Room.BoardFor(place.Ceiling)
				co.Board = board.Thick
			}
			if f.Face == "" && c.Room.CeilingFace(en.Sent) != 0 {
				co.Face = place.BoardFace
			}
		case f.How == place.UpFrom && on.FromFloor():
			co.Board = c.Room.FloorNow()
			if f.Face == "" && c.Room.Floor(en.Sent) != 0 {
				co.Face = place.FinishedFloor
			}
		}
		if leans && f.Wall != "" {
			d := f.L
			if f.ToEdge {
				d += size.Half(a)
			}
			if !co.Grows {
				d = -d
			}
			co.From = at.On(a) - d
			co.Lean = float64(shape.At(f.Wall, 0, length.Metre)-shape.At(f.Wall, 0, 0)) / float64(length.Metre)
			mirror := shape.At(f.Wall.Opposite(), c.Room.Shell().Off(on, f.Wall, at)+c.Room.BoardNow(f.Wall), at.On(a.Other()))
			co.Mirror = at.On(a) + length.Length(float64(mirror-at.On(a))/math.Hypot(1, co.Lean))
		}
		if a == place.X {
			n.X = co
		} else {
			n.Y = co
		}
	}
	return n
}

// form returns how the numbers of a note were written.
func form(c answer.Ctx, text string) slip.Form {
	switch {
	case c.Units == length.Metric:
		return slip.Millimetres
	case strings.Contains(text, "'") || strings.Contains(text, "ft") || strings.Contains(text, "foot"):
		return slip.FeetInches
	}
	return slip.Inches
}

// WordsOf words slips that occur together.
func WordsOf(rs []slip.Reason) string {
	return strings.Join(say.Each(rs, func(r slip.Reason) string { return r.Words }), " and ")
}
