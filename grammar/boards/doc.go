// Package boards has the kinds about boards: which ones, how they run, how many there are, how they are
// planned, and the rows and pieces of a plan.
package boards
