// Package shell works out what a line says of a room as it stands, its sides and its height, its slopes and bulkheads,
// by the tags of its words in any order.
package shell

import (
	"strings"

	"strapline/grammar/speech"
)

// Guess is what a line may mean.
type Guess = speech.Guess

// line is a line by its parts of speech.
type line struct {
	*speech.Line
	spelt bool   // a number in the room's name is a word
	many  bool   // it is one of several in the message: 13 x 11 is in feet
	then  string // what is said of it beside its size
}

// Of returns what a line may mean, most likely first; nothing if it is about something else.
func Of(said *speech.Line) []Guess {
	frames := []func(*line) []Guess{(*line).tapered, (*line).rooms, (*line).roomSized, (*line).boxing, (*line).slopes, (*line).height, (*line).reading}
	if said.Elsewhere() {
		frames = frames[:3]
	}
	for i, frame := range frames {
		l := &line{Line: said.Clone()}                          // a frame marks what it takes
		if m := toFraming.FindSubmatchIndex(l.Tags); m != nil { // 7'1 to the strapping
			k := max(m[2], m[4])
			l.Tags[k-1], l.Tags[k], l.Items[k].Tag = 'P', 'H', 'H'
		}
		for k, it := range l.Items {
			if it.Tag == 'U' && strings.HasPrefix(it.Low, "floor to ") && !l.Has("S") { // 8 foot 1 floor to ceiling
				l.Items[k].Tag, l.Tags[k] = 'H', 'H'
			}
		}
		if i > 2 && l.Misheard() {
			return nil
		}
		if i != 1 && l.Of == "several" && i != 5 { // the ceilings of several may be as high
			continue
		}
		if all := frame(l); len(all) > 0 {
			return all
		}
	}
	return nil
}
