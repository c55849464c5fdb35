package missing

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/parts"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/speech"
	"strapline/grammar/topic"
)

// Guess is one of the choices of the question.
type Guess = speech.Guess

// frame is what was understood of a line.
type frame struct {
	*speech.Line
	head   string   // what there is, with its size
	said   []string // its distances, in canonical words
	on     string   // the surface that it is in, "" if that was not said
	up     bool     // its height is known
	mid    bool     // in the middle of what no distance gives
	ew, ns bool     // how far it is off the east or the west wall, and off the north or the south wall, is known
	open   []int    // numbers without a wall
	count  int
	edge   string   // " to edge", if its distances are to that
	but    []string // why a number is none of a place
}

// Of returns the question for a line, nil if it is about something else or has no distance. Each choice is a line,
// which may lead to the next question, or words added to a Base answer it. It is Tied if every number is a distance.
func Of(said *speech.Line) []Guess {
	if said.AsksSomething() || said.Cmd != nil && said.Cmd.Kind != "room" || len(said.Pieces) > 60 {
		return nil
	}
	f := &frame{Line: said.Clone()}
	for _, of := range []func(*frame) []Guess{(*frame).crooked, (*frame).cut} {
		if q := of(f); q != nil {
			return q
		}
	}
	if m := atWall.FindSubmatchIndex(f.Tags); m != nil { // a side of a room that is not as long
		long := f.Said(m[2])
		if m[3]-m[2] == 2 {
			long += "' " + f.Said(m[2]+1)
		}
		return asks(fmt.Sprintf("%s: is that how long the %s wall is?", long, f.Said(m[4])), f.choice("yes", "square "+f.Said(m[4])+" "+long))
	}
	if m := numbered.FindIndex(f.Tags); m != nil && f.Items[m[1]-1].N > 0 && f.Items[m[1]-1].Sep == 0 && f.Items[m[1]-1].N < 60 {
		return nil
	}
	if f.Of == "several" || f.Changes() || slices.ContainsFunc(f.Pieces[f.Begin:], func(p lex.Piece) bool { return others[p.Low] }) {
		return nil
	}
	f.also()
	hidden, runs := f.Left(speech.Thing), f.Left(speech.Service)
	if len(hidden) == 2 && hidden[1] == hidden[0]+1 { // a switch box is a switch
		f.Tags[hidden[1]], hidden = speech.Used, hidden[:1]
	}
	switch {
	case len(hidden) == 1 && len(runs) == 0:
		return f.thing(hidden[0])
	case len(hidden) == 0 && len(runs) == 1:
		return f.run(runs[0])
	}
	return nil
}

// also makes a thing of a word that stands for one only beside distances: a can, a rec.
func (f *frame) also() {
	if f.Has("ZS") {
		return
	}
	for i, p := range f.Pieces[f.Begin:] {
		what := parts.Also[p.Low]
		if p.Low == "can" && i > 0 && tellsApart[f.Pieces[f.Begin+i-1].Low] {
			what = "light"
		}
		if what != "" {
			at := slices.IndexFunc(f.Items, func(it speech.Item) bool { return it.At >= p.Start })
			if at < 0 {
				at = len(f.Items)
			}
			if at < len(f.Items) && f.Items[at].At == p.Start {
				f.Items, f.Tags = slices.Delete(f.Items, at, at+1), slices.Delete(f.Tags, at, at+1)
			}
			f.Items = slices.Insert(f.Items, at, speech.Item{Tag: speech.Thing, Text: what, Low: what, At: p.Start})
			f.Tags = slices.Insert(f.Tags, at, speech.Thing)
			return
		}
	}
}

// tellsApart are words before a thing that are no name of it; a can behind one is a light.
var tellsApart = lex.Set("a", "the", "another", "one", "second", "third", "more", "this", "that", "last", "next")

// cut asks which thing was found and cut.
func (f *frame) cut() []Guess {
	if !itsCut.MatchString(f.AsSaid()) {
		return nil
	}
	return asks("which one is cut? e.g. `"+cmp.Or(f.Last.Name, "outlet 1")+"`", Guess{Base: f.roomed("open")})
}

var itsCut = regexp.MustCompile(`^(?:(?:ok|okay|yes|yep|found|got|it|em|them|one|and|now|so|i|we|just|,)[ ,]*)*(?:(?:it|they|that|that one)(?: i|'|’)?(?:s|re)(?: been)?|is|are) (?:cut|opened)(?: out| open| now| too)*$`)

// asks is a question with its choices.
func asks(why string, all ...Guess) []Guess {
	if len(all) > 0 {
		all[0].Asks = why
	}
	return all
}

// choice is lines in the room that was named.
func (f *frame) choice(label string, lines ...string) Guess {
	for i := range lines {
		lines[i] = f.roomed(lines[i])
	}
	return Guess{Label: label, Then: strings.Join(lines, "\n")}
}

func (f *frame) roomed(text string) string {
	return grammar.InRoom(cmp.Or(f.Room, f.Of), text)
}

// others are words of lines that are about boards, orders or what is done, whatever else they name.
var others = lex.Set(strings.Fields("cut piece pieces board boards sheet sheets row rows need order buy bring brought hang hung open covered boarded found each both every")...)

var (
	atWall   = regexp.MustCompile(`^[VP]*(N+)[IyA]*P(W)$`)
	sizeOf   = regexp.MustCompile(`(N)i*x(N)i*`)
	wideIs   = regexp.MustCompile(`(N)i*I`)
	beforeIt = regexp.MustCompile(`([Nc])i*[ZS]`)
	highAt   = regexp.MustCompile(`(N)i*(?:[UH]|[oO]*OF)`)
	lowAt    = regexp.MustCompile(`(N)i*[jO]+C`)
	beside   = regexp.MustCompile(`(?i)\b(?:left|right|each side|either side) of\b`)
	// wholeSaid are words for all of a wall, or for all of them.
	wholeSaid = regexp.MustCompile(`(?i)\b(?:whole|entire|full (?:width|length)|all (?:along|round|around)|end to end|wall to wall|another one|the same)\b`)
	fromTo    = regexp.MustCompile(`N[ioIUOFWP]*T[O]?N`)
	numbered  = regexp.MustCompile(`[Kb]N`) // in bay 5, off strap 3
	offNone   = regexp.MustCompile(`^N[ijIoAVU.B]*O`)
	toMiddle  = regexp.MustCompile(`NT(M)`)
	edgeAt    = regexp.MustCompile(`(N)T([.h])`)
	leftOf    = regexp.MustCompile(`(N)i*P?\.?(\.)`)
	offThing  = regexp.MustCompile(`(N)[ioBA.]*O([.ZR])`)
	metric    = regexp.MustCompile(`\d ?(cm|mm)$`)
)

var (
	// edges are parts of a thing or of an opening that a distance may be to or off, nearest the words before the near edge.
	edges   = lex.Set("top", "bottom", "edge", "jamb", "casing", "trim", "frame")
	nearest = lex.Set("near", "nearest", "close", "closest", "its", "the", "to")
)

// measures takes the distances and the surface. It reports whether they can be of one place.
func (f *frame) measures() bool {
	if fromTo.Match(f.Tags) || wholeSaid.MatchString(f.Read) { // an extent, which is no place alone
		return false
	}
	if m := f.Take(sizeOf); m != nil {
		f.head += " " + f.Said(m[0]) + " x " + f.Said(m[1])
	} else if m := f.Take(wideIs); m != nil {
		f.head += " " + f.Said(m[0])
	} else if m := beforeIt.FindSubmatchIndex(f.Tags); m != nil {
		if n := speech.Whole(f.Items[m[2]].Low); n > 1 && m[1]-m[0] == 2 {
			f.count = n
		} else {
			f.head += " " + f.Said(m[2])
		}
		f.Use(m[2], m[3])
	}
	for m := toMiddle.FindSubmatchIndex(f.Tags); m != nil; m = toMiddle.FindSubmatchIndex(f.Tags) { // which a distance goes to anyway
		if f.Tags[m[2]], f.Tags[m[2]-1] = speech.Used, speech.Used; f.Items[m[2]-1].Low == "up to" {
			f.Tags[m[2]-1] = 'U'
		}
	}
	for i, p := range f.Pieces[f.Begin:] {
		if i > 0 && (p.Low == "edge" || p.Low == "edges") && nearest[f.Pieces[f.Begin+i-1].Low] {
			f.edge = " to edge"
		}
	}
	if m := f.Take(highAt); m != nil {
		f.up, f.said = true, append(f.said, f.bare(m[0])+" up")
	} else if m := f.Take(lowAt); m != nil {
		f.up, f.said = true, append(f.said, f.bare(m[0])+" down")
	}
	for m := edgeAt.FindSubmatchIndex(f.Tags); m != nil && edges[f.Items[m[4]].Low]; m = edgeAt.FindSubmatchIndex(f.Tags) {
		f.but = append(f.but, f.Said(m[2])+" is to its "+f.Items[m[4]].Low)
		f.Use(m[0], m[1])
	}
	for _, d := range f.Fars() {
		if ew := d.Wall.EastWest(); ew && f.ew || !ew && f.ns { // of one thing, one of them is wrong
			return false
		}
		f.ew, f.ns = f.ew || d.Wall.EastWest(), f.ns || !d.Wall.EastWest()
		f.said = append(f.said, d.String()+f.edge)
	}
	for m := leftOf.FindSubmatchIndex(f.Tags); m != nil; m = leftOf.FindSubmatchIndex(f.Tags) {
		side := strings.Fields(f.Read[f.Items[m[2]].At:f.Items[m[4]].At])
		if len(side) < 2 || !slices.Contains(side, "left") && !slices.Contains(side, "right") {
			break
		}
		f.but = append(f.but, f.Said(m[2])+" is beside a "+f.Items[m[4]].Low+" that is not noted")
		f.Use(m[0], m[1])
	}
	for m := offThing.FindSubmatchIndex(f.Tags); m != nil; m = offThing.FindSubmatchIndex(f.Tags) {
		what := f.Items[m[4]].Low
		if places.Openings[what] == "" && !edges[what] {
			break
		}
		f.but = append(f.but, f.Said(m[2])+" is off a "+what+" that is not noted")
		f.Use(m[0], m[1])
	}
	for _, i := range f.Left(speech.Wall) {
		w := f.Said(i) + " wall"
		if f.on != "" && f.on != w {
			return false
		}
		f.on = w
	}
	if w := f.wall(); w != "" && (f.ew && w.EastWest() || f.ns && !w.EastWest()) {
		return false // off the wall that it is in, or the one opposite
	}
	if f.on == "" && f.Has("C") && !f.up {
		f.on = "ceiling"
	}
	if strings.Contains(lex.Lower(f.Read), " slope") && !strings.Contains(f.on, "slope") {
		return false
	}
	for _, i := range f.Left('M') { // of the door, not of the room
		if k := i + 1; k < len(f.Tags) && (f.Tags[k] == speech.Stray || f.Tags[k] == speech.Thing) && f.Items[k].Low != "of" {
			return false
		}
		f.mid = true
	}
	f.open = f.Left(speech.Length)
	if len(f.open) > 2 || len(f.open) > 0 && beside.MatchString(f.Read) { // of several, or beside something that is not read
		return false
	}
	return len(f.said)+len(f.but) > 0 || f.mid && f.EW > 0 || f.on != "" && f.Has("L") || slices.ContainsFunc(f.open, func(i int) bool { return offNone.Match(f.Tags[i:]) })
}

// crooked asks for the walls of a room that is not square.
func (f *frame) crooked() []Guess {
	if !askew.MatchString(f.Read) || len(f.Left(speech.Length)) > 0 || f.Of == "" && len(f.Left(speech.Room)) == 0 {
		return nil
	}
	if f.Of+f.Room == "" { // a room without a size is no room
		var name []string
		for _, i := range f.Left(speech.Room) {
			name = append(name, f.Items[i].Low)
		}
		room := strings.Join(name, " ")
		return asks(room+" is not noted yet: its longest sides first, e.g. `"+f.Units.Pick("13' 4 x 11' 9", "4064 x 3581")+"`", Guess{Base: "room " + room + ","})
	}
	return asks("by how much? its walls and one diagonal, as the tape reads them, e.g. `"+read.Words.Rows["square"].Say(f.Units)+"`", Guess{Base: f.roomed("square")})
}

var askew = regexp.MustCompile(`(?i)\b(?:is ?n['’]?t|not|ain['’]?t|out of|far from) (?:very |really |quite |at all )?square\b`)

// wall is the wall that it is in, "" if that was not said.
func (f *frame) wall() place.Wall {
	w, _ := strings.CutSuffix(f.on, " wall")
	if w == f.on {
		return ""
	}
	return place.Wall(w)
}

// upright reports whether it is in a wall.
func (f *frame) upright() bool { return f.up || f.wall() != "" }

// thing asks where a thing is.
func (f *frame) thing(i int) []Guess {
	if f.head = f.Items[i].Text; lex.ThingOf[f.head] != f.head || f.head == "" {
		return nil
	}
	if i > 0 && f.Tags[i-1] == speech.Stray && len(f.Items[i-1].Low) > 2 && !tellsApart[f.Items[i-1].Low] {
		f.head += " " + f.Items[i-1].Low
	}
	if !f.measures() {
		return nil
	}
	if n := len(f.open); n == 1 && len(f.but) == 0 || n > 1 && n == f.count && (f.up || !f.upright()) {
		return f.offWhich()
	}
	if f.mid {
		f.said = append(f.said, "in the middle")
		f.ew, f.ns = true, true
		if f.halves() {
			return asks("did you mean this?", f.choice(f.text(), f.text()))
		}
	}
	if f.up && f.on == "" {
		return f.onWhich()
	}
	var wants, eg []string
	want := func(what, inches, metric string) {
		wants, eg = append(wants, "how far "+what+"?"), append(eg, f.Units.Pick(inches, metric))
	}
	side := f.wall()
	if f.upright() && !f.up {
		want("up", "16 up", "400 up")
	}
	if !f.ew && !side.EastWest() && (side == "" || !f.ns) {
		want("off west or east", "41 off west", "1041 off west")
	}
	if !f.ns && (side == "" || side.EastWest() && !f.ew) {
		want("off north or south", "26 off north", "660 off north")
	}
	if n := f.opened(); n != "" {
		f.but = append(f.but, n+" alone could be off any wall")
	}
	switch {
	case wants != nil:
	case f.but != nil:
		wants, eg = []string{"where is it?"}, []string{f.Units.Pick("26 off west", "660 off west")}
	default: // with words to spare
		return nil
	}
	why := f.text() + ": "
	if f.but != nil {
		why += strings.Join(f.but, ", ") + ". "
	}
	return asks(why+strings.Join(wants, " ")+" e.g. `"+strings.Join(eg, " ")+"`", Guess{Base: f.roomed(f.text())})
}

// halves reports whether two numbers are those of the middle of the room.
func (f *frame) halves() bool {
	if len(f.open) != 2 {
		return false
	}
	a, b := f.Size(f.open[0]), f.Size(f.open[1])
	near := func(l, side length.Length) bool { return max(2*l-side, side-2*l) < 2*length.Inch }
	return near(a, f.EW) && near(b, f.NS) || near(a, f.NS) && near(b, f.EW)
}

// offWhich asks which wall the distances that are left are off.
func (f *frame) offWhich() (all []Guess) {
	line := f.Last.Name != "" && !f.ew && !f.ns && sameLine.MatchString(f.Read)
	why := fmt.Sprintf("%s: %s off which wall?", f.text(), f.opened())
	if line {
		why = fmt.Sprintf("%s in line with %s: %s off which wall?", f.text(), f.Last.Name, f.opened())
	}
	if f.mid {
		f.said = append(f.said, "in the middle")
	}
	if f.upright() && !f.up {
		why = fmt.Sprintf("%s: %s up, or off which wall?", f.text(), f.opened())
		all = []Guess{f.choice("up", f.text(f.bare(f.open[0])+" up"))}
	}
	on := f.wall()
	for _, w := range place.Walls {
		ew := w.EastWest()
		if ew && f.ew || !ew && f.ns || f.upright() && (f.ew || f.ns || on == w || on == w.Opposite()) {
			continue
		}
		var lines []string
		for _, i := range f.open {
			far := f.bare(i) + " off " + string(w) + f.edge
			if line { // the one that is the same as that of the last
				far += ", 0 " + map[bool]string{true: "north", false: "west"}[ew] + " of " + f.Last.Name
			}
			lines = append(lines, f.text(far))
		}
		all = append(all, f.choice(string(w), lines...))
	}
	if len(all) > 0 {
		all[0].Tied = !slices.ContainsFunc(f.open, func(i int) bool { return !offNone.Match(f.Tags[i:]) })
	}
	return asks(why, all...)
}

var sameLine = regexp.MustCompile(`(?i)\bsame (?:line|row)\b|\bin ?line\b|\blined up\b`)

// onWhich asks which wall it is in.
func (f *frame) onWhich() (all []Guess) {
	why := strings.Join(append([]string{f.text()}, f.but...), ", ") + ": on which wall?"
	for _, w := range place.Walls {
		if ew := w.EastWest(); ew && !f.ew || !ew && !f.ns {
			f.on = string(w) + " wall"
			all = append(all, f.choice(string(w), f.text()))
		}
	}
	if len(all) > 0 {
		all[0].Tied = len(f.but) > 0 && len(f.opened()) == 0
	}
	return asks(why, all...)
}

// text is what was understood, in canonical words, with more.
func (f *frame) text(more ...string) string {
	all := slices.Concat([]string{f.head}, f.said, more)
	if f.on != "" {
		all = append(all, "on "+f.on)
	}
	return strings.Join(all, ", ")
}

// opened is the numbers whose wall is not said.
func (f *frame) opened() string {
	var all []string
	for _, i := range f.open {
		all = append(all, f.bare(i))
	}
	return strings.Join(all, " and ")
}

// bare is the number at i, with the metric unit that another one has if it has none itself: 45 beside "60 cm".
func (f *frame) bare(i int) string {
	said := f.Said(i)
	if speech.Whole(said) == 0 {
		return said
	}
	for _, it := range f.Items {
		if m := metric.FindStringSubmatch(it.Low); m != nil && it.Tag == speech.Length {
			return said + " " + m[1]
		}
	}
	return said
}

// ownName matches words and a place behind them.
var ownName = regexp.MustCompile(`^(?:(?:the|a|an|got|new|put|in|theres|there's) )*([a-z][a-z-]+(?: [a-z][a-z-]+)?)(?: is| are| goes| going| sits)? ((?:(?:on|in|at|over|by) .*)?\d.*)$`)

// Fitting says that a thing by a name of its own is a fitting, "" if there is none: "towel warmer 90 up 20 off north".
func Fitting(l *read.Source) string {
	m := ownName.FindStringSubmatch(lex.Lower(l.Text[l.Pieces[l.Begin].Start:]))
	if m == nil || l.AsksSomething() {
		return ""
	}
	if words := topic.Telling(m[1]); len(words) != len(strings.Fields(m[1])) || slices.ContainsFunc(words, func(w string) bool {
		return topic.Works(w) || topic.RoomNoun[w] || topic.Negates[w] || lex.Numeral(w) || read.Talk[w] || places.Openings[w] != "" || lex.Phrases[w] != nil
	}) {
		return ""
	}
	return grammar.InRoom(l.Room, m[1]+" fitting "+m[2])
}
