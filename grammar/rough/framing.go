package rough

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/rooms"
	"strapline/grammar/speech"
	"strapline/grammar/spots"
)

// framing is what boards are screwed to: what it is, its lumber, its spacing, its direction, and where the
// first one is, in any order: "strapping goes east-west then, 1x3s at 16".
type framing struct {
	*line
	what, run, space, first string
	like                    string // the way it runs in the room before
	from, on                string // the wall that the first, or the list, is measured from; the wall it is in
	at                      []string
	cut                     [2]string     // its lumber, 1 x 3
	told                    [2]string     // its thickness and its width, as clauses
	across                  bool          // it said across before the direction
	crosses                 bool          // it said across the room
	all                     bool          // in every wall
	ew, ns                  length.Length // the sides of its room
	starts                  bool          // the first one is mentioned
	slope                   string        // " on slope": they are rafters
}

var (
	parallel  = regexp.MustCompile(`[VA]*L(W)`)
	leadsTo   = regexp.MustCompile(`V*[TA]+(W)`)
	thickIs   = regexp.MustCompile(`(N)i*[qJ]|q(N)`)
	faceIs    = regexp.MustCompile(`(N)i*I|I(N)`)
	lumberCut = regexp.MustCompile(`(N)x(N)g?`)
	centres   = regexp.MustCompile(`(N)i*[gM]+|[eg]+P*(N)i*`)
	firstAt   = regexp.MustCompile(`1K?[PV1A]*(N)i*(?:[oA]*O?[P2]*(W))?`)
	firstOff  = regexp.MustCompile(`1K?[PV1]*O?(W)[PV]*(N)`)
	countOf   = regexp.MustCompile(`(N)K`)
	toFirst   = regexp.MustCompile(`(N)i*(?:[o]*O(W))?T1`)
	eachAt    = regexp.MustCompile(`K?(N)P(N)`)
	offWall   = regexp.MustCompile(`O(W)`)
	startWall = regexp.MustCompile(`1(W)`)
	atUsual   = regexp.MustCompile(`P(N)|[KDVxAM_](N)|^(N)`)
	tightTo   = regexp.MustCompile(`1K?[PV]*L(W)`)
	bareTruss = regexp.MustCompile(`[N_][^m]*(mK)`) // on the trusses, no strapping
	boardOn   = regexp.MustCompile(`Nf+`)
	gapIn     = regexp.MustCompile(`mK.*Q(N)(N)`)
	oneBy     = regexp.MustCompile(`^(N)xN[Pe]+N`)
	acrossAll = regexp.MustCompile(`A(R)`)
	thin      = regexp.MustCompile(`(N)i*K|(N)i*$`)
	oddBay    = regexp.MustCompile(`2K?b?[^NK]*N`)
)

// framing is straps, joists or studs by their spacing, or by the place of each, in each of the rooms that it is of.
func (l *line) framing() (all []Guess) {
	if l.Has("SZklw") || len(l.Left(speech.Length)) == 0 && !l.Has("K") {
		return nil
	}
	var like string // the way it runs in the first of them
	for i := range max(len(l.Named), 1) {
		of := *l.Context
		if i < len(l.Named) && l.Sides != nil {
			of.EW, of.NS = l.Sides(l.Named[i])
		}
		of.Sides = nil
		f := framing{line: &line{speech.Scan(read.CutLine(places.Way(&of, l.Text), &of))}, ew: of.EW, ns: of.NS, like: like}
		if len(l.Named) > 1 {
			f.Of = l.Named[i]
		}
		got := f.read()
		if len(got) == 0 || all != nil && len(got) != len(all) {
			return nil
		}
		got[0].Worked = f.Text != l.Text
		if all == nil {
			all, like = got, f.run
			continue
		}
		for i, g := range got {
			all[i].Text, all[i].Tied, all[i].Sure = all[i].Text+"\n"+g.Text, true, false
		}
	}
	return all
}

// read is the framing of one room.
func (f *framing) read() []Guess {
	l := f.line
	for i := range l.Tags { // 5/8 X, trusses 24 oc: the board
		if it := l.Items[i]; l.Tags[i] == speech.Length && i+1 < len(l.Items) && l.Items[i+1].Sep == ',' && (i == 0 || it.Sep == ',') && boardThick[strings.Trim(it.Low, `" `)] {
			l.Tags[i], l.Rest = speech.Used, true
		}
	}
	if m := bareTruss.FindSubmatchIndex(l.Tags); m != nil {
		l.Use(m[2], m[3])
	}
	if m := l.Take(boardOn); m != nil { // what goes on it
		l.Rest = true
	}
	if m := acrossAll.FindSubmatchIndex(l.Tags); m != nil {
		l.Use(m[2], m[3])
		f.crosses = true
	}
	if m := gapIn.FindSubmatchIndex(l.Tags); m != nil && f.kind() && f.Items[m[2]].N+1 == f.Items[m[4]].N {
		last := fmt.Sprintf("%s %d", one(f.what), f.Items[m[4]].N)
		return []Guess{{Asks: fmt.Sprintf("none between %d and %d: how far off its wall is %s?", f.Items[m[2]].N, f.Items[m[4]].N, last), Base: last + " at"}}
	}
	if len(l.Left('R')) > 0 || !f.kind() || slices.ContainsFunc(l.Pieces, func(p lex.Piece) bool { return ofBoards[p.Low] }) || l.Changes() {
		return nil
	}
	if m := l.Take(oddBay); m != nil { // it comes out so of itself, or shows that another is off
		l.Rest = true
	}
	if len(l.Left('m'))+len(l.Left('d')) > 0 { // one is missing, or there are two in one: no place for that
		return []Guess{{Keep: true}}
	}
	if !f.list() {
		f.even()
	}
	f.goes()
	for i, it := range f.Items {
		switch {
		case it.Tag == 'C', it.Tag == 'F':
			f.Tags[i] = speech.Used
		case f.Tags[i] == speech.Direction && (f.run == "" || f.run == it.Text):
			f.run, f.across = it.Text, i > 0 && f.Items[i-1].Low == "across"
			f.Tags[i] = speech.Used
		case f.Tags[i] == speech.Wall && f.on == "" && (i == 0 || f.Items[i-1].Tag != 'O'):
			f.on = it.Text
			f.Tags[i] = speech.Used
		}
	}
	f.run = cmp.Or(f.run, f.like)
	if f.space == "" && f.at == nil && f.run != "" && f.what != "studs" && f.Items[0].Tag == speech.Support && !l.Has("QO1") && l.Lost() == 0 { // how far apart is asked
		return l.Guesses([]string{canon.Say(f.what, f.run) + f.slope})
	}
	if f.what == "" || f.space == "" && f.at == nil || len(l.Left(speech.Length)) > 0 || f.starts && f.first == "" {
		return nil
	}
	return f.lines()
}

// goes takes the way that it runs from a wall that it leads to, or from a room that it crosses: the
// short way, if that is plain.
func (f *framing) goes() {
	for i, p := range []*regexp.Regexp{parallel, leadsTo} {
		if m := f.Take(p); m != nil && f.run == "" {
			f.run = map[bool]string{true: "ns", false: "ew"}[f.WallAt(m[0]).EastWest() == (i == 0)]
		}
	}
	for i, it := range f.Items {
		way := strings.Contains(it.Low, "length")
		if f.run != "" || it.Tag != 'A' || f.Has("D") || f.ew == f.ns || !way && !(f.crosses && 2*max(f.ew, f.ns) > 3*min(f.ew, f.ns)) {
			continue
		}
		if f.run, f.Doubt, f.Tags[i] = "ns", true, speech.Used; (f.ew > f.ns) == way {
			f.run = "ew"
		}
	}
}

// boardThick are the usual thicknesses of board.
var boardThick = lex.Set("3/8", "1/2", "5/8", "12.5", "15")

// ofBoards are words that are said of boards: "3 are broken" answers no question about straps.
var ofBoards = lex.Set("broken", "busted", "cracked", "wet", "left", "came", "delivered")

// kind finds what it is. Walls alone are of studs.
func (f *framing) kind() bool {
	for _, p := range f.Pieces[f.Begin:] {
		switch p.Low {
		case "strapped", "furred":
			f.what = cmp.Or(f.what, "straps")
		case "rafter", "rafters": // a slope's joists
			f.what, f.slope = "joists", " on slope"
			f.strays(p)
		}
	}
	for i, it := range f.Items {
		switch {
		case f.Tags[i] == speech.Used:
		case it.Tag == speech.Support && f.what != "" && i > 0 && f.Items[i-1].Tag == 'A': // across the joists, whichever way those run
			f.Tags[i] = speech.Used
		case it.Tag == speech.Support && (f.what == "" || f.what == it.Text):
			f.what = it.Text
		case it.Tag == speech.Support:
			return false
		case it.Tag == 'a':
			f.all = true
			f.Tags[i] = speech.Used
		case it.Tag == '1':
			f.starts = true
		}
	}
	if slices.ContainsFunc(f.Pieces[f.Begin:], func(p lex.Piece) bool { return p.Low == "walls" }) {
		f.all = f.all || f.what == "" || f.what == "studs"
	}
	if m := oneBy.FindSubmatchIndex(f.Tags); f.what == "" && m != nil && f.Said(m[2]) == "1" && f.Units == length.Imperial { // 1x3
		f.what = "straps"
	}
	if f.what == "" && f.all && slices.ContainsFunc(f.Pieces, func(p lex.Piece) bool { return p.Low == "framed" || p.Low == "2" || p.Low == "framing" }) {
		f.what = "studs"
	}
	f.all = f.all && f.what == "studs"
	return f.what != ""
}

// strays marks a word without a part as taken.
func (f *framing) strays(p lex.Piece) {
	if i := slices.IndexFunc(f.Items, func(it speech.Item) bool { return it.At == p.Start }); i >= 0 {
		f.Tags[i] = speech.Used
	}
}

// list is the place of each from the first one on: "strap 1 at 0, 2 at 16, 3 at 32".
func (f *framing) list() bool {
	tags := slices.Clone(f.Tags)
	for {
		m := eachAt.FindSubmatchIndex(f.Tags)
		if m == nil || f.Items[m[2]].N != len(f.at)+1 || f.Items[m[2]].Text != strconv.Itoa(len(f.at)+1) {
			break
		}
		f.at = append(f.at, f.Said(m[4]))
		f.Use(m[0], m[1])
	}
	if len(f.at) < 2 {
		f.at, f.Tags = nil, tags
		return false
	}
	if m := f.Take(offWall); m != nil {
		f.from = string(f.WallAt(m[0]))
	}
	return true
}

// even is a spacing, and perhaps where the first one is.
func (f *framing) even() {
	for i, p := range []*regexp.Regexp{thickIs, faceIs} {
		if m := f.Take(p); m != nil {
			f.told[i] = ", " + f.Said(max(m[0], m[1])) + []string{" thick", " wide"}[i]
		}
	}
	for _, m := range thin.FindAllSubmatchIndex(f.Tags, -1) { // on 3/4 straps; "16 oc, 19 mil"
		k := max(m[2], m[4])
		flat := f.what == "straps" || f.what == "channels"
		if size := f.Size(k); f.told[0] == "" && flat && (f.Units == length.Metric || f.Items[k].N == 0) && (k == m[4] || f.Items[m[1]-1].Sep == 0) && size >= length.Inch/4 && size < 2*length.Inch {
			f.told[0] = ", " + f.Said(k) + " thick"
			f.Use(k, k+1)
		}
	}
	if m := lumberCut.FindSubmatchIndex(f.Tags); m != nil && m[1] < len(f.Tags) && f.Tags[m[1]] == 'G' && f.what != "studs" { // "2x6 walls, joists 16"
		f.Use(m[0], m[1])
		f.Rest = true
	} else if m := f.Take(lumberCut); m != nil {
		f.cut = [2]string{f.Said(m[0]), f.Said(m[1])}
	}
	if m := countOf.FindSubmatchIndex(f.Tags); m != nil && f.Items[m[2]].N > 1 && strings.HasSuffix(f.Items[m[1]-1].Low, "s") && !f.usual(m[2]) { // "9 straps"
		f.Use(m[2], m[3])
	}
	if m := f.Take(firstOff); m != nil {
		f.from, f.first = string(f.WallAt(m[0])), f.Said(m[1])
	}
	if m := f.Take(tightTo); m != nil { // its middle is half its face off
		_, wide := place.SupportKind(f.what).Usual()
		f.from, f.first, f.Doubt = string(f.WallAt(m[0])), length.Canon(wide/2), true
	}
	for _, p := range []*regexp.Regexp{toFirst, firstAt} {
		if m := p.FindSubmatchIndex(f.Tags); m != nil && f.first == "" && !(m[3] < len(f.Tags) && f.Tags[m[3]] == 'g') {
			f.Use(m[0], m[1])
			if f.first = f.Said(m[2]); m[4] >= 0 {
				f.from = string(f.WallAt(m[4]))
			}
		}
	}
	if m := f.Take(startWall); m != nil { // "starting from the west": how far off it is asked
		f.from, f.starts = string(f.WallAt(m[0])), false
	}
	if m := f.Take(centres); m != nil {
		if f.space = f.Said(max(m[0], m[1])); f.Units == length.Imperial && len(f.space) == 3 && strings.Trim(f.space, "0123456789") == "" {
			f.space, f.Doubt = f.space+" mm", true // 400 centres
		}
	}
	if m := atUsual.FindSubmatchIndex(f.Tags); m != nil && f.space == "" {
		if k := max(m[2], m[4], m[6]); f.usual(k) {
			f.space = f.Said(k)
			f.Use(k, k+1)
			f.Settle("P")
		}
	}
	if m := f.Take(offWall); m != nil && f.from == "" {
		f.from = string(f.WallAt(m[0]))
	}
}

// usual reports whether a number is a usual spacing.
func (f *framing) usual(i int) bool {
	for _, usual := range rooms.UsualSpacings { // 40 cm is one in a job in inches too
		if slices.Contains(usual, f.Size(i)) {
			return true
		}
	}
	return false
}

// lines returns the framing in canonical words.
func (f *framing) lines() []Guess {
	off := place.Wall(f.from)
	if f.first != "" && f.across && f.from != "" && (f.run == "ew") == off.EastWest() { // spaced that way, as the first one shows
		f.run = ""
	}
	on := f.slope
	if f.on != "" {
		on = " on " + f.on + " wall"
		if f.what != "studs" {
			return nil
		}
	}
	text := canon.Say(f.what, f.run)
	switch {
	case f.at != nil:
		return f.Guesses([]string{canon.Say(text, "at", strings.Join(f.at, ", "), canon.Off(off)) + on})
	case f.first != "":
		text = canon.Say(text, f.space, "oc", canon.Clause{"first", f.first, canon.Off(off)})
	case f.from != "" && f.run == "":
		run := "ns"
		if off.Along() == place.X {
			run = "ew"
		}
		text = canon.Say(text, run, f.space, "oc")
	default:
		text = canon.Say(text, f.space, "oc")
	}
	text += f.told[0] + f.told[1]
	if f.all && f.on == "" && f.run == "" {
		return f.everyWall()
	}
	if f.cut[0] == "" {
		return f.Guesses([]string{text + on})
	}
	thin, thick := f.lumber(f.cut[0]), f.lumber(f.cut[1])
	if thin == "" || thick == "" {
		return nil
	}
	flat, edge := fmt.Sprintf("%s, %s thick, %s wide%s", text, thin, thick, on), fmt.Sprintf("%s, %s thick, %s wide%s", text, thick, thin, on)
	switch {
	case f.what == "joists" || f.what == "studs":
		return f.Guesses([]string{edge})
	case f.Units == length.Imperial && f.cut[0] == "1":
		return f.Guesses([]string{flat})
	}
	all := f.Guesses([]string{flat, edge})
	all[0].Either, all[0].Asks, all[0].Label, all[1].Label = true, "which is its thickness, flat or on edge?", "flat", "on edge"
	return all
}

// everyWall is studs in each wall. The first one is usually laid out so that a board ends on the middle of
// a stud, half a stud less than the spacing off the corner (common practice, no source); it is asked about.
func (f *framing) everyWall() []Guess {
	first := f.first
	if first == "" {
		r, _, _ := measure.Scan(f.space, f.Units, measure.List)
		if len(r) != 1 || r[0].L <= 2*length.Inch {
			return nil
		}
		first = length.Canon(r[0].L - 3*length.Inch/4)
		if f.Units == length.Metric {
			first = length.Canon(r[0].L - 19*length.Millimetre)
		}
	}
	var lines []string
	for _, w := range place.Walls {
		off, _ := w.Ends()
		lines = append(lines, fmt.Sprintf("studs %s oc, first %s off %s on %s wall", f.space, first, off, w))
	}
	all := f.Guesses([]string{strings.Join(lines, "\n")})
	all[0].Asks = fmt.Sprintf("studs %s on centre in all four walls: where is the first of each?", f.space)
	all[0].Label = fmt.Sprintf("as usual, %s off the west or the north end (assumed: measure one)", first)
	return all
}

// lumber returns the actual thickness or width of lumber of that nominal size; in a metric job that is the
// number itself.
func (l *line) lumber(sold string) string {
	if l.Units == length.Metric {
		return sold
	}
	return spots.Dressed[sold]
}
