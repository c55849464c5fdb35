package sense

import (
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/topic"
)

// The words by which a line is sorted. None of them occurs only in talk.

func set(words string) map[string]bool { return lex.Set(strings.Fields(words)...) }

var (
	hung      = set("up on hung done closed boarded finished screwed installed in")
	cutOut    = set("cut cutout opened open")
	delivered = set("delivered delivery came brought dropped arrived landed received showed truck unloaded carried dropoff")
	boards    = set("sheet sheets sht shts board boards drywall rock pcs pieces bds panels")
	passed    = set("passed pass ok okay good signed approved tested done in clear cleared happy")
	failed    = set("failed fail rejected bounced")
	asking    = set("is are was were do does did has have can could should will would how what whats what's which when whens who whos who's where wheres where's any anybody anyone remind list show tell give why")
	near      = set("over above by near at beside next under")
	// talkBefore are words that may precede a question.
	talkBefore = set("so and ok okay hey also but then now lead guys bot strapline anyone")
	// changing are words that negate or change a line. No guess is made about a line with one.
	changing = set("not wrong no moved move moving should instead missed except each every both or minus take remove pull pulled kill capped lose gone dead abandoned cancel swap replace relocate delete sorry oops wasnt isnt dont don't correction ignore scratch was were had maybe can't cant won't wont rest but if until till unless ago nobody never none didnt didn't hasnt hasn't havent haven't aint almost without only hanging")
)

// checks are what is passed or failed before a room is closed, with the words for it.
var checks = map[string]string{
	"insulation": "insulation", "insul": "insulation", "insulated": "insulation", "batts": "insulation",
	"vapour": "vapour barrier", "vapor": "vapour barrier", "poly": "vapour barrier",
	"electrical": "electrical inspection", "wiring": "electrical inspection", "rough-in": "electrical inspection",
	"plumbing": "plumbing inspection", "pressure": "plumbing inspection",
	"blocking": "backing", "backing": "backing", "photos": "photos", "pictures": "photos", "nails": "nails",
	"caulk": "fire caulk", "caulked": "fire caulk", "caulking": "fire caulk", "firecaulk": "fire caulk",
}

// small are words that change nothing in a line that is otherwise understood.
var small = set("the a an and of at is are its it's it i i've we we've our my this that here there theres there's now ok okay so just got have has please pls . , : ; ! -")

// unclear are words after which a number is ambiguous.
var unclear = set("for less dozen isn't isnt over a")

// plain are words that change nothing, or belong to some frame.
var plain = func() map[string]bool {
	all := set(`the a an and in on of at to for from by with me my you your we us our i it its that this these those there here them they so ok okay please pls again now then yet still
		already today tonight just also too got get give tell say said put up out over down all whole lot some be been being am if or as off anyone anybody everything anything
		something left top many much far long big wide high ready close closed open opened covered cover uncut noted list lists show check need needs want wanted know knows what's right
		about above near behind inside under beside between row rows course ceiling lid room rooms wall walls count number total job flat house place board boards sheet sheets
		layout cut cuts cutlist size sizes length width end ends side sides exactly measurement measurements distance piece pieces hand first last next second third other others wait hey hi thanks
		ty thx quick question remind anything's any's ones one's more amount materials material stuff screws screw safe avoid hit finish finishing rest good bury buried hide hidden way ways direction run runs go goes went guys folks team boss long short finally really actually do does did done have has had are is was`)
	for _, words := range []map[string]bool{hung, cutOut, delivered, boards, asking, near, topic.RoomNoun, qualifies} {
		for w := range words {
			all[w] = true
		}
	}
	for _, w := range lex.Ordinals {
		all[w] = true
	}
	return all
}()

var (
	// coatNames are coats named by their purpose.
	coatNames = map[string]int{"tape": 1, "taping": 1, "bed": 1, "bedding": 1, "prefill": 1, "fill": 2, "filler": 2, "finish": 3, "final": 3}
)

var (
	flawed     = set("pop pops popped popping proud crack cracked cracks bent dented dent loose stain stained gouge gouged hollow ridge bubble bubbled blister smacked bowed wavy crushed")
	flawedWork = set("screw screws butt butts joint joints seam seams board boards sheet sheets bead corner tape mud ceiling lid row strap straps stud studs nail nails wall")
)
