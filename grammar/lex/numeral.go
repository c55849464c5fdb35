package lex

import (
	"slices"
	"strings"
)

// numerals are the words for numbers.
var numerals = strings.Fields(`zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen
	eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred thousand
	half halves quarter quarters fourth fourths eighth eighths sixteenth sixteenths`)

// Counts are the small numbers as words.
var Counts = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12}

var numeral = Set(numerals...)

// heard are words that a phone writes for a number. None of them is part of a name. "for" and "to" are
// also words of their own.
var heard = Set("won", "too", "fore", "sicks", "sics", "ate", "ates", "eights", "sixteens", "nein", "tin")

// Numeral reports whether a word is a number, or part of one.
func Numeral(w string) bool { return numeral[w] }

// Heard reports whether a phone may have written the word for a number.
func Heard(w string) bool { return heard[w] }

// Numerals returns the number words.
func Numerals() []string { return slices.Clone(numerals) }

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
