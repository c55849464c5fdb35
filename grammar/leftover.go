package grammar

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar/lex"
)

// Every number that was said is read as a number or asked about, so what the rules took for a name or a
// label must not contain part of one: "light f ate ninety off west" may mean 98, "light foty six off west"
// 46.

// leftover asks about a word that may be part of a number but was not read as one.
func (l *line) leftover() error {
	spans := sync.OnceValue(func() []span { return l.spans() })
	for i, p := range l.Pieces[min(l.begin, len(l.Pieces)):] {
		i += l.begin
		if p.Gone || l.covered(p.Start) {
			continue
		}
		switch {
		case lex.Numeral(p.Low), lex.Heard(p.Low), p.Low == "inches", p.Low == "inch", p.Low == "feet":
		case p.Low == "foot" && !l.Says(i+1, []string{"of"}):
		case p.Low == "for" && !l.wordNext(i), p.Low == "oh":
		case (unsaid[p.Low] || nearNumber(p.Low)) && l.beside(i, spans()):
		case p.Kind == '0' && !l.figures(p.Start):
		default:
			continue
		}
		inside := slices.ContainsFunc(spans(), func(s span) bool { return s.from <= p.Start && p.Start < s.to })
		if inside || i+1 < len(l.Pieces) && halves[p.Low+" "+l.Pieces[i+1].Low] {
			continue
		}
		return &Ask{Col: p.Col, Word: l.Text[p.Start:p.End], Why: fmt.Sprintf("is %q a number? write it in figures", l.Text[p.Start:p.End])}
	}
	if !slices.ContainsFunc(l.Pieces, func(p lex.Piece) bool { return p.Low == "and" || p.Low == "&" }) {
		return nil
	}
	return l.lostWhole(spans())
}

// halves are terms of the house with a fraction in them.
var halves = lex.Set("half bath", "half bathroom", "half wall", "half door", "quarter round")

// wordNext reports whether an ordinary word follows piece i.
func (l *line) wordNext(i int) bool {
	for i++; i < len(l.Pieces); i++ {
		switch p := l.Pieces[i]; {
		case lex.Filler[p.Low]:
		case p.Gone:
			return true
		default:
			return p.Word() && p.Low != "for" && lex.Phrases.Whole(p.Low).Type != lex.Wall && !lex.Numeral(p.Low) && !lex.Heard(p.Low) && !l.NumberAt(i)
		}
	}
	return false
}

// span is the byte range of a number.
type span struct{ from, to int }

func (l *line) spans() (all []span) {
	end := 0
	for _, t := range l.Tokens {
		if t.Type == lex.Number && t.Pos.Offset >= end {
			_, k, _ := length.Scan(l.Read[t.Pos.Offset:], l.Units, length.List)
			end = t.Pos.Offset + k
			all = append(all, span{t.Pos.Offset, end})
		}
	}
	return all
}

// covered reports whether the byte is in a declared name, a word of that shape, or one of our phrases:
// "one end", "first one".
func (l *line) covered(at int) bool {
	t := l.tokenAt(at)
	return t != nil && (t.Type == lex.Name || t.Type == lex.Room || t.Type == lex.Wall || t.Type == lex.Text ||
		t.Type == lex.Word && (t.Value == "end" || t.Value == "first" || t.Value == "last"))
}

// tokenAt returns the token at or before the byte.
func (l *line) tokenAt(at int) *lexer.Token {
	var last *lexer.Token
	for i := range l.Tokens {
		if l.Tokens[i].Pos.Offset > at {
			break
		}
		last = &l.Tokens[i]
	}
	return last
}

// figures reports whether figures with which no length begins are still a number: the 2 of "2nd".
func (l *line) figures(at int) bool {
	t := l.tokenAt(at)
	return t != nil && t.Pos.Offset == at && t.Type == lex.Number
}

// beside reports whether a number is right before or after piece i.
func (l *line) beside(i int, spans []span) bool {
	k := i + 1
	for k < len(l.Pieces) && lex.Filler[l.Pieces[k].Low] {
		k++
	}
	return slices.ContainsFunc(spans, func(s span) bool {
		return k < len(l.Pieces) && s.from <= l.Pieces[k].Start && l.Pieces[i+1].Start <= s.from || s.to <= l.Pieces[i].Start && strings.TrimSpace(l.Read[s.to:l.Pieces[i].Start]) == ""
	})
}

// lostWhole asks about a fraction after "and" without a whole number: "light d1 and a half off west".
func (l *line) lostWhole(spans []span) error {
	for _, s := range spans {
		i := l.pieceAt(s.from)
		if i < 1 || l.Pieces[i-1].Low != "and" && l.Pieces[i-1].Low != "&" {
			continue
		}
		if t := l.tokenAt(l.Pieces[i-1].Start); t == nil || t.Type != lex.Word && t.Type != lex.Name && t.Type != lex.Room && t.Type != lex.Thing && t.Type != lex.Service {
			continue
		}
		r, k, _ := length.Scan(l.Read[s.from:], l.Units, length.List)
		if len(r) == 1 && r[0].L < length.Inch && s.from+k == s.to {
			said := strings.TrimSpace(l.Text[s.from:s.to])
			return &Ask{Col: l.Pieces[i].Col, Word: said, Why: fmt.Sprintf("and %s: of which number? write it in figures", said)}
		}
	}
	return nil
}

// unsaid are words that change the number beside them.
var unsaid = lex.Set("point", "dot", "oh", "o", "plus", "minus", "ish")

// counting are words that change the number after them.
var counting = lex.Set("dozen", "couple", "double", "twice", "times", "pair")

// ganged refuses the 3 of "box 3 gang" as a size.
func (l *line) ganged(n *number, s *saying) error {
	word, _, _ := strings.Cut(s.Text, " ")
	if word == "gang" && n.bare() {
		return l.refuse(n.Pos, fmt.Sprintf("a size with its unit; %q takes no figures here", word))
	}
	return nil
}

// placing are words that a label of several words may begin with but not end in. A number after them is
// not part of the label.
var placing = lex.Set("over", "at", "by", "near", "above", "under", "beside", "below", "behind", "next", "for", "less", "than", "just")

// labelled refuses words that are not a label. Between a thing and its distances may be one word, words
// after "over" and the like, known words, or words set off by a comma.
func (l *line) labelled(s *saying) error {
	said := strings.Fields(s.Text)
	for i, w := range said {
		if i+1 < len(said) && halves[w+" "+said[i+1]] {
			return nil
		}
		if lex.Numeral(w) || lex.Heard(w) || nearNumber(w) {
			return nil // already asked about
		}
		if counting[w] {
			return l.refuseAt(s.Pos.Offset+strings.Index(lex.Lower(s.Raw), w), "a number in figures")
		}
	}
	if err := l.unfinished(s.Text, s.Pos.Offset); err != nil {
		return err
	}
	if len(said) == 1 || placing[said[0]] {
		return nil
	}
	if err := l.roomInLabel(strings.Join(said, " ")); err != nil {
		return err
	}
	if raw := []rune(s.Raw); strings.ContainsRune(",:)-–—\"”’'", raw[len(raw)-1]) {
		return nil
	}
	others := 0
	for _, w := range said {
		if sym := lex.Phrases.Whole(w); sym.Type != lex.Thing && sym.Type != lex.Service && sym.Type != lex.Place && sym.Type != lex.Tag && l.Rooms[w] == "" && !(l.Noun != nil && l.Noun(w)) {
			others++
		}
	}
	if others < 2 {
		return nil
	}
	r := &Refusal{Col: s.Pos.Column, Word: s.Text, Want: `one word for it, "over", "by" or "near" before more, or a comma behind them`}
	r.Hint = l.attempt(l.with(cut{s.Pos.Offset, s.Pos.Offset + len(s.Raw), s.Raw + ","}))
	return r
}

// unfinished refuses a label that says over and not over what: "light over d1 26 off west".
func (l *line) unfinished(label string, at int) error {
	if last := label[strings.LastIndexByte(label, ' ')+1:]; placing[last] {
		return l.refuseAt(at, fmt.Sprintf("what it is %s, then the distances", last))
	}
	return nil
}

// nearNumber reports whether an unknown word may be a misspelt number.
func nearNumber(w string) bool {
	_, known := slices.BinarySearch(words.vocab, w)
	said := []rune(w)
	return !known && len(w) >= 4 && len(w) <= longestWord && slices.ContainsFunc(longNumerals, func(n []rune) bool { return slips(said, n, 1) <= 1 })
}

// longNumerals are number words that a single slip does not turn into another word.
var longNumerals = func() (all [][]rune) {
	for _, n := range lex.Numerals() {
		if len(n) >= 5 {
			all = append(all, []rune(n))
		}
	}
	return all
}()

// firstOne asks whether the one of "first one" is part of the number after it.
func (l *line) firstOne(n *number) {
	l.alone(n, "first", "one")
	if i := l.pieceAt(n.Pos.Offset); i > 1 && l.Pieces[i-1].Low == "one" && l.Pieces[i-2].Low == "first" {
		n.Pos.Offset, n.Pos.Column = l.Pieces[i-1].Start, l.Pieces[i-1].Col
		n.Why = `"first one", or a part of the number?`
	}
}

// alone asks whether a number that begins with a word like "one" belongs to what precedes it: "first one
// twelve and a half", "light two forty one".
func (l *line) alone(n *number, before string, ones ...string) {
	first, _, _ := strings.Cut(n.raw(), " ")
	if len(n.Readings) != 1 || n.Why != "" || !slices.Contains(ones, strings.ToLower(first)) {
		return
	}
	at := n.Pos.Offset + len(first)
	at += len(l.Read[at:]) - len(strings.TrimLeft(l.Read[at:], " "))
	r, k, _ := length.Scan(l.Read[at:], l.Units, length.List)
	if len(r) == 1 && at+k == n.End {
		n.Readings[0].Guess, r[0].Guess = true, true
		n.Readings = append(n.Readings, r[0])
		n.Why = fmt.Sprintf("one number, or %q and a number?", before+" "+first)
	}
}
