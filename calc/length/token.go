package length

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

type kind uint8

const (
	nothing kind = iota // the end of the text or of its line
	digits
	glyph // a fraction in one sign: ⅝
	word
	sign // one rune, its look-alikes folded together
)

type token struct {
	kind     kind
	spaced   bool // white space stands before it
	from, to int
	sign     rune
	num, den int64  // of a glyph
	word     string // lower case, "" when longer than any word known here
}

func (t token) is(r rune) bool     { return t.kind == sign && t.sign == r }
func (t token) tight(r rune) bool  { return t.is(r) && !t.spaced }
func (t token) figures() bool      { return t.kind == digits && !t.spaced }
func (t token) says(w string) bool { return t.kind == word && t.word == w }

// longest is the length in bytes of the longest word known here, "centimetres".
const longest = 16

// next reads the token of s that begins at or after pos.
func next(s string, pos int) token {
	t := token{from: pos, to: pos}
	for {
		r, n := utf8.DecodeRuneInString(s[t.from:])
		if n == 0 || r == '\n' || r == '\r' {
			return t
		}
		if !unicode.IsSpace(r) {
			break
		}
		t.from += n
		t.to = t.from
		t.spaced = true
	}
	r, n := utf8.DecodeRuneInString(s[t.from:])
	t.to += n
	switch {
	case isDigit(r):
		t.kind = digits
		for t.to < len(s) && isDigit(rune(s[t.to])) {
			t.to++
		}
	case unicode.IsLetter(r):
		t.kind = word
		for {
			r, n := utf8.DecodeRuneInString(s[t.to:])
			if !unicode.IsLetter(r) || n == 0 {
				break
			}
			t.to += n
		}
		if t.to-t.from <= longest {
			t.word = strings.ToLower(s[t.from:t.to])
		}
	default:
		if f, ok := glyphs[r]; ok {
			t.kind, t.num, t.den = glyph, f[0], f[1]
			return t
		}
		t.kind, t.sign = sign, fold(r)
		if t.sign == '\'' { // two single quotes are one double
			if q, n := utf8.DecodeRuneInString(s[t.to:]); n > 0 && fold(q) == '\'' {
				t.sign = '"'
				t.to += n
			}
		}
	}
	return t
}

func isDigit(r rune) bool { return '0' <= r && r <= '9' }

// fold maps the quotes, primes, dashes and slashes that phones put in.
func fold(r rune) rune {
	switch r {
	case '’', '‘', '‛', '′', '`', '´', '‵', '❛', '❜':
		return '\''
	case '”', '“', '‟', '″', '˝', '‶', '❝', '❞':
		return '"'
	case '‐', '‑', '‒', '–', '—', '−':
		return '-'
	case '⁄', '∕':
		return '/'
	}
	return r
}

var glyphs = map[rune][2]int64{
	'½': {1, 2}, '¼': {1, 4}, '¾': {3, 4},
	'⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
	'⅓': {1, 3}, '⅔': {2, 3}, '⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5},
	'⅙': {1, 6}, '⅚': {5, 6}, '⅐': {1, 7}, '⅑': {1, 9}, '⅒': {1, 10}, '↉': {0, 3},
}
