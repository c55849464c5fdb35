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

// A room is opened in passing: "ok starting the front bedroom today, 11'4 x 13'2",
// "garage, 22'6 deep 21 wide", "parlor: n 15-2 s 14-9 e 13-3 w 13-3".

var (
	// openers are words before it, roomFiller those between it and its sides.
	openers = lex.Set(strings.Fields(`morning ok okay alright today todays startin starting start started doing on the this in next room is lot so all one two three rooms its it's
		flat part of lid condo unit old farmhouse nothing square to we're now and im i'm well scratch that lead first`)...)
	roomFiller = lex.Set(strings.Fields(`today now is its it's first we got that's thats worse flat part lid of proper scratch that no make actually next`)...)
)

// roomNamed returns where in words a room's name is, or 0 and 0 if there is none.
func roomNamed(said []string) (from, to int) {
	bare := func(i int) string { return strings.Trim(said[i], ",.:;") }
	for from < len(said) && !topic.RoomNoun[bare(from)] && !topic.BesideRoom[bare(from)] {
		if w := bare(from); !openers[w] && strings.Trim(w, "0123456789") != "" {
			return 0, 0
		}
		from++
	}
	noun := false
	for to = from; to < len(said) && (topic.RoomNoun[bare(to)] || topic.BesideRoom[bare(to)]); to++ {
		noun = noun || topic.RoomNoun[bare(to)]
		if bare(to) != said[to] {
			to++
			break
		}
	}
	if !noun {
		return 0, 0
	}
	if to+1 < len(said) && len(bare(to)) == 1 && '1' <= said[to][0] && said[to][0] <= '9' && (roomFiller[bare(to+1)] || said[to+1] != "x" && said[to+1] != "by" && strings.ContainsAny(said[to+1][:1], "123456789") && !strings.Contains(said[to+1], "/")) {
		to++ // bed 2
	}
	return from, to
}

// RoomSpelt reports whether a room's name consists only of words for rooms.
func RoomSpelt(name string) bool {
	return !slices.ContainsFunc(strings.Fields(name), func(w string) bool {
		return !topic.RoomNoun[w] && !topic.BesideRoom[w] && strings.Trim(w, "0123456789") != ""
	})
}

// RoomNamedIn returns the room that words begin with, "" if none.
func RoomNamedIn(said string) string {
	words := strings.Fields(said)
	from, to := roomNamed(words)
	return strings.Join(words[from:to], " ")
}

var inMetric, inFeetSaid = regexp.MustCompile(`(?i)\d ?mm\b|\d[.,]\d+ ?(?:m|met(?:re|er)s?)\b|\b[3-6]00 cent|\b[1-9][.,]\d\d? ?(?:x|by|×) ?[1-9][.,]\d\d?\b|` +
	`\b\d{4} ?(?:x|by|×) ?\d{3,4}\b|\b\d{3} ?(?:x|by|×) ?\d{4}\b`), regexp.MustCompile(`(?i)\d ?(?:'|’|"|″|ft\b|foot|feet|in\b|inch)`)

// OpensInMetric reports whether a text opens a room and is measured in metres or millimetres: it says so, or
// in inches a side would be over 200 ft.
func OpensInMetric(text string) bool {
	if !inMetric.MatchString(text) || inFeetSaid.MatchString(text) {
		return false
	}
	return slices.ContainsFunc(strings.Fields(lex.Lower(text)), func(w string) bool { return topic.RoomNoun[strings.Trim(w, ",.:;")] })
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
	if from, to := roomNamed(all); !works || from != 0 || to == 0 || to != len(all) || l.Room == "" && l.Rooms[strings.Join(all, " ")] != "" {
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
		sym, n := l.Declared(i)
		if sym.Type != lex.Room {
			return "", 0
		}
		return sym.Value, n
	}
	n := 0
	for i+n < len(l.Pieces) && l.Pieces[i+n].Gone {
		n++
	}
	return l.Room, n
}
