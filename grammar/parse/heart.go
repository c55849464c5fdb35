package parse

import (
	"errors"
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/speech"
	"strapline/grammar/topic"
	"strapline/grammar/unread"
)

// heart proposes what the middle of a line says, if the words before and behind it say nothing of a place: "just put
// in a smoke alarm 32 off the east wall and 25 off north before the board goes up". It returns why if no part of the
// line is read by itself, or if what is left out may change its meaning.
func (l *unreadLine) heart(why error, c *grammar.Context) error {
	kept, keeps := errors.AsType[*unread.Keeps](why)
	refusal, refused := errors.AsType[*grammar.Refusal](why)
	if l.Whole || l.Lost || l.Begin >= len(l.Pieces) || len(l.Pieces) > 60 || l.Unknown != "" || l.Room2 != "" || l.Question && !l.agrees() ||
		keeps && (kept.Sure || kept.Entry.Kind() != "note" && !l.Question) || refused && refusal.Near != "" || !keeps && !refused && why != grammar.ErrChatter {
		return why
	}
	if read.AskingWords[l.Pieces[l.Begin].Low] || l.Opens("may", "have") { // with or without its mark
		return why
	}
	within := *c
	within.Strict, within.Whole, within.Asked = true, true, false
	tries := 0
	for _, from := range l.leads() {
		if !l.spare(from) {
			continue
		}
		for _, to := range l.tails(from) {
			if from == l.Begin && to == len(l.Pieces) {
				continue
			}
			if tries == mostHearts || !slices.ContainsFunc(l.Pieces[from:to], func(p lex.Piece) bool { return p.Kind == '0' || lex.Numeral(p.Low) || lex.Middles(p.Low) }) {
				break // without a measure it may mean anything
			}
			rest, plain := l.behind(to)
			if !rest || refused && l.about(refusal, from, to) {
				continue
			}
			tries++
			if ask := l.proposed(l.Text[l.Pieces[from].Start:l.Pieces[to-1].End], &within, plain); ask != nil {
				ask.Part, l.Line.Loose = true, true
				return ask
			}
		}
	}
	return why
}

// about reports whether a refusal is about the heart between two pieces.
func (l *unreadLine) about(r *grammar.Refusal, from, to int) bool {
	return !unread.General(r) && r.Col >= l.Pieces[from].Col && (to >= len(l.Pieces) || r.Col < l.Pieces[to].Col)
}

// mostHearts limits the work for one line.
const mostHearts = 8

// proposed asks whether a part of the line was meant; nil if no rule reads it. The rest of the line is kept as a note
// beside it unless it is plain.
func (l *unreadLine) proposed(text string, c *grammar.Context, plain bool) *grammar.Ask {
	got, err := read.Anew(text, c)
	if ask, asks := errors.AsType[*grammar.Ask](err); asks {
		var all []grammar.Line
		for _, c := range ask.Choices {
			all = append(all, c.Lines...)
		}
		named := len(ask.Choices) > 0 && strings.Contains(ask.Choices[0].Text, " wall\n") // which wall is that?
		for i, c := range ask.Choices {
			if n := len(c.Lines); !plain && (n == 0 || c.Lines[n-1].Entry.Kind() != "note") {
				ask.Choices[i] = grammar.Choice{Label: c.Label + map[bool]string{false: ", and the rest as a note"}[named], Text: c.String() + "\n" + asNote(l.Source).String()}
			}
		}
		if named || ask.Base != "" && plain {
			return ask
		}
		if len(all) == 0 || slices.ContainsFunc(all, func(l grammar.Line) bool { return !telling(l) && l.Entry.Kind() != "note" }) || l.leaveOut([]speech.Guess{{Text: ask.Error(), Note: !plain}}) {
			return nil
		}
		ask.Choices = slices.DeleteFunc(ask.Choices, grammar.Choice.KeepsNote)
		return orNote(l.Source, ask)
	}
	if err != nil || !telling(got) {
		return nil
	}
	if got.Room == "" {
		got.Room = l.Room
	}
	guess := speech.Guess{Text: text, Label: label(got.Entry.String()), Note: !plain}
	_, err, _ = l.asked([]speech.Guess{guess}, func(string) (grammar.Line, error) { return got, nil })
	ask, _ := errors.AsType[*grammar.Ask](err)
	return ask
}

// telling reports whether a line tells of a place, a room or framing that is new. What was said before is not put
// right by a part of a line.
func telling(l grammar.Line) bool {
	return l.Entry != nil && tellings[l.Entry.Kind()] && !strings.HasSuffix(l.Entry.String(), " off")
}

var tellings = map[grammar.Kind]bool{"thing": true, "run": true, "room": true, "supports": true, "door": true, "slope": true, "bulkhead": true, "even": true, "floor": true}

// leads are the pieces with which the heart of a line may begin: the first, and the first that names something.
func (l *unreadLine) leads() []int {
	all := []int{l.Begin}
	for i := l.Begin; i < len(l.Pieces); i++ {
		t, n := l.TokenAt(i)
		if n > 0 && (t.Type == lex.Thing || t.Type == lex.Service || t.Type == lex.Support || t.Type == lex.Room) || topic.RoomNoun[l.Pieces[i].Low] {
			for i > l.Begin && leading[l.Pieces[i-1].Low] {
				i--
			}
			if i > l.Begin && l.Pieces[i-1].Low != "room" {
				all = append(all, i)
			}
			break
		}
	}
	return all
}

// leading are words that belong to the name behind them.
var leading = lex.Set("ceiling", "wall", "pot", "can", "recessed", "air", "master", "back", "front", "main", "upper", "lower", "dining", "living", "bath", "exhaust", "tv", "junction", "double")

// tails are the pieces before which the heart of a line may end, the longest first.
func (l *unreadLine) tails(from int) []int {
	all := []int{len(l.Pieces)}
	for i := len(l.Pieces) - 1; i > from+2; i-- {
		p := l.Pieces[i]
		if p.Kind == '.' && strings.Contains(",;:.-–(", p.Low) || opensTail[p.Low] || l.Question && agreeing[p.Low] || l.Pieces[i-1].Kind != '0' && lex.Phrases.Whole(l.Pieces[i-1].Low).Type == lex.Wall || l.Pieces[i-1].Low == "wall" || l.Pieces[i-1].Low == "side" {
			all = append(all, i)
		}
	}
	return all
}

// opensTail are words with which a remark begins.
var opensTail = lex.Set(strings.Fields("so before for but because cause cuz until till when while since thats that's that its it's and just with where who which dont don't do please pls")...)

// spare reports whether the words before the heart change nothing of it.
func (l *unreadLine) spare(from int) bool {
	for i := l.Begin; i < from; i++ {
		if t, n := l.TokenAt(i); n > 0 && (t.Type == lex.Number || t.Type == lex.Wall) || l.Pieces[i].Kind == '0' || turns[l.Pieces[i].Low] || acts[l.Pieces[i].Low] {
			return false
		}
	}
	return true
}

// behind reports whether the words behind the heart change nothing of it, and whether they are plain: no number is
// among them, so that nothing is lost if they stay with the entry only.
func (l *unreadLine) behind(to int) (ok, plain bool) {
	words := 0
	for _, p := range l.Pieces[to:] {
		if p.Word() {
			words++
		}
	}
	if words == 1 && l.Question && l.agrees() {
		return true, true
	}
	if words == 1 || words == 0 && to < len(l.Pieces) { // more likely mistyped than a remark
		return false, false
	}
	plain = true
	placed, beside := false, false
	for i := to; i < len(l.Pieces); i++ {
		t, n := l.TokenAt(i)
		beside = beside || attaches[l.Pieces[i].Low]
		if i == to && opensTail[l.Pieces[i].Low] {
			continue
		}
		if n > 0 && t.Type == lex.Thing && !beside { // it has a place of its own
			return false, false
		}
		if turns[l.Pieces[i].Low] || n > 0 && (t.Type == lex.Wall || t.Type == lex.Direction || t.Type == lex.Support || t.Type == lex.Name) {
			return false, false
		}
		if l.Pieces[i].Kind == '0' || n > 0 && t.Type == lex.Number {
			plain = false
		}
		if w := l.Pieces[i].Low; placing[w] || w == "in" && i+1 < len(l.Pieces) && l.Pieces[i+1].Low == "from" {
			placed = true
		}
	}
	return plain || !placed && (l.Pieces[to].Kind == '.' || attaches[l.Pieces[to].Low]), plain
}

// attaches are words before what belongs to the thing in the heart: "fan in the middle with a 6 inch box".
var attaches = lex.Set("for", "with")

// acts are words that say that something is done to what is noted.
var acts = lex.Set("cut", "open", "opened", "cover", "covered", "find", "found", "hung", "hang", "boarded", "screw", "screwed", "hit", "check", "missed")

// turns are words that may change what stands beside them: another count, a doubt, a correction.
var turns = lex.Set(strings.Fields(`not no isnt isn't wasnt wasn't never nothing without except unless instead or either if maybe wrong sorry oops fix moved move moving was were
	should shouldnt change changed correction scratch delete strike undo both each every all same other another again twice half edge edges
	first last next row rows apart spaced centers centres oc plus minus less more than gone removed old dead cancel cancelled swap of`)...)

// placing are words that may make a place of a number.
var placing = lex.Set("off", "from", "left", "right", "up", "down", "above", "below", "high", "to", "by", "x", "times", "at")

// agreeing are words that only want a yes.
var agreeing = lex.Set("ok", "okay", "right", "yeah", "good", "yes")

// agrees reports whether the question at the end of a line only wants a yes: "... ok?"
func (l *unreadLine) agrees() bool {
	n := len(l.Pieces)
	for n > 0 && l.Pieces[n-1].Kind == '.' {
		n--
	}
	return n > 0 && agreeing[l.Pieces[n-1].Low] && !read.AsksAtStart(l.Text)
}
