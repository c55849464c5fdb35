package grammar

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"
)

// checkStates are the words for what became of a check; the longest first.
var checkStates = []struct{ said, state string }{
	{"signed off", "ok"}, {"all good", "ok"}, {"not ok", "failed"}, {"no good", "failed"}, {"not done", "failed"}, {"not passed", "failed"},
	{"not needed", "waived"}, {"n/a", "waived"}, {"ok", "ok"}, {"okay", "ok"}, {"done", "ok"}, {"passed", "ok"}, {"pass", "ok"}, {"passes", "ok"}, {"good", "ok"},
	{"cleared", "ok"}, {"complete", "ok"}, {"failed", "failed"}, {"fails", "failed"}, {"fail", "failed"}, {"missing", "failed"}, {"waived", "waived"}, {"waive", "waived"},
}

// longestCheck bounds the name of a check, in words.
const longestCheck = 6

// A check's line is kept word for word: its name, its state, and the reason.
func (s *checkSyntax) entry(l *line) (Entry, error) {
	l.question = strings.HasSuffix(s.Text, "?")
	at := l.tokens[1].Pos
	ps := pieces(s.Text)
	bound := func(i int) int { // where piece i stands in the text
		if i < len(ps) {
			return ps[i].start
		}
		return len(s.Text)
	}
	first := 0
	if room, n := l.checkRoom(ps, 0); n > 0 && n < len(ps) {
		l.inRoom(room)
		first = n
	}
	e := Check{}
	if first < len(ps) && ps[first].low == "add" {
		e.State = "add"
		e.What = checkName(s.Text[bound(first+1):])
		return l.checked(e, at)
	}
	state, from, to := "", len(ps), len(ps)
	for i := first; i < len(ps) && state == ""; i++ {
		for _, c := range checkStates {
			if said := strings.Fields(c.said); len(said) <= len(ps)-i && slices.EqualFunc(ps[i:i+len(said)], said, func(p piece, w string) bool { return p.low == w }) {
				state, from, to = c.state, i, i+len(said)
				break
			}
		}
	}
	if last := len(ps) - 1; state == "" && last > first && ps[last].low == "in" { // "photos in"
		state, from, to = "ok", last, len(ps)
	}
	if state == "" {
		return nil, l.refuseEnd(words.rows["check"].Fits)
	}
	e.State = state
	e.What = checkName(s.Text[bound(first):bound(from)])
	reason := to
	if reason < len(ps) && ps[reason].low == "in" {
		reason++
	}
	if room, n := l.checkRoom(ps, reason); n > 0 && onlySigns(ps[reason+n:]) {
		l.inRoom(room)
		return l.checked(e, at)
	}
	if state == "ok" && slices.ContainsFunc(ps[to:], func(p piece) bool { return p.low == "ok" || p.low == "done" || p.low == "passed" || p.low == "failed" }) {
		return nil, l.refuse(at, "one check a line")
	}
	e.Reason = strings.Join(strings.Fields(strings.Trim(s.Text[bound(to):], " \t,:;.!?-–—")), " ")
	return l.checked(e, at)
}

func onlySigns(ps []piece) bool {
	return !slices.ContainsFunc(ps, func(p piece) bool { return p.kind != '.' })
}

// checkRoom reads a room at piece i of a check's text.
func (l *line) checkRoom(ps []piece, i int) (string, int) {
	if i >= len(ps) {
		return "", 0
	}
	said := line{Context: l.Context, ps: ps, read: l.read}
	for n := min(mostWords, len(ps)-i); n > 0; n-- {
		var b strings.Builder
		for _, p := range ps[i : i+n] {
			b.WriteString(" " + p.low)
		}
		if room, ok := said.Rooms[b.String()[1:]]; ok {
			return room, n
		}
	}
	return "", 0
}

// checkName is a check's name as typed, in lower case, without the words that
// change nothing at its ends.
func checkName(s string) string {
	said := strings.FieldsFunc(lower(s), func(r rune) bool { return strings.ContainsRune(" \t,:.!?", r) })
	for len(said) > 0 && slices.Contains([]string{"is", "are", "was", "were", "it's"}, said[len(said)-1]) {
		said = said[:len(said)-1]
	}
	for len(said) > 0 && said[0] == "the" {
		said = said[1:]
	}
	return strings.Join(said, " ")
}

// checked refuses a check whose name is ordinary talk.
func (l *line) checked(e Check, at lexer.Position) (Entry, error) {
	name := strings.TrimSuffix(e.What, " has to stay reachable")
	if e.What == "" || len(strings.Fields(e.What)) > longestCheck || l.talkIn(name) != "" || slices.ContainsFunc(strings.Fields(name), func(w string) bool { return notChecked[w] }) {
		return nil, l.refuse(at, "what is checked: nails, insulation, electrical inspection")
	}
	return e, nil
}

// notChecked are words of talk that begin with "check" too: "check with the
// lead if ok", "check out this one, done".
var notChecked = set([]string{"with", "out", "back", "in", "up", "please", "pls", "whether", "for", "on", "at", "to", "these", "those", "everything", "all", "again", "ok", "good", "done"})

var (
	airTemp = regexp.MustCompile(`^(-?\d{1,3}(?:\.\d{1,2})?)\s*(?:°|º|deg(?:rees)?)?\s*(f|c|fahrenheit|celsius)(?:\b|$)`)
	airRH   = regexp.MustCompile(`^(\d{1,3}(?:\.\d{1,2})?)\s*(?:(?:%|percent|per cent)\s*(?:rh|humidity)?|rh|humidity)(?:\W|$)`)
	airRH2  = regexp.MustCompile(`^(?:rh|humidity)\s*(?:is|of|at)?\s*(\d{1,3}(?:\.\d{1,2})?)\s*(?:%|percent)?(?:\W|$)`)
	airDamp = regexp.MustCompile(`^(?:damp|humid|muggy|wet)\b`)
	airNone = regexp.MustCompile(`^(?:[\s,;:]+|(?:and|at|with|is|it|its|it's|on|went|done)\b|-\s)`)
)

const mostCoats = 9

// entry reads the air as it is said: temperature and humidity, in any order.
func (s *coatSyntax) entry(l *line) (Entry, error) {
	e := Coat{N: s.N.N, RH: -1}
	if e.N < 1 || e.N > mostCoats {
		return nil, l.refuse(s.N.Pos, "the number of the coat: coat 2")
	}
	if s.Air == nil {
		return e, nil
	}
	from := s.Air.Pos.Offset
	rest := strings.ToLower(l.read[from:])
	if len(rest) != len(l.read[from:]) { // letters that lose bytes in lower case are none of ours
		return nil, l.refuse(s.Air.Pos, words.rows["coat"].Fits)
	}
	for at := 0; at < len(rest); {
		pos := s.Air.Pos
		pos.Offset += at
		m, value := []string(nil), 0.0
		switch left := rest[at:]; {
		case airNone.MatchString(left):
			m = airNone.FindStringSubmatch(left)
		case airTemp.MatchString(left) && e.Unit == "":
			m = airTemp.FindStringSubmatch(left)
			e.Temp, _ = strconv.ParseFloat(m[1], 64)
			e.Unit = m[2][:1]
		case (airRH.MatchString(left) || airRH2.MatchString(left)) && e.RH < 0:
			if m = airRH.FindStringSubmatch(left); m == nil {
				m = airRH2.FindStringSubmatch(left)
			}
			if value, _ = strconv.ParseFloat(m[1], 64); value > 100 {
				return nil, l.refuseAt(pos.Offset, "a humidity up to 100%")
			}
			e.RH = value
		case airDamp.MatchString(left) && !e.Damp:
			m, e.Damp = airDamp.FindStringSubmatch(left), true
		case left == "%" || strings.Trim(left, " .!") == "":
			m = []string{left}
		default:
			return nil, l.refuseAt(pos.Offset, words.rows["coat"].Fits)
		}
		at += len(m[0])
	}
	return e, nil
}

// refuseAt refuses what stands at a byte of the line.
func (l *line) refuseAt(offset int, want string) error {
	for _, p := range l.ps {
		if p.start >= offset && !p.gone {
			return &Refusal{Col: p.col, Word: l.text[p.start:p.end], Want: want}
		}
	}
	return l.refuseEnd(want)
}
