// Package spots works out which things a text is of and where each of them is: it gives the clauses of
// [strapline/grammar/clause] their places (place.go), those of rows too (grid.go), as canonical words, a line for
// each thing, or says what is missing.
package spots
