package fasten

import (
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Thread is the thread of a screw.
type Thread string

const (
	Coarse Thread = "coarse" // type W, into wood (ASTM C1002)
	Fine   Thread = "fine"   // type S, into light steel (ASTM C1002)
)

// Screw is a screw in a support. Bite is the length in wood, or the length past the
// steel. It does not count the set of the head, so a screw driven only flush still
// holds. Need is the bite that the rule requires.
type Screw struct {
	Length, Bite, Need length.Length
	Notes              []Note
}

// Holds reports whether the screw bites enough.
func (s Screw) Holds() bool { return s.Bite >= s.Need }

// steelSkin is the thickness assumed for steel: 20 gauge is about 0.036 in and 25
// gauge 0.018 in (from memory), so 1/32 in serves for both.
const steelSkin = 2 * length.SixtyFourth

const eighth = length.Inch / 8

// Stock lists the screw lengths usually sold for a thread, shortest first.
// Common practice, no source.
func Stock(t Thread) []length.Length {
	s := []length.Length{9 * eighth, 10 * eighth, 13 * eighth, 16 * eighth, 20 * eighth, 24 * eighth}
	if t == Fine {
		s = slices.Insert(s, 0, length.Inch)
	}
	return s
}

// ScrewLength picks a screw. On wood it is 1-1/4 in for board up to 1/2 in, and 1-5/8
// for 5/8 (common practice, no source). Otherwise, or if that is too short, it is the
// shortest stock length with enough bite.
func ScrewLength(w Where, s place.Support) Screw {
	thread := threadFor(s)
	if class, _ := classOf(w.Board); thread == Coarse && w.Board <= fiveEighths+length.Millimetre/2 {
		usual := 10 * eighth
		if class == fiveEighths {
			usual = 13 * eighth
		}
		if screw := Check(usual, w, s); w.Board+screw.Need <= usual {
			return screw
		}
	}
	var screw Screw
	for _, l := range Stock(thread) {
		screw = Check(l, w, s)
		if reach(l, w, s) >= screw.Need {
			return screw
		}
	}
	screw.Notes = append(screw.Notes, Note{Kind: NoStockLength, Limit: screw.Need})
	return screw
}

// Check compares a screw of the crew's choice with the rule.
func Check(screw length.Length, w Where, s place.Support) Screw {
	need, source := biteFor(w, s.Steel())
	c := Screw{Length: screw, Need: need, Bite: max(reach(screw, w, s), 0)}
	if w.Rated > 0 {
		c.Notes = append(c.Notes, Note{Kind: ListingRules, Source: srcListing})
	}
	if !s.Steel() && s.Thick > 0 {
		c.Bite = min(c.Bite, s.Thick)
		if s.Thick < need {
			c.Notes = append(c.Notes, Note{Kind: ThinSupport, Got: s.Thick, Limit: need, Source: source})
		}
	}
	if !c.Holds() {
		c.Notes = append(c.Notes, Note{Kind: ShortBite, Got: c.Bite, Limit: need, Source: source})
	}
	return c
}

func threadFor(s place.Support) Thread {
	if s.Steel() {
		return Fine
	}
	return Coarse
}

// reach is the length of a screw past the back of the board, or past the steel.
func reach(screw length.Length, w Where, s place.Support) length.Length {
	if s.Steel() {
		return screw - w.Board - steelSkin
	}
	return screw - w.Board
}

// biteNBC is NBC Table 9.29.5.5 for screws: the least penetration into wood by fire
// rating in minutes.
var biteNBC = []struct {
	minutes       int
	wall, ceiling length.Length
}{
	{0, 15 * length.Millimetre, 15 * length.Millimetre},
	{45, 20 * length.Millimetre, 30 * length.Millimetre},
	{60, 20 * length.Millimetre, 45 * length.Millimetre},
	{90, 20 * length.Millimetre, 60 * length.Millimetre},
}

// biteFor is the least bite and its source: 5/8 in into wood and 3/8 in past steel (IRC
// R702.3.5.1, ASTM C1002 s.8.5.2), or for NBC by the rating. A rating between two rows
// uses the higher one, a rating beyond the table the last.
func biteFor(w Where, steel bool) (length.Length, string) {
	if steel {
		return threeEighths, srcBiteIRC
	}
	us := fiveEighths
	if w.Code == place.US {
		return us, srcBiteIRC
	}
	row := biteNBC[len(biteNBC)-1]
	for _, b := range slices.Backward(biteNBC) {
		if w.Rated <= b.minutes {
			row = b
		}
	}
	ca := row.ceiling
	if w.Wall {
		ca = row.wall
	}
	if w.Code == place.Canada || ca > us {
		return ca, srcBiteNBC
	}
	return us, srcBiteIRC
}
