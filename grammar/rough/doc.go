// Package rough works out what a line says of the rough work, what is there before the board: framing, pipes and
// wires. No order of its words is needed.
//
// Each word of the line has a tag by its part of speech (package speech). What belongs together, such as a distance
// and its wall, is found as an expression over the tags. A frame is filled with what was found (run.go, framing.go)
// and gives a line in canonical words.
package rough
