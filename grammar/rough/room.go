package rough

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
	"strapline/grammar/topic"
)

var (
	offRoom   = regexp.MustCompile(`O[WR]`) // "off the kitchen wall" opens no kitchen
	roomSides = regexp.MustCompile(`(N)i*(D?)x(N)i*(D?)`)
	sideWide  = regexp.MustCompile(`(N)i*[IA]`)
	sideLong  = regexp.MustCompile(`(N)i*([yJ])`)
	longWay   = regexp.MustCompile(`([yY])?V*(D)`)
	sideRun   = regexp.MustCompile(`(N)[PVOT]*(D)`)
	tall      = regexp.MustCompile(`x?P?(N)[TP]*[HCG]+|[HC]+[PVTHC]*(N)[HC]?`)
)

// roomSized is a room: its name, its sides and its height.
func (l *line) roomSized() []Guess {
	if l.has("SKkwZ") || offRoom.Match(l.tags) || l.changes("scratch") { // "scratch that 9'6 x 8"
		return nil
	}
	name := l.roomName()
	if name == "" || l.Rooms[strings.TrimRight(name, ",")] != "" && !slices.Contains(l.Opening, strings.TrimRight(name, ",")) { // it is measured again
		return nil
	}
	if l.misheard() {
		return nil
	}
	ew, ns := l.sides()
	if ew == "" {
		ew, ns = l.byWalls()
	}
	if ew == "" {
		return nil
	}
	if roomSides.Match(l.tags) && len(l.left(room)) > 0 && !l.has("p") { // another room
		return nil
	}
	height, falls := "", l.falls()
	if m := l.take(tall); m != nil {
		height = l.said(max(m[0], m[1]))
	}
	unread := false // a word that its rule would read
	for i, t := range l.tags {
		unread = unread || strings.IndexByte("?HTx", t) >= 0
		if strings.IndexByte("PVTxHCyJIG", t) >= 0 {
			l.tags[i] = used
		}
	}
	if len(l.left(length_)) > 0 || l.has("pl") || len(l.left(wall)) > 0 {
		l.rest = true
	}
	if l.Cmd != nil && !l.spelt && (l.rest || unread || l.lost() > 0) {
		return nil // its rule says what is wrong
	}
	if height != "" {
		falls = " high " + height + falls
	}
	texts := []string{"room " + name + " " + ew + " x " + ns + falls}
	if l.doubt {
		texts, l.doubt = []string{"room " + name + " " + ns + " x " + ew + falls, texts[0]}, false
	}
	return l.guesses(texts)
}

// height is that of the ceiling.
func (l *line) height() []Guess {
	if l.has("SKkwRWlZD") || !l.has("C") || l.changes() {
		return nil
	}
	m := l.take(tall)
	if m == nil {
		return nil
	}
	if other := l.left(length_); len(other) == 1 { // at another spot
		l.tags[other[0]], l.rest = used, true
		all := l.guesses([]string{"ceiling height " + l.said(max(m[0], m[1])), "ceiling height " + l.said(other[0])})
		all[0].Asks = "which is the height to go by? Both are kept as said"
		return all
	} else if len(other) > 0 {
		return nil
	}
	return l.guesses([]string{"ceiling height " + l.said(max(m[0], m[1]))})
}

// twoHeights is the height at two walls.
var twoHeights = regexp.MustCompile(`(N)H?P*(W)[TVO]*(N)H?P*(W)`)

// falls is a ceiling that falls from one wall to the one opposite, as words for the end of a room's line.
func (l *line) falls() string {
	m := twoHeights.FindSubmatchIndex(l.tags)
	if m == nil || !l.has("CHl") || l.wall(m[4]).Opposite() != l.wall(m[8]) {
		return ""
	}
	high, low, on := l.feet(l.said(m[2])), l.feet(l.said(m[6])), l.wall(m[8])
	if l.length(high) < l.length(low) {
		high, low, on = low, high, l.wall(m[4])
	}
	l.use(m[0], m[1])
	return " high " + high + ", slope " + string(on) + " " + high + " to " + low
}

// feet returns a height with its unit: 8 is 8 feet.
func (l *line) feet(said string) string {
	if n := whole(said); n > 0 && n <= 20 && l.Units == length.Imperial {
		return said + "'"
	}
	return said
}

// unitOf matches the unit of a length.
var unitOf = regexp.MustCompile(`\d\s*(mm|cm|m|metres|meters|ft|feet|foot|inches)$`)

// shared gives a bare side the unit of the other: "3.4 by 4.1 m".
func shared(a, b string) (string, string) {
	if m := unitOf.FindStringSubmatch(b); m != nil && strings.Trim(a, "0123456789.") == "" && a != "" {
		a += " " + m[1]
	}
	return a, b
}

// sides takes the sides of a room: with an x between, wide and long, or by the way they run.
func (l *line) sides() (ew, ns string) {
	if m := roomSides.FindSubmatchIndex(l.tags); m != nil {
		ew, ns = shared(l.said(m[2]), l.said(m[6]))
		first, second := "", ""
		if m[4] < m[5] {
			first = l.said(m[4])
		}
		if m[8] < m[9] {
			second = l.said(m[8])
		}
		l.use(m[0], m[1])
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
	if wide, long := sideWide.FindSubmatchIndex(l.tags), sideLong.FindSubmatchIndex(l.tags); wide != nil && long != nil {
		ew, ns = l.said(wide[2]), l.said(long[2])
		l.use(wide[0], wide[1])
		l.use(long[0], long[1])
		l.doubt = l.items[long[4]].tag == 'y' && !l.has("D")
		return l.turned(ew, ns)
	}
	if m := sideRun.FindSubmatchIndex(l.tags); m != nil { // "11 ft 3 north to south and 12 ft 1 the other way"
		free := l.left(length_)
		if len(free) != 2 {
			return "", ""
		}
		a, b := l.said(m[2]), l.said(free[0]+free[1]-m[2])
		l.use(m[0], m[1])
		l.tags[free[0]], l.tags[free[1]] = used, used
		if l.said(m[4]) == "ns" {
			a, b = b, a
		}
		return a, b
	}
	return "", ""
}

// turned returns the sides with the east-west one first, if it was said which way the long one runs.
func (l *line) turned(a, b string) (ew, ns string) {
	m := longWay.FindSubmatchIndex(l.tags)
	if m == nil || l.length(a) == 0 || l.length(b) == 0 {
		return a, b
	}
	l.use(m[0], m[1])
	short := m[2] >= 0 && l.items[m[2]].tag == 'Y'
	if (l.length(a) > l.length(b)) != ((l.said(m[4]) == "ew") != short) {
		a, b = b, a
	}
	return a, b
}

// sameAs is a wall that is as long as another.
var sameAs = regexp.MustCompile(`(W)s(W)`)

// byWalls takes the sides of a room by its walls: "walls N 12'2, E 10'6, S same as N, W 10'6", or by two of them
// at once. Of its long and its short walls it is not known which way they run.
func (l *line) byWalls() (ew, ns string) {
	side := map[place.Wall]string{}
	for _, m := range twoWalls.FindAllSubmatchIndex(l.tags, -1) {
		if l.items[m[4]].sep == 0 { // "same as N, W 10'6" is not of both
			side[l.wall(m[2])], side[l.wall(m[4])] = l.said(m[6]), l.said(m[6])
			l.use(m[0], m[1])
		}
	}
	if long, short := longSide.FindSubmatchIndex(l.tags), shortSide.FindSubmatchIndex(l.tags); long != nil && short != nil && len(side) == 0 {
		ew, ns = l.said(long[2]), l.said(short[2])
		l.use(long[0], long[1])
		l.use(short[0], short[1])
		l.doubt = !l.has("D")
		return l.turned(ew, ns)
	}
	for m := l.take(besideWall); m != nil; m = l.take(besideWall) {
		side[l.wall(m[0])] = l.said(m[1])
	}
	for m := l.take(sameAs); m != nil; m = l.take(sameAs) {
		side[l.wall(m[0])] = side[l.wall(m[1])]
	}
	if len(side) != 4 || side[place.North] != side[place.South] || side[place.East] != side[place.West] {
		return "", ""
	}
	return side[place.North], side[place.East]
}

var (
	besideWall = regexp.MustCompile(`(W)G?(N)`)
	twoWalls   = regexp.MustCompile(`(W)(W)G?P*(N)`)
	longSide   = regexp.MustCompile(`yG?P*(N)`)
	shortSide  = regexp.MustCompile(`YG?P*(N)`)
)

// tellsApart are words that may come before what a room is, and parts of its name.
var tellsApart = lex.Set(strings.Fields("first second third fourth ground top main upper lower front back north south east west big small little new old spare guest rear middle left right master kids boys girls side great rec")...)

// storeys are what an ordinal or a number before a room is of.
var storeys = lex.Set("floor", "unit", "apt", "apartment", "suite", "flat", "storey", "story", "level", "room", "condo", "lot", "building", "block", "house", "plot")

// roomName takes the name of a room: words for rooms, what tells them apart, a floor or a unit, and a
// number. It is not in the line's own items, because other rules have a use for many of these words.
func (l *line) roomName() string {
	var name []string
	noun, from := false, -1
	end := 0
	for k := l.Begin; k < len(l.Pieces); k++ {
		p := l.Pieces[k]
		p.Low = strings.TrimSuffix(p.Low, "'s") // "bath's 8 x 5"
		n := whole(p.Low)
		var before, next string
		if k > l.Begin {
			before = strings.TrimSuffix(l.Pieces[k-1].Low, ".")
			if k > l.Begin+1 && (before == "number" || before == "no" || before == "#") {
				before = l.Pieces[k-2].Low
			}
		}
		if k+1 < len(l.Pieces) {
			next = l.Pieces[k+1].Low
			if k+2 < len(l.Pieces) && (next == "number" || next == "no" || next == "#") {
				next = l.Pieces[k+2].Low
			}
		}
		switch {
		case topic.RoomNoun[p.Low]:
			noun = true
		case storeys[p.Low] && (len(name) > 0 || whole(next) > 0 && !strings.HasPrefix(next, "0")):
			noun = noun || p.Low == "room" && (len(name) > 0 || whole(next) > 0)
		case tellsApart[p.Low] || topic.BesideRoom[p.Low]:
		case n > 0 && n < 100 && len(name) > 0 && (storeys[before] || topic.RoomNoun[before]) && l.numbersRoom(k):
			l.spelt = l.spelt || p.Word()
			p.Low = strconv.Itoa(n)
		case len(p.Low) == 1 && "a" <= p.Low && p.Low <= "f" && topic.RoomNoun[before] && (next == "," || next == ":"): // bed a
		case len(name) == 0 && !noun, (p.Low == "number" || p.Low == "no" || p.Low == "#") && whole(next) > 0:
			continue
		case lex.Filler[p.Low] && len(name) == 2 && name[1] == "room" && lex.Ordinal[name[0]] > 0, len(name) == 1 && (name[0] == "rm" || name[0] == "room"): // "first room is the bathroom"
			name, noun, from = nil, false, -1
			continue
		default:
			goto done
		}
		if len(name) == 1 && (name[0] == "rm" || name[0] == "room") && whole(p.Low) == 0 { // "rm office"
			name, from = nil, -1
		}
		if from < 0 {
			from = k
		}
		name, end = append(name, p.Low), k+1
	}
done:
	for len(name) > 0 && !topic.RoomNoun[name[len(name)-1]] && !storeys[name[len(name)-1]] && whole(name[len(name)-1]) == 0 && len(name[len(name)-1]) > 1 {
		name, end = name[:len(name)-1], end-1
	}
	if !noun || len(name) == 0 || len(name) > lex.MostWords {
		return ""
	}
	for i, it := range l.items {
		if it.at >= l.Pieces[from].Start && it.at < l.Pieces[end-1].End {
			l.tags[i] = used
		}
	}
	said := strings.Join(name, " ")
	if whole(name[len(name)-1]) > 0 {
		said += ","
	}
	return said
}

// numbersRoom reports whether the number at piece k is that of a room, and not the first side.
func (l *line) numbersRoom(k int) bool {
	i := slices.IndexFunc(l.items, func(it item) bool { return it.at == l.Pieces[k].Start })
	if i < 0 || l.items[i].tag != length_ {
		return true
	}
	next := item{}
	if i+1 < len(l.items) {
		next = l.items[i+1]
	}
	return l.items[i].n > 0 && (next.tag == length_ || next.tag == room || next.sep == ',')
}
