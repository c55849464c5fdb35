package rough

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/topic"
)

// Guess is what a line may mean, in canonical words, one entry a line.
type Guess struct {
	Text   string
	Lost   int  // words that have no part in it
	Sure   bool // every word has its part, and nothing else fits
	Note   bool // some of the line is in none of it: the line is kept beside it
	Keep   bool // it has no place: the line is kept as a note
	Either bool // one of the guesses is meant, no doubt
	// Asks is the question, and Label the choice, if it is not whether that was meant.
	Asks, Label string
}

// Of returns what a line may mean, most likely first; nothing if it is about something else.
func Of(s *read.Source) []Guess {
	if s.Cmd != nil && s.Cmd.Kind != "room" && s.Cmd.Kind != "bulkhead" && s.Cmd.Kind != "slope" || s.AsksSomething() || len(s.Pieces) > 80 {
		return nil
	}
	frames := []func(*line) []Guess{(*line).roomSized, (*line).boxing, (*line).slopes, (*line).runs, (*line).framing, (*line).height}
	if elsewhere(s) {
		frames = frames[:1]
	}
	for i, frame := range frames {
		l := scan(s)
		if i > 0 && l.misheard() || l.of == "several" {
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

// guesses returns a guess for each text.
func (l *line) guesses(texts []string) []Guess {
	all := make([]Guess, len(texts))
	for i, text := range texts {
		if l.of != "" && !strings.HasPrefix(text, "room ") {
			text = l.of + ": " + strings.ReplaceAll(text, "\n", "\n"+l.of+": ")
		}
		all[i] = Guess{Text: text, Lost: l.lost(), Note: l.rest, Sure: len(texts) == 1 && l.lost() == 0 && !l.doubt && !l.rest && !strings.Contains(text, "\n")}
	}
	return all
}

// changing are words that negate a line, or change what was said before.
var changing = lex.Set(strings.Fields("not isnt isn't wasnt wasn't moved moving move instead wrong should shouldnt shouldn't cancel cancelled abandoned removed capped rerouted relocated changed sorry correction oops except unless until never without almost swap delete scratch")...)

// changes reports whether a line negates or changes something, other than by the words given.
func (l *line) changes(but ...string) bool {
	for _, p := range l.Pieces[l.Begin:] {
		if changing[p.Low] && !slices.Contains(but, p.Low) {
			return true
		}
	}
	return false
}
