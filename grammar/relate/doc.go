// Package relate reads lines that refer to what was said before: one more of the last thing, what was moved,
// corrected or taken back. It rewrites them in words that stand alone.
package relate
