// Package missing works out what a line about a thing, a run, framing or a room leaves out, and asks for it in one
// question that says what was understood. So no such line with a measure is only kept.
package missing
