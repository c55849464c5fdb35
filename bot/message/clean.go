package message

import (
	"strings"
	"unicode"
)

// Hostile reports whether a character must not be shown to others because it moves the cursor, rings, or
// reverses the order of text: Unicode's control and format characters and line separators. Line feed, tab,
// and the joiners that emoji and scripts need are not hostile.
func Hostile(r rune) bool {
	const zwnj, zwj = '\u200c', '\u200d'
	switch {
	case r >= ' ' && r < 0x7f || r == '\n' || r == '\t' || r == zwnj || r == zwj:
		return false
	case r < 0x7f:
		return true
	}
	return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp)
}

// Clean returns text without [Hostile] characters. Every message is cleaned as it comes in, by any door,
// and every entry of a log as it is read or imported. Characters of no width are left out; others become a
// space.
func Clean(s string) string {
	if Ordinary(s) {
		return s
	}
	s = strings.ToValidUTF8(s, "\uFFFD")
	if !strings.ContainsFunc(s, Hostile) {
		return s
	}
	return strings.Map(func(r rune) rune {
		const zwsp = '\u200b'
		switch {
		case !Hostile(r):
			return r
		case unicode.Is(unicode.Cf, r) && r != zwsp:
			return -1
		}
		return ' '
	}, strings.ReplaceAll(s, "\r\n", "\n"))
}

// Ordinary reports whether text is printable ASCII only, as nearly all text in a log is.
func Ordinary[T ~string | ~[]byte](s T) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] >= 0x7f {
			return false
		}
	}
	return true
}
