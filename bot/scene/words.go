package scene

import (
	"fmt"
	"strings"

	"strapline/bot/say"
	"strapline/calc/locate"
	"strapline/calc/place"
	"strapline/calc/site"
)

// Every surface but the ceiling is drawn as an elevation, as seen from inside the room
// facing its wall. A slope and the bottom of a bulkhead are tilted into that view, with the
// edge at their wall at the bottom.

// faces is the wall that the viewer of the surface faces.
func (s Scene) faces() place.Wall {
	if s.Surface.IsWall() {
		return place.Wall(s.Surface)
	}
	if w := s.Surface.SlopeTo(); w != "" {
		return w
	}
	if _, w := s.Surface.NotchOf(); w != "" {
		return w.Opposite()
	}
	part, w, _ := s.Surface.BulkheadOf()
	if part == place.Back {
		return w.Opposite()
	}
	return w
}

// Mirrored reports whether X runs to the left.
func (s Scene) Mirrored() bool {
	if s.Surface == place.Ceiling {
		return s.Up
	}
	w := s.faces()
	return w == place.South || w == place.West
}

// Sides names what adjoins each edge of the drawing.
func (s Scene) Sides() (top, bottom, left, right string) {
	if s.Surface == place.Ceiling {
		if s.Up {
			return "north", "south", "east", "west"
		}
		return "north", "south", "west", "east"
	}
	start := s.Surface.Start(place.X)
	left, right = string(start), string(start.Opposite())
	if s.Mirrored() {
		left, right = right, left
	}
	switch part, w, _ := s.Surface.BulkheadOf(); {
	case part == place.Bottom:
		return "face", string(w), left, right
	case part != "":
		return "ceiling", "bottom", left, right
	case s.Surface.SlopeTo() != "":
		return "top", string(s.Surface.SlopeTo()), left, right
	}
	return "ceiling", "floor", left, right
}

// Extent is the size of the surface, in words.
func (s Scene) Extent() string {
	x, y := "long", "high"
	switch part, _, _ := s.Surface.BulkheadOf(); {
	case s.Surface == place.Ceiling:
		x, y = "east-west", "north-south"
	case part == place.Bottom:
		y = "wide"
	case s.Surface.SlopeTo() != "":
		y = "up the slope"
	}
	return fmt.Sprintf("%s %s x %s %s", s.Len(s.EW), x, s.Near(s.NS), y)
}

// Seen says from which side the surface is seen.
func (s Scene) Seen() string {
	switch {
	case s.Up:
		return "Seen looking up: east and west have changed sides."
	case s.Surface == place.Ceiling:
		return "Seen from above: looking up it is mirrored."
	}
	_, _, left, right := s.Sides()
	return fmt.Sprintf("Seen from inside the room: %s on the left, %s on the right.", left, right)
}

// Off lists distances off walls.
func (s Scene) Off(from []Dim) string {
	var out []string
	for _, m := range from {
		if m.Ref == "" || m.Ref == "floor" {
			out = append(out, s.Tape(m.Dist)+" up")
			continue
		}
		if m.Ref == locate.Slope {
			out = append(out, s.Tape(m.Dist)+" up the slope")
			continue
		}
		out = append(out, s.Tape(m.Dist)+" off "+m.Ref)
	}
	return strings.Join(out, ", ")
}

// edges lists the extent of a door or window off walls and the floor.
func (s Scene) edges(from []Dim) string {
	var out []string
	for i, m := range from {
		switch {
		case !m.Size:
			continue
		case i+2 < len(from) && from[i+1].Axis == m.Axis:
			out = append(out, s.Tape(from[i+1].Dist)+" to "+s.Off(from[i+2:i+3]))
		case m.Axis == place.Y:
			out = append(out, s.Tape(m.Dist)+" high")
		default:
			out = append(out, s.Tape(m.Dist)+" from wall to wall")
		}
	}
	return strings.Join(out, ", ")
}

// Line is a thing, a run or a mark in words.
type Line struct {
	Name, Where, State string
	Thing              *Thing // nil for a run or a mark
	Run                bool
}

// Lines lists the things, runs and marks of the scene.
func (s Scene) Lines() (out []Line) {
	for i, t := range s.Things {
		l := Line{Name: t.Name, State: string(t.State), Thing: &s.Things[i]}
		if !strings.Contains(t.Name, t.What) {
			l.Name += " " + t.What
		}
		l.Name += s.Size(t.Size)
		if t.State == site.Covered {
			l.State = t.Over + ", not cut"
		}
		switch {
		case t.Framed && t.Surface != s.Surface:
			l.Where = t.Surface.Name() + ": " + s.edges(t.From)
		case t.Framed:
			l.Where = s.edges(t.From)
		case t.Surface == s.Surface:
			l.Where = s.Off(t.From)
		default:
			l.Where = t.Surface.Name() + ": " + s.Coords(t.Surface, t.At)
		}
		out = append(out, l)
	}
	for _, r := range s.Runs {
		l := Line{Name: r.What + " " + r.Name, Where: s.way(r.Path), Run: true}
		if r.Depth > 0 {
			l.State = s.Thick(r.Depth) + " deep"
		}
		out = append(out, l)
	}
	return append(out, say.Each(s.Marks, func(m Mark) Line { return Line{Name: "mark " + m.Name, Where: s.Coords(s.Surface, m.At)} })...)
}

// maxSpoken limits the lines of the list in a description.
const maxSpoken = 60

// About describes the picture in words, for screen readers.
func (s Scene) About() string {
	seen := "Seen from above, north on top, east on the right."
	if s.Up {
		seen = "Seen looking up, north on top, east on the left."
	}
	if s.Surface != place.Ceiling {
		seen = s.Seen()
	}
	parts := []string{seen, s.Extent() + "."}
	if n := len(s.Supports); n > 0 {
		parts = append(parts, say.Supports(n, s.Supports[0].Kind)+".")
	}
	up := 0
	for _, p := range s.Pieces {
		if p.Hung {
			up++
		}
	}
	if n := len(s.Pieces); n > 0 {
		parts = append(parts, fmt.Sprintf("%d %s of board, %d up.", n, say.Plural(n, "piece"), up))
	}
	for i, l := range s.Lines() {
		if i == maxSpoken {
			parts = append(parts, "And more.")
			break
		}
		text := l.Name + ": " + l.Where
		if l.State != "" {
			text += ", " + l.State
		}
		parts = append(parts, text+".")
	}
	return strings.Join(parts, " ")
}

// way describes the path of a run.
func (s Scene) way(path []place.Point) string {
	if s.Surface != place.Ceiling {
		return strings.Join(say.Each(path, func(p place.Point) string { return s.Coords(s.Surface, p) }), " to ")
	}
	if len(path) == 2 {
		a, b := path[0], path[1]
		switch {
		case a.X == b.X:
			return fmt.Sprintf("%s off west, from %s to %s off north", s.Tape(a.X), s.Tape(a.Y), s.Tape(b.Y))
		case a.Y == b.Y:
			return fmt.Sprintf("%s off north, from %s to %s off west", s.Tape(a.Y), s.Tape(a.X), s.Tape(b.X))
		}
	}
	return "off west x off north: " + strings.Join(say.Each(path, func(p place.Point) string { return s.Tape(p.X) + " x " + s.Tape(p.Y) }), " to ")
}
