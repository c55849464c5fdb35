package site

import "strapline/calc/place"

// BoardsRun: Dir is "along", "across", "ew" or "ns".
type BoardsRun struct {
	Room string `json:"room"`
	Dir  string `json:"dir"`
}

var _ = kind[BoardsRun]()

func (BoardsRun) Kind() string { return "boards" }

func (b BoardsRun) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	r.boardsRun.add(e, b.Dir)
	return nil
}

// BoardsRun is the direction the boards run on surface s, and whether it was
// said or follows from supports that were noted; known is false when neither.
// Boards cross the supports unless the crew says along.
func (r *Room) BoardsRun(s place.Surface) (run place.Run, known bool) {
	if s.IsWall() {
		return place.EW, true // rows lie level on a wall
	}
	for _, p := range r.Pieces(s) {
		if p.Row > 0 && p.Run != "" {
			return p.Run, true // what hangs has settled it
		}
	}
	said, _ := r.boardsRun.now()
	switch said {
	case "ew", "ns":
		return place.Run(said), true
	}
	set := r.Supports(s)
	if len(set) == 0 {
		return "", false
	}
	if said == "along" {
		return set[0].Run, true
	}
	return set[0].Run.Across(), true
}

// RowsFrom turns the count of rows round.
type RowsFrom struct {
	Room string     `json:"room"`
	Wall place.Wall `json:"wall"`
}

var _ = kind[RowsFrom]()

func (RowsFrom) Kind() string { return "rows" }

func (b RowsFrom) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	r.rowsFrom.add(e, b.Wall)
	return nil
}

// RowsFrom is the wall the rows are counted from: north for boards running
// east-west, west for boards running north-south, unless the crew turned it.
func (r *Room) RowsFrom(boards place.Run) place.Wall {
	w, e := r.rowsFrom.now()
	if e != nil && (w == place.North || w == place.South) == (boards == place.EW) {
		return w
	}
	if boards == place.EW {
		return place.North
	}
	return place.West
}

// PlanPick takes one of the layouts offered, from 1.
type PlanPick struct {
	Room string `json:"room"`
	Pick int    `json:"pick"`
	Said bool   `json:"said,omitempty"` // the crew took it; else the layout was only shown
}

var _ = kind[PlanPick]()

func (PlanPick) Kind() string { return "plan" }

func (b PlanPick) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	r.pick.add(e, b.Pick)
	return nil
}

func (b PlanPick) undoPasses() bool { return !b.Said }

// Pick is which of the layouts offered the crew took, from 1; 0 for the first.
func (r *Room) Pick() int { n, _ := r.pick.now(); return n }

// Planned is the number of the entry that first took one of the layouts, 0 when none stands.
func (r *Room) Planned() (seq uint64) {
	for _, v := range r.pick {
		if !v.e.Struck() && (seq == 0 || v.e.Seq < seq) {
			seq = v.e.Seq
		}
	}
	return seq
}

// Texture: a water-based texture goes on the ceiling, or not.
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
