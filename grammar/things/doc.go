// Package things has the kinds about what a board meets or hides: things, openings in the framing, pipes and
// wires, plates.
package things
