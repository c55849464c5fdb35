package plan

import (
	"fmt"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/place"
	"strapline/grammar/record"
)

type sketchFacts struct {
	Up    bool   `json:"up"`
	Entry uint64 `json:"entry"`
}

// sketchOf answers with the plan, and the cut list if boards are still to be cut.
func sketchOf(c answer.Ctx, e record.Sketch) answer.Reply {
	on := answer.SurfaceOf(e.Surface)
	if _, y := c.Room.Shell().Extent(on); y == 0 {
		return c.NoHeight()
	}
	plan, stop := c.InForce(on) // plans what it draws now, so that it is cached
	if stop != nil {
		return *stop
	}
	last := uint64(len(c.State.Entries))
	how, ending := "from above", ""
	switch {
	case on != place.Ceiling:
		how = "from inside the room"
	case e.Up:
		how, ending = "looking up: east and west change sides", "-up"
	}
	picture := c.Sketch(on)
	name := strings.TrimSuffix(picture.Name, ".png")
	picture.Name, picture.Up = name+ending+".png", e.Up
	text := fmt.Sprintf("%s %s as of entry %d, seen %s", c.Room.Name, on.Name(), last, how)
	r := answer.Tell("sketch", sketchFacts{e.Up, last}, text)
	r.Pictures = append(r.Pictures, picture)
	if plan != nil {
		if n := len(plan.ToCut()); n > 0 {
			picture.Name, picture.Up, picture.Cuts = name+"-cuts.png", false, true
			r.Pictures = append(r.Pictures, picture)
			r.Text += fmt.Sprintf("; cut list, %d %s", n, say.Plural(n, "board"))
		}
	}
	if !e.Up && on == place.Ceiling {
		r.Note("check", "looking up it is mirrored: `sketch "+c.Room.Name+" looking up`")
	}
	return r
}
