package spots

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/clause"
	"strapline/grammar/lex"
	"strapline/grammar/things"
)

// head is a thing without its place: its kind, name and size. Several have no label in common, which would
// be one name for all.
func head(c *clause.Clause, n int, units length.Units) string {
	said := c.What
	if c.Number != "" {
		said += " " + c.What[:1] + c.Number
	}
	switch {
	case c.Label == "" || n > 1:
	case things.RunsOn(c.What, c.Label): // "double gang box"
		said = c.Label + " " + said
	default:
		said += " " + c.Label
	}
	size := size(c, units)
	if size != "" && said != c.What {
		said += ","
	}
	return strings.TrimSpace(said + " " + size)
}

// size is the size of a thing. A bare figure alone may be its number.
func size(c *clause.Clause, units length.Units) string {
	switch {
	case c.High != "" && c.Wide != "":
		return c.Wide + " x " + c.High
	case units != length.Metric && c.Wide != "" && strings.Trim(c.Wide, "0123456789") == "":
		return c.Wide + `"`
	}
	return c.Wide
}

// base is what is known of the things of a clause, to which what is missing is added.
func (f *placer) base(c *clause.Clause) string {
	parts := []string{head(c, 1, f.Units)}
	if c.Rows > 0 && c.Per > 0 {
		parts = append(parts, fmt.Sprintf("%d rows of %d", c.Rows, c.Per))
	} else if c.Count > 0 {
		parts = append(parts, fmt.Sprintf("%d of them", c.Count))
	}
	for _, s := range c.Steps {
		parts = append(parts, strings.TrimSpace(s.Far+" apart "+s.Along))
	}
	for _, r := range []struct {
		clause.Reach
		off string
	}{{c.Band, " up"}, {c.Span, strings.TrimRight(" off "+c.Span.Wall, " ")}} {
		if r.From != "" {
			parts = append(parts, r.From+" to "+r.To+r.off)
		}
	}
	if c.Full {
		parts = append(parts, "full length")
	}
	if c.Mid {
		parts = append(parts, "in the middle")
	}
	for _, d := range c.Dists {
		parts = append(parts, d.Text)
	}
	if c.Each != "" {
		parts = append(parts, c.Each+" off each end")
	}
	parts = append(parts, c.Ups...)
	switch c.On {
	case "":
	case "ceiling":
		parts = append(parts, "on ceiling")
	default:
		parts = append(parts, "on "+c.On+" wall")
	}
	return strings.Join(parts, ", ")
}

// read returns the ways to read a clause, or what is missing from it.
func (f *placer) read(c *clause.Clause) (all []Reading, missing string) {
	framed := c.What == "door" || c.What == "window" || c.What == "skylight"
	if on := f.Seen[c.By]; on != "" && c.On == "" && !framed && len(c.Dists)+len(c.Ups)+len(c.Refs)+len(c.Each) == 0 && !c.Mid && !c.Corner && c.Rows == 0 && c.Count < 2 && !c.Plural && len(f.Strays) == 0 {
		c.On = string(on)
		return nil, fmt.Sprintf("how far up, and how far off which corner of the %s wall? e.g. `%s`", on, f.example(c, true))
	}
	if c.Wide == "" && slices.ContainsFunc(c.Dists, func(d clause.Dist) bool { return strings.HasSuffix(d.Text, " to edge") }) {
		return nil, "" // the edge of what size?
	}
	if c.Full || c.Band.From+c.Span.From != "" {
		return f.extent(c)
	}
	if len(c.Refs) > 0 || c.Around != "" {
		return f.around(c), ""
	}
	if inRows(c) {
		return f.grid(c)
	}
	var found []string
	if c.On != "" && c.On != "ceiling" {
		found, missing = f.along(c)
	} else {
		found, missing = f.across(c)
	}
	switch n := len(found); {
	case missing != "", n == 0:
		return nil, missing
	case n > 1 && !c.Plural && c.Count == 0 && c.Each == "" && !f.Others && !massed[c.What]: // which one is there?
		return nil, ""
	case c.Parts:
	case c.Count > 0 && n < c.Count, c.Plural && n == 1 && c.Count == 0:
		return nil, fmt.Sprintf("that is %d of the %s: where are the others? e.g. `%s`", n, lex.Plural(c.What), f.example(c, false))
	case c.Count > 0 && n != c.Count:
		return nil, ""
	}
	return []Reading{{Lines: found}}, ""
}

// massed are kinds that one word also stands for several of.
var massed = lex.Set("blocking", "low voltage")

// example is a distance as it may be typed.
func (f *placer) example(c *clause.Clause, up bool) string {
	off, high := f.Units.Pick("60 off west", "1500 off west"), f.Units.Pick("48 up ", "1200 up ")
	if eastWest(c.On) {
		off = strings.Replace(off, "west", "north", 1)
	}
	if up {
		return high + off
	}
	return off
}

// along returns the places on an upright wall.
func (f *placer) along(c *clause.Clause) (found []string, missing string) {
	on := "on " + c.On + " wall"
	from, to := ends(c.On)
	var offs []string
	for _, d := range c.Dists {
		if d.Wall != "" && eastWest(d.Wall) == eastWest(c.On) {
			return nil, "" // off that wall itself, or the one opposite
		}
		offs = append(offs, d.Text)
	}
	switch {
	case c.Each != "" && len(offs) == 0:
		offs = []string{c.Each + " off " + from, c.Each + " off " + to}
	case c.Each != "":
		return nil, ""
	case c.Ends && len(offs) == 1 && c.Dists[0].Wall == "":
		offs = []string{c.Dists[0].Far + " off " + from, c.Dists[0].Far + " off " + to}
	case c.Ends && len(offs) == 0, c.Corner && len(offs) == 0:
		return nil, fmt.Sprintf("how far off each end of the %s wall?", c.On)
	case c.Mid && len(offs) == 0:
		offs = []string{halfway(c.On)}
	case c.Mid:
		return nil, ""
	}
	switch ups := c.Ups; {
	case len(offs) == 0 && len(ups) == 0 && (len(c.Steps) > 0 || len(f.Strays) > 0 || f.Led): // "east wall, tv blocking" names a picture
	case len(offs) == 0 && len(ups) == 0 && (c.What == "door" || c.What == "window"):
		return nil, fmt.Sprintf("how far off which corner? e.g. `%s`", f.example(c, c.What == "window"))
	case len(offs) == 0 && len(ups) == 0:
		return nil, fmt.Sprintf("how far up, and how far off which corner? e.g. `%s`", f.example(c, true))
	case len(offs) == 0 && (c.Count > 1 || c.Plural):
		return nil, fmt.Sprintf("how far off which corner is each? e.g. `%s`", f.example(c, false))
	case len(offs) == 0 && len(ups) == 1:
		found = []string{ups[0] + ", " + on}
	case len(ups) == 0 && len(offs) > 1:
		return nil, "how far up are they?"
	case len(ups) == 0:
		found = []string{offs[0] + ", " + on}
	case len(ups) == 1 && len(offs) == 1 && c.UpHead && !f.Loose: // in the order said
		found = []string{ups[0] + ", " + offs[0] + ", " + on}
	case len(ups) == 1 || len(ups) == len(offs) || len(offs) == 1:
		for i := range max(len(ups), len(offs)) {
			found = append(found, offs[min(i, len(offs)-1)]+", "+ups[min(i, len(ups)-1)]+", "+on)
		}
	}
	return found, ""
}

// ends returns the walls at the ends of a wall.
func ends(on string) (from, to string) {
	a, b := place.Wall(on).Ends()
	return string(a), string(b)
}

func halfway(on string) string {
	if eastWest(on) {
		return "halfway north-south"
	}
	return "halfway east-west"
}

// across returns the places on the ceiling, or on a wall that is not said.
func (f *placer) across(c *clause.Clause) (found []string, missing string) {
	var ew, ns []string // distances off west or east, off north or south
	paired := true
	f.Doubt = f.Doubt || c.Mid && len(c.Dists) > 1 // in the middle of what else is there, unless that has the place
	for i, d := range c.Dists {
		switch {
		case d.Wall == "":
			if len(c.Dists) > 2 || c.Each != "" {
				return nil, ""
			}
			return []string{strings.Join(texts(c.Dists), ", ") + strings.Join(append([]string{""}, c.Ups...), ", ")}, ""
		case eastWest(d.Wall):
			ew = append(ew, d.Text)
		default:
			ns = append(ns, d.Text)
		}
		paired = paired && (i%2 == 0 || eastWest(d.Wall) != eastWest(c.Dists[i-1].Wall))
	}
	if len(c.Ups) > 0 {
		if len(c.Ups) > 1 || len(c.Dists) > 1 || c.Each != "" || c.On == "ceiling" || c.Mid || c.Count > 1 || c.Plural {
			return nil, ""
		}
		return []string{strings.Join(append(texts(c.Dists), c.Ups...), ", ")}, ""
	}
	axis := ""
	for _, s := range c.Steps {
		axis = s.Along
	}
	switch {
	case c.Each != "" && c.Mid, c.Sides != "" && (f.EW == f.NS || len(ew)+len(ns) > 0 || c.Count != 4 && c.Count > 0):
	case c.Sides != "": // the ends are those of the long way
		across := map[bool][]string{true: {"north", "south"}, false: {"west", "east"}}
		for _, a := range across[f.EW < f.NS] {
			for _, b := range across[f.EW > f.NS] {
				found = append(found, c.Each+" off "+a+", "+c.Sides+" off "+b)
			}
		}
	case c.Each != "" && len(ew)+len(ns) == 0: // in every corner
		if !(c.Corner || c.Count == 4) || c.Ends && c.Count != 4 {
			return nil, ""
		}
		for _, a := range []string{"north", "south"} {
			found = append(found, c.Each+" off "+a+", "+c.Each+" off west", c.Each+" off "+a+", "+c.Each+" off east")
		}
	case c.Each != "" && len(ns) == 1 && len(ew) == 0:
		found = []string{c.Each + " off west, " + ns[0], c.Each + " off east, " + ns[0]}
	case c.Each != "" && len(ew) == 1 && len(ns) == 0:
		found = []string{ew[0] + ", " + c.Each + " off north", ew[0] + ", " + c.Each + " off south"}
	case c.Each != "":
	case c.Corner && len(ew)+len(ns) == 0:
		return nil, "how far off the walls, in each corner? e.g. `30 off each wall`"
	case c.Mid && axis == "ew" && len(ew) == 0, c.Mid && axis == "ns" && len(ns) == 0:
		at := "halfway " + map[string]string{"ew": "east-west", "ns": "north-south"}[axis]
		for _, d := range append(ew, ns...) {
			found = append(found, d+", "+at)
		}
	case axis != "" && !c.Mid:
	case c.Mid && len(ew)+len(ns) == 0:
		found = []string{"in the middle"}
	case c.Mid && len(ew)*len(ns) == 0:
		for _, d := range append(ew, ns...) {
			found = append(found, d+", in the middle")
		}
	case len(ew)+len(ns) == 1 && (c.Count > 1 || c.Plural):
		if c.On == "ceiling" && len(f.Strays) == 0 {
			return nil, fmt.Sprintf("how far off %s is each?", map[bool]string{true: "north or south", false: "east or west"}[len(ew) == 1])
		}
	case len(ew)+len(ns) == 1:
		found = append(ew, ns...)
	case len(ew)+len(ns) == 0 && c.On == "ceiling" && len(f.Strays) == 0:
		return nil, "how far off which two walls? e.g. `26 off west 41 off north`"
	case c.Mid && (len(ew) != 1 || len(ns) != 1) && c.Count != max(len(ew), len(ns)), c.Mid && len(f.Strays) > 1:
	case len(ew) == 1 || len(ns) == 1 || !paired && len(ew)*len(ns) == c.Count:
		for _, a := range ew {
			for _, b := range ns {
				found = append(found, a+", "+b)
			}
		}
	case paired && len(ew) == len(ns):
		for i := 0; i < len(c.Dists); i += 2 {
			found = append(found, c.Dists[i].Text+", "+c.Dists[i+1].Text)
		}
	}
	return found, ""
}

func texts(all []clause.Dist) (out []string) {
	for _, d := range all {
		out = append(out, d.Text)
	}
	return out
}

// extent is what goes from here to there along its wall, up it, or both: its size, and the distances to its near edges.
func (f *placer) extent(c *clause.Clause) (all []Reading, missing string) {
	if c.On == "" || c.On == "ceiling" || len(c.Dists)+len(c.Refs)+len(c.Each)+len(c.Steps) > 0 || c.Mid || c.Count > 1 || c.Full && c.Span.From != "" || c.Plural && !massed[c.What] ||
		c.Span.Wall != "" && eastWest(c.Span.Wall) == eastWest(c.On) {
		return nil, ""
	}
	if from, to := ends(c.On); !c.Full && c.Span.Wall == "" {
		return nil, fmt.Sprintf("from how far to how far off %s or %s? e.g. `%s`, or `full length`", from, to, f.Units.Pick("10 to 48 off ", "250 to 1200 off ")+from)
	}
	wide, along := f.long(c.On), halfway(c.On)
	if !c.Full {
		from, by := f.between(c.Span)
		wide, along = by, from+" off "+c.Span.Wall+" to edge"
	}
	up, high := f.between(c.Band)
	at := up + " up to edge"
	flat, _ := f.worth(Dressed[c.High] + `"`)
	switch known := up != ""; {
	case known != (c.Band.From != ""), wide <= 0, known && len(c.Ups) > 0, len(c.Ups) > 1, c.Wide != "" && (c.Wide != "2" || flat == 0), known && c.High != "" && flat == 0:
		return nil, ""
	case known:
	case len(c.Ups) == 0:
		return nil, "from how far up to how far up? e.g. `" + f.Units.Pick("34 to 37-1/2 up", "860 to 950 up") + "`"
	case c.High == "":
		return nil, "how high is the " + c.What + " itself? e.g. `" + f.Units.Pick("5-1/2 high", "140 high") + "`"
	default:
		if high, at = flat, c.Ups[0]; c.Wide == "" {
			high, _ = f.worth(c.High)
		}
		if high <= 0 {
			return nil, ""
		}
	}
	f.Doubt = true
	c.Wide, c.High = length.Canon(wide), length.Canon(high)
	return []Reading{{Lines: []string{along + ", " + at + ", on " + c.On + " wall"}}}, ""
}

// Dressed gives the actual sizes of lumber by nominal size, in inches: the American Softwood Lumber
// Standard (PS 20), from memory.
var Dressed = map[string]string{"1": "3/4", "2": "1-1/2", "3": "2-1/2", "4": "3-1/2", "6": "5-1/2", "8": "7-1/4", "10": "9-1/4", "12": "11-1/4"}

// between returns where an extent begins, and how long it is; "" if that cannot be told.
func (f *placer) between(r clause.Reach) (from string, long length.Length) {
	a, ok := f.worth(r.From)
	b, ok2 := f.worth(r.To)
	if !ok || !ok2 || a == b {
		return "", 0
	}
	return length.Canon(min(a, b)), max(a, b) - min(a, b)
}

// around returns the places left or right of what is noted, as seen by somebody who faces its wall.
func (f *placer) around(c *clause.Clause) (all []Reading) {
	of := c.Around
	for _, r := range c.Refs {
		of = r.Of
	}
	on := c.On
	if on == "" || on == "ceiling" || len(c.Ups) != 1 || len(c.Refs)+min(1, len(c.Each)) != 1 || len(c.Dists) > 0 || c.Mid {
		return nil
	}
	far, hand := c.Each, ""
	if len(c.Refs) > 0 {
		far = c.Refs[0].Far
		for _, h := range []string{"left", "right"} {
			if s, ok := strings.CutSuffix(far, " "+h); ok {
				far, hand = s, h
			}
		}
	}
	i := slices.Index(place.Walls[:], place.Wall(on))
	left, right := string(place.Walls[(i+3)%4]), string(place.Walls[(i+1)%4])
	for _, w := range place.Walls {
		if s, ok := strings.CutSuffix(far, " "+string(w)); ok {
			far, hand = s, map[string]string{left: "left", right: "right"}[string(w)]
			if hand == "" {
				return nil
			}
		}
	}
	if d, ok := f.worth(far); lex.Middles(of) {
		from, to := ends(on)
		first := length.Canon(f.long(on)/2 - d)
		if !ok || 2*d >= f.long(on) || c.Count > 2 {
			return nil
		}
		f.Doubt = true
		return []Reading{{Lines: []string{first + " off " + from + ", " + c.Ups[0] + ", on " + on + " wall", first + " off " + to + ", " + c.Ups[0] + ", on " + on + " wall"}}}
	}
	at := func(to string) string {
		return fmt.Sprintf("%s %s of %s, %s, on %s wall", far, to, of, c.Ups[0], on)
	}
	f.Doubt = true
	switch {
	case c.Around != "" && (c.Count == 2 || c.Count == 0):
		return []Reading{{Lines: []string{at(left), at(right)}}}
	case c.Around != "" || c.Count > 1 || c.Plural:
		return nil
	case hand == "left":
		return []Reading{{Lines: []string{at(left)}}}
	case hand == "right":
		return []Reading{{Lines: []string{at(right)}}}
	}
	return []Reading{{Label: left + " of it", Lines: []string{at(left)}}, {Label: right + " of it", Lines: []string{at(right)}}}
}

// inRows reports whether things are in rows, evenly or some distance apart.
func inRows(c *clause.Clause) bool {
	return c.Rows > 0 || c.Even || slices.ContainsFunc(c.Steps, func(s clause.Step) bool { return s.Far != "" })
}
