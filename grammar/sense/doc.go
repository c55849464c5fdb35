// Package sense works out what a line means if no rule reads it. It uses the words of the work in the
// line, in any order, and not its syntax.
//
// It sorts the words of a line into lengths, walls, things, rows, boards and verbs (scan.go), finds the
// frame that they fill, and puts that into canonical words (hang.go, thing.go, tell.go). A frame is only
// filled if every number of the line has a place in it. If every word has a part in it too, the line is
// read so; otherwise the sender is asked whether that was meant.
package sense

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/speech"
)

// Of returns what a line may mean, most likely first; nothing if that cannot be told.
func Of(s string, n lex.Names) []speech.Guess {
	l := scan(s, n)
	if l.mark {
		return nil // the grammar sorts questions itself
	}
	if l.sided() || l.misheard() || l.has("notch") || l.elsewhere() {
		return nil // ambiguous: which wall, which number, or which room
	}
	for _, f := range tellings {
		fresh := *l
		fresh.items = slices.Clone(l.items) // a frame marks the items it uses
		if texts := f.fill(&fresh); len(texts) > 0 {
			all := make([]speech.Guess, len(texts))
			for i, text := range texts {
				all[i] = speech.Guess{Text: l.in(text), Lost: l.strays(), Sure: len(texts) == 1 && f.accounts(&fresh)}
			}
			return all
		}
	}
	return nil
}

// accounts reports whether every word of a line that fills the frame has its part in it, or changes
// nothing.
func (f *frame) accounts(l *line) bool {
	return f.own != nil && !l.doubt && !slices.ContainsFunc(l.items, func(it item) bool {
		switch {
		case it.typ == lex.Number:
			return !it.used || it.is("one", "a")
		case f.own[it.low]:
			return false
		case lex.Numeral(it.low), lex.Heard(it.low):
			return true
		}
		return !it.used && !small[it.low] && !f.own[it.value] && !slices.Contains(f.types, it.typ)
	})
}

// in puts the room that the line names before the guess.
func (l *line) in(text string) string {
	if l.room == "" || strings.HasPrefix(text, "room ") || strings.HasPrefix(text, "in ") {
		return text
	}
	return l.room + ": " + strings.ReplaceAll(text, "\n", "\n"+l.room+": ")
}
