package quantity

import "strapline/calc/length"

// Ones are the number words under twenty; Tens need a second word for the rest.
var Ones = map[string]int64{
	"zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
	"eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13,
	"fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
}

var Tens = map[string]int64{
	"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50,
	"sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

// Parts are the denominators said in one word. Zero: no mark on a tape.
// Below zero: what a phone hears for one, never taken for it.
var Parts = map[string]int64{
	"half": 2, "halves": 2, "quarter": 4, "quarters": 4, "fourth": 4, "fourths": 4,
	"eighth": 8, "eighths": 8, "sixteenth": 16, "sixteenths": 16,
	"thirds": 0, "fifths": 0, "sixths": 0, "sevenths": 0, "ninths": 0, "tenths": 0,
	"twelfths": 0, "hundredths": 0, "ates": -8, "eights": -8, "sixteens": -16,
}

var Units = map[string]length.Length{
	"in": length.Inch, "inch": length.Inch, "inches": length.Inch, "ins": length.Inch,
	"ft": length.Foot, "foot": length.Foot, "feet": length.Foot,
	"mm": length.Millimetre, "millimetre": length.Millimetre, "millimetres": length.Millimetre,
	"millimeter": length.Millimetre, "millimeters": length.Millimetre,
	"cm": length.Centimetre, "centimetre": length.Centimetre, "centimetres": length.Centimetre,
	"centimeter": length.Centimetre, "centimeters": length.Centimetre,
	"m": length.Metre, "metre": length.Metre, "metres": length.Metre, "meter": length.Metre, "meters": length.Metre,
}

// followers are words that a length is said before, so that "26 in off west"
// is inches and "26 in kitchen" is a room. They may also be glued to a number.
var followers = map[string]bool{
	"off": true, "up": true, "down": true, "from": true, "along": true, "of": true, "on": true,
	"to": true, "x": true, "by": true, "and": true, "oc": true, "o": true, "at": true,
	"high": true, "wide": true, "long": true, "deep": true, "thick": true, "above": true,
	"below": true, "over": true, "under": true, "row": true, "strap": true, "joist": true,
	"stud": true, "channel": true, "first": true, "apart": true, "less": true, "short": true,
	"strong": true, "heavy": true, "plus": true, "fat": true, "full": true, "shy": true, "ish": true,
	"scant": true, "weak": true, "minus": true, "s": true, "centre": true, "center": true, "edge": true,
}

// ways are words for the way from a wall when one of offs follows: "70 in back from the south wall".
var (
	ways = map[string]bool{"in": true, "out": true, "back": true, "away": true, "over": true}
	offs = map[string]bool{"from": true, "off": true}
)

var compass = map[string]bool{"north": true, "east": true, "south": true, "west": true}
