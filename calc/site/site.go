// Package site is the state of one job: a pure fold of its events.
//
// Lengths are exact (calc/length). On the ceiling X runs from the west wall and Y from the north wall; on
// a wall X runs along it from its west (or north) end and Y up from the floor. X and Y are always to the
// framing. The board on a wall stands in front of it by its thickness, and the face to which a distance
// was measured follows from when it was sent.
//
// Events are folded in the order of arrival. The time an event was sent decides only what was hung or
// boarded at that moment, and which of two notes of a thing is newer. Nothing is overwritten: readers skip
// struck entries, so striking and undoing cost nothing and lose nothing.
package site

import "strapline/calc/history"

// Entry is an event in the log, with its present state.
type Entry = history.Entry

// EndOfTime is later than any message; as a time it means the present.
const EndOfTime = history.EndOfTime
