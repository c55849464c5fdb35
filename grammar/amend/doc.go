// Package amend works out what a correction makes of an entry: of one that is saved, and of one that is
// only asked about.
package amend
