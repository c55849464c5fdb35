package site

import (
	"fmt"

	"strapline/calc/place"
)

// Missed says that a hole made at At to find a covered thing found nothing.
type Missed struct {
	Room  string      `json:"room"`
	Name  string      `json:"n"`
	At    place.Point `json:"at"`
	Fixes []place.Fix `json:"fix,omitempty"` // where it was said to be; none means at the noted place
}

var _ = kind[Missed]()

func (Missed) Kind() string { return "missed" }

func (b Missed) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	t := r.thing(b.Name)
	if t == nil {
		return fmt.Errorf("no thing %q in %s", b.Name, r.Name)
	}
	t.since().missed = append(t.since().missed, version[Missed]{e, b})
	return nil
}

// Missed returns the places of the holes that were made for the thing and found nothing.
func (t *ThingState) Missed() (holes []place.Point) {
	for _, v := range t.came().missed {
		if !v.e.Struck() {
			holes = append(holes, v.v.At)
		}
	}
	return holes
}
