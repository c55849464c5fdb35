package read

import (
	"fmt"
	"strconv"
	"strings"

	"strapline/calc/length"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/topic"
)

// name is the name we go by: a line that begins with it is for us.
const name = "strapline"

// head reads what precedes an entry ("strapline, kitchen: at 9:58 ...") and the words it begins with. It
// returns the first piece after them.
func (l *Source) head() int {
	bullet := l.skip(0, "-–•")
	if bullet < len(l.Pieces) && l.Pieces[bullet].Start == l.Pieces[0].End {
		bullet = 0 // "-26" is no list
	}
	i := l.skip(bullet, "@")
	if i < len(l.Pieces) && l.Pieces[i].Low == name {
		l.Addressed = true
		i = l.skip(i+1, ",:-")
	} else {
		i = bullet
	}
	for i < len(l.Pieces) {
		l.Begin = i
		if sym, n := l.Declared(i); sym.Type == lex.Room && !l.renamed(i+n) {
			l.InRoom(sym.Value)
			l.RoomFirst = true
			if i = l.skip(i+n, ",:-"); i < len(l.Pieces) && (l.Pieces[i].Low == "and" || l.Pieces[i].Low == "&" || l.Pieces[i].Low == "n") {
				if sym, _ := l.Declared(i + 1); sym.Type == lex.Room { // "den and bath joists 16 oc"
					i++
				}
			}
			continue
		}
		if n := l.isRoom(i); n > 0 {
			i += n
			continue
		}
		if l.Pieces[i].Low == "in" {
			if room, n := l.RoomAt(i + 1); n > 0 && l.skip(i+1+n, ",:") > i+1+n {
				l.InRoom(room)
				l.RoomFirst = true
				i = l.skip(i+1+n, ",:")
				continue
			}
		}
		if next := l.skip(i+1, ",:"); asides[l.Pieces[i].Low] && next < len(l.Pieces) && (next > i+1 || l.Pieces[next].Kind == '0') {
			i = next
			continue
		}
		if n := l.clock(i, true); n > 0 {
			i = l.skip(i+n, ",:-")
			continue
		}
		if kind, n := l.headAt(i); n > 0 && (Words.Rows[kind].Begins == nil || Words.Rows[kind].Begins(l, i+n)) {
			l.Cmd = Words.Rows[kind]
			l.Emit(lex.Cmd, string(kind), i)
			l.Ended = l.Pieces[i+n-1].End
			return l.skip(i+n, ":")
		}
		if n := l.colon(i); n > 0 && l.Unknown == "" {
			said := lex.Plain(l.Text[l.Pieces[i].Start:l.Pieces[i+n-1].Start])
			if room := l.Rooms[said]; room != "" { // "the den: ..."
				l.InRoom(room)
			} else {
				l.Unknown = said
			}
			l.blank(i, i+n)
			i += n
			continue
		}
		break
	}
	return i
}

// asides are words that may precede a correction or an entry: "sorry 84 not 48", "ok, row 2 up".
var asides = lex.Set("sorry", "no", "nope", "oops", "wait", "whoops", "ok", "okay", "hey", "next")

// colon returns how many pieces at i are one to three words and a colon.
func (l *Source) colon(i int) int {
	for n := 0; n <= 3 && i+n < len(l.Pieces); n++ {
		switch p := l.Pieces[i+n]; {
		case n == 1 && p.Low == ":" && lex.IsPiece(l.Pieces[i].Low) && l.NumberAt(i+2): // "r3: 96 + 47"
			return 0
		case n > 0 && p.Low == ":":
			return n + 1
		case !p.Word(), topic.Headline[p.Low], lex.ThingOf[p.Low] != "", n == 0 && p.Low != "the" && lex.Phrases[p.Low] != nil, lex.IsPiece(l.Pieces[i].Low) && n == 1 && p.Low == "up": // "r3 up: 96 + 47"
			return 0
		}
	}
	return 0
}

// skip passes any one of the signs at piece i.
func (l *Source) skip(i int, signs string) int {
	if i < len(l.Pieces) && l.Pieces[i].Kind == '.' && strings.Contains(signs, l.Pieces[i].Low) {
		return i + 1
	}
	return i
}

// renamed reports whether the room before piece i is given another name.
func (l *Source) renamed(i int) bool {
	if i >= len(l.Pieces) {
		return false
	}
	switch l.Pieces[i].Low {
	case "is":
		return !l.stated(i + 1)
	case "called", "aka":
		return true
	}
	return false
}

func (l *Source) InRoom(room string) {
	if l.Room != "" && l.Room != room {
		l.Room2 = room
		return
	}
	l.Room = room
}

// clock reads "at 9:58", "at 3:15 pm", "at 3pm" and, before an entry, "at 8.15" at piece i, and returns
// the number of pieces.
func (l *Source) clock(i int, front bool) int {
	ps := l.Pieces
	if i+2 >= len(ps) || ps[i].Low != "at" && ps[i].Low != "sent" || ps[i+1].Kind != '0' || len(ps[i+1].Low) > 2 {
		return 0
	}
	h, err := strconv.Atoi(ps[i+1].Low)
	if err != nil {
		return 0
	}
	n, m, sign := 2, 0, ps[i+2].Low
	if i+3 < len(ps) && (sign == ":" || sign == ".") && ps[i+3].Kind == '0' && ps[i+1].End == ps[i+2].Start && ps[i+2].End == ps[i+3].Start {
		if m, err = strconv.Atoi(ps[i+3].Low); err != nil {
			return 0
		}
		n = 4
	}
	half, k := l.half(i + n)
	bad := h > 23 || m > 59 || n == 4 && len(ps[i+3].Low) != 2
	switch {
	case k == 0 && n == 2:
		return 0
	case k == 0 && sign == "." && (!front || l.lengthAfter(l.skip(i+n, ",:"))):
		return 0
	case k == 0 && (i+4 < len(ps) && ps[i+4].Low == "/" || i+5 < len(ps) && ps[i+5].Low == "/"): // 9:08 1/2 is a length that a phone rewrote
		return 0
	case bad:
		l.Mistimed = i + 2
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
func (l *Source) half(i int) (string, int) {
	if i >= len(l.Pieces) {
		return "", 0
	}
	switch w := strings.ReplaceAll(l.Pieces[i].Low, ".", ""); w {
	case "am", "pm":
		return w, 1
	}
	return "", 0
}

// lengthAfter reports whether piece i turns the number before it into a length.
func (l *Source) lengthAfter(i int) bool {
	if i == len(l.Pieces) || !l.Pieces[i].Word() {
		return true
	}
	switch l.Pieces[i].Low {
	case "off", "from", "of", "to", "x", "by", "strong", "shy", "north", "east", "south", "west", "up", "down":
		return true
	}
	_, n, _ := measure.Scan("1 "+l.Pieces[i].Low, length.Imperial, measure.List)
	return n > 2
}

// frame takes "in kitchen", "before row 2" and "at 9:58" out of the pieces from i on, and a room right
// after what the line is about.
func (l *Source) frame(i int) {
	about := i
	if l.Cmd == nil {
		sym, n := l.PhraseAt(i, lex.Phrases)
		if sym.Type != lex.Thing && sym.Type != lex.Support && sym.Type != lex.Service {
			n = len(l.Pieces) // another room may not follow
		}
		about += n
	}
	for about < len(l.Pieces) && l.Parts(about) {
		about++
	}
	if about < len(l.Pieces) && l.Room == "" && (l.Cmd == nil || l.Cmd.Kind != "room" && l.Cmd.Kind != "help") {
		if sym, n := l.RoomAt(about); n > 0 {
			l.InRoom(sym)
			l.blank(about, about+n)
		}
	}
	for k := i; k < len(l.Pieces); k++ {
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

// RoomAt returns the declared room at piece i, and of how many pieces its name is.
func (l *Source) RoomAt(i int) (string, int) {
	if i < len(l.Pieces) && !l.Pieces[i].Gone {
		if sym, n := l.Declared(i); sym.Type == lex.Room {
			return sym.Value, n
		}
	}
	return "", 0
}

// framed returns how many pieces at k belong to the frame.
func (l *Source) framed(k int) int {
	switch l.Pieces[k].Low {
	case "in":
		at := k + 1
		if at < len(l.Pieces) && l.Pieces[at].Low == "the" {
			at++
		}
		if room, n := l.RoomAt(at); n > 0 {
			l.InRoom(room)
			return at - k + n
		}
	case "of": // "centre of the kitchen"
		at := k + 1
		if at < len(l.Pieces) && l.Pieces[at].Low == "the" {
			at++
		}
		if room, n := l.RoomAt(at); n > 0 && k > 0 && lex.Middles(l.Pieces[k-1].Low) {
			l.InRoom(room)
			return at - k + n
		}
	case "before", "b4", "after":
		row, n := l.RowAt(k + 1)
		if n == 0 {
			return 0
		}
		if l.Pieces[k].Low == "after" {
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

// RowAt reads "row 2", "row 2 went up" or "r2" at piece i.
func (l *Source) RowAt(i int) (row, n int) {
	switch {
	case i+1 < len(l.Pieces) && l.Pieces[i].Low == "row" && l.Pieces[i+1].Kind == '0' && len(l.Pieces[i+1].Low) <= 3:
		row, _ = strconv.Atoi(l.Pieces[i+1].Low)
		n = 2
	}
	if row < 1 {
		return 0, 0
	}
	if l.Says(i+n, []string{"went", "up"}) || l.Says(i+n, []string{"was", "up"}) {
		n += 2
	}
	return row, n
}

// blank removes pieces from the line, and leaves a comma to end a number.
func (l *Source) blank(from, to int) {
	for k := from; k < to; k++ {
		l.Pieces[k].Gone = true
	}
	a, b := l.Pieces[from].Start, l.Pieces[to-1].End
	l.Read = l.Read[:a] + "," + strings.Repeat(" ", b-a-1) + l.Read[b:]
}

// ofRoom returns how many pieces at k name the room that the line is about.
func (l *Source) ofRoom(k int) int {
	if l.Cmd == nil || !l.Cmd.OfRoom || l.Pieces[k].Gone {
		return 0
	}
	at := k
	for _, here := range []string{"for this room", "in this room", "of this room", "this room", "in here"} {
		if words := strings.Fields(here); l.Says(k, words) {
			return len(words)
		}
	}
	if l.Pieces[at].Low == "for" || l.Pieces[at].Low == "of" {
		at++
	}
	if at < len(l.Pieces) && l.Pieces[at].Low == "the" {
		at++
	}
	room, n := l.RoomAt(at)
	if n == 0 {
		return 0
	}
	l.InRoom(room)
	return at - k + n
}

// isRoom returns how many pieces at i are "is" beside a room in a statement about it: "is kitchen ready",
// "kitchen is painted".
func (l *Source) isRoom(i int) int {
	if l.Pieces[i].Low != "is" && l.Pieces[i].Low != "are" {
		return 0
	}
	at := i + 1
	if l.RoomFirst && l.stated(at) {
		return 1
	}
	if _, n := l.RoomAt(at); n == 0 || !l.stated(at+n) {
		return 0
	}
	l.Question = true
	return at - i
}

// stated reports whether a state of a room is at piece i: "ready", "painted".
func (l *Source) stated(i int) bool {
	kind, n := l.headAt(i)
	return n > 0 && (kind == "ready" || kind == "painted")
}
