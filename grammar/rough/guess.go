package rough

import (
	"strapline/grammar/speech"
)

// line is a line by its parts of speech.
type line struct {
	*speech.Line
	spelt bool // a number in the room's name is a word
}

type Guess = speech.Guess

// Of returns what a line may mean, most likely first; nothing if it is about something else.
func Of(said *speech.Line) []Guess {
	s := said.Source
	if s.Cmd != nil && s.Cmd.Kind != "room" && s.Cmd.Kind != "bulkhead" && s.Cmd.Kind != "slope" || s.AsksSomething() || len(s.Pieces) > 80 {
		return nil
	}
	frames := []func(*line) []Guess{(*line).roomSized, (*line).boxing, (*line).slopes, (*line).runs, (*line).framing, (*line).height, (*line).reading}
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
