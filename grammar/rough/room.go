package rough

import (
	"cmp"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
	"strapline/grammar/speech"
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

// boardUp is a ceiling that is up: a second thing that is told.
var boardUp = regexp.MustCompile(`(?i)\b(?:lid|ceiling)(?:'?s| is| all| was| got| already)* (?:up|hung|on|closed|closed up|boarded|in|done|finished)(?:$|[,.;]| (?:already|now|too|and|but|except|bar)\b)`)

// roomSized is a room: its name, its sides and its height.
func (l *line) roomSized() []Guess {
	if l.Has("SKkwZ") || boardUp.MatchString(l.Text) || offRoom.Match(l.Tags) || l.Changes("scratch") { // "scratch that 9'6 x 8"
		return nil
	}
	name := l.roomName()
	if name == "" || l.Rooms[strings.TrimRight(name, ",")] != "" && !slices.Contains(l.Opening, strings.TrimRight(name, ",")) { // it is measured again
		return nil
	}
	if l.Misheard() {
		return nil
	}
	ew, ns := l.sides()
	if ew == "" {
		ew, ns = l.byWalls()
	}
	if ew == "" {
		return nil
	}
	if roomSides.Match(l.Tags) && len(l.Left(speech.Room)) > 0 && !l.Has("p") { // another room
		return nil
	}
	height, falls := "", l.falls()
	if m := l.Take(tall); m != nil {
		height = l.Said(max(m[0], m[1]))
	}
	unread := false // a word that its rule would read
	for i, t := range l.Tags {
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
	texts := []string{"room " + name + " " + ew + " x " + ns + falls}
	if l.Doubt {
		texts, l.Doubt = []string{"room " + name + " " + ns + " x " + ew + falls, texts[0]}, false
	}
	return l.Guesses(texts)
}

// height is that of the ceiling.
func (l *line) height() []Guess {
	if l.Has("SKkwRWlZDx") || !l.Has("C") || boardUp.MatchString(l.Text) || l.Changes() || slices.ContainsFunc(l.Pieces, func(p lex.Piece) bool { return pieces[p.Low] }) {
		return nil
	}
	m := l.Take(tall)
	if m == nil {
		return nil
	}
	if other := l.Left(speech.Length); len(other) == 1 && l.Has("H") { // at another spot
		l.Tags[other[0]], l.Rest = speech.Used, true
		all := l.Guesses([]string{"ceiling height " + l.Said(max(m[0], m[1])), "ceiling height " + l.Said(other[0])})
		all[0].Asks = "which is the height to go by? Both are kept as said"
		return all
	} else if len(other) > 0 {
		return nil
	}
	return l.Guesses([]string{"ceiling height " + l.Said(max(m[0], m[1]))})
}

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

// feet returns a height with its unit: 8 is 8 feet.
func (l *line) feet(said string) string {
	if n := speech.Whole(said); n > 0 && n <= 20 && l.Units == length.Imperial {
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
	if m := roomSides.FindSubmatchIndex(l.Tags); m != nil {
		feet := func(at, inches int) string { // "13 4 1/2": the number before it is its feet, or the one behind it its inches
			if at >= 0 && inches < len(l.Tags) && l.Tags[at] == 'N' && l.Tags[inches] == 'N' && l.Items[inches].Sep == 0 && strings.Trim(l.Said(at), "0123456789") == "" {
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
	if wide, long := sideWide.FindSubmatchIndex(l.Tags), sideLong.FindSubmatchIndex(l.Tags); wide != nil && long != nil {
		ew, ns = l.Said(wide[2]), l.Said(long[2])
		l.Use(wide[0], wide[1])
		l.Use(long[0], long[1])
		l.Doubt = l.Items[long[4]].Tag == 'y' && !l.Has("D")
		return l.turned(ew, ns)
	}
	if m := sideRun.FindSubmatchIndex(l.Tags); m != nil { // "11 ft 3 north to south and 12 ft 1 the other way"
		free := l.Left(speech.Length)
		if len(free) != 2 {
			return "", ""
		}
		a, b := l.Said(m[2]), l.Said(free[0]+free[1]-m[2])
		l.Use(m[0], m[1])
		l.Tags[free[0]], l.Tags[free[1]] = speech.Used, speech.Used
		if l.Said(m[4]) == "ns" {
			a, b = b, a
		}
		return a, b
	}
	return "", ""
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
// at once. Of its long and its short walls it is not known which way they run.
func (l *line) byWalls() (ew, ns string) {
	side := map[place.Wall]string{}
	for _, m := range twoWalls.FindAllSubmatchIndex(l.Tags, -1) {
		if l.Items[m[4]].Sep == 0 { // "same as N, W 10'6" is not of both
			side[l.WallAt(m[2])], side[l.WallAt(m[4])] = l.Said(m[6]), l.Said(m[6])
			l.Use(m[0], m[1])
		}
	}
	if long, short := longSide.FindSubmatchIndex(l.Tags), shortSide.FindSubmatchIndex(l.Tags); long != nil && short != nil && len(side) == 0 {
		ew, ns = l.Said(long[2]), l.Said(short[2])
		l.Use(long[0], long[1])
		l.Use(short[0], short[1])
		l.Doubt = !l.Has("D")
		return l.turned(ew, ns)
	}
	for m := l.Take(besideWall); m != nil; m = l.Take(besideWall) {
		side[l.WallAt(m[0])] = l.Said(m[1])
	}
	for m := l.Take(sameAs); m != nil; m = l.Take(sameAs) {
		side[l.WallAt(m[0])] = side[l.WallAt(m[1])]
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
		n := speech.Whole(p.Low)
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
		case storeys[p.Low] && (len(name) > 0 || speech.Whole(next) > 0 && !strings.HasPrefix(next, "0")):
			noun = noun || p.Low == "room" && (len(name) > 0 || speech.Whole(next) > 0)
		case tellsApart[p.Low] || topic.BesideRoom[p.Low]:
		case n > 0 && n < 100 && len(name) > 0 && (storeys[before] || topic.RoomNoun[before]) && l.numbersRoom(k):
			l.spelt = l.spelt || p.Word()
			p.Low = strconv.Itoa(n)
		case len(p.Low) == 1 && "a" <= p.Low && p.Low <= "f" && topic.RoomNoun[before] && (next == "," || next == ":"): // bed a
		case len(name) == 0 && !noun, (p.Low == "number" || p.Low == "no" || p.Low == "#") && speech.Whole(next) > 0:
			continue
		case lex.Filler[p.Low] && len(name) == 2 && name[1] == "room" && lex.Ordinal[name[0]] > 0, len(name) == 1 && (name[0] == "rm" || name[0] == "room"): // "first room is the bathroom"
			name, noun, from = nil, false, -1
			continue
		default:
			goto done
		}
		if len(name) == 1 && (name[0] == "rm" || name[0] == "room") && speech.Whole(p.Low) == 0 { // "rm office"
			name, from = nil, -1
		}
		if from < 0 {
			from = k
		}
		name, end = append(name, p.Low), k+1
	}
done:
	for len(name) > 0 && !topic.RoomNoun[name[len(name)-1]] && !storeys[name[len(name)-1]] && speech.Whole(name[len(name)-1]) == 0 && len(name[len(name)-1]) > 1 {
		name, end = name[:len(name)-1], end-1
	}
	if !noun || len(name) == 0 || len(name) > lex.MostWords {
		return ""
	}
	for i, it := range l.Items {
		if it.At >= l.Pieces[from].Start && it.At < l.Pieces[end-1].End {
			l.Tags[i] = speech.Used
		}
	}
	said := strings.Join(name, " ")
	if speech.Whole(name[len(name)-1]) > 0 {
		said += ","
	}
	return said
}

// leastFeet is the least number of feet with inches behind it that is not the number of a room.
const leastFeet = 7

// numbersRoom reports whether the number at piece k is that of a room, and not the first side.
func (l *line) numbersRoom(k int) bool {
	i := slices.IndexFunc(l.Items, func(it speech.Item) bool { return it.At == l.Pieces[k].Start })
	if i < 0 || l.Items[i].Tag != speech.Length {
		return true
	}
	next := speech.Item{}
	if i+1 < len(l.Items) {
		next = l.Items[i+1]
	}
	if next.Tag == speech.Length && next.Sep == 0 && l.Items[i].N >= leastFeet { // "den 13 4 1/2 by 11 9"
		return false
	}
	return l.Items[i].N > 0 && (next.Tag == speech.Length || next.Tag == speech.Room || next.Sep == ',')
}
