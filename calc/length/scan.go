package length

// Slot says how much a number may take to itself.
type Slot int

const (
	// One: the slot takes one length and nothing else could own the number, so
	// feet and inches with bare spaces ("9 8 10/16") are read.
	One Slot = iota
	// List: lengths follow each other, so a bare space joins only a whole number and its fraction.
	List
)

// Reading is one way to understand a length.
type Reading struct {
	L   Length
	Tag Tag
}

// Scan reads the longest length at the very start of s and returns its
// readings and the bytes it took. No reading: s does not start with a length
// (n is 0), or starts with something that looks like one but has no value
// (n > 0, why says so). Several: ask, why says what is in doubt ("2 what?").
func Scan(s string, u Units, slot Slot) (readings []Reading, n int, why string) {
	return nil, 0, ""
}

// Format prints l for a phone: tape fractions reduced (98-1/8"), feet and inches
// from 10 ft up with the inches beside it for the saw, whole millimetres in a metric job.
func Format(l Length, u Units) string { return "" }

// Canon prints l exactly, in a form that Scan reads back to l in either units.
func Canon(l Length) string { return "" }
