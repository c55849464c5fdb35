package answer

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/say"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/rooms"
	"strapline/grammar/things"
)

// resolve finds the surface that the line means: in a room that is all slope the ceiling means the slope, and
// "slope" or "bulkhead" without a wall the only one there. It refuses a surface that is not noted.
func (c Ctx) resolve(line *grammar.Line) (stop *Reply) {
	if c.Room == nil {
		return nil
	}
	as := func(label string, s place.Surface) grammar.Choice {
		return c.As(label, rooms.Resolve(line.Entry, func(place.Surface) place.Surface { return s }))
	}
	_, framed := line.Entry.(rooms.SupportSet)
	line.Entry = rooms.Resolve(line.Entry, func(s place.Surface) place.Surface {
		if all := c.Room.Shell().AllSlope(); all != "" && (s == place.Ceiling || s == "" && !anywhere(line.Entry)) {
			return all
		}
		if s == "" || s == place.Ceiling || s.IsWall() || slices.Contains(c.Room.Shell().Surfaces(), s) {
			return s
		}
		var found []place.Surface
		for _, o := range c.Room.Shell().Surfaces() {
			if strings.HasSuffix(string(o), " "+string(s)) {
				found = append(found, o)
			}
		}
		if name, w := s.NotchWall(); w != "" {
			found = c.facesAt(name, w)
		}
		switch {
		case len(found) == 1:
			return found[0]
		case len(found) > 1:
			on := grammar.OrAll(framed, say.Each(found, func(o place.Surface) grammar.Choice { return as(string(o), o) }))
			stop = Stop(Ask(fmt.Sprintf("which %s?", s), "", on...))
		default:
			hint := "slope north 8' to 4' over 5'"
			if strings.Contains(string(s), "notch") {
				hint = fmt.Sprintf("room %s 14' x 12' less 4' x 3' ne", c.Room.Name)
				if all := c.facesAt("", ""); all != nil {
					has := strings.Join(say.Each(all, func(o place.Surface) string { return string(o) }), ", ")
					stop = Stop(No(fmt.Sprintf("%s has no %s, it has %s", c.Room.Name, s, has), ""))
					return s
				}
			} else if strings.Contains(string(s), "bulkhead") {
				hint = "bulkhead 16 x 12 along north"
			}
			why := fmt.Sprintf("%s is not noted in %s", s, c.Room.Name)
			if stop = Stop(No(why, hint)); strings.HasSuffix(string(s), "slope") && c.Words != "" && !read.Words.Rows[line.Entry.Kind()].Asks { // what was told of it is not lost
				choices := []grammar.Choice{c.As("keep it as a note", record.Note{Text: c.Words})}
				if framed {
					choices = append(choices, as("they carry the flat ceiling", ""))
				}
				stop = Stop(Ask(why+": its measures first, e.g. `"+hint+"`", "", choices...))
			}
		}
		return s
	})
	return stop
}

// facesAt returns the faces that a wall of a notch may be. Its north wall is the one in front of the room's
// north wall; of a chimney some say its south side instead.
func (c Ctx) facesAt(name string, w place.Wall) (out []place.Surface) {
	for _, s := range c.Room.Shell().Surfaces() {
		at, faces := s.NotchOf()
		if faces != "" && (name == "" || name == at) && (w == "" || faces == w || faces == w.Opposite()) {
			out = append(out, s)
		}
	}
	return out
}

// anywhere reports whether an entry that names no surface may be about others than the ceiling: all those
// of the room, or a wall if it gives a height.
func anywhere(e grammar.Entry) bool {
	switch e := e.(type) {
	case boards.Cuts, hanging.Screws, boards.BoardsRun:
		return true
	case record.AnyOver:
		return e.Row == 0
	case things.Thing:
		return place.HasHeight(e.Fixes)
	}
	return false
}
