package canon

import (
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Say assembles a line in canonical form from words, numbers and lengths, with spaces between. Empty and
// zero values are left out.
func Say(parts ...any) string {
	var b strings.Builder
	add := func(sep, s string) {
		if s != "" && b.Len() > 0 {
			b.WriteString(sep)
		}
		b.WriteString(s)
	}
	for _, p := range parts {
		switch p := p.(type) {
		case Clause:
			if !p.Empty() {
				add(", ", Say(p...))
			}
		case Located:
			for _, s := range p.clauses() {
				if p.Comma {
					add(", ", s)
				} else {
					add(" ", s)
				}
				p.Comma = true
			}
		default:
			add(" ", one(p))
		}
	}
	return b.String()
}

// Clause begins with a comma, which ends the number or the label before it. It is left out if its first
// part that is not a plain word is empty.
type Clause []any

func (c Clause) Empty() bool {
	for _, p := range c {
		if _, word := p.(string); !word || len(c) == 1 {
			return one(p) == ""
		}
	}
	return false
}

// Located is the place of something. Right after a kind or a name it needs no comma, since there is no
// number to end.
type Located struct {
	On    place.Surface
	Fixes []place.Fix
	Comma bool
}

func (w Located) clauses() (all []string) {
	if w.On != "" {
		all = append(all, one(w.On))
	}
	for _, f := range w.Fixes {
		all = append(all, f.String())
	}
	return all
}

func one(v any) string {
	switch v := v.(type) {
	case string:
		return v
	case int:
		if v != 0 {
			return strconv.Itoa(v)
		}
	case length.Said:
		if v != (length.Said{}) {
			return v.String()
		}
	case []length.Said:
		all := make([]string, len(v))
		for i, l := range v {
			all[i] = l.String()
		}
		return strings.Join(all, ", ")
	case length.Units:
		return string(v)
	case place.Wall:
		return string(v)
	case place.Direction:
		return string(v)
	case place.SupportKind:
		return string(v)
	case place.Size:
		return v.Text(length.Canon)
	case place.Surface:
		if v.IsWall() {
			return "on " + string(v) + " wall"
		}
		if v != "" {
			return "on " + string(v)
		}
	}
	return ""
}

// Tail returns s if it was said.
func Tail(said bool, s string) string {
	if said {
		return s
	}
	return ""
}

// Some returns a word and its value, if there is one.
func Some(word string, v any) string {
	if s := one(v); s != "" {
		return word + " " + s
	}
	return ""
}

// Off, CutOut and Decimal are parts of a line: "off west", "cut d1, d2", "12.5".
func Off(w place.Wall) string { return Some("off", w) }

func CutOut(names []string) string { return Some("cut", strings.Join(names, ", ")) }

func Decimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
