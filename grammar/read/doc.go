// Package read is a line as it was typed: cut into tokens, without its frame, begun by words of the table of
// kinds, with the names that stand in it; and how such a line is refused, asked about or read in other words.
package read
