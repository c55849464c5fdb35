package length

// ones are the number words under twenty; tens need a second word for the rest.
var ones = map[string]int64{
	"zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
	"eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13,
	"fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
}

var tens = map[string]int64{
	"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50,
	"sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

// parts are the denominators said in one word. Zero: no mark on a tape.
// Below zero: what a phone hears for one, never taken for it.
var parts = map[string]int64{
	"half": 2, "halves": 2, "quarter": 4, "quarters": 4, "fourth": 4, "fourths": 4,
	"eighth": 8, "eighths": 8, "sixteenth": 16, "sixteenths": 16,
	"thirds": 0, "fifths": 0, "sixths": 0, "sevenths": 0, "ninths": 0, "tenths": 0,
	"twelfths": 0, "hundredths": 0, "ates": -8, "eights": -8, "sixteens": -16,
}

// homophones are words a phone writes for a number, and people for themselves.
var homophones = map[string]int64{"to": 2, "too": 2, "for": 4, "fore": 4, "ate": 8}

// guesses are said before a number that was not measured well.
var guesses = map[string]bool{"about": true, "around": true, "roughly": true, "approx": true, "approximately": true,
	"maybe": true, "nearly": true, "almost": true, "probably": true, "circa": true}

// doubts are said behind one.
var doubts = [][]string{{"ish"}, {"or", "so"}, {"give", "or", "take"}, {"more", "or", "less"}, {"i", "think"}, {"i", "guess"},
	{"or", "thereabouts"}, {"maybe"}, {"roughly"}, {"about"}, {"approx"}, {"approximately"}, {"probably"}}

var units = map[string]Length{
	"in": Inch, "inch": Inch, "inches": Inch, "ins": Inch,
	"ft": Foot, "foot": Foot, "feet": Foot,
	"mm": Millimetre, "millimetre": Millimetre, "millimetres": Millimetre,
	"millimeter": Millimetre, "millimeters": Millimetre,
	"cm": Centimetre, "centimetre": Centimetre, "centimetres": Centimetre,
	"centimeter": Centimetre, "centimeters": Centimetre,
	"m": Metre, "metre": Metre, "metres": Metre, "meter": Metre, "meters": Metre,
}

// tags leave out "light", which is a thing to note before it is a bit under.
var tags = map[string]Tag{
	"strong": Strong, "heavy": Strong, "plus": Strong, "fat": Strong, "full": Strong,
	"shy": Shy, "scant": Shy, "weak": Shy, "minus": Shy,
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

var compass = map[string]bool{"north": true, "east": true, "south": true, "west": true}
