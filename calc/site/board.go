package site

import "strapline/calc/length"

// Board sets the board in use. Zero fields stay as they were.
type Board struct {
	Thick   length.Length   `json:"thick,omitempty"`
	Wide    length.Length   `json:"wide,omitempty"`
	Lengths []length.Length `json:"lengths,omitempty"`
	Type    string          `json:"type,omitempty"` // green, x, as the crew calls it
}

var _ = kind[Board]()

func (Board) Kind() string { return "board" }

func (b Board) apply(s *State, e *Entry) error {
	s.board = append(s.board, version[Board]{e, b})
	return nil
}

// BoardNow returns the board in use. What was never said is the usual sheet, 1/2 in by 48 in, with said
// false.
func (s *State) BoardNow() (b Board, said bool) { return s.boardAt(EndOfTime) }

func (s *State) boardAt(t int64) (b Board, said bool) {
	for _, v := range s.board {
		if v.e.Struck() || v.e.Sent > t {
			continue
		}
		if v.v.Thick != 0 {
			b.Thick, said = v.v.Thick, true
		}
		if v.v.Wide != 0 {
			b.Wide = v.v.Wide
		}
		if v.v.Type != "" {
			b.Type = v.v.Type
		}
		if v.v.Lengths != nil {
			b.Lengths = v.v.Lengths
		}
	}
	if b.Thick == 0 {
		b.Thick = length.Inch / 2
	}
	if b.Wide == 0 {
		b.Wide = 48 * length.Inch
	}
	return b, said
}

// Screw sets the length of the lead's screw.
type Screw struct {
	L length.Length `json:"l"`
}

var _ = kind[Screw]()

func (Screw) Kind() string { return "screw" }

func (b Screw) apply(s *State, e *Entry) error {
	s.screw.add(e, b.L)
	return nil
}

// ScrewSet returns the length of the lead's screw, 0 if none is set.
func (s *State) ScrewSet() length.Length { v, _ := s.screw.now(); return v }

// Clearance sets how much narrower in all a cut is than its gap.
type Clearance struct {
	L length.Length `json:"l"`
}

var _ = kind[Clearance]()

func (Clearance) Kind() string { return "clearance" }

func (b Clearance) apply(s *State, e *Entry) error {
	s.clearance.add(e, b.L)
	return nil
}

// Clear returns how much narrower in all a cut is than its gap: 1/4 in unless set (common practice, no
// source).
func (s *State) Clear() length.Length {
	if v, e := s.clearance.now(); e != nil {
		return v
	}
	return length.Inch / 4
}

// Gap is a gap measured for a board. Cut is the size that was answered.
type Gap struct {
	Room string        `json:"room,omitempty"`
	A    length.Length `json:"a"`
	B    length.Length `json:"b,omitempty"`
	CutA length.Length `json:"cuta"`
	CutB length.Length `json:"cutb,omitempty"`
	// Long is the gap's other side, and the cut for it; zero if not measured.
	Long    length.Length `json:"long,omitempty"`
	CutLong length.Length `json:"cutlong,omitempty"`
}

var _ = kind[Gap]()

func (Gap) Kind() string { return "cut" }

func (b Gap) apply(_ *State, e *Entry) error {
	e.Room = b.Room
	return nil
}
