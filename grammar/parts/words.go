package parts

import "strapline/grammar/lex"

// Class is the part of speech of an item.
type Class int

const (
	Other  Class = iota // a word without a part: it stays in the text alone
	Filler              // changes nothing
	Number              // a length or a count
	Kind                // what there is: light, window, ...
	Wall                // north, east, south, west
	Ceiling
	Floor
	Off     // from
	Of      // of, after a wall, a corner or a row
	Up      // up, high
	Down    // down from the ceiling
	Every   // each, both, all
	Corner  // of a room
	End     // of a wall, or a side of the room
	Way     // "30 both ways"
	Wallish // the word wall itself
	One     // one of several
	Row
	Apart // between one and the next
	Evenly
	Start // the first of a row
	Gang
	Round
	Wide
	Deep
	By      // x between two numbers
	Side    // left, right
	Near    // a landmark follows
	Head    // the end of a landmark: "top of the stairs"
	Pronoun // what was said before
	Sill    // the height of a window
	Mid     // the middle of what follows, or of what no distance gives
	And     // and, plus, a comma
	On      // on, in
	Named   // a thing that is noted
	Along   // east-west, north-south
	Tag     // what a distance is to: the edge, the bare studs
	Numbering
	Toward // before the middle, a side, or the end of an extent
	Full   // from end to end
	Then   // the next of a row
	About  // not what the tape says
)

// classes are the words of each class, singular and plural.
var classes = lex.ByWord(map[Class]string{
	Then: "then thereafter after", Filler: `the a an is are its it's i've we've i we there theres there's got have goes go sits sitting sit set located mounted here so ok okay now run runs running which dead smack low grid pattern layout do did want room ro somewhere comes come coming out also new measured will be
		they're theyre just spot needs need gets get exactly only total altogether in-all wants please pls`,
	Of: "of", Up: "up high hi tall aff", Down: "down", Every: "each every both all either per", Corner: "corner corners crnr crnrs", End: "end ends side sides", Way: "way ways direction directions",
	Wallish: "wall walls", One: "one other another", Row: "row rows line lines", Apart: "apart spacing spaced centers centres ctrs oc o.c o/c c/c cc space", Evenly: "even evenly equally equal spread",
	Start: "first start starts starting begin begins beginning", Gang: "gang", Round: "round rnd dia diameter circular circle hole holes", Wide: "wide across width", Deep: "deep depth",
	By: "x × by", Side: "left right", Near: "near beside next behind under underneath below beneath above over against past inside outside opposite for serving feeding facing between",
	Head: "top bottom back front foot", Pronoun: "it them em that this those these", Sill: "sill height",
	Mid: "centreline centerline centred centered centre center cntr ctr middle mid halfway midway",
	And: "and & plus n + with , ; :", On: "on in at along @", Numbering: "number no num #", Toward: "to", Ceiling: "ceiling lid", Floor: "floor deck",
	About: "about approx approximately roughly around ish maybe probably ~ nearly almost", Off: "from off",
})

// Also are words for things that only a line with distances may mean.
var Also = map[string]string{"rose": "light", "roses": "light", "flood": "light", "floods": "light", "disc": "light", "discs": "light", "reg": "vent", "regs": "vent", "return": "vent", "returns": "vent", "recs": "outlet", "rec": "outlet", "nailer": "blocking", "nailers": "blocking", "block": "blocking", "blocks": "blocking"}
