package rough

import (
	"regexp"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/speech"
)

var (
	enters = regexp.MustCompile(`[1VO]P*(W)P*(N)[io]*O(W)|1P*(N)[io]*O(W)`)
	legOn  = regexp.MustCompile(`[Vojy]+(?:(W)P*)?(N)`)
	legTo  = regexp.MustCompile(`[VjUo]+T?(W)(?:(N)|T?W?A?)`)
)

// bends is a run of one or two legs: it begins at a wall or off two, goes so far across the room, and then
// perhaps to another wall.
func (r *run) bends() []Guess {
	at := map[bool]speech.Far{} // the distances where it is, those off east or west under true
	tags := slices.Clone(r.Tags)
	fail := func() []Guess { r.Tags = tags; return nil }
	m := r.Take(enters)
	switch {
	case m == nil:
		return fail()
	case m[0] >= 0: // in at the west wall, 40 off the north
		at[r.WallAt(m[0]).EastWest()] = speech.Far{Text: "0", Wall: r.WallAt(m[0])}
		at[r.WallAt(m[2]).EastWest()] = speech.Far{Text: r.Said(m[1]), Wall: r.WallAt(m[2])}
	default: // starts 24 off the west
		at[r.WallAt(m[4]).EastWest()] = speech.Far{Text: r.Said(m[3]), Wall: r.WallAt(m[4])}
		for i, it := range r.Items { // and lies 30 off the north
			if it.Tag == speech.Wall && r.Tags[i] == speech.Wall && i > 1 && r.Tags[i-1] == 'O' && r.Tags[i-2] == speech.Length && r.WallAt(i).EastWest() != r.WallAt(m[4]).EastWest() {
				at[r.WallAt(i).EastWest()] = speech.Far{Text: r.Said(i - 2), Wall: r.WallAt(i)}
				r.Use(i-2, i+1)
			}
		}
	}
	if len(at) != 2 {
		return fail()
	}
	points := []string{at[false].String() + ", " + at[true].String()}
	for len(points) < 4 {
		next, ok := r.leg(at, len(points) == 1)
		if !ok {
			break
		}
		at[next.Wall.EastWest()] = next
		points = append(points, at[false].String()+", "+at[true].String())
	}
	if len(points) < 2 {
		return fail()
	}
	r.depth()
	if len(r.Left(speech.Length)) > 0 || len(r.what) != 1 {
		return fail()
	}
	last := len(points) - 1
	text := r.what[0] + ", from " + strings.Join(points[:last], " through ") + " to " + points[last] + r.lies
	return r.Guesses([]string{text})
}

// leg returns the distance that the next leg of a run changes. The first one goes away from the wall that
// it begins at, if no other direction is said.
func (r *run) leg(at map[bool]speech.Far, first bool) (speech.Far, bool) {
	on, to := legOn.FindSubmatchIndex(r.Tags), legTo.FindSubmatchIndex(r.Tags)
	switch {
	case on != nil && (to == nil || on[0] <= to[0]):
		r.Use(on[0], on[1])
		w := place.Wall("")
		if on[2] >= 0 {
			w = r.WallAt(on[2])
		}
		for _, f := range at {
			if w == "" && first && f.Text == "0" {
				return speech.Far{Text: r.Said(on[4]), Wall: f.Wall}, true
			}
		}
		if w == "" {
			return speech.Far{}, false
		}
		was := at[w.EastWest()]
		a, b := r.LengthOf(was.Text), r.Size(on[4])
		if b == 0 || was.Wall == w && a <= b {
			return speech.Far{}, false
		}
		if was.Wall == w { // towards the wall that it is off
			b = -b
		}
		return speech.Far{Text: length.Canon(a + b), Wall: was.Wall}, true
	case to != nil:
		r.Use(to[0], to[1])
		return speech.Far{Text: "0", Wall: r.WallAt(to[2])}, true
	}
	return speech.Far{}, false
}
