package site

import (
	"strapline/calc/event"
	"strapline/calc/place"
)

var _ = fold(func(s *State, e *Entry, b event.Missed) error {
	return s.eachNamed(e, b.Room, []string{b.Name}, func(l *later) { l.missed = append(l.missed, version[event.Missed]{e, b}) })
})

// Missed returns the places of the holes that were made for the thing and found nothing.
func (t *ThingState) Missed() (holes []place.Point) {
	for _, v := range t.came().missed {
		if !v.e.Struck() {
			holes = append(holes, v.v.At)
		}
	}
	return holes
}
