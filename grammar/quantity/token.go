package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

type kind uint8

const (
	Nothing kind = iota // the end of the text or of its line
	Digits
	glyph // a fraction in one sign: ⅝
	Word
	Sign // one rune, its look-alikes folded together
)

type Token struct {
	Kind     kind
	Spaced   bool // white space stands before it
	From, To int
	Sign     rune
	num, den int64  // of a glyph
	Word     string // lower case, "" when longer than any word known here
}

func (t Token) Is(r rune) bool     { return t.Kind == Sign && t.Sign == r }
func (t Token) Tight(r rune) bool  { return t.Is(r) && !t.Spaced }
func (t Token) Figures() bool      { return t.Kind == Digits && !t.Spaced }
func (t Token) Says(w string) bool { return t.Kind == Word && t.Word == w }

// longest is the length in bytes of the longest word known here, "centimetres".
const longest = 16

// Next reads the token of s that begins at or after pos.
func Next(s string, pos int) Token {
	t := Token{From: pos, To: pos}
	for {
		r, n := utf8.DecodeRuneInString(s[t.From:])
		if n == 0 || r == '\n' || r == '\r' {
			return t
		}
		if !unicode.IsSpace(r) {
			break
		}
		t.From += n
		t.To = t.From
		t.Spaced = true
	}
	r, n := utf8.DecodeRuneInString(s[t.From:])
	t.To += n
	switch {
	case isDigit(r):
		t.Kind = Digits
		for t.To < len(s) && isDigit(rune(s[t.To])) {
			t.To++
		}
	case unicode.IsLetter(r):
		t.Kind = Word
		for {
			r, n := utf8.DecodeRuneInString(s[t.To:])
			if !unicode.IsLetter(r) || n == 0 {
				break
			}
			t.To += n
		}
		if t.To-t.From <= longest {
			t.Word = strings.ToLower(s[t.From:t.To])
		}
	default:
		if f, ok := glyphs[r]; ok {
			t.Kind, t.num, t.den = glyph, f[0], f[1]
			return t
		}
		t.Kind, t.Sign = Sign, fold(r)
		if t.Sign == '\'' { // two single quotes are one double
			if q, n := utf8.DecodeRuneInString(s[t.To:]); n > 0 && fold(q) == '\'' {
				t.Sign = '"'
				t.To += n
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
