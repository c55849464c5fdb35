package shell

import (
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/speech"
	"strapline/grammar/topic"
)

// tellsApart are words that may come before what a room is, and parts of its name.
var tellsApart = lex.Set(strings.Fields("first second third fourth ground top main upper lower front back north south east west big small little new old spare guest rear middle left right master kids boys girls side great rec")...)

// storeys are what an ordinal or a number before a room is of.
var storeys = lex.Set("floor", "unit", "apt", "apartment", "suite", "flat", "storey", "story", "level", "room", "condo", "lot", "building", "block", "house", "plot")

// roomName takes the name of a room: words for rooms, what tells them apart, a floor or a unit, and a
// number. It is not in the line's own items, because other rules have a use for many of these words.
func (l *line) roomName() string {
	name, from, end := l.nameIn(l.Begin, len(l.Pieces))
	for i, it := range l.Items {
		if name != "" && it.At >= l.Pieces[from].Start && it.At < l.Pieces[end-1].End {
			l.Tags[i] = speech.Used
		}
	}
	return name
}

// nameIn returns the first name of a room in some of the pieces, and its pieces.
func (l *line) nameIn(k, upto int) (said string, from, end int) {
	var name []string
	noun := false
	from = -1
	for ; k < upto; k++ {
		p, at := l.Pieces[k], k
		p.Low = strings.TrimSuffix(p.Low, "'s") // "bath's 8 x 5"
		n := speech.Whole(p.Low)
		var before, next string
		if k > l.Begin {
			before = strings.TrimSuffix(l.Pieces[k-1].Low, ".")
		}
		if k+1 < len(l.Pieces) {
			next = l.Pieces[k+1].Low
		}
		switch {
		case noun && besides[p.Low]: // "bath off the hall"
			goto done
		case len(name) == 0 && topic.RoomNoun[p.Low] && (besides[before] || before == "the" && k > l.Begin+1 && besides[l.Pieces[k-2].Low]):
		case topic.RoomNoun[p.Low]:
			if noun = true; len(name) == 2 && name[1] == "room" && freshRoom[name[0]] { // "new room office"
				name, from = nil, -1
			}
		case storeys[p.Low] && !(p.Low == "flat" && flatPart[next]) && (len(name) > 0 || speech.Whole(next) > 0 && !strings.HasPrefix(next, "0")):
			noun = noun || p.Low == "room" && (len(name) > 0 || speech.Whole(next) > 0)
		case tellsApart[p.Low] || topic.BesideRoom[p.Low] || next == "room" && l.ownWord(p):
		case n > 0 && n <= len(lex.Ordinals) && ordinalEnds[next] && l.Pieces[k+1].Start == p.End: // 1st floor
			p.Low, k = lex.Ordinals[n-1], k+1
		case n > 0 && n < 100 && len(name) > 0 && (storeys[before] || topic.RoomNoun[before]) && l.numbersRoom(k):
			l.spelt = l.spelt || p.Word()
			p.Low = strconv.Itoa(n)
		case len(p.Low) == 1 && "a" <= p.Low && p.Low <= "f" && topic.RoomNoun[before] && (next == "," || next == ":"): // bed a
		case len(name) == 0 && !noun, (p.Low == "number" || p.Low == "no" || p.Low == "#") && speech.Whole(next) > 0:
			continue
		case len(name) == 2 && name[1] == "room" && freshRoom[name[0]] && (lex.Filler[p.Low] || p.Kind == '.'), lex.Filler[p.Low] && len(name) == 2 && name[1] == "room" && lex.Ordinal[name[0]] > 0, len(name) == 1 && (name[0] == "rm" || name[0] == "room"): // "first room is the bathroom"
			name, noun, from = nil, false, -1
			continue
		case !noun: // "first up is the west bedroom"
			name, from = nil, -1
			continue
		default:
			goto done
		}
		if len(name) == 1 && (name[0] == "rm" || name[0] == "room") && speech.Whole(p.Low) == 0 { // "rm office"
			name, from = nil, -1
		}
		if from < 0 {
			from = at
		}
		name, end = append(name, p.Low), k+1
	}
done:
	for len(name) > 0 && !topic.RoomNoun[name[len(name)-1]] && !storeys[name[len(name)-1]] && speech.Whole(name[len(name)-1]) == 0 && len(name[len(name)-1]) > 1 {
		name, end = name[:len(name)-1], end-1
	}
	if !noun || len(name) == 0 || len(name) > lex.MostWords {
		return "", from, from + 1
	}
	said = strings.Join(name, " ")
	if speech.Whole(name[len(name)-1]) > 0 {
		said += ","
	}
	return said, from, end
}

// ordinalEnds are the ends of ordinals in figures.
var ordinalEnds = lex.Set("st", "nd", "rd", "th")

// ownWord reports whether a word before "room" is one that only names it: sewing room, games room.
func (l *line) ownWord(p lex.Piece) bool {
	i := slices.IndexFunc(l.Items, func(it speech.Item) bool { return it.At == p.Start })
	return i >= 0 && l.Items[i].Tag == speech.Stray && len(p.Low) > 2 && p.Word() && !passing[p.Low] && !freshRoom[p.Low] && !topic.Works(p.Low)
}

// besides are words before a room that something else is beside.
var besides = lex.Set("off", "from", "beside", "behind", "by", "to")

// freshRoom are words before "room" that only say that one comes.
var freshRoom = lex.Set("new", "next", "another")

// flatPart are words after "flat" that show that it is a part of the ceiling.
var flatPart = lex.Set("part", "bit", "section", "ceiling", "piece", "area", "is")

// leastFeet is the least number of feet with inches behind it that is not the number of a room.
const leastFeet = 7

// narrow are rooms that are a few feet wide, and of which a house has one.
var narrow = lex.Set("hall", "hallway", "corridor", "entry", "foyer", "landing", "pantry", "vestibule", "stairwell")

// numbersRoom reports whether the number at piece k is that of a room, and not the first side.
func (l *line) numbersRoom(k int) bool {
	i := slices.IndexFunc(l.Items, func(it speech.Item) bool { return it.At == l.Pieces[k].Start })
	if i < 0 || l.Items[i].Tag != speech.Length {
		return true
	}
	next := speech.Item{}
	if i+1 < len(l.Items) {
		next = l.Items[i+1]
	}
	if next.Tag == speech.Length && next.Sep == 0 && (l.Items[i].N >= leastFeet || narrow[l.Pieces[max(k-1, 0)].Low]) { // "den 13 4 1/2 by 11 9", "hall 3 6 x 14"
		return false
	}
	return l.Items[i].N > 0 && (next.Tag == speech.Length || next.Tag == speech.Room || next.Sep == ',')
}
