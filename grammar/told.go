package grammar

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"
)

// told refuses what is told of things and rows that were noted, in words that
// change no note; nil when the line tells nothing of the kind.
func (l *line) told() *Refusal {
	at := l.start
	if at < len(l.ps) && (l.opens("i", "we", "they", "just")) {
		at++
	}
	if l.cmd != nil || at >= len(l.ps) {
		return nil
	}
	if r := l.toldDone(); r != nil {
		return r
	}
	if m := saidMost.FindStringSubmatch(lower(l.text[l.ps[l.start].start:])); m != nil {
		return &Refusal{Col: l.ps[l.start].col, Word: l.text[l.ps[l.start].start:l.ps[l.start].end], Want: `"longest in" before it`,
			Hint: "longest in " + m[1] + "'", Once: true}
	}
	if r := l.remeasured(); r != nil {
		return r
	}
	p := l.ps[at]
	r := &Refusal{Col: p.col, Word: l.text[p.start:p.end]}
	switch p.low {
	case "move", "moved", "shift", "shifted":
		name := l.known()
		if name == "" || !l.has(tNumber, "") {
			return nil
		}
		r.Want, r.Hint = fmt.Sprintf(`"fix %s" and its new distances off the walls`, name), "find "+name
		r.Once = !l.measure() && !l.has(tWall, "") && !l.has(tSupport, "")
		return r
	case "took", "take", "taken", "pulled", "tore", "ripped":
		i := slices.IndexFunc(l.tokens, func(t lexer.Token) bool { return t.Value == "row" })
		said := " " + plain(l.read) + " "
		if i < 0 || !strings.Contains(said, " down ") && !strings.Contains(said, " off ") && !strings.Contains(said, " out ") {
			return nil
		}
		row, n := l.rowAt(slices.IndexFunc(l.ps, func(p piece) bool { return p.start == l.tokens[i].Pos.Offset }))
		if n == 0 {
			return nil
		}
		r.Want, r.Hint = `"undo" when that was your last note, else "strike" and the number of the note that hung it`, fmt.Sprintf("who hung row %d", row)
		return r
	}
	return nil
}

// remeasured refuses a room's name with two sides: it may be declared already,
// and "room" says so with the same words.
func (l *line) remeasured() *Refusal {
	i := slices.IndexFunc(l.tokens, func(t lexer.Token) bool { return t.Type == tNumber })
	room := l.Room
	if l.tokens[0].Type == tRoom {
		room = l.tokens[0].Value
	}
	if i < 0 || room == "" || l.nested {
		return nil
	}
	for _, t := range l.tokens[:i] { // "den is now"
		if t.Type != tRoom && !words.talk[t.Value] && t.Value != "is" {
			return nil
		}
	}
	hint := "room " + room + " " + strings.TrimRight(strings.TrimSuffix(l.text[l.tokens[i].Pos.Offset:], " now"), " .!")
	if got, err := parse(hint, l.Context, true); err != nil || got.Entry.Kind() != "room" {
		return nil
	}
	r := l.refuse(l.tokens[i].Pos, `"room" before its name, when it is measured again`)
	r.Hint = hint
	return r
}

// saidDone is what may mean that a row hangs, or that it is taped.
var saidDone = regexp.MustCompile(`^(?:(row )|r)([1-9]\d?) (done|finished|complete|in|on)$|^all (up)$`)

// saidMost may be the longest board that gets in, and any other height.
var saidMost = regexp.MustCompile(`^(\d{1,2}) ?(?:'|ft|feet|footers?|s) max[.!]?$`)

// toldDone refuses it with the line that would say so: a ceiling that is taken
// for boarded hides what is not cut.
func (l *line) toldDone() *Refusal {
	m := saidDone.FindStringSubmatch(plain(l.read[l.ps[l.start].start:]))
	if m == nil || l.question {
		return nil
	}
	for _, p := range l.ps[l.start:] {
		if p.low != m[3]+m[4] {
			continue
		}
		r := &Refusal{Col: p.col, Word: l.text[p.start:p.end], Want: `"up" when it hangs`, Hint: "hung row " + m[2], Once: m[1] == ""}
		if m[4] != "" {
			r.Hint = "ceiling up"
		}
		return r
	}
	return nil
}

// wonders refuses a question about something noted that is none of ours.
func (l *line) wonders() *Refusal {
	if !l.question && !l.opens("is", "are", "was", "does", "did", "has", "how", "what", "which", "when") {
		return nil
	}
	for _, t := range l.tokens {
		if t.Type == tName && len(t.Value) > 1 && l.Name != nil && l.Name(t.Value) {
			r := l.refuse(t.Pos, `"where is" before it`)
			r.Hint, r.Once = "find "+t.Value, !shape(t.Value)
			return r
		}
	}
	return nil
}

// known is the first thing that the line names: d1, "sink light", a light.
func (l *line) known() string {
	for i, t := range l.tokens {
		switch {
		case t.Type == tName && (shape(t.Value) || l.Name != nil && l.Name(t.Value)):
			return t.Value
		case t.Type == tThing:
			if i > 0 && l.Noun != nil && l.Noun(l.tokens[i-1].Value) {
				return l.tokens[i-1].Value + " " + t.Value
			}
			return t.Value
		}
	}
	return ""
}

// answers reports whether a line that follows a question of ours is made of
// what would fill its hole: "30 north", "off west", "26 off est".
func (l *line) answers() bool {
	if !l.Asked || len(l.tokens) > 6 || l.talkIn(plain(l.read)) != "" {
		return false
	}
	for i, t := range l.tokens[1:] {
		before := l.tokens[i]
		switch {
		case before.Type == tNumber && (t.Value == "off" || t.Type == tWall),
			before.Type == tWall && t.Type == tNumber,
			before.Value == "off" && (t.Type == tWall || t.Type == tPlace):
			return true
		}
	}
	return false
}
