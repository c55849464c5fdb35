package clause

import (
	"cmp"
	"slices"

	"strapline/grammar/lex"
)

// same is a distance that was said before ("the other 10 off west, same distance"), or the place of those before, but for
// what follows: "other two same thing but 30 off the south wall".
func (f *frame) same(j int) bool {
	c := f.cur
	if n := len(c.Dists); repeats[f.At(j).Low] && n > 2 {
		f.line.Use(j)
		c.Dists = append(c.Dists, c.Dists[n-2])
		return true
	}
	if f.total == 0 || len(c.Dists)+len(c.Each) > 0 {
		return false
	}
	c.Like = f.Clauses[len(f.Clauses)-2]
	for ; likewise[f.At(j).Low]; j = f.Next(j) {
		f.line.Use(j)
	}
	if w := f.At(f.Next(j)); f.At(j).Is == off && w.Is == wall { // "the other two same but off south"
		i := slices.IndexFunc(c.Like.Dists, func(d Dist) bool { return AxisOf(d.Wall) == AxisOf(w.Text) })
		if i < 0 {
			return false
		}
		f.line.Use(j, f.Next(j))
		far := c.Like.Dists[i].Far
		c.Dists = []Dist{{far + " off " + w.Text, w.Text, far, false}}
	}
	return true
}

// likewise are words behind "same".
var likewise = lex.Set("thing", "deal", "again", "but", "just", "only")

// liken gives a clause what it has of the one that it is like: what it does not say of an axis. ok is false if the parts
// of several are not all of them.
func (f *frame) liken() (ok bool) {
	n := 0
	for _, c := range f.Clauses {
		n += c.Count
		if c.Like == nil {
			continue
		}
		said := c.Dists
		for _, d := range c.Like.Dists {
			if !slices.ContainsFunc(said, func(o Dist) bool { return AxisOf(o.Wall) == AxisOf(d.Wall) }) {
				c.Dists = append(c.Dists, d)
			}
		}
		if c.Each == "" {
			c.Each, c.Sides, c.Ends = c.Like.Each, c.Like.Sides, c.Like.Ends
		}
		if len(c.Ups) == 0 {
			c.Ups = c.Like.Ups
		}
		c.On = cmp.Or(c.On, c.Like.On)
	}
	return f.total == 0 || n == f.total
}

// some takes the number at i for how many of them what stands beside it is said of: "two of them 30 off north", "30 off
// north for two of them, the other two 90".
func (f *frame) some(i, h, j int) bool {
	l := f.line
	n, c := l.At(i).N, f.cur
	if l.At(j).Is == of {
		l.Use(j, l.Next(j))
	}
	behind := l.At(h).Low == "for" || l.At(l.Prev(h)).Low == "for"
	if c.What == "" || max(f.total, c.Count) > 0 && max(f.total, c.Count) < n {
		return false
	}
	f.total = max(f.total, c.Count)
	if told := len(c.Dists)+len(c.Each)+len(c.Ups) > 0; f.parted || told && !behind && (f.apart || c.Count > n) {
		c = f.more()
	} else {
		f.apart = f.apart || !told
	}
	c.Count, f.parted, f.Doubt = n, behind, true
	return true
}

// more begins what is said of more things of the kind.
func (f *frame) more() *Clause {
	c := f.cur
	f.cur = &Clause{What: c.What, Plural: c.Plural, Label: c.Label, Called: c.Called, Wide: c.Wide, High: c.High, Split: true}
	f.Clauses, f.parted = append(f.Clauses, f.cur), false
	return f.cur
}

// repeats are words for a distance that was said before.
var repeats = lex.Set("distance", "measurement", "number", "dim")
