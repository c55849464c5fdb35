package shell

import (
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/speech"
)

// rooms is several rooms, each a name and its sides, and how high they are: "main room 18 x 13-6, bath 5 x 8-2, all 8 ft
// except bath 7-6".
func (l *line) rooms() []Guess {
	sized := roomSides.FindAllIndex(l.Tags, -1)
	if len(sized) < 2 || l.Has("p") || l.Changes("except") {
		return nil
	}
	var names, sides []string
	high := make([]string, len(sized))
	last := 0 // the item after the sides before
	for n, m := range sized {
		name, begins := l.nameBefore(last, m[0])
		if name == "" || slices.Contains(names, name) {
			return nil
		}
		if n > 0 {
			high[n-1] = l.heightIn(last, begins)
		}
		if n == 0 { // a heading
			l.Use(0, begins)
		}
		sides = append(sides, l.Read[l.Items[m[0]].At:l.end(m[1]-1)])
		names, last = append(names, name), m[1]
		l.Use(begins, m[1])
	}
	same := l.heights(last, names, high)
	if !same {
		high[len(high)-1] = l.heightIn(last, len(l.Items))
	}
	lines := make([]string, len(names))
	for i, name := range names {
		one := &line{Line: speech.Scan(read.CutLine(name+" "+sides[i], l.Context))}
		one.many = true
		got := one.roomSized()
		if len(got) != 1 || got[0].Then != "" || got[0].Note || got[0].Lost > 0 {
			return nil
		}
		if lines[i] = got[0].Text; high[i] != "" {
			lines[i] += " high " + l.feet(high[i])
		}
	}
	rest := len(l.Left(speech.Length)) > 0 || l.Lost() > 0
	return []Guess{{Text: strings.Join(lines, "\n"), Note: rest, Tied: same}}
}

// nameBefore returns the name that is nearest before item to, not before item from, and the item where it begins.
func (l *line) nameBefore(from, to int) (name string, begins int) {
	k := l.Begin
	if from > 0 {
		k = l.pieceFrom(l.end(from - 1))
	}
	for upto := l.pieceFrom(l.Items[to].At); k < upto; {
		said, at, end := l.nameIn(k, upto)
		if said != "" {
			name, begins = said, slices.IndexFunc(l.Items, func(it speech.Item) bool { return it.At >= l.Pieces[at].Start })
		} else if at < 0 {
			break
		}
		k = end
	}
	return name, begins
}

// pieceFrom returns the first piece at or after a byte.
func (l *line) pieceFrom(at int) int {
	i := slices.IndexFunc(l.Pieces, func(p lex.Piece) bool { return p.Start >= at })
	if i < 0 {
		return len(l.Pieces)
	}
	return i
}

// end returns the byte after an item.
func (l *line) end(i int) int { return min(l.Items[i].At+len(l.Items[i].Low), len(l.Read)) }

// heightIn takes the height that is said among some of the items, if any.
func (l *line) heightIn(from, to int) string {
	m := tall.FindSubmatchIndex(l.Tags[from:to])
	if m == nil {
		return ""
	}
	l.Use(from+m[0], from+m[1])
	for _, at := range m[2:] {
		if at >= 0 {
			return l.Said(from + at)
		}
	}
	return ""
}

// heights takes what stands behind all the rooms of how high each is: "all 8 ft except bath 7-6". It reports whether
// that is of all of them.
func (l *line) heights(from int, names, high []string) bool {
	k := l.pieceFrom(l.end(from - 1))
	all := slices.ContainsFunc(l.Pieces[k:], func(p lex.Piece) bool { return ofAll[p.Low] })
	framed := slices.ContainsFunc(l.Items[from:], func(it speech.Item) bool {
		return it.Tag == speech.Support || framing[it.Low] || grammar.Nearest(it.Low, []string{"strapped"}) != ""
	})
	if !all || framed { // "all strapped 16s"
		return false
	}
	usual := ""
	for i := from; i < len(l.Items); i++ {
		if l.Tags[i] != speech.Length {
			continue
		}
		said, _ := l.nameBefore(from, i)
		n := slices.IndexFunc(names, func(name string) bool { return said != "" && (name == said || strings.HasSuffix(name, " "+said)) })
		switch {
		case n >= 0 && usual != "":
			high[n] = l.Said(i)
		case said == "" && usual == "":
			usual = l.Said(i)
		default:
			return true
		}
		l.Tags[i] = speech.Used
	}
	for n := range high {
		if high[n] == "" {
			high[n] = usual
		}
	}
	l.Settle("HCcRm.")
	return true
}

// framing are words after which a length is no height.
var framing = lex.Set("strapped", "furred", "battened", "oc", "centres", "centers")

// ofAll are words for all the rooms.
var ofAll = lex.Set("all", "both", "each", "every", "everything", "ceilings", "lids", "throughout")
