// Package unread decides what is answered to a line that nothing reads: a refusal with a line that would do,
// a note that keeps its words, or silence.
package unread
