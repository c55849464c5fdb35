package site

import "strapline/calc/length"

// Floor: a finished floor of Thick is, or will be, on the subfloor; heights are
// held to it from then on.
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

// Floor is how thick the finished floor that heights were held to at t was, zero
// for the subfloor.
func (r *Room) Floor(t int64) length.Length { v, _ := r.floor.at(t); return v }

// FloorNow is Floor as things stand.
func (r *Room) FloorNow() length.Length { return r.Floor(EndOfTime) }
