package numbers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"sync"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/read"
)

// Every number that was said is read as a number or asked about, so what the rules took for a name or a
// label must not contain part of one: "light f ate ninety off west" may mean 98, "light foty six off west"
// 46.

// Leftover asks about a word that may be part of a number but was not read as one.
func Leftover(l *read.Source) error {
	spans := sync.OnceValue(func() []span { return spans(l) })
	for i, p := range l.Pieces[min(l.Begin, len(l.Pieces)):] {
		i += l.Begin
		if p.Gone || covered(l, p.Start) {
			continue
		}
		switch {
		case lex.Numeral(p.Low), lex.Heard(p.Low), p.Low == "inches", p.Low == "inch", p.Low == "feet":
		case p.Low == "foot" && !l.Says(i+1, []string{"of"}):
		case p.Low == "for" && !wordNext(l, i), p.Low == "oh":
		case (unsaid[p.Low] || nearNumber(p.Low)) && beside(l, i, spans()):
		case p.Kind == '0' && !figures(l, p.Start):
		default:
			continue
		}
		inside := slices.ContainsFunc(spans(), func(s span) bool { return s.from <= p.Start && p.Start < s.to })
		if inside || i+1 < len(l.Pieces) && halves[p.Low+" "+l.Pieces[i+1].Low] {
			continue
		}
		return &grammar.Ask{Col: p.Col, Word: l.Text[p.Start:p.End], Why: fmt.Sprintf("is %q a number? write it in figures", l.Text[p.Start:p.End])}
	}
	if !slices.ContainsFunc(l.Pieces, func(p lex.Piece) bool { return p.Low == "and" || p.Low == "&" }) {
		return nil
	}
	return lostWhole(l, spans())
}

// halves are terms of the house with a fraction in them.
var halves = lex.Set("half bath", "half bathroom", "half wall", "half door", "quarter round")

// wordNext reports whether an ordinary word follows piece i.
func wordNext(l *read.Source, i int) bool {
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

func spans(l *read.Source) (all []span) {
	end := 0
	for _, t := range l.Tokens {
		if t.Type == lex.Number && t.Pos.Offset >= end {
			_, k, _ := measure.Scan(l.Read[t.Pos.Offset:], l.Units, measure.List)
			end = t.Pos.Offset + k
			all = append(all, span{t.Pos.Offset, end})
		}
	}
	return all
}

// covered reports whether the byte is in a declared name, a word of that shape, or one of our phrases:
// "one end", "first one".
func covered(l *read.Source, at int) bool {
	t := tokenAt(l, at)
	return t != nil && (t.Type == lex.Name || t.Type == lex.Room || t.Type == lex.Wall || t.Type == lex.Text ||
		t.Type == lex.Word && (t.Value == "end" || t.Value == "first" || t.Value == "last"))
}

// tokenAt returns the token at or before the byte.
func tokenAt(l *read.Source, at int) *lexer.Token {
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
func figures(l *read.Source, at int) bool {
	t := tokenAt(l, at)
	return t != nil && t.Pos.Offset == at && t.Type == lex.Number
}

// beside reports whether a number is right before or after piece i.
func beside(l *read.Source, i int, spans []span) bool {
	k := i + 1
	for k < len(l.Pieces) && lex.Filler[l.Pieces[k].Low] {
		k++
	}
	return slices.ContainsFunc(spans, func(s span) bool {
		return k < len(l.Pieces) && s.from <= l.Pieces[k].Start && l.Pieces[i+1].Start <= s.from || s.to <= l.Pieces[i].Start && strings.TrimSpace(l.Read[s.to:l.Pieces[i].Start]) == ""
	})
}

// lostWhole asks about a fraction after "and" without a whole number: "light d1 and a half off west".
func lostWhole(l *read.Source, spans []span) error {
	for _, s := range spans {
		i := l.PieceAt(s.from)
		if i < 1 || l.Pieces[i-1].Low != "and" && l.Pieces[i-1].Low != "&" {
			continue
		}
		if t := tokenAt(l, l.Pieces[i-1].Start); t == nil || t.Type != lex.Word && t.Type != lex.Name && t.Type != lex.Room && t.Type != lex.Thing && t.Type != lex.Service {
			continue
		}
		r, k, _ := measure.Scan(l.Read[s.from:], l.Units, measure.List)
		if len(r) == 1 && r[0].L < length.Inch && s.from+k == s.to {
			said := strings.TrimSpace(l.Text[s.from:s.to])
			return &grammar.Ask{Col: l.Pieces[i].Col, Word: said, Why: fmt.Sprintf("and %s: of which number? write it in figures", said)}
		}
	}
	return nil
}

// unsaid are words that change the number beside them.
var unsaid = lex.Set("point", "dot", "oh", "o", "plus", "minus", "ish")

// counting are words that change the number after them.
var counting = lex.Set("dozen", "couple", "double", "twice", "times", "pair")

// Ganged refuses the 3 of "box 3 gang" as a size.
func Ganged(l *read.Source, n *Number, s *read.Saying) error {
	word, _, _ := strings.Cut(s.Text, " ")
	if word == "gang" && n.Bare() {
		return l.Refuse(n.Pos, fmt.Sprintf("a size with its unit; %q takes no figures here", word))
	}
	return nil
}

// Placing are words that a label of several words may begin with but not end in. A number after them is
// not part of the label.
var Placing = lex.Set("over", "at", "by", "near", "above", "under", "beside", "below", "behind", "next", "for", "less", "than", "just")

// Labelled refuses words that are not a label. Between a thing and its distances may be one word, words
// after "over" and the like, known words, or words set off by a comma.
func Labelled(l *read.Source, s *read.Saying) error {
	said := strings.Fields(s.Text)
	for _, w := range said {
		if lex.Numeral(w) || lex.Heard(w) || nearNumber(w) {
			return nil // already asked about
		}
		if counting[w] {
			return l.RefuseAt(s.Pos.Offset+strings.Index(lex.Lower(s.Raw), w), "a number in figures")
		}
	}
	if err := Unfinished(l, s.Text, s.Pos.Offset); err != nil {
		return err
	}
	if len(said) == 1 || Placing[said[0]] {
		return nil
	}
	if err := l.RoomInLabel(strings.Join(said, " ")); err != nil {
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
	r := &grammar.Refusal{Col: s.Pos.Column, Word: s.Text, Want: `one word for it, "over", "by" or "near" before more, or a comma behind them`}
	r.Hint = l.Attempt(l.With(read.Edit{From: s.Pos.Offset, To: s.Pos.Offset + len(s.Raw), Text: s.Raw + ","}))
	return r
}

// Unfinished refuses a label that says over and not over what: "light over d1 26 off west".
func Unfinished(l *read.Source, label string, at int) error {
	if last := label[strings.LastIndexByte(label, ' ')+1:]; Placing[last] {
		return l.RefuseAt(at, fmt.Sprintf("what it is %s, then the distances", last))
	}
	return nil
}

// nearNumber reports whether an unknown word may be a misspelt number.
func nearNumber(w string) bool {
	_, known := slices.BinarySearch(read.Words.Vocab, w)
	said := []rune(w)
	return !known && len(w) >= 4 && len(w) <= grammar.LongestWord && slices.ContainsFunc(longNumerals, func(n []rune) bool { return grammar.Slips(said, n, 1) <= 1 })
}

// longNumerals are number words that a single slip does not turn into another word.
var longNumerals = func() (all [][]rune) {
	for n := range lex.Numerals {
		if len(n) >= 5 {
			all = append(all, []rune(n))
		}
	}
	return all
}()

// FirstOne asks whether the one of "first one" is part of the number after it.
func FirstOne(l *read.Source, n *Number) {
	said := len(n.Readings)
	Alone(l, n, "first", "one")
	if last := len(n.Readings) - 1; last >= 0 && last == said { // likely the support
		n.Readings = slices.Insert(n.Readings[:last:last], 0, n.Readings[last])
	}
	if i := l.PieceAt(n.Pos.Offset); i > 1 && l.Pieces[i-1].Low == "one" && l.Pieces[i-2].Low == "first" {
		n.Pos.Offset, n.Pos.Column = l.Pieces[i-1].Start, l.Pieces[i-1].Col
		n.Why = `"first one", or a part of the number?`
	}
}

// Alone asks whether a number that begins with a word like "one" belongs to what precedes it: "first one
// twelve and a half", "light two forty one".
func Alone(l *read.Source, n *Number, before string, ones ...string) {
	first, _, _ := strings.Cut(n.Raw(), " ")
	if len(n.Readings) == 0 || len(n.Readings) == 1 && n.Why != "" || !slices.Contains(ones, strings.ToLower(first)) {
		return
	}
	at := n.Pos.Offset + len(first)
	at += len(l.Read[at:]) - len(strings.TrimLeft(l.Read[at:], " "))
	r, k, _ := measure.Scan(l.Read[at:], l.Units, measure.List)
	if len(r) == 1 && at+k == n.End {
		n.Readings[0].Guess, r[0].Guess = true, true
		n.Readings = append(n.Readings, r[0])
		n.Why = cmp.Or(n.Why, fmt.Sprintf("one number, or %q and a number?", before+" "+first))
	}
}
