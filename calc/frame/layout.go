package frame

import (
	"cmp"

	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/place"
)

var _ = fold(func(r *Frame, e *history.Entry, b event.BoardsRun) {
	if b.Surface == "" && (b.Dir == "standing" || b.Dir == "level") {
		for _, s := range r.Shell().Surfaces() {
			if s.FromFloor() {
				r.surface(s).boardsRun.Add(e, b.Dir)
			}
		}
		return
	}
	r.surface(ceilingIf(b.Surface)).boardsRun.Add(e, b.Dir)
})

// BoardsRun returns the direction of the boards on surface s, and whether it was said or follows from the
// supports. known is false if neither. Boards cross the supports unless the crew says along.
func (r *Frame) BoardsRun(s place.Surface) (run place.Direction, known bool) {
	for _, h := range r.on(s).hung {
		if !h.E.Struck() && h.V.Row > 0 && h.V.Run != "" && len(h.V.Pieces) > 0 {
			return s.DirectionOf(s.Lie(h.V.Run)), true // settled by what hangs
		}
	}
	said, _ := r.on(s).boardsRun.Now()
	switch said {
	case "ew", "ns":
		return place.Direction(said), true
	}
	lie := place.Y // studs are vertical
	if !s.Upright() {
		kind := r.layer(s)
		if kind == "" {
			return "", false
		}
		set, _ := r.on(s).sets[kind].sets.Now()
		lie = s.Lie(set.Run)
	}
	if said != "along" && said != "standing" {
		lie = lie.Other()
	}
	return s.DirectionOf(lie), true
}

var _ = fold(func(r *Frame, e *history.Entry, b event.RowsFrom) {
	r.surface(ceilingIf(b.Surface)).rowsFrom.Add(e, b.Wall)
})

// RowsFrom returns the wall from which the rows of surface s are counted: the north or west one, unless
// the crew changed it. "" means the top of a wall with level boards.
func (r *Frame) RowsFrom(s place.Surface, boards place.Direction) place.Wall {
	across := s.Lie(boards).Other()
	if w, e := r.on(s).rowsFrom.Now(); e != nil {
		if a, _, ok := s.Axis(w); ok && a == across {
			return w
		}
	}
	return s.Start(across)
}

// Far reports whether rows counted from there go toward the west or north wall, or down.
func Far(from place.Wall) bool { return from != place.North && from != place.West }

var _ = fold(func(r *Frame, e *history.Entry, b event.PlanPick) {
	r.surface(ceilingIf(b.Surface)).pick.Add(e, b.Pick)
})

// Pick returns which of the offered layouts the crew took, from 1, or 0 for none, which means the first.
func (r *Frame) Pick(s place.Surface) int { n, _ := r.on(s).pick.Now(); return n }

// Planned returns the number of the entry that first took a layout of surface s, 0 if none stands.
func (r *Frame) Planned(s place.Surface) (seq uint64) {
	for _, v := range r.on(s).pick {
		if !v.E.Struck() && (seq == 0 || v.E.Seq < seq) {
			seq = v.E.Seq
		}
	}
	return seq
}

// ceilingIf returns s, or the ceiling if s is "".
func ceilingIf(s place.Surface) place.Surface { return cmp.Or(s, place.Ceiling) }

var _ = fold(func(r *Frame, e *history.Entry, b event.Texture) { r.texture.Add(e, b.On) })

// Textured reports whether a water-based texture goes on the ceiling.
func (r *Frame) Textured() bool { on, _ := r.texture.Now(); return on }

var _ = fold(func(r *Frame, e *history.Entry, b event.First) { r.wallsFirst.Add(e, b.Walls) })

// WallsFirst reports whether the walls are boarded before the ceiling. Usually the ceiling goes first
// (common practice, no source).
func (r *Frame) WallsFirst() bool { first, _ := r.wallsFirst.Now(); return first }
