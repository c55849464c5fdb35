package rough

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
)

// run is a pipe or a wire, or several of a kind side by side, and its path.
type run struct {
	*line
	what       []string // more than one if that was not said
	count      int      // how many side by side, 0 if that was not said
	against    bool     // the way it is said to run is not the way it lies
	wide       string
	lies       string // how deep it is, as canonical words
	on, beside place.Wall
	up         string // its height on a wall
	rises      bool
	fars       []far
	ends       map[place.Wall]string // where it stops short of a wall, or starts
	along      string                // the support, or the two, that it follows
}

var (
	countSized = regexp.MustCompile(`(N)Ni*[Sz]`)
	sizedLine  = regexp.MustCompile(`Ni*z`)
	isDeep     = regexp.MustCompile(`NB(?:O?f+|OK|K)|N[oO]+f+|NJ|JN`)
	deepBare   = regexp.MustCompile(`NB`)
	onTop      = regexp.MustCompile(`y?tK|tK`)
	sized      = regexp.MustCompile(`(N)i*[Sz]`)
	hangsLow   = regexp.MustCompile(`[Uj]?(N)jK`)
	sizedLast  = regexp.MustCompile(`S[iP]*(N)i*`)
	inBay      = regexp.MustCompile(`K?b?[PV]*QK?(N)K?(N)|K?b?[PV]*Q(n)K?(n)K|Kb?(N)T(N)`)
	besideOne  = regexp.MustCompile(`[LPj]+(?:K(N)|(n)K)`)
	stopShort  = regexp.MustCompile(`E?P*(N)Y+O*(W)`)
	shortBy    = regexp.MustCompile(`E?YO?(W)O?P?(N)`)
	stopsAt    = regexp.MustCompile(`[ET]P*(N)[io]*O(W)`)
	startsAt   = regexp.MustCompile(`1P*(N)[io]*O(W)`)
	fromTo     = regexp.MustCompile(`O(W)V*T(W)`)
	fromWall   = regexp.MustCompile(`O(W)`)
	wallTo     = regexp.MustCompile(`(W)T`) // "north wall to 3 foot short of the south wall"
	toWall     = regexp.MustCompile(`T(W)`)
	heightOn   = regexp.MustCompile(`(N)(?:U|[oO]*OF|H)`)
	alongWall  = regexp.MustCompile(`L(W)`)
	inWall     = regexp.MustCompile(`[PUjBo/](W)`)
	ofSupport  = regexp.MustCompile(`W/K`) // "7 south of strap 3" is no run's
	numbered   = regexp.MustCompile(`[Kb]N`)
	bareWall   = regexp.MustCompile(`(W)`)
)

// runs is a pipe or a wire and its path.
func (l *line) runs() []Guess {
	r := run{line: l, ends: map[place.Wall]string{}}
	if !r.kind() || l.has("Zklw") || !l.has("VADEULQTP1") && len(l.Pieces)-l.Begin < 7 || l.changes() || ofSupport.Match(l.tags) {
		return nil
	}
	if g := r.bends(); g != nil {
		return g
	}
	if m := countSized.FindSubmatchIndex(r.tags); m != nil && r.items[m[2]].n > 1 && r.items[m[2]].n < 7 { // "two half inch lines"
		r.tags[m[2]], r.count = 'c', r.items[m[2]].n
		r.items[m[2]].tag = 'c'
	}
	r.depth()
	if m := hangsLow.FindIndex(r.tags); m != nil { // "drops 2 below the joists": not how deep it is
		r.use(m[0], m[1])
		r.doubt = true
	}
	if m := sized.FindSubmatchIndex(l.tags); m != nil {
		it, of := l.items[m[2]], l.items[m[1]-1]
		l.tags[m[2]] = used
		if m[1] < len(l.items) && l.tags[m[1]] == 'z' {
			of = l.items[m[1]]
		}
		if it.n > 1 && strings.HasSuffix(of.low, "s") { // "2 pex lines"
			r.count = it.n
		} else {
			r.wide = it.text
		}
	}
	r.supports()
	if numbered.Match(r.tags) { // in bay 5, at strap 3
		return nil
	}
	r.path()
	if !r.sizes() {
		return nil
	}
	r.doubt = r.doubt || r.count > 1 && r.count != len(r.fars)
	for i, t := range r.tags {
		if t == 'C' && r.has("A") || t == 'F' && r.rises {
			r.tags[i] = used
		}
	}
	if len(r.what) > 1 { // a line of what?
		var texts []string
		for _, what := range r.what {
			other := r
			other.what = []string{what}
			texts = append(texts, other.texts()...)
		}
		return l.guesses(texts)
	}
	texts := r.texts()
	if len(texts) == 0 && r.against {
		return []Guess{{Keep: true}}
	}
	return l.guesses(texts)
}

// kind finds what runs.
func (r *run) kind() bool {
	for i, it := range r.items {
		if it.tag == thing && r.has("U") && !r.has("C") { // it goes up: the pipe, not the register
			if what := map[string]string{"vent": "pipe", "duct": "duct run"}[it.text]; what != "" {
				it.tag, it.text = service, what
				r.items[i], r.tags[i] = it, service
			}
		}
		switch {
		case it.tag == service && lex.ThingOf[it.low] != "" && !r.has("VAUQLED"):
			return false // a duct boot
		case it.tag == service && (len(r.what) == 0 || r.what[0] == kindOf(it.text)):
			r.what = []string{kindOf(it.text)}
			r.rises = r.rises || upright[it.low]
			if it.low == "hot and cold" || it.low == "coppers" {
				r.doubt = r.doubt || it.low != "coppers"
			}
		case it.tag == service && i > 0 && r.items[i-1].tag == service:
		case it.tag == service:
			return false
		}
	}
	if len(r.what) > 0 {
		return true
	}
	if !r.has("zVA") {
		return false
	}
	for _, p := range r.Pieces[r.Begin:] {
		if what := trades[p.Low]; what != "" {
			r.what, r.doubt = []string{what}, true
			return true
		}
	}
	if !r.has("z") {
		return false
	}
	r.what, r.doubt = []string{"pipe", "wire"}, true
	if sizedLine.Match(r.tags) { // a 3/4 line
		r.what = r.what[:1]
	}
	return true
}

// kindOf is the kind of a run as the rules read it.
func kindOf(said string) string {
	switch said {
	case "water", "pex", "plumbing":
		return "pipe"
	case "cable", "wiring":
		return "wire"
	}
	return said
}

// depth takes how deep it lies.
func (r *run) depth() {
	if m := onTop.FindIndex(r.tags); m != nil {
		r.use(m[0], m[1])
		r.lies = ", on top of the straps"
	}
	m := isDeep.FindIndex(r.tags)
	if m == nil {
		if m = deepBare.FindIndex(r.tags); m == nil || m[1] < len(r.tags) && (r.tags[m[1]] == 'O' || r.tags[m[1]] == wall) {
			return
		}
		r.doubt = true
	}
	for i := m[0]; i < m[1]; i++ {
		if r.tags[i] == length_ && r.lies == "" {
			r.lies = ", depth " + r.said(i)
		}
		r.doubt = r.doubt || r.tags[i] == support // above a strap's face, or above its back?
	}
	r.use(m[0], m[1])
}

// use marks items as used.
func (l *line) use(from, to int) {
	for i := from; i < to; i++ {
		l.tags[i] = used
	}
}

// supports takes the support that it follows, or the two that it is between.
func (r *run) supports() {
	if m := inBay.FindSubmatchIndex(r.tags); m != nil {
		kind := ""
		for i := m[0]; i < m[1]; i++ {
			if r.tags[i] == support {
				kind = one(r.said(i))
			}
		}
		a, b := r.items[max(m[2], m[6], m[10])].n, r.items[max(m[4], m[8], m[12])].n
		if kind != "" && a > 0 && b > 0 && max(a, b)-min(a, b) == 1 {
			r.along = fmt.Sprintf("between %s %d and %s %d", kind, a, kind, b)
			r.use(m[0], m[1])
			return
		}
	}
	m := besideOne.FindSubmatchIndex(r.tags)
	if m == nil || r.lies != "" && strings.HasSuffix(r.lies, "straps") && !r.has("L") {
		return
	}
	n, kind := 0, ""
	for i := m[0]; i < m[1]; i++ {
		n = max(n, r.items[i].n)
		if r.tags[i] == support {
			kind = one(r.said(i))
		}
	}
	if n == 0 {
		return
	}
	r.along = fmt.Sprintf("on %s %d", kind, n)
	r.use(m[0], m[1])
}

func one(kind string) string { return strings.TrimSuffix(kind, "s") }

// path takes the walls and the distances off them.
func (r *run) path() {
	for _, p := range []*regexp.Regexp{stopShort, stopsAt, startsAt} {
		for m := r.take(p); m != nil; m = r.take(p) {
			r.ends[r.wall(m[1])] = r.said(m[0])
		}
	}
	if m := r.take(shortBy); m != nil {
		r.ends[r.wall(m[0])] = r.said(m[1])
	}
	if m := r.take(heightOn); m != nil {
		r.up = r.said(m[0])
	}
	r.fars = r.line.fars()
	for _, p := range []*regexp.Regexp{fromTo, fromWall, toWall, wallTo} {
		if m := r.take(p); m != nil {
			for _, w := range m {
				if r.ends[r.wall(w)] == "" {
					r.ends[r.wall(w)] = "0"
				}
			}
		}
	}
	if m := r.take(alongWall); m != nil {
		r.beside = r.wall(m[0])
	}
	r.rises = r.rises || len(r.left('U')) > 0 && !r.has("AD")
	for _, p := range []*regexp.Regexp{inWall, bareWall} {
		if r.on == "" {
			if m := r.take(p); m != nil {
				r.on = r.wall(m[0])
			}
		}
	}
	if m := r.left('M'); len(m) > 0 && len(r.fars) == 0 && r.has("D") && r.on == "" { // down the middle
		for i, it := range r.items {
			w, side := place.West, r.EW
			if it.text == "ew" {
				w, side = place.North, r.NS
			}
			if it.tag == direction && side > 0 {
				r.tags[m[0]], r.doubt = used, true
				r.fars = []far{{i, length.Canon(side / 2), w}}
			}
		}
	}
	if r.beside != "" && r.on == "" && (r.up != "" || r.rises) {
		r.on, r.beside = r.beside, ""
	}
	if r.beside != "" && len(r.fars) == 0 { // "along the south wall about a foot out"
		if m := r.take(besideOut); m != nil {
			r.fars = append(r.fars, far{m[0], r.said(m[0]), r.beside})
		}
	}
}

var besideOut = regexp.MustCompile(`(N)[oO]+`)

// widest is the largest pipe or duct that is told by a bare number; a larger one is a distance without its
// wall (common practice, no source).
const widest = 14 * length.Inch

// sizes takes the diameter from among the numbers that are left. It reports whether none is left then.
func (r *run) sizes() bool {
	free := r.left(length_)
	if len(free) == 1 && r.wide == "" && r.size(free[0]) > 0 && r.size(free[0]) <= widest && !(len(r.fars) == 0 && r.along == "") {
		r.wide = r.said(free[0])
		r.tags[free[0]] = used
		r.doubt = r.doubt || r.size(free[0]) > 4*length.Inch && r.what[0] != "duct run" && whole(r.wide) > 0
		free = nil
	}
	if len(free) == 1 && len(r.fars) == 0 && r.along == "" && r.on == "" && !r.rises { // its wall is missing
		r.fars = []far{{free[0], r.said(free[0]), ""}}
		r.tags[free[0]] = used
		free = nil
	}
	return len(free) == 0
}

// texts returns the runs in canonical words; several alternatives are separate texts.
func (r *run) texts() (all []string) {
	head := r.what[0]
	if r.wide != "" {
		head += " " + r.wide
	}
	if r.rises && r.on == "" && r.along == "" && len(r.fars) == 1 && len(r.ends) == 0 && r.fars[0].wall != "" { // up which wall?
		from, to := ends(r.fars[0].wall)
		for _, w := range []place.Wall{from, to} {
			all = append(all, fmt.Sprintf("%s, on %s wall, %s from 0 up to 0 down%s", head, w, r.fars[0], r.lies))
		}
		return all
	}
	switch {
	case r.along != "" && (r.on == "" || !strings.Contains(r.along, "stud")):
		r.doubt = r.doubt || r.on != "" // on the west side of the joist
		return []string{head + ", " + r.along + r.span("") + r.lies}
	case r.along != "":
		return []string{fmt.Sprintf("%s, on %s wall, %s from 0 up to 0 down%s", head, r.on, r.along, r.lies)}
	case r.on != "" && r.up != "" && !r.rises && len(r.fars) == 0: // level, along a wall
		from, to := ends(r.on)
		return []string{fmt.Sprintf("%s, on %s wall, %s up from %s to %s%s", head, r.on, r.up, r.end(from), r.end(to), r.lies)}
	case r.on != "" && (r.rises || len(r.fars) > 0 && eastWest(r.fars[0].wall) != eastWest(r.on)):
		r.doubt = r.doubt || !r.rises
		var lines []string
		for _, f := range r.fars {
			if eastWest(f.wall) == eastWest(r.on) {
				return nil
			}
			lines = append(lines, fmt.Sprintf("%s, on %s wall, %s from 0 up to %s%s", head, r.on, f, r.top(), r.lies))
		}
		if lines == nil { // how far off which wall is asked
			return []string{fmt.Sprintf("%s, on %s wall from 0 up to %s%s", head, r.on, r.top(), r.lies)}
		}
		return []string{strings.Join(lines, "\n")}
	case r.on != "" || r.up != "" || len(r.fars) == 0:
		return nil
	}
	var lines []string
	for _, f := range r.fars {
		if f.wall == "" {
			if !r.has("A") {
				return nil
			}
			for _, w := range place.Walls {
				g := far{f.at, f.text, w}
				all = append(all, head+", "+g.String()+r.span(w)+r.lies)
			}
			return all
		}
		if eastWest(f.wall) != eastWest(r.fars[0].wall) {
			return nil
		}
		lines = append(lines, head+", "+f.String()+r.span(f.wall)+r.lies)
	}
	for i, it := range r.items {
		if it.tag == direction {
			r.tags[i] = used
			if r.against = (it.text == "ns") != eastWest(r.fars[0].wall); r.against {
				return nil
			}
		}
	}
	r.doubt = r.doubt || !r.has("AD") && len(r.ends) == 0
	return []string{strings.Join(lines, "\n")}
}

func (r *run) top() string {
	if r.up != "" {
		return r.up + " up"
	}
	return "0 down"
}

// end returns the wall at an end of the run, and how far off it that stops.
func (r *run) end(w place.Wall) string {
	return cmp.Or(r.ends[w], "0") + " off " + string(w)
}

// span returns where a run beside wall w begins and ends; from end to end of its support if w is "".
func (r *run) span(w place.Wall) string {
	if w == "" {
		for at := range r.ends {
			from, to := ends(acrossOf(at))
			return fmt.Sprintf(" from %s to %s", r.end(from), r.end(to))
		}
		return ", full length"
	}
	from, to := ends(w)
	return fmt.Sprintf(" from %s to %s", r.end(from), r.end(to))
}

// acrossOf is a wall that meets w.
func acrossOf(w place.Wall) place.Wall {
	if eastWest(w) {
		return place.North
	}
	return place.West
}

var (
	enters = regexp.MustCompile(`[1VO]P*(W)P*(N)[io]*O(W)|(N)[io]*O(W)[P1V]*O(W)|1P*(N)[io]*O(W)`)
	legOff = regexp.MustCompile(`[VoT]+(N)[io]*O(W)`)
	legOn  = regexp.MustCompile(`[Vojy]+(?:(W)P*)?(N)`)
	legTo  = regexp.MustCompile(`[VjUo]+T?(W)(?:(N)|T?W?A?)`)
)

// bends is a run of one or two legs: it begins at a wall or off two, goes so far across the room, and then
// perhaps to another wall.
func (r *run) bends() []Guess {
	at := map[bool]far{} // the distances where it is, those off east or west under true
	tags := slices.Clone(r.tags)
	fail := func() []Guess { r.tags = tags; return nil }
	m := r.take(enters)
	switch {
	case m == nil:
		return fail()
	case m[0] >= 0: // in at the west wall, 40 off the north
		at[eastWest(r.wall(m[0]))] = far{0, "0", r.wall(m[0])}
		at[eastWest(r.wall(m[2]))] = far{m[1], r.said(m[1]), r.wall(m[2])}
	case m[3] >= 0: // 40 off the north, from the west wall
		at[eastWest(r.wall(m[5]))] = far{0, "0", r.wall(m[5])}
		at[eastWest(r.wall(m[4]))] = far{m[3], r.said(m[3]), r.wall(m[4])}
	default: // starts 24 off the west
		at[eastWest(r.wall(m[7]))] = far{m[6], r.said(m[6]), r.wall(m[7])}
		for i, it := range r.items { // and lies 30 off the north
			if it.tag == wall && r.tags[i] == wall && i > 1 && r.tags[i-1] == 'O' && r.tags[i-2] == length_ && eastWest(r.wall(i)) != eastWest(r.wall(m[7])) {
				at[eastWest(r.wall(i))] = far{i - 2, r.said(i - 2), r.wall(i)}
				r.use(i-2, i+1)
			}
		}
	}
	if len(at) != 2 {
		return fail()
	}
	points := []string{at[false].String() + ", " + at[true].String()}
	for len(points) < 4 {
		next, ok := r.leg(at, len(points) == 1)
		if !ok {
			break
		}
		at[eastWest(next.wall)] = next
		points = append(points, at[false].String()+", "+at[true].String())
	}
	if len(points) < 2 {
		return fail()
	}
	r.depth()
	if m := r.take(sized); m != nil {
		r.wide = " " + r.said(m[0])
	}
	if len(r.left(length_)) > 0 || len(r.what) != 1 {
		return fail()
	}
	last := len(points) - 1
	text := r.what[0] + r.wide + ", from " + strings.Join(points[:last], " through ") + " to " + points[last] + r.lies
	return r.guesses([]string{text})
}

// leg returns the distance that the next leg of a run changes. The first one goes away from the wall that
// it begins at, if no other direction is said.
func (r *run) leg(at map[bool]far, first bool) (far, bool) {
	on, off, to := legOn.FindSubmatchIndex(r.tags), legOff.FindSubmatchIndex(r.tags), legTo.FindSubmatchIndex(r.tags)
	switch {
	case off != nil && (to == nil || off[0] <= to[0]) && (on == nil || off[0] <= on[0]): // to 6 foot off the west
		r.use(off[0], off[1])
		return far{off[2], r.said(off[2]), r.wall(off[4])}, true
	case on != nil && (to == nil || on[0] <= to[0]):
		r.use(on[0], on[1])
		w := place.Wall("")
		if on[2] >= 0 {
			w = r.wall(on[2])
		}
		for _, f := range at {
			if w == "" && first && f.text == "0" {
				return far{on[4], r.said(on[4]), f.wall}, true
			}
		}
		if w == "" {
			return far{}, false
		}
		was := at[eastWest(w)]
		a, b := r.length(was.text), r.size(on[4])
		if b == 0 || was.wall == w && a <= b {
			return far{}, false
		}
		if was.wall == w { // towards the wall that it is off
			b = -b
		}
		return far{on[4], length.Canon(a + b), was.wall}, true
	case to != nil:
		r.use(to[0], to[1])
		return far{to[2], "0", r.wall(to[2])}, true
	}
	return far{}, false
}
