package boarding

import (
	"slices"
	"strconv"
	"strings"

	"strapline/calc/place"
	"strapline/grammar/lex"
)

// hung is what is told to be up.
type hung struct {
	on     []string // surfaces
	not    []string // surfaces that are not
	rows   []int    // by their numbers
	many   int      // a number of rows without theirs
	edges  []string // "top row", "bottom row", "another row"
	pieces []string // as measured, or by the length of their boards
	boards int      // a number of boards
	from   string   // the wall that it was begun at
	used   []boards // what it was cut from
	but    string   // what is left out
	rest   bool     // what was not up of it before
	part   bool     // a part of it that was not counted
	cut    []string
}

// up is board that is on the framing: rows, boards, pieces, a ceiling, walls, and what is cut out of it.
func (l *line) up() []string {
	if l.elsewhere || l.any(came|taper|kind|spoilt|thick) || l.strictly(seam) || l.ordinal || l.has("off", "oc", "apart") {
		return nil
	}
	var h hung
	l.tied = l.mend()
	if !l.says() {
		return l.opened(&h)
	}
	l.rests(&h)
	l.cuts(&h)
	if i := l.find(used); i >= 0 && len(l.words) > i+1 {
		h.used = l.boards()
		l.use(used)
	}
	for _, p := range upParts {
		l.each(p.form, func(at []int) bool { return p.into(l, &h, at) })
	}
	for i, w := range l.words {
		if w.text == "cut" && !w.used && l.at(i-1).is(size) { // "a 24 cut"
			l.words[i].used = true
		} else if w.text == "cut" && !w.used && len(h.cut) == 0 {
			return nil
		}
	}
	l.doubt = l.doubt || l.any(planned)
	l.use(isUp | done | piece | noun | every | planned | row | last)
	if l.numbers() || l.denies() || l.any(stuff) || l.goes() || len(h.pieces) > 0 && len(h.rows) > 0 && l.unmeasured() {
		return nil
	}
	texts := h.texts(l)
	l.doubt = l.doubt || l.tied
	return texts
}

// says reports whether the line has a word for board that is up, or a row and its pieces.
func (l *line) says() bool {
	rows, sizes := 0, 0
	sure, may := false, false
	for i, w := range l.words {
		next := l.at(i + 1)
		switch {
		case w.is(row):
			rows++
		case w.is(size) && (!w.is(count) || w.n >= 17):
			sizes++
		}
		switch {
		case w.is(isUp) && (!w.is(fits) || next.text == "" || next.is(sep|isUp|done|sofar|but|only|still|started|planned) || lex.Filler[next.text] && l.at(i+2).text == "" || soon[next.text]),
			w.text == "on" && (next.text == "the" || next.is(on)) && l.any(noun|row), // "3 boards on the ceiling"
			w.text == "on" && next.is(every|on) && l.any(top|bottom):                 // "top boards on all 4 walls"
			sure = true
		case w.is(done):
			may = true
		}
	}
	l.doubt = !sure && (!may || sizes == 0) // it may be taped
	return sure || may || rows == 1 && (sizes > 0 || l.any(used|rest) || l.any(last) && l.any(piece))
}

var soon = lex.Set("now", "today", "already", "too", "except", "yesterday", "in", "as")

// mend drops what is put right in the same breath: "north slope is on, wait no I mean the flat".
func (l *line) mend() (mended bool) {
	for i, w := range l.words {
		if !w.is(mends) {
			continue
		}
		for _, c := range []class{on, row, top | bottom, thing} {
			if l.part(c, i, len(l.words)) && l.part(c, 0, i) {
				mended = true
				for k := range l.words[:i] {
					if l.words[k].is(c) {
						l.words[k].class = small
					}
				}
			}
		}
		if mended {
			for k := max(i-3, 0); k <= i; k++ {
				if l.words[k].is(mends | denied) {
					l.words[k].class = small
				}
			}
		}
	}
	return mended
}

// rests takes the parts of the line that say what is not done yet: "bottom still to do", "two to go".
func (l *line) rests(h *hung) {
	l.clauses(func(from, to int) {
		at := slices.IndexFunc(l.words[from:to], func(w word) bool {
			return w.is(still) && !w.is(started) || w.text == "starting" || w.text == "started"
		})
		if at += from; at < from || from == 0 || l.part(but, from, to) || slices.ContainsFunc(l.words[from:to], func(w word) bool {
			return w.text == "from" || w.is(on) && w.value != string(place.Ceiling) && l.words[at].is(started) && !l.words[at].is(still)
		}) {
			return
		}
		if !l.words[at].is(started) && !l.part(on, from, to) {
			l.except(h, from, to)
		}
		for k := from; k < to; k++ {
			l.words[k].used, l.words[k].class = true, small
		}
	})
}

// except takes what is left of a surface from some words: "the bottom", "row 3", "the last two pieces".
func (l *line) except(h *hung, from, to int) {
	n := 1
	for k := from; k < to; k++ {
		switch w := l.words[k]; {
		case w.is(row) && w.n > 0:
			h.but = "row " + strconv.Itoa(w.n)
		case w.is(top):
			h.but = "top row"
		case w.is(bottom), w.is(last) && (l.at(k+1).is(row) || l.at(k+2).is(row)):
			h.but = "bottom row"
		case w.is(count) && w.n > 0 && !w.is(small):
			n = w.n
		case w.is(thing) && lex.IsPiece(w.value):
			h.but = w.value
		case w.is(piece|noun) && h.but == "":
			h.but = strconv.Itoa(n) + " piece"
		}
	}
}

// upParts are what may be said of board that is up, in the order they are looked for.
var upParts = []struct {
	form form
	into func(l *line, h *hung, at []int) bool
}{
	{form{along | started, on, maybe | side}, func(l *line, h *hung, at []int) bool { return h.begun(l, at[1], l.words[at[0]].is(started)) }},
	{form{on, side}, func(l *line, h *hung, at []int) bool { return h.begun(l, at[0], false) }},
	{form{but, on, maybe | side}, func(l *line, h *hung, at []int) bool {
		h.not = append(h.not, l.words[at[1]].value)
		return true
	}},
	{form{but, maybe | last | top | bottom, maybe | count, maybe | last | top | bottom, row | piece | noun | thing}, func(l *line, h *hung, at []int) bool {
		l.except(h, at[0], at[4]+1)
		return h.but != ""
	}},
	{form{but, top | bottom}, func(l *line, h *hung, at []int) bool {
		l.except(h, at[0], at[1]+1)
		return true
	}},
	{form{maybe | only, maybe | last | bottom | top, row, left}, func(l *line, h *hung, at []int) bool {
		l.except(h, at[2]-1, at[3])
		return h.but != ""
	}},
	{form{count, on}, func(l *line, h *hung, at []int) bool { // "all 4 walls"
		return l.words[at[0]].n == len(place.Walls) && h.surface(l.words[at[1]].value)
	}},
	{form{on, maybe | side}, func(l *line, h *hung, at []int) bool { return h.surface(l.words[at[0]].value) }},
	{form{sofar, count}, func(l *line, h *hung, at []int) bool { // "another row on, thats 2 now"
		if n := l.words[at[1]].n; l.at(at[1]+1).is(row) || l.any(another) && l.any(row) {
			h.many = n
		}
		return h.many > 0 || l.any(row)
	}},
	{form{sofar, row}, func(l *line, h *hung, at []int) bool { // "up to row 2"
		w := l.words[at[1]]
		if w.n < 2 || l.words[at[0]].text != "up to" {
			return false
		}
		h.many = w.n
		return true
	}},
	{form{sofar}, func(*line, *hung, []int) bool { return true }},
	{form{count, row}, func(l *line, h *hung, at []int) bool {
		if n := l.words[at[0]].n; n > 0 && l.words[at[1]].n == 0 {
			h.many = n
			return true
		}
		return false
	}},
	{form{another | top | bottom | last, row | noun}, func(l *line, h *hung, at []int) bool {
		w, of := l.words[at[0]], l.words[at[1]]
		switch {
		case of.n > 0, !of.is(row) && !h.onWalls(), h.many > 0:
			return h.many > 0 && w.is(another)
		case w.is(another):
			return of.is(row) && h.edge("another row")
		case w.is(top):
			return h.edge("top row")
		}
		return h.edge("bottom row")
	}},
	{form{last | rest, piece}, func(l *line, h *hung, at []int) bool { h.rest = true; return true }},
	{form{rest}, func(l *line, h *hung, at []int) bool { h.rest = true; return true }},
	{form{half}, func(l *line, h *hung, at []int) bool { h.part = true; return true }},
	{form{row}, func(l *line, h *hung, at []int) bool {
		w := l.words[at[0]]
		if w.rows == nil && w.n > 0 {
			w.rows = []int{w.n}
		}
		h.rows = append(h.rows, w.rows...)
		h.part = h.part || w.n == 0
		return true
	}},
	{form{top | bottom}, func(l *line, h *hung, at []int) bool { // "window wall bottom on"
		if w := l.words[at[0]]; !h.onWalls() || w.is(small) {
			return false
		} else if w.is(top) {
			return h.edge("top row")
		}
		return h.edge("bottom row")
	}},
	{form{count, maybe | long, noun | piece, maybe | parted}, func(l *line, h *hung, at []int) bool {
		n, of := l.words[at[0]], l.words[at[2]]
		switch {
		case n.n == 0, at[1] >= 0 && !of.is(noun), of.is(piece) && (n.plain && n.n >= 8 || n.n < 2 && !n.plain && !n.is(count)):
			return false
		case of.is(piece), l.describes(at[0]): // "lid up, one board", "in two pieces"
			return true
		}
		h.boards = n.n
		return true
	}},
	{form{maybe | count, long | size | count}, func(l *line, h *hung, at []int) bool {
		n, w := 1, l.words[at[1]]
		if at[0] >= 0 {
			n = l.words[at[0]].n
		}
		switch {
		case at[0] >= 0 && (!w.is(long) || n < 1 || n >= 8), h.boards > 0 && w.is(long) && l.any(noun):
			return h.boards > 0 && at[0] < 0 // "2 sheets 4x10"
		case w.is(long), w.is(size) && (!w.is(count) || w.n >= 17):
			h.pieces = append(h.pieces, slices.Repeat([]string{w.value}, n)...)
		case w.plain && w.n >= 8 && w.n <= 16 && !l.metric && !l.at(at[1]+1).is(row|noun): // "12 and 4'6"
			h.pieces = append(h.pieces, strconv.Itoa(w.n)+"'")
		default:
			return false
		}
		return true
	}},
}

// begun takes the wall that a row is at, or that it was started from.
func (h *hung) begun(l *line, i int, started bool) bool {
	w := l.words[i].value
	if h.from != "" || !started && !l.any(row|but) || !slices.Contains(place.Walls[:], place.Wall(w)) {
		return false
	}
	h.from = w
	return true
}

func (h *hung) edge(row string) bool {
	if !slices.Contains(h.edges, row) {
		h.edges = append(h.edges, row)
	}
	return true
}

// surface takes a surface that is told to be up.
func (h *hung) surface(on string) bool {
	all := []string{on}
	if on == "walls" {
		all = nil
		if len(h.on) == 0 || h.on[0] == string(place.Ceiling) { // else "both walls north and east"
			for _, w := range place.Walls {
				all = append(all, string(w))
			}
		}
	}
	for _, s := range all {
		if !slices.Contains(h.on, s) {
			h.on = append(h.on, s)
		}
	}
	return true
}

// onWalls reports whether all surfaces are walls or slopes, so that a top and a bottom board are rows.
func (h *hung) onWalls() bool { return len(h.on) > 0 && !slices.Contains(h.on, string(place.Ceiling)) }

// describes reports whether the number of boards at i says of how many a surface is that is up: "the lid is up,
// one board wide".
func (l *line) describes(i int) bool {
	at, up := l.find(on), slices.IndexFunc(l.words, func(w word) bool { return w.is(isUp|done) && !w.is(small) })
	return at >= 0 && at < i && (up > at && up < i && !l.any(sofar) || l.words[i].n == 1 && l.at(i-1).is(fits))
}

// goes reports whether it is said what is still to be done, and nothing of that was taken with a part of the line.
func (l *line) goes() bool {
	return slices.ContainsFunc(l.words, func(w word) bool { return !w.used && w.is(still|left) && !w.is(small|started|isUp) })
}

// unmeasured reports whether a board was said beside measured pieces, and not how long it is: "a full sheet and a 34".
func (l *line) unmeasured() bool {
	for i, w := range l.words {
		if prev := l.at(i - 1); w.is(noun) && (prev.is(count) || prev.text == "full" || prev.text == "a" || prev.text == "whole") {
			return true
		}
	}
	return false
}

// texts returns what is up in our lines, one for each surface.
func (h *hung) texts(l *line) []string {
	slices.Sort(h.rows)
	h.rows = slices.Compact(h.rows)
	whats := h.parts(l)
	if whats == nil {
		return nil
	}
	on := slices.DeleteFunc(h.on, func(s string) bool { return slices.Contains(h.not, s) })
	if len(on) == 0 {
		on = []string{""}
	}
	cut, open := "", ""
	if len(h.cut) > 0 && len(on)*len(whats) == 1 {
		cut = " cut " + strings.Join(h.cut, ", ")
	} else if len(h.cut) > 0 {
		open = "open " + strings.Join(h.cut, ", ")
	}
	of := ""
	if len(h.used) > 0 {
		of = " using " + list(h.used)
	}
	from := ""
	if h.from != "" {
		from = " begun at " + h.from
	}
	var all []string
	for _, s := range on {
		name := s
		if s != "" && s != string(place.Ceiling) && !strings.Contains(s, "slope") {
			name += " wall"
		}
		where := ""
		if s != "" && s != string(place.Ceiling) {
			where = " on " + name
		}
		for _, what := range whats {
			switch {
			case what != "up" && strings.HasPrefix(what, "hung"):
				all = append(all, what+where+from+of+cut)
			case what != "up":
				l.doubt = false // it is asked about anyway
				all = append(all, what+where+from+cut)
			case s == "":
				return nil
			default:
				all = append(all, name+" up"+of+cut)
			}
		}
	}
	if open != "" {
		all = append(all, open)
	}
	if len(all) > 1 && (of != "" || len(h.rows) > 0 && len(on) > 1) {
		return nil
	}
	return []string{strings.Join(all, "\n")}
}

// parts returns what of a surface is up, each as a line begins; "up" is all of it.
func (h *hung) parts(l *line) []string {
	rows := make([]string, len(h.rows))
	for i, n := range h.rows {
		rows[i] = "r" + strconv.Itoa(n)
	}
	switch {
	case len(rows) == 1 && len(h.pieces) > 0:
		return []string{"hung " + strings.Join(h.pieces, " + ") + " row " + strconv.Itoa(h.rows[0])}
	case len(h.pieces) > 0:
		return nil
	case len(rows) == 1:
		return []string{"hung row " + strconv.Itoa(h.rows[0])}
	case len(rows) > 1 && h.from == "" && len(h.used) == 0:
		return []string{"hung " + strings.Join(rows, " ")}
	case len(rows) > 1:
		return nil
	case h.many > 0:
		return []string{"so far " + strconv.Itoa(h.many) + " rows"}
	case len(h.edges) > 0:
		for _, e := range h.edges {
			rows = append(rows, "so far "+e)
		}
		return rows
	case h.but != "":
		return []string{"so far all but " + h.but}
	case h.boards > 0:
		return []string{"so far " + strconv.Itoa(h.boards) + " boards"}
	case h.rest && len(h.on) < 2:
		return []string{"so far the rest"}
	case h.part && len(h.on) == 0:
		return nil
	case h.part:
		return []string{"so far partly"}
	}
	return []string{"up"}
}
