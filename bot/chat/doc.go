// Package chat is the door for a crew that uses the channels of a team chat server. Each
// channel is a job, each post a message, and the reply goes into the post's thread. It is
// the only package that links the server's own client.
//
// # Jobs
//
// The job of a channel is named TEAM-CHANNEL-ID. A renamed channel keeps its job, which is
// found by the ID at the end of its file name.
//
// # Nothing missed
//
// The socket is opened first. After its hello, every channel fetches what changed since
// its watermark, less an overlap, while new events wait until that is folded in. The
// watermark of a channel starts when the account joined it, however long ago. Messages are
// folded in order of the time they were posted, then of their IDs. The key of a message is
// the ID of its post; an edit adds the time of the edit, a deletion the word "deleted". An
// answered message leaves a receipt under that key in the job's store, in the same
// transaction as its entries. A message that got no answer is remembered next to the
// watermark for as long as the overlap may return it. So a message that arrives twice is
// answered once, even across a restart.
//
// The server returns at most 1,000 changes and does not say whether there are more. In
// that case the channel is read page by page, which gives every new post, and every edit
// of a post up to a day older than the watermark. The deletion of an older post during
// such a gap may be missed: its entry stays in the job's log, and a warning is logged.
//
// # Nothing answered twice
//
// A reply is in the job's outbox from the transaction that saved its entry until the
// server has it. All tries of a reply use the same random pending ID, by which the server
// drops repeats for about 30 seconds, and a property of the post names the message it
// answers. If a try may have succeeded (no response, a 5xx, a restart), that property is
// looked for in the thread before the reply is posted again.
//
// One case remains: a try hangs in the server or a proxy until the reply has been looked
// for and posted again and the server has forgotten that pending ID, by age or by a
// restart, and only then is carried out. Then the reply appears twice, but the entry never
// does. The health line counts replies posted again in doubt as unsure, and replies seen
// twice as doubled.
//
// If the data folder is new, restored or the wrong one, it does not know what was answered.
// The replies in the channel do: a message that has one is folded in without answering it
// again, and the channel is told once that the log was rebuilt. A message answered with
// "NOT confirmed as saved" is left out, since its sender was told to send it again.
//
// # A server without its database
//
// When a server loses its database it keeps running and gives wrong answers: existing
// threads are reported as deleted and, once the sessions in its memory have expired,
// every token is refused. So a permanent refusal is believed only if the server's ping
// says that the database is up, or says nothing about it.
//
// A refused reply is dropped if the channel is archived, the account is not a member, the
// thread was deleted or the text is not acceptable; the log says which. Otherwise it is
// tried again. A reply that is too long is cut, and says so.
//
// A refused token holds back every request until it is accepted again. It ends [Run] if
// it is refused for ten minutes without interruption, or for one if it was never accepted.
package chat
