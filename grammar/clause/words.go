package clause

import (
	"strings"

	"strapline/grammar/lex"
)

// class is the part of speech of an item.
type class int

const (
	other   class = iota // a word without a part: it stays in the text alone
	filler               // changes nothing
	number               // a length or a count
	kind                 // what there is: light, window, ...
	wall                 // north, east, south, west
	quarter              // ne, nw, se, sw
	ceiling
	floor
	off     // from
	of      // of, after a wall, a corner or a row
	up      // up, high
	down    // down from the ceiling
	every   // each, both, all
	corner  // of a room
	end     // of a wall, or a side of the room
	way     // "30 both ways"
	wallish // the word wall itself
	one     // one of several
	row
	apart // between one and the next
	evenly
	start // the first of a row
	gang
	round
	wide
	deep
	by      // x between two numbers
	side    // left, right
	near    // a landmark follows
	head    // the end of a landmark: "top of the stairs"
	pronoun // what was said before
	sill    // the height of a window
	mid     // the middle of what follows, or of what no distance gives
	and     // and, plus, a comma
	on      // on, in
	named   // a thing that is noted
	along   // east-west, north-south
	tag     // what a distance is to: the edge, the bare studs
	numbering
	toward // before the middle, or a side
	about  // not what the tape says
)

// classes are the words of each class, singular and plural.
var classes = table(map[class]string{
	filler: `the a an is are its it's i've we've i we there theres there's got have goes go sits sitting sit set located mounted here so ok okay now run runs running which dead smack low grid pattern layout do did want room ro somewhere comes come coming out also then new measured will be
		they're theyre new just spot needs need gets get exactly only total altogether in-all  wants want please pls`,
	of: "of", up: "up high hi tall aff", down: "down", every: "each every both all either", corner: "corner corners crnr crnrs", end: "end ends side sides", way: "way ways direction directions",
	wallish: "wall walls", one: "one other another", row: "row rows line lines", apart: "apart spacing spaced centers centres ctrs oc o.c o/c c/c cc space", evenly: "even evenly equally equal spread",
	start: "first start starts starting begin begins beginning", gang: "gang", round: "round rnd dia diameter circular circle hole holes", wide: "wide across width", deep: "deep depth",
	by: "x × by", side: "left right", near: "near beside next behind under underneath below beneath above over against past inside outside opposite for serving feeding facing between",
	head: "top bottom back front foot", pronoun: "it them em that this those these", sill: "sill height",
	mid: "centreline centerline centred centered centre center cntr ctr middle mid halfway midway",
	and: "and & plus n + with , ; :", on: "on in at along @", numbering: "number no num #", toward: "to", ceiling: "ceiling lid", floor: "floor deck",
	about: "about approx approximately roughly around ish maybe probably ~ nearly almost", off: "from off",
})

// Also are words for things that only a line with distances may mean.
var Also = map[string]string{"rose": "light", "roses": "light", "lamp": "light", "disc": "light", "discs": "light", "lamps": "light", "reg": "vent", "regs": "vent", "return": "vent", "returns": "vent", "recs": "outlet", "rec": "outlet", "nailer": "blocking", "nailers": "blocking", "block": "blocking", "blocks": "blocking"}

// upright reports whether a landmark puts a thing above or below another: they share their distance along
// the wall.
var upright = lex.Set("above", "over", "under", "underneath", "below", "beneath")

func table(of map[class]string) map[string]class {
	all := map[string]class{}
	for c, words := range of {
		for w := range strings.FieldsSeq(words) {
			all[w] = c
		}
	}
	return all
}
