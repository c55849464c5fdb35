package answer

import (
	"strings"

	"strapline/bot/message"
	"strapline/calc/place"
)

// Sketch returns the picture of the plan of a surface of the room at hand, as the job stands.
func (c Ctx) Sketch(on place.Surface) message.Picture {
	name := c.Room.Name
	if on = SurfaceOf(on); on == place.Ceiling {
		on = ""
	} else {
		name += " " + on.Name()
	}
	return message.Picture{Name: strings.ReplaceAll(name, " ", "-") + ".png", Room: c.Room.Name, On: on, Entry: uint64(len(c.State.Entries)), At: c.Now.UnixMilli()}
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
