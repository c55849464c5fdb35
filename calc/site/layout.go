package site

import (
	"cmp"
	"slices"

	"strapline/calc/place"
)

// BoardsRun sets how boards run. Dir is "along", "across", "ew" or "ns", on a wall "standing" or "level".
// No Surface means the ceiling, or all walls for the last two.
type BoardsRun struct {
	Room    string        `json:"room"`
	Surface place.Surface `json:"s,omitempty"`
	Dir     string        `json:"dir"`
}

var _ = kind[BoardsRun]()

func (BoardsRun) Kind() string { return "boards" }

func (b BoardsRun) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	if b.Surface == "" && (b.Dir == "standing" || b.Dir == "level") {
		for _, s := range r.Surfaces() {
			if s.IsWall() {
				r.surface(s).boardsRun.add(e, b.Dir)
			}
		}
		return nil
	}
	r.surface(ceilingIf(b.Surface)).boardsRun.add(e, b.Dir)
	return nil
}

// BoardsRun returns the direction of the boards on surface s, and whether it was said or follows from the
// supports. known is false if neither. Boards cross the supports unless the crew says along.
func (r *Room) BoardsRun(s place.Surface) (run place.Direction, known bool) {
	for _, p := range r.Pieces(s) {
		if p.Row > 0 && p.Run != "" {
			return p.Run, true // settled by what hangs
		}
	}
	said, _ := r.on(s).boardsRun.now()
	switch said {
	case "ew", "ns":
		return place.Direction(said), true
	}
	lie := place.Y // studs are vertical
	if !s.Upright() {
		set := r.Supports(s)
		if len(set) == 0 {
			return "", false
		}
		lie = set[0].Lie
	}
	if said != "along" && said != "standing" {
		lie = lie.Other()
	}
	return s.DirectionOf(lie), true
}

// RowsFrom sets where rows are counted from. No Surface means the ceiling.
type RowsFrom struct {
	Room    string        `json:"room"`
	Surface place.Surface `json:"s,omitempty"`
	Wall    place.Wall    `json:"wall"`
}

var _ = kind[RowsFrom]()

func (RowsFrom) Kind() string { return "rows" }

func (b RowsFrom) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	r.surface(ceilingIf(b.Surface)).rowsFrom.add(e, b.Wall)
	return nil
}

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

// PlanPick selects one of the layouts offered, from 1. No Surface means the ceiling.
type PlanPick struct {
	Room    string        `json:"room"`
	Surface place.Surface `json:"s,omitempty"`
	Pick    int           `json:"pick"`
	Said    bool          `json:"said,omitempty"` // the crew took it; otherwise it was only shown
}

var _ = kind[PlanPick]()

func (PlanPick) Kind() string { return "plan" }

func (b PlanPick) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	r.surface(ceilingIf(b.Surface)).pick.add(e, b.Pick)
	return nil
}

func (b PlanPick) undoPasses() bool { return !b.Said }

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

// Texture says whether a water-based texture goes on the ceiling.
type Texture struct {
	Room string `json:"room"`
	On   bool   `json:"on"`
}

var _ = kind[Texture]()

func (Texture) Kind() string { return "texture" }

func (b Texture) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	r.texture.add(e, b.On)
	return nil
}

// Textured reports whether a water-based texture goes on the ceiling.
func (r *Room) Textured() bool { on, _ := r.texture.now(); return on }

// First says whether the walls of the room are boarded before its ceiling.
type First struct {
	Room  string `json:"room"`
	Walls bool   `json:"walls,omitempty"`
}

var _ = kind[First]()

func (First) Kind() string { return "first" }

func (b First) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	r.wallsFirst.add(e, b.Walls)
	return nil
}

// WallsFirst reports whether the walls are boarded before the ceiling. Usually the ceiling goes first
// (common practice, no source).
func (r *Room) WallsFirst() bool { first, _ := r.wallsFirst.now(); return first }
