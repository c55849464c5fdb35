package grammar

import (
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/measure"
)

// Context is what a line is read against: the job's units and the names declared so far. All names are in
// lower case with single spaces.
type Context struct {
	Units length.Units
	Rooms map[string]string     // room names and aliases -> the room's name
	Walls map[string]place.Wall // aliases of walls, "window" for "window wall"
	// Seen are kinds of openings that are noted in one wall only: the window wall is that one.
	Seen map[string]place.Wall
	// Opening are those of Rooms whose size is still asked for.
	Opening []string
	// Name reports whether the words are a declared thing, mark or label.
	// MaxWords is the longest such name, in words.
	Name     func(words string) bool
	MaxWords int
	// Noun reports whether the word is in the name, kind or label of something noted.
	Noun func(word string) bool
	// Told reports whether the crew noted something in its own words that has most of the words; nil if it noted nothing.
	Told func(words []string) bool
	// EW and NS are the sides of the sender's room, Here, for "the short way"; zero if there is none.
	EW, NS length.Length
	Here   string
	// Sides are those of a declared room.
	Sides func(room string) (ew, ns length.Length)
	Last  Last // what the sender noted last, which the next line may refer to
	// Spoken returns the things that the last answer was about, which "it" or "them" may be; nil if there are none.
	Spoken func() Spoken
	// Left is how many more readings there may be of the words of a line, nil before the first.
	Left *int
	// Asked says that the sender has an open question, so a bare digit or a bare length may be its answer.
	Asked bool
	// Choice says that the line is itself a choice of a question: if it leads to one more, nobody will see the
	// choices of that.
	Choice bool
	// Strict says that what a line leaves out is not asked for.
	Strict bool
	// Spelt says that slips in its words are put right already.
	Spelt bool
	// Whole says that no part of a line is proposed alone.
	Whole bool
	// Depth counts the readings within which this one is tried: that of a hint, of other words, of a part.
	Depth int
	// Follows is [Right] after a message of ours, so that a few words about a wall, a side or a size
	// belong to it. It stays above 0 for a few more messages.
	Follows int
}

// Right is the value after a message that was answered.
const Right = 3

// Last is the thing that a sender noted last.
type Last struct {
	Name, What string
	Size       place.Size
	Wall       place.Wall // that it is in, "" if it is on the ceiling
	Now        bool       // it is the last thing of any kind that the sender noted
}

// Spoken are things of a room, by their names.
type Spoken struct {
	Room  string
	Names []string
}

// IsLength reports whether text is a single length, unambiguous or not.
func (c *Context) IsLength(text string) bool {
	text = strings.TrimSpace(strings.TrimPrefix(text, "a ")) // make it a 6"
	_, n, _ := measure.Scan(text, c.Units, measure.One)
	return n > 0 && n == len(text)
}
