// Package turn answers one entry of a message: it reads it beside the question that is open, takes what the handlers
// say, asks, corrects, holds and shows. It knows no kind of entry.
package turn
