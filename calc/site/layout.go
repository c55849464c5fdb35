package site

import (
	"cmp"
	"slices"

	"strapline/calc/event"
	"strapline/calc/place"
)

var _ = inRoom(func(r *Room, e *Entry, b event.BoardsRun) {
	if b.Surface == "" && (b.Dir == "standing" || b.Dir == "level") {
		for _, s := range r.Shell().Surfaces() {
			if s.FromFloor() {
				r.surface(s).boardsRun.add(e, b.Dir)
			}
		}
		return
	}
	r.surface(ceilingIf(b.Surface)).boardsRun.add(e, b.Dir)
})

// BoardsRun returns the direction of the boards on surface s, and whether it was said or follows from the
// supports. known is false if neither. Boards cross the supports unless the crew says along.
func (r *Room) BoardsRun(s place.Surface) (run place.Direction, known bool) {
	for _, h := range r.on(s).hung {
		if !h.e.Struck() && h.v.Row > 0 && h.v.Run != "" && len(h.v.Pieces) > 0 {
			return s.DirectionOf(s.Lie(h.v.Run)), true // settled by what hangs
		}
	}
	said, _ := r.on(s).boardsRun.now()
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
		set, _ := r.on(s).sets[kind].sets.now()
		lie = s.Lie(set.Run)
	}
	if said != "along" && said != "standing" {
		lie = lie.Other()
	}
	return s.DirectionOf(lie), true
}

var _ = inRoom(func(r *Room, e *Entry, b event.RowsFrom) { r.surface(ceilingIf(b.Surface)).rowsFrom.add(e, b.Wall) })

// RowsFrom returns the wall from which the rows of surface s are counted: the north or west one, unless
// the crew changed it. "" means the top of a wall with level boards.
func (r *Room) RowsFrom(s place.Surface, boards place.Direction) place.Wall {
	across := s.Lie(boards).Other()
	if w, e := r.on(s).rowsFrom.now(); e != nil {
		if a, _, ok := s.Axis(w); ok && a == across {
			return w
		}
	}
	return s.Start(across)
}

// Far reports whether rows counted from there go toward the west or north wall, or down.
func Far(from place.Wall) bool { return from != place.North && from != place.West }

var _ = inRoom(func(r *Room, e *Entry, b event.PlanPick) { r.surface(ceilingIf(b.Surface)).pick.add(e, b.Pick) })

// Pick returns which of the offered layouts the crew took, from 1, or 0 for none, which means the first.
func (r *Room) Pick(s place.Surface) int { n, _ := r.on(s).pick.now(); return n }

// Planned returns the number of the entry that first took a layout of surface s, 0 if none stands.
func (r *Room) Planned(s place.Surface) (seq uint64) {
	for _, v := range r.on(s).pick {
		if !v.e.Struck() && (seq == 0 || v.e.Seq < seq) {
			seq = v.e.Seq
		}
	}
	return seq
}

// Planned returns the surfaces whose layouts were taken, in the order in which they first were.
func (s *State) Planned() (out []Plane) {
	for _, r := range s.Standing() {
		for on := range r.surfaces {
			if r.Planned(on) > 0 {
				out = append(out, Plane{r, on})
			}
		}
	}
	slices.SortFunc(out, func(a, b Plane) int { return cmp.Compare(a.Room.Planned(a.Surface), b.Room.Planned(b.Surface)) })
	return out
}

// ceilingIf returns s, or the ceiling if s is "".
func ceilingIf(s place.Surface) place.Surface { return cmp.Or(s, place.Ceiling) }

var _ = inRoom(func(r *Room, e *Entry, b event.Texture) { r.texture.add(e, b.On) })

// Textured reports whether a water-based texture goes on the ceiling.
func (r *Room) Textured() bool { on, _ := r.texture.now(); return on }

var _ = inRoom(func(r *Room, e *Entry, b event.First) { r.wallsFirst.add(e, b.Walls) })

// WallsFirst reports whether the walls are boarded before the ceiling. Usually the ceiling goes first
// (common practice, no source).
func (r *Room) WallsFirst() bool { first, _ := r.wallsFirst.now(); return first }
