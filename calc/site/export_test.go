package site

import (
	"maps"
	"slices"
)

// Kinds lists the kinds that can be read back.
func Kinds() []string { return slices.Sorted(maps.Keys(kinds)) }
