package site

import "strapline/calc/length"

// Floor says that a finished floor of that thickness is, or will be, on the subfloor. Heights are measured
// from it from then on.
type Floor struct {
	Room  string        `json:"room"`
	Thick length.Length `json:"thick"`
}

var _ = kind[Floor]()

func (Floor) Kind() string { return "floor" }

func (b Floor) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	r.floor.add(e, b.Thick)
	return nil
}

// Floor returns the thickness of the finished floor that heights were measured from at time t, 0 for the
// subfloor.
func (r *Room) Floor(t int64) length.Length { v, _ := r.floor.at(t); return v }

// FloorNow is Floor at the present.
func (r *Room) FloorNow() length.Length { return r.Floor(EndOfTime) }
