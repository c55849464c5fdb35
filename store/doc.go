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
// Records of before that layout are JSON whole, and are read too.
//
// # Damage
//
// bbolt has a checksum on its two head pages only. The sum in each value, the
// totals, and a walk over every page that [Open] does before bbolt maps the
// file, find a flipped bit in anything that is in use. Such a file is refused
// whole, and is not written to. One spoiled head page is enough: bbolt would go
// on from the other one, and the last commit would be gone without a word. Bits
// in unused space are not looked at. [Check] lists all that is wrong; the way on
// is a backup, or [Export], which writes what can still be read, and [Import]. A file of
// which a power cut tore one head page, and that is sound otherwise, is put right by [Recover].
//
// # What survives
//
// [Log.Commit] is one bbolt transaction. When it has returned nil, bbolt has
// written the pages, called fdatasync, written the new head page and called
// fdatasync again. A process that dies at any moment leaves the state before or
// after the batch. A power cut leaves the same as far as the system and the
// disk do what fdatasync asks of them; store adds no promise of its own.
// The folder is synced when a job is made, and those above it when they are made, so that
// their names survive too.
//
// # Use
//
// A Log may be used from several goroutines; commits run one after another. Only
// one process, and one Log in it, has a job open at a time. On systems without
// flock, such as Windows, a job that another process has open may be reported as
// damaged instead of in use, and a full disk by the system's own error only.
package store
