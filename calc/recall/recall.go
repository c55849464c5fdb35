// Package recall finds notes by what they are about: those that share the most telling words with what is
// asked.
package recall

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"unicode/utf8"
)

// Note is what a note can be found by.
type Note struct {
	Text string // the words of the crew
	Also string // more words: who said it, in which room
}

// Word is a word that is asked for, already folded.
type Word struct {
	Text   string
	Weight float64 // how much it tells beside the others
	Must   bool    // a note without it is about something else
}

// Words says which words are the same.
type Words struct {
	// Fold returns the word that all its forms share, for a word in lower case: "lights" and "pots" are
	// "light".
	Fold func(word string) string
	// Alike reports whether a word of a note may be a slip for the one that is asked for, or the other way
	// round. It is asked of words that no note has.
	Alike func(asked, noted string) bool
}

// mostAsked is the number of words asked for that are looked at, one bit each.
const mostAsked = 32

// Best returns the indexes of at most most notes, the best first and of equals the newest. The notes are in
// the order they were sent. A rare word tells more than one that half of the notes have, and a note needs
// at least half of what all the words together tell, besides those it must have.
func Best(notes []Note, asked []Word, w Words, most int) []int {
	asked = asked[:min(len(asked), mostAsked)]
	has, met := match(notes, asked, w.Fold)
	if w.Alike != nil && corrected(asked, has, met, w.Alike) {
		has, _ = match(notes, asked, w.Fold)
	}
	weights, total, must := make([]float64, len(asked)), 0.0, uint32(0)
	for i, a := range asked {
		notesWith := 0
		for _, h := range has {
			notesWith += int(h >> i & 1)
		}
		if a.Must {
			must |= 1 << i
			continue
		}
		weights[i] = a.Weight * math.Log(1+float64(len(notes)+1)/float64(notesWith+1))
		total += weights[i]
	}
	scores := make([]float64, len(notes))
	var found []int
	for n, h := range has {
		for i := range asked {
			if h>>i&1 == 1 {
				scores[n] += weights[i]
			}
		}
		if h&must == must && h != 0 && scores[n]*2 >= total {
			found = append(found, n)
		}
	}
	slices.SortFunc(found, func(a, b int) int {
		if d := cmp.Compare(scores[b], scores[a]); d != 0 {
			return d
		}
		return b - a
	})
	return found[:min(len(found), most)]
}

// match returns which of the words asked for each note has, as bits, and those of each word met.
func match(notes []Note, asked []Word, fold func(string) string) (has []uint32, met map[string]uint32) {
	bits := map[string]uint32{}
	for i, a := range asked {
		bits[a.Text] |= 1 << i
	}
	has, met = make([]uint32, len(notes)), map[string]uint32{}
	for n, note := range notes {
		for _, text := range [2]string{note.Text, note.Also} {
			for start, end := next(text, 0); start < len(text); start, end = next(text, end) {
				b, seen := met[text[start:end]]
				if !seen {
					low := strings.ToLower(text[start:end])
					b = bits[low] | bits[fold(low)]
					for i, sign := range low { // "rough-in" is "rough" too
						if sign < 0x80 && joins[sign] {
							b |= bits[fold(low[:i])] | bits[fold(low[i+1:])]
						}
					}
					met[text[start:end]] = b
				}
				has[n] |= b
			}
		}
	}
	return has, met
}

// corrected replaces the words that no note has by the word of the notes that is most like them, and
// reports whether there are any. Short words are like too many.
func corrected(asked []Word, has []uint32, met map[string]uint32, alike func(asked, noted string) bool) bool {
	var all uint32
	for _, h := range has {
		all |= h
	}
	any := false
	for i, a := range asked {
		if all>>i&1 == 1 || utf8.RuneCountInString(a.Text) < 5 {
			continue
		}
		best := ""
		for word := range met {
			low := strings.ToLower(word)
			if utf8.RuneCountInString(low) >= 5 && (best == "" || low < best) && alike(a.Text, low) {
				best = low
			}
		}
		if best != "" {
			asked[i].Text, any = best, true
		}
	}
	return any
}

// Shared counts the words that a text has, in any of their forms.
func Shared(text string, words []string, fold func(string) string) (n int) {
	has := map[string]bool{}
	for start, end := next(text, 0); start < len(text); start, end = next(text, end) {
		has[fold(strings.ToLower(text[start:end]))] = true
	}
	for _, w := range words {
		if has[fold(w)] {
			n++
		}
	}
	return n
}

// next returns the bounds of the first word of text from byte i on: letters and figures, with an apostrophe
// or a sign between two of them. start is len(text) if there is none.
func next(text string, i int) (start, end int) {
	for i < len(text) && !inWord(text[i]) {
		i++
	}
	for end = i; end < len(text) && (inWord(text[end]) || end+1 < len(text) && joins[text[end]] && inWord(text[end+1])); end++ {
	}
	return i, end
}

// inWord reports whether a byte is of a letter or a figure. All letters beyond ASCII are, and signs there.
func inWord(b byte) bool { return b >= 0x80 || wordBytes[b] }

var wordBytes, joins = func() (word, joins [0x100]bool) {
	for b := range byte(0x80) {
		word[b] = '0' <= b && b <= '9' || 'a' <= b && b <= 'z' || 'A' <= b && b <= 'Z'
	}
	for _, b := range []byte("'-/") {
		joins[b] = true
	}
	return word, joins
}()
