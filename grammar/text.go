package grammar

import (
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
)

// say assembles a line in canonical form from words, numbers and lengths, with spaces between. Empty and
// zero values are left out.
func say(parts ...any) string {
	var b strings.Builder
	add := func(sep, s string) {
		if s != "" && b.Len() > 0 {
			b.WriteString(sep)
		}
		b.WriteString(s)
	}
	for _, p := range parts {
		switch p := p.(type) {
		case clause:
			if !p.empty() {
				add(", ", say(p...))
			}
		case located:
			for _, s := range p.clauses() {
				if p.comma {
					add(", ", s)
				} else {
					add(" ", s)
				}
				p.comma = true
			}
		default:
			add(" ", one(p))
		}
	}
	return b.String()
}

// clause begins with a comma, which ends the number or the label before it. It is left out if its first
// part that is not a plain word is empty.
type clause []any

func (c clause) empty() bool {
	for _, p := range c {
		if _, word := p.(string); !word || len(c) == 1 {
			return one(p) == ""
		}
	}
	return false
}

// located is the place of something. Right after a kind or a name it needs no comma, since there is no
// number to end.
type located struct {
	on    place.Surface
	fixes []place.Fix
	comma bool
}

func (w located) clauses() (all []string) {
	if w.on != "" {
		all = append(all, one(w.on))
	}
	for _, f := range w.fixes {
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

// tail returns s if it was said.
func tail(said bool, s string) string {
	if said {
		return s
	}
	return ""
}

// some returns a word and its value, if there is one.
func some(word string, v any) string {
	if s := one(v); s != "" {
		return word + " " + s
	}
	return ""
}

func off(w place.Wall) string { return some("off", w) }

func cutOut(names []string) string { return some("cut", strings.Join(names, ", ")) }

func decimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
