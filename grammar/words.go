package grammar

import (
	"slices"
	"strings"
)

// language is everything that depends on the words people use.
type language struct {
	things   map[string][]string // canonical kind -> how else it is said; the plural in s comes by itself
	services []string            // what runs through a ceiling
	fixed    map[string]symbol   // words of the grammar -> token
	soft     []string            // words of the grammar that may stand in a label too
	filler   []string            // words that change nothing
	talk     []string            // words of ordinary talk, in no name and no label
}

var english = language{
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
	for i := range kinds {
		c := &kinds[i].Command
		x.rows[c.Kind] = c
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

// typeOf is what a word alone is, 0 when it is none of the language.
func (x *lexicon) typeOf(word string) tokenType {
	for _, p := range x.phrases[word] {
		if len(p.words) == 1 {
			return p.typ
		}
	}
	return 0
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
