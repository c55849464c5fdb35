package rough

import (
	"cmp"
	"fmt"
	"regexp"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
	"strapline/grammar/speech"
	"strapline/grammar/things"
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
	turned     bool // the word for it is that of a register too
	fars       []speech.Far
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
	inBay      = regexp.MustCompile(`K?b?[PV]*QK?(N)K?(N)|K?b?[PV]*Q(n)K?(n)K|Kb?(N)T(N)`)
	nextAt     = regexp.MustCompile(`P(N)`)
	besideOne  = regexp.MustCompile(`[LPj]+(?:K(N)|(n)K)`)
	stopShort  = regexp.MustCompile(`E?P*(N)Y+O*(W)`)
	stopsAt    = regexp.MustCompile(`[ET]P*(N)[io]*O(W)`)
	startsAt   = regexp.MustCompile(`1P*(N)[io]*O(W)`)
	fromTo     = regexp.MustCompile(`O(W)V*T(W)`)
	fromWall   = regexp.MustCompile(`O(W)`)
	wallTo     = regexp.MustCompile(`(W)T`) // "north wall to 3 foot short of the south wall"
	toWall     = regexp.MustCompile(`T(W)`)
	heightOn   = regexp.MustCompile(`(N)(?:U|[oO]*OF|H)`)
	alongWall  = regexp.MustCompile(`L(W)`)
	inWall     = regexp.MustCompile(`[PUjBo/](W)`)
	numbered   = regexp.MustCompile(`[Kb]N`)
	bareWall   = regexp.MustCompile(`(W)`)
)

// runs is a pipe or a wire and its path.
func (l *line) runs() []Guess {
	r := run{line: l, ends: map[place.Wall]string{}}
	if !r.kind() || l.Has("Zklw") || !l.Has("VADEULQTP1") && len(l.Pieces)-l.Begin < 7 || l.Changes() {
		return nil
	}
	if g := r.bends(); g != nil {
		return g
	}
	if m := countSized.FindSubmatchIndex(r.Tags); m != nil && r.Items[m[2]].N > 1 && r.Items[m[2]].N < 7 { // "two half inch lines"
		r.Tags[m[2]], r.count = 'c', r.Items[m[2]].N
		r.Items[m[2]].Tag = 'c'
	}
	r.depth()
	if m := sized.FindSubmatchIndex(l.Tags); m != nil {
		it, of := l.Items[m[2]], l.Items[m[1]-1]
		l.Tags[m[2]] = speech.Used
		if m[1] < len(l.Items) && l.Tags[m[1]] == 'z' {
			of = l.Items[m[1]]
		}
		if it.N > 1 && strings.HasSuffix(of.Low, "s") { // "2 pex lines"
			r.count = it.N
		} else {
			r.wide = it.Text
		}
	}
	r.supports()
	if m := numbered.FindIndex(r.Tags); m != nil && (r.Tags[m[0]] == 'b' || m[1] == len(r.Tags) || strings.IndexByte("OoWi", r.Tags[m[1]]) < 0) { // in bay 5, at strap 3
		return nil
	}
	r.path()
	if !r.sizes() {
		return nil
	}
	r.Doubt = r.Doubt || r.count > 1 && r.count != len(r.fars)
	for i, t := range r.Tags {
		if t == 'C' && r.Has("A") || t == 'F' && r.rises {
			r.Tags[i] = speech.Used
		}
	}
	if len(r.what) > 1 { // a line of what?
		var texts []string
		for _, what := range r.what {
			other := r
			other.what = []string{what}
			texts = append(texts, other.texts()...)
		}
		return l.Guesses(texts)
	}
	texts := r.texts()
	if len(texts) == 0 && r.against {
		return []Guess{{Keep: true}}
	}
	return l.Guesses(texts)
}

// kind finds what runs.
func (r *run) kind() bool {
	for i, it := range r.Items {
		if it.Tag == speech.Thing && r.Has("U") && !r.Has("C") { // it goes up: the pipe, not the register
			if what := map[string]string{"vent": "pipe", "duct": "duct run"}[it.Text]; what != "" && !boardUp.MatchString(r.Text) && (it.Text == "duct" || strings.Contains(it.Low, "vent")) {
				it.Tag, it.Text, r.turned = speech.Service, what, it.Text == "vent"
				r.Items[i], r.Tags[i] = it, speech.Service
			}
		}
		switch {
		case it.Tag == speech.Service && lex.ThingOf[it.Low] != "" && !r.Has("VAUQLED"):
			return false // a duct boot
		case it.Tag == speech.Service && (len(r.what) == 0 || r.what[0] == kindOf(it.Text)):
			r.what = []string{kindOf(it.Text)}
			r.rises = r.rises || speech.Upright[it.Low]
		case it.Tag == speech.Service && i > 0 && r.Items[i-1].Tag == speech.Service:
		case it.Tag == speech.Service:
			return false
		}
	}
	if len(r.what) > 0 {
		return true
	}
	if !r.Has("zVA") {
		return false
	}
	for _, p := range r.Pieces[r.Begin:] {
		if what := speech.Trades[p.Low]; what != "" {
			r.what, r.Doubt = []string{what}, true
			return true
		}
	}
	if !r.Has("z") || !sizedLine.Match(r.Tags) && !r.Has("AE") || r.Has("sM") || inLine(r.line) {
		return false
	}
	r.what, r.Doubt = []string{"pipe", "wire"}, true
	if sizedLine.Match(r.Tags) { // a 3/4 line
		r.what = r.what[:1]
	}
	return true
}

// boardUp matches that board goes up, and nothing that runs.
var boardUp = regexp.MustCompile(`(?i)\b(?:boards?|drywall|rock|sheetrock|lid|ceiling|gyp|gypsum|plasterboard)\b[\w ]* up\b`)

// inLine reports whether a line is that of an alignment: "on the same line", "in line with the last".
func inLine(l *line) bool {
	for i, p := range l.Pieces {
		if (p.Low == "line" || p.Low == "lines") && i > 0 && aligned[l.Pieces[i-1].Low] {
			return true
		}
	}
	return false
}

var aligned = lex.Set("same", "centre", "center", "in", "on", "straight", "chalk", "dead", "reference", "grid", "one", "that", "snap", "control")

// kindOf is the kind of a run as the rules read it.
func kindOf(said string) string { return cmp.Or(things.RunWords[said], said) }

// depth takes how deep it lies.
func (r *run) depth() {
	if m := onTop.FindIndex(r.Tags); m != nil {
		r.Use(m[0], m[1])
		r.lies = ", on top of the straps"
	}
	m := isDeep.FindIndex(r.Tags)
	if m == nil {
		if m = deepBare.FindIndex(r.Tags); m == nil || m[1] < len(r.Tags) && (r.Tags[m[1]] == 'O' || r.Tags[m[1]] == speech.Wall) {
			return
		}
		r.Doubt = true
	}
	for i := m[0]; i < m[1]; i++ {
		if r.Tags[i] == speech.Length && r.lies == "" {
			r.lies = ", depth " + r.Said(i)
		}
		r.Doubt = r.Doubt || r.Tags[i] == speech.Support // above a strap's face, or above its back?
	}
	r.Use(m[0], m[1])
}

// supports takes the support that it follows, or the two that it is between.
func (r *run) supports() {
	if m := inBay.FindSubmatchIndex(r.Tags); m != nil {
		kind := ""
		for i := m[0]; i < m[1]; i++ {
			if r.Tags[i] == speech.Support {
				kind = one(r.Said(i))
			}
		}
		a, b := r.Items[max(m[2], m[6], m[10])].N, r.Items[max(m[4], m[8], m[12])].N
		if kind != "" && a > 0 && b > 0 && max(a, b)-min(a, b) == 1 {
			r.along = fmt.Sprintf("between %s %d and %s %d", kind, a, kind, b)
			r.Use(m[0], m[1])
			return
		}
	}
	m := besideOne.FindSubmatchIndex(r.Tags)
	if m == nil || m[2] >= 0 && m[1] < len(r.Tags) && strings.IndexByte("OoWi", r.Tags[m[1]]) >= 0 || // "in the joists 30 off the west wall"
		r.lies != "" && strings.HasSuffix(r.lies, "straps") && !r.Has("L") {
		return
	}
	n, kind := 0, ""
	for i := m[0]; i < m[1]; i++ {
		n = max(n, r.Items[i].N)
		if r.Tags[i] == speech.Support {
			kind = one(r.Said(i))
		}
	}
	if n == 0 {
		return
	}
	r.along = fmt.Sprintf("on %s %d", kind, n)
	r.Use(m[0], m[1])
}

func one(kind string) string { return strings.TrimSuffix(kind, "s") }

// path takes the walls and the distances off them.
func (r *run) path() {
	for _, p := range []*regexp.Regexp{stopShort, stopsAt, startsAt} {
		for m := r.Take(p); m != nil; m = r.Take(p) {
			r.ends[r.WallAt(m[1])] = r.Said(m[0])
		}
	}
	if m := r.Take(heightOn); m != nil {
		r.up = r.Said(m[0])
	}
	r.fars = r.line.Fars()
	for nextAt.Match(r.Tags) && len(r.fars) > 0 { // "hot at 30 off west, cold at 38"
		m := r.Take(nextAt)
		r.fars, r.Doubt = append(r.fars, speech.Far{Text: r.Said(m[0]), Wall: r.fars[len(r.fars)-1].Wall}), true
	}
	for _, p := range []*regexp.Regexp{fromTo, fromWall, toWall, wallTo} {
		if m := r.Take(p); m != nil {
			for _, w := range m {
				if r.ends[r.WallAt(w)] == "" {
					r.ends[r.WallAt(w)] = "0"
				}
			}
		}
	}
	if m := r.Take(alongWall); m != nil {
		r.beside = r.WallAt(m[0])
	}
	r.rises = r.rises || len(r.Left('U')) > 0 && !r.Has("AD")
	for _, p := range []*regexp.Regexp{inWall, bareWall} {
		if r.on == "" {
			if m := r.Take(p); m != nil {
				r.on = r.WallAt(m[0])
			}
		}
	}
	if m := r.Left('M'); len(m) > 0 && len(r.fars) == 0 && r.Has("D") && r.on == "" { // down the middle
		for _, it := range r.Items {
			w, side := place.West, r.EW
			if it.Tag == speech.Direction && side > 0 {
				r.Tags[m[0]], r.Doubt = speech.Used, true
				r.fars = []speech.Far{{Text: length.Canon(side / 2), Wall: w}}
			}
		}
	}
	if r.beside != "" && r.on == "" && (r.up != "" || r.rises) {
		r.on, r.beside = r.beside, ""
	}
	if r.beside != "" && len(r.fars) == 0 { // "along the south wall about a foot out"
		if m := r.Take(besideOut); m != nil {
			r.fars = append(r.fars, speech.Far{Text: r.Said(m[0]), Wall: r.beside})
		}
	}
}

var besideOut = regexp.MustCompile(`(N)[oO]+`)

// widest is the largest pipe or duct that is told by a bare number; a larger one is a distance without its
// wall (common practice, no source).
const widest = 14 * length.Inch

// sizes takes the diameter from among the numbers that are left. It reports whether none is left then.
func (r *run) sizes() bool {
	free := r.Left(speech.Length)
	if len(free) == 1 && free[0]+1 < len(r.Items) && (r.Items[free[0]+1].Tag == 'j' || r.Items[free[0]+1].Tag == 'g') { // "its bottom is 1/2 below the joists", "3 inches apart"
		return false
	}
	if len(free) == 1 && r.wide == "" && r.Size(free[0]) > 0 && r.Size(free[0]) <= widest && !(len(r.fars) == 0 && r.along == "") {
		r.wide = r.Said(free[0])
		r.Tags[free[0]] = speech.Used
		r.Doubt = r.Doubt || r.Size(free[0]) > 4*length.Inch && r.what[0] != "duct run" && speech.Whole(r.wide) > 0
		free = nil
	}
	if len(free) == 1 && len(r.fars) == 0 && r.along == "" && r.on == "" && !r.rises { // its wall is missing
		r.fars = []speech.Far{{Text: r.Said(free[0]), Wall: ""}}
		r.Tags[free[0]] = speech.Used
		free = nil
	}
	return len(free) == 0
}

// texts returns the runs in canonical words; several alternatives are separate texts.
func (r *run) texts() (all []string) {
	head := r.what[0]
	r.Doubt = r.Doubt || r.turned && r.on == ""
	if r.wide != "" {
		head += " " + r.wide
	}
	if r.rises && r.on == "" && r.along == "" && len(r.fars) == 1 && len(r.ends) == 0 && r.fars[0].Wall != "" { // up which wall?
		from, to := r.fars[0].Wall.Ends()
		for _, w := range []place.Wall{from, to} {
			all = append(all, fmt.Sprintf("%s, on %s wall, %s from 0 up to 0 down%s", head, w, r.fars[0], r.lies))
		}
		return all
	}
	if len(r.fars) > 1 && r.fars[0].Wall != r.fars[1].Wall && !r.Has("c") && r.count < 2 || r.rises && r.on == "" && (r.Has("C") || len(r.fars) > 1) {
		return nil // a point: where it goes through the ceiling
	}
	switch {
	case r.along != "" && (r.on == "" || !strings.Contains(r.along, "stud")):
		r.Doubt = r.Doubt || r.on != "" // on the west side of the joist
		return []string{head + ", " + r.along + r.span("") + r.lies}
	case r.along != "":
		return []string{fmt.Sprintf("%s, on %s wall, %s from 0 up to 0 down%s", head, r.on, r.along, r.lies)}
	case r.on != "" && r.up != "" && !r.rises && len(r.fars) == 0 && r.Has("VAL"): // level, along a wall
		from, to := r.on.Ends()
		return []string{fmt.Sprintf("%s, on %s wall, from %s up %s to %s up %s%s", head, r.on, r.up, r.end(from), r.up, r.end(to), r.lies)}
	case r.on != "" && (r.rises || len(r.fars) > 0 && r.fars[0].Wall.EastWest() != r.on.EastWest()):
		r.Doubt = r.Doubt || !r.rises
		spans := []string{"0 up to 0 down"}
		if r.up != "" { // it ends or comes out there
			spans = []string{"0 up to " + r.up + " up", r.up + " up to 0 down"}
		}
		if r.rises {
			spans = spans[:1]
		}
		for _, span := range spans {
			var lines []string
			for _, f := range r.fars {
				if f.Wall.EastWest() == r.on.EastWest() {
					return nil
				}
				lines = append(lines, fmt.Sprintf("%s, on %s wall, %s from %s%s", head, r.on, f, span, r.lies))
			}
			if lines == nil { // how far off which wall is asked
				lines = []string{fmt.Sprintf("%s, on %s wall from %s%s", head, r.on, span, r.lies)}
			}
			all = append(all, strings.Join(lines, "\n"))
		}
		return all
	case r.on != "" || r.up != "" || len(r.fars) == 0:
		return nil
	}
	var lines []string
	for _, f := range r.fars {
		if f.Wall == "" {
			if !r.Has("A") {
				return nil
			}
			for _, w := range place.Walls {
				g := speech.Far{Text: f.Text, Wall: w}
				all = append(all, head+", "+g.String()+r.span(w)+r.lies)
			}
			return all
		}
		if f.Wall.EastWest() != r.fars[0].Wall.EastWest() {
			return nil
		}
		lines = append(lines, head+", "+f.String()+r.span(f.Wall)+r.lies)
	}
	for i, it := range r.Items {
		if it.Tag == speech.Direction {
			r.Tags[i] = speech.Used
			if r.against = (it.Text == "ns") != r.fars[0].Wall.EastWest(); r.against {
				return nil
			}
		}
	}
	r.Doubt = r.Doubt || !r.Has("AD") && len(r.ends) == 0
	return []string{strings.Join(lines, "\n")}
}

// end returns the wall at an end of the run, and how far off it that stops.
func (r *run) end(w place.Wall) string {
	return cmp.Or(r.ends[w], "0") + " off " + string(w)
}

// span returns where a run beside wall w begins and ends; from end to end of its support if w is "".
func (r *run) span(w place.Wall) string {
	if w == "" {
		for at := range r.ends {
			across, _ := at.Ends()
			from, to := across.Ends()
			return fmt.Sprintf(" from %s to %s", r.end(from), r.end(to))
		}
		return ", full length"
	}
	from, to := w.Ends()
	return fmt.Sprintf(" from %s to %s", r.end(from), r.end(to))
}
