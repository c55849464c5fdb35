package topic

import (
	"strings"

	"strapline/grammar/lex"
)

// Work are words of the work that talk has no use for.
var Work = lex.Set(strings.Fields(`
		strap straps strapping strapped furring joist joists stud studs rafter rafters truss trusses bulkhead bulkheads soffit slope slopes sloped
		kneewall kneewalls skylight skylights lid lids ceiling ceilings wall walls seam seams butt joint joints bevel gap gaps rip ripped
		row rows layer layers course screw screws pops bead caulk caulked caulking insulation insulated insul rough-in rough inspection inspected drain
		vent vented duct ductwork boot register reg recept receptacle outlet outlets gang switch pot pots pendant pendants chandelier sconce sconces vanity gfi gfci tub shower
		valve shutoff spout toilet supply stack copper pex abs pipe pipes cleanout hatch sill ro chimney post posts column breast diagonal diagonals diag square plate plates
		cement moisture feed romex snag snags hollow ridge proud demising jb jbox fan boarded board boards cabinet bd bds sheet sheets shts sht
		piece pieces layout offcut scraps rehang wiring wired wire wires cable backing blocking nailer gable corner corners fire rated drywall niche notch
		shim shims rh humidity humid clammy block blocked filler fillers batten battens lath strips sprinkler butts tens twelves eights pcs sanded primed mesh knob trunk exhaust
		hood stain stains crack cracks bulge bulges leak leaks downlight downlights potlight cans opener pitch plumb out-of-square prefill coat detector`)...)

// Outcome are the stems of what is done to things and boards, and of their measures.
var Outcome = lex.Set("pop", "cut", "cover", "close", "pass", "fail", "test", "boarded", "live", "dead", "thickness", "thick", "spacing", "rough")

// RoomNoun are words that name a room, BesideRoom those that may accompany one in its name.
var RoomNoun = lex.Set(strings.Fields(`kitchen guest addition bedrooms bdrm corridor lobby gym mstr passage snug bath bathroom ensuite powder bedroom bed master den hall hallway landing closet laundry garage living dining family rec office
		pantry stairwell attic rumpus bonus salon cellar workshop conservatory vestibule cloakroom wc toilet sitting basement bsmt parlor parlour sunroom mudroom entry foyer nursery study loft playroom utility storage porch library lounge`)...)

var BesideRoom = lex.Set(strings.Fields(`primary principal spare bonus walkin front back main guest upstairs downstairs upper lower big small half walk-in mechanical kids room rm area cottage`)...)

// Headline are words before a list that name no room: "just landed: 18 twelves".
var Headline = lex.Set(strings.Fields("landed came arrived delivery delivered dropped drop truck load today yesterday now here used ordered count counted recount")...)

// Small are words that change nothing in a question about something noted.
var Small = lex.Set(strings.Fields(`am r u gonna use using with reach catch where wheres where's where'd what whats what's which who whos who's when whens how hows how's is are was were be been do does did has have had
	can could would should will i we you they he she it its it's that this there theres there's here ones one a an the any all numbers number anyone anybody somebody someone anything something everything
	put place placed mark marked note noted log logged say said tell told take took taken write wrote written go goes went gone run runs running cross crosses crossing come comes
	end ends start starts sit sits sat located location position positions distance distances whereabouts spot at in on of for to from off out up over again now exactly exact please pls plz thx thanks
	tho though anyway btw still yet already so and or also then ok hey me us my our your guys know remember remind need needs needed want get give list read back them those these old
	new same supposed centre center middle edge side far away apart measured high low deep big wide long tall close size height room ceiling lid wall nearest near next clear
	bury hide hid cover screw screws screwing safe shouldnt shouldn't add enter type measurement measurements dimension dimensions dims centred centered last entry sent
	above under below behind between beside by w without w/ got many much else left cut cutting covered buried hidden closed open opened uncut havent haven't not found find
	strap straps hole holes kind installed sticking hit line lines way ways spacing boarded board boards hung piece opening gap length if first
	second third fourth fifth sixth row rows job drawing plan good sure anymore ever both each every just only some even maybe today inside right kitchen's on-center centres centers`)...)

// smallToo are more words that tell nothing about what is asked.
var smallToo = lex.Set(strings.Fields(`lb lbs pounds kg kilo kilos but no yes came hello owner okay as down never gets since before after while until until's really actually lol hi ah oh um well yep nope gotta gotten
	wanna im ive id ill theyre weve youre dont didnt doesnt isnt wasnt arent werent couldnt cant didn't doesn't isn't wasn't aren't weren't don't can't couldn't
	because cuz cause like more less enough anywhere somewhere nowhere else's everybody whoever whichever either neither nor than them's make makes made doing
	used knows knew let lets look looks looking approx about around roughly another other others might must shall won't wont who'd what'd how'd
	day time yesterday tomorrow tonight week monday tuesday wednesday thursday friday saturday sunday moved him her his hers she's he's they're we're i'm i've
	ask asked asking answer question tells writes part stuff thing things places ago wondering idea clue forget forgot forgotten`)...)

// stems are words that mean the same in a note, and forms that no rule gives.
var stems = func() map[string]string {
	all := map[string]string{}
	for stem, w := range lex.Rows(`
bedroom: bdrm bedrm br bdr bed
bathroom: bath washroom ensuite
living: lr livingroom
family: fam
ceiling: celing ceilings lid lids cieling
laundry: laundery
hall: hallway hallways
wire: cable wiring romex conduit
pipe: pex copper plumbing water drain
boarded: board boards hung hang hanging
sheet: sheets bd bds
strap: straps strapping strapped furring strip strips batten battens
pop: popped pops popping
joist: joists
pass: passed passes passing ok okay ok'd signed sign approved
cut: cuts cutting
cover: covered covers covering buried bury
close: closed closes closing
screw: screws screwed
leave: left leaves
break: broke broken busted
joint: joints seam seams butt butts
green: greenboard
fail: failed fails
offcut: offcuts scrap scraps leftover leftovers
insulation: insulated insul insulate insulates
test: tests tested
live: hot dead energized energised powered
blocking: block blocks backing nailer backer solid plywood wood timber lumber
photo: photos pic pics picture pictures
coat: coats mud mudded sand sanded sanding skim skimmed skimming taped taping prime primed
inspection: inspector inspected inspections insp
`, " ") {
		all[w] = stem
	}
	return all
}()

// Checks are what is passed or failed before a room is closed, by the words for it.
var Checks = map[string]string{
	"insulation": "insulation", "insul": "insulation", "insulated": "insulation", "batts": "insulation",
	"vapour": "vapour barrier", "vapor": "vapour barrier", "poly": "vapour barrier",
	"electrical": "electrical inspection", "wiring": "electrical inspection", "rough-in": "electrical inspection",
	"frame": "framing", "framing": "framing", "services": "electrical inspection\nplumbing inspection",
	"plumbing": "plumbing inspection", "pressure": "plumbing inspection",
	"blocking": "backing", "backing": "backing", "photos": "photos", "pictures": "photos", "nails": "nails",
	"caulk": "fire caulk", "caulked": "fire caulk", "caulking": "fire caulk", "firecaulk": "fire caulk",
}
