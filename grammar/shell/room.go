package shell

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/numbers"
	"strapline/grammar/places"
	"strapline/grammar/speech"
)

var (
	besideRoom = regexp.MustCompile(`[OL]R`) // "bath off the hall"
	roomSides  = regexp.MustCompile(`(N)i*[IyJA]?(D?)x(N)i*(D?)`)
	sideWide   = regexp.MustCompile(`(N)i*[IA]`)
	sideLong   = regexp.MustCompile(`(N)i*([yJA])`)
	longWay    = regexp.MustCompile(`([yY])?V*(D)`)
	sideRun    = regexp.MustCompile(`(N)[PVOT]*(D)`)
	tall       = regexp.MustCompile(`x?P?(N)[TP]*[HCG]+|[HCG]+[PVTHC]*(N)[HC]?`)
)

// juts is said of a closet or a bump that is a part of the room it is in.
var juts = regexp.MustCompile(`(?i)^(?:[a-z]+ ){1,3}(?:sticks?|juts?|bumps?|jogs?|eats?|takes?) (?:out|in|into|up|\d)`)

// offcut matches the size of what is cut, which is none of a room.
var offcut = regexp.MustCompile(`(?i)\b(?:offcuts?|scraps?|pieces?|strips?|drop|sheets?|boards?|opening|hole|panel|hatch)(?: is| are|'s| of|,)* \d`)

// boardUp is a ceiling that is up: a second thing that is told.
var boardUp = regexp.MustCompile(`(?i)\b(?:lid|ceiling)(?:'?s| is| all| was| got| already)* (?:up|hung|on|closed|closed up|boarded|in|done|finished)(?:$|[,.;]| (?:already|now|too|and|but|except|bar)\b)`)

// roomSized is a room: its name, its sides and its height.
func (l *line) roomSized() []Guess {
	same := sameAsRoom.FindStringSubmatchIndex(lex.Lower(l.Read))
	if l.Has("SKkwZ") || boardUp.MatchString(l.Text) || juts.MatchString(l.Text) || same == nil && l.Changes("scratch") { // "scratch that 9'6 x 8"
		return nil
	}
	name := l.roomName()
	known := l.Rooms[strings.TrimRight(name, ",")]
	if name == "" {
		known = cmp.Or(l.Room, l.Of)
		if name = known; strings.TrimRight(name, "0123456789") != name {
			name += ","
		}
	}
	if slices.Contains(l.Opening, known) { // the answer to how big it is
		known = ""
	}
	if offcut.MatchString(l.Read) || name == "" || len(roomSides.FindAllIndex(l.Tags, 2)) > 1 && !l.Has("p") || strings.Contains(lex.Lower(l.Text), "over "+name) || l.Misheard() {
		return nil
	}
	if same != nil && len(l.Left(speech.Length)) == 0 {
		return l.sameSize(name, same)
	}
	l.Take(besideRoom)
	if !roomSides.Match(l.Tags) {
		l.joinFeet()
	}
	ew, ns := l.sides()
	if ew == "" {
		ew, ns = l.twoSides()
	}
	if ew == "" {
		ew, ns = l.byWalls()
	}
	if ew == "" || known != "" && !l.again(known, ew, ns) || roomSides.Match(l.Tags) && len(l.Left(speech.Room)) > 0 && !l.Has("p") { // another room
		return nil
	}
	if l.many {
		ew, ns = l.feet(ew), l.feet(ns)
	}
	l.joinFeet() // of its height
	height, falls, bare := "", l.falls(), false
	for m := l.Take(widthOnly); m != nil; m = l.Take(widthOnly) {
		l.Rest = true
	}
	if m := l.Take(tall); m != nil {
		height = l.Said(slices.Max(m))
	} else if left := l.Left(speech.Length); len(left) == 1 && left[0] == len(l.Items)-1 && falls == "" && strings.IndexByte("_x", l.Tags[left[0]-1]) >= 0 {
		high := l.dashed(l.Said(left[0]))
		if h := l.LengthOf(high); h >= numbers.RoomHeight.Least && h <= mostHigh { // "11-4 x 10-8, 8 ft"
			height, bare = high, h < 7*length.Foot || h > 12*length.Foot
			l.Tags[left[0]] = speech.Used
		}
	}
	unread := false // a word that its rule would read
	for i, t := range l.Tags {
		if t == speech.Stray && passing[l.Items[i].Low] {
			l.Tags[i] = speech.Used
		}
		l.Rest = l.Rest || t == 'h' || l.Items[i].Low == "flat" // of the ceiling, where it is flat
		unread = unread || strings.IndexByte("?HTx", t) >= 0
		if strings.IndexByte("PVTxHCyJIG", t) >= 0 {
			l.Tags[i] = speech.Used
		}
	}
	if len(l.Left(speech.Length)) > 0 || l.Has("pl") || len(l.Left(speech.Wall)) > 0 {
		l.Rest = true
	}
	if l.Cmd != nil && !l.spelt && (l.Rest || unread || l.Lost() > 0) {
		return nil // its rule says what is wrong
	}
	if height != "" {
		falls = " high " + height + falls
	}
	if l.then != "" { // a side in feet is one of feet
		all := l.Guesses([]string{"room " + name + " " + l.feet(ew) + " x " + l.feet(ns) + falls})
		all[0].Then, all[0].Sure, all[0].Note = strings.TrimRight(name, ",")+": "+l.then, false, false
		all[0].Label = all[0].Text + "; then " + all[0].Then
		return all
	}
	texts := []string{"room " + name + " " + ew + " x " + ns + falls}
	if l.Doubt && known == "" {
		texts = []string{"room " + name + " " + ns + " x " + ew + falls, texts[0]}
	}
	l.Doubt = known != "" || bare
	return l.Guesses(texts)
}

// mostHigh is the greatest height of a room that is taken from a bare number behind its sides (an assumption).
const mostHigh = 20 * length.Foot

// again reports whether a declared room has about these sides.
func (l *line) again(room, ew, ns string) bool {
	if l.Sides == nil || l.Cmd != nil || slices.ContainsFunc(l.Pieces, func(p lex.Piece) bool { return pieces[p.Low] }) {
		return false
	}
	a, b := l.Sides(room)
	return places.Along(l.Context, ew, a, 0) != "" && places.Along(l.Context, ns, b, 0) != ""
}

// passing are words beside a room's size that say nothing of it.
var passing = lex.Set(strings.Fields("tomorrow monday friday boys next comes taped working doing starting started moving size sized dims dimensions whole actual")...)

// joinFeet makes one number of feet and the inches behind them: "13 7".
func (l *line) joinFeet() {
	for i := len(l.Tags) - 1; i > 0; i-- {
		a, b := l.Items[i-1], &l.Items[i]
		if l.Tags[i] == speech.Length && l.Tags[i-1] == speech.Length && b.Sep == 0 && a.N >= 4 && a.N < 60 && (b.N > 0 && b.N < 12 || strings.Contains(b.Low, "/") || inchesAnd.MatchString(b.Low)) {
			a.Text, a.Low, a.N = a.Text+"' "+b.Text, a.Low+" "+b.Low, 0
			l.Items[i-1] = a
			l.Items, l.Tags = slices.Delete(l.Items, i, i+1), slices.Delete(l.Tags, i, i+1)
		}
	}
}

// widthOnly is a width, which is no height: "the flat part is only 5 wide".
var widthOnly = regexp.MustCompile(`(N)I`)

// inchesAnd matches inches and a part of one: "11 and a half".
var inchesAnd = regexp.MustCompile(`^(?:[1-9]|1[01]) and an? (?:half|quarter|eighth)`)

// mostOff is by how much a side read elsewhere may differ from the one of the room (an assumption).
const mostOff = 4 * length.Inch

// reading is a side of the room read at one of its ends: "13 7 at the stair end".
func (l *line) reading() []Guess {
	l.joinFeet()
	m := endRead.FindSubmatchIndex(l.Tags)
	if m == nil {
		return nil
	}
	side, w := l.EW, l.WallAt(m[4])
	if w.EastWest() {
		side = l.NS
	}
	all, _, _ := measure.Scan(l.Said(m[2]), l.Units, measure.One)
	all = slices.DeleteFunc(all, func(r measure.Reading) bool { return max(r.L-side, side-r.L) > mostOff })
	if len(all) != 1 || side == 0 {
		return nil
	}
	l.Use(m[0], m[1])
	guesses := l.Guesses([]string{"square " + string(w) + " " + length.Canon(all[0].L)})
	guesses[0].Worked = true
	return guesses
}

var endRead = regexp.MustCompile(`^[VP]*(N)[IyAV]*[PL](W)$`)

// sameSize is a room as large as another one, the one at hand if none is named: "nursery same size but not closed".
func (l *line) sameSize(name string, m []int) []Guess {
	ew, ns := l.EW, l.NS
	if l.Of != "" && l.Sides != nil {
		ew, ns = l.Sides(l.Of)
	} else if max(m[2], m[4]) >= 0 { // as one that is not declared
		return nil
	}
	if ew == 0 {
		return nil
	}
	said := strings.TrimSpace(l.Read[m[1]:])
	return []Guess{{Text: "room " + name + " " + length.Canon(ew) + " x " + length.Canon(ns), Note: said != "", Sure: false}}
}

var sameAsRoom = regexp.MustCompile(`\b(?:the )?same (?:size|dims|dimensions|measurements)(?: (?:as|like) (?:the )?(\w+(?: (?:room|\d+))?))?|\bsame as (?:the )?(\w+(?: (?:room|\d+))?)`)

// height is that of the ceiling: "ceiling's 8 foot", "den height 8'", "8 foot 1 floor to ceiling", "height to the strapping 7'1".
func (l *line) height() []Guess {
	of := func(it speech.Item) bool { // a height that is of nothing else
		return it.Tag == 'H' && (heights[it.Low] || strings.HasPrefix(it.Low, "floor to "))
	}
	if l.Has("SKkwWlZDxge") || widthOnly.Match(l.Tags) || !l.Has("C") && !(l.Has("H") && leftRight.MatchString(l.Read)) && !(slices.ContainsFunc(l.Items, of) && len(l.Left(speech.Length)) <= 2 && l.Lost() == 0) ||
		boardUp.MatchString(l.Text) || l.Changes() || !leftRight.MatchString(l.Read) && slices.ContainsFunc(l.Pieces, func(p lex.Piece) bool { return pieces[p.Low] }) {
		return nil
	}
	if slices.ContainsFunc(l.Items, of) {
		l.joinFeet()
	}
	m := l.Take(tall)
	if m == nil {
		return nil
	}
	at := slices.Max(m)
	high := l.LengthOf(l.feet(l.Said(at)))
	if it := l.Items[at]; it.Sep == ',' && footers.MatchString(l.Read[min(it.At, len(l.Read)):]) { // "ceilings only, 12 footers"
		return nil
	}
	if other := l.Left(speech.Length); len(other) == 1 && l.Has("H") { // at another spot
		l.Tags[other[0]], l.Rest = speech.Used, true
		low := l.LengthOf(l.feet(l.Said(other[0])))
		if max(high-low, low-high) <= mostFall {
			all := l.Guesses([]string{"ceiling height " + l.Said(at), "ceiling height " + l.Said(other[0])})
			all[0].Asks = "which is the height to go by? Both are kept as said"
			return all
		}
		if low < high { // the longer one is a side
			at = other[0]
		}
	} else if len(other) > 0 {
		return nil
	}
	return l.Guesses([]string{"ceiling height " + l.feet(l.Said(at))})
}

// mostFall is by how much a ceiling's height may differ from spot to spot (an assumption).
const mostFall = 3 * length.Foot

// footers matches a board's length, which is no height.
var footers = regexp.MustCompile(`(?i)^\S+[ -]?(?:foot|feet|ft)ers?\b`)

// toFraming is what a height is measured to. heights are words for one that need no ceiling beside them.
var (
	toFraming = regexp.MustCompile(`H[TP](K)|N[TP](K)$`)
	heights   = lex.Set("height", "ht", "hgt", "head height", "headroom")
)

// leftRight are the ends of a wall.
var leftRight = regexp.MustCompile(`(?i)\bleft\b.*\bright\b|\bright\b.*\bleft\b`)

// pieces are words of what is cut for a ceiling, not of the ceiling itself.
var pieces = lex.Set("cut", "piece", "pieces", "rip", "rips", "strip", "strips", "board", "boards", "sheet", "sheets", "gap", "row", "rows", "filler", "need", "left", "last")

// twoHeights is the height at two walls.
var twoHeights = regexp.MustCompile(`(N)H?P*(W)[TVO]*(N)H?P*(W)`)

// falls is a ceiling that falls from one wall to the one opposite, as words for the end of a room's line.
func (l *line) falls() string {
	m := twoHeights.FindSubmatchIndex(l.Tags)
	if m == nil || !l.Has("CHl") || l.WallAt(m[4]).Opposite() != l.WallAt(m[8]) {
		return ""
	}
	high, low, on := l.feet(l.Said(m[2])), l.feet(l.Said(m[6])), l.WallAt(m[8])
	if l.LengthOf(high) < l.LengthOf(low) {
		high, low, on = low, high, l.WallAt(m[4])
	}
	l.Use(m[0], m[1])
	return " high " + high + ", slope " + string(on) + " " + high + " to " + low
}

// feet returns a height with its unit: 8 is 8 feet, 2.4 is 2.4 m.
func (l *line) feet(said string) string {
	if l.Units == length.Metric && strings.Contains(said, ".") && strings.Trim(said, "0123456789.") == "" {
		return said + " m"
	}
	if n := speech.Whole(said); n > 0 && n <= 20 && l.Units == length.Imperial {
		return said + "'"
	}
	return said
}

// unitOf matches the unit of a length.
var unitOf = regexp.MustCompile(`[\da-z]\s+(mm|metres|meters)$|\d\s*(mm|cm|m|metres|meters|ft|feet|foot|inches)$`)

// shared gives a bare side the unit of the other: "3.4 by 4.1 m".
func shared(a, b string) (string, string) {
	if m := unitOf.FindStringSubmatch(b); m != nil && a != "" && (strings.Trim(a, "0123456789.") == "" || m[1] != "" && unitOf.FindString(a) == "") {
		a += " " + m[1] + m[2]
	}
	return a, b
}

// sides takes the sides of a room: with an x between, wide and long, or by the way they run.
func (l *line) sides() (ew, ns string) {
	if m := roomSides.FindSubmatchIndex(l.Tags); m != nil {
		feet := func(at, inches int) string { // "13 4 1/2": the number before it is its feet, or the one behind it its inches
			if at >= 0 && inches < len(l.Tags) && l.Tags[at] == 'N' && l.Tags[inches] == 'N' && l.Items[inches].Sep == 0 && l.Items[inches].N < 12 && strings.Trim(l.Said(at), "0123456789") == "" {
				l.Tags[at], l.Tags[inches] = speech.Used, speech.Used
				return l.Said(at) + " " + l.Said(inches)
			}
			return ""
		}
		wide, long := feet(m[2]-1, m[2]), feet(m[6], m[6]+1)
		ew, ns = shared(cmp.Or(wide, l.Said(m[2])), cmp.Or(long, l.Said(m[6])))
		first, second := "", ""
		if m[4] < m[5] {
			first = l.Said(m[4])
		}
		if m[8] < m[9] {
			second = l.Said(m[8])
		}
		l.Use(m[0], m[1])
		if first != "" && first == second {
			return "", ""
		}
		if first == "ns" || first == "" && second == "ew" {
			ew, ns = ns, ew
		}
		if first+second == "" {
			ew, ns = l.turned(ew, ns)
		}
		return ew, ns
	}
	return "", ""
}

// twoSides takes the sides of a room without an x between them: wide and long, by the way they run, one and the other. Of
// the wide and the long one, and of "the others", it may not be known which way they run.
func (l *line) twoSides() (ew, ns string) {
	for _, p := range [][2]*regexp.Regexp{{sideWide, sideLong}, {longSide, shortSide}} {
		tags := slices.Clone(l.Tags)
		a, b := l.Take(p[0]), l.Take(p[1])
		if a != nil && b != nil {
			l.Doubt = !l.Has("D") && (len(b) == 1 || l.Items[b[1]].Tag == 'y')
			return l.turned(l.Said(a[0]), l.Said(b[0]))
		}
		l.Tags = tags
	}
	free := slices.DeleteFunc(l.Left(speech.Length), func(i int) bool { return i+1 < len(l.Tags) && l.Tags[i+1] == 'H' || lex.Numeral(l.Items[i].Low) })
	if len(free) != 2 {
		return "", ""
	}
	ew, ns = l.feet(l.Said(free[0])), l.feet(l.Said(free[1]))
	other := slices.IndexFunc(l.Pieces, func(p lex.Piece) bool { return p.Low == "others" || p.Low == "other" })
	oneWay, walls, run := strings.Contains(lex.Lower(l.Read), "one way"), l.Left(speech.Wall), sideRun.FindSubmatchIndex(l.Tags)
	switch {
	case run != nil: // "11 ft 3 north to south and 12 ft 1 the other way"
		if (run[2] == free[0]) == (l.Said(run[4]) == "ns") {
			ew, ns = ns, ew
		}
	case other < 0 || !oneWay && l.Items[free[1]].At < l.Pieces[other].Start:
		return "", ""
	case len(walls) > 0 && l.WallAt(walls[0]).EastWest():
		ew, ns = ns, ew
	default:
		l.Doubt = walls == nil && !oneWay
	}
	l.Tags[free[0]], l.Tags[free[1]] = speech.Used, speech.Used
	l.Settle(".?WDPVOTAIyYG/")
	return ew, ns
}

// turned returns the sides with the east-west one first, if it was said which way the long one runs.
func (l *line) turned(a, b string) (ew, ns string) {
	m := longWay.FindSubmatchIndex(l.Tags)
	if m == nil || l.LengthOf(a) == 0 || l.LengthOf(b) == 0 {
		return a, b
	}
	l.Use(m[0], m[1])
	short := m[2] >= 0 && l.Items[m[2]].Tag == 'Y'
	if (l.LengthOf(a) > l.LengthOf(b)) != ((l.Said(m[4]) == "ew") != short) {
		a, b = b, a
	}
	return a, b
}

// sameAs is a wall that is as long as another.
var sameAs = regexp.MustCompile(`(W)s(W)`)

// byWalls takes the sides of a room by its walls: "walls N 12'2, E 10'6, S same as N, W 10'6", or by two of them
// at once.
func (l *line) byWalls() (ew, ns string) {
	side := map[place.Wall]string{}
	for _, m := range twoWalls.FindAllSubmatchIndex(l.Tags, -1) {
		if l.Items[m[4]].Sep == 0 { // "same as N, W 10'6" is not of both
			side[l.WallAt(m[2])], side[l.WallAt(m[4])] = l.Said(m[6]), l.Said(m[6])
			l.Use(m[0], m[1])
		}
	}
	for m := l.Take(wallBeside); m != nil; m = l.Take(wallBeside) { // "12'2 on the north, 12'4 on the south"
		side[l.WallAt(m[1])] = l.Said(m[0])
	}
	for m := l.Take(besideWall); m != nil; m = l.Take(besideWall) {
		side[l.WallAt(m[0])] = l.Said(m[1])
	}
	for m := l.Take(sameAs); m != nil; m = l.Take(sameAs) {
		side[l.WallAt(m[0])] = side[l.WallAt(m[1])]
	}
	if len(side) != 4 {
		return "", ""
	}
	for w, said := range side {
		side[w] = l.feet(said)
	}
	if side[place.North] != side[place.South] || side[place.East] != side[place.West] { // not square: by its longest sides
		l.then = fmt.Sprintf("square north %s south %s east %s west %s", side[place.North], side[place.South], side[place.East], side[place.West])
	}
	return l.longer(side[place.North], side[place.South]), l.longer(side[place.East], side[place.West])
}

func (l *line) longer(a, b string) string {
	if l.LengthOf(a) < l.LengthOf(b) {
		return b
	}
	return a
}

var (
	wallBeside = regexp.MustCompile(`(N)[AIV]*P(W)`)
	besideWall = regexp.MustCompile(`(W)G?(N)`)
	twoWalls   = regexp.MustCompile(`(W)(W)G?P*(N)`)
	longSide   = regexp.MustCompile(`yG?P*(N)`)
	shortSide  = regexp.MustCompile(`YG?P*(N)`)
)
