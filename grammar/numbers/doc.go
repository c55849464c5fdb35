// Package numbers reads the lengths and counts of a line, within the bounds of the slot they are for. It asks
// about those with two readings, and about words that may be part of a number but were not read as one.
package numbers
