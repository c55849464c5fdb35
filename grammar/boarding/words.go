package boarding

import (
	"strings"

	"strapline/grammar/lex"
)

// class is the part that a word may have in what is told. A word may be of several: "open" is a hole that is
// cut, and a seam that is not tight.
type class uint64

const (
	small     class = 1 << iota // it changes nothing
	sep                         // it parts one thing from the next
	count                       // a number of boards, rows or things
	size                        // a length as measured
	long                        // boards by their length
	thick                       // a thickness of board
	kind                        // a type of board
	noun                        // boards
	piece                       // a part of a board
	row                         // a row, with its number if it was said
	on                          // a surface
	thing                       // what a board hides, by its name or its kind
	came                        // boards were delivered
	used                        // boards were used
	spoilt                      // boards were spoiled
	broken                      // they were spoiled, and nothing else is so
	none                        // there are none left
	isUp                        // they are on the framing
	done                        // they may be on the framing, or taped
	cutOut                      // a hole is cut
	fits                        // which board a surface gets
	every                       // all of it
	half                        // a part of it that was not counted
	last                        // the last one
	rest                        // what was not up before
	another                     // one more
	top                         // the row at the top
	side                        // the side of a room, by its wall
	along                       // what a row is beside
	mends                       // what was said before is put right
	bottom                      // the row at the bottom
	but                         // all of it except
	sofar                       // counted from the start
	still                       // not done yet
	left                        // what remains
	started                     // where a row was begun
	recounted                   // boards were counted
	only                        // a count is right, another was wrong
	short                       // fewer came than were said
	them                        // the boards that were spoken of last
	seam                        // an edge between boards
	parted                      // what is wrong with it
	taper                       // who is to mend it
	stuff                       // materials other than boards
	house                       // the whole room
	planned                     // when it is to be done, or was
	source                      // who brings boards
	denied                      // it is not so, or not yet
)

// said are the words of each class, with a hyphen between those of a phrase.
var said = []struct {
	class
	words string
}{
	{small, `the a an of at are is its it's it i i've ive we we've weve have has had been my our this that these here there now today ok okay so just pls with to for by we're were along everythings put guys boss lads folks then too also
		already finally in-here in-there up-here up-there this-morning this-afternoon this-arvo tonight before-lunch after-lunch by-lunch before-break as-well in into from yesterday again lol yep yeah hour off
		nicely good great was were got get over more away fresh new each out stairs per as-planned across lengths length full in-total total altogether sizes size one ones be
		heads-up no-problem all-of-it though anyway everyone btw fyi please our r wait sorry part`},
	{small, `=`},
	{sep, `, ; & + - . : and plus n`},
	{noun, `board boards sheet sheets sht shts bds panels drywall rock`},
	{piece, `piece pieces pcs bit bits filler fillers chunk strip strips rip rips offcut`},
	{came, `came come delivered delivery arrived landed showed-up turned-up dropped-off dropped brought received unloaded came-in rolled-in sent carried-in carried-up`},
	{source, `truck yard supplier driver drop load off-the-truck on-the-truck`},
	{used, `used used-up burned burned-through burnt ran-through went-through gone-through ate ate-up took chewed-through`},
	{spoilt, `broke broken busted crushed smashed wrecked damaged ruined snapped cracked trashed spoiled spoilt wasted scrapped no-good toast junk soaked gone got-wet came-wet all-wet bin mashed cut-wrong lost botched miscut wrong
		rain-got-to the-rain-got-to chipped written-off garbage useless split binned tossed`},
	{broken, `broken busted cracked crushed smashed wrecked damaged ruined snapped chipped soaked no-good got-wet came-wet all-wet cut-wrong miscut`},
	{none, `out-of no-more none-left`},
	{isUp, `up on hung closed closed-up closed-in closed-off boarded boarded-up boarded-out installed in covered sheeted rocked sheeted-up went-up put-up hang buttoned-up`},
	{done, `done complete completed finished screwed screwed-off`},
	{cutOut, `cut cut-out cutout opened opened-up open zipped zipped-out routed routed-out cut-in out pulled-through pulled-thru pulled-out poked-through poked-thru through thru brought-through brought-thru fished-out`},
	{fits, `use using uses gets get getting is are wants want needs need takes going-with will-be gonna-be should-be in on for goes goes-on doing we're we're-doing wants-to-be has-to-be have-to-be be`},
	{every, `all everythings whole entire everything every all-of both completely`},
	{half, `half half-of most most-of part part-of partly mostly half-way halfway`},
	{last, `last very-last final`},
	{rest, `rest remaining remainder rest-of`},
	{another, `next another one-more`},
	{top, `top upper tops uppers`},
	{bottom, `bottom lower bottoms lowers`},
	{side, `side end wall walls edge part`},
	{along, `along against by at to near beside next-to towards tight-to tight up-against`},
	{mends, `mean meant scratch-that scratch make-that`},
	{but, `but except except-for apart-from other-than minus bar all-but besides save-for barring short-of exept excpt xcept`},
	{sofar, `so-far up-to thats that's makes that-makes`},
	{still, `still to-go to-do yet not-yet to-come next-up moving-to moving-on moving-on-to onto starting starting-on moving left-to-do left-to-go`},
	{left, `left on-hand down-to remain downstairs upstairs outside stacked`},
	{started, `started starting started-off started-at started-from started-on starting-at starting-from begun counted-from going-from working-from coming-from from`},
	{recounted, `counted recounted counted-again recount`},
	{only, `only just actually really`},
	{short, `shorted short missing`},
	{them, `new-ones them those of-them of-those of-em em`},
	{seam, `gap gaps seam seams joint joints butt butts edge edges`},
	{parted, `open wide big gapped doesnt-meet doesn't-meet dont-meet don't-meet doesnt-touch doesn't-touch dont-touch don't-touch doesnt-close doesn't-close not-tight isnt-tight not-touching apart uneven`},
	{taper, `taper tapers finisher finishers mudder prefill prefilled pre-fill prefilling fill filled filling tape taping mud`},
	{stuff, `screw screws mud compound tape bead beads corner-bead cornerbead bucket buckets pail pails box boxes bag bags rolls roll adhesive glue nail nails trim insulation shims stick sticks
		tub tubs carton cartons plates hangers tools lift scaffold lumber primer paint sandpaper mesh paper`},
	{house, `everywhere all-over throughout`},
	{planned, `before-lunch by-lunch before-break`},
	{denied, `not no never dont don't cant can't wont won't havent haven't hasnt hasn't isnt isn't arent aren't nobody aint ain't didnt didn't wasnt will gonna should shouldnt might maybe could would if
		when once until till unless almost nearly before after tomorrow tmrw later why how hows how's what whats what's where wheres who whos whens trying supposed ready instead don't`},
}

// kinds are the types of board, with what each is called in our lines.
var kinds = map[string]string{
	"type x": "x", "type c": "c", "fire": "fire", "fireboard": "fire", "fire rated": "fire", "fire board": "fire",
	"moisture": "moisture", "mr": "moisture", "moisture resistant": "moisture", "water resistant": "moisture",
	"green": "green", "greenboard": "green", "purple": "purple", "blue": "blue", "mould": "mould", "mold": "mould", "mould resistant": "mould", "mold resistant": "mould",
	"cement": "cement", "tile": "tile", "ultralight": "ultralight", "ultra light": "ultralight", "lightweight": "ultralight", "sag resistant": "sag", "sound": "sound", "acoustic": "sound",
	"regular": "regular", "standard": "regular",
}

// feet are boards by a word for their length. In the singular it is a count too.
var feet = map[string]string{"eights": "8", "nines": "9", "tens": "10", "twelves": "12", "fourteens": "14", "sixteens": "16"}

// counts are counts beside the small numbers.
var counts = map[string]int{"couple": 2, "pair": 2, "dozen": 12, "both": 2, "half dozen": 6, "fourteen": 14, "fifteen": 15, "sixteen": 16, "twenty": 20, "thirty": 30, "forty": 40}

// thicknesses are thicknesses of board in words.
var thicknesses = map[string]string{"half inch": "1/2", "half an inch": "1/2", "half in": "1/2", "five eighths": "5/8", "five eights": "5/8", "five eighth": "5/8", "three eighths": "3/8"}

// phrases are all of these, by their words with single spaces. None has more than four words.
var phrases = func() map[string]word {
	m := map[string]word{}
	add := func(said string, w word) {
		w.class |= m[said].class
		if w.value == "" {
			w.value = m[said].value
		}
		m[said] = w
	}
	for _, s := range said {
		for _, w := range strings.Fields(s.words) {
			if len(w) > 1 {
				w = strings.ReplaceAll(w, "-", " ")
			}
			add(w, word{class: s.class})
		}
	}
	for w, v := range kinds {
		add(w, word{class: kind, value: v})
	}
	for w, v := range feet {
		add(w, word{class: long, value: v + "'"})
	}
	for w, v := range thicknesses {
		add(w, word{class: thick, value: v})
	}
	for _, all := range []map[string]int{counts, lex.Counts} {
		for w, n := range all {
			add(w, word{class: count, n: n})
		}
	}
	return m
}()
