// Package store keeps the log of one job in one file. It knows nothing of what
// the entries mean: their bodies are JSON it does not read.
//
// # The file
//
// A job is one bbolt file with six buckets:
//
//	about     "format": the file's version; "totals": last seq and the count of each bucket
//	log       seq, 8 bytes big-endian -> [Record]
//	receipts  message id -> [Receipt]
//	pending   key -> JSON, an open question
//	outbox    key -> JSON, a reply still to be sent
//	marks     key -> JSON, a small named value of a door
//
// Every value is laid out as
//
//	4 bytes  CRC-32C (Castagnoli), big-endian, over bucket name, key and all that follows
//	1 byte   version of this layout
//	rest     JSON; of a record its head in binary and the JSON of its body
//
// Records written before that layout existed are JSON as a whole, and are still read.
//
// # Damage
//
// bbolt has a checksum only on its two head pages. The sum in each value, the totals, and a walk over all
// pages that [Open] does before bbolt maps the file, find a flipped bit in anything that is in use. A
// damaged file is refused as a whole and never written to. One spoiled head page is enough for that: bbolt
// would go on from the other one, and silently lose the last commit. Unused space is not checked. [Check]
// lists all faults. What helps then is a backup, or [Export], which writes what can still be read, and
// [Import]. If a power cut tore one head page and the rest is sound, [Recover] repairs the file.
//
// # What survives
//
// [Log.Commit] is one bbolt transaction. When it has returned nil, bbolt has written the pages, called
// fdatasync, written the new head page and called fdatasync again. A process that dies at any moment
// leaves the state before or after the batch. After a power cut the same holds, provided that the system
// and the disk honour fdatasync. New folders and the folder of a new job are synced, so that their names
// survive too.
//
// # Use
//
// A Log may be used from several goroutines; commits run one after another. Only one process, and only one
// Log in it, can have a job open at a time. On systems without flock, such as Windows, a job that another
// process has open may be reported as damaged rather than in use, and a full disk is reported only by the
// system's own error.
package store
