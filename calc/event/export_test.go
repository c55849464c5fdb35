package event

import (
	"maps"
	"slices"
)

// Kinds lists the kinds that can be decoded.
func Kinds() []string { return slices.Sorted(maps.Keys(kinds)) }
