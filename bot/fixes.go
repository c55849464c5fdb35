package bot

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

// agrees is how far two distances to one place may differ and still agree.
const agrees = length.Inch / 4

// place resolves the fixes of an entry in the room at hand. with makes the same
// entry with other fixes, so that a question can offer it; ok is false when a
// question or a refusal has been set as the answer.
func (t *turn) place(s place.Surface, fixes []place.Fix, size place.Size, with func([]place.Fix) grammar.Entry) (out []place.Fix, p site.Placed, ok bool) {
	for i, f := range fixes {
		if (f.How == place.OffWall || f.How == place.Along) && f.Wall == "" {
			t.askWall(s, fixes, i, with)
			return nil, p, false
		}
		out = append(out, f.Settled())
	}
	if !t.askFace(s, fixes, with) {
		return nil, p, false
	}
	p, err := t.room.Place(s, out, size, t.sent.UnixMilli())
	if u, bad := errors.AsType[*site.Unplaced](err); bad {
		t.unplaced(s, out[u.Fix], u.Why)
		return nil, p, false
	}
	if !p.Whole() {
		t.askMissing(s, p, with(fixes))
		return nil, p, false
	}
	if s == place.Ceiling && !t.askNotch(fixes, out, &p, size, with) {
		return nil, p, false
	}
	for _, x := range p.Extra {
		if max(x.Diff, -x.Diff) > agrees {
			t.askExtra(fixes, x, with)
			return nil, p, false
		}
	}
	if !t.room.Inside(s, p.Point) {
		t.askOutside(s, p.Point, with)
		return nil, p, false
	}
	if !t.askShort(s, out, p) {
		return nil, p, false
	}
	return out, p, true
}

// askWall asks off which wall a distance was measured: only walls that pin a
// coordinate nothing else pins.
func (t *turn) askWall(s place.Surface, fixes []place.Fix, i int, with func([]place.Fix) grammar.Entry) {
	var taken [2]bool
	for k, f := range fixes {
		if k == i || f.Wall == "" && (f.How == place.OffWall || f.How == place.Along) {
			continue
		}
		if p, err := t.room.Place(s, []place.Fix{f}, place.Size{}, t.sent.UnixMilli()); err == nil && p.InLine == "" {
			taken[place.X] = taken[place.X] || p.Pinned[place.X]
			taken[place.Y] = taken[place.Y] || p.Pinned[place.Y]
		}
	}
	var choices []choice
	for _, w := range place.Walls {
		a, _, ok := s.Axis(w)
		if !ok || taken[a] {
			continue
		}
		next := append([]place.Fix(nil), fixes...)
		next[i].Wall, next[i].Side = w, ""
		choices = append(choices, t.as(string(w), with(next)))
	}
	said := t.said1(fixes[i].Said)
	if fixes[i].Side != "" {
		said += " " + fixes[i].Side + ":"
	}
	if len(choices) == 0 {
		t.no(fmt.Sprintf("%s is one distance too many", said), "")
		return
	}
	t.ask(said+" off which wall?", "", choices...)
}

// askFace asks to which face a distance was held, where the wall was boarded in
// the day before the message came in and nobody knows when it was written.
func (t *turn) askFace(s place.Surface, fixes []place.Fix, with func([]place.Fix) grammar.Entry) bool {
	if !t.in.Arrived || t.line.At != "" || t.line.Before > 0 || t.line.After > 0 {
		return true
	}
	sent := t.sent.UnixMilli()
	const day = 24 * 60 * 60 * 1000
	for i, f := range fixes {
		w := f.Wall
		if w == "" || f.Face != "" || t.room.Board(w, sent) == t.room.Board(w, sent-day) {
			continue
		}
		var choices []choice
		for _, n := range []struct {
			label string
			face  place.Face
		}{{"studs", place.Framing}, {"board", place.BoardFace}} {
			next := append([]place.Fix(nil), fixes...)
			next[i].Face = n.face
			choices = append(choices, t.as(n.label, with(next)))
		}
		t.ask(fmt.Sprintf("the %s wall got its board meanwhile: was %s held to the studs or the board?", w, t.said1(f.Said)), "", choices...)
		return false
	}
	return true
}

// askMissing asks for the coordinate that nothing pins; the answer is put
// behind what was said.
func (t *turn) askMissing(s place.Surface, p site.Placed, e grammar.Entry) {
	base := t.as("", e).Text
	if s.IsWall() && !p.Pinned[place.Y] {
		t.ask("how far up? e.g. `16 up`", base)
		return
	}
	var names []string
	for _, w := range place.Walls {
		if a, _, ok := s.Axis(w); ok && !p.Pinned[a] {
			names = append(names, string(w))
		}
	}
	if len(names) == 4 {
		t.ask("where? two distances, e.g. `26 off west 41 off north`", base)
		return
	}
	t.ask(fmt.Sprintf("and how far off %s? e.g. `41 off %s`", strings.Join(names, " or "), names[0]), base)
}

// askNotch asks which wall a distance was held to where a notch stands at that
// wall: every way to read the distances that puts the place in the room is
// offered; one alone is taken and read back.
func (t *turn) askNotch(fixes []place.Fix, out []place.Fix, p *site.Placed, size place.Size, with func([]place.Fix) grammar.Entry) bool {
	var open []int // distances that could be held to a notch's wall
	for i, f := range fixes {
		if f.How == place.OffWall && !f.Notch && !f.Main && t.room.NotchOn(out[i].Wall) {
			open = append(open, i)
		}
	}
	if len(open) == 0 || len(open) > 4 {
		return true
	}
	type reading struct {
		notch []bool
		at    site.Placed
	}
	var found []reading
	for n := range 1 << len(open) {
		alt := slices.Clone(out)
		notch := make([]bool, len(open))
		for k, i := range open {
			notch[k] = n>>k&1 == 1
			alt[i].Notch = notch[k]
		}
		q, err := t.room.Place(place.Ceiling, alt, size, t.sent.UnixMilli())
		same := func(r reading) bool { return r.at.Point == q.Point }
		if err == nil && q.Whole() && t.room.Inside(place.Ceiling, q.Point) && !slices.ContainsFunc(found, same) {
			found = append(found, reading{notch, q})
		}
	}
	switch len(found) {
	case 0:
		return true // outside, which is asked about next
	case 1:
		for k, i := range open {
			out[i].Notch = found[0].notch[k]
		}
		*p = found[0].at
		return true
	}
	var choices []choice
	for _, r := range found {
		next := slices.Clone(fixes)
		var label []string
		for k, i := range open {
			own := "the room's own "
			next[i].Notch, next[i].Main = r.notch[k], !r.notch[k]
			if r.notch[k] {
				own = "the notch's "
			}
			if !slices.ContainsFunc(found, func(o reading) bool { return o.notch[k] != r.notch[k] }) {
				continue // read the same way in all
			}
			label = append(label, fmt.Sprintf("%s off %s%s wall", t.said1(fixes[i].Said), own, fixes[i].Wall))
		}
		choices = append(choices, t.as(strings.Join(label, ", "), with(next)))
	}
	t.ask("which walls?", "", choices...)
	return false
}

// askShort refuses a distance off a support at a place that it does not reach.
func (t *turn) askShort(s place.Surface, fixes []place.Fix, p site.Placed) bool {
	for _, f := range fixes {
		if f.Sup == "" {
			continue
		}
		for _, sup := range t.room.SupportsOf(s, f.Sup) {
			along := p.On(sup.Axis().Other())
			if sup.N != f.N || sup.Reaches(along) {
				continue
			}
			t.no(fmt.Sprintf("%s stops: it runs from %s to %s off %s, not to %s", sup.Name(), t.near(sup.From), t.near(sup.To),
				map[place.Run]string{place.EW: "west", place.NS: "north", place.Up: "the floor"}[sup.Run], t.near(along)), "")
			return false
		}
	}
	return true
}

// askExtra asks which of two distances to one coordinate counts.
func (t *turn) askExtra(fixes []place.Fix, x site.Extra, with func([]place.Fix) grammar.Entry) {
	without := func(i int) []place.Fix {
		next := append([]place.Fix(nil), fixes[:i]...)
		return append(next, fixes[i+1:]...)
	}
	d := max(x.Diff, -x.Diff)
	t.ask(fmt.Sprintf("%s and %s are %s apart; which counts?", fixText(t, fixes[x.First]), fixText(t, fixes[x.Second]), t.f(d)), "",
		t.as(fixText(t, fixes[x.First]), with(without(x.Second))),
		t.as(fixText(t, fixes[x.Second]), with(without(x.First))))
}

func (t *turn) askOutside(s place.Surface, p place.Point, with func([]place.Fix) grammar.Entry) {
	x, y := t.room.Extent(s)
	where := fmt.Sprintf("%s, %s x %s", t.room.Name, t.f(x), t.f(y))
	if s.IsWall() {
		where = fmt.Sprintf("the %s wall of %s, %s long", s, t.room.Name, t.f(x))
		if y != 0 {
			where += ", " + t.f(y) + " high"
		}
	}
	t.ask(fmt.Sprintf("that is outside %s: it would be %s. Send the distances again", where, t.coords(s, p)), t.as("", with(nil)).Text)
}

// unplaced refuses a fix that pins nothing.
func (t *turn) unplaced(s place.Surface, f place.Fix, why site.Why) {
	on := "the ceiling"
	if s.IsWall() {
		on = "the " + string(s) + " wall"
	}
	switch why {
	case site.NoSupport:
		n := len(t.room.SupportsOf(s, f.Sup))
		if n == 0 {
			t.no(fmt.Sprintf("no %s noted on %s of %s", f.Sup, on, t.room.Name), string(f.Sup)+" ew 16 oc first 14 3/8 off north")
			return
		}
		t.no(fmt.Sprintf("%s has %d %s, there is no %s", t.room.Name, n, f.Sup, place.Of{Sup: f.Sup, N: f.N}.String()), "")
	case site.WrongWay:
		run := place.Run("")
		for _, q := range t.room.SupportsOf(s, f.Sup) {
			run = q.Run
		}
		a, b := place.North, place.South
		if run == place.NS {
			a, b = place.West, place.East
		}
		if f.How == place.Along {
			a, b = b, a
			if run == place.EW {
				a, b = place.West, place.East
			} else {
				a, b = place.North, place.South
			}
			t.no(fmt.Sprintf("%s runs %s: along it is from %s or %s", place.Of{Sup: f.Sup, N: f.N}.String(), runWords(run), a, b), "")
			return
		}
		t.no(fmt.Sprintf("%s runs %s: say %s or %s of it", place.Of{Sup: f.Sup, N: f.N}.String(), runWords(run), a, b), fmt.Sprintf("%s %s of %s", strings.TrimSuffix(t.f(f.L), `"`), b, place.Of{Sup: f.Sup, N: f.N}.String()))
	case site.NotHere:
		w := f.Wall
		if w == "" {
			w = f.Dir
		}
		t.no(fmt.Sprintf("%s is no side of %s", w, on), "")
	case site.NoPoint:
		t.no(fmt.Sprintf("no mark or thing %q on %s of %s%s", f.Name, on, t.room.Name, t.nearestName(f.Name)), "")
	case site.NoHeight:
		t.no("the ceiling's height is not noted", fmt.Sprintf("room %s 13' 4 x 11' 9 high 8'", t.room.Name))
	case site.NoBoard:
		t.no(fmt.Sprintf("no board is noted on the %s wall", f.Wall), string(f.Wall)+" wall boarded 1/2")
	case site.OnFloor:
		t.no("up and down go with a wall", "box 2x4 on north wall 52 off west 16 up")
	default:
		t.no("it is measured from something that is measured from it", "")
	}
}

// fixText is a fix as the crew says it, with the bit over or under. Its face is
// said for all of them together.
func fixText(t *turn, f place.Fix) string {
	f.Face, f.Main = "", false
	return f.Text(t.said1)
}

// fixesText is the read-back of a place: what was said, from which face, and
// the resolved coordinates where they differ from it.
func (t *turn) fixesText(s place.Surface, fixes []place.Fix, p site.Placed) string {
	var parts []string
	plain, walls, toEdge := true, false, false
	for _, f := range fixes {
		parts = append(parts, fixText(t, f))
		walls = walls || f.Wall != ""
		toEdge = toEdge || f.ToEdge
		a, grows, _ := s.Axis(f.Wall)
		plain = plain && !f.ToEdge && (f.How == place.UpFrom || f.How == place.OffWall && grows && !f.Notch &&
			p.On(a) == f.L)
	}
	text := strings.Join(parts, ", ")
	if p.InLine != "" {
		text += ", in line with " + p.InLine
	}
	if !plain {
		text += " = " + t.coords(s, p.Point)
	}
	if walls {
		text += " (" + t.faceOf(fixes) + ")"
	}
	return text
}

// faceOf names the face that the distances off walls were held to, wall by wall
// where they differ.
func (t *turn) faceOf(fixes []place.Fix) string {
	var faces, each []string
	for _, f := range fixes {
		if f.Wall == "" {
			continue
		}
		face := "studs"
		switch {
		case t.room.Finished(f.Wall):
			face = "finished wall"
		case f.Face == place.BoardFace || f.Face == "" && t.room.Board(f.Wall, t.sent.UnixMilli()) > 0:
			face = "board face"
		}
		if !slices.Contains(faces, face) {
			faces = append(faces, face)
		}
		each = append(each, string(f.Wall)+" "+face)
	}
	if len(faces) == 1 {
		return "from the " + faces[0]
	}
	return strings.Join(each, ", ")
}

// coords is a place in words, to the framing.
func (t *turn) coords(s place.Surface, p place.Point) string {
	x, y := t.near(p.X), t.near(p.Y)
	switch s {
	case place.Ceiling:
		return fmt.Sprintf("%s off west, %s off north", x, y)
	case place.Surface(place.North), place.Surface(place.South):
		return fmt.Sprintf("%s off west, %s up", x, y)
	}
	return fmt.Sprintf("%s off north, %s up", x, y)
}

// exact prints a thickness: in a metric job with its half or tenth of a millimetre.
func (t *turn) exact(l length.Length) string {
	if t.units() == length.Metric && l%length.Millimetre != 0 && l%(length.Millimetre/10) == 0 {
		return fmt.Sprintf("%g mm", length.MM(l))
	}
	return t.f(l)
}

// near prints a position to the nearest 1/16 in or 1 mm.
func (t *turn) near(l length.Length) string { return t.f(length.RoundNearest(l, t.units())) }

// nearestName offers the known name nearest to a word.
func (t *turn) nearestName(word string) string {
	var known []string
	for _, th := range t.room.Things {
		known = append(known, th.Name)
	}
	known = append(known, t.room.Marks(place.Ceiling)...)
	if n := grammar.Nearest(word, known); n != "" {
		return fmt.Sprintf("; did you mean %s?", n)
	}
	return ""
}
