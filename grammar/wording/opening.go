package wording

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/rooms"
	"strapline/grammar/topic"
)

// RoomSpelt reports whether a room's name consists only of words for rooms.
func RoomSpelt(name string) bool {
	return !slices.ContainsFunc(strings.Fields(name), func(w string) bool {
		return !topic.RoomNoun[w] && !topic.BesideRoom[w] && strings.Trim(w, "0123456789") != ""
	})
}

// RoomNamedIn returns the words for a room that a text begins with, "" if it names none.
func RoomNamedIn(said string) string {
	name, noun := "", false
	for w := range strings.FieldsSeq(said) {
		w = strings.Trim(w, ",.:;")
		if !topic.RoomNoun[w] && !topic.BesideRoom[w] {
			break
		}
		name, noun = strings.TrimSpace(name+" "+w), noun || topic.RoomNoun[w]
	}
	if !noun {
		return ""
	}
	return name
}

var inMetric, inFeetSaid = regexp.MustCompile(`(?i)\d ?mm\b|\d[.,]\d+ ?(?:m|met(?:re|er)s?)\b|\b[3-6]00 cent|\b[1-9][.,]\d\d? ?(?:x|by|×) ?[1-9][.,]\d\d?\b|` +
	`\b\d{4} ?(?:x|by|×|(?:wide|long|deep),?(?: (?:x|by|and))?) ?\d{3,4}\b|\b\d{3} ?(?:x|by|×) ?\d{4}\b`), regexp.MustCompile(`(?i)\d ?(?:'|’|"|″|ft\b|foot|feet|in\b|inch)`)

// OpensInMetric reports whether a text opens a room and is measured in metres or millimetres: it says so, or
// in inches a side would be over 200 ft.
func OpensInMetric(text string) bool {
	if !inMetric.MatchString(text) || inFeetSaid.MatchString(text) {
		return false
	}
	return slices.ContainsFunc(strings.Fields(lex.Lower(text)), func(w string) bool { w = strings.Trim(w, ",.:;"); return w == "room" || topic.RoomNoun[w] })
}

// RoomWords returns other words for a room, if no other room could be meant: "bath" for the main bath,
// "living room" for the living.
func RoomWords(name string) (short []string) {
	words := strings.Fields(name)
	if topic.RoomNoun[name] && !strings.HasSuffix(name, "room") {
		short = append(short, name+" room")
	}
	if name == "hallway" {
		short = append(short, "hall", "hall way")
	}
	if i := strings.LastIndexByte(name, ' '); i > 0 && strings.Trim(name[i+1:], "0123456789") == "" { // bed 2 for bedroom 2
		if stem, ok := strings.CutSuffix(name[:i], "room"); ok && topic.RoomNoun[stem] {
			short = append(short, stem+name[i:])
		}
	}
	for _, w := range words {
		if topic.RoomNoun[w] && len(words) > 1 && !strings.ContainsAny(name, "0123456789") {
			short = append(short, w)
		}
	}
	return short
}

// Words of somebody who starts in a room.
var (
	working = lex.Set(strings.Fields(`start starting started hanging boarding strapping measuring doing framing working`)...)
	moving  = lex.Set(strings.Fields(`moving going heading headed off back switching switch jumping over`)...)
	nowIn   = lex.Set("now", "next", "today")
	atFirst = lex.Set(strings.Fields(`ok okay alright morning now so and then we we're were i i'm im all guys gonna moved in on to into with at onto the a is it's its up down rooms`)...)
	leaving = lex.Set("done", "finished", "through", "here") // "done in here, bedroom now"
)

// slipLetters is the length from which a word may be a slip for a room's name: "back" is none for "bath".
const slipLetters = 6

// Enters reads that the sender goes to a room: "heading to the bedroom", "ok hanging in the master" of one that has not
// been named before, "in the den now", "dining next".
func Enters(l *read.Source, said []string) grammar.Entry {
	if l.Cmd != nil || l.Question || len(l.Tokens) > 10 || l.Has(lex.Number, "") {
		return nil
	}
	if room := entersKnown(l); room != "" {
		l.Room = ""
		return rooms.InRoom{Name: room}
	}
	all := strings.Fields(said[0])
	works := len(all) > 0 && all[0] == "in"
	for len(all) > 0 && (atFirst[all[0]] || working[all[0]] || moving[all[0]]) {
		works = works || working[all[0]]
		all = all[1:]
	}
	for len(all) > 0 && nowIn[all[len(all)-1]] {
		works = true
		all = all[:len(all)-1]
	}
	if name := strings.Join(all, " "); len(name) >= slipLetters && len(all) < len(strings.Fields(said[0])) && l.Rooms[name] == "" && grammar.Nearest(name, slices.Sorted(maps.Keys(l.Rooms))) != "" {
		return rooms.InRoom{Name: name} // "going to the kitchne": what it is a slip for gets asked
	}
	if name := strings.Join(all, " "); !works || RoomNamedIn(name) == "" || !RoomSpelt(name) || l.Room == "" && l.Rooms[name] != "" {
		return nil
	}
	for i, w := range all { // "in into kitchen kitchen"
		if slices.Contains(all[:i], w) || l.Rooms[w] != "" && len(all) > 1 {
			return nil
		}
	}
	return rooms.InRoom{Name: strings.Join(all, " ")}
}

// entersKnown returns the declared room that a line says its sender goes to, with no word for anything else.
func entersKnown(l *read.Source) (room string) {
	works, moves, now, left, here := false, false, "", false, false
	for i := 0; i < len(l.Pieces); i++ {
		p := l.Pieces[i]
		if sym, n := declared(l, i); n > 0 {
			if room != "" && room != sym {
				return ""
			}
			room, i = sym, i+n-1
			continue
		}
		switch {
		case !p.Word():
			continue
		case working[p.Low]:
			works = true
		case moving[p.Low], p.Low == "on" && i > 0 && l.Pieces[i-1].Low == "moved":
			moves = true
		case nowIn[p.Low]:
			now = p.Low
		case leaving[p.Low]:
			left, here = left || p.Low != "here", here || p.Low == "here"
		case !atFirst[p.Low]:
			return ""
		}
	}
	if left != here || works && now == "next" || !works && !moves && now == "" { // it is planned, or done
		return ""
	}
	return room
}

// declared returns the room that piece i begins to name, also one that was taken out of the line.
func declared(l *read.Source, i int) (string, int) {
	if !l.Pieces[i].Gone {
		return l.RoomAt(i)
	}
	n := 0
	for i+n < len(l.Pieces) && l.Pieces[i+n].Gone {
		n++
	}
	return l.Room, n
}
