// Package rough works out what a line says of the rough work, what is there before the board: rooms and
// their shape, framing, pipes and wires. No order of its words is needed.
//
// Each word of the line gets a tag by its part of speech (words.go, line.go). What belongs together, such
// as a distance and its wall, is found as an expression over the tags. A frame is filled with what was
// found (run.go, framing.go, room.go, shape.go) and gives a line in canonical words.
package rough
