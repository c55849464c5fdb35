package grammar

import (
	"slices"
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
)

// String is the line in canonical form: its frame, then its entry.
func (l Line) String() string {
	var b strings.Builder
	if l.Room != "" {
		b.WriteString(l.Room + ": ")
	}
	if l.At != "" {
		b.WriteString("at " + l.At + " ")
		if l.Exact {
			b.WriteString("am ")
		}
	}
	switch l.Entry.(type) {
	case Note, Snag, Job: // they keep the rest of their line
		return b.String() + l.Entry.String()
	}
	b.WriteString(l.Entry.String())
	if l.Before > 0 {
		b.WriteString(", before row " + strconv.Itoa(l.Before))
	}
	if l.After > 0 {
		b.WriteString(", after row " + strconv.Itoa(l.After))
	}
	return b.String()
}

// text puts parts of a line together: words with spaces, clauses with commas.
type text struct{ b strings.Builder }

func (t *text) add(words ...string) *text {
	for _, w := range words {
		if w == "" {
			continue
		}
		if t.b.Len() > 0 {
			t.b.WriteByte(' ')
		}
		t.b.WriteString(w)
	}
	return t
}

// clause begins the next clause: a comma ends the number or the label before it.
func (t *text) clause(words ...string) *text {
	if strings.Join(words, "") == "" {
		return t
	}
	t.b.WriteByte(',')
	return t.add(words...)
}

// place adds where something is. Right after a kind or a name there is
// nothing that a comma must end.
func (t *text) place(on place.Surface, fs []place.Fix, comma bool) string {
	clauses := []string{onSurface(on)}
	for _, f := range fs {
		clauses = append(clauses, f.String())
	}
	for _, c := range clauses {
		if comma {
			t.clause(c)
		} else {
			t.add(c)
		}
		comma = comma || c != ""
	}
	return t.String()
}

func (t *text) String() string { return t.b.String() }

func orNone(v length.Said) string {
	if v == (length.Said{}) {
		return ""
	}
	return v.String()
}

func list(ls []length.Said) string {
	var b strings.Builder
	for i, l := range ls {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(l.String())
	}
	return b.String()
}

func onSurface(s place.Surface) string {
	switch s {
	case "":
		return ""
	case place.Ceiling:
		return "on ceiling"
	}
	return "on " + string(s) + " wall"
}

func offWall(w place.Wall) string {
	if w == "" {
		return ""
	}
	return "off " + string(w)
}

func (e Job) String() string      { return "job " + e.Title }
func (e UnitsSet) String() string { return "units " + string(e.Units) }
func (e Built) String() string    { return "built " + strconv.Itoa(e.Year) }

func (e Room) String() string {
	var t text
	t.add("room")
	for w := range strings.FieldsSeq(e.Name) {
		if t.add(w); strings.Trim(w, "0123456789") == "" { // bed 2, 13' x 11'
			t.b.WriteByte(',')
		}
	}
	t.add(e.EW.String(), "x", e.NS.String())
	if e.High != (length.Said{}) {
		t.clause("high", e.High.String())
	}
	for _, n := range e.Less {
		t.clause("less", n.EW.String(), "x", n.NS.String())
		if n.Corner != "" {
			t.add(n.Corner)
		} else {
			t.add(string(n.Wall), n.Off.String(), offWall(n.OffWall))
		}
	}
	return t.String()
}

func (e InRoom) String() string { return "in " + e.Name }

func (e Alias) String() string {
	if e.Wall != "" {
		return string(e.Wall) + " is " + e.Name + " wall"
	}
	return e.Room + " is called " + e.Name
}

func (e SupportSet) String() string {
	var t text
	t.add(string(e.What), string(e.Run))
	if e.Spacing != (length.Said{}) {
		t.add(e.Spacing.String(), "oc")
	}
	sep := t.add // a comma from the first number on
	if e.Spacing != (length.Said{}) {
		sep = t.clause
	}
	if e.First != (length.Said{}) {
		sep("first", e.First.String(), offWall(e.From))
		sep = t.clause
	}
	if len(e.At) > 0 {
		sep("at", list(e.At), offWall(e.From))
		sep = t.clause
	}
	if e.Thick != (length.Said{}) {
		sep(e.Thick.String(), "thick")
		sep = t.clause
	}
	if e.Wide != (length.Said{}) {
		sep(e.Wide.String(), "wide")
	}
	return t.clause(onSurface(e.Surface)).String()
}

func (e SupportFix) String() string {
	var t text
	t.add(e.What.One(), strconv.Itoa(e.N))
	switch {
	case e.Stops:
		t.add("stops", e.End.String(), offWall(e.Wall))
	case e.End != (length.Said{}):
		t.add("from", e.Start.String(), "to", e.End.String(), offWall(e.Wall))
	default:
		t.add("at", e.At.String(), offWall(e.From))
	}
	return t.clause(onSurface(e.Surface)).String()
}

func (e Board) String() string {
	var t text
	t.add("board")
	switch {
	case e.Thick != (length.Said{}) && e.Wide != (length.Said{}):
		t.add(e.Thick.String(), "x", e.Wide.String())
	case e.Thick != (length.Said{}):
		t.add(e.Thick.String(), "thick")
	case e.Wide != (length.Said{}):
		t.add(e.Wide.String(), "wide")
	}
	if len(e.Lengths) > 0 {
		t.add("lengths", list(e.Lengths))
	}
	return t.String()
}

func (e Clearance) String() string { return "clearance " + e.L.String() }
func (e Screw) String() string     { return "screw " + e.L.String() }
func (e BoardsRun) String() string { return "boards " + e.Dir }
func (e RowsFrom) String() string  { return "rows from " + string(e.Wall) }

func sizeText(s place.Size) string { return s.Text(length.Canon) }

// A label stands before the size: behind a number "edge" or "strong" would be
// said of the number.
func (e Thing) String() string {
	var t text
	t.add(e.What)
	if e.Name == "" && runsOn(e.What, e.Label) {
		t.b.WriteByte(',')
	}
	t.add(e.Name, e.Label, sizeText(e.Size))
	t.place(e.Surface, e.Fixes, t.String() != e.What)
	if e.AfterPaint {
		t.clause("after paint")
	}
	return t.String()
}

// runsOn reports whether the label's words would be read with what: "junction"
// and "box" is one word for a thing, a "box fan" is a fan.
func runsOn(what, label string) bool {
	said := strings.Fields(what + " " + label)
	n := len(strings.Fields(what))
	for _, p := range words.phrases[said[0]] {
		if k := len(p.words); k > n && k <= len(said) && slices.Equal(p.words, said[:k]) {
			return true
		}
	}
	for k := n + 1; k <= min(len(said), n+3); k++ {
		if words.thing[strings.Join(said[n:k], " ")] != "" {
			return true
		}
	}
	return false
}

func (e Even) String() string {
	var t text
	t.add(plural(e.What))
	if size := sizeText(e.Size); size != "" {
		t.add(size).b.WriteByte(',')
	}
	return t.add(strconv.Itoa(e.A), "x", strconv.Itoa(e.B), "even").String()
}

func (e Mark) String() string {
	var t text
	return t.add("mark", e.Name).place(e.Surface, e.Fixes, false)
}

func (e Gap) String() string {
	var t text
	t.add("gap", e.A.String())
	return t.clause(orNone(e.B)).String()
}

func (e Hung) String() string {
	var t text
	t.add("hung")
	for i, p := range e.Pieces {
		if i > 0 {
			t.add("+")
		}
		t.add(p.String())
	}
	t.add("row", strconv.Itoa(e.Row), onSurface(e.Surface), string(e.Run))
	if len(e.Cut) > 0 {
		t.add("cut", strings.Join(e.Cut, ", "))
	}
	return t.String()
}

func (e UpAll) String() string {
	if e.Surface == place.Ceiling {
		return "ceiling up"
	}
	return string(e.Surface) + " wall up"
}

func (e Boarded) String() string {
	if e.Finished {
		return string(e.Wall) + " wall finished"
	}
	var t text
	return t.add(string(e.Wall), "wall boarded", orNone(e.Thick)).String()
}

func (e Opened) String() string { return "open " + strings.Join(e.Names, ", ") }

func (e Find) String() string {
	if len(e.Name) == 1 {
		return "find mark " + e.Name
	}
	return "find " + e.Name
}

func (e Covered) String() string { return "covered" }
func (e Status) String() string  { return "status" }
func (e Undo) String() string    { return "undo" }
func (e Snags) String() string   { return "snags" }

func (e AnyOver) String() string {
	what := "any " + e.What
	switch {
	case e.Row == 0:
		return what + " noted"
	case e.What == "":
		what = "anything"
	}
	return what + " over row " + strconv.Itoa(e.Row)
}

func (e Log) String() string {
	var t text
	t.add("log")
	if e.Today {
		t.add("today")
	}
	if e.Since > 0 {
		t.add("since", strconv.Itoa(e.Since))
	}
	if e.Of != "" {
		t.add("of", e.Of)
	}
	return t.String()
}

func (e Who) String() string {
	var t text
	t.add("who hung")
	if e.Row > 0 {
		t.add("row", strconv.Itoa(e.Row))
	}
	return t.add(onSurface(e.Surface)).String()
}

func (e Note) String() string { return "note " + e.Text }

func (e Snag) String() string {
	if e.Fixed > 0 {
		return "snag " + strconv.Itoa(e.Fixed) + " fixed"
	}
	return "snag " + e.Text
}

func (e Hit) String() string    { return "hit " + e.What }
func (e Strike) String() string { return "strike " + strconv.Itoa(e.Seq) }

func (e Refix) String() string {
	var t text
	return t.add("fix", e.Name, sizeText(e.Size)).place("", e.Fixes, e.Size.A != 0)
}

func (e Swap) String() string {
	if e.Old == (length.Said{}) {
		return "*" + e.New.String()
	}
	return e.New.String() + " not " + e.Old.String()
}

func (e Help) String() string {
	var t text
	return t.add("help", e.Topic).String()
}

func (e Pick) String() string { return strconv.Itoa(e.N) }
func (e Bare) String() string { return e.L.String() }

func (Job) Kind() Kind        { return "job" }
func (UnitsSet) Kind() Kind   { return "units" }
func (Built) Kind() Kind      { return "built" }
func (Room) Kind() Kind       { return "room" }
func (InRoom) Kind() Kind     { return "in" }
func (Alias) Kind() Kind      { return "alias" }
func (SupportSet) Kind() Kind { return "supports" }
func (SupportFix) Kind() Kind { return "support" }
func (Board) Kind() Kind      { return "board" }
func (Clearance) Kind() Kind  { return "clearance" }
func (Screw) Kind() Kind      { return "screw" }
func (BoardsRun) Kind() Kind  { return "boards" }
func (RowsFrom) Kind() Kind   { return "rows" }
func (Thing) Kind() Kind      { return "thing" }
func (Even) Kind() Kind       { return "even" }
func (Mark) Kind() Kind       { return "mark" }
func (Gap) Kind() Kind        { return "gap" }
func (Hung) Kind() Kind       { return "hung" }
func (UpAll) Kind() Kind      { return "up" }
func (Boarded) Kind() Kind    { return "boarded" }
func (Opened) Kind() Kind     { return "open" }
func (Find) Kind() Kind       { return "find" }
func (Covered) Kind() Kind    { return "covered" }
func (AnyOver) Kind() Kind    { return "any" }
func (Log) Kind() Kind        { return "log" }
func (Who) Kind() Kind        { return "who" }
func (Status) Kind() Kind     { return "status" }
func (Note) Kind() Kind       { return "note" }
func (Snag) Kind() Kind       { return "snag" }
func (Snags) Kind() Kind      { return "snags" }
func (Hit) Kind() Kind        { return "hit" }
func (Undo) Kind() Kind       { return "undo" }
func (Strike) Kind() Kind     { return "strike" }
func (Refix) Kind() Kind      { return "fix" }
func (Swap) Kind() Kind       { return "swap" }
func (Help) Kind() Kind       { return "help" }
func (Pick) Kind() Kind       { return "pick" }
func (Bare) Kind() Kind       { return "bare" }
