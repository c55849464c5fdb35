package grammar

import (
	"errors"

	"strapline/calc/length"
)

// Context is what a line is read against: the job's units and the names
// declared so far. All names are lower case with single spaces.
type Context struct {
	Units length.Units
	Rooms map[string]string // room names and aliases -> the room's name
	Walls map[string]Wall   // aliases of walls, "window" for "window wall"
	// Name reports whether the words are a declared thing, mark or label.
	// MaxWords is the longest such name, in words.
	Name     func(words string) bool
	MaxWords int
	// Asked says that the sender has an open question, so that a bare digit
	// or a bare length may answer it.
	Asked bool
}

// ErrChatter means the line is not for us: say nothing.
var ErrChatter = errors.New("chatter")

// Refusal says what in a line could not be read: where, which word, what
// would fit there, and an example that itself parses.
type Refusal struct {
	Col  int    // in runes, from 1
	Word string // "" at the end of the line
	Want string
	Hint string
	Once bool // a near miss in a busy channel: hint at most once
}

// Ask is a line with two readings. Each choice is a whole line that has one.
type Ask struct {
	Col     int
	Word    string // the ambiguous words as typed
	Why     string // "84 2: 2 what?"
	Choices []Choice
}

// Choice is one reading: the label shown, and the canonical line it stands for.
type Choice struct{ Label, Text string }

// Parse reads one entry. The error is an *Ask, a *Refusal or ErrChatter.
func Parse(text string, c *Context) (Line, error) {
	return Line{}, ErrChatter
}

// Split cuts a message into the texts of its entries: one a line, or between
// semicolons; a note keeps its own semicolons.
func Split(message string) []string { return []string{message} }
