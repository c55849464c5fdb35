package clause

import (
	"regexp"
	"slices"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/parts"
	"strapline/grammar/speech"
)

// The parts of speech by their names here.
const (
	other, filler, number, kind, wall, ceiling, floor    = parts.Other, parts.Filler, parts.Number, parts.Kind, parts.Wall, parts.Ceiling, parts.Floor
	off, of, up, down, every, corner, end, way           = parts.Off, parts.Of, parts.Up, parts.Down, parts.Every, parts.Corner, parts.End, parts.Way
	wallish, one, row, apart, evenly, start, gang, round = parts.Wallish, parts.One, parts.Row, parts.Apart, parts.Evenly, parts.Start, parts.Gang, parts.Round
	wide, deep, by, side, near, head, pronoun, sill      = parts.Wide, parts.Deep, parts.By, parts.Side, parts.Near, parts.Head, parts.Pronoun, parts.Sill
	mid, and, on, named, along, tag, numbering, toward   = parts.Mid, parts.And, parts.On, parts.Named, parts.Along, parts.Tag, parts.Numbering, parts.Toward
	full, then, about                                    = parts.Full, parts.Then, parts.About
)

type item = parts.Item

// line is a text, sorted, and what it says.
type line struct {
	*parts.Line
	Said
}

// Dist is a distance, in canonical words.
type Dist struct {
	Text string // "30 off west", "10 west of door 1"
	Wall string // the wall that it is off, or toward which it goes; "" if that is not said
	Far  string // the length alone
	Head bool   // it is that of the first of a row
}

// Step is how far one is from the next, and along which walls, if said.
type Step struct{ Far, Along string }

// Clause is what is said of the things of one kind, on one surface.
type Clause struct {
	What   string
	Plural bool
	Label  string
	Called bool   // the label is what stands before its kind
	By     string // the opening that it is near
	Number string // its name: 3 of "number 3 can"
	Wide   string
	High   string // the other side of it
	broad  bool   // it was said how wide it is, so its height comes next
	Count  int
	On     string // the wall that it is in, or ceiling
	Dists  []Dist
	Refs   []Ref
	Ups    []string
	UpHead bool   // a height was said before any distance
	Mid    bool   // in the middle of what no distance gives
	Each   string // off each corner or end
	Sides  string // off each side, beside the one off each end
	Ends   bool   // one at each end of the wall
	Corner bool   // one in each corner
	Around string // one on each side of that
	Steps  []Step
	Toward string // the wall that its row goes to
	Square bool   // its spacing is that both ways
	Rows   int
	Per    int  // how many in a row
	Full   bool // from end to end of its wall
	Band   Reach
	Span   Reach
	Even   bool
	starts bool    // what follows is the place of the first
	Above  bool    // straight above or below what was said before
	Shares bool    // what it does not say is as said of the others
	Parts  bool    // more of them are in another wall
	Like   *Clause // it is placed as that, but for what it says itself
	Split  bool    // it was begun by another wall, with the kind of the one before
}

// Reach is from where to where something goes: up, or off a wall.
type Reach struct{ From, To, Wall string }

// Ref is a distance from something noted: how far, with left or right if said, and off what.
type Ref struct{ Far, Of string }

// Said is what a text says, with how far that can be told.
type Said struct {
	Clauses []*Clause
	Strays  []string // words without a part
	Doubt   bool     // it may be meant otherwise
	Loose   bool     // a height was taken for one by its place alone
	Bare    bool     // a distance stands before its wall without "off"
	Close   bool     // numbers of a list stand right behind each other
	Shares  bool     // "both", "all": what is said of one is said of the others
	Others  bool     // "the other" one is told apart
	Led     bool     // a place was said before any thing
	Label   string   // words before a thing that no thing took
}

// Read returns what a line says of things and where they are, nil if it says nothing of any, or if a number of it
// has no role.
func Read(s *speech.Line) *Said {
	sorted, ok := parts.Scan(s)
	if !ok || !slices.ContainsFunc(sorted.Items, func(it item) bool { return it.Is == kind || it.Is == round || it.Is == gang }) {
		return nil
	}
	if slices.ContainsFunc(s.Items, func(it speech.Item) bool { // a sprinkler pipe
		first, _, two := strings.Cut(it.Low, " ")
		return two && it.Tag == speech.Service && lex.ThingOf[first] != "" && lex.ThingOf[it.Low] == ""
	}) {
		return nil
	}
	if aslope.MatchString(lex.Lower(s.Read)) { // its places are not those of a wall
		return nil
	}
	l := &line{Line: sorted}
	f := &frame{line: l, cur: new(Clause)}
	f.Clauses, f.Doubt = []*Clause{f.cur}, sorted.Vague
	ones, across, deep := 0, false, false
	for _, it := range l.Items {
		if it.Low == "one" {
			ones++
		}
		across, deep = across || it.Low == "across", deep || it.Low == "down"
		f.gridded = f.gridded || it.Is == row || it.Is == apart || it.Is == evenly || it.Low == "grid" || across && deep
		f.Others = f.Others || it.Is == one && it.Low != "one" || ones > 1
	}
	for i := range l.Items {
		if !f.item(i) {
			return nil
		}
	}
	if f.cur.What == "" && f.wide != "" && len(f.Clauses) == 1 { // "6 round comes out of the north wall"
		f.cur.What, f.cur.Wide, f.wide, f.Doubt = "duct", f.wide, "", true
		f.cur.Label, f.label = f.label, ""
	}
	if !f.liken() || f.mixed || len(f.pending) > 0 || f.wide != "" || f.count > 0 || f.number3 != "" || f.from.far != "" {
		return nil
	}
	f.Label = f.label
	return &f.Said
}

// aslope matches what is in a slope.
var aslope = regexp.MustCompile(`\b(?:roof window|(?:north|east|south|west) slope)\b`)
