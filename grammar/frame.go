package grammar

import (
	"fmt"
	"strapline/calc/length"
	"strconv"
	"strings"
)

// name is what we are called by: a line that begins with it is for us.
const name = "strapline"

// head reads what stands before an entry ("strapline, kitchen: at 9:58 ...")
// and the words it begins with. It returns the first piece after them.
func (l *line) head() int {
	bullet := l.skip(0, "-–•")
	if bullet < len(l.ps) && l.ps[bullet].start == l.ps[0].end {
		bullet = 0 // "-26" is no list
	}
	i := l.skip(bullet, "@")
	if i < len(l.ps) && l.ps[i].low == name {
		l.addressed = true
		i = l.skip(i+1, ",:-")
	} else {
		i = bullet
	}
	for i < len(l.ps) {
		l.start = i
		if sym, n := l.declared(i); sym.typ == tRoom && !l.renamed(i+n) {
			l.inRoom(sym.value)
			l.first = true
			i = l.skip(i+n, ",:-")
			continue
		}
		if n := l.isRoom(i); n > 0 {
			i += n
			continue
		}
		if l.ps[i].low == "in" {
			if room, n := l.roomAt(i + 1); n > 0 && l.skip(i+1+n, ",:") > i+1+n {
				l.inRoom(room)
				l.first = true
				i = l.skip(i+1+n, ",:")
				continue
			}
		}
		if next := l.skip(i+1, ","); asides[l.ps[i].low] && next < len(l.ps) && (next > i+1 || l.ps[next].kind == '0') {
			i = next
			continue
		}
		if n := l.clock(i, true); n > 0 {
			i = l.skip(i+n, ",:-")
			continue
		}
		if sym, n := l.phraseAt(i, words.heads); n > 0 && l.heads(sym, i+n) {
			l.cmd = words.rows[Kind(sym.value)]
			l.emit(tCmd, sym.value, i)
			l.ended = l.ps[i+n-1].end
			return l.skip(i+n, ":")
		}
		if n := l.colon(i); n > 0 && l.before == "" {
			l.before = plain(l.text[l.ps[i].start:l.ps[i+n-1].start])
			l.blank(i, i+n)
			i += n
			continue
		}
		break
	}
	return i
}

// heads reports whether the words of a command begin one, before piece i.
func (l *line) heads(sym symbol, i int) bool {
	switch sym.value {
	case "rows":
		return !l.numberAt(i) // "rows 1 and 2 up"
	case "piece":
		return l.pieceNext(i) // "what is" begins all kinds of talk
	}
	return true
}

// asides are words before a correction or an entry: "sorry 84 not 48", "ok, row 2 up".
var asides = set([]string{"sorry", "no", "nope", "oops", "wait", "whoops", "ok", "okay", "hey"})

// colon returns how many pieces at i are one to three words and a colon.
func (l *line) colon(i int) int {
	for n := 0; n <= 3 && i+n < len(l.ps); n++ {
		switch p := l.ps[i+n]; {
		case n == 1 && p.low == ":" && isPiece(l.ps[i].low) && l.numberAt(i+2): // "r3: 96 + 47"
			return 0
		case n > 0 && p.low == ":":
			return n + 1
		case !p.word(), n == 0 && words.phrases[p.low] != nil, isPiece(l.ps[i].low) && n == 1 && p.low == "up": // "r3 up: 96 + 47"
			return 0
		}
	}
	return 0
}

// skip passes any one of the signs at piece i.
func (l *line) skip(i int, signs string) int {
	if i < len(l.ps) && l.ps[i].kind == '.' && strings.Contains(signs, l.ps[i].low) {
		return i + 1
	}
	return i
}

// renamed reports whether the room before piece i gets another name.
func (l *line) renamed(i int) bool {
	if i >= len(l.ps) {
		return false
	}
	switch l.ps[i].low {
	case "is":
		return !l.stated(i + 1)
	case "called", "aka":
		return true
	}
	return false
}

func (l *line) inRoom(room string) {
	if l.Room != "" && l.Room != room {
		l.room2 = room
		return
	}
	l.Room = room
}

// clock reads "at 9:58", "at 3:15 pm", "at 3pm" and, in front of an entry, "at
// 8.15" at piece i and returns the pieces it took.
func (l *line) clock(i int, front bool) int {
	ps := l.ps
	if i+2 >= len(ps) || ps[i].low != "at" && ps[i].low != "sent" || ps[i+1].kind != '0' || len(ps[i+1].low) > 2 {
		return 0
	}
	h, err := strconv.Atoi(ps[i+1].low)
	if err != nil {
		return 0
	}
	n, m, sign := 2, 0, ps[i+2].low
	if i+3 < len(ps) && (sign == ":" || sign == ".") && ps[i+3].kind == '0' && ps[i+1].end == ps[i+2].start && ps[i+2].end == ps[i+3].start {
		if m, err = strconv.Atoi(ps[i+3].low); err != nil {
			return 0
		}
		n = 4
	}
	half, k := l.half(i + n)
	bad := h > 23 || m > 59 || n == 4 && len(ps[i+3].low) != 2
	switch {
	case k == 0 && n == 2:
		return 0
	case k == 0 && sign == "." && (!front || l.lengthAfter(l.skip(i+n, ",:"))):
		return 0
	case k == 0 && (i+4 < len(ps) && ps[i+4].low == "/" || i+5 < len(ps) && ps[i+5].low == "/"): // 9:08 1/2 is a length that a phone wrote
		return 0
	case bad:
		l.mistimed = i + 2
		return n + k
	case half == "pm" && h < 12:
		h += 12
	case half == "am":
		h %= 12
	}
	l.At, l.Exact = fmt.Sprintf("%02d:%02d", h, m), half == "am" && h < 12
	return n + k
}

// half reads am or pm at piece i.
func (l *line) half(i int) (string, int) {
	if i >= len(l.ps) {
		return "", 0
	}
	switch w := strings.ReplaceAll(l.ps[i].low, ".", ""); w {
	case "am", "pm":
		if w != l.ps[i].low && i+1 < len(l.ps) && l.ps[i+1].low == "." {
			return w, 2
		}
		return w, 1
	}
	return "", 0
}

// lengthAfter reports whether piece i makes a length of the number before it.
func (l *line) lengthAfter(i int) bool {
	if i == len(l.ps) || !l.ps[i].word() {
		return true
	}
	switch l.ps[i].low {
	case "off", "from", "of", "to", "x", "by", "strong", "shy", "north", "east", "south", "west", "up", "down":
		return true
	}
	_, n, _ := length.Scan("1 "+l.ps[i].low, length.Imperial, length.List)
	return n > 2
}

// frame takes "in kitchen", "before row 2" and "at 9:58" out of the pieces
// from i on, and a room right after what the line is about.
func (l *line) frame(i int) {
	about := i
	if l.cmd == nil {
		sym, n := l.phraseAt(i, words.phrases)
		if sym.typ != tThing && sym.typ != tSupport && sym.typ != tService {
			n = len(l.ps) // another room may not follow
		}
		about += n
	}
	for about < len(l.ps) && l.parts(about) {
		about++
	}
	if about < len(l.ps) && l.Room == "" && (l.cmd == nil || l.cmd.Kind != "room" && l.cmd.Kind != "help") {
		if sym, n := l.roomAt(about); n > 0 {
			l.inRoom(sym)
			l.blank(about, about+n)
		}
	}
	for k := i; k < len(l.ps); k++ {
		n := l.framed(k)
		if n == 0 {
			n = l.ofRoom(k)
		}
		if n > 0 {
			l.blank(k, k+n)
			k += n - 1
		}
	}
}

func (l *line) roomAt(i int) (string, int) {
	if i >= len(l.ps) || l.ps[i].gone {
		return "", 0
	}
	sym, n := l.declared(i)
	if sym.typ != tRoom {
		return "", 0
	}
	return sym.value, n
}

// framed returns how many pieces at k belong to the frame.
func (l *line) framed(k int) int {
	switch l.ps[k].low {
	case "in":
		at := k + 1
		if at < len(l.ps) && l.ps[at].low == "the" {
			at++
		}
		if room, n := l.roomAt(at); n > 0 {
			l.inRoom(room)
			return at - k + n
		}
	case "before", "b4", "after":
		row, n := l.rowAt(k + 1)
		if n == 0 {
			return 0
		}
		if l.ps[k].low == "after" {
			l.After = row
		} else {
			l.Before = row
		}
		return 1 + n
	case "at", "sent":
		return l.clock(k, false)
	}
	return 0
}

// rowAt reads "row 2", "row 2 went up" or "r2" at piece i.
func (l *line) rowAt(i int) (row, n int) {
	switch {
	case i < len(l.ps) && l.ps[i].word() && strings.HasPrefix(l.ps[i].low, "r") && shape(l.ps[i].low):
		row, _ = strconv.Atoi(l.ps[i].low[1:])
		n = 1
	case i+1 < len(l.ps) && l.ps[i].low == "row" && l.ps[i+1].kind == '0' && len(l.ps[i+1].low) <= 3:
		row, _ = strconv.Atoi(l.ps[i+1].low)
		n = 2
	}
	if row < 1 {
		return 0, 0
	}
	if l.says(i+n, []string{"went", "up"}) || l.says(i+n, []string{"was", "up"}) {
		n += 2
	}
	return row, n
}

// blank takes pieces out of the line; the comma left there ends a number.
func (l *line) blank(from, to int) {
	for k := from; k < to; k++ {
		l.ps[k].gone = true
	}
	a, b := l.ps[from].start, l.ps[to-1].end
	l.read = l.read[:a] + "," + strings.Repeat(" ", b-a-1) + l.read[b:]
}

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
