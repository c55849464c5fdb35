package shell

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/speech"
	"strapline/grammar/topic"
)

var (
	wideDeep  = regexp.MustCompile(`(N)i*[IoJ]?x(N)i*[HjUJ]?`)
	deepBy    = regexp.MustCompile(`(N)i*J`)
	lowAt     = regexp.MustCompile(`w[PVHy]*(W)?[PVHy]*(N)i*H?`)
	atLow     = regexp.MustCompile(`(N)i*[HJ]?(w)`)
	flatAt    = regexp.MustCompile(`h[PVHC]*(N)i*H?|C[PVH]*(N)i*H?|(N)i*H?h`)
	comesDown = regexp.MustCompile(`[UjVl]T(?:N|_)`)
	flatWide  = regexp.MustCompile(`h[PVHM]*(N)i*I|hI[PV]*(N)`)
	bothSides = regexp.MustCompile(`(?i)\b(?:both|each|either) (?:(?:of )?the )?(?:(long|short) )?(?:sides?|walls?)\b`)
	upRafter  = regexp.MustCompile(`(?i)\brafters?\b|\bup the slope\b|\d['"a-z ]* long\b`)
	itsBoard  = regexp.MustCompile(`(N)i*f+`)
	reaching  = regexp.MustCompile(`o2?(N)`)
)

// boxing is a bulkhead, or a beam: how wide, how far down, and along which wall or how far off one.
func (l *line) boxing() []Guess {
	boxed := l.Has("k")
	if l.Has("S") && l.Has("I") && l.Has("jU") && !slices.ContainsFunc(l.Items, func(it speech.Item) bool { return it.Tag == speech.Service && it.Text != "duct run" }) { // so wide and so far down: it is boxed in
		l.Settle("S")
	}
	if !l.Has("k") && !(l.Has("I") && l.Has("jU") && !l.Has("KCl")) || l.Has("Z") || slices.ContainsFunc(l.Items, func(it speech.Item) bool { return topic.RoomNoun[it.Low] }) || l.Changes() || len(l.Left(speech.Service)) > 0 && !slices.ContainsFunc(l.Items, func(it speech.Item) bool { return it.Tag == 'k' && strings.Contains(it.Low, "box") }) {
		return nil
	}
	if m := l.Take(itsBoard); m != nil { // what goes on it
		l.Rest = true
	}
	for _, p := range l.Pieces[l.Begin:] {
		if boxed && (p.Low == "corner" || p.Low == "around") { // a box round something: no place for that
			return []Guess{{Keep: true}}
		}
	}
	wide, drop := "", ""
	if m := wideDeep.FindSubmatchIndex(l.Tags); m != nil {
		l.Use(m[0], m[1])
		wide, drop = l.Said(m[2]), l.Said(m[4])
	}
	if drop == "" {
		drop = l.measureOf("jHU")
	}
	if wide == "" {
		wide = l.measureOf("Io")
	}
	for m := l.Take(deepBy); m != nil; m = l.Take(deepBy) { // "14 deep, drops 12": out from the wall; "24 wide, 10 deep": down
		switch {
		case wide == "" && drop != "":
			wide = l.Said(m[0])
		case drop == "":
			drop = l.Said(m[0])
		default:
			return nil
		}
	}
	fars, middle := l.Fars(), len(l.Left('M')) > 0
	run, on := "", place.Wall("")
	for i, t := range l.Tags {
		switch t {
		case speech.Direction:
			run, l.Tags[i] = l.Said(i), speech.Used
		case speech.Wall:
			on, l.Tags[i] = l.WallAt(i), speech.Used
		case 'M', 'k', 'C', 'A':
			l.Tags[i] = speech.Used
		}
	}
	if len(l.Left(speech.Length)) > 0 || wide == "" && drop == "" {
		return nil
	}
	switch {
	case (wide == "" || drop == "") && boxed && l.Of == "several":
		return []Guess{{Keep: true}}
	case boxed && (wide == "" || drop == ""):
		if l.Lost() > 0 || strings.Contains(lex.Lower(l.Read), "header") { // of a door
			return []Guess{{Keep: true}}
		}
		where := ""
		switch {
		case len(fars) == 1:
			where = ", " + fars[0].String()
		case on != "":
			where = " along " + string(on)
		case middle:
			where = strings.TrimRight(" in the middle "+run, " ")
		}
		if drop == "" {
			return []Guess{{Asks: wide + " wide: how far does it come down from the ceiling?", Base: grammar.InRoom(l.Of, "bulkhead"+where+", wide "+wide+", drop"), Either: true}}
		}
		return []Guess{{Asks: drop + " down: how wide is it?", Base: grammar.InRoom(l.Of, "bulkhead"+where+", drop "+drop+", wide"), Either: true}}
	case wide == "" || drop == "" || !boxed && (on == "" || l.Lost() > 0):
		return nil
	}
	l.Doubt = l.Doubt || !boxed
	head := "bulkhead " + wide + " x " + drop
	if len(fars) == 1 && on == fars[0].Wall { // "its west side is 9'2 off the west wall"
		on = ""
	}
	switch {
	case len(fars) == 1 && on == "" && (run == "" || (run == "ns") == fars[0].Wall.EastWest()):
		return l.Guesses([]string{head + ", " + fars[0].String()})
	case len(fars) == 0 && on != "" && !middle:
		return l.Guesses([]string{head + " along " + string(on)})
	case len(fars) == 0 && middle && on == "":
		return l.midway(head, wide, run)
	case len(fars) == 0 && on == "" && !middle: // along which wall?
		var texts []string
		for _, w := range place.Walls {
			if run == "" || (run == "ns") == w.EastWest() {
				texts = append(texts, head+" along "+string(w))
			}
		}
		all := l.Guesses(texts)
		for i, text := range texts {
			all[i].Label = text[strings.LastIndexByte(text, ' ')+1:]
		}
		all[0].Asks = "along which wall? If off one: `" + head + ", 60 off north`"
		return all
	}
	return nil
}

// measureOf takes the number that belongs to a word with one of the tags: the one behind a verb, "drops 10", else the one
// before it in its clause, "10 down", or behind it.
func (l *line) measureOf(tags string) string {
	for i, t := range l.Tags {
		if strings.IndexByte(tags, t) < 0 {
			continue
		}
		before, behind := i-1, i+1
		for before >= 0 && l.Tags[before] == 'i' {
			before--
		}
		for behind < len(l.Tags) && strings.IndexByte("jTVP", l.Tags[behind]) >= 0 {
			behind++
		}
		verb, _, _ := strings.Cut(l.Items[i].Low, " ")
		apart := before < 0 || strings.ContainsAny(l.Read[l.end(before):l.Items[i].At], ",;") || strings.Contains(l.Read[l.end(before):l.Items[i].At], "and ")
		at, next := -1, behind < len(l.Tags) && l.Tags[behind] == speech.Length
		switch {
		case next && (apart || strings.HasSuffix(verb, "s") || before >= 0 && l.Tags[before] == 'V'): // drops 10, comes out 14
			at = behind
		case !apart && l.Tags[before] == speech.Length:
			at = before
		case next:
			at = behind
		}
		if at >= 0 {
			l.Use(min(at, i), max(at, i)+1)
			return l.Said(at)
		}
	}
	return ""
}

// midway is a beam down the middle of the room, if its sides are known.
func (l *line) midway(head, wide, run string) []Guess {
	var texts []string
	for _, w := range []place.Wall{place.North, place.West} {
		side := l.NS
		if w.EastWest() {
			side = l.EW
		}
		half := side/2 - l.LengthOf(wide)/2
		if run != "" && (run == "ns") != w.EastWest() || half <= 0 || l.LengthOf(wide) == 0 {
			continue
		}
		texts = append(texts, fmt.Sprintf("%s, %s off %s", head, length.Canon(half), w))
	}
	l.Doubt = true // the middle is worked out
	return l.Guesses(texts)
}

// slopes is a ceiling that comes down to a wall, or to two opposite each other with a flat part between: from its height
// where it is flat to that of the knee wall.
func (l *line) slopes() []Guess {
	if !l.Has("lw") && !(l.Has("C") && comesDown.Match(l.Tags)) || l.Has("SZRKk") || l.Changes() {
		return nil
	}
	if falls := l.falls(); falls != "" { // "vaulted from 8 at the south wall up to 12 at the north"
		_, slope, _ := strings.Cut(falls, ", ")
		l.Settle("lwhCTxHF")
		return l.Guesses([]string{slope})
	}
	both := bothSides.FindStringSubmatch(l.Read)
	if both == nil && upRafter.MatchString(l.Read) { // a length up the slope is none of its heights
		return nil
	}
	take := func(p *regexp.Regexp) string {
		if m := l.Take(p); m != nil {
			return l.Said(slices.Max(m))
		}
		return ""
	}
	over, flat := take(reaching), take(flatWide)
	low, walls := l.low()
	high := take(flatAt)
	for i, t := range l.Tags {
		if t == speech.Wall && (len(walls) == 0 || len(walls) == 1 && l.WallAt(i) != walls[0] && len(l.Left(speech.Wall)) == 1) { // north and south
			walls, l.Tags[i] = append(walls, l.WallAt(i)), speech.Used
		}
	}
	free := l.Left(speech.Length)
	switch {
	case both != nil && len(free) > 0:
		return nil
	case low == "" && high == "" && (len(free) == 2 || len(free) == 3 && over == "") && l.Has("TO"):
		if len(free) == 3 { // "in 6'"
			over = l.Said(free[2])
		}
		if high, low = l.Said(free[0]), l.Said(free[1]); l.LengthOf(high) < l.LengthOf(low) {
			return nil // up to where?
		}
	case low == "" && high != "" && len(free) == 1:
		low = l.Said(free[0])
	case low == "" && high == "" && len(free) == 1 && (walls != nil && over != "" || comesDown.Match(l.Tags)):
		low = l.Said(free[0])
	case len(free) > 0:
		return nil
	}
	for _, i := range free {
		l.Tags[i] = speech.Used
	}
	if l.LengthOf(low) > 20*length.Inch || both != nil {
		high, low = l.feet(high), l.feet(low) // 8 beside 4 foot
	}
	if h := l.LengthOf(l.feet(high)); h > 0 && h < 75*length.Inch && l.Has("IM") { // "flat 5' wide": that is no height
		return nil
	}
	if low == "" || high != "" && l.LengthOf(low) >= l.LengthOf(high) || high == "" && walls == nil && both == nil || len(l.Left(speech.Wall)) > 0 {
		return nil
	}
	l.Settle("lwhCTxHFIM")
	sets := [][]place.Wall{walls}
	switch {
	case walls != nil:
	case both == nil:
		sets = [][]place.Wall{{place.North}, {place.East}, {place.South}, {place.West}}
	case l.EW == 0:
		return []Guess{{Worked: true, Asks: "slopes on two sides of which room? e.g. `loft 18' x 13'`", Base: "room"}}
	case over+flat == "":
		base := "slope both " + lex.Lower(both[1]) + " sides, low wall " + low + ", flat width"
		return []Guess{{Asks: "down to " + low + " on two sides: how wide is the flat between them?", Base: strings.Join(strings.Fields(base), " ")}}
	default:
		sets = [][]place.Wall{{place.North, place.South}, {place.West, place.East}} // to the long walls first
		if l.NS > l.EW {
			slices.Reverse(sets)
		}
		if at := map[string]int{"long": 0, "short": 1}; both[1] != "" {
			sets = sets[at[lex.Lower(both[1])]:][:1]
		}
	}
	var texts []string
	for _, set := range sets {
		reach := over
		if flat != "" {
			deep := (set[0].Deep(l.EW, l.NS) - l.LengthOf(l.feet(flat))) / length.Length(len(set))
			reach = length.Canon(max(deep, 0))
		}
		text := ""
		for _, w := range set {
			text += canon.Say("slope", w, high, "to", low, canon.Some("over", reach)) + "\n"
		}
		texts = append(texts, strings.TrimSpace(text))
	}
	l.Doubt = l.Doubt || over == "" // all the way to the wall opposite?
	all := l.Guesses(texts)
	all[0].Worked, all[0].Either = flat != "", both != nil && l.Opens("slope") // the question for the flat is answered
	if len(sets) > 1 && both == nil {
		all[0].Asks = "down to which wall?"
	}
	return all
}

// low takes the height of a low wall, and which wall that is.
func (l *line) low() (said string, on []place.Wall) {
	if m := atLow.FindSubmatchIndex(l.Tags); m != nil && l.Items[m[4]].Sep == 0 {
		l.Use(m[0], m[1])
		return l.Said(m[2]), nil
	}
	if m := l.Take(lowAt); m != nil {
		if said = l.Said(m[1]); m[0] >= 0 {
			on = []place.Wall{l.WallAt(m[0])}
		}
	}
	return said, on
}
