package shell

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/speech"
)

var (
	wideDeep  = regexp.MustCompile(`(N)i*[IoJ]?x(N)i*[HjUJ]?`)
	wideBy    = regexp.MustCompile(`(N)i*[Io]|[Io](N)`)
	dropBy    = regexp.MustCompile(`(N)i*(?:j|H|U)|[jHU][jTVP]*(N)`)
	deepBy    = regexp.MustCompile(`(N)i*J`)
	lowAt     = regexp.MustCompile(`w[PVHy]*(W)?[PVHy]*(N)i*H?|(N)i*[HJ]?w`)
	flatAt    = regexp.MustCompile(`h[PVHC]*(N)i*H?|C[PVH]*(N)i*H?|(N)i*H?h`)
	comesDown = regexp.MustCompile(`[UjVl]T(?:N|_)`)
	upRafter  = regexp.MustCompile(`(?i)\b(?:each|either|both) sides?\b|\brafters?\b|\bup the slope\b|\d['"a-z ]* long\b`)
	reaching  = regexp.MustCompile(`o2?(N)`)
)

// boxing is a bulkhead, or a beam: how wide, how far down, and along which wall or how far off one.
func (l *line) boxing() []Guess {
	if !l.Has("k") && !(l.Has("I") && l.Has("j") && !l.Has("SKCl")) || l.Has("ZR") || l.Changes() || l.Has("S") && !slices.ContainsFunc(l.Items, func(it speech.Item) bool { return it.Tag == 'k' && strings.Contains(it.Low, "box") }) {
		return nil
	}
	boxed := l.Has("k")
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
	if wide == "" {
		if m := l.Take(wideBy); m != nil {
			wide = l.Said(max(m[0], m[1]))
		}
	}
	if drop == "" {
		if m := l.Take(dropBy); m != nil {
			drop = l.Said(max(m[0], m[1]))
		}
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
	case (wide == "" || drop == "") && boxed:
		return []Guess{{Keep: true}}
	case wide == "" || drop == "" || !boxed && (on == "" || l.Lost() > 0):
		return nil
	}
	l.Doubt = l.Doubt || !boxed
	head := "bulkhead " + wide + " x " + drop
	if len(fars) == 1 && on == fars[0].Wall { // "its west side is 9'2 off the west wall"
		on = ""
	}
	switch {
	case len(fars) == 1 && on == "" && (run == "" || (run == "ns") == speech.EastWest(fars[0].Wall)):
		return l.Guesses([]string{head + ", " + fars[0].String()})
	case len(fars) == 0 && on != "" && !middle:
		return l.Guesses([]string{head + " along " + string(on)})
	case len(fars) == 0 && middle && on == "":
		return l.midway(head, wide, run)
	case len(fars) == 0 && on == "" && !middle: // along which wall?
		var texts []string
		for _, w := range place.Walls {
			if run == "" || (run == "ns") == speech.EastWest(w) {
				texts = append(texts, head+" along "+string(w))
			}
		}
		all := l.Guesses(texts)
		all[0].Asks = "along which wall? If off one: `" + head + ", 60 off north`"
		return all
	}
	return nil
}

// midway is a beam down the middle of the room, if its sides are known.
func (l *line) midway(head, wide, run string) []Guess {
	var texts []string
	for _, w := range []place.Wall{place.North, place.West} {
		side := l.NS
		if speech.EastWest(w) {
			side = l.EW
		}
		half := side/2 - l.LengthOf(wide)/2
		if run != "" && (run == "ns") != speech.EastWest(w) || half <= 0 || l.LengthOf(wide) == 0 {
			continue
		}
		texts = append(texts, fmt.Sprintf("%s, %s off %s", head, length.Canon(half), w))
	}
	l.Doubt = true // the middle is worked out
	return l.Guesses(texts)
}

// slopes is a ceiling that comes down to a wall: from its height where it is flat to that of the knee wall.
func (l *line) slopes() []Guess {
	if !l.Has("lw") && !(l.Has("C") && comesDown.Match(l.Tags)) || l.Has("SZRKk") || l.Changes() {
		return nil
	}
	if falls := l.falls(); falls != "" { // "vaulted from 8 at the south wall up to 12 at the north"
		_, slope, _ := strings.Cut(falls, ", ")
		l.Settle("lwhCTxHF")
		return l.Guesses([]string{slope})
	}
	if upRafter.MatchString(l.Read) { // a length up the slope is none of its heights
		return nil
	}
	over, low, high := "", "", ""
	if m := l.Take(reaching); m != nil {
		over = l.Said(m[0])
	}
	on := place.Wall("")
	if m := l.Take(lowAt); m != nil {
		if low = l.Said(max(m[1], m[2])); m[0] >= 0 {
			on = l.WallAt(m[0])
		}
	}
	if m := l.Take(flatAt); m != nil {
		high = l.Said(max(m[0], m[1], m[2]))
	}
	for i, t := range l.Tags {
		if t == speech.Wall && on == "" {
			on, l.Tags[i] = l.WallAt(i), speech.Used
		}
	}
	both := l.Left(speech.Wall)
	if len(both) == 1 && on != "" && l.WallAt(both[0]) != on { // north and south
		l.Tags[both[0]] = speech.Used
	} else {
		both = nil
	}
	free := l.Left(speech.Length)
	switch {
	case low == "" && high == "" && (len(free) == 2 || len(free) == 3 && over == "") && l.Has("TO"):
		if len(free) == 3 { // "in 6'"
			over = l.Said(free[2])
		}
		if high, low = l.Said(free[0]), l.Said(free[1]); l.LengthOf(high) < l.LengthOf(low) {
			return nil // up to where?
		}
	case low == "" && high != "" && len(free) == 1:
		low = l.Said(free[0])
	case low == "" && high == "" && len(free) == 1 && (on != "" && over != "" || comesDown.Match(l.Tags)):
		low = l.Said(free[0])
	case len(free) > 0:
		return nil
	}
	for _, i := range free {
		l.Tags[i] = speech.Used
	}
	if l.LengthOf(low) > 20*length.Inch {
		high = l.feet(high) // 8 beside 4 foot
	}
	if low == "" || high != "" && l.LengthOf(low) >= l.LengthOf(high) || high == "" && on == "" || len(l.Left(speech.Wall)) > 0 {
		return nil
	}
	l.Settle("lwhCTxHF")
	tail := strings.TrimSpace(high + " to " + low)
	if over != "" {
		tail += " over " + over
	}
	if on != "" {
		l.Doubt = l.Doubt || over == "" // all the way to the wall opposite?
		text := "slope " + string(on) + " " + tail
		for _, i := range both {
			text += "\nslope " + string(l.WallAt(i)) + " " + tail
		}
		return l.Guesses([]string{text})
	}
	var texts []string
	for _, w := range place.Walls {
		texts = append(texts, "slope "+string(w)+" "+tail)
	}
	all := l.Guesses(texts)
	all[0].Asks = "down to which wall?"
	return all
}
