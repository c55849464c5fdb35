// Package wire is the door for lines of text over TCP: for a person with a
// plain line client and for a program alike.
//
// A peer sends lines of UTF-8, at most MaxLine bytes each without the line end.
// The first is
//
//	hello NAME JOB [PASS]
//
// NAME is the sender, one word; JOB is the job, in lower case with hyphens. Each
// further line is one message,
//
//	[#ID ][@TIME ]TEXT
//
// ID is one word of the peer's own making: the same ID of one NAME in one job
// gets the same reply again and makes no second entry, and with another TEXT it
// is refused. TIME is when the message was sent, RFC 3339 or 2006-01-02T15:04 in
// the server's zone; without it, now. A TEXT that itself begins with # stands
// behind an ID. Two lines are for the door itself:
//
//	since SEQ     replays the entries from SEQ on
//	backup        copies the job into the data folder
//
// Every line but an empty one gets one reply, in the order of the lines: a status
// line, lines of text each behind "| ", then a line with a lone dot.
//
//	ok SEQ        taken; SEQ is the last entry it saved, 0 when it saved none
//	ask           a question, kept until the sender answers it or goes on
//	no COL        something in it was not taken; COL is the character, from 1, of
//	              the word in its entry (or of the line, when the line cannot be
//	              read), 0 when no one word is at fault
//
// A reply to hello is "ok SEQ" with the last entry of the job. A message that is
// no business of the job's gets "ok 0" and the dot alone. A reply "no 0" that says
// NOT confirmed as saved is a failure on this side: send the line again with the
// same ID. An empty line keeps the connection alive.
//
// Between replies, never inside one, come the entries of other people as they are
// saved, and those of anybody that since replays, in the order of SEQ, each as a
// line of "+", SEQ, WHO and TEXT. So a peer that sends the lines behind > sees:
//
//	> hello hanger larkspur-upper-flat
//	ok 16
//	| larkspur-upper-flat: you are hanger
//	.
//	+ 17 sparks light l2 61 off west 105 off north
//	> #4 @2026-05-04T09:12 gap 98 3/8
//	ok 18
//	| cut 98-1/8"; gap 98-3/8", one end only; noted 18
//	.
//
// No line shows control characters that others sent.
//
// A peer that is silent for too long, that does not finish its line, or that does
// not read, is dropped; one that sends too fast is read more slowly. None of
// them holds up another.
package wire
