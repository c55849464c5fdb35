// Package wording has other words for lines that the rules read: framing in any order, things placed off
// others, rooms opened in passing, and a table of phrases.
package wording
