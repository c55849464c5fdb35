package grammar

import (
	"fmt"
	"regexp"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
)

// A room is opened in passing: "ok starting the front bedroom today, 11'4 x 13'2",
// "garage, 22'6 deep 21 wide", "parlor: n 15-2 s 14-9 e 13-3 w 13-3".

var (
	// roomNoun are words that name a room, besideNoun those that stand beside one in its name.
	roomNoun = lex.Set(strings.Fields(`kitchen bath bathroom ensuite powder bedroom bed master den hall hallway landing closet laundry garage living dining family rec office
		pantry stairwell attic basement bsmt parlor parlour sunroom mudroom entry foyer nursery study loft playroom utility storage porch library lounge`)...)
	besideNoun = lex.Set(strings.Fields(`front back main guest upstairs downstairs upper lower big small half walk-in mechanical kids room rm area cottage`)...)
	// openers are words before it, roomFiller those between it and its sides.
	openers = lex.Set(strings.Fields(`morning ok okay alright today todays startin starting start started doing on the this in next room is lot so all one two three rooms its it's
		flat part of lid condo unit old farmhouse nothing square to we're now and im i'm well scratch that lead first`)...)
	roomFiller = lex.Set(strings.Fields(`today now is its it's first we got that's thats worse flat part lid of proper scratch that no make actually`)...)
	// twoLengths are its two sides.
	twoLengths = regexp.MustCompile(`^(.{1,28}?) ?(?:x|by|×) ?(.{1,28}?)(?: out of square .*)?$`)
	deepWide   = regexp.MustCompile(`^(.{1,28}?) (deep|long|wide),? (?:and |x |by )?(.{1,28}?) (deep|long|wide)$`)
)

// roomNamed is where a room's name stands in words, from 0 and 0 when none does.
func roomNamed(said []string) (from, to int) {
	bare := func(i int) string { return strings.Trim(said[i], ",.:;") }
	for from < len(said) && !roomNoun[bare(from)] && !besideNoun[bare(from)] {
		if w := bare(from); !openers[w] && strings.Trim(w, "0123456789") != "" {
			return 0, 0
		}
		from++
	}
	noun := false
	for to = from; to < len(said) && (roomNoun[bare(to)] || besideNoun[bare(to)]); to++ {
		noun = noun || roomNoun[bare(to)]
		if bare(to) != said[to] {
			to++
			break
		}
	}
	if !noun {
		return 0, 0
	}
	if to+1 < len(said) && len(bare(to)) == 1 && '1' <= said[to][0] && said[to][0] <= '9' && (roomFiller[bare(to+1)] || said[to+1] != "x" && said[to+1] != "by" && strings.ContainsAny(said[to+1][:1], "123456789")) {
		to++ // bed 2
	}
	return from, to
}

// opening is the line that notes a room which is opened in passing, "" when none is.
func (l *line) opening(said string) string {
	words := strings.Fields(strings.TrimPrefix(strings.TrimPrefix(said, "rm "), "room "))
	from, to := roomNamed(words)
	if to == 0 {
		return ""
	}
	name := strings.NewReplacer(",", "", ".", "", ":", "", ";", "").Replace(strings.Join(words[from:to], " "))
	if l.Rooms[name] != "" { // it is measured again
		return ""
	}
	for to < len(words) && roomFiller[strings.Trim(words[to], ",:")] {
		to++
	}
	sides := strings.Join(words[to:], " ")
	if _, n, _ := length.Scan(sides, l.Units, length.List); n == 0 {
		return ""
	}
	if m := deepWide.FindStringSubmatch(sides); m != nil && (m[2] == "wide") != (m[4] == "wide") {
		if m[2] != "wide" {
			m[1], m[3] = m[3], m[1]
		}
		return "room " + name + ", " + m[1] + " x " + m[3]
	}
	if m := twoLengths.FindStringSubmatch(sides); m != nil {
		return "room " + name + ", " + m[1] + " x " + m[2]
	}
	return ""
}

const (
	aSide = `(\d[\d'"./-]*(?: \d+/\d+)?"?(?:mm|m|cm)?)`
	aWall = `\b(north|east|south|west|n|e|s|w)\b(?: wall| side| eave| end)?`
)

var (
	wallFirst = regexp.MustCompile(aWall + `[ :=]+` + aSide)
	sideFirst = regexp.MustCompile(aSide + `,?(?: is| on| down| along| at| off)*(?: the)? ` + aWall)
	bothEnds  = regexp.MustCompile(aSide + `,?(?: wide| long)?(?: on| at)? both (?:ends|sides)|both (?:ends|sides) ` + aSide)
)

// crooked are the sides of a room by their walls, "" when not all four are said.
func crooked(said string) string {
	sides := map[place.Wall]string{}
	first := sideFirst
	if m, k := wallFirst.FindStringIndex(said), sideFirst.FindStringIndex(said); m != nil && (k == nil || m[0] < k[0]) {
		first = wallFirst
	}
	for _, m := range first.FindAllStringSubmatch(said, -1) {
		if first == wallFirst {
			m[1], m[2] = m[2], m[1]
		}
		sides[wall(m[2])] = m[1]
	}
	if m := bothEnds.FindStringSubmatch(said); m != nil {
		for w := range []int{0, 1, 2, 3} {
			if at := []place.Wall{place.North, place.East, place.South, place.West}[w]; sides[at] == "" {
				sides[at] = m[1] + m[2]
			}
		}
	}
	if len(sides) != 4 {
		return ""
	}
	return fmt.Sprintf("square north %s south %s east %s west %s", sides[place.North], sides[place.South], sides[place.East], sides[place.West])
}
