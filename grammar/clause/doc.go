// Package clause reads what a text says of things and where they are, by its words in any order.
//
// It takes the words by parts of speech (grammar/parts), gives every number its role (role.go, off.go, extent.go), and gathers what is said of each kind of thing in a clause (frame.go). If a number has no
// role, or a word denies something, nothing is read.
package clause
