package said

import (
	"strings"

	"strapline/calc/place"
	"strapline/grammar/quantity"
)

// Class is the part that a word may have in what is told. A word may be of several: "open" is a hole that is
// cut, and a seam that is not tight.
type Class uint64

const (
	Small     Class = 1 << iota // it changes nothing
	Sep                         // it parts one thing from the next
	Count                       // a number of boards, rows or things
	Size                        // a length as measured
	Long                        // boards by their length
	Thick                       // a thickness of board
	Kind                        // a type of board
	Noun                        // boards
	Piece                       // a part of a board
	Row                         // a row, with its number if it was said
	On                          // a surface
	Thing                       // what a board hides, by its name or its kind
	Came                        // boards were delivered
	Used                        // boards were used
	Spoilt                      // boards were spoiled
	Broken                      // they were spoiled, and nothing else is so
	None                        // there are none left
	IsUp                        // they are on the framing
	Done                        // they may be on the framing, or taped
	CutOut                      // a hole is cut
	Fits                        // which board a surface gets
	Every                       // all of it
	Half                        // a part of it that was not counted
	Last                        // the last one
	Rest                        // what was not up before
	Another                     // one more
	Top                         // the row at the top
	Side                        // the side of a room, by its wall
	Along                       // what a row is beside
	Mends                       // what was said before is put right
	Bottom                      // the row at the bottom
	But                         // all of it except
	Sofar                       // counted from the start
	Still                       // not done yet
	Left                        // what remains
	Started                     // where a row was begun
	Recounted                   // boards were counted
	Only                        // a count is right, another was wrong
	Short                       // fewer came than were said
	Them                        // the boards that were spoken of last
	Seam                        // an edge between boards
	Parted                      // what is wrong with it
	Taper                       // who is to mend it
	Stuff                       // materials other than boards
	House                       // the whole room
	Planned                     // when it is to be done, or was
	Source                      // who brings boards
	Denied                      // it is not so, or not yet
	Shut                        // board is over it
	Hole                        // a hole in the board
	Nth                         // a board by its order
	In                          // a room
	Due                         // boards are to come
	Later                       // when that is
	Worked                      // other work on boards that are up
	Middle                      // the row in the middle
)

// said are the words of each class, with a hyphen between those of a phrase.
var said = []struct {
	Class
	words string
}{
	{Small, `the a an of at are is its it's it i i've ive we we've weve have has had been my our this that these here there now today ok okay so just pls with to for by we're were along everythings put guys boss lads folks then too also
		already finally in-here in-there up-here up-there this-morning this-afternoon this-arvo tonight before-lunch after-lunch by-lunch before-break as-well in into from yesterday again lol yep yeah hour off
		nicely good great was got get over more away fresh new each out stairs per as-planned across lengths length full in-total total altogether sizes size one ones be
		heads-up no-problem my-bad all-of-it though anyway everyone btw fyi please r wait sorry part oops helper hanger`},
	{Small, `=`},
	{Sep, `, ; & + - . : and plus n`},
	{Noun, `board boards bored sheet sheets sht shts bds panels drywall rock`},
	{Piece, `piece pieces pcs bit bits filler fillers chunk strip strips rip rips offcut`},
	{Came, `came come delivered delivery arrived landed showed-up turned-up dropped-off dropped brought received unloaded came-in rolled-in sent carried-in carried-up picked-up came-up brought-up hauled-up went-up-the-stairs went-upstairs up-the-stairs got-here`},
	{Source, `truck yard supplier driver drop load off-the-truck on-the-truck`},
	{Used, `used used-up burned burned-through burnt ran-through went-through gone-through ate-up took chewed-through`},
	{Spoilt, `broke trashed spoiled spoilt wasted scrapped toast junk gone bin mashed lost botched wrong
		rain-got-to written-off garbage useless split binned tossed shot`},
	{Broken | Spoilt, `broken busted cracked crushed smashed wrecked damaged ruined snapped chipped soaked no-good got-wet came-wet all-wet cut-wrong miscut`},
	{None, `out-of no-more none-left`},
	{IsUp, `up on hung shut closed closed-up closed-in closed-off boarded boarded-up boarded-out installed in covered sheeted rocked sheeted-up went-up put-up hang buttoned-up`},
	{Done, `done complete completed finished finish screwed screwed-off`},
	{CutOut, `cut cutting cut-out cutout opened opened-up open zipped zipped-out routed routed-out cut-in out pulled-through pulled-thru pulled-out poked-through poked-thru through thru brought-through brought-thru fished-out`},
	{Shut, `covered buried behind under blind hidden uncut over concealed cover covers covering reached`},
	{Hole, `hole holes cutout cutouts opening cuts`},
	{Worked, `sanded sanding sand skimmed skim skimming primed priming painted coated marked measured inspected strapped insulated`},
	{Fits, `use using uses gets get getting is are wants want needs need takes going-with will-be gonna-be should-be in on for goes goes-on doing we're we're-doing wants-to-be has-to-be have-to-be be`},
	{Every, `all everythings whole entire everything every all-of both completely`},
	{Half, `half half-of most most-of part part-of partly mostly half-way halfway`},
	{Last, `last very-last final`},
	{Rest, `rest remaining remainder rest-of`},
	{Another, `next another one-more`},
	{Top, `top upper tops uppers`},
	{Bottom, `bottom lower bottoms lowers`},
	{Side, `side end wall walls edge part`},
	{Along, `along against by at to near beside next-to towards tight-to tight up-against`},
	{Mends, `mean meant scratch-that scratch make-that`},
	{But, `but except accept except-for apart-from other-than minus bar all-but besides save-for barring short-of exept excpt xcept`},
	{Sofar, `so-far up-to thats that's makes that-makes`},
	{Still, `still to-go to-do yet not-yet to-come next-up moving-to moving-on moving-on-to onto starting starting-on moving left-to-do left-to-go forgot missed`},
	{Left, `left leaves on-hand in-the-stack in-the-pile in-stock down-to remain downstairs upstairs outside`},
	{Started, `started starting started-off started-at started-from started-on starting-at starting-from begun counted-from going-from working-from coming-from from`},
	{Recounted, `counted recounted counted-again recount count see`},
	{Due, `come comes coming bring brings bringing arrive arrives arriving due expected expecting on-order ordered on-its-way on-the-way is-coming will-come stay stays staying`},
	{Later | Still | Denied, `tomorrow tmrw`},
	{Later, `tonight later after-lunch next-week this-week this-arvo monday tuesday wednesday thursday friday saturday sunday mon tue tues wed thu thurs fri sat sun`},
	{Only, `only just actually really`},
	{Short, `shorted short missing`},
	{Them, `new-ones them those of-them of-those of-em em`},
	{Seam, `gap gaps seam seams joint joints butt butts edge edges`},
	{Parted, `open wide big gapped doesnt-meet doesn't-meet dont-meet don't-meet doesnt-touch doesn't-touch dont-touch don't-touch doesnt-close doesn't-close not-tight isnt-tight not-touching apart uneven`},
	{Taper, `taper tapers finisher finishers mudder prefill prefilled pre-fill prefilling fill filled filling tape taping mud touch-up touch-ups touched-up clean-up cleaned-up tidy-up tidied-up`},
	{Stuff, `screw screws mud compound tape bead beads corner-bead cornerbead bucket buckets pail pails box boxes bag bags rolls roll adhesive glue nail nails trim insulation shims stick sticks
		tub tubs carton cartons plates hangers tools lift scaffold lumber primer paint sandpaper mesh paper`},
	{House, `everywhere all-over throughout on-everything`},
	{Planned, `before-lunch by-lunch before-break`},
	{Denied, `not no never neither dont don't cant can't wont won't havent haven't hasnt hasn't isnt isn't arent aren't nobody aint ain't didnt didn't wasnt will gonna should shouldnt might maybe could would if
		when once until till unless almost nearly before after later why how hows how's what whats what's where wheres who whos whens trying supposed ready instead`},
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
var counts = func() map[string]int {
	all := map[string]int{"couple": 2, "pair": 2, "dozen": 12, "both": 2, "half dozen": 6}
	for w, n := range quantity.Ones {
		if n > 0 {
			all[w] = int(n)
		}
	}
	for tens, n := range quantity.Tens {
		all[tens] = int(n)
		for one, k := range quantity.Ones {
			if 0 < k && k < 10 {
				all[tens+" "+one] = int(n + k)
			}
		}
	}
	return all
}()

// thicknesses are thicknesses of board in words.
var thicknesses = map[string]string{"half inch": "1/2", "half an inch": "1/2", "half in": "1/2", "five eighths": "5/8", "five eights": "5/8", "five eighth": "5/8", "three eighths": "3/8"}

// phrases are all of these, by their words with single spaces. None has more than four words.
var phrases = func() map[string]Word {
	m := map[string]Word{}
	add := func(said string, w Word) {
		w.Class |= m[said].Class
		if w.Value == "" {
			w.Value = m[said].Value
		}
		m[said] = w
	}
	for _, s := range said {
		for _, w := range strings.Fields(s.words) {
			if len(w) > 1 {
				w = strings.ReplaceAll(w, "-", " ")
			}
			add(w, Word{Class: s.Class})
		}
	}
	for w, v := range kinds {
		add(w, Word{Class: Kind, Value: v})
	}
	for w, v := range feet {
		add(w, Word{Class: Long, Value: v + "'"})
	}
	for _, w := range []string{"up top", "overhead"} {
		add(w, Word{Class: On, Value: string(place.Ceiling)})
	}
	for w, v := range thicknesses {
		add(w, Word{Class: Thick, Value: v})
	}
	for w, n := range counts {
		add(w, Word{Class: Count, N: n})
	}
	return m
}()
