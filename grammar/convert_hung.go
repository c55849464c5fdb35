package grammar

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
)

func (s *gapSyntax) entry(l *line) (Entry, error) {
	if s.B != nil {
		if err := l.oneOrTwo(&s.A.number, &s.B.number); err != nil {
			return nil, err
		}
	}
	a, err := l.within(&s.A.number, distances)
	if err != nil || s.B == nil {
		return Gap{A: a}, err
	}
	b, err := l.within(&s.B.number, distances)
	return Gap{a, b}, err
}

// feetOrInches asks about a piece that was said by a bare stock length.
func (l *line) feetOrInches(n *number) error {
	v, ok := n.whole()
	if !ok || l.Units == length.Metric || !slices.Contains(stockFeet, v) {
		return nil
	}
	ask := &Ask{Col: n.Pos.Column, Word: n.raw(), Why: fmt.Sprintf("%d: feet or inches?", v)}
	for _, unit := range []length.Length{length.Foot, length.Inch} {
		one := length.Length(v) * unit
		ask.Choices = append(ask.Choices, reads(fmt.Sprintf("%d %s", v, map[length.Length]string{length.Foot: "ft", length.Inch: "in"}[unit]),
			l.canonical(l.with(n.cut(length.Canon(one))))))
	}
	return ask
}

// stockFeet are the lengths boards are sold in, in feet: common practice, no source.
var stockFeet = []int{8, 9, 10, 12, 14, 16}

func (s *surfaceSyntax) entry(l *line) (Entry, error) {
	where := place.Surface(s.Wall)
	if s.Ceiling {
		where = place.Ceiling
	}
	switch {
	case s.Up:
		return UpAll{where}, nil
	case s.Painted && s.Ceiling:
		return Painted{}, nil
	case s.Ceiling, s.Painted:
		return nil, l.refuse(s.Pos, `"ceiling up" or "ceiling painted"`)
	case s.Finished:
		return Boarded{Wall: place.Wall(s.Wall), Finished: true}, nil
	}
	return boarded(l, place.Wall(s.Wall), s.Thick)
}

func (s *boardedSyntax) entry(l *line) (Entry, error) { return boarded(l, s.Wall.Wall, s.Thick) }

func boarded(l *line, w place.Wall, thick *oneLength) (Entry, error) {
	e := Boarded{Wall: w}
	var err error
	if thick != nil {
		e.Thick, err = l.within(&thick.number, boardThickness)
	}
	return e, err
}

func (s *openSyntax) entry(l *line) (Entry, error) {
	list, err := s.Names.known(l, false)
	return Opened{list}, err
}

// known returns the names. Each must have a noun that was or may be noted, or
// be one word beside something that says that the line is for us: a row, or
// another name.
func (w *names) known(l *line, sure bool) ([]string, error) {
	var list []string
	for _, s := range w.List {
		sure = sure || s.First == tName || l.noun(s.Text)
	}
	for _, s := range w.List {
		if s.First != tName {
			s.Text = canonicalThing(s.Text)
			if !l.noun(s.Text) && !(sure && l.word(s.Text)) {
				return nil, l.refuse(s.Pos, "the name of a noted thing")
			}
			if each := strings.Fields(s.Text); len(each) > 1 && !slices.ContainsFunc(each, func(n string) bool { return !l.nameLike(n) }) {
				list = append(list, each...)
				continue
			}
		}
		list = append(list, s.Text)
	}
	return list, nil
}

// hits are the words for what was hit.
var hits = map[string]string{"water": "water", "pipe": "pipe", "pex": "water", "plumbing": "water",
	"cable": "cable", "wire": "cable", "wiring": "cable", "conduit": "cable", "electric": "cable", "power": "cable", "gas": "gas", "heat tube": "water"}

func (s *hitSyntax) entry(l *line) (Entry, error) {
	what := ""
	if strings.Contains(l.text[:l.ended], "gas") { // "we smell gas"
		what = "gas"
	}
	for _, w := range s.What {
		if k := hits[w]; k == "gas" || what == "" || what == "pipe" && k != "" {
			what = k
		}
	}
	if said := lower(l.text); what == "pipe" && (strings.Contains(said, "water") || strings.Contains(said, "pex")) { // "a water pipe"
		what = "water"
	}
	if what == "" {
		return nil, l.refuseEnd(words.rows["hit"].Fits)
	}
	return Hit{what}, nil
}
