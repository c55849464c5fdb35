// Package ledger is a job in hand: its state, what is remembered beside it (open questions, what was asked, notes held
// for a room, waiting pictures), and what the messages answered since the last commit will commit.
package ledger
