package lex

import (
	"strings"
	"unicode/utf8"
)

// A crew speaks more than one language, often in one line. Tongue holds the words of another language than
// English, in which rules and tables are written. A line with a word of it is translated into English word
// by word before it is read.
type Tongue struct {
	phrases Table
	sure    map[string]bool // words that are not English: they identify the language
	heads   map[string]bool // words whose line is kept word for word: note, snag
}

// newTongue parses a table, a row for each phrase: "words, other words = English". A + before words means
// that they are also English, or a name, and so do not identify the language.
func newTongue(table string, heads ...string) *Tongue {
	t := &Tongue{phrases: Table{}, sure: map[string]bool{}, heads: Set(heads...)}
	for row := range strings.Lines(table) {
		said, english, ok := strings.Cut(strings.TrimSpace(row), " = ")
		if !ok {
			continue
		}
		for _, words := range listed(said) {
			words, shared := strings.CutPrefix(words, "+")
			t.phrases.Add(words, Symbol{Word, english})
			if !shared {
				t.sure[words] = true
			}
		}
	}
	return t
}

// Shift is a place where the text and its translation correspond, in runes from 1.
type Shift struct {
	To, From int
	Said     string // the words there as typed
}

// English translates a line into English. If shifts is nil, the line is not in this language and
// unchanged. kept are the declared names, which stay as they are.
func (t *Tongue) English(text string, kept Names) (english string, shifts []Shift) {
	if !t.tells(Pieces(text)) {
		return text, nil
	}
	l := Read(text, kept)
	var b strings.Builder
	at, runes, sure := 0, 1, false
	put := func(s string) { b.WriteString(s); runes += utf8.RuneCountInString(s) }
	swap := func(english string, from, to int) {
		first, last := l.Pieces[from], l.Pieces[to-1]
		put(text[at:first.Start])
		shifts = append(shifts, Shift{To: runes, From: first.Col, Said: text[first.Start:last.End]})
		put(english)
		at = last.End
		shifts = append(shifts, Shift{To: runes, From: last.Col + utf8.RuneCountInString(text[last.Start:last.End])})
	}
	for i := 0; i < len(l.Pieces); {
		if _, n := l.Declared(i); n > 0 {
			i += n
			continue
		}
		switch p := l.Pieces[i].Low; {
		case p == "¿" || p == "¡":
			swap(" ", i, i+1)
		case t.heads[p]: // the rest is kept word for word
			i = len(l.Pieces)
			continue
		}
		p, n := t.at(l.Pieces, i)
		if n > 0 {
			sure = sure || t.sure[strings.Join(p.Words, " ")]
			swap(p.Value, i, i+n)
			if t.heads[p.Value] {
				break
			}
		}
		named := p.Value == "room" || l.Pieces[i].Low == "room"
		i += max(n, 1)
		if named { // its name stays
			for i < len(l.Pieces) && l.Pieces[i].Word() {
				i++
			}
		}
	}
	if !sure {
		return text, nil
	}
	put(text[at:])
	return b.String(), shifts
}

// tells reports whether a phrase that identifies the language is among the pieces.
func (t *Tongue) tells(ps []Piece) bool {
	for i := range ps {
		if p, n := t.at(ps, i); n > 0 && t.sure[strings.Join(p.Words, " ")] {
			return true
		}
	}
	return false
}

// at returns the longest phrase of the language at piece i.
func (t *Tongue) at(ps []Piece, i int) (Phrase, int) {
next:
	for _, p := range t.phrases[plain(ps[i].Low)] {
		if i+len(p.Words) > len(ps) {
			continue
		}
		for k, w := range p.Words {
			if plain(ps[i+k].Low) != w {
				continue next
			}
		}
		return p, len(p.Words)
	}
	return Phrase{}, 0
}

// plain returns a word without its accents, which people often leave out.
func plain(w string) string {
	for i := range len(w) {
		if w[i] >= utf8.RuneSelf {
			return plainLetters.Replace(w)
		}
	}
	return w
}

var plainLetters = strings.NewReplacer("á", "a", "é", "e", "í", "i", "ó", "o", "ú", "u", "ü", "u", "ñ", "n")

// Source maps a column of the English text to where it was typed, and returns the words there if they were
// translated.
func Source(shifts []Shift, col int) (from int, said string) {
	from = col
	for _, s := range shifts {
		if s.To > col {
			break
		}
		from, said = s.From, s.Said
		if said == "" {
			from += col - s.To
		}
	}
	return from, said
}
