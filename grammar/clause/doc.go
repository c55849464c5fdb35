// Package clause reads what a text says of things and where they are, by its words in any order.
//
// It sorts the words into parts of speech (scan.go, by the tables in words.go), gives every number its role
// (role.go, off.go), and gathers what is said of each kind of thing in a clause (frame.go). If a number has no
// role, or a word denies something, nothing is read.
package clause
