package lex

import (
	"iter"
	"slices"
	"strings"
)

// What people call things and runs, and the words of the grammar. For another language, these tables are
// replaced.

// things are what a board hides, with other words for each. Plurals are added automatically.
var things = map[string]string{
	"light":        "pot, pot light, can light, can lights, recessed, recessed light, downlight, down light, disc light, disk light, wafer, wafer light, puck, puck light, pendant, fixture, potlight, cans, chandelier, sconce, lite, spot, spot light, spotlight, lamp, keyless lamp, lampholder",
	"duct":         "boot, duct boot, supply duct, return duct",
	"vent":         "register, heat register, heat reg, cold air return, grille, grill, diffuser, supply vent, supply register, return air, return vent",
	"box":          "octagon, octagon box, gang box, single gang, double gang, two gang, device box",
	"outlet":       "receptacle, recep, recept, plug, socket, gfi, gfci, duplex, power point, powerpoint",
	"switch":       "dimmer, light switch, dimmer switch",
	"fan":          "exhaust, exhaust fan, extractor, vent fan",
	"junction box": "junction, j-box, jbox, j box, jb",
	"speaker":      "",
	"smoke alarm":  "alarm, smoke, smokes, co alarm, smoke detector, smoke det",
	"detector":     "motion detector, sensor, motion sensor",
	"sprinkler":    "sprinkler head",
	"camera":       "",
	"hatch":        "access panel, access hatch, panel, attic hatch, attic access",
	"valve":        "shutoff, shut-off, shut off, hose bib, hose bibb, sillcock",
	"cleanout":     "clean-out, clean out",
	"thermostat":   "stat, tstat, t-stat",
	"hook":         "eye bolt",
	"blocking":     "backing, backer, nogging, noggin",
	"low voltage":  "data, data box, low-voltage",
	"fitting":      "", // any other
}

// services are what runs through a ceiling.
var services = []string{"pipe", "wire", "cable", "gas", "water", "pex", "conduit", "wiring", "plumbing", "duct run", "heat tube"}

// fixed are the other words of the grammar: the ways to say each, and whether its own value is one of
// them.
var fixed = []struct {
	typ   Type
	value string
	own   bool
	also  string
}{
	{Wall, "north", true, ""},
	{Wall, "east", true, ""},
	{Wall, "south", true, ""},
	{Wall, "west", true, ""},
	{Direction, "ew", true, "e-w, w-e, east-west, west-east, east west, west east, east to west, west to east"},
	{Direction, "ns", true, "n-s, s-n, north-south, south-north, north south, south north, north to south, south to north"},
	{Support, "straps", true, "strap, strapping, furring, furring strip, furring strips, batten, battens, counter batten, counter battens, cross battens, counter-battens, lath, laths"},
	{Support, "joists", true, "joist, truss, trusses"},
	{Support, "studs", true, "stud"},
	{Support, "channels", true, "channel, furring channel, furring channels, hat channel, hat channels, hat track, resilient channel, resilient channels, res channel"},
	{Key, "oc", true, "o.c, o/c, on centre, on center, on centres, on centers, ctrs, footers, footer"},
	{Key, "off", true, "from, off of, out from, away from, over from, back from, up from, down from, short of"},
	{Key, "up", true, "aff"},
	{Key, "on", true, ""},
	{Key, "centred on", true, "centered on"},
	{Key, "between", true, "centred between, centered between, halfway between, midway between, in between, split between"},
	{Key, "halfway", true, "half way, midway, mid way"},
	{Key, "halfway along", true, "half way along, midway along, halfway down, centred along, centered along, in the middle of, middle of, centre of, center of, in the centre of, in the center of"},
	{Key, "in the middle", true, "in middle"},
	{Key, "after paint", true, "cut after paint, after painting"},
	{Key, "ceiling", true, "ceilings, lids, lid, ceil, clg"},
	{Key, "slope", true, "sloped ceiling, sloped, slopes, the slope, rake"},
	{Key, "bulkhead", true, "soffit, dropped soffit, boxed duct, box out, boxed in duct"},
	{Key, "bulkhead bottom", true, "bottom of bulkhead, bottom of the bulkhead, bulkhead underside, underside of the bulkhead, soffit bottom, bottom of the soffit"},
	{Key, "bulkhead face", true, "face of bulkhead, face of the bulkhead, bulkhead front, front of the bulkhead, side of the bulkhead, soffit face, face of the soffit"},
	{Key, "bulkhead back", true, "back of bulkhead, back of the bulkhead"},
	{Key, "of", true, ""},
	{Key, "along", true, ""},
	{Key, "not", true, ""},
	{Key, "down", true, ""},
	{Key, "at", true, ""},
	{Key, "row", true, ""},
	{Key, "even", true, "evenly"},
	{Key, "on hand", true, ""},
	{Key, "full length", true, ""},
	{Key, "on top", true, "on top of"},
	{Key, "to", true, ""},
	{Tag, "edge", true, ""},
	{Tag, "to edge", true, "to the edge, to its edge, to near edge, to the near edge, to its near edge, to nearest edge, to the nearest edge, near edge, nearest edge, closest edge, close edge"},
	{Tag, "centre", true, "center, ctr, middle, to centre, to center, to ctr, to the centre, to the center, to middle, to the middle"},
	{Tag, "bare", true, "framing, frame"},
	{Tag, "studs", false, "bare studs"},
	{Tag, "board", true, "boards, face, board face, sheet, sheets"},
	{Tag, "notch", true, ""},
	{Tag, "main", true, ""},
	{Tag, "on plan", true, "on the plan, in plan, on the level, measured level, on the floor plan"},
	{Tag, "finished floor", true, "finish floor, off finished floor, off the finished floor, from finished floor, from the finished floor, above finished floor, above the finished floor, off finish floor, off the finish floor"},
	{Tag, "subfloor", true, "sub floor, off subfloor, off the subfloor, from subfloor, from the subfloor, above subfloor, above the subfloor, off the bare floor"},
	{Place, "left", true, ""},
	{Place, "right", true, ""},
	{Place, "floor", true, ""},
	{Service, "pipe", false, "drain, copper, copper pipe, copper line, drain pipe, drain line, water line, water lines, water pipe, water pipes, pex line, pex pipe"},
	{Service, "wire", false, "romex"},
	{Service, "gas", false, "gas line, gas lines, gas pipe"},
	{Service, "heat tube", false, "heating tube, heating tubes, heat tubing, heating tubing"},
	{Word, "first", false, "starting"},
	{Word, "end", true, "one end, other end, the other end, at one end, at the other end, at other end"},
	{Word, "ne", false, "northeast, north-east"},
	{Word, "nw", false, "northwest, north-west"},
	{Word, "se", false, "southeast, south-east"},
	{Word, "sw", false, "southwest, south-west"},
	{Word, "nw-se", true, "nw to se, se to nw, se-nw, nw se, northwest to southeast, southeast to northwest"},
	{Word, "ne-sw", true, "ne to sw, sw to ne, sw-ne, ne sw, northeast to southwest, southwest to northeast"},
	{Key, "diag", true, "diagonal, diagonals, corner to corner"},
	{Word, "we", false, "we've"},
	{Word, "i", false, "i've"},
	{Word, "through", false, "thru, via"},
	{Word, "compound", false, "mud"},
	{Punct, "%", false, "percent, per cent"},
}

// Filler are words that change nothing.
var Filler = Set("thx", "thanks", "cheers", "the", "a", "an", "and", "please", "pls", "plz", "is", "are", "its", "it's", "wall", "called", "named", "was", "dia", "diameter", "ro", "opening")

// Symbol is the type and value of a token.
type Symbol struct {
	Type  Type
	Value string
}

// Phrase is words that make one token.
type Phrase struct {
	Words []string
	Symbol
}

// Table holds phrases by their first word, longest first.
type Table map[string][]Phrase

// Add puts words and their symbol into the table.
func (t Table) Add(said string, s Symbol) {
	words := strings.Fields(said)
	all := append(t[words[0]], Phrase{words, s})
	slices.SortStableFunc(all, func(a, b Phrase) int { return len(b.Words) - len(a.Words) })
	t[words[0]] = all
}

// Whole returns the symbol for all of said, the zero symbol if it is not a phrase of the table.
func (t Table) Whole(said string) Symbol {
	words := strings.Fields(said)
	if len(words) > 0 {
		for _, p := range t[words[0]] {
			if slices.Equal(p.Words, words) {
				return p.Symbol
			}
		}
	}
	return Symbol{}
}

// Phrases are the words of the language. ThingOf maps words for things to their kind.
var Phrases, ThingOf = func() (Table, map[string]string) {
	table, thing := Table{}, map[string]string{}
	for what, also := range things {
		for _, said := range append(listed(also), what) {
			for _, w := range []string{said, Plural(said)} {
				if thing[w] == "" {
					thing[w] = what
					table.Add(w, Symbol{Thing, what})
				}
			}
		}
	}
	for _, w := range services {
		table.Add(w, Symbol{Service, w})
		if p := Plural(w); p != w {
			table.Add(p, Symbol{Service, w})
		}
	}
	for _, f := range fixed {
		said := listed(f.also)
		if f.own {
			said = append(said, f.value)
		}
		for _, w := range said {
			table.Add(w, Symbol{f.typ, f.value})
		}
	}
	for said, value := range faces() {
		table.Add(said, Symbol{Face, value})
	}
	return table, thing
}()

func listed(s string) []string {
	if s == "" {
		return nil
	}
	return strings.Split(s, ", ")
}

// Plural returns a word in the plural.
func Plural(w string) string {
	switch {
	case strings.HasSuffix(w, "s"):
		return w
	case strings.HasSuffix(w, "x"), strings.HasSuffix(w, "ch"):
		return w + "es"
	}
	return w + "s"
}

// Middle is the word for the one between others.
const Middle = "middle"

// Ordinals are the words for 1, 2, 3 and so on; Ordinal is the number of each.
var (
	Ordinals = []string{"first", "second", "third", "fourth", "fifth", "sixth"}
	Ordinal  = func() map[string]int {
		m := map[string]int{}
		for i, w := range Ordinals {
			m[w] = i + 1
		}
		return m
	}()
)

// Set returns the words as a set.
func Set(words ...string) map[string]bool {
	m := map[string]bool{}
	for _, w := range words {
		m[w] = true
	}
	return m
}

// Rows yields each word of a table with the head of its row: "head: word, word", with sep between them.
func Rows(table, sep string) iter.Seq2[string, string] {
	return func(yield func(head, word string) bool) {
		for row := range strings.Lines(strings.TrimSpace(table)) {
			head, words, _ := strings.Cut(strings.TrimSpace(row), ": ")
			for w := range strings.SplitSeq(words, sep) {
				if !yield(head, w) {
					return
				}
			}
		}
	}
}

// ByWord returns the class of each word, of classes with their words.
func ByWord[T comparable](classes map[T]string) map[string]T {
	all := map[string]T{}
	for c, words := range classes {
		for w := range strings.FieldsSeq(words) {
			all[w] = c
		}
	}
	return all
}

// IsPiece reports whether a name is that of a planned piece.
func IsPiece(s string) bool {
	row, piece, one := strings.Cut(strings.TrimPrefix(s, "r"), ".")
	ok := func(s string) bool {
		return s != "" && len(s) <= 3 && s[0] != '0' && strings.Trim(s, "0123456789") == ""
	}
	return strings.HasPrefix(s, "r") && ok(row) && (!one || ok(piece))
}
