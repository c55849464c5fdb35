package lex

import (
	"strings"
	"unicode/utf8"
)

// A crew speaks more than one language, often in one line. Tongue is the words of
// another one, beside the English that rules and tables are written in: a line that
// has a word of it is put into English word by word before it is read.
type Tongue struct {
	phrases Table
	sure    map[string]bool // words that are no English: they tell the tongue
	heads   map[string]bool // words whose line is kept word for word: note, snag
}

// newTongue reads a table, a row a phrase: "words, other words = English". A + before
// words says that they are English too, or a name: they do not tell the tongue.
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

// Shift is a place where two texts that say the same begin anew, in runes from 1.
type Shift struct {
	To, From int
	Said     string // the words there as typed
}

// English puts a line of the tongue into English; nil shifts: it is none, and stands
// as it is. kept are the declared names, which stay.
func (t *Tongue) English(text string, kept Names) (english string, shifts []Shift) {
	l := Reader{Names: kept, Text: text, Read: text, Pieces: Pieces(text)}
	if !t.tells(l.Pieces) {
		return text, nil
	}
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

// tells reports whether a phrase that tells the tongue stands among the pieces.
func (t *Tongue) tells(ps []Piece) bool {
	for i := range ps {
		if p, n := t.at(ps, i); n > 0 && t.sure[strings.Join(p.Words, " ")] {
			return true
		}
	}
	return false
}

// at finds the longest phrase of the tongue at piece i.
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

// plain is a word without its accents, as thumbs leave them out.
func plain(w string) string {
	for i := range len(w) {
		if w[i] >= utf8.RuneSelf {
			return plainLetters.Replace(w)
		}
	}
	return w
}

var plainLetters = strings.NewReplacer("á", "a", "é", "e", "í", "i", "ó", "o", "ú", "u", "ü", "u", "ñ", "n")

// Source is where a column of the English text was typed, and the words there when
// they were put into English.
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
