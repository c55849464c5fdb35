// Package site is the state of one job: a pure fold of its events.
//
// Lengths are exact (calc/length). On the ceiling X runs from the west wall and
// Y from the north wall; on a wall X runs along it from its west (or north) end
// and Y up from the floor. X and Y are always to the framing: a wall that has
// been boarded stands in front of it by its board's thickness, and which face a
// distance was held to follows from when it was sent.
//
// Events are folded in the order of arrival. The time an event was sent only
// decides what was hung or boarded at that moment and which of two notes of one
// thing is the newer. Nothing is overwritten: a struck entry is passed over by
// whoever reads, so striking and undoing cost nothing and forget nothing.
package site
