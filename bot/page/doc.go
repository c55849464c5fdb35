// Package page is the door for those who are not in the crew's channel: the owner,
// the designer, the next trade. It serves one page a job, to look at and no more,
// behind a link that nobody can guess:
//
//	/JOB/SECRET             the page; ?before=SEQ shows the log before that entry
//	/JOB/SECRET/live        the number of the last entry, as server-sent events
//
// Whatever else is asked for gets the same 404. The secret stands in the job's
// marks, so a link outlives a restart; a new one ends the old.
//
// The page is whole without scripts. With them it fetches itself again when the
// stream names an entry that it does not show, and puts what changed in place.
//
// What is shown is copied out of the job between two messages, once for all who
// look at the same moment. Somebody who reads slowly, or not at all, is dropped and
// holds up nobody.
//
// The secret is in the address and the page itself is not encrypted: it listens on
// this machine, behind a tunnel or a server that speaks TLS.
package page
