package spots

import (
	"fmt"
	"slices"
	"strapline/grammar/measure"
	"strings"

	"strapline/calc/length"
	"strapline/grammar/clause"
)

// mostInGrid is the maximum number of things of a row or a grid.
const mostInGrid = 40

// grid returns the ways to read a row or rows, evenly spread or with their spacing and the place of the first.
func (f *placer) grid(c *clause.Clause) (all []Reading, missing string) {
	var off [2][]clause.Dist // those off west or east, and off north or south
	for _, d := range c.Dists {
		way := 1
		if eastWest(d.Wall) {
			way = 0
		}
		off[way] = append(off[way], d)
	}
	said := c.Rows > 0
	switch k := max(len(off[0]), len(off[1])); {
	case c.Per > 0 && c.Rows < 2 && c.Count%c.Per == 0:
		c.Rows = max(1, c.Count/c.Per)
	case !said && k > 1 && c.Count%k == 0: // each has a row
		c.Rows = k
	case !said:
		c.Rows = 1
	}
	if c.Per == 0 && c.Count%c.Rows == 0 {
		c.Per = c.Count / c.Rows
	}
	if c.Square && !said { // 4 of them, 6 foot apart both ways
		c.Rows, c.Per = 0, 0
		for n := range 7 {
			if n*n == c.Count {
				c.Rows, c.Per = n, n
			}
		}
	}
	n := c.Rows * c.Per
	if n < 2 || n > mostInGrid || c.Count > 0 && c.Count != n || c.Each != "" || c.Corner || c.Ends {
		return nil, ""
	}
	var steps []clause.Step
	turn := ""
	for _, s := range c.Steps {
		if s.Far != "" {
			steps = append(steps, s)
		} else {
			turn = s.Along
		}
	}
	if c.Toward != "" {
		turn = clause.AxisOf(c.Toward)
		if slices.ContainsFunc(c.Dists, func(d clause.Dist) bool { return d.Wall == c.Toward }) {
			return nil, ""
		}
	}
	switch {
	case len(steps) == 0 && c.Even:
		return f.spread(c, turn, said), ""
	case len(steps) == 0 && len(c.Dists)+len(c.Ups) == 0: // rows alone are spread evenly
		return f.spread(c, turn, said), ""
	case len(steps) == 0 && len(c.Dists) == c.Rows+c.Per && c.Rows > 1:
		steps = []clause.Step{{}}
	case len(steps) == 0 && c.Rows > 1 && len(c.Ups) == 0 && len(c.Dists) == c.Rows && len(off[0])*len(off[1]) == 0 && !c.Mid:
		return nil, fmt.Sprintf("how far is the first of each row off which other wall, and how far apart are they? e.g. `%s, %s apart`", f.first(len(off[0]) == 0), f.Units.Pick("48", "1200"))
	case len(steps) == 0 || len(steps) > 2 || len(steps) > c.Rows || len(c.Ups) > 1:
		return nil, ""
	}
	if c.On != "" && c.On != "ceiling" {
		return f.rowOn(c, steps), ""
	}
	if len(c.Ups) > 0 || slices.ContainsFunc(c.Dists, func(d clause.Dist) bool { return d.Wall == "" }) {
		return nil, ""
	}
	switch west, north := len(off[0]) == 0, len(off[1]) == 0; {
	case c.Mid:
	case west && north:
		return nil, "how far is the first one off which two walls? e.g. `" + f.first(true) + " " + f.first(false) + "`"
	case west && c.Rows != len(off[1]), north && c.Rows != len(off[0]): // is the one that was said that of the row, or that of the first?
		return nil, "how far is the first one off which other wall? e.g. `" + f.first(west) + "`"
	case west || north:
		return nil, "how far is the first of each row off which other wall? e.g. `" + f.first(west) + "`"
	}
	for way, label := range []string{"rows east-west", "rows north-south"} {
		if turn != "" && (turn == "ew") != (way == 0) || c.Rows == c.Per && way == 1 && len(steps) < 2 {
			continue
		}
		if c.Rows == 1 && len(off[way]) == 0 && len(off[1-way]) > 0 && off[1-way][0].Head || c.Rows == 1 && len(off[0])*len(off[1]) == 1 && off[0][0].Head != off[1][0].Head && !off[way][0].Head { // it starts there
			continue
		}
		n := [2]int{c.Per, c.Rows} // east-west, by the way the rows run
		if way == 1 {
			n = [2]int{c.Rows, c.Per}
		}
		pairs := [][2]clause.Step{{steps[0], steps[len(steps)-1]}} // how far apart east-west, and north-south
		if len(steps) > 1 {
			pairs = append(pairs, [2]clause.Step{steps[1], steps[0]})
		}
		for _, apart := range pairs {
			xs, ys := f.axis(c, off[0], apart[0], "ew", n[0]), f.axis(c, off[1], apart[1], "ns", n[1])
			var at []string
			for _, b := range ys {
				for _, a := range xs {
					at = append(at, a+", "+b)
				}
			}
			name := label
			if len(steps) > 1 && steps[0].Along+steps[1].Along == "" && apart[0].Far != apart[1].Far {
				name += fmt.Sprintf(", %s apart east-west", apart[0].Far)
			}
			if len(at) == n[0]*n[1] && !slices.ContainsFunc(all, func(r Reading) bool { return slices.Equal(r.Lines, at) }) {
				a, b := together(xs), together(ys)
				if a == "in the middle" {
					a, b = b, a
				}
				all = append(all, Reading{name, at, strings.Replace(a+", by "+b, "by in the middle", "in the middle the other way", 1), ""})
			}
		}
	}
	if len(all) == 1 {
		all[0].Label = ""
	}
	return all, ""
}

// first is the distance of the first of a row as it may be typed.
func (f *placer) first(west bool) string {
	if west {
		return f.Units.Pick("24 off west", "600 off west")
	}
	return f.Units.Pick("30 off north", "750 off north")
}

// axis returns n distances along an axis: as said, from the first on, or about the middle; nil if they are not n.
func (f *placer) axis(c *clause.Clause, off []clause.Dist, apart clause.Step, way string, n int) []string {
	most := f.EW
	if way == "ns" {
		most = f.NS
	}
	spaced := n > 1 && (apart.Along == "" || apart.Along == way)
	switch by, ok := f.worth(apart.Far); {
	case len(off) == n && (n > 1 || !c.Mid || len(c.Dists) > 0 && len(off) > 0):
		return texts(off)
	case len(off) == 0 && n == 1 && c.Mid:
		return []string{"in the middle"}
	case len(off) == 0 && spaced && c.Mid && ok && most > length.Length(n-1)*by:
		first := (most - length.Length(n-1)*by) / 2
		return f.run(clause.Dist{Text: length.Canon(first) + " off " + map[string]string{"ew": "west", "ns": "north"}[way], Far: length.Canon(first)}, apart.Far, n, most)
	case len(off) == 1 && spaced:
		return f.run(off[0], apart.Far, n, most)
	}
	return nil
}

// together is several distances off one wall as one.
func together(all []string) string {
	far := slices.Clone(all)
	for i := range len(all) - 1 {
		before, wall, _ := strings.Cut(all[i], " off ")
		if _, next, _ := strings.Cut(all[i+1], " off "); next == wall {
			far[i] = before
		}
	}
	return strings.Join(far, ", ")
}

// rowOn is a row along a wall.
func (f *placer) rowOn(c *clause.Clause, steps []clause.Step) []Reading {
	if c.Rows != 1 || len(steps) != 1 || len(c.Dists) != 1 || c.Dists[0].Wall == "" || len(c.Ups) != 1 || eastWest(c.Dists[0].Wall) == eastWest(c.On) {
		return nil
	}
	var at []string
	for _, p := range f.run(c.Dists[0], steps[0].Far, c.Per, f.long(c.On)) {
		at = append(at, p+", "+c.Ups[0]+", on "+c.On+" wall")
	}
	if at == nil {
		return nil
	}
	return []Reading{{Lines: at}}
}

// long is how long a wall is.
func (f *placer) long(on string) length.Length {
	if eastWest(on) {
		return f.NS
	}
	return f.EW
}

// run returns n distances off a wall, each so far from the one before; nil if they go past most.
func (f *placer) run(first clause.Dist, far string, n int, most length.Length) (all []string) {
	from, ok := f.worth(first.Far)
	by, ok2 := f.worth(far)
	if !ok || !ok2 || by <= 0 || most > 0 && from+length.Length(n-1)*by >= most {
		return nil
	}
	for i := range n {
		text := first.Text
		if i > 0 {
			text = length.Canon(from+length.Length(i)*by) + text[len(first.Far):]
		}
		all = append(all, text)
	}
	return all
}

// worth is the value of a length with one reading.
func (f *placer) worth(said string) (length.Length, bool) {
	r, n, _ := measure.Scan(said, f.Units, measure.One)
	if len(r) != 1 || n != len(said) {
		return 0, false
	}
	return r[0].L, true
}

// spread is evenly from wall to wall: with half a space at each end. said: how many rows is known.
func (f *placer) spread(c *clause.Clause, turn string, said bool) (all []Reading) {
	upright := c.On != "" && c.On != "ceiling"
	if c.Mid && (len(c.Dists) > 0 || upright) || len(c.Dists) > 1 {
		return nil
	}
	even := func(a, b int) []string {
		return []string{fmt.Sprintf("%d x %d even", a, b)}
	}
	switch {
	case upright, len(c.Ups) > 0:
		return nil
	case len(c.Dists) == 1 && c.Rows == 1 && c.Dists[0].Wall != "":
		return f.fromWall(c, "west", ", "+c.Dists[0].Text, f.EW)
	case len(c.Dists) > 0 || c.Label != "":
		return nil
	case !said:
		f.why = "how many each way?"
		for a := c.Count; a > 0; a-- {
			if b := c.Count / a; a*b == c.Count {
				all = append(all, Reading{Label: fmt.Sprintf("%d east-west x %d north-south", a, b), Lines: even(a, b)})
			}
		}
		return all
	case c.Rows == c.Per:
		return []Reading{{Lines: even(c.Per, c.Rows)}}
	}
	f.why = fmt.Sprintf("%d rows of %d: which way do the rows run?", c.Rows, c.Per)
	if c.Rows == 1 {
		f.why = fmt.Sprintf("a row of %d: which way does it run?", c.Per)
	}
	for way, label := range []string{"east-west", "north-south"} {
		if turn != "" && (turn == "ew") != (way == 0) {
			continue
		}
		a, b := c.Per, c.Rows
		if way == 1 {
			a, b = b, a
		}
		all = append(all, Reading{Label: label, Lines: even(a, b)})
	}
	return all
}

// fromWall spreads a row over a length, off the wall it begins at.
func (f *placer) fromWall(c *clause.Clause, from, tail string, over length.Length) []Reading {
	if over == 0 {
		return nil
	}
	var at []string
	for k := range c.Per {
		at = append(at, length.Canon(length.RoundNearest(over*length.Length(2*k+1)/length.Length(2*c.Per), f.Units))+" off "+from+tail)
	}
	f.Doubt = true
	return []Reading{{Lines: at}}
}
