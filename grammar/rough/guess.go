package rough

import (
	"strapline/grammar/shell"
	"strapline/grammar/speech"
)

// line is a line by its parts of speech.
type line struct{ *speech.Line }

type Guess = speech.Guess

// told reports whether a line that begins with "is" and has a measure tells of framing: "is strapping 400 centre".
func told(said *speech.Line) bool {
	return !said.Question && said.Opens("is", "are") && said.Has("K") && said.Has("N")
}

// Of returns what a line may mean, most likely first, also of the room itself; nothing if it is about something else.
func Of(said *speech.Line) []Guess {
	s := said.Source
	if s.Cmd != nil && s.Cmd.Kind != "room" && s.Cmd.Kind != "bulkhead" && s.Cmd.Kind != "slope" || s.AsksSomething() && !told(said) || len(s.Pieces) > 80 {
		return nil
	}
	if all := shell.Of(said); all != nil || said.Elsewhere() || said.Misheard() {
		return all
	}
	for i, frame := range []func(*line) []Guess{(*line).runs, (*line).framing} {
		if i == 0 && said.Of == "several" { // the same framing in each
			continue
		}
		if all := frame(&line{said.Clone()}); len(all) > 0 { // a frame marks what it takes
			return all
		}
	}
	return nil
}
