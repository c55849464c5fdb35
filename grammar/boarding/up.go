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
	rows    []int    // by their numbers
	many    int      // a number of rows without theirs
	edge    string   // "top row", "bottom row", "another row"
	pieces  []string // as measured, or by the length of their boards
	boards  int      // a number of boards
	where   []string // surfaces
	from    string   // the wall that it was begun at
	used    []boards // what it was cut from
	but     string   // what is left out
	rest    bool     // what was not up of it before
	half    bool
	cut     []string
	uncut   bool // some were said not to be cut
	finally bool // the words for it may mean that it is taped
}

// up is board that is on the framing: rows, boards, pieces, a ceiling, walls, and what is cut out of it.
func (l *line) up() []string {
	if l.elsewhere || l.any(came|taper|kind|spoilt|thick) || l.strictly(seam) || l.ordinal || l.has("off", "oc", "apart", "mean", "meant", "scratch") {
		return nil
	}
	var h hung
	if !l.says(&h) {
		return nil
	}
	l.rests()
	if l.remains(&h) {
		return h.texts(l)
	}
	l.began(&h)
	l.cuts(&h)
	for i, w := range l.words {
		if w.text == "cut" && !w.used && l.at(i-1).is(size) { // "a 24 cut"
			l.words[i].used = true
		} else if w.text == "cut" && !w.used && len(h.cut) == 0 {
			return nil
		}
	}
	l.except(&h)
	if i := l.find(used); i >= 0 && len(l.words) > i+1 {
		h.used = l.boards()
		l.use(used)
	}
	l.place(&h)
	if len(h.where) > 1 { // "both walls north and east"
		h.where = slices.DeleteFunc(h.where, func(s string) bool { return s == "walls" })
	}
	l.count(&h)
	l.doubt = l.doubt || l.any(planned)
	l.use(isUp | done | piece | noun | every | planned)
	if l.numbers() || l.denies() || l.any(stuff) || l.goes() || len(h.pieces) > 0 && len(h.rows) > 0 && l.unmeasured() {
		return nil
	}
	return h.texts(l)
}

// says reports whether the line has a word for board that is up, or a row and its pieces.
func (l *line) says(h *hung) bool {
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
		case w.is(isUp) && !w.is(fits):
			sure = true
		case w.is(isUp) && (next.text == "" || next.is(sep|isUp|done|sofar|but|only|still) || lex.Filler[next.text] && l.at(i+2).text == "" || next.text == "now" || next.text == "today" || next.text == "already" || next.text == "too" || next.text == "except"):
			sure = true
		case w.text == "on" && (next.text == "the" || next.is(on)) && l.any(noun|row): // "3 boards on the ceiling"
			sure = true
		case w.is(done):
			may = true
		}
	}
	h.finally = !sure && may && sizes == 0
	l.doubt = !sure && !may
	return sure || may || rows == 1 && (sizes > 0 || l.any(used|rest) || l.any(last) && l.any(piece))
}

// remains takes "only the last row left", which says that all else is up.
func (l *line) remains(h *hung) bool {
	if !l.any(left) || !l.any(row) || l.any(came|used|spoilt) {
		return false
	}
	l.place(h)
	for i, w := range l.words {
		switch {
		case w.is(row) && w.n > 0:
			h.but = "row " + strconv.Itoa(w.n)
		case w.is(row) && (l.at(i - 1).is(last | bottom)):
			h.but = "bottom row"
		}
	}
	l.use(left | only | row | last | bottom | isUp)
	return true
}

// goes reports whether it is said what is still to be done, and nothing of that was taken with a part of the line.
func (l *line) goes() bool {
	for _, w := range l.words {
		if !w.used && (w.is(still) || w.is(left)) && !w.is(small|started|isUp) {
			return true
		}
	}
	return false
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

// rests takes the parts of the line that say what is not done yet: "bottom still to do", "two to go".
func (l *line) rests() {
	from := 0
	for i := 0; i <= len(l.words); i++ {
		if i < len(l.words) && !l.words[i].is(sep) {
			continue
		}
		part := l.words[from:i]
		if at := slices.IndexFunc(part, func(w word) bool { return w.is(still) && !w.is(started) || w.text == "starting" || w.text == "started" }); at >= 0 && from > 0 && !slices.ContainsFunc(part, func(w word) bool {
			return w.text == "from" || w.is(but) || w.is(on) && w.value != string(place.Ceiling) && part[at].is(started) && !part[at].is(still)
		}) {
			for k := range part {
				part[k].used = true
				part[k].class = small
			}
		}
		from = i + 1
	}
}

// began takes the wall that a row was begun at: "started at the north", "from the east end".
func (l *line) began(h *hung) {
	for i, w := range l.words {
		if w.is(on) && !w.used && l.any(row) && l.find(row) < len(l.words) && (l.at(i+1).text == "side" || l.at(i+1).text == "end" || beside[l.at(i-1).text] || beside[l.at(i-2).text] && l.at(i-1).is(small)) && slices.Contains(place.Walls[:], place.Wall(w.value)) { // a row of the ceiling, at that wall
			h.from, l.words[i].used = w.value, true
			for _, k := range []int{i - 2, i - 1, i + 1} {
				if k >= 0 && k < len(l.words) && (beside[l.words[k].text] || l.words[k].text == "side" || l.words[k].text == "end") {
					l.words[k].used = true
				}
			}
			return
		}
		if !w.is(started) || w.used {
			continue
		}
		for k := i + 1; k < len(l.words) && k <= i+4; k++ {
			if v := l.words[k]; v.is(on) && slices.Contains(place.Walls[:], place.Wall(v.value)) {
				h.from = v.value
				for n := i; n <= k; n++ {
					l.words[n].used = true
				}
				for n := k + 1; n < len(l.words) && (l.words[n].text == "end" || l.words[n].text == "wall" || l.words[n].text == "side"); n++ {
					l.words[n].used = true
				}
				return
			}
			if !l.words[k].is(small | started) {
				break
			}
		}
	}
}

// beside are words between a row and the wall that it is at.
var beside = map[string]bool{"along": true, "against": true, "by": true, "at": true, "to": true, "near": true, "beside": true, "next": true, "towards": true, "tight": true}

// except takes what is not up of the rest: "but the last piece", "except row 3".
func (l *line) except(h *hung) {
	at := -1
	for i, w := range l.words {
		if w.is(but) && !w.used {
			at = i
		}
	}
	if at < 0 {
		return
	}
	n := 1
	for k := at + 1; k < len(l.words); k++ {
		w := &l.words[k]
		switch {
		case w.used:
		case w.is(row) && w.n > 0:
			h.but = "row " + strconv.Itoa(w.n)
		case w.is(row) && (l.at(k-1).is(last|bottom) || l.at(k-2).is(last)):
			h.but = "bottom row"
		case w.is(count) && !w.is(small) && w.n > 0:
			n = w.n
		case w.is(piece|noun) && h.but == "":
			h.but = strconv.Itoa(n) + " piece"
		case w.is(thing) && lex.IsPiece(w.value):
			h.but = w.value
		case w.is(small | last | on | sep | started):
		default:
			continue
		}
		w.used = true
	}
	if h.but != "" {
		l.words[at].used = true
	}
}

// place takes the surfaces.
func (l *line) place(h *hung) {
	for i := range l.words {
		if w := &l.words[i]; !w.used && w.is(on) {
			w.used = true
			if !slices.Contains(h.where, w.value) {
				h.where = append(h.where, w.value)
			}
			if n := l.at(i + 1); n.text == "wall" || n.text == "walls" || n.text == "side" {
				l.words[i+1].used = true
			}
		}
	}
}

// count takes rows, boards and pieces.
func (l *line) count(h *hung) {
	for i := range l.words {
		w := &l.words[i]
		prev, next := l.at(i-1), l.at(i+1)
		switch {
		case w.used:
		case w.is(row) && w.n > 0:
			w.used = true
			if w.rows == nil {
				w.rows = []int{w.n}
			}
			h.rows = append(h.rows, w.rows...)
		case w.is(noun) && (prev.is(top | bottom | last)) && len(h.where) > 0 && h.where[0] != string(place.Ceiling): // "top sheet on the north wall"
			w.used, l.words[i-1].used = true, true
			h.edge = "top row"
			if !prev.is(top) {
				h.edge = "bottom row"
			}
		case w.is(row):
			w.used = true
			switch {
			case prev.is(count) && prev.n > 0 && !prev.is(small):
				h.many = prev.n
				l.words[i-1].used = true
			case prev.is(another):
				h.edge, l.words[i-1].used = "another row", true
			case prev.is(top):
				h.edge, l.words[i-1].used = "top row", true
			case prev.is(bottom):
				h.edge, l.words[i-1].used = "bottom row", true
			case prev.is(last):
				h.edge, l.words[i-1].used = "bottom row", true
			}
		case w.is(piece):
			w.used = true
			if (prev.is(last) || prev.is(rest) || l.at(i-2).is(last)) && len(h.pieces) == 0 {
				h.rest = true
				l.use(last)
			}
		case w.is(rest):
			h.rest, w.used = true, true
		case w.is(half):
			h.half, w.used = true, true
		case w.is(long):
			w.used = true
			for range l.before(i) {
				h.pieces = append(h.pieces, w.value)
			}
		case w.is(size) && (!w.is(count) || w.n >= 17):
			w.used = true
			h.pieces = append(h.pieces, w.value)
		case w.is(count) && w.n > 0 && (next.is(noun) || l.at(i+2).is(noun) && next.is(small)):
			h.boards, w.used = w.n, true
		case w.is(count) && w.n > 1 && next.is(piece) && !w.plain || w.is(count) && next.is(piece) && w.n < 8:
			w.used = true // "two pieces", "in 2 pieces"
			if h.boards == 0 {
				h.boards = -w.n
			}
		case w.is(count) && w.plain && w.n >= 8 && w.n <= 16 && !l.metric && !next.is(row|noun): // "12 and 4'6"
			w.used = true
			h.pieces = append(h.pieces, strconv.Itoa(w.n)+"'")
		case w.is(count) && w.text == "one" && next.text == "full", w.is(count) && next.text == "full" && l.at(i+2).is(long|count):
			w.used = true
		case w.is(sofar):
			w.used = true
			if next.is(count) && h.many > 0 { // "thats 2 now"
				l.words[i+1].used = true
			} else if next.is(count) && (h.edge == "another row" || l.at(i+2).is(row)) {
				h.many, l.words[i+1].used, h.edge = next.n, true, ""
			} else if next.is(row) && next.n > 1 && w.text == "up to" { // "up to row 2"
				l.words[i+1].used = true
				h.many = next.n
			}
		}
	}
}

// before returns how many boards of a length are said to be in a row: "two full 12s", and takes the count.
func (l *line) before(i int) int {
	for k := i - 1; k >= 0 && k >= i-2; k-- {
		if w := l.words[k]; w.is(count) && !w.used && w.n > 0 && w.n < 8 {
			l.words[k].used = true
			return w.n
		} else if !w.is(small) {
			break
		}
	}
	return 1
}

// texts returns what is up in our lines.
func (h *hung) texts(l *line) []string {
	slices.Sort(h.rows)
	h.rows = slices.Compact(h.rows)
	if len(h.pieces) == 0 && h.boards < 0 {
		h.boards = 0
	}
	where := ""
	if len(h.where) == 1 && h.where[0] != string(place.Ceiling) {
		where = " on " + h.where[0] + " wall"
	}
	cut := ""
	if len(h.cut) > 0 {
		cut = " cut " + strings.Join(h.cut, ", ")
	}
	from := ""
	if h.from != "" {
		from = " begun at " + h.from
	}
	of := ""
	if len(h.used) > 0 {
		of = " using " + list(h.used)
	}
	l.doubt = l.doubt || h.finally
	so := func(what string) []string {
		l.doubt = false // it is asked about anyway
		return []string{"so far " + what + where + from + cut}
	}
	switch {
	case len(h.where) > 1 && h.edge != "" && !slices.Contains(h.where, "walls"):
		var each []string
		for _, on := range h.where {
			each = append(each, "so far "+h.edge+" on "+on+" wall")
		}
		return []string{strings.Join(each, "\n")}
	case len(h.where) > 1 && (len(h.rows)+h.many > 0 || h.edge != ""):
		return nil
	case h.but != "":
		return so("all but " + h.but)
	case h.half && len(h.rows) == 0 && len(h.where) == 0:
		return nil
	case h.half && len(h.rows) == 0:
		return so("partly")
	case len(h.rows) == 1 && len(h.pieces) > 0:
		return []string{"hung " + strings.Join(h.pieces, " + ") + " row " + strconv.Itoa(h.rows[0]) + where + from + of + cut}
	case len(h.pieces) > 0 && h.edge == "" && h.many == 0 && h.boards <= 0:
		return nil
	case len(h.rows) == 1:
		return []string{"hung row " + strconv.Itoa(h.rows[0]) + where + from + of + cut}
	case len(h.rows) > 1 && from+of == "":
		rows := make([]string, len(h.rows))
		for i, n := range h.rows {
			rows[i] = "r" + strconv.Itoa(n)
		}
		return []string{"hung " + strings.Join(rows, " ") + where + cut}
	case len(h.rows) > 0:
		return nil
	case h.many > 0:
		return so(strconv.Itoa(h.many) + " rows")
	case h.edge != "" && len(h.pieces) == 0:
		return so(h.edge)
	case h.boards > 0:
		return so(strconv.Itoa(h.boards) + " boards")
	case h.rest && len(h.where) < 2:
		return so("the rest")
	case len(h.where) == 0 || h.from != "" && len(h.where) == 0:
		return nil
	}
	var all []string
	for _, s := range h.where {
		if s == "walls" {
			return nil
		}
		on := s
		if s != string(place.Ceiling) {
			on += " wall"
		}
		all = append(all, on+" up"+of+cut)
	}
	return []string{strings.Join(all, "\n")}
}
