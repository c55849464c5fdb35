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
func (f *placer) grid(c *clause.Clause) (all []reading, missing string) {
	said := c.Rows > 0
	if !said {
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
	case len(steps) == 0 || len(steps) > 2 || len(steps) > c.Rows || len(c.Ups) > 1 || c.Mid:
		return nil, ""
	}
	upright := c.On != "" && c.On != "ceiling"
	if rows := f.rowsAt(c, steps); rows != nil {
		return rows, ""
	}
	x, y := -1, -1 // the distance of the first off west or east, off north or south
	for i, d := range c.Dists {
		k := &y
		if eastWest(d.Wall) {
			k = &x
		}
		if d.Wall == "" || *k >= 0 {
			return nil, ""
		}
		*k = i
	}
	if upright {
		return f.rowOn(c, steps, max(x, y)), ""
	}
	if len(c.Ups) > 0 {
		return nil, ""
	}
	if x < 0 || y < 0 {
		return nil, "how far is the first one off which two walls? e.g. `24 off west 30 off north`"
	}
	cols := []int{c.Per, c.Rows} // east-west, by the way the rows run
	for way, label := range []string{"rows east-west", "rows north-south"} {
		if turn != "" && (turn == "ew") != (way == 0) {
			continue
		}
		if c.Rows == 1 && (c.Dists[x].Head != c.Dists[y].Head && c.Dists[x].Head != (way == 0) || steps[0].Along != "" && (steps[0].Along == "ew") != (way == 0)) {
			continue
		}
		if c.Rows == c.Per && way == 1 && len(steps) == 1 {
			continue
		}
		for k := range steps { // which of them is east-west
			sx, sy := steps[k], steps[len(steps)-1-k]
			if sx.Along == "ns" && len(steps) > 1 || sy.Along == "ew" && len(steps) > 1 || k == 1 && sx.Far == sy.Far {
				continue
			}
			xs, ys := f.run(c.Dists[x], sx.Far, cols[way], f.EW), f.run(c.Dists[y], sy.Far, cols[1-way], f.NS)
			var at []string
			for _, b := range ys {
				for _, a := range xs {
					at = append(at, a+", "+b)
				}
			}
			name := label
			if len(steps) > 1 && steps[0].Along+steps[1].Along == "" && sx.Far != sy.Far {
				name += fmt.Sprintf(", %s apart east-west", sx.Far)
			}
			if len(at) == n && !slices.ContainsFunc(all, func(r reading) bool { return slices.Equal(r.places, at) }) {
				all = append(all, reading{name, at, together(xs) + ", by " + together(ys)})
			}
		}
	}
	if len(all) == 1 {
		all[0].label = ""
	}
	return all, ""
}

// together is several distances off one wall as one.
func together(all []string) string {
	var far []string
	for _, d := range all[:len(all)-1] {
		before, _, _ := strings.Cut(d, " off ")
		far = append(far, before)
	}
	return strings.Join(append(far, all[len(all)-1]), ", ")
}

// rowsAt is rows of which each has a distance of its own, and along them the place of the first and the spacing.
func (f *placer) rowsAt(c *clause.Clause, steps []clause.Step) []reading {
	if c.Rows < 2 || len(steps) != 1 || len(c.Dists) != c.Rows+1 || len(c.Ups) > 0 || c.On != "" && c.On != "ceiling" {
		return nil
	}
	var apart, along []clause.Dist
	for _, d := range c.Dists {
		if d.Wall == "" {
			return nil
		} else if eastWest(d.Wall) {
			along = append(along, d)
		} else {
			apart = append(apart, d)
		}
	}
	most := f.EW
	if len(along) > len(apart) {
		apart, along, most = along, apart, f.NS
	}
	if len(along) != 1 {
		return nil
	}
	run := f.run(along[0], steps[0].Far, c.Per, most)
	var at, rows []string
	for _, d := range apart {
		rows = append(rows, d.Text)
		for _, x := range run {
			at = append(at, x+", "+d.Text)
		}
	}
	if len(at) == 0 {
		return nil
	}
	return []reading{{"", at, together(run) + ", by " + strings.Join(rows, " and ")}}
}

// rowOn is a row along a wall.
func (f *placer) rowOn(c *clause.Clause, steps []clause.Step, first int) []reading {
	if c.Rows != 1 || len(steps) != 1 || first < 0 || len(c.Dists) != 1 || len(c.Ups) != 1 || eastWest(c.Dists[0].Wall) == eastWest(c.On) {
		return nil
	}
	var at []string
	for _, p := range f.run(c.Dists[0], steps[0].Far, c.Per, f.long(c.On)) {
		at = append(at, p+", "+c.Ups[0]+", on "+c.On+" wall")
	}
	if at == nil {
		return nil
	}
	return []reading{{places: at}}
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
	if !ok || !ok2 || by <= 0 || most > 0 && from+length.Length(n-1)*by > most {
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
	return firstOf(r), len(r) == 1 && n == len(said)
}

func firstOf(r []measure.Reading) length.Length {
	if len(r) == 0 {
		return 0
	}
	return r[0].L
}

// spread is evenly from wall to wall: with half a space at each end. said: how many rows is known.
func (f *placer) spread(c *clause.Clause, turn string, said bool) (all []reading) {
	upright := c.On != "" && c.On != "ceiling"
	if c.Mid && (len(c.Dists) > 0 || upright) || len(c.Dists) > 1 {
		return nil
	}
	even := func(a, b int) []string {
		return []string{fmt.Sprintf("%d x %d even", a, b)}
	}
	switch {
	case upright && c.Rows == 1 && len(c.Dists) == 0 && len(c.Ups) == 1:
		from, _ := ends(c.On)
		return f.fromWall(c, from, ", "+c.Ups[0]+", on "+c.On+" wall", f.long(c.On))
	case upright, len(c.Ups) > 0:
		return nil
	case len(c.Dists) == 1 && c.Rows == 1 && eastWest(c.Dists[0].Wall):
		return f.fromWall(c, "north", ", "+c.Dists[0].Text, f.NS)
	case len(c.Dists) == 1 && c.Rows == 1 && c.Dists[0].Wall != "":
		return f.fromWall(c, "west", ", "+c.Dists[0].Text, f.EW)
	case len(c.Dists) > 0 || c.Label != "":
		return nil
	case !said:
		f.why = "how many each way?"
		for a := c.Count; a > 0; a-- {
			if b := c.Count / a; a*b == c.Count {
				all = append(all, reading{label: fmt.Sprintf("%d east-west x %d north-south", a, b), places: even(a, b)})
			}
		}
		return all
	case c.Rows == c.Per:
		return []reading{{places: even(c.Per, c.Rows)}}
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
		all = append(all, reading{label: label, places: even(a, b)})
	}
	return all
}

// fromWall spreads a row over a length, off the wall it begins at.
func (f *placer) fromWall(c *clause.Clause, from, tail string, over length.Length) []reading {
	if over == 0 {
		return nil
	}
	var at []string
	for k := range c.Per {
		at = append(at, length.Canon(length.RoundNearest(over*length.Length(2*k+1)/length.Length(2*c.Per), f.Units))+" off "+from+tail)
	}
	f.Doubt = true
	return []reading{{places: at}}
}
