package grammar

import (
	"strapline/calc/length"
	"strapline/calc/place"
	"strconv"
	"strings"
)

// text puts parts of a line together: words with spaces, clauses with commas.
type text struct{ b strings.Builder }

func (t *text) add(words ...string) *text {
	for _, w := range words {
		if w == "" {
			continue
		}
		if t.b.Len() > 0 {
			t.b.WriteByte(' ')
		}
		t.b.WriteString(w)
	}
	return t
}

// clause begins the next clause: a comma ends the number or the label before it.
func (t *text) clause(words ...string) *text {
	if strings.Join(words, "") == "" {
		return t
	}
	t.b.WriteByte(',')
	return t.add(words...)
}

// place adds where something is. Right after a kind or a name there is
// nothing that a comma must end.
func (t *text) place(on place.Surface, fs []place.Fix, comma bool) string {
	clauses := []string{onSurface(on)}
	for _, f := range fs {
		clauses = append(clauses, f.String())
	}
	for _, c := range clauses {
		if comma {
			t.clause(c)
		} else {
			t.add(c)
		}
		comma = comma || c != ""
	}
	return t.String()
}

func (t *text) String() string { return t.b.String() }

func orNone(v length.Said) string {
	if v == (length.Said{}) {
		return ""
	}
	return v.String()
}

func list(ls []length.Said) string {
	var b strings.Builder
	for i, l := range ls {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(l.String())
	}
	return b.String()
}

func onSurface(s place.Surface) string {
	switch s {
	case "":
		return ""
	case place.Ceiling:
		return "on ceiling"
	}
	return "on " + string(s) + " wall"
}

func offWall(w place.Wall) string {
	if w == "" {
		return ""
	}
	return "off " + string(w)
}

func sizeText(s place.Size) string { return s.Text(length.Canon) }

func decimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
