// Package landmark reads lines that name a wall by what is at it, or a corner by left and right.
package landmark

import (
	"errors"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/places"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/relate"
	"strapline/grammar/things"
	"strapline/grammar/wording"
)

// Crews name walls by what is at them ("the window wall", "off the patio side", "3 ft from the hall"), and
// corners by left and right of the wall they face. A wall that was never named so is asked for once; the
// answer is kept as its other name. The window wall needs no question if there are windows in one wall only.

var (
	aWallSaid = regexp.MustCompile(`(?i)(?:^|[,:] ?|\b(?:` + beforeWall + `) )+((?:[a-z/]+ )?[a-z/]+) (?:wall|side|gable|end|corner)\b`)
	offWhat   = regexp.MustCompile(`(?i)\b(?:off|from|facing) (?:the )?([a-z/]+)(?: room)?(?:$|[,.;]| and | ce?n?te?r(?:ed)?\b| centred? ?| to (?:the )?(?:cent(?:er|re)|near)| \d)`)
	// handed is a corner by its hand: which, whether the wall that is faced is said, and its name.
	handed = regexp.MustCompile(`(?i)\b(?:the )?(left|right)(?:[ -]hand)? (corner|end|side|wall)(,? (?:if |when |as |standing |you |you're |inside |in the room |and )*(?:looking at|look at|facing|face) (?:it|(?:the )?([a-z/]+)(?: wall| side)?))?`)
)

// beforeWall are words before the name of a wall.
const beforeWall = `off|from|on|in|of|over|along|across|to|toward|towards|against|facing|at|out|through|thru|into|hugs|hugging|whole|entire|full|width|length|the|room|inside|behind|up|down|by|and|plus`

// sideless are words that identify no wall.
var sideless = lex.Set("each", "every", "either", "both", "whole", "entire", "full", "same", "other", "one", "long", "short", "finished", "all", "any", "longest", "shortest", "highest", "widest", "side", "end", "far", "near", "inside", "a", "this", "that",
	"edge", "trim", "jamb", "casing", "frame", "opening", "corner", "corners", "walls", "ends", "sides", "center", "centre", "centered", "centred", "middle", "face", "top", "bottom", "grade", "it", "nowhere", "somewhere", "anywhere", "there", "here", "framing", "bare", "wall", "left", "right", "of", "hand", "opposite", "oposite", "facing", "running", "runs", "run", "going", "goes", "ew", "ns", "by", "about", "wrong", "way", "nw", "ne", "sw", "se")

// Name returns the first name of a wall in the line that the room does not have, "" if there is none.
func Name(l *read.Source) string {
	named := func(m []string) string {
		name := lex.Plain(m[1])
		for w := range strings.FieldsSeq(name) {
			if sym := lex.Phrases.Whole(w); read.Talk[w] || len(w) == 1 || sym.Type == lex.Wall || sym.Type == lex.Place || sym.Type == lex.Key || sym.Type == lex.Support || l.Walls[w] != "" || sideless[w] || lex.Numeral(w) || lex.Heard(w) {
				return ""
			}
		}
		return name
	}
	for _, m := range aWallSaid.FindAllStringSubmatch(l.Text, -1) {
		if name := named(m); name != "" && l.Walls[name] == "" {
			return name
		}
	}
	for _, m := range offWhat.FindAllStringSubmatch(l.Text, -1) {
		name := named(m)
		if sym := lex.Phrases.Whole(name); name != "" && l.Walls[name] == "" && sym.Type == 0 && l.Rooms[name] == "" && places.Openings[name] != "door" && !lex.Shape(name) && grammar.Nearest(name, wallNames(l)) == "" && (l.Seen[name] != "" && !l.Has(lex.Key, "up") || l.Noun == nil || !l.Noun(name)) {
			return name
		}
	}
	return ""
}

// wallNames returns what the walls of the room may be called.
func wallNames(l *read.Source) []string {
	return append(slices.Sorted(maps.Keys(l.Walls)), "north", "east", "south", "west")
}

// Read reads a line that names walls or corners so. ok is false if nothing reads it either way.
func Read(l *read.Source) (got grammar.Line, err error, ok bool) {
	if len(l.Rooms) == 0 { // without a room there is no wall to choose
		return l.Line, nil, false
	}
	name := Name(l)
	if room := wording.RoomNamedIn(lex.Lower(l.Text)); room != "" && room != name && l.Rooms[room] == "" && l.Room == "" && l.Tokens[0].Type != lex.Thing { // of a room that is not noted yet
		return l.Line, nil, false
	}
	reading := func(text string, name string, w place.Wall, strict bool) (grammar.Line, error, bool) {
		c := *l.Context
		c.Strict, c.Whole = c.Strict || strict, true
		if name != "" {
			c.Walls = map[string]place.Wall{name: w}
			maps.Copy(c.Walls, l.Walls)
		}
		line, err := read.Anew(text, &c)
		_, asks := errors.AsType[*grammar.Ask](err)
		note, kept := line.Entry.(record.Note)
		th, is := line.Entry.(things.Thing)
		return line, err, asks || err == nil && !(kept && note.Kept) && !(is && len(th.Fixes) == 2 && opposed(th.Fixes[0], th.Fixes[1]))
	}
	if name != "" {
		if w := l.Seen[name]; w != "" {
			return reading(l.Text, name, w, false)
		}
		text, others := " "+lex.Plain(l.Text)+" ", map[place.Wall]bool{} // two names in one line are two walls
		for said, w := range l.Walls {
			if strings.Contains(text, " "+said+" ") {
				others[w] = true
			}
		}
		ask := l.Asks(fmt.Sprintf("which wall is the %s wall?", name))
		ask.Keep = true
		best, means := 0, map[string]bool{}
		for _, strict := range []bool{true, false} { // what leaves something out could be off any wall
			for _, w := range place.Walls {
				if others[w] {
					continue
				}
				got, err, ok := reading(l.Text, name, w, strict)
				if !ok {
					continue
				}
				fits, says := 2, ""
				if asked, asks := errors.AsType[*grammar.Ask](err); !asks {
					says = got.String()
				} else if says = asked.Error() + asked.Base; len(asked.Choices) == 0 {
					fits = 1 // something is missing
				}
				if fits > best {
					ask.Choices, best, means = nil, fits, map[string]bool{}
				}
				if fits == best {
					means[says] = true
					ask.Choices = append(ask.Choices, grammar.Choice{Label: string(w), Text: strings.TrimPrefix(fmt.Sprintf("%s: %s is %s wall\n%s", l.Room, w, name, l.Text), ": ")})
				}
			}
			if best > 0 {
				break
			}
		}
		return l.Line, ask, best > 0 && (len(means) > 1 || len(ask.Choices) == 1) // else nothing depends on it
	}
	return byHand(l, func(text string) (grammar.Line, error, bool) { return reading(text, "", "", false) })
}

// opposed reports whether two distances are off the same wall, or off opposite ones: that is no place.
func opposed(a, b place.Fix) bool {
	return a.How == place.OffWall && b.How == place.OffWall && a.Wall != "" && b.Wall != "" && a.Wall.Along() == b.Wall.Along()
}

// byHand reads a corner as left or right of the wall that is faced: the one said, or the wall that the
// line is about, which is asked about.
func byHand(l *read.Source, reading func(string) (grammar.Line, error, bool)) (grammar.Line, error, bool) {
	m := handed.FindStringSubmatchIndex(l.Text)
	if m == nil {
		return l.Line, nil, false
	}
	hand, text := strings.ToLower(l.Text[m[2]:m[3]]), func(w place.Wall) string { return l.Text[:m[0]] + string(w) + " wall" + l.Text[m[1]:] }
	ask, walls, what := l.Asks("which wall is the "+hand+" wall?"), place.Walls[:], ""
	if l.Text[m[4]:m[5]] != "wall" {
		faced := facedBefore(l, m[0])
		if m[8] >= 0 {
			faced = relate.WallSaid(l.Context, l.Text[m[8]:m[9]])
		}
		i := slices.Index(place.Walls[:], faced)
		if i < 0 {
			return l.Line, nil, false
		}
		if walls = []place.Wall{place.Walls[(i+3)%4], place.Walls[(i+1)%4]}; hand == "right" {
			slices.Reverse(walls)
		}
		if m[6] >= 0 {
			return reading(text(walls[0]))
		}
		ask.Why, what = fmt.Sprintf("%s corner of the %s wall, seen from inside?", hand, faced), " end"
	}
	for _, w := range walls {
		if _, _, ok := reading(text(w)); ok {
			ask.Choices = append(ask.Choices, grammar.Choice{Label: string(w) + what, Text: text(w)})
		}
	}
	ask.Keep = true
	return l.Line, ask, len(ask.Choices) > 0
}

// facedBefore returns the wall that was named last before a byte of the line.
func facedBefore(l *read.Source, at int) (w place.Wall) {
	for _, t := range l.Tokens {
		if t.Type == lex.Wall && t.Pos.Offset < at {
			w = place.Wall(t.Value)
		}
	}
	return w
}
