package grammar

import (
	"maps"
	"slices"
)

// EntryTypes are the names that entries are kept under.
func EntryTypes() []string { return slices.Sorted(maps.Keys(entries)) }
