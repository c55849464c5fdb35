package site

import (
	"strapline/calc/event"
	"strapline/calc/length"
)

var _ = inRoom(func(r *Room, e *Entry, b event.Floor) { r.floor.add(e, b.Thick) })

// Floor returns the thickness of the finished floor that heights were measured from at time t, 0 for the
// subfloor.
func (r *Room) Floor(t int64) length.Length { v, _ := r.floor.at(t); return v }

// FloorNow is Floor at the present.
func (r *Room) FloorNow() length.Length { return r.Floor(EndOfTime) }
