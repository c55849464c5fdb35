package grammar

import (
	"slices"
	"strings"
)

// language is everything that depends on the words people use.
type language struct {
	commands []Command
	things   map[string][]string // canonical kind -> how else it is said; the plural in s comes by itself
	services []string            // what runs through a ceiling
	fixed    map[string]symbol   // words of the grammar -> token
	soft     []string            // words of the grammar that may stand in a label too
	filler   []string            // words that change nothing
	talk     []string            // words of ordinary talk, in no name and no label
}

var english = language{
	commands: slices.Concat([]Command{
		{Kind: "room", Words: []string{"room"}, About: "a room: east-west first, then north-south; its name alone says that you are there now",
			Example: "room kitchen 13' 4 1/2 x 11' 9", Metric: "room kitchen 4075 x 3580", Fits: `a name and two sides with x between, then "high" or "less"`},
		{Kind: "alias", About: "another name for a wall or a room",
			Example: "north is window wall", Fits: `a name that ends in "wall"`},
		{Kind: "supports", About: "straps, joists, studs or channels: which way they run and where",
			Example: "straps ew 16 oc first 14 3/8 off north", Metric: "straps ew 400 oc first 365 off north",
			Fits: `ew or ns, a spacing and "oc", "first" and a distance, or "at" and a list`},
		{Kind: "support", About: "one support where it really is",
			Example: "strap 4 at 57 1/4", Metric: "strap 4 at 1455", Fits: `"at" and a distance, "from" and "to" off a wall, or "stops" and how far off a wall`},
		{Kind: "board", Words: []string{"board", "drywall"}, About: "the board: thickness, width, lengths",
			Example: "board 1/2 x 48 lengths 8 10 12", Metric: "board 12.5mm x 1200 lengths 2400 3000 3600", Fits: `a thickness x a width, or "lengths" and a list`},
		{Kind: "boards", Words: []string{"boards"}, About: "which way the boards run",
			Example: "boards along", Fits: `"along" or "across" the supports, ew or ns`},
		{Kind: "rows", Words: []string{"rows"}, About: "where the rows count from",
			Example: "rows from south", Fits: `"from" and a wall`},
		{Kind: "clearance", Words: []string{"clearance"}, About: "how much a cut is under its opening, in all",
			Example: "clearance 1/4", Metric: "clearance 6", Fits: "a length", Strict: true},
		{Kind: "screw", Words: []string{"screw"}, About: "the screw length used on this job",
			Example: "screw 1 5/8", Metric: "screw 41", Fits: "a length"},
		{Kind: "thing", About: "a thing the board will hide: light, duct, box, vent, fan, speaker, hatch, ...",
			Example: `light 6" over sink 26 off west 41 off north`, Metric: "light 150 over sink 660 off west 1041 off north",
			Fits: `a distance and what it is from ("off west", "south of strap 3", "up"), "on north wall" or "on strap 4"`},
		{Kind: "even", About: "a grid of lights: columns east-west x rows north-south",
			Example: "lights 3 x 2 even", Fits: `two counts and "even"`},
		{Kind: "mark", Words: []string{"mark"}, About: "a point of your own to measure from",
			Example: "mark a on strap 4 22 off east", Metric: "mark a on strap 4 560 off east", Fits: `a letter, then where it is`},
		{Kind: "gap", Words: []string{"gap", "opening"}, About: "an opening measured at both ends: the size to cut",
			Example: "gap 118 3/8 118 5/8", Metric: "gap 3007 3013", Fits: "one length, or two: one for each end"},
		{Kind: "hung", Words: []string{"hung", "hang", "put up"}, Talk: []string{"i hung", "we hung", "they hung", "just hung", "i just hung", "we just hung", "i put up", "we put up", "just put up"}, About: "pieces that went up, or a whole row",
			Example: "hung 144 + 16 3/4 row 2", Metric: "hung 3600 + 425 row 2", Fits: `pieces with + between, "row 2", or planned ones like r2.1, then "cut d1"`},
		{Kind: "up", About: "all of a ceiling or a wall is up",
			Example: "ceiling up", Fits: `"up"`},
		{Kind: "boarded", Words: []string{"boarded"}, About: "a wall that is boarded, or finished and will not move",
			Example: "north wall boarded 1/2", Metric: "north wall boarded 12.5mm", Fits: `"boarded" and a thickness, "finished", "up", or "is window wall"`},
		{Kind: "open", Words: []string{"open", "opened", "cut out", "cut", "cutout"}, About: "holes that are cut",
			Example: "open d1", Fits: "the names of noted things"},
		{Kind: "find", Words: []string{"find", "where is", "wheres", "where's", "where are", "where was", "where did", "where'd", "locate"},
			About: "where a thing is now, from what can still be seen", Example: "where is d1", Fits: "a noted thing"},
		{Kind: "covered", Words: []string{"covered", "still covered", "whats covered", "what's covered", "what is covered",
			"whats still covered", "what's still covered", "what is still covered", "anything covered", "anything still covered",
			"is anything covered", "is anything still covered",
			"what have i covered", "what have we covered", "what did i cover", "what did we cover",
			"whats buried", "what's buried", "what is buried"},
			About: "what is behind the board and not cut yet", Example: "what's covered", Fits: `nothing, or "in" and a room`},
		{Kind: "any", Words: []string{"any", "is there any", "are there any", "is there", "are there"}, About: "whether something was noted over a row",
			Example: "any pipe over row 3", Fits: `a thing, pipe, wire or gas, then "over row 3" or "noted"`},
		{Kind: "who", Words: []string{"who hung", "who put up", "who boarded", "who did"}, About: "who hung a row",
			Example: "who hung row 2", Fits: `"row 2", "ceiling" or a wall`},
		{Kind: "log", Words: []string{"log"}, About: "what was said, all of it or of one room, day, person or thing",
			Example: "log today", Fits: `nothing, "today", "since 12", a room, a person or a thing`},
		{Kind: "status", Words: []string{"status"}, About: "the job at a glance", Example: "status", Fits: "nothing"},
		{Kind: "note", Words: []string{"note"}, About: "anything else, kept word for word",
			Example: "note window comes out on friday", Fits: "the words to keep"},
		{Kind: "snag", Words: []string{"snag"}, About: "something to mend later",
			Example: "snag screw missed strap 4 row 2", Fits: `what is wrong, or "3 fixed"`, Strict: true},
		{Kind: "snags", Words: []string{"snags", "what snags", "open snags", "any snags", "which snags", "list snags", "snag list", "snags open", "how many snags"},
			About: "the snags that are open, of the room or of all", Example: "snags", Fits: `nothing, or "in" and a room`},
		{Kind: "hit", Words: []string{"hit", "i hit", "we hit", "they hit", "somebody hit", "someone hit", "just hit", "i just hit",
			"we just hit", "i think i hit", "i smell gas", "we smell gas", "smell gas", "gas leak"},
			About: "a screw or a blade met water, cable or gas: what to do first", Example: "hit water", Fits: "water, cable, gas or pipe"},
		{Kind: "undo", Words: []string{"undo", "undo that", "scratch that", "strike that"}, About: "take back your own last note",
			Example: "undo", Fits: `nothing, or "84 not 48"`},
		{Kind: "strike", Words: []string{"strike"}, About: "take back note number 17", Example: "strike 17", Fits: "the number of a note"},
		{Kind: "fix", Words: []string{"fix"}, About: "new distances or a new size for a noted thing",
			Example: "fix d1 7 1/4 south of strap 3", Metric: "fix d1 185 south of strap 3", Fits: "a noted thing, then its new distances"},
		{Kind: "swap", Words: []string{"make that", "i meant", "should be"}, About: "one number of your last note was wrong",
			Example: "84 not 48", Metric: "840 not 480", Fits: "the right number, \"not\", the wrong one"},
		{Kind: "job", Words: []string{"job"}, About: "the title of the job", Example: "job larkspur upper flat", Fits: "a title"},
		{Kind: "units", Words: []string{"units"}, About: "what a number without a unit means",
			Example: "units metric", Fits: "imperial or metric", Strict: true},
		{Kind: "built", Words: []string{"built"}, About: "the year of the house: old ceilings carry cautions",
			Example: "built 1962", Fits: "a year"},
		{Kind: "help", Words: []string{"help", "commands", "what can you do"}, About: "this list, or one thing of it",
			Example: "help light", Fits: "nothing, or one word of the list"},
	}, planCommands),
	things: map[string][]string{
		"light": {"pot light", "can light", "can lights", "recessed", "recessed light", "downlight", "down light", "disc light",
			"disk light", "wafer", "wafer light", "puck", "puck light", "pendant", "fixture", "potlight", "cans"},
		"duct":         {"boot", "duct boot", "supply duct", "return duct"},
		"vent":         {"register", "grille", "grill", "diffuser", "supply vent", "supply register", "return air", "return vent"},
		"box":          {"octagon", "octagon box"},
		"outlet":       {"receptacle", "recep", "recept", "plug", "socket"},
		"switch":       {"dimmer", "light switch", "dimmer switch"},
		"fan":          {"exhaust", "exhaust fan", "extractor", "vent fan"},
		"junction box": {"junction", "j-box", "jbox", "j box"},
		"speaker":      {},
		"smoke alarm":  {"alarm", "smoke", "smokes", "co alarm", "smoke detector"},
		"detector":     {"motion detector", "sensor", "motion sensor"},
		"sprinkler":    {"sprinkler head"},
		"camera":       {},
		"hatch":        {"access panel", "access hatch", "panel", "attic hatch"},
		"valve":        {"shutoff", "shut-off", "shut off"},
		"cleanout":     {"clean-out", "clean out"},
		"thermostat":   {"stat"},
		"hook":         {"eye bolt"},
		"blocking":     {"backing", "backer"},
		"low voltage":  {"data", "data box", "low-voltage"},
	},
	services: []string{"pipe", "wire", "cable", "gas", "water", "pex", "conduit", "wiring", "plumbing", "duct run", "heat tube"},
	fixed: map[string]symbol{
		"north": {tWall, "north"}, "east": {tWall, "east"}, "south": {tWall, "south"}, "west": {tWall, "west"},

		"strap": {tSupport, "straps"}, "strapping": {tSupport, "straps"}, "furring": {tSupport, "straps"},
		"furring strip": {tSupport, "straps"}, "straps": {tSupport, "straps"}, "furring strips": {tSupport, "straps"},
		"joist": {tSupport, "joists"}, "joists": {tSupport, "joists"},
		"stud": {tSupport, "studs"}, "studs": {tSupport, "studs"},
		"channel": {tSupport, "channels"}, "channels": {tSupport, "channels"},
		"hat channel": {tSupport, "channels"}, "hat channels": {tSupport, "channels"},

		"ew": {tRun, "ew"}, "e-w": {tRun, "ew"}, "w-e": {tRun, "ew"}, "east-west": {tRun, "ew"}, "west-east": {tRun, "ew"},
		"east west": {tRun, "ew"}, "west east": {tRun, "ew"}, "east to west": {tRun, "ew"}, "west to east": {tRun, "ew"},
		"ns": {tRun, "ns"}, "n-s": {tRun, "ns"}, "s-n": {tRun, "ns"}, "north-south": {tRun, "ns"}, "south-north": {tRun, "ns"},
		"north south": {tRun, "ns"}, "south north": {tRun, "ns"}, "north to south": {tRun, "ns"}, "south to north": {tRun, "ns"},

		"oc": {tKey, "oc"}, "o.c": {tKey, "oc"}, "o/c": {tKey, "oc"}, "on centre": {tKey, "oc"}, "on center": {tKey, "oc"},
		"on centres": {tKey, "oc"}, "on centers": {tKey, "oc"}, "ctrs": {tKey, "oc"},

		"off": {tKey, "off"}, "from": {tKey, "off"}, "off of": {tKey, "off"}, "out from": {tKey, "off"}, "away from": {tKey, "off"}, "over from": {tKey, "off"},
		"up from": {tKey, "off"}, "down from": {tKey, "off"}, "aff": {tKey, "up"}, "centred on": {tKey, "on"}, "centered on": {tKey, "on"},
		"after paint": {tKey, "after paint"}, "cut after paint": {tKey, "after paint"}, "after painting": {tKey, "after paint"},
		"starting": {tWord, "first"}, "ceilings": {tKey, "ceiling"}, "lids": {tKey, "ceiling"},
		"northeast": {tWord, "ne"}, "northwest": {tWord, "nw"}, "southeast": {tWord, "se"}, "southwest": {tWord, "sw"},
		"north-east": {tWord, "ne"}, "north-west": {tWord, "nw"}, "south-east": {tWord, "se"}, "south-west": {tWord, "sw"}, "of": {tKey, "of"}, "on": {tKey, "on"},
		"short of": {tKey, "off"}, "along": {tKey, "along"}, "not": {tKey, "not"}, "up": {tKey, "up"}, "down": {tKey, "down"}, "at": {tKey, "at"}, "row": {tKey, "row"},
		"even": {tKey, "even"}, "evenly": {tKey, "even"},
		"ceiling": {tKey, "ceiling"},
		"edge":    {tTag, "edge"}, "to edge": {tTag, "to edge"}, "to the edge": {tTag, "to edge"},
		"centre": {tTag, "centre"}, "center": {tTag, "centre"}, "ctr": {tTag, "centre"}, "middle": {tTag, "centre"},
		"to centre": {tTag, "centre"}, "to center": {tTag, "centre"}, "to ctr": {tTag, "centre"}, "to the centre": {tTag, "centre"},
		"to the center": {tTag, "centre"}, "to middle": {tTag, "centre"}, "to the middle": {tTag, "centre"},
		"bare": {tTag, "bare"}, "framing": {tTag, "bare"}, "frame": {tTag, "bare"}, "bare studs": {tTag, "studs"},
		"board": {tTag, "board"}, "boards": {tTag, "board"}, "face": {tTag, "board"}, "board face": {tTag, "board"},
		"notch": {tTag, "notch"}, "main": {tTag, "main"},
		"copper": {tService, "pipe"}, "copper pipe": {tService, "pipe"}, "copper line": {tService, "pipe"}, "drain pipe": {tService, "pipe"}, "drain line": {tService, "pipe"},
		"water line": {tService, "pipe"}, "water lines": {tService, "pipe"}, "water pipe": {tService, "pipe"}, "water pipes": {tService, "pipe"},
		"pex line": {tService, "pipe"}, "pex pipe": {tService, "pipe"}, "gas line": {tService, "gas"}, "gas lines": {tService, "gas"}, "gas pipe": {tService, "gas"},
		"heating tube": {tService, "heat tube"}, "heating tubes": {tService, "heat tube"}, "heat tubing": {tService, "heat tube"}, "heating tubing": {tService, "heat tube"},
		"on hand": {tKey, "on hand"}, "sheet": {tTag, "board"}, "sheets": {tTag, "board"}, "we've": {tWord, "we"}, "i've": {tWord, "i"},
		"on top of": {tKey, "on top"}, "on top": {tKey, "on top"}, "thru": {tWord, "through"}, "mud": {tWord, "compound"}, "footers": {tKey, "oc"}, "footer": {tKey, "oc"}, "via": {tWord, "through"}, "percent": {tPunct, "%"}, "per cent": {tPunct, "%"},
		"left": {tPlace, "left"}, "right": {tPlace, "right"}, "floor": {tPlace, "floor"}, "lid": {tKey, "ceiling"}, "to": {tKey, "to"},
	},
	soft: []string{"rated", "depth", "deep", "notched", "into", "inside", "through", "margin", "stagger", "sliver", "short", "rip", "waste", "compound", "per",
		"canada", "yet", "sqft", "taper", "electrician", "painter", "hanger", "near", "line", "live", "electric", "power", "above", "across", "aka", "all", "corner", "count", "every", "go", "start", "but", "opened", "behind", "boarded", "cut", "ends", "finished", "first", "fixed", "height", "high", "hung",
		"in", "is", "length", "lengths", "less", "logged", "long", "mark", "ne", "no", "note", "noted", "number", "nw", "over", "run", "running",
		"runs", "se", "since", "only", "nothing", "longer", "than", "fit", "fits", "get", "gets", "got", "have", "came", "arrived", "broken", "stops", "sw", "thick", "today", "under", "went", "wide", "with", "piece", "pieces", "both", "already", "now"},
	filler: []string{"the", "a", "an", "and", "please", "pls", "plz", "is", "are", "its", "it's", "wall", "called", "named", "was", "dia", "diameter"},
	talk: []string{"i", "me", "my", "you", "your", "we", "us", "our", "he", "she", "they", "them", "it", "this", "that", "today", "tomorrow",
		"tmrw", "tonight", "yesterday", "lol", "haha", "ok", "okay", "yes", "yeah", "no", "not", "done", "did", "do", "does", "well",
		"so", "but", "was", "were", "will", "would", "could", "should", "can", "need", "needs", "want", "get", "got", "go", "going",
		"here", "now", "later", "when", "why", "how", "who", "what", "good", "great", "bad", "late", "finished", "starts", "site",
		"help", "mess", "put", "move", "moved", "set", "check", "cut", "gone", "if", "because", "then", "again", "still", "every",
		"hey", "hi", "thanks", "morning", "lunch", "coffee", "break", "meeting", "only", "best", "new", "few", "some", "sign", "offer",
		"interview", "security", "about", "into", "just", "looks", "or", "maybe", "approx", "approximately", "around", "roughly", "almost", "nearly", "isn't", "isnt", "wasn't",
		"another", "other", "probably", "think", "guess", "except", "like", "too", "very", "has", "have", "had", "be", "been"},
}

// lexicon is a language turned round for the lexer.
type lexicon struct {
	phrases map[string][]phrase // first word -> what begins with it, longest first
	heads   map[string][]phrase // the same for the words that commands begin with
	rows    map[Kind]*Command
	thing   map[string]string // how a thing is said -> its canonical kind
	filler  map[string]bool
	talk    map[string]bool
	vocab   []string // the words that may be offered for a misspelt one
}

type phrase struct {
	words []string
	symbol
}

type symbol struct {
	typ   tokenType
	value string
}

var words = turned(english)

func turned(lang language) lexicon {
	x := lexicon{
		phrases: map[string][]phrase{}, heads: map[string][]phrase{}, rows: map[Kind]*Command{},
		thing: map[string]string{}, filler: set(lang.filler), talk: set(lang.talk),
	}
	add := func(table map[string][]phrase, said string, s symbol) {
		words := strings.Fields(said)
		table[words[0]] = append(table[words[0]], phrase{words, s})
		if len(words) == 1 {
			x.offer(words...)
		}
	}
	for what, also := range lang.things {
		for _, said := range append([]string{what}, also...) {
			for _, w := range []string{said, plural(said)} {
				if x.thing[w] == "" {
					x.thing[w] = what
					add(x.phrases, w, symbol{tThing, what})
				}
			}
		}
	}
	for _, w := range lang.services {
		add(x.phrases, w, symbol{tService, w})
		add(x.phrases, plural(w), symbol{tService, w})
	}
	for said, s := range lang.fixed {
		add(x.phrases, said, s)
	}
	for i, c := range lang.commands {
		x.rows[c.Kind] = &lang.commands[i]
		for _, said := range c.Words {
			x.offer(strings.Fields(said)...)
		}
		for _, said := range slices.Concat(c.Words, c.Talk) {
			add(x.heads, said, symbol{tCmd, string(c.Kind)})
		}
	}
	for _, table := range []map[string][]phrase{x.phrases, x.heads} {
		for _, ps := range table {
			slices.SortFunc(ps, func(a, b phrase) int { return len(b.words) - len(a.words) })
		}
	}
	x.offer(lang.soft...)
	slices.Sort(x.vocab)
	x.vocab = slices.Compact(x.vocab)
	return x
}

// reserved reports whether all of said is one word of the language: a command,
// a wall, a thing.
func (x *lexicon) reserved(said string) bool {
	fields := strings.Fields(said)
	if len(fields) == 0 {
		return false
	}
	whole := func(p phrase) bool { return slices.Equal(p.words, fields) }
	return slices.ContainsFunc(x.heads[fields[0]], whole) || slices.ContainsFunc(x.phrases[fields[0]], whole)
}

// offer adds words that a misspelt one may be taken for.
func (x *lexicon) offer(words ...string) {
	for _, w := range words {
		if len(w) > 2 {
			x.vocab = append(x.vocab, w)
		}
	}
}

// headOf is the kind of the command that a word alone begins.
func (x *lexicon) headOf(word string) Kind {
	for _, p := range x.heads[word] {
		if len(p.words) == 1 {
			return Kind(p.value)
		}
	}
	return ""
}

func set(words []string) map[string]bool {
	m := map[string]bool{}
	for _, w := range words {
		m[w] = true
	}
	return m
}

func plural(w string) string {
	switch {
	case strings.HasSuffix(w, "s"):
		return w
	case strings.HasSuffix(w, "x"), strings.HasSuffix(w, "ch"):
		return w + "es"
	}
	return w + "s"
}

// planCommands are the rows about planning the boards and about closing a room.
var planCommands = []Command{
	{Kind: "run", About: "a pipe, wire, gas line, duct run or heat tube behind the board: where it begins, what it goes through, where it ends, how deep",
		Example: "pipe p1 40 off west from strap 2 to strap 7 depth 3/4", Metric: "pipe p1 1016 off west from strap 2 to strap 7 depth 19",
		Fits: `"from" and "to" with a place each ("strap 2", "40 off west"), then "depth 3/4", "on top of the straps", "notched" or "in conduit"`},
	{Kind: "plate", Words: []string{"plate", "plates", "plated", "nail plate", "nail plates"}, About: "steel plates that are on, over a run",
		Example: "plate p1 straps 3 5 7", Fits: `the run's name, "strap" and the numbers`},
	{Kind: "reach", Words: []string{"reach", "where not to screw", "where can't i screw", "where can i screw", "where do i not screw", "can i use"},
		About: "how far the screw comes through, and where not to screw", Example: "reach 1 5/8", Metric: "reach 41mm",
		Fits: "nothing, or the length of a screw"},
	{Kind: "code", Words: []string{"code"}, About: "whose rules hold; the strictest until it is said", Example: "code canada", Fits: "us or canada"},
	{Kind: "screws", Words: []string{"screws", "how many screws", "screw count"}, About: "how many screws a ceiling takes, and the boxes to bring",
		Example: "how many screws", Fits: `nothing, or "in" and a room`},
	{Kind: "ready", Words: []string{"ready", "ready to close", "good to close", "ok to close", "is it ready", "is it ready to close", "are we ready",
		"are we ready to close", "are we good to close", "can we close", "can i close", "is it good to close"},
		About: "whether a room can be closed, and what is open", Example: "ready", Fits: "nothing, or a room"},
	{Kind: "check", Words: []string{"check"}, About: "something on the list of a room that passed, failed or is waived, or one more for the list",
		Example: "check nails ok", Fits: `what, then "ok", "failed" or "waived" and why; or "add" and what`},
	{Kind: "handoff", Words: []string{"handoff", "hand off", "hand-off", "handover", "hand over"}, About: "what the next trade has to know",
		Example: "handoff taper", Fits: "nothing, or taper, electrician, painter or hanger"},
	{Kind: "coat", Words: []string{"coat"}, About: "a coat of compound, with the air it dries in: when the next may follow",
		Example: "coat 2 60f 70%", Metric: "coat 2 16c 70%", Fits: `the number of the coat, then "60f" or "16c", "70%" or "damp"`},
	{Kind: "painted", Words: []string{"painted"}, About: "the ceiling is painted: the lights that waited for it are due", Example: "ceiling painted", Fits: "nothing, or a room"},
	{Kind: "layout", Words: []string{"layout", "show layout", "show me the layout", "what's the layout", "whats the layout"},
		Talk: []string{"what is the layout", "lay it out", "can i get a layout", "can we get a layout", "can i see the layout", "need a layout", "i need a layout", "we need a layout", "get a layout",
			"give me a layout", "ceiling layout", "board layout", "boards layout", "go with layout", "take layout", "use layout", "how do the boards go", "how do boards go",
			"how do the boards lie", "which way do the boards run", "which way do the boards go", "which way do boards run"},
		About: "the rows and joints of a ceiling; with a number: take that one of those offered", Example: "layout", Fits: "nothing, or the number of one that was offered"},
	{Kind: "cuts", Words: []string{"cuts", "cut list", "cutlist", "what do i cut", "what do we cut", "what to cut"},
		Talk: []string{"whats the cuts", "what's the cuts", "what are the cuts", "what are my cuts", "show cuts", "show me the cuts", "whats left to cut", "what's left to cut"}, About: "the cut list, board by board",
		Example: "cut list", Fits: `nothing, or "in" and a room`},
	{Kind: "order", Words: []string{"order", "what do i order", "what do we order", "what to order", "what should i order", "order list"},
		Talk: []string{"what do i need to order", "what do we need to order",
			"are we short", "short of boards", "are we short of boards", "short on boards", "are we short on boards", "enough boards", "have we enough boards", "have we got enough boards",
			"do we have enough boards", "do i have enough boards", "are there enough boards", "boards for", "how many boards for", "how many sheets for",
			"what do i need for", "what do we need for", "material list", "materials list", "materials for"},
		About: "boards, screws, tape and compound to order", Example: "order", Fits: `nothing, or "for" and a room`},
	{Kind: "stock", Words: []string{"stock", "delivered", "delivery", "used", "spoiled", "broke", "cracked", "wasted", "ruined"}, About: "the boards there are; delivered adds to them, used takes away",
		Example: "stock 9 x 12' 4 x 8'", Metric: "stock 9 x 3600 4 x 2400", Fits: `counts and lengths: 9 x 12'`},
	{Kind: "left", Words: []string{"boards left", "how many boards left", "how many boards are left", "how many boards", "what's left", "whats left", "how many", "boards on hand"},
		Talk: []string{"what's on hand", "whats on hand", "what is on hand", "how many boards on hand", "how many boards are on hand",
			"sheets left", "sheets on hand", "how many sheets", "how many sheets left", "how many sheets are left"}, About: "the boards on hand, or those of one length",
		Example: "how many 12s left", Metric: "how many 3600 left", Fits: `nothing, or a length and "left"`},
	{Kind: "longest", Words: []string{"longest in", "longest", "longest board", "longest that gets in", "longest board that gets in"},
		Talk: []string{"longest that fits", "longest board that fits", "longest that will fit", "longest that fits in", "longest we can get in", "longest you can get in",
			"longest i can get in", "longest board we can get in", "max board"}, About: "the longest board that gets in",
		Example: "longest in 10'", Metric: "longest in 3000", Fits: "a length with its unit: 10'"},
	{Kind: "bring", Words: []string{"what do i bring", "bring tomorrow", "what do we bring", "what to bring", "what should i bring", "bring list"},
		Talk: []string{"bring tmrw", "what do i need to bring", "what do we need to bring",
			"what do i need tomorrow", "what do we need tomorrow", "what do i need tmrw", "what do we need tmrw", "what do i need for tomorrow", "what do we need for tomorrow"},
		About: "the boards still to hang, against those on hand", Example: "bring tomorrow", Fits: `nothing, or "for" and a room`},
	{Kind: "piece", Words: []string{"whats", "how long is", "size of", "which board for"}, Talk: []string{"what's", "what is", "how big is", "how wide is", "what size is",
		"which board is", "what board for", "what board is", "where does", "cut for", "cut size for", "cut size of", "whats the cut for", "what's the cut for", "what is the cut for"}, About: "what is planned of a piece or of a row: its cuts, the board it comes out of, whether it is up",
		Example: "whats r2.1", Fits: "a planned piece or a row: r2.1, r2, row 2"},
	{Kind: "rest", Words: []string{"whats left to hang", "how many rows left", "whats not up"}, Talk: []string{"what's left to hang", "what is left to hang", "left to hang",
		"how many rows are left", "rows left", "which rows are left", "what rows are left", "what's not up", "what is not up", "what isn't up", "what isnt up"},
		About: "what does not hang yet, by rows and pieces", Example: "whats left to hang", Fits: `nothing, or "in" and a room`},
	{Kind: "otherway", Words: []string{"boards the other way", "lay it out the other way", "run them the other way"}, Talk: []string{"boards go the other way", "boards run the other way",
		"run the boards the other way", "run em the other way", "run it the other way", "lay them the other way", "layout the other way"},
		About: "the boards run the way they do not run now", Example: "boards the other way", Fits: "nothing, or a room"},
	{Kind: "set", Words: []string{"set"}, About: "your own number: margin, set, stagger, sliver, short, rip, waste, compound, box, rated (minutes of fire)",
		Example: "set waste 10", Fits: `"margin 3/8", "screw depth 1/16", "stagger 24", "sliver 8", "short 20", "rip 3/8", "waste 10%", "compound 9 per 1000", "box 500" or "rated 60"`},
	{Kind: "texture", Words: []string{"texture", "textured", "no texture"}, About: "whether a water-based texture goes on the ceiling", Example: "texture",
		Fits: "nothing, or a room"},
}

// Things returns the canonical kinds of things.
func Things() []string {
	var all []string
	for what := range english.things {
		all = append(all, what)
	}
	slices.Sort(all)
	return all
}
