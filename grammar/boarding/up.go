package boarding

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/calc/place"
	"strapline/grammar/lex"
	"strapline/grammar/said"
)

// hung is what is told to be up.
type hung struct {
	on     []string      // surfaces
	not    []string      // surfaces that are not
	rows   []int         // by their numbers
	many   int           // a number of rows without theirs
	edges  []string      // "top row", "bottom row", "another row"
	pieces []string      // as measured, or by the length of their boards
	boards int           // a number of boards
	of     said.Boards   // which they are
	sum    string        // whether those that were up before are among them
	from   string        // the wall that it was begun at
	used   []said.Boards // what it was cut from
	but    string        // what is left out
	vague  bool          // some walls, nobody said which
	rest   bool          // what was not up of it before
	part   bool          // a part of it that was not counted
	cut    []string      // things that are cut out, and that are not
	shut   []string
	within map[int][]string // what is cut in a row, if its number is said with that
}

// up is board that is on the framing: rows, boards, pieces, a ceiling, walls, and what is cut out of it.
func (l *line) up() []string {
	if l.Elsewhere || l.Any(said.Came|said.Taper|said.Worked|said.Spoilt) || l.Has("oc", "apart") || slices.ContainsFunc(l.Words, func(w said.Word) bool { return w.Text == "off" && !w.Is(said.Along) }) {
		return nil
	}
	var h hung
	if l.remarks(); l.Strictly(said.Seam) {
		return nil
	}
	l.Tied = l.Mend()
	if l.cuts(&h); !l.says() {
		return l.opened(&h)
	}
	l.rests(&h)
	h.used = l.usedFor()
	if before := slices.Clone(l.Words); h.used == nil && !l.Any(said.Row|edges) { // "10 of the 5/8", "2 sheets 4x10"
		switch all := l.Boards(); {
		case len(all) != 1 || all[0].N == 0 || all[0].Long+all[0].OfKind() == "" || all[0].N == 1 && !l.Any(said.Noun):
			copy(l.Words, before)
		case upFirst.MatchString(l.Text):
			h.used = all
		default:
			h.boards, h.of = all[0].N, all[0]
		}
	}
	for _, p := range upParts {
		l.Each(p.form, func(at []int) bool { return p.into(l, &h, at) })
	}
	if slices.ContainsFunc(l.Words, func(w said.Word) bool { return w.Text == "cut" && !w.Used && len(h.cut) == 0 }) {
		return nil
	}
	l.Doubt = l.Doubt || l.Any(said.Planned)
	l.Use(said.IsUp | said.Done | said.Piece | said.Noun | said.Every | said.Planned | said.Row | said.Last)
	kind := slices.ContainsFunc(l.Words, func(w said.Word) bool { return !w.Used && w.Is(said.Kind) })
	if kind || h.vague || l.leaves() || l.Numbers() || l.Denies() || l.Any(said.Stuff) || l.goes() || len(h.pieces) > 0 && len(h.rows) > 0 && l.Unmeasured() {
		return nil
	}
	texts := h.texts(l)
	l.Doubt = l.Doubt || l.Tied
	return l.eachWall(texts)
}

// says reports whether the line has a word for board that is up, or a row and its pieces.
func (l *line) says() bool {
	rows, sizes := 0, 0
	sure, may := false, false
	for i, w := range l.Words {
		next := l.At(i + 1)
		switch {
		case w.Is(said.Row):
			rows++
		case w.Is(said.Size) && (!w.Is(said.Count) || w.N >= 17):
			sizes++
		}
		switch {
		case w.Used:
		case w.Is(said.IsUp) && (!w.Is(said.Fits) || next.Text == "" || next.Is(said.Sep|said.IsUp|said.Along|said.Done|said.Sofar|said.But|said.Only|said.Still|said.Started|said.Planned|said.Shut) || l.At(i+2).Value == "?" && l.Any(said.Row) || lex.Filler[next.Text] && l.At(i+2).Text == "" || soon[next.Text]),
			w.Text == "on" && next.Is(said.Thing) && l.Part(said.On|said.Row, 0, i) && l.Part(said.CutOut|said.Done, i, len(l.Words)), // "lid on fan cut"
			w.Text == "on" && (next.Text == "the" || next.Is(said.On)) && l.Any(said.Noun|said.Row),                                   // "3 boards on the ceiling"
			w.Text == "on" && next.Is(said.Every|said.On) && l.Any(said.Top|said.Bottom):                                              // "top boards on all 4 walls"
			sure = true
		case w.Is(said.Done):
			may = true
		}
	}
	l.Doubt = l.Doubt || !sure && (!may || sizes == 0) // it may be taped
	return sure || may || rows == 1 && !l.Part(said.CutOut, 0, l.Find(said.Row)) && (sizes > 0 || l.Any(said.Used|said.Rest) || l.Any(said.Last) && l.Any(said.Piece))
}

var soon = lex.Set("now", "today", "already", "too", "except", "yesterday", "in", "as well")

// edges are words for a row by where it is.
const edges = said.Top | said.Bottom | said.Last | said.Middle

// upParts are what may be said of board that is up, in the order they are looked for.
var upParts = []struct {
	form said.Form
	into func(l *line, h *hung, at []int) bool
}{
	{said.Form{said.Along | said.Started, said.On, said.Maybe | said.Side}, func(l *line, h *hung, at []int) bool {
		if on := l.Words[at[1]].Text; at[2] < 0 && (on == "door" || on == "window") && !l.Words[at[0]].Is(said.Started) { // "the piece by the door"
			h.vague = true
		}
		return h.begun(l, at[1], l.Words[at[0]].Is(said.Started))
	}},
	{said.Form{said.On, said.Maybe | said.Side, said.Row}, func(l *line, h *hung, at []int) bool { // "window side row up"
		if row := l.Words[at[2]]; row.N > 0 || row.Many || at[1] < 0 && l.Words[at[0]].Text == "wall" || !h.begun(l, at[0], true) {
			return false
		}
		h.many = 1
		return true
	}},
	{said.Form{said.On, said.Side}, func(l *line, h *hung, at []int) bool {
		return h.begun(l, at[0], l.Words[at[1]].Text == "side" && l.Any(said.Noun) || l.Words[at[1]].Text == "end")
	}},
	{said.Form{said.But, said.On, said.Maybe | said.Side}, func(l *line, h *hung, at []int) bool {
		h.not = append(h.not, l.Words[at[1]].Value)
		return true
	}},
	{said.Form{said.But, said.Maybe | edges, said.Maybe | said.Count, said.Maybe | edges, said.Row | said.Piece | said.Noun | said.Thing | said.Top | said.Bottom}, func(l *line, h *hung, at []int) bool {
		l.except(h, at[0], at[4]+1)
		return h.but != ""
	}},
	{said.Form{said.Maybe | said.Only, said.Maybe | edges, said.Row, said.Left}, func(l *line, h *hung, at []int) bool {
		l.except(h, at[2]-1, at[3])
		return h.but != ""
	}},
	{said.Form{said.Count, said.On}, func(l *line, h *hung, at []int) bool { // "all 4 walls"
		return l.Words[at[0]].N == len(place.Walls) && h.surface(l, at[1])
	}},
	{said.Form{said.On, said.Maybe | said.Side}, func(l *line, h *hung, at []int) bool { return h.surface(l, at[0]) }},
	{said.Form{said.Sofar, said.Count}, func(l *line, h *hung, at []int) bool { // "another row on, thats 2 now"
		if n := l.Words[at[1]].N; l.At(at[1]+1).Is(said.Row) || l.Any(said.Another) && l.Any(said.Row) {
			h.many = n
		}
		return h.many > 0 || l.Any(said.Row)
	}},
	{said.Form{said.Sofar, said.Row}, func(l *line, h *hung, at []int) bool { // "up to row 2"
		if n := l.Words[at[1]].N; n > 1 && l.Words[at[0]].Text == "up to" {
			h.many = n
		}
		return h.many > 0
	}},
	{said.Form{said.Sofar}, func(_ *line, h *hung, _ []int) bool { h.sum = " total"; return true }},
	{said.Form{said.Count, said.Row}, func(l *line, h *hung, at []int) bool {
		if n := l.Words[at[0]].N; n > 0 && l.Words[at[1]].N == 0 {
			h.many = n
			return true
		}
		return false
	}},
	{said.Form{said.Another | edges, said.Row | said.Noun}, func(l *line, h *hung, at []int) bool {
		w, of := l.Words[at[0]], l.Words[at[1]]
		if of.N > 0 || !of.Is(said.Row) && !h.onWalls() || h.many > 0 {
			return h.many > 0 && w.Is(said.Another)
		}
		return (!w.Is(said.Another) || of.Is(said.Row)) && h.edge(w)
	}},
	{said.Form{said.Last, said.Piece}, func(l *line, h *hung, at []int) bool { h.rest = true; return true }},
	{said.Form{said.Rest, said.Maybe | said.Piece}, func(l *line, h *hung, at []int) bool { h.rest = true; return true }},
	{said.Form{said.Half}, func(l *line, h *hung, at []int) bool {
		l.Clauses(func(from, to int) { // "row 2 half way"
			h.vague = h.vague || from <= at[0] && at[0] < to && slices.ContainsFunc(l.Words[from:to], func(w said.Word) bool { return w.Is(said.Row) && w.N > 0 })
		})
		h.part = true
		return true
	}},
	{said.Form{said.Row}, func(l *line, h *hung, at []int) bool {
		w := l.Words[at[0]]
		h.rows = append(h.rows, w.Rows...)
		h.part = h.part || w.N == 0
		return true
	}},
	{said.Form{said.Top | said.Bottom}, func(l *line, h *hung, at []int) bool { // "window wall bottom on"
		return h.onWalls() && !l.Words[at[0]].Is(said.Small) && h.edge(l.Words[at[0]])
	}},
	{said.Form{said.Nth, said.Noun}, func(l *line, h *hung, at []int) bool { // "second sheet up along the north wall"
		h.boards = l.Words[at[0]].N
		h.vague = h.vague || len(h.rows) > 0
		return true
	}},
	{said.Form{said.Count, said.Maybe | said.Long, said.Noun | said.Piece, said.Maybe | said.Parted}, func(l *line, h *hung, at []int) bool {
		n, of := l.Words[at[0]], l.Words[at[2]]
		switch {
		case n.N == 0, at[1] >= 0 && !of.Is(said.Noun), of.Is(said.Piece) && (n.Plain && n.N >= 8 || n.N < 2 && !n.Plain && !n.Is(said.Count)):
			return false
		case !of.Is(said.Piece) && l.describes(at[0]) && n.N > 1 && at[3] < 0 && h.used == nil: // "lid up, 3 boards"
			h.used = []said.Boards{{N: n.N}}
			return true
		case of.Is(said.Piece), l.describes(at[0]): // "lid up, one board", "in two pieces"
			return true
		}
		h.boards = n.N
		return true
	}},
	{said.Form{said.Maybe | said.Count, said.Long | said.Size | said.Count, said.Maybe | said.CutOut}, func(l *line, h *hung, at []int) bool {
		n, w := 1, l.Words[at[1]]
		if at[0] >= 0 {
			n = l.Words[at[0]].N
		}
		switch {
		case at[0] >= 0 && (!w.Is(said.Long) && n != 1 || n < 1 || n >= 8), h.boards > 0 && w.Is(said.Long) && l.Any(said.Noun):
			return h.boards > 0 && at[0] < 0 // "2 sheets 4x10"
		case l.ofAnother(at[1]): // "row 1 up, the tapered end is 40"
			return false
		case w.Is(said.Long), w.Is(said.Size) && (!w.Is(said.Count) || w.N >= 17):
			h.pieces = append(h.pieces, slices.Repeat([]string{w.Value}, n)...)
		case w.Plain && w.N >= 8 && w.N <= 16 && !l.Metric && !l.At(at[1]+1).Is(said.Row|said.Noun): // "12 and 4'6"
			h.pieces = append(h.pieces, strconv.Itoa(w.N)+"'")
		case at[0] >= 0 && n == 1 && w.Plain && w.N > 1 && w.N < 8 && !l.Metric && len(h.pieces) > 0: // "one 12 and one 4"
			h.pieces, l.Doubt = append(h.pieces, strconv.Itoa(w.N)+"'"), true
		default:
			return false
		}
		return true
	}},
}

// ofAnother reports whether the number at i is in a part of the line that tells of something else than pieces.
func (l *line) ofAnother(i int) (other bool) {
	l.Clauses(func(from, to int) {
		other = other || from <= i && i < to && l.Part(said.Seam|said.Side, from, to) && !l.Part(said.Row|said.On, from, to)
	})
	return other
}

// begun takes the wall that a row is at, or that it was started from.
func (h *hung) begun(l *line, i int, started bool) bool {
	w := l.Words[i].Value
	if h.from != "" || !started && !l.Any(said.Row|said.But|said.Nth) || w != "?" && !slices.Contains(place.Walls[:], place.Wall(w)) || w == "?" && !l.asksWall(i) {
		return false
	}
	h.from = w
	return true
}

// edge takes a row by where it is.
func (h *hung) edge(w said.Word) bool {
	row := "bottom row"
	switch {
	case w.Is(said.Another):
		row = "another row"
	case w.Is(said.Top):
		row = "top row"
	case w.Is(said.Middle):
		row = "row in the middle"
	}
	if !slices.Contains(h.edges, row) {
		h.edges = append(h.edges, row)
	}
	return true
}

// surface takes a surface that is told to be up. Of a wall by a name of its own it is asked which one that is; of
// some walls that are not named nothing is taken.
func (h *hung) surface(l *line, i int) bool {
	on, prev := l.Words[i].Value, l.At(i-1)
	own := prev.Text != "" && (prev.Class == 0 || prev.Is(said.Thing) || prev.Text == "left")
	if at := l.Words[i].Text; (at == "side" || at == "end") && l.Any(said.Row|said.Noun|said.Nth) { // "row 1 is up, street side"
		return h.begun(l, i, true)
	}
	switch {
	case on == "walls" && (own || prev.Text == "both") && !slices.ContainsFunc(l.Words, func(w said.Word) bool { return w.Is(said.On) && slices.Contains(place.Walls[:], place.Wall(w.Value)) }):
		h.vague = true
		return true
	case on == "?" && !l.asksWall(i):
		h.vague = true
		return true
	}
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

// asksWall asks which wall is meant by the name before word i. It returns false if there is no name, or if that of
// another wall is asked for.
func (l *line) asksWall(i int) bool {
	prev := l.At(i - 1)
	if own := prev.Class == 0 || prev.Is(said.Thing) || prev.Text == "left"; prev.Text == "" || !own || l.Why != "" {
		return false
	}
	l.Why, l.Words[i-1].Used = "which wall is the "+prev.Text+" wall?", true
	if !handy[prev.Text] {
		l.wall = prev.Text
	}
	return true
}

// handy are words by which a wall is told only for now.
var handy = lex.Set("left", "right", "long", "short", "other", "far", "near", "same", "next", "whole", "this", "that", "back", "front")

// onWalls reports whether all surfaces are walls or slopes, so that a top and a bottom board are rows.
func (h *hung) onWalls() bool { return len(h.on) > 0 && !slices.Contains(h.on, string(place.Ceiling)) }

// describes reports whether the number of boards at i says of how many a surface is that is up: "the lid is up,
// one board wide".
func (l *line) describes(i int) bool {
	at, up := l.Find(said.On), slices.IndexFunc(l.Words, func(w said.Word) bool { return w.Is(said.IsUp|said.Done) && !w.Is(said.Small) })
	return at >= 0 && at < i && (up > at && up < i && !l.Any(said.Sofar) || l.Words[i].N == 1 && l.At(i-1).Is(said.Fits))
}

// goes reports whether it is said what is still to be done, and nothing of that was taken with a part of the line.
func (l *line) goes() bool {
	return slices.ContainsFunc(l.Words, func(w said.Word) bool {
		return !w.Used && w.Is(said.Still|said.Left) && !w.Is(said.Small|said.Started|said.IsUp)
	})
}

// texts returns what is up in our lines, one for each surface.
func (h *hung) texts(l *line) []string {
	slices.Sort(h.rows)
	h.rows = slices.Compact(h.rows)
	whats := h.parts(l)
	if whats == nil {
		return nil
	}
	if whole := len(h.on) == 0 && whats[0] == "up" && l.Any(said.IsUp|said.Done) && l.Any(said.Every|said.House) && (l.Room != "" || h.not != nil || l.Has("room")); whole { // "everything but the north wall"
		l.Doubt, h.on = true, []string{"north", "east", "south", "west", string(place.Ceiling)}
	}
	if len(h.on) == 0 && whats[0] == "up" && (l.InRoom || len(h.cut)+len(h.shut) > 0) && (l.Lost() == 0 || l.Strictly(said.IsUp)) && !l.Has("screwed off") { // "den is up, both lights cut"
		l.Doubt, h.on = true, []string{string(place.Ceiling)}
	}
	on := slices.DeleteFunc(h.on, func(s string) bool { return slices.Contains(h.not, s) })
	if len(on) == 0 {
		on = []string{""}
	}
	cut, of, from, doubt := strings.Join(h.cut, ", "), "", "", l.Doubt
	if len(h.used) > 0 {
		of = " using " + said.List(h.used)
	}
	if h.from != "" {
		from = " begun at " + h.from
	}
	var all []string
	for _, s := range on {
		name, where := s, ""
		if s != "" && s != string(place.Ceiling) {
			if !strings.Contains(s, "slope") {
				name += " wall"
			}
			where = " on " + name
		}
		for _, what := range whats {
			text := what + where + from
			switch {
			case what == "up" && s == "":
				return nil
			case what == "up":
				text = name + " up" + of
			case strings.HasPrefix(what, "hung"):
				text += of
			default:
				l.Doubt = false // it is asked about anyway
			}
			if cut != "" && len(on)*len(whats) == 1 {
				text += " cut " + cut
			}
			all = append(all, text)
		}
	}
	if len(on)*len(whats) == 1 {
		h.cut = nil
	}
	if len(all)+len(h.cut) > 1 || doubt || l.Lost() > 0 || slices.ContainsFunc(h.shut, func(name string) bool { return !l.Noted(strings.TrimPrefix(name, "all ")) }) { // else what hangs covers them
		all = append(all, h.holes()...)
	}
	if len(all) > 1 && (of != "" || len(h.rows) > 0 && len(on) > 1) {
		return nil
	}
	return []string{strings.Join(all, "\n")}
}

// parts returns what of a surface is up, each as a line begins; "up" is all of it.
func (h *hung) parts(l *line) (all []string) {
	part := ""
	switch {
	case len(h.within) > 0:
		if len(h.pieces)+len(h.edges)+len(h.used)+len(h.from)+h.many+h.boards > 0 {
			return nil
		}
		l.Tied = true // no part of it tells as much
		for _, n := range h.rows {
			text := "hung row " + strconv.Itoa(n)
			if cut := h.within[n]; len(cut) > 0 {
				text += " cut " + strings.Join(cut, ", ")
			}
			all = append(all, text)
		}
		return all
	case len(h.rows) == 1 && len(h.pieces) > 0:
		part = "hung " + strings.Join(h.pieces, " + ") + " row " + strconv.Itoa(h.rows[0])
	case len(h.rows) > 1 && h.from != "" && h.used == nil && h.rows[len(h.rows)-1] == len(h.rows):
		part = "so far " + strconv.Itoa(len(h.rows)) + " rows"
	case h.boards > 0 && len(h.pieces) == 1 && len(h.rows) == 0 && strings.HasSuffix(h.pieces[0], "'") && h.of.Long == "": // "the first board is up, a twelve footer"
		part = "so far " + strconv.Itoa(h.boards) + " boards " + h.pieces[0]
	case len(h.pieces) == 1 && len(h.rows)+h.many+len(h.edges)+h.boards == 0 && l.Words[0].Is(said.Long): // "12 is up"
		part = "so far 1 boards " + h.pieces[0]
	case len(h.edges) == 1 && len(h.pieces) == 1 && (l.Any(said.Last) || l.Has("wide", "rip", "ripped")): // its width
		l.Takes(widths, 0)
		return []string{"so far " + h.edges[0]}
	case len(h.pieces) > 0, len(h.rows) > 1 && h.from+said.List(h.used) != "":
		return nil
	case len(h.rows) == 1:
		part = "hung row " + strconv.Itoa(h.rows[0])
	case len(h.rows) > 1:
		part = "hung"
		for _, n := range h.rows {
			part += " r" + strconv.Itoa(n)
		}
	case h.many > 0:
		part = "so far " + strconv.Itoa(h.many) + " rows"
	case len(h.edges) > 0:
		for _, e := range h.edges {
			all = append(all, "so far "+e)
		}
		return all
	case h.but != "":
		part = "so far all but " + h.but
	case h.boards > 0:
		if part = "so far " + strconv.Itoa(h.boards) + " boards"; h.of.N > 0 {
			part = strings.TrimSuffix(part+" "+h.of.Long, " ") + h.of.OfKind() + h.sum
		}
	case h.rest && len(h.on) < 2:
		part = "so far the rest"
	case h.part && len(h.on) == 0:
		return nil
	case h.part:
		part = "so far partly"
	default:
		part = "up"
	}
	return []string{part}
}

// upFirst matches a surface that is up, and then what it took: "hall up, 3 twelves".
var upFirst = regexp.MustCompile(`(?i)^\D*\b(?:up|done|hung|closed|boarded)[.,;] `)

// usedFor takes the boards that were used for what is up: "used 4 12s", "lid up 6 used".
func (l *line) usedFor() (all []said.Boards) {
	i := l.Find(said.Used)
	if i < 0 {
		return nil
	}
	if len(l.Words) > i+1 {
		all = l.Boards()
	}
	for _, k := range []int{i - 1, i + 1} {
		if w := l.At(k); all == nil && w.Is(said.Count) && w.Plain && w.N > 0 && !w.Used {
			all, l.Words[k].Used = []said.Boards{{N: w.N}}, true
		}
	}
	if all != nil || len(l.Words) > i+1 {
		l.Use(said.Used)
	}
	return all
}
