// Package page is the door for people outside the crew's channel: the owner, the
// designer, the next trade. It serves one read-only page per job, at a link that
// cannot be guessed:
//
//	/JOB/SECRET             the page; ?before=SEQ shows the log before that entry
//	/JOB/SECRET/live        the number of the last entry, as server-sent events
//
// Any other path gets the same 404. The secret is kept in the job's marks, so a link
// survives a restart; making a new one invalidates the old.
//
// The page is complete without scripts. With them it fetches itself again when the
// stream names an entry that it does not show, and replaces what changed.
//
// The page folds its own copy of the job's state, and renders it once for everyone who
// looks at the same moment. A reader that is slow or stops reading is disconnected and
// holds up nobody.
//
// The secret is in the address and the page itself is not encrypted, so it listens on
// loopback, behind a tunnel or a TLS server.
package page
