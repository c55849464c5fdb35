package job

import (
	"bytes"
	"encoding/json"
	"strings"
	"unicode"

	"strapline/store"
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
	if ordinary(s) {
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

// ordinary reports whether text is printable ASCII only, as nearly all text in a log is.
func ordinary[T string | json.RawMessage](s T) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] >= 0x7f {
			return false
		}
	}
	return true
}

// cleaned returns the record with clean text, including the text in its body.
func cleaned(rec store.Record) store.Record {
	rec.Who, rec.Text = Clean(rec.Who), Clean(rec.Text)
	if (ordinary(rec.Body) || !bytes.ContainsFunc(rec.Body, Hostile)) && !bytes.Contains(rec.Body, []byte(`\u`)) {
		return rec
	}
	dec := json.NewDecoder(bytes.NewReader(rec.Body))
	dec.UseNumber()
	var v any
	if dec.Decode(&v) != nil {
		return rec // the fold will refuse it
	}
	var dirty bool
	v = cleanedValue(v, &dirty)
	if body, err := json.Marshal(v); dirty && err == nil {
		rec.Body = body
	}
	return rec
}

func cleanedValue(v any, dirty *bool) any {
	switch v := v.(type) {
	case string:
		c := Clean(v)
		*dirty = *dirty || c != v
		return c
	case []any:
		for i := range v {
			v[i] = cleanedValue(v[i], dirty)
		}
	case map[string]any:
		for k := range v {
			v[k] = cleanedValue(v[k], dirty)
		}
	}
	return v
}
