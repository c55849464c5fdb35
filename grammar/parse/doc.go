// Package parse reads a message: Split and Cut make lines of it, and Line reads one, by the rules of all kinds
// or in other words.
package parse
