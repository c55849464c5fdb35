// Package desk answers the messages of one job, one after another: it has each read and answered, folds what
// they say into the state, and keeps what is still open between them: questions, notes that wait for their
// room, pictures that wait for their note, and what an edit will need. It does no I/O, and does not know what
// an entry means.
package desk
