package bot

import (
	"fmt"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

const longestRoom = 200 * length.Foot

func (t *turn) job(e grammar.Job) {
	if t.save(site.JobTitle{Title: e.Title}) != nil {
		t.noted("job", nil, "job "+e.Title)
	}
}

func (t *turn) unitsSet(e grammar.UnitsSet) {
	if t.save(site.UnitsSet{Units: e.Units}) != nil {
		t.noted("units", nil, "units "+string(e.Units))
	}
}

// Years from which new houses may not hold asbestos patching compound (16 CFR
// 1304, in force 16 January 1978) or lead paint (in force 28 February 1978).
const banned = 1978

func (t *turn) built(e grammar.Built) {
	if t.save(site.Built{Year: e.Year}) == nil {
		return
	}
	t.noted("built", nil, fmt.Sprintf("built %d", e.Year))
	if e.Year <= banned {
		t.note("caution", cautionOld)
	}
}

func (t *turn) roomSize(e grammar.Room) {
	for _, l := range []length.Length{e.EW.L, e.NS.L} {
		if l < length.Foot || l > longestRoom {
			t.ask(fmt.Sprintf("a room %s wide? send it again with feet and inches", t.f(l)), "")
			return
		}
	}
	b := site.RoomSize{Room: e.Name, EW: e.EW.L, NS: e.NS.L, High: e.High.L}
	for _, n := range e.Less {
		if n.EW.L >= e.EW.L || n.NS.L >= e.NS.L {
			t.ask(fmt.Sprintf("the notch %s x %s is as big as the room; send the room again", t.f(n.EW.L), t.f(n.NS.L)), "")
			return
		}
		b.Less = append(b.Less, site.Notch{
			EW: n.EW.L, NS: n.NS.L, Corner: n.Corner, Wall: n.Wall, Off: n.Off.L, From: n.OffWall,
		})
	}
	var was string
	if old := t.st.Room(e.Name); old != nil {
		v, _ := old.Said()
		was = fmt.Sprintf(" (was %s x %s)", t.f(v.EW), t.f(v.NS))
		if e.High.L == 0 {
			b.High = v.High
		}
		if len(b.Less) == 0 {
			b.Less = v.Less
		}
	}
	before := t.snap(t.st.Room(e.Name))
	en := t.save(b)
	if en == nil {
		return
	}
	t.room = t.st.Room(e.Name)
	text := fmt.Sprintf("%s %s east-west x %s north-south%s", e.Name, t.said1(e.EW), t.said1(e.NS), was)
	if b.High != 0 {
		text += ", " + t.f(b.High) + " high"
	}
	for _, n := range b.Less {
		text += fmt.Sprintf(", less %s x %s", t.f(n.EW), t.f(n.NS))
		if n.Corner != "" {
			text += " in the " + corner(n.Corner)
		} else {
			text += fmt.Sprintf(" at the %s wall, %s off %s", n.Wall, t.f(n.Off), n.From)
		}
	}
	u := t.units()
	t.noted("room", roomFacts{Name: e.Name, EW: fact(u, b.EW), NS: fact(u, b.NS)}, text)
	if len(e.Less) == 0 && len(b.Less) > 0 {
		t.note("check", "the notch stays as it was; to be rid of it strike the entries that said it")
	}
	t.moves(before)
}

func corner(c string) string {
	return map[string]string{"ne": "northeast", "nw": "northwest", "se": "southeast", "sw": "southwest"}[c] + " corner"
}

// said1 prints a length with the bit over or under that was said of it.
func (t *turn) said1(l length.Said) string { return t.tagged(l.L, l.Tag) }

func (t *turn) tagged(l length.Length, tag length.Tag) string {
	s := t.f(l)
	if tag != length.Exact {
		s += " " + string(tag)
	}
	return s
}

func (t *turn) inRoom(e grammar.InRoom) {
	r := t.st.Room(e.Name)
	if r == nil {
		t.noRoom(e.Name)
		return
	}
	t.room = r
	if t.save(site.Here{Room: r.Name}) != nil {
		t.noted("in", nil, "you are in "+r.Name)
	}
}

func (t *turn) alias(e grammar.Alias) {
	if e.Wall == "" {
		r := t.st.Room(e.Room)
		if r == nil {
			t.noRoom(e.Room)
			return
		}
		t.room = r
	} else if !t.needRoom() {
		return
	}
	if other := t.st.Room(e.Name); other != nil && other != t.room {
		t.no(fmt.Sprintf("%q is the name of another room", e.Name), "")
		return
	}
	was := place.Wall("")
	if e.Wall != "" {
		was = t.room.WallNamed(e.Name)
	}
	if t.save(site.Named{Room: t.room.Name, Wall: e.Wall, Alias: e.Name}) == nil {
		return
	}
	if e.Wall != "" {
		text := fmt.Sprintf("%s: %s wall is the %s wall", t.room.Name, e.Name, e.Wall)
		if was != "" && was != e.Wall {
			text += fmt.Sprintf(" (was the %s wall)", was)
		}
		t.noted("alias", nil, text)
	} else {
		t.noted("alias", nil, fmt.Sprintf("%s is also %s", t.room.Name, e.Name))
	}
}

func surfaceOf(s place.Surface) place.Surface {
	if s == "" {
		return place.Ceiling
	}
	return place.Surface(s)
}

// most supports in one set; more is a slip of the spacing.
const mostSupports = 400

func (t *turn) supportSet(e grammar.SupportSet) {
	if !t.needRoom() {
		return
	}
	b := site.Supports{
		Room: t.room.Name, Surface: surfaceOf(e.Surface), What: e.What,
		Run: e.Run, From: e.From, Spacing: e.Spacing.L, Thick: e.Thick.L, Wide: e.Wide.L,
	}
	if !t.askSupports(e, b.Surface) {
		return
	}
	if b.Surface.IsWall() {
		b.Run = place.Up
		if b.From == "" {
			b.From = map[bool]place.Wall{true: place.West, false: place.North}[b.Surface == "north" || b.Surface == "south"]
		}
	} else if b.From == "" {
		b.From = map[place.Run]place.Wall{place.EW: place.North, place.NS: place.West}[b.Run]
	}
	for _, l := range e.At {
		b.At = append(b.At, l.L)
	}
	if b.Spacing != 0 {
		var ok bool
		if b.At, ok = t.spaced(b, e); !ok {
			return
		}
	}
	if len(b.At) > 0 && !t.onSurface(b) {
		return
	}
	if thickest := map[bool]length.Length{true: 5 * length.Inch / 2, false: 16 * length.Inch}[b.What == place.Straps || b.What == place.Channels]; b.Thick > thickest {
		t.ask(fmt.Sprintf("%s %s thick? send it again, e.g. `%s 5/8 thick`", b.What, t.f(b.Thick), b.What), "")
		return
	}
	had := t.room.SupportsOf(b.Surface, b.What)
	before := t.snap(t.room)
	if len(b.At) == 0 && len(had) == 0 {
		t.no(fmt.Sprintf("no %s noted in %s yet", b.What, t.room.Name), string(b.What)+" ew 16 oc first 14 3/8 off north")
		return
	}
	if t.save(b) == nil {
		return
	}
	t.supportsNoted(b, had)
	t.moves(before)
}

// askSupports asks for what a set must say: which way it runs, and where its
// first one is. Nothing of that is guessed.
func (t *turn) askSupports(e grammar.SupportSet, s place.Surface) bool {
	if e.Spacing.L == 0 && len(e.At) == 0 {
		return true // only a thickness or a width
	}
	if e.Run == "" && !s.IsWall() {
		var choices []choice
		for _, r := range []place.Run{place.EW, place.NS} {
			next := e
			next.Run = r
			choices = append(choices, t.as(runWords(r), next))
		}
		t.ask(fmt.Sprintf("which way do the %s run?", e.What), "", choices...)
		return false
	}
	if e.Spacing.L != 0 && e.First.L == 0 {
		off := "north"
		if e.Run == place.NS || s == "north" || s == "south" {
			off = "west"
		}
		t.ask(fmt.Sprintf("where is the first one? e.g. `first 14 3/8 off %s`", off), t.as("", e).Text)
		return false
	}
	if e.From != "" {
		return true
	}
	var choices []choice
	for _, w := range place.Walls {
		a, _, ok := s.Axis(w)
		if !ok || !s.IsWall() && (a == place.Y) != (e.Run == place.EW) {
			continue
		}
		next := e
		next.From = w
		choices = append(choices, t.as(string(w), next))
	}
	t.ask("measured off which wall?", "", choices...)
	return false
}

// spaced lays out the positions of an even set, from the first to the far wall.
func (t *turn) spaced(b site.Supports, e grammar.SupportSet) ([]length.Length, bool) {
	x, y := t.room.Extent(b.Surface)
	across := x
	if b.Run == place.EW {
		across = y
	}
	if b.Spacing < 3*length.Inch || b.Spacing > 4*length.Foot {
		t.ask(fmt.Sprintf("%s %s apart? send it again", b.What, t.f(b.Spacing)), "")
		return nil, false
	}
	reach := across - t.room.BoardNow(b.From)
	var at []length.Length
	for d := e.First.L; d < reach && len(at) < mostSupports; d += b.Spacing {
		at = append(at, d)
	}
	return at, true
}

// onSurface refuses positions outside the room.
func (t *turn) onSurface(b site.Supports) bool {
	x, y := t.room.Extent(b.Surface)
	across := x
	if b.Run == place.EW {
		across = y
	}
	if len(b.At) > mostSupports {
		t.no(fmt.Sprintf("at most %d in one set", mostSupports), "")
		return false
	}
	for i, d := range b.At {
		if d > across {
			t.ask(fmt.Sprintf("%s %d at %s is outside %s (%s there). Send the list again", place.Of{Sup: b.What, N: i + 1}.String(), i+1, t.f(d), t.room.Name, t.f(across)), "")
			return false
		}
	}
	return true
}

func (t *turn) supportsNoted(b site.Supports, had []place.Support) {
	set := t.room.SupportsOf(b.Surface, b.What)
	where := t.room.Name
	if b.Surface.IsWall() {
		where += " " + string(b.Surface) + " wall"
	}
	thick := fmt.Sprintf("%s thick", t.exact(set[0].Thick))
	if !set[0].Measured {
		thick += " assumed"
	}
	u := t.units()
	facts := strapsFacts{Surface: string(b.Surface), What: string(b.What), Run: string(set[0].Run), Thick: fact(u, set[0].Thick)}
	for _, s := range set {
		facts.At = append(facts.At, fact(u, s.Pos))
	}
	if len(b.At) == 0 {
		t.noted("straps", facts, fmt.Sprintf("%s %s %s, %s wide", where, b.What, thick, t.f(set[0].Wide)))
		return
	}
	dir := map[place.Run]string{place.EW: " east-west", place.NS: " north-south", place.Up: ""}[b.Run]
	text := fmt.Sprintf("%s %d %s%s", where, len(set), b.What, dir)
	if b.Spacing != 0 {
		text += fmt.Sprintf(", %s on centre, first %s, last %s off %s", t.f(b.Spacing), t.f(b.At[0]), t.f(b.At[len(b.At)-1]), b.From)
	} else {
		var at []string
		for _, d := range b.At {
			at = append(at, t.f(d))
		}
		text += " at " + strings.Join(at, ", ") + " off " + string(b.From)
	}
	t.noted("straps", facts, text+", "+thick)
	if now := t.room.Supports(b.Surface); len(now) > 0 {
		for _, k := range []place.SupportKind{place.Straps, place.Channels} {
			if k != now[0].Kind && len(t.room.SupportsOf(b.Surface, k)) > 0 {
				t.note("check", fmt.Sprintf("the board goes on the %s; the %s are behind them", now[0].Kind, k))
			}
		}
	}
	if len(had) > 0 {
		t.note("moved", fmt.Sprintf("replaces the %d %s noted before", len(had), b.What))
	}
}

func (t *turn) supportFix(e grammar.SupportFix) {
	if !t.needRoom() {
		return
	}
	s, kind := surfaceOf(e.Surface), e.What
	set := t.room.SupportsOf(s, kind)
	name := place.Of{Sup: kind, N: e.N}.String()
	if e.N > len(set)+1 || (e.N > len(set) && (e.At.L == 0 || len(set) == 0)) {
		t.no(fmt.Sprintf("%s has %d %s", t.room.Name, len(set), kind), fmt.Sprintf("%s ns at 9 1/2 25 1/4 41 off west", kind))
		return
	}
	b := site.SupportFix{
		Room: t.room.Name, Surface: s, What: kind, N: e.N, Moved: e.At.L != 0, At: e.At.L, From: e.From,
		Start: e.Start.L, End: e.End.L, Wall: e.Wall, Stops: e.Stops,
	}
	if b.Wall != "" {
		if a, _, ok := s.Axis(b.Wall); !ok || a == set[e.N-1].Axis() {
			t.no(fmt.Sprintf("%s runs %s, it cannot stop short of the %s wall", name, runWords(set[e.N-1].Run), b.Wall), "")
			return
		}
	}
	if b.Moved && !t.strapInside(s, set, b) {
		return
	}
	before := t.snap(t.room)
	if t.save(b) == nil {
		return
	}
	now := t.room.SupportsOf(s, kind)
	if e.N > len(now) { // it came late
		t.noted("straps", nil, fmt.Sprintf("%s %s at %s, but the %s were noted anew after that: there are %d", t.room.Name, name, t.said1(e.At), kind, len(now)))
		return
	}
	p := now[e.N-1]
	text := fmt.Sprintf("%s %s", t.room.Name, name)
	if b.Moved {
		text += fmt.Sprintf(" at %s", t.said1(e.At))
		off := b.From
		if off == "" {
			off = t.room.MeasuredFrom(s, kind)
		}
		text += " off " + string(off)
		if e.N <= len(set) && set[e.N-1].Pos != p.Pos {
			text += fmt.Sprintf(" (was %s)", t.near(t.room.Off(s, off, set[e.N-1].Pos)))
		}
	}
	if b.Wall != "" {
		text += fmt.Sprintf(" runs from %s to %s off %s", t.f(p.From), t.f(p.To), map[place.Run]string{place.EW: "west", place.NS: "north", place.Up: "the floor"}[p.Run])
	}
	u := t.units()
	facts := strapsFacts{Surface: string(s), What: string(kind), Run: string(p.Run), Thick: fact(u, p.Thick)}
	for _, q := range now {
		facts.At = append(facts.At, fact(u, q.Pos))
	}
	t.noted("straps", facts, text)
	for _, q := range now {
		if d := max(q.Pos-p.Pos, p.Pos-q.Pos); b.Moved && q.N != p.N && d < p.Wide {
			t.note("check", fmt.Sprintf("it now lies on %s, %s apart", q.Name(), t.near(d)))
		}
	}
	t.moves(before)
}

// strapInside asks where a corrected position lies outside the room.
func (t *turn) strapInside(s place.Surface, set []place.Support, b site.SupportFix) bool {
	x, y := t.room.Extent(s)
	across := x
	if set[0].Axis() == place.Y {
		across = y
	}
	if b.At > across {
		t.ask(fmt.Sprintf("%s off a wall is outside %s (%s there). Send it again", t.f(b.At), t.room.Name, t.f(across)), "")
		return false
	}
	return true
}

func runWords(r place.Run) string {
	return map[place.Run]string{place.EW: "east-west", place.NS: "north-south", place.Up: "up"}[r]
}
