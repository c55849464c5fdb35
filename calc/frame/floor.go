package frame

import (
	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
)

var _ = fold(func(r *Frame, e *history.Entry, b event.Floor) { r.floor.Add(e, b.Thick) })

// Floor returns the thickness of the finished floor that heights were measured from at time t, 0 for the
// subfloor.
func (r *Frame) Floor(t int64) length.Length { v, _ := r.floor.At(t); return v }

// FloorNow is Floor at the present.
func (r *Frame) FloorNow() length.Length { return r.Floor(history.EndOfTime) }
