// Package sense works out what a line tells when no rule reads it: it goes by the words of
// the work in it, in whatever order they stand, and not by the sentence.
//
// It sorts the words of a line into lengths, walls, things, rows, boards and verbs (scan.go), sees
// which frame they fill, and says that in canonical words (hang.go, thing.go, tell.go).
// A frame is only filled when each number of the line has a place in it. Nothing is saved
// by that alone: the sender is asked whether it was meant.
package sense

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
)

// Guess is what a line may mean, in the words of the grammar.
type Guess struct {
	Text string // one entry a line
	Lost int    // how many words had no part in it
}

// Of is what a line may mean, the likeliest first; none when that cannot be told.
func Of(s string, n lex.Names) []Guess {
	l := scan(s, n)
	if l.mark {
		return nil // a question is sorted by the grammar itself
	}
	if l.sided() || l.misheard() {
		return nil // which wall that is, or which number, nobody can tell
	}
	frames := tellings
	if l.elsewhere() {
		frames = []func(*line) []string{(*line).rooms}
	}
	for _, frame := range frames {
		fresh := *l
		fresh.items = slices.Clone(l.items) // a frame takes what it uses
		if texts := frame(&fresh); len(texts) > 0 {
			all := make([]Guess, len(texts))
			for i, text := range texts {
				all[i] = Guess{Text: l.in(text), Lost: l.strays()}
			}
			return all
		}
	}
	return nil
}

// in puts the room that the line names before what is said of it.
func (l *line) in(text string) string {
	if l.room == "" || strings.HasPrefix(text, "room ") || strings.HasPrefix(text, "in ") {
		return text
	}
	return l.room + ": " + strings.ReplaceAll(text, "\n", "\n"+l.room+": ")
}
