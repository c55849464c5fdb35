package sketch

import (
	"fmt"

	"strapline/bot/sheet"
	"strapline/calc/place"
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

// mirrored reports whether X runs to the left.
func (s Scene) mirrored() bool {
	if s.Surface == place.Ceiling {
		return s.Up
	}
	w := s.faces()
	return w == place.South || w == place.West
}

// sides names what adjoins each edge of the drawing.
func (s Scene) sides() (top, bottom, left, right string) {
	if s.Surface == place.Ceiling {
		if s.Up {
			return "north", "south", "east", "west"
		}
		return "north", "south", "west", "east"
	}
	start := s.Surface.Start(place.X)
	left, right = string(start), string(start.Opposite())
	if s.mirrored() {
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

// size is the size of the surface, in words.
func (s Scene) size() string {
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

// seen says from which side the surface is seen.
func (s Scene) seen() string {
	switch {
	case s.Up:
		return "Seen looking up: east and west have changed sides."
	case s.Surface == place.Ceiling:
		return "Seen from above: looking up it is mirrored."
	}
	_, _, left, right := s.sides()
	return fmt.Sprintf("Seen from inside the room: %s on the left, %s on the right.", left, right)
}

// openings draws doors and windows, crossed with two thin lines.
func (d *drawing) openings() {
	for _, o := range d.Openings {
		b := d.box(o)
		d.page.Rect(sheet.White, sheet.Pen{Ink: sheet.Black, W: 3, Dash: nil}, b)
		d.page.Line(sheet.Pen{Ink: sheet.Black, W: 1.2, Dash: nil}, sheet.Point{X: b.X0, Y: b.Y0}, sheet.Point{X: b.X1, Y: b.Y1})
		d.page.Line(sheet.Pen{Ink: sheet.Black, W: 1.2, Dash: nil}, sheet.Point{X: b.X0, Y: b.Y1}, sheet.Point{X: b.X1, Y: b.Y0})
	}
}
