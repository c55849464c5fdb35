package shell

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/lex"
	"strapline/grammar/speech"
)

// atNamed is the end where a side was read: "at the street end", "by the window", "on the south wall", "at one end".
var atNamed = regexp.MustCompile(`^ ?(?:wide |across |is )?(?:(?:(?:at|on|by|near|along|in)(?: the)? ((?:[a-z]+ )??[a-z]+)|(?:the )?(one|other))(?: (?:end|side|wall))?)(?:$|[ ,.;])`)

// unnamed are ends that have no name.
var unnamed = lex.Set("one", "one end", "the one", "other", "the other", "far", "wide", "narrow")

// tapered is a room that is not as wide at one end as at the other: "14'1 at the street end, 13'11 at the hall end,
// 15'8 long". Which wall an end is at is asked if nobody said so.
func (l *line) tapered() []Guess {
	high := ""
	if m := l.Take(tall); m != nil {
		high = " high " + l.feet(l.Said(slices.Max(m)))
	}
	free := l.Left(speech.Length)
	if len(free) != 3 || l.Has("SKkwZlDh") || l.Changes("isn't", "isnt", "not") {
		return nil
	}
	var ends, names, sides []string
	for n, i := range free {
		upto := len(l.Read)
		if n < 2 {
			upto = l.Items[free[n+1]].At
		}
		if m := atNamed.FindStringSubmatch(lex.Lower(l.Read[min(l.end(i), upto):upto])); m != nil && len(ends) < 2 {
			ends, names = append(ends, l.dashed(l.Said(i))), append(names, m[1]+m[2])
		} else {
			sides = append(sides, l.dashed(l.Said(i)))
		}
	}
	apart := func(side string) length.Length { d := l.LengthOf(side) - l.LengthOf(ends[0]); return max(d, -d) }
	if len(ends) == 1 && roomSides.Match(l.Tags) { // "12 x 14, 11'11 at the street end"
		slices.SortStableFunc(sides, func(a, b string) int { return int(apart(a) - apart(b)) })
		ends, names, sides = append(ends, sides[0]), append(names, "other"), sides[1:]
	}
	if len(ends) != 2 || l.LengthOf(ends[0]) == 0 || l.LengthOf(ends[1]) == 0 {
		return nil
	}
	long := sides[0]
	if 4*apart(ends[1]) > l.LengthOf(ends[0]) { // no room tapers so much
		return nil
	}
	name := l.roomName()
	if name == "" || l.LengthOf(ends[0]) == l.LengthOf(ends[1]) { // one side, and that of a wall
		return nil
	}
	var all []Guess
	known := wallNamed(l, names[0])
	for _, w := range place.Walls {
		if known != "" && w != known {
			continue
		}
		ew, ns := l.longer(ends[0], ends[1]), long
		a, b := w.Ends()
		if w.EastWest() {
			ew, ns = ns, ew
		}
		said := []string{fmt.Sprintf("room %s %s x %s%s", name, ew, ns, high)}
		room := strings.TrimRight(name, ",") + ": "
		for k, end := range []place.Wall{w, w.Opposite()} {
			if known == "" && !unnamed[names[k]] {
				said = append(said, fmt.Sprintf("%s%s is %s wall", room, end, names[k]))
			}
		}
		square := fmt.Sprintf("square %s %s %s %s %s %s %s %s", w, ends[0], w.Opposite(), ends[1], a, long, b, long)
		g := Guess{Text: said[0], Then: strings.Join(append(said[1:], room+square), "\n"), Label: string(w)}
		if known != "" {
			g.Label = said[0] + "; " + square
		}
		all = append(all, g)
	}
	if known == "" {
		at := names[0] + " end"
		if unnamed[names[0]] {
			at = ends[0] + " end"
		}
		all[0].Asks = fmt.Sprintf("%s at one end, %s at the other, %s long: which wall is the %s?", ends[0], ends[1], long, at)
	}
	return all
}

// dashed is a side with its feet before a dash, 14-1 1/2.
func (l *line) dashed(said string) string {
	if l.Units == length.Imperial && feetDash.MatchString(said) {
		return strings.Replace(said, "-", "' ", 1)
	}
	return l.feet(said)
}

var feetDash = regexp.MustCompile(`^\d{1,2}-(?:\d|1[01])(?:$| \d)`)

// wallNamed is a wall by its name, "" if there is none.
func wallNamed(l *line, name string) place.Wall {
	if sym := lex.Phrases.Whole(name); sym.Type == lex.Wall {
		return place.Wall(sym.Value)
	}
	return l.Walls[name]
}
