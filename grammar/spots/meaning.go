package spots

import (
	"cmp"
	"slices"
	"strings"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/clause"
	"strapline/grammar/lex"
	"strapline/grammar/speech"
)

// Reading is a possible meaning: a canonical line for each thing.
type Reading struct {
	Label string // what sets it apart from the others, "" if it is alone
	Lines []string
	Short string // what the lines of a grid say together
	Then  string // what leads to the next question
}

// Meaning is what a text means.
type Meaning struct {
	Readings []Reading
	Lost     int    // words that have no part in it
	Sure     bool   // nothing else fits
	Tied     bool   // a thing has something only said of another
	Worked   bool   // there are rows or extents, whose places are worked out
	Why      string // the question: what is missing, or "" if the readings are all that is asked
	Base     string // what the answer is added to, if there is no reading
}

// placer finds places for what a text says.
type placer struct {
	*clause.Said
	*grammar.Context
	why string // what is asked if there are several readings
}

// Of returns what a line means, nil if that cannot be told.
func Of(s *speech.Line) *Meaning {
	said := clause.Read(s)
	if said == nil {
		return nil
	}
	return (&placer{Said: said, Context: s.Context}).means()
}

// eastWest reports whether distances off a wall run east-west.
func eastWest(w string) bool { return clause.AxisOf(w) == "ew" }

// worked reports whether some of the places are worked out: those of rows and extents.
func (f *placer) worked() bool {
	return slices.ContainsFunc(f.Clauses, func(c *clause.Clause) bool {
		return inRows(c) || c.Full || lex.Middles(c.Around) || c.Band.From+c.Span.From != ""
	})
}

// means puts the clauses together. Several things on a wall that is not said are asked about by wall, the one that
// was noted last first.
func (f *placer) means() *Meaning {
	f.heading()
	tied, wanting := f.Shares || len(f.Clauses) == 1, false
	for i, c := range f.Clauses {
		tied = tied || c.Shares
		f.share(i, c)
		if c.What == "" {
			return nil
		}
	}
	f.inTurn()
	for _, c := range f.Clauses {
		of := c.Around
		for _, r := range c.Refs {
			of = r.Of
		}
		if word, _, _ := strings.Cut(of, " "); c.On == "" {
			c.On = string(f.Seen[word])
		}
		upright := len(c.Ups) > 0 || c.Above || c.Band.From != ""
		wanting = wanting || c.On == "" && upright && (len(f.Clauses) > 1 || c.Band.From != "" || c.Count > 1 || c.Plural || c.Mid || f.Loose || f.Doubt)
	}
	if !wanting {
		if m := f.together(f.Clauses); m != nil {
			m.Tied = tied
			return m
		}
		return nil
	}
	if f.Loose && len(f.Clauses) == 1 { // "light lunch at 12"
		return nil
	}
	asked := &Meaning{Why: "on which wall?", Lost: len(f.Strays), Tied: true, Worked: f.worked()}
	walls := place.Walls[:]
	if i := slices.Index(walls, f.Last.Wall); i > 0 {
		walls = slices.Concat([]place.Wall{f.Last.Wall}, walls[:i], walls[i+1:])
	}
	for _, w := range walls {
		var all []*clause.Clause
		for _, c := range f.Clauses {
			next := *c
			if next.On == "" {
				next.On = string(w)
			}
			all = append(all, &next)
		}
		switch m := f.together(all); {
		case m != nil && len(m.Readings) == 1:
			asked.Readings = append(asked.Readings, Reading{Label: string(w) + " wall", Lines: m.Readings[0].Lines})
		case m != nil && m.Base != "" && len(f.Clauses) == 1 && len(f.Clauses[0].Dists) == 0:
			asked.Readings = append(asked.Readings, Reading{Label: string(w) + " wall", Then: m.Base})
		}
	}
	if asked.Readings == nil {
		return nil
	}
	return asked
}

// together reads clauses of which each says its surface.
func (f *placer) together(clauses []*clause.Clause) *Meaning {
	m := &Meaning{Readings: []Reading{{}}, Lost: len(f.Strays), Worked: f.worked()}
	n := 0
	for _, c := range clauses {
		all, missing := f.read(c)
		switch {
		case missing != "":
			m.Why = missing
			if len(clauses) > 1 { // which of them?
				m.Why = f.base(c) + ": " + missing
			}
			var all []string
			for _, o := range slices.Concat(slices.DeleteFunc(slices.Clone(clauses), func(o *clause.Clause) bool { return o == c }), []*clause.Clause{c}) { // the answer goes with the last
				all = append(all, f.base(o))
			}
			m.Readings, m.Base = nil, strings.Join(all, " and ")
			return m
		case len(all) == 0, len(all) > 1 && len(m.Readings) > 1, len(all[0].Lines) > 1 && c.Called && f.Close:
			return nil
		}
		var next []Reading
		for _, before := range m.Readings {
			for _, r := range all {
				lines := slices.Clone(before.Lines)
				for _, at := range r.Lines {
					lines = append(lines, head(c, len(r.Lines), f.Units)+", "+at)
				}
				next = append(next, Reading{strings.TrimSpace(before.Label + " " + r.Label), lines, r.Short, ""})
			}
		}
		m.Readings = next
		if n += len(all[0].Lines); len(all[0].Lines) > 1 && c.Called {
			m.Lost++ // one name for all would be one thing
		}
	}
	first := clauses[0]
	if len(m.Readings) > 1 {
		m.Why = f.why
	}
	if first.Parts && first.Count > 0 && first.Count != n {
		return nil
	}
	if n == 1 && f.Bare && m.Lost == 0 && len(first.Ups) == 0 && first.On == "" {
		return nil // "60 west 100 north" is asked about as it is
	}
	m.Sure = n == 1 && len(m.Readings) == 1 && len(f.Strays) == 0 && !f.Bare && !f.Doubt && !f.Loose && !first.Plural
	return m
}

// heading drops clauses that only announce what comes, and gives what they say of the place to it: "a box and a vent
// on the lid, box 20 off west ...", "a switch and a thermostat 8 off west, switch at 48, thermostat at 60".
func (f *placer) heading() {
	recurs := func(i int) bool {
		c := f.Clauses[i]
		return slices.ContainsFunc(f.Clauses[i+1:], func(o *clause.Clause) bool { return o.What == c.What && !o.Split }) && len(c.Ups)*len(c.Dists) == 0
	}
	n := 0
	for n < len(f.Clauses)-1 && recurs(n) {
		n++
	}
	heads := f.Clauses[:n]
	f.Clauses = f.Clauses[n:]
	for _, c := range f.Clauses {
		own := func(h *clause.Clause) bool { return h.What == c.What }
		for _, h := range slices.Concat(slices.DeleteFunc(slices.Clone(heads), func(h *clause.Clause) bool { return !own(h) }), heads) { // what was said of its kind, then of all
			c.On = cmp.Or(c.On, h.On)
			if len(c.Dists)+len(c.Refs) == 0 && !c.Mid {
				c.Dists, c.Mid, c.Refs = h.Dists, h.Mid, h.Refs
			}
			if len(c.Ups) == 0 && own(h) {
				c.Ups = h.Ups
			}
		}
	}
	for i, c := range f.Clauses {
		if c.Above && i > 0 {
			f.Clauses[i-1].Shares = true
		}
	}
}

// inTurn gives each of several kinds one of the distances that are said behind the last: "an outlet and a box on the
// east wall, 18 up, 30 and 36 off north".
func (f *placer) inTurn() {
	last := f.Clauses[len(f.Clauses)-1]
	if len(f.Clauses) < 2 || len(last.Dists) != len(f.Clauses) || last.On == "" || last.On == "ceiling" {
		return
	}
	for i, c := range f.Clauses {
		if c.Plural || c.Count > 0 || last.Dists[i].Wall != last.Dists[0].Wall || i < len(f.Clauses)-1 && len(c.Dists)+len(c.Refs) > 0 || c.Mid {
			return
		}
	}
	all := last.Dists
	for i, c := range f.Clauses {
		c.On, c.Dists = last.On, all[i:i+1]
		if len(c.Ups) == 0 && len(last.Ups) == 1 {
			c.Ups = last.Ups
		}
	}
	f.Doubt = true
}

// share gives a clause what is only said of the others.
func (f *placer) share(i int, c *clause.Clause) {
	if !c.Shares && !f.Shares {
		return
	}
	near := slices.Concat(f.Clauses[:i], f.Clauses[i+1:])
	slices.Reverse(near[:i])
	for _, o := range near {
		if c.On == "" {
			c.On = o.On
		}
		if len(c.Ups) == 0 && len(o.Ups) == 1 && !c.Above && !o.Above {
			c.Ups = o.Ups
		}
		if len(c.Dists) == 0 && !c.Mid && c.Each == "" && len(c.Refs) == 0 && !c.Split && !o.Split && c.Rows == 0 {
			c.Dists, c.Mid, c.Refs = o.Dists, o.Mid, o.Refs
		}
	}
}
