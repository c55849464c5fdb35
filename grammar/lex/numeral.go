package lex

import (
	"strings"

	"strapline/grammar/quantity"
)

// Numerals are the words for numbers, and for parts of one. Counts are the small ones.
var Numerals, Counts = func() (all map[string]bool, counts map[string]int) {
	all, counts = Set("zero", "hundred", "thousand"), map[string]int{}
	for _, words := range []map[string]int64{quantity.Ones, quantity.Tens, quantity.Parts} {
		for w, n := range words {
			if all[w] = all[w] || n > 0; 0 < n && n <= 12 && quantity.Parts[w] == 0 {
				counts[w] = int(n)
			}
		}
	}
	return all, counts
}()

// heard are words that a phone writes for a number. None of them is part of a name. "for" and "to" are
// also words of their own.
var heard = Set("won", "too", "fore", "sicks", "sics", "ate", "ates", "eights", "sixteens", "nein", "tin")

// Numeral reports whether a word is a number, or part of one.
func Numeral(w string) bool { return Numerals[w] }

// Heard reports whether a phone may have written the word for a number.
func Heard(w string) bool { return heard[w] }

// lastOnes are words before a "one" that is not a number but refers to what was noted last.
var lastOnes = Set("last", "that", "this")

// firstOne reports whether the one after "first" at piece i means the support and is not part of the
// number that follows: "first one at twelve", "first one 12 1/2".
func (l *Reader) firstOne(i int) bool {
	if i+2 >= len(l.Pieces) || l.Pieces[i+1].Low != "one" {
		return false
	}
	p := l.Pieces[i+2]
	return p.Low == "at" || p.Low == "is" || p.Kind == '0' && !strings.ContainsRune("½¼¾⅛⅜⅝⅞", []rune(p.Low)[0])
}

// quoted reports whether piece i is one of the quotes around words: "sink".
func (l *Reader) quoted(i int) bool {
	if !quote(l.Pieces[i].Low) {
		return false
	}
	words := func(from, step int) int {
		k := from + step
		for k >= 0 && k < len(l.Pieces) && l.Pieces[k].Word() {
			k += step
		}
		if k < 0 || k == len(l.Pieces) || k == from+step || !quote(l.Pieces[k].Low) {
			return -1
		}
		return k
	}
	if end := words(i, 1); end > 0 && l.opensQuote(i) {
		return true
	}
	first := words(i, -1)
	return first >= 0 && l.opensQuote(first)
}

// opensQuote reports whether the quote at piece i is before its word, and not after a number.
func (l *Reader) opensQuote(i int) bool {
	return l.Pieces[i+1].Start == l.Pieces[i].End && (i == 0 || l.Pieces[i-1].End < l.Pieces[i].Start)
}

func quote(s string) bool {
	switch s {
	case `"`, "“", "”", "„", "«", "»", "'", "‘", "’":
		return true
	}
	return false
}

// Fold replaces the wide figures and letters that some phones write, and primes that count as letters, by
// plain ones. The number of runes stays the same.
func Fold(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case 0xFF01 <= r && r <= 0xFF5E: // fullwidth forms
			return r - 0xFF01 + '!'
		case r == 'ʹ', r == 'ʼ':
			return '\''
		}
		return r
	}, s)
}
