package answer

import (
	"regexp"
	"slices"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/record"
)

// Support returns the support of the ceiling with that name: "strap 4".
func (c Ctx) Support(name string) (place.Support, bool) {
	if c.Room != nil {
		for _, s := range c.Room.Supports(place.Ceiling) {
			if s.Name() == name {
				return s, true
			}
		}
	}
	return place.Support{}, false
}

// withNumber leaves, of things that a correction may be of, those that were noted with the wrong number, if any were.
func withNumber(found []*site.ThingState, e grammar.Entry) []*site.ThingState {
	var old length.Length
	switch e := e.(type) {
	case record.Swap:
		old = e.Old.L
	case record.Refix:
		old = e.Not.L
	}
	if old == 0 || len(found) < 2 {
		return found
	}
	with := slices.DeleteFunc(slices.Clone(found), func(th *site.ThingState) bool {
		_, en := th.Now()
		if en == nil {
			return true
		}
		b, ok := en.Body.(event.Thing)
		return !ok || b.Size.A != old && b.Size.B != old && !slices.ContainsFunc(b.Fixes, func(f place.Fix) bool { return f.L == old })
	})
	if len(with) == 0 {
		return found
	}
	return with
}

// fitsAll reports whether a correction may be the same of several things.
func fitsAll(e grammar.Entry) bool {
	switch e := e.(type) {
	case record.Swap:
		return e.Old.L != 0
	case record.Refix:
		return len(e.Fixes) == 1
	}
	return false
}

// corrects reports whether an entry puts a place right.
func corrects(e grammar.Entry) bool {
	switch e.(type) {
	case record.Swap, record.Refix, record.Instead:
		return true
	}
	return false
}

// ofAll matches words that mean all that a name may be of.
var ofAll = regexp.MustCompile(`\b(?:both|all|each|every|the pair)\b`)
