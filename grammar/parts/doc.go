// Package parts sorts the words of a text that tells places into parts of speech, by the tables in words.go.
package parts
