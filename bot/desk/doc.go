// Package desk answers the messages of one job, one after another: part by part, with what was held for a room and
// what is still open, and again when a message is edited. It does no I/O, and does not know what an entry means.
package desk
