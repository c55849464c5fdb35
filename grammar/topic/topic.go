// Package topic tells what a text is about by its words: which of them tell, which are the same, and which are
// of the work.
package topic

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
)

// mostTelling is the number of words of a question that are looked for.
const mostTelling = 16

// Telling returns the words of a text that tell what it is about, in lower case.
func Telling(text string) (all []string) {
	for w := range strings.FieldsSeq(lex.Lower(text)) {
		w = strings.TrimSuffix(strings.Trim(w, `.,;:!?()"“”-'`), "'s")
		if len(w) < 2 || Small[w] && !Works(w) || smallToo[w] || strings.Trim(w, "0123456789") == "" || slices.Contains(all, w) {
			continue
		}
		if all = append(all, w); len(all) == mostTelling {
			break
		}
	}
	return all
}

// Works reports whether a word is one of the work: a thing, what runs through a ceiling, framing, board, or
// what becomes of them.
func Works(w string) bool { return Work[w] || Outcome[Stem(w)] || Subject(w) }

// Subject reports whether a word is what a question is about: a thing, what runs through a ceiling, framing.
func Subject(w string) bool {
	t := lex.Phrases.Whole(w).Type
	return lex.ThingOf[w] != "" || t == lex.Service || t == lex.Support
}

// NamesRoom reports whether a word names a room, whether one of that name is noted or not.
func NamesRoom(w string) bool { return RoomNoun[Stem(w)] }

// Stem returns the word that all forms of a word share: "pots" and "cans" are "light", "romex" is "wire".
func Stem(w string) string {
	if s := stems[w]; s != "" {
		return s
	}
	if kind := lex.ThingOf[w]; kind != "" && w != "spot" && w != "spots" {
		return kind
	}
	switch sym := lex.Phrases.Whole(w); sym.Type {
	case lex.Service, lex.Support:
		if s := stems[sym.Value]; s != "" {
			return s
		}
		return sym.Value
	}
	if s := strings.TrimSuffix(w, "s"); len(s) > 2 && s != w && !strings.HasSuffix(s, "s") {
		return s
	}
	return w
}
