package site

import (
	"maps"
	"slices"
)

// Folded lists the kinds that can be folded in.
func Folded() []string { return slices.Sorted(maps.Keys(folds)) }

// WorkedOut is how often a spot was worked out since something was folded in.
func (r *Room) WorkedOut() int {
	if r.places == nil {
		return 0
	}
	return r.places.n
}
