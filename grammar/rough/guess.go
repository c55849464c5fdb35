package rough

import (
	"strapline/grammar/shell"
	"strapline/grammar/speech"
)

// line is a line by its parts of speech.
type line struct{ *speech.Line }

type Guess = speech.Guess

// Of returns what a line may mean, most likely first, also of the room itself; nothing if it is about something else.
func Of(said *speech.Line) []Guess {
	s := said.Source
	if s.Cmd != nil && s.Cmd.Kind != "room" && s.Cmd.Kind != "bulkhead" && s.Cmd.Kind != "slope" || s.AsksSomething() || len(s.Pieces) > 80 {
		return nil
	}
	if all := shell.Of(said); all != nil || said.Elsewhere() || said.Misheard() || said.Of == "several" {
		return all
	}
	for _, frame := range []func(*line) []Guess{(*line).runs, (*line).framing} {
		if all := frame(&line{said.Clone()}); len(all) > 0 { // a frame marks what it takes
			return all
		}
	}
	return nil
}
