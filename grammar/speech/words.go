package speech

import (
	"maps"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/topic"
)

// The tags that have a name. N, W, S, K, D and Z are given by the lexer, the others by the rows of tags.
const (
	Length    = 'N' // 31, 2 foot
	Wall      = 'W'
	Service   = 'S' // pipe, wire
	Support   = 'K' // strap, joist, stud
	Direction = 'D' // ew, ns
	Room      = 'R' // bedroom, hall
	Thing     = 'Z' // a thing the board hides
	Ordinal   = 'n' // third
	Stray     = '.' // any other word
	Used      = '_'
)

// tags are the other parts of speech, and the words for each. The order counts: of two rows with a word, the
// first has it.
var tags = func() lex.Table {
	t := lex.Table{}
	for tag, w := range lex.Rows(`
O: off, from, off of, out from, in from, away from, over from, back from, out off, in off, up from, out of
o: out, over, takes up, takes, extends, covers
U: floor to strapping, floor to joists, floor to framing, floor to the ceiling, up, rises, rise, rising, riser, vertical, vertically, floor to ceiling, top to bottom, bottom to top, floor to lid, plate to plate, straight up, all the way up, the whole way up, up the full height, full height, drops, drops down, comes down, dropping down, drops straight down, standing, up through the floor, through the floor
A: gable to gable, gable end to gable end, all along, whole wall, entire wall, full wall, corner to corner, front to back, back to front, square to, perpendicular to, perpendicular, at right angles to, right angles to, length of the hall, length of the hallway, lengthwise, lengthways, longways, crosswise, widthwise, widthways, across, straight across, crosses, crossing, cross, crossways, clean across, right across, all the way across, all the way, the whole way, whole way, full way, the full way, full length, the full length, the whole length, whole length, the length, entire length, the entire length, full width, wall to wall, end to end, side to side, straight through, right through, clean through, goes through, cuts across, spans, the whole room, length of the room
E: stops, stop, stopped, stopping, ends, end at, dies, quits, finishes, ending
Y: short, shy, short of, shy of, before
B: up from the bottom of, up from bottom of, up from the underside of, above the bottom of, behind, back, back of, above, in behind, recessed, set back, up off, inside of
f: face, the face, board, the board, boards, drywall, rock, face of the studs, face of the board, face of studs, stud face, front, surface, studs face
J: deep, depth
j: down, drop, dropped, dropping, a drop of, hang, hangs, hanging, hangs down, come down, below, under, lower, lower than, lower from, underneath
H: high, hi, tall, height, heighth, ht, hgt, head height, headroom, clear
I: wide, width, across the bottom, sticks out, out from the wall
q: thick
T: to, toward, towards, till, until, through to, thru to, over to, up to, and on to
L: along, along the side of, along side of, tucked along, beside of, parallel to, parallel with, follows, following, hugs, hugging, stapled to, tacked to, clipped to, strapped to, tied to, fastened to, along the back of, alongside, beside, next to, down the side of, on the side of, on the back of, on back of, run along, tight to, against
Q: between, in between
b: bay, bays, cavity, space
M: middle, centre, center, the middle, centred, centered, down the middle, down the centre, down the center, across the middle, in the middle, middle of, centre of, center of, centreline, centerline, dead centre, dead center
G: walls
F: floor, subfloor, the floor, deck
C: ceiling, ceilings, clg, clgs, lid, lids, to the ceiling, underside, underside of joists, underside of the joists, to underside, to the joists
1: first, leaves, leaving, exits, starts, starting, start, started, begins, beginning, first one, 1st, st, comes in, enters, comes through, starting from, starts from
2: last, final, last one
g: oc, o.c, o/c, on centre, on center, on centres, on centers, centres, centers, ctrs, cts, ctr, cc, c/c, crs, spacing, apart, spaced, on-centre, on-center, centre to centre
e: every, each, @, spaced at
P: on, in, at, inside, into, onto, come in, comes out of, come out of, coming out of, comes out the, come out the, poke out of, pokes out of
V: runs, run, running, goes, going, turns, turning, turn, heads, heading, head, then, goes on, carries on, continues, jogs, elbows, comes, bends, travels
x: x, by, times, ×
c: two, both, three, pair, pair of, couple, couple of, twin
a: all walls, all the walls, every wall, all four walls, all 4 walls, all round, all around, all the way round, all the way around, everywhere, throughout, the whole room round, each wall, whole house
d: double, doubled, doubled up, sistered, tripled, triple, two ply
m: missing, no, skipped, left out, gone, without
k: boxing, duct bulkhead, duct bulkheads, duct soffit, drop soffit, bulkhead for the duct, bulkhead for the ducts, boxed, header, bulkhead, bulkheads, soffit, soffits, dropped soffit, boxed duct, box out, boxed out, boxed in, bulk head, beam, dropped beam, boxed beam, lvl, steel beam, chase, duct chase, box beam, girder, drop box, downstand
l: vaulted, vault, cathedral, cathedral ceiling, slope, slopes, sloped, sloping, slants, rakes, angles, pitched, slope ceiling, sloped ceiling, rake, pitches
w: kneewall, kneewalls, knee wall, knee walls, knee-wall, knee-walls, short wall, pony wall, low side, low wall, low walls, knees, low end
h: flat, flat part, flat ceiling, flat section, peak, ridge, high side, high end, high point, top
s: same
y: long, length
t: on top, on top of
p: plus, and a, with a, jog, bump out, bumpout, bump-out, less, minus, notch
-: heads up, all over the place, up here, up there, up top, up above, up in the ceiling, up in, what's up, whats up, scratch that, make it, make that, open to it, open to, next door, next door to
i: mil, mils, mill, inch, inches, in., dia, diameter, round, od, pipe size
`, ", ") {
		t.Add(w, lex.Symbol{Value: tag})
	}
	for w, what := range services {
		t.Add(w, lex.Symbol{Type: lex.Service, Value: what})
	}
	for i, w := range lex.Ordinals {
		if i > 0 {
			t.Add(w, lex.Symbol{Value: "n"})
		}
	}
	return t
}()

// services are words for runs beside those of the lexer, which also have other meanings.
var services = func() map[string]string {
	all := map[string]string{}
	for what, w := range lex.Rows(`
pipe: stack, main stack, soil stack, vent stack, drain stack, plumbing stack, waste stack, soil pipe, vent pipe, vent line, plumbing vent, drain line, waste line, waste pipe, waste, sewer, sewer pipe, sewer line, coppers, copper lines, copper pipes, hot and cold, hot n cold, hot & cold, hots and colds, hot and cold lines, water main, main water line, waterline, waterlines, supply lines, supply pipe, water supply, pvc, pvc pipe, abs pipe, abs, cast iron, shower riser, water riser, downpipe, downspout, rad pipes, rad pipe, heating pipes, hot line, cold line, sprinkler line, sprinkler pipe, cold water, hot water
wire: home run, homerun, home runs, feed, feeder, feeds, bx, bx cable, mc, mc cable, armoured cable, armored cable, loomex, romex cable, coax, coax cable, cat6, cat5, cat 6, cat 5, ethernet cable, ethernet, speaker wire, speaker wires, switch leg, knob and tube, knob n tube, knob & tube, k&t, stat wire, thermostat wire, electrical, electric line, power line, power feed, hot wire, live wire, dryer line, range line, range cable, branch circuit, wires, cables
gas: gas riser, black pipe, black iron
conduit: emt, emt conduit, rigid, rigid conduit, pvc conduit, flex conduit
duct run: duct, ducts, ductwork, round pipe, supply trunk, trunk, trunk line, return trunk, heat run, heat pipe, flex duct, flex, dryer duct, dryer vent, bath fan duct
`, ", ") {
		all[w] = what
	}
	return all
}()

// lines are words that say that there is a run but not of what; Trades tell.
var (
	lines  = lex.Set("line", "lines", "run", "feed")
	Trades = map[string]string{"sparky": "wire", "sparks": "wire", "electrician": "wire", "electricians": "wire", "sparkies": "wire", "electrical": "wire",
		"plumber": "pipe", "plumbers": "pipe", "plumber's": "pipe", "hvac": "duct run", "tinner": "duct run", "tinners": "duct run", "tin": "duct run"}
)

// Upright are services that go up a wall if nothing else is said.
var Upright = lex.Set("stack", "main stack", "soil stack", "vent stack", "drain stack", "plumbing stack", "waste stack", "riser", "shower riser", "water riser", "gas riser", "downpipe", "downspout")

// idle are words that change nothing here.
var idle = func() map[string]bool {
	all := lex.Set(strings.Fields(`steel metal wood spruce wooden bout goin runnin comin ya number no. heads-up heads careful fyi folks fellas team dude man bud boss yo hi okay alright morning well but
		his her their we've i've they've he's she's gets puts ran strung pulled
		says tells looks like seems guess think knows sitting lies lie lays lay laying going came existing main other
		sides corner corners walls yesterday tonight earlier afternoon lunch
		during after before dead about around roughly approx mostly mainly probably too real really actually basically straight measures measure
		measuring tape dont don't watch mind easy keep guy framed framing strapped furred set see saw live hot cold water as while through
		into note: lol yeah yep nope no yes cause because small little nice bad isnt isn't wasnt wasn't`)...)
	maps.Copy(all, topic.Small)
	for w := range Trades {
		all[w] = true
	}
	return all
}()

// TellsOfRun reports whether a text names a pipe, a wire or a duct.
func TellsOfRun(text string) bool {
	l := lex.Read(text, lex.Names{})
	for i := range l.Pieces {
		sym, n := l.PhraseAt(i, tags)
		named, wide := l.PhraseAt(i, lex.Phrases)
		if l.Pieces[i].Low == "stack" && i+1 < len(l.Pieces) && stacks[l.Pieces[i+1].Low] {
			continue
		}
		if sym.Type == lex.Service && !ambiguous[l.Pieces[i].Low] || named.Type == lex.Service && wide >= n {
			return true
		}
	}
	return false
}

// stacks are words after a stack of boards.
var stacks = lex.Set("the", "of", "em", "them", "it", "those", "these", "some")

// ambiguous are words for a run that are more often said about something else.
var ambiguous = lex.Set("waste", "feed", "feeds", "abs", "flex", "trunk", "electrical", "ducts", "duct")
