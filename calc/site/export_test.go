package site

import (
	"maps"
	"slices"
)

// Kinds lists the kinds that can be read back.
func Kinds() []string { return slices.Sorted(maps.Keys(kinds)) }

// WorkedOut is how often a spot was worked out since something was folded in.
func (r *Room) WorkedOut() int {
	if r.places == nil {
		return 0
	}
	return r.places.n
}

// Unread is a body whose type was not made readable.
type Unread struct{}

func (Unread) Kind() string               { return "unread" }
func (Unread) apply(*State, *Entry) error { return nil }
