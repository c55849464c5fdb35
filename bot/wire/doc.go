// Package wire is the door for lines of text over TCP, for people with a plain
// line client and for programs.
//
// A peer sends lines of UTF-8, at most MaxLine bytes each without the line end.
// The first line is
//
//	hello NAME JOB [PASS]
//
// NAME is the sender, one word; JOB is the job, in lower case with hyphens. Each
// further line is one message,
//
//	[#ID ][@TIME ]TEXT
//
// ID is a word chosen by the peer. Sending an ID again, with the same NAME, job and
// TEXT, returns the same reply and makes no second entry; with another TEXT it is
// refused. TIME is when the message was sent, as RFC 3339 or as 2006-01-02T15:04 in
// the server's zone; the default is now. A TEXT that begins with # needs an ID before
// it. Two lines are addressed to the door itself:
//
//	since SEQ     replays the entries from SEQ on
//	backup        copies the job into the data folder
//
// Every line but an empty one gets one reply, in the order of the lines: a status
// line, lines of text that each begin with "| ", then a line with a single dot.
//
//	ok SEQ        accepted; SEQ is the last entry it saved, 0 if it saved none
//	ask           a question, open until the sender answers it or moves on
//	no COL        something in it was not accepted; COL is the position, in
//	              characters from 1, of the word in its entry (or in the line, if
//	              the line cannot be read), 0 if no single word is at fault
//
// The reply to hello is "ok SEQ" with the last entry of the job. Chatter gets "ok 0"
// without text. "no 0" with NOT confirmed as saved is a failure of the server: send
// the line again with the same ID. An empty line keeps the connection alive.
//
// Between replies, never inside one, the server sends other people's entries as they
// are saved, and the entries of a replay, in the order of SEQ. Each is a line of "+",
// SEQ, WHO and TEXT. A peer that sends the lines marked > sees:
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
// Control characters sent by others are never passed on.
//
// A peer that is silent for too long, does not finish its line or does not read is
// disconnected; one that sends too fast is read more slowly. None of them holds up
// another peer.
package wire
