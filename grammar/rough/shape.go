package rough

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
)

var (
	wideDeep  = regexp.MustCompile(`(N)x(N)`)
	wideBy    = regexp.MustCompile(`(N)i*[Io]|[Io](N)`)
	dropBy    = regexp.MustCompile(`(N)i*(?:j|H|U)|[jHU][jTVP]*(N)`)
	deepBy    = regexp.MustCompile(`(N)i*J`)
	lowAt     = regexp.MustCompile(`w[PVHy]*(W)?[PVHy]*(N)i*H?|(N)i*[HJ]?w`)
	flatAt    = regexp.MustCompile(`h[PVHC]*(N)i*H?|C[PVH]*(N)i*H?|(N)i*H?h`)
	comesDown = regexp.MustCompile(`[UjVl]T(?:N|_)`)
	within    = regexp.MustCompile(`NP(N)$`)
	reaching  = regexp.MustCompile(`o2?(N)`)
)

// boxing is a bulkhead, or a beam: how wide, how far down, and along which wall or how far off one.
func (l *line) boxing() []Guess {
	if !l.has("k") && !(l.has("I") && l.has("j") && !l.has("SKCl")) || l.has("ZR") || l.changes() || l.has("S") && !slices.ContainsFunc(l.items, func(it item) bool { return it.tag == 'k' && strings.Contains(it.low, "box") }) {
		return nil
	}
	boxed := l.has("k")
	for _, p := range l.Pieces[l.Begin:] {
		if boxed && (p.Low == "corner" || p.Low == "around") { // a box round something: no place for that
			return []Guess{{Keep: true}}
		}
	}
	wide, drop := "", ""
	if m := wideDeep.FindSubmatchIndex(l.tags); m != nil {
		l.use(m[0], m[1])
		wide, drop = l.said(m[2]), l.said(m[4])
	}
	if wide == "" {
		if m := l.take(wideBy); m != nil {
			wide = l.said(max(m[0], m[1]))
		}
	}
	if drop == "" {
		if m := l.take(dropBy); m != nil {
			drop = l.said(max(m[0], m[1]))
		}
	}
	for m := l.take(deepBy); m != nil; m = l.take(deepBy) { // "14 deep, drops 12": out from the wall; "24 wide, 10 deep": down
		switch {
		case wide == "" && drop != "":
			wide = l.said(m[0])
		case drop == "":
			drop = l.said(m[0])
		default:
			return nil
		}
	}
	fars, middle := l.fars(), len(l.left('M')) > 0
	run, on := "", place.Wall("")
	for i, t := range l.tags {
		switch t {
		case direction:
			run, l.tags[i] = l.said(i), used
		case wall:
			on, l.tags[i] = l.wall(i), used
		case 'M', 'k', 'C', 'A':
			l.tags[i] = used
		}
	}
	if len(l.left(length_)) > 0 || wide == "" && drop == "" {
		return nil
	}
	switch {
	case (wide == "" || drop == "") && boxed:
		return []Guess{{Keep: true}}
	case wide == "" || drop == "" || !boxed && (on == "" || l.lost() > 0):
		return nil
	}
	l.doubt = l.doubt || !boxed
	head := "bulkhead " + wide + " x " + drop
	if len(fars) == 1 && on == fars[0].wall { // "its west side is 9'2 off the west wall"
		on = ""
	}
	switch {
	case len(fars) == 1 && on == "" && (run == "" || (run == "ns") == eastWest(fars[0].wall)):
		return l.guesses([]string{head + ", " + fars[0].String()})
	case len(fars) == 0 && on != "" && !middle:
		return l.guesses([]string{head + " along " + string(on)})
	case len(fars) == 0 && middle && on == "":
		return l.midway(head, wide, run)
	case len(fars) == 0 && on == "" && !middle: // along which wall?
		var texts []string
		for _, w := range place.Walls {
			if run == "" || (run == "ns") == eastWest(w) {
				texts = append(texts, head+" along "+string(w))
			}
		}
		all := l.guesses(texts)
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
		if eastWest(w) {
			side = l.EW
		}
		half := side/2 - l.length(wide)/2
		if run != "" && (run == "ns") != eastWest(w) || half <= 0 || l.length(wide) == 0 {
			continue
		}
		texts = append(texts, fmt.Sprintf("%s, %s off %s", head, length.Canon(half), w))
	}
	l.doubt = true // the middle is worked out
	return l.guesses(texts)
}

// slopes is a ceiling that comes down to a wall: from its height where it is flat to that of the knee wall.
func (l *line) slopes() []Guess {
	if !l.has("lw") && !(l.has("C") && comesDown.Match(l.tags)) || l.has("SZRKk") || l.changes() {
		return nil
	}
	if falls := l.falls(); falls != "" { // "vaulted from 8 at the south wall up to 12 at the north"
		_, slope, _ := strings.Cut(falls, ", ")
		l.settle("lwhCTxHF")
		return l.guesses([]string{slope})
	}
	over, low, high := "", "", ""
	if m := l.take(within); m != nil {
		over = l.said(m[0])
	}
	if m := l.take(reaching); m != nil {
		over = l.said(m[0])
	}
	on := place.Wall("")
	if m := l.take(lowAt); m != nil {
		if low = l.said(max(m[1], m[2])); m[0] >= 0 {
			on = l.wall(m[0])
		}
	}
	if m := l.take(flatAt); m != nil {
		high = l.said(max(m[0], m[1], m[2]))
	}
	for i, t := range l.tags {
		if t == wall && on == "" {
			on, l.tags[i] = l.wall(i), used
		}
	}
	free := l.left(length_)
	switch {
	case low == "" && high == "" && (len(free) == 2 || len(free) == 3 && over == "") && l.has("TO"):
		if len(free) == 3 { // "in 6'"
			over = l.said(free[2])
		}
		if high, low = l.said(free[0]), l.said(free[1]); l.length(high) < l.length(low) {
			return nil // up to where?
		}
	case low != "" && high == "" && len(free) == 1 && l.length(l.said(free[0])) > l.length(low):
		high = l.said(free[0])
	case low != "" && high != "" && over == "" && len(free) == 1:
		over = l.said(free[0])
	case low == "" && high != "" && len(free) == 1:
		low = l.said(free[0])
	case low == "" && high == "" && len(free) == 1 && (on != "" && over != "" || comesDown.Match(l.tags)): // its top is asked for
		low = l.said(free[0])
	case len(free) > 0:
		return nil
	}
	for _, i := range free {
		l.tags[i] = used
	}
	if l.length(low) > 20*length.Inch {
		high = l.feet(high) // 8 beside 4 foot
	}
	if low == "" || high != "" && l.length(low) >= l.length(high) || high == "" && on == "" || len(l.left(wall)) > 0 {
		return nil
	}
	l.settle("lwhCTxHF")
	tail := strings.TrimSpace(high + " to " + low)
	if over != "" {
		tail += " over " + over
	}
	if on != "" {
		l.doubt = l.doubt || over == "" // all the way to the wall opposite?
		return l.guesses([]string{"slope " + string(on) + " " + tail})
	}
	var texts []string
	for _, w := range place.Walls {
		texts = append(texts, "slope "+string(w)+" "+tail)
	}
	all := l.guesses(texts)
	all[0].Asks = "down to which wall?"
	return all
}
