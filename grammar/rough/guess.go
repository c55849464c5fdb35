package rough

import (
	"strings"

	"strapline/grammar/read"
	"strapline/grammar/speech"
	"strapline/grammar/topic"
)

// line is a line by its parts of speech.
type line struct {
	*speech.Line
	spelt bool // a number in the room's name is a word
}

type Guess = speech.Guess

// Of returns what a line may mean, most likely first; nothing if it is about something else.
func Of(s *read.Source) []Guess {
	if s.Cmd != nil && s.Cmd.Kind != "room" && s.Cmd.Kind != "bulkhead" && s.Cmd.Kind != "slope" || s.AsksSomething() || len(s.Pieces) > 80 {
		return nil
	}
	frames := []func(*line) []Guess{(*line).roomSized, (*line).boxing, (*line).slopes, (*line).runs, (*line).framing, (*line).height}
	if elsewhere(s) {
		frames = frames[:1]
	}
	said := speech.Scan(s)
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

// elsewhere reports whether the line is of a room that is not declared: "pipe in the hall".
func elsewhere(s *read.Source) bool {
	for i, p := range s.Pieces[s.Begin:] {
		if i > 0 && topic.RoomNoun[p.Low] && !p.Gone && (s.Pieces[s.Begin+i-1].Low == "in" || i > 1 && s.Pieces[s.Begin+i-1].Low == "the" && s.Pieces[s.Begin+i-2].Low == "in") {
			return true
		}
	}
	return false
}

// Guesses returns a guess for each text.
func (l *line) Guesses(texts []string) []Guess {
	all := make([]Guess, len(texts))
	for i, text := range texts {
		if l.Of != "" && !strings.HasPrefix(text, "room ") {
			text = l.Of + ": " + strings.ReplaceAll(text, "\n", "\n"+l.Of+": ")
		}
		all[i] = Guess{Text: text, Lost: l.Lost(), Note: l.Rest, Sure: len(texts) == 1 && l.Lost() == 0 && !l.Doubt && !l.Rest && !strings.Contains(text, "\n")}
	}
	return all
}
