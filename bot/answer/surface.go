package answer

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/record"
	"strapline/grammar/rooms"
	"strapline/grammar/things"
)

// resolve finds the surface that the line means: in a room that is all slope the ceiling means the slope,
// and "slope" or "bulkhead" without a wall means the only one there. It refuses a surface that is not
// noted.
func (c Ctx) resolve(line *grammar.Line) (stop *Reply) {
	if c.Room == nil {
		return nil
	}
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
			var choices []grammar.Choice
			for _, o := range found {
				choices = append(choices, c.As(string(o), rooms.Resolve(line.Entry, func(place.Surface) place.Surface { return o })))
			}
			stop = Stop(Ask(fmt.Sprintf("which %s?", s), "", choices...))
		default:
			hint := "slope north 8' to 4' over 5'"
			if strings.Contains(string(s), "notch") {
				hint = fmt.Sprintf("room %s 14' x 12' less 4' x 3' ne", c.Room.Name)
				if all := c.facesAt("", ""); all != nil {
					var has []string
					for _, o := range all {
						has = append(has, string(o))
					}
					stop = Stop(No(fmt.Sprintf("%s has no %s, it has %s", c.Room.Name, s, strings.Join(has, ", ")), ""))
					return s
				}
			}
			if strings.Contains(string(s), "bulkhead") {
				hint = "bulkhead 16 x 12 along north"
			}
			stop = Stop(No(fmt.Sprintf("%s is not noted in %s", s, c.Room.Name), hint))
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
		return slices.ContainsFunc(e.Fixes, func(f place.Fix) bool { return f.How == place.UpFrom || f.How == place.DownTo })
	}
	return false
}

// askShape asks whether a distance off the wall that a slope comes down to runs up the slope or level, on
// plan; and, if a place was given for the ceiling, whether it is on the slope or bulkhead there.
func (c Ctx) askShape(s place.Surface, fixes []place.Fix, p site.Placed, with func([]place.Fix) grammar.Entry) *Reply {
	over := s
	if s == place.Ceiling {
		if over = c.Room.Shell().Overhead(p.Point); over == s {
			return nil
		}
	}
	on := func(fixes []place.Fix) grammar.Entry {
		return rooms.Resolve(with(fixes), func(place.Surface) place.Surface { return over })
	}
	w := over.SlopeTo()
	switch _, boxed, _ := over.BulkheadOf(); {
	case w == "" && over == s:
		return nil
	case w == "":
		return Stop(Ask(fmt.Sprintf("the %s bulkhead is there: on its bottom?", boxed), "", c.As("on the "+string(over), on(fixes))))
	}
	for i, f := range fixes {
		if f.How != place.OffWall || f.Wall != w || f.Level {
			continue
		}
		up, level := slices.Clone(fixes), slices.Clone(fixes)
		up[i].How, up[i].Wall, up[i].Face = place.UpFrom, "", ""
		level[i].Level = true
		return Stop(Ask(fmt.Sprintf("%s off %s: up the slope, or level on plan?", c.Said(f.Said), w), "",
			c.As("up the slope", on(up)), c.As("on plan", on(level))))
	}
	if over == s {
		return nil
	}
	for i, f := range fixes {
		if f.How == place.OffWall && f.Wall == w.Opposite() {
			level := slices.Clone(fixes)
			level[i] = place.Fix{How: place.OffWall, Wall: w, Level: true, Said: length.Said{L: c.Room.Shell().Off(s, w, p.Point)}}
			return Stop(Ask(fmt.Sprintf("that is on the %s: on plan?", over), "", c.As(c.Fix(level[i]), on(level))))
		}
	}
	return Stop(No(fmt.Sprintf("that is on the %s: how far up it?", over), fmt.Sprintf("%s on %s, 26 off %s, 30 up", "light l1", over, over.Start(place.X))))
}
