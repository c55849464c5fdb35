// Package shell works out what a line says of a room as it stands, its sides and its height, its slopes and bulkheads,
// by the tags of its words in any order.
package shell

import (
	"strapline/grammar/speech"
)

// Guess is what a line may mean.
type Guess = speech.Guess

// line is a line by its parts of speech.
type line struct {
	*speech.Line
	spelt bool   // a number in the room's name is a word
	then  string // what is said of it beside its size
}

// Of returns what a line may mean, most likely first; nothing if it is about something else.
func Of(said *speech.Line) []Guess {
	frames := []func(*line) []Guess{(*line).roomSized, (*line).boxing, (*line).slopes, (*line).height, (*line).reading}
	if said.Elsewhere() {
		frames = frames[:1]
	}
	for i, frame := range frames {
		l := &line{Line: said.Clone()} // a frame marks what it takes
		if i > 0 && l.Misheard() || l.Of == "several" {
			return nil
		}
		if all := frame(l); len(all) > 0 {
			return all
		}
	}
	return nil
}
