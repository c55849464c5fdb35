package grammar

import (
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"
)

// ofRooms are the kinds that are said of a room, which may stand anywhere in
// the line: "how many screws den", "cuts for kitchen".
var ofRooms = map[Kind]bool{"reach": true, "screws": true, "ready": true, "handoff": true, "coat": true, "painted": true, "layout": true,
	"cuts": true, "order": true, "bring": true, "texture": true, "rest": true, "piece": true, "otherway": true, "left": true, "plate": true, "snags": true}

// ofRoom returns how many pieces at k name the room that such a line is about.
func (l *line) ofRoom(k int) int {
	if l.cmd == nil || !ofRooms[l.cmd.Kind] || l.ps[k].gone {
		return 0
	}
	at := k
	if l.ps[at].low == "for" || l.ps[at].low == "of" {
		at++
	}
	if at < len(l.ps) && l.ps[at].low == "the" {
		at++
	}
	room, n := l.roomAt(at)
	if n == 0 {
		return 0
	}
	l.inRoom(room)
	return at - k + n
}

// isRoom returns how many pieces at i are "is" beside a room and before what
// is said of it: "is kitchen ready", "kitchen is painted".
func (l *line) isRoom(i int) int {
	if l.ps[i].low != "is" && l.ps[i].low != "are" {
		return 0
	}
	at := i + 1
	if l.first && l.stated(at) {
		return 1
	}
	if at < len(l.ps) && l.ps[at].low == "the" {
		at++
	}
	if _, n := l.roomAt(at); n == 0 || !l.stated(at+n) {
		return 0
	}
	l.question = true
	return at - i
}

// stated reports whether what is said of a room stands at piece i: "ready", "painted".
func (l *line) stated(i int) bool {
	sym, n := l.phraseAt(i, words.heads)
	return n > 0 && (sym.value == "ready" || sym.value == "painted")
}

// asksOver reports whether the line asks what is over a row: "pipe over row 3?".
func (l *line) asksOver() bool { return l.question && l.has(tKey, "row") && !l.measure() }

// sizedRun reports whether numbers stand before a run: `1/2" pipe p1 ...`.
func (l *line) sizedRun() bool {
	i := slices.IndexFunc(l.tokens, func(t lexer.Token) bool { return t.Type != tNumber && t.Type != tPunct && t.Type != tOther })
	return l.tokens[i].Type == tService
}

// asksScrew reports whether a length is asked about as a screw: "1 5/8 ok?".
func (l *line) asksScrew() bool {
	return (l.question || l.opens("is", "are")) && l.measure() && l.tokens[len(l.tokens)-2].Value == "ok"
}

// asksElse reports whether a line that could not be read begins as a question
// that is ours, said in words that a busy channel says of other things too.
func (l *line) asksElse() bool {
	if l.cmd == nil {
		return false
	}
	switch l.cmd.Kind {
	case "ready", "bring", "left", "piece", "rest", "otherway":
		return true
	case "stock": // "broke for lunch"
		return l.opens("broke", "cracked", "wasted", "ruined")
	case "hung": // "we hung out"
		return strings.Contains(l.began(), " ") && l.began() != "put up"
	case "code": // of a door
		return l.has(tNumber, "")
	case "order": // "order lunch?"
		return strings.Contains(l.began(), " ") || l.tokens[1].Type == tWord && !l.has(tNumber, "") && !l.has(tKey, "row")
	case "cuts", "screws", "reach", "layout":
		return strings.Contains(l.text[l.ps[l.start].start:l.ended], " ")
	}
	return false
}
