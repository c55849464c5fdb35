package answer

import (
	"strings"

	"strapline/calc/place"
)

// Picture is what a picture is drawn from, and always the same again.
type Picture struct {
	Name   string        `json:"name"` // of a file
	Room   string        `json:"room"`
	On     place.Surface `json:"on,omitempty"`     // "" is the ceiling
	Up     bool          `json:"up,omitempty"`     // as seen looking up
	Cuts   bool          `json:"cuts,omitempty"`   // the cut list, not the plan
	Sought string        `json:"sought,omitempty"` // the thing that is pointed out
	Beside bool          `json:"beside,omitempty"` // nobody asked for it: the words stand by themselves where it is not shown
	Entry  uint64        `json:"entry"`            // the last entry that is in it
	At     int64         `json:"at"`               // when it was asked for, in unix milliseconds
}

// Sketch is the plan of a surface of the room at hand, as the job stands.
func (c Ctx) Sketch(on place.Surface) Picture {
	name := c.Room.Name
	if on = SurfaceOf(on); on == place.Ceiling {
		on = ""
	} else {
		name += " " + on.Name()
	}
	return Picture{Name: strings.ReplaceAll(name, " ", "-") + ".png", Room: c.Room.Name, On: on, Entry: uint64(len(c.State.Entries)), At: c.Now.UnixMilli()}
}

// Beside puts the plan beside a reply about a surface, for a door that shows pictures; a thing
// that was looked for is pointed out in it. A surface whose height is not known has none.
func (c Ctx) Beside(r *Reply, on place.Surface, sought string) {
	if _, y := c.Room.Extent(SurfaceOf(on)); y == 0 {
		return
	}
	p := c.Sketch(on)
	p.Beside, p.Sought = true, sought
	r.Pictures = append(r.Pictures, p)
}
