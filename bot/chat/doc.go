// Package chat is the door for a crew that lives in the channels of a team chat
// server. One channel is one job; a post is a message, a reply goes into its
// thread. It is the only package that links the server's own client.
//
// # Jobs
//
// The job of a channel is named TEAM-CHANNEL-ID. A channel that is renamed keeps
// its job, which is found again by the id at the end of its file's name.
//
// # Nothing missed
//
// The socket is opened first; when its hello has come, every channel fetches what
// changed since its watermark, less an overlap, and the events that came
// meanwhile wait until that is folded in. The watermark of a channel starts
// where the account joined it, however long ago that was. Messages are folded in the order of the time they
// were posted, then of their ids. The key of a message is the id of its post; an
// edit has the post's id and the time of the edit, a deletion the id and the word
// "deleted". What was answered leaves a receipt under that key in the job's store,
// in the same transaction as its entries; what was left alone is kept beside the
// watermark as long as the overlap may bring it again. So a message that
// comes twice is answered once, before and after a restart.
//
// The server names at most 1,000 changes and does not say when there were more.
// Then the channel is read page by page, which gives every new post and every edit
// of a post up to a day older than the watermark. A deletion of an older post
// during such a gap may go unseen: the entry stays in the log, and the log says so.
//
// # Nothing answered twice
//
// A reply lies in the job's outbox from the transaction that saved its entry until
// the server has it. Each keeps one random pending id for all its tries, by which
// the server drops a repeat for about 30 seconds, and names its message in a
// property of the post. After any doubt (no answer, a 5xx, a restart of ours) that
// property is looked for in the thread before the reply is posted again.
//
// What is left: a try that hangs, inside the server or a proxy, until the reply
// was looked for and posted again, and until the server has forgotten the pending
// id of that, by its age or by a restart; and is carried out then. The reply stands
// twice, the entry never does. The health line counts the replies posted again
// after a doubt as unsure, and those really seen twice as doubled.
//
// A data folder that is new, of another time or the wrong one knows nothing of what was
// answered. Then the replies that stand in the channel tell: the message that one answers
// is folded in and not answered again, and the channel is told once that the log was
// rebuilt. What was answered "NOT confirmed as saved" is left out, for its sender was told
// to send it again.
//
// # A server without its database
//
// Such a server goes on, and tells lies: threads that stand are gone, and when the
// sessions in its memory have run out, every token is refused. So what it says for
// good is believed only while its ping says that the database is there, or does
// not say.
//
// A reply that it refuses is dropped when it is also true that the channel is
// archived, or the account no member of it, or the thread deleted, or when its text
// was at fault; the log says which. Else it is tried again. A reply that is too long is cut and says so.
//
// A token that is refused holds every request back until it is taken again. It
// ends [Run] when it was refused for ten minutes on end, or for one if it was
// never taken before.
package chat
