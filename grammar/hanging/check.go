package hanging

import (
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/topic"
)

// Check: `check nails ok`, `check electrical inspection passed`, `check vapour barrier waived heated side is inside`,
// `check insulation failed`, `check add fire caulk`.
type Check struct {
	What   string // as typed, lower case
	State  string // ok (ok, done, passed, in), failed, waived, open, add
	Reason string
}

func (e Check) String() string {
	if e.State == "add" {
		return canon.Say("check add", e.What)
	}
	return canon.Say("check", e.What, e.State, e.Reason)
}
func (Check) Kind() grammar.Kind { return "check" }

// The line of a check is kept word for word: its name, its state, and the reason.
func (s *checkSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	l.Question = strings.HasSuffix(s.Text, "?")
	at := l.Tokens[1].Pos
	ps := lex.Pieces(s.Text)
	bound := func(i int) int { // byte offset of piece i
		if i < len(ps) {
			return ps[i].Start
		}
		return len(s.Text)
	}
	first := 0
	for first < len(ps) && ps[first].Low == "the" {
		first++
	}
	if room, n := checkRoom(l, ps, first); n > 0 && first+n < len(ps) {
		l.InRoom(room)
		first += n
	}
	e := Check{}
	if first < len(ps) && ps[first].Low == "add" {
		e.State = "add"
		e.What = strings.Join(strings.Fields(strings.Trim(lex.Lower(s.Text[bound(first+1):]), " \t,:.!?")), " ")
		return checked(l, e, at)
	}
	state, from, to := "", len(ps), len(ps)
	for i := first; i < len(ps) && state == ""; i++ {
		for _, c := range checkStates {
			if said := strings.Fields(c.said); len(said) <= len(ps)-i && slices.EqualFunc(ps[i:i+len(said)], said, func(p lex.Piece, w string) bool { return p.Low == w }) {
				state, from, to = c.state, i, i+len(said)
				break
			}
		}
	}
	if last := len(ps) - 1; state == "" && last > first && ps[last].Low == "in" { // "photos in"
		state, from, to = "ok", last, len(ps)
	}
	if state == "" {
		return nil, l.RefuseEnd(read.Words.Rows["check"].Fits)
	}
	e.State = state
	e.What = checkName(s.Text[bound(first):bound(from)])
	reason := to
	if reason < len(ps) && ps[reason].Low == "in" {
		reason++
	}
	if room, n := checkRoom(l, ps, reason); n > 0 && !slices.ContainsFunc(ps[reason+n:], func(p lex.Piece) bool { return p.Kind != '.' }) {
		l.InRoom(room)
		return checked(l, e, at)
	}
	if state == "ok" && slices.ContainsFunc(ps[to:], func(p lex.Piece) bool {
		return p.Low == "ok" || p.Low == "done" || p.Low == "passed" || p.Low == "failed"
	}) {
		return nil, l.Refuse(at, "one check a line")
	}
	e.Reason = strings.Join(strings.Fields(strings.Trim(s.Text[bound(to):], " \t,:;.!?-–—")), " ")
	return checked(l, e, at)
}

type checkSyntax struct {
	Text string `parser:"'check' @Text"`
}

// checkStates are the words for the result of a check, longest first.
var checkStates = []struct{ said, state string }{
	{"open", "open"}, {"signed off", "ok"}, {"all good", "ok"}, {"not ok", "failed"}, {"no good", "failed"}, {"not done", "failed"}, {"not passed", "failed"},
	{"not needed", "waived"}, {"n/a", "waived"}, {"ok", "ok"}, {"okay", "ok"}, {"done", "ok"}, {"passed", "ok"}, {"pass", "ok"}, {"passes", "ok"}, {"good", "ok"},
	{"cleared", "ok"}, {"complete", "ok"}, {"failed", "failed"}, {"fails", "failed"}, {"fail", "failed"}, {"missing", "failed"}, {"waived", "waived"}, {"waive", "waived"},
}

// longestCheck is the maximum length of a check's name, in words.
const longestCheck = 6

// checkRoom reads a room at piece i of the text of a check.
func checkRoom(l *read.Source, ps []lex.Piece, i int) (string, int) {
	if i >= len(ps) {
		return "", 0
	}
	for n := min(lex.MostWords, len(ps)-i); n > 0; n-- {
		var b strings.Builder
		for _, p := range ps[i : i+n] {
			b.WriteString(" " + p.Low)
		}
		if room, ok := l.Rooms[b.String()[1:]]; ok {
			return room, n
		}
	}
	return "", 0
}

// checkName returns a check's name as typed, in lower case, without words at its ends that change nothing.
func checkName(s string) string {
	said := strings.FieldsFunc(lex.Lower(s), func(r rune) bool { return strings.ContainsRune(" \t,:.!?", r) })
	for len(said) > 0 && slices.Contains([]string{"is", "are", "was", "were", "it's"}, said[len(said)-1]) {
		said = said[:len(said)-1]
	}
	for len(said) > 0 && said[0] == "the" {
		said = said[1:]
	}
	return strings.Join(said, " ")
}

// checked refuses a check whose name is ordinary talk.
func checked(l *read.Source, e Check, at lexer.Position) (grammar.Entry, error) {
	name := strings.TrimSuffix(e.What, " has to stay reachable")
	if e.What == "" || e.State == "add" && l.TalkIn(name) != "" && !strings.HasPrefix(name, "call ") && !slices.ContainsFunc(strings.Fields(name), func(w string) bool { return topic.Works(w) || topic.NamesRoom(w) }) || e.State != "add" && (l.TalkIn(name) != "" || len(strings.Fields(name)) > longestCheck || slices.ContainsFunc(strings.Fields(name), func(w string) bool { return notChecked[w] })) {
		return nil, l.Refuse(at, "what is checked: nails, insulation, electrical inspection")
	}
	return e, nil
}

// notChecked are words of talk that may also follow "check": "check with the lead if ok", "check out this
// one, done".
var notChecked = lex.Set("with", "out", "back", "in", "up", "please", "pls", "whether", "for", "on", "at", "to", "these", "those", "everything", "all", "again", "ok", "good", "done")
