package answer

import (
	"strings"

	"strapline/calc/place"
)

// Picture is what a picture is drawn from; the same Picture always gives the same image.
type Picture struct {
	Name   string        `json:"name"` // file name
	Room   string        `json:"room"`
	On     place.Surface `json:"on,omitempty"`     // "" is the ceiling
	Up     bool          `json:"up,omitempty"`     // as seen looking up
	Cuts   bool          `json:"cuts,omitempty"`   // draw the cut list, not the plan
	Sought string        `json:"sought,omitempty"` // thing to point out
	Beside bool          `json:"beside,omitempty"` // only accompanies an answer, which is complete without it
	Entry  uint64        `json:"entry"`            // last entry shown
	At     int64         `json:"at"`               // when it was asked for, in Unix milliseconds
}

// Sketch returns the picture of the plan of a surface of the room at hand, as the job stands.
func (c Ctx) Sketch(on place.Surface) Picture {
	name := c.Room.Name
	if on = SurfaceOf(on); on == place.Ceiling {
		on = ""
	} else {
		name += " " + on.Name()
	}
	return Picture{Name: strings.ReplaceAll(name, " ", "-") + ".png", Room: c.Room.Name, On: on, Entry: uint64(len(c.State.Entries)), At: c.Now.UnixMilli()}
}

// Beside adds the plan to a reply about a surface, for doors that show pictures, and points out the thing
// that was looked for. A wall whose height is not known gets no picture.
func (c Ctx) Beside(r *Reply, on place.Surface, sought string) {
	if _, y := c.Room.Shell().Extent(SurfaceOf(on)); y == 0 {
		return
	}
	p := c.Sketch(on)
	p.Beside, p.Sought = true, sought
	r.Pictures = append(r.Pictures, p)
}
