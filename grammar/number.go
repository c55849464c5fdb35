package grammar

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar/lex"
)

// number is a length as read from the line. Its range is checked later, by its slot.
type number struct {
	Pos      lexer.Position
	End      int // the byte after it in the line
	Readings []length.Reading
	Why      string
}

func (n *number) raw() string { return strings.TrimSpace(n.Pos.Filename[n.Pos.Offset:n.End]) }

// bare reports whether the number was given without a unit.
func (n *number) bare() bool {
	for w := range strings.FieldsSeq(lex.Lower(n.raw())) {
		if strings.Trim(w, "0123456789./-½¼¾⅛⅜⅝⅞⁄") != "" && !lex.Numeral(w) && w != "and" && w != "a" {
			return false
		}
	}
	return true
}

// whole returns the number if it is nothing but figures.
func (n *number) whole() (int, bool) {
	v := 0
	for _, r := range n.raw() {
		if r < '0' || r > '9' || v > 1e6 {
			return 0, false
		}
		v = v*10 + int(r-'0')
	}
	return v, true
}

// take reads a length at the next token and consumes its tokens.
func (n *number) take(in *lexer.PeekingLexer, slot length.Slot) bool {
	t := in.Peek()
	if t.Type != lex.Number {
		return false
	}
	readings, k, why := length.Scan(t.Pos.Filename[t.Pos.Offset:], length.Units(t.Value), slot)
	if k == 0 {
		return false
	}
	*n = number{t.Pos, t.Pos.Offset + k, readings, why}
	pass(in, n.End)
	if in.Peek().Value == "even" && !grid.MatchString(t.Pos.Filename) { // 96 even
		in.Next()
	}
	return true
}

// grid matches the counts of a grid, which may precede "even".
var grid = regexp.MustCompile(`(?i)\d ?(?:x|×|by) ?\d|lights? \d+ even$`)

type oneLength struct{ number }

func (n *oneLength) Parse(in *lexer.PeekingLexer) error {
	if !n.take(in, length.One) {
		return participle.NextMatch
	}
	return nil
}

type aLength struct{ number }

func (n *aLength) Parse(in *lexer.PeekingLexer) error {
	if !n.take(in, length.List) {
		return participle.NextMatch
	}
	return nil
}

type needLength struct{ number }

func (n *needLength) Parse(in *lexer.PeekingLexer) error {
	if !n.take(in, length.One) {
		return missing(in, "a length")
	}
	return nil
}

type needAmong struct{ number }

func (n *needAmong) Parse(in *lexer.PeekingLexer) error {
	if !n.take(in, length.List) {
		return missing(in, "a length")
	}
	return nil
}

// bounds are the limits of a slot. A reading outside them is dropped if another one fits, or else asked
// about, which catches slips of a digit.
type bounds struct {
	what        string
	least, most length.Length
	// unlikely: of several readings, those below it are dropped.
	unlikely length.Length
	// scaled: a bare number too small for the slot is in feet, or metres in a metric job; board lengths
	// are said "8 10 12".
	scaled bool
}

// The limits are wide on purpose (common practice, no source).
var (
	anyLength      = bounds{what: "a length", most: 200 * length.Foot}
	distances      = bounds{what: "a distance", most: 200 * length.Foot}
	roomSide       = bounds{what: "a room's side", least: length.Inch, most: 200 * length.Foot, unlikely: 2 * length.Foot}
	roomHeight     = bounds{what: "a room's height", least: 4 * length.Foot, most: 40 * length.Foot, scaled: true}
	notchSide      = bounds{what: "a notch", least: length.Inch, most: 100 * length.Foot}
	spacings       = bounds{what: "a spacing", least: 3 * length.Inch, most: 6 * length.Foot}
	thicknesses    = bounds{what: "a support", least: length.Inch / 4, most: 16 * length.Inch}
	boardThickness = bounds{what: "a board's thickness", least: length.Inch / 8, most: 2 * length.Inch}
	boardWidths    = bounds{what: "a board's width", least: 12 * length.Inch, most: 60 * length.Inch, scaled: true}
	boardLengths   = bounds{what: "a board's length", least: 2 * length.Foot, most: 20 * length.Foot, scaled: true}
	pieceLengths   = bounds{what: "a piece", least: length.Inch, most: 16*length.Foot + length.Inch}
	screws         = bounds{what: "a screw", least: length.Inch / 2, most: 6 * length.Inch}
	clearances     = bounds{what: "a clearance", most: 4 * length.Inch}
	openingSides   = bounds{what: "a rough opening", least: length.Inch / 4, most: 20 * length.Foot}
	sizes          = bounds{what: "a size", least: length.Inch / 4, most: 36 * length.Inch}
)

// within returns the length that n means in a slot.
func (l *line) within(n *number, b bounds) (length.Said, error) {
	if len(n.Readings) == 0 {
		return length.Said{}, &Ask{Col: n.Pos.Column, Word: n.raw(), Why: fmt.Sprintf("%s: %s", n.raw(), n.Why)}
	}
	var fit, likely []length.Reading
	for _, r := range n.Readings {
		if b.scaled && n.bare() && len(n.Readings) == 1 && r.L < b.least {
			r.L = l.scaled(r.L)
		}
		if b.least <= r.L && r.L <= b.most {
			fit = append(fit, r)
			if r.L >= b.unlikely {
				likely = append(likely, r)
			}
		}
	}
	if len(likely) > 0 {
		fit = likely
	}
	switch len(fit) {
	case 0:
		ask := &Ask{Col: n.Pos.Column, Word: n.raw(), Why: fmt.Sprintf("%s: %s is from %s to %s, what is it?",
			n.raw(), b.what, length.Format(b.least, l.Units), length.Format(b.most, l.Units))}
		if mm, ok := n.whole(); ok && mm >= 1000 && l.Units == length.Imperial { // 4255 on a metric tape
			if v := (length.Said{L: length.Length(mm) * length.Millimetre}); b.least <= v.L && v.L <= b.most && len(n.Readings) == 1 && n.Readings[0].L > b.most {
				ask.Choices = append(ask.Choices, reads(v.String(), l.canonical(l.with(n.cut(v.String())))))
			}
		}
		return length.Said{}, ask
	case 1:
		if n.Why == "" || len(n.Readings) > 1 && !fit[0].Guess {
			return length.Said{L: fit[0].L, Tag: fit[0].Tag}, nil
		}
	}
	if fit = l.onTape(n, fit); len(fit) == 1 && len(n.Readings) > 1 && !fit[0].Guess {
		return length.Said{L: fit[0].L, Tag: fit[0].Tag}, nil
	}
	ask := &Ask{Col: n.Pos.Column, Word: n.raw(), Why: n.Why}
	if ask.Why == "" {
		ask.Why = "which?"
	}
	if !strings.HasPrefix(ask.Why, n.raw()) {
		ask.Why = n.raw() + ": " + ask.Why
	}
	for _, r := range fit {
		v := length.Said{L: r.L, Tag: r.Tag}
		ask.Choices = append(ask.Choices, reads(shown(v, l.Units), l.canonical(l.with(n.cut(v.String())))))
	}
	return length.Said{}, ask
}

// said returns the length that n means in a slot. If there is none, it sets l.wrong, which takes
// precedence over other errors in the line.
func (l *line) said(n *number, b bounds) length.Said {
	v, err := l.within(n, b)
	l.fault(err)
	return v
}

func (l *line) fault(err error) {
	if l.wrong == nil {
		l.wrong = err
	}
}

// scaled turns a bare 8 into 8 ft or, in a metric job, a bare 2.4 or 3 into metres.
func (l *line) scaled(v length.Length) length.Length {
	if l.Units == length.Metric {
		return v * 1000
	}
	return v * 12
}

// onTape replaces a decimal of an inch that is on no tape by the nearest sixteenth: 12.6 was read as
// 12-5/8.
func (l *line) onTape(n *number, readings []length.Reading) []length.Reading {
	if l.Units != length.Imperial || !n.bare() {
		return readings
	}
	var out []length.Reading
	for _, r := range readings {
		if r.L%length.SixtyFourth != 0 {
			r.L = length.RoundNearest(r.L, l.Units)
		}
		if !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	return out
}

// shown returns a length as a choice shows it: exactly what it stands for.
func shown(v length.Said, u length.Units) string {
	s := length.Format(v.L, u)
	step := length.SixtyFourth
	if u == length.Metric {
		step = length.Millimetre
	}
	if v.L%step != 0 {
		s = length.Canon(v.L)
	}
	if v.Tag != length.Exact {
		s += " " + string(v.Tag)
	}
	return s
}

// cut is a part of a line and its replacement.
type cut struct {
	from, to int
	Text     string
}

func (n *number) cut(text string) cut { return cut{n.Pos.Offset, n.Pos.Offset + len(n.raw()), text} }

// with returns the line as typed with parts of it replaced, in order.
func (l *line) with(cuts ...cut) string {
	var b strings.Builder
	at := 0
	for _, c := range cuts {
		b.WriteString(l.Text[at:c.from])
		if c.from > 0 && wordy(l.Text[c.from-1]) {
			b.WriteByte(' ')
		}
		b.WriteString(c.Text)
		if at = c.to; at < len(l.Text) && wordy(l.Text[at]) {
			b.WriteByte(' ')
		}
	}
	b.WriteString(l.Text[at:])
	return b.String()
}

// wordy reports whether a byte would join a word or a number next to it.
func wordy(b byte) bool {
	return b >= 0x80 || 'a' <= b && b <= 'z' || 'A' <= b && b <= 'Z' || '0' <= b && b <= '9'
}

// canonical returns text in canonical form, or unchanged if something else in it is in doubt.
func (l *line) canonical(text string) string {
	return cmp.Or(l.attempt(text), text)
}

// oneOrTwo asks if two adjacent numbers may be feet and inches of one.
func (l *line) oneOrTwo(a, b *number) error {
	joined, ok := l.joined(a, b)
	if !ok {
		return nil
	}
	ask := &Ask{Col: a.Pos.Column, Word: a.raw() + " " + b.raw(), Why: fmt.Sprintf("%s %s: one length or two?", a.raw(), b.raw())}
	for _, r := range joined {
		v := length.Said{L: r.L, Tag: r.Tag}
		ask.Choices = append(ask.Choices, reads(shown(v, l.Units),
			l.canonical(l.with(cut{a.Pos.Offset, b.Pos.Offset + len(b.raw()), v.String()}))))
	}
	ask.Choices = append(ask.Choices, reads(a.raw()+" and "+b.raw(),
		l.canonical(l.with(cut{a.Pos.Offset, b.Pos.Offset, a.raw() + ", "}))))
	return ask
}

// numberOrSize asks about "light 2": the second light, or one 2 inches across?
func (l *line) numberOrSize(what string, a *aLength) error {
	n := a.raw()
	if what == "" || l.Units == length.Metric || !a.bare() || len(n) != 1 || n[0] < '1' {
		return nil
	}
	ask := &Ask{Col: a.Pos.Column, Word: n, Why: fmt.Sprintf("%s %s: its number or its size?", what, n)}
	for _, as := range []struct{ label, text string }{{"number " + n, what[:1] + n}, {n + " inches", n + `"`}} {
		ask.Choices = append(ask.Choices, reads(as.label, l.canonical(l.with(cut{a.Pos.Offset, a.End, as.text}))))
	}
	return ask
}

// thousands asks if two numbers of a list may be one, like 1 200 in a metric job.
func (l *line) thousands(list []*number) {
	for i := 1; i < len(list) && l.Units == length.Metric; i++ {
		if err := l.oneOrTwo(list[i-1], list[i]); err != nil {
			l.fault(err)
		}
	}
}

// joined reads two adjacent numbers as one.
func (l *line) joined(a, b *number) ([]length.Reading, bool) {
	if a.End > b.Pos.Offset || strings.TrimSpace(l.Read[a.End:b.Pos.Offset]) != "" {
		return nil, false
	}
	r, k, _ := length.Scan(l.Read[a.Pos.Offset:], l.Units, length.One)
	return r, len(r) > 0 && a.Pos.Offset+k == b.End
}

// amount is a plain number that is not a length.
type amount struct {
	Pos lexer.Position
	N   float64
}

func (a *amount) Parse(in *lexer.PeekingLexer) error {
	t := in.Peek()
	s := t.Pos.Filename[t.Pos.Offset:]
	figures := s[:len(s)-len(strings.TrimLeft(s, "0123456789."))]
	n, err := strconv.ParseFloat(figures, 64)
	if t.Type != lex.Number || err != nil || len(figures) > 9 || strings.HasPrefix(s[len(figures):], "/") {
		return missing(in, "a plain number")
	}
	*a = amount{t.Pos, n}
	pass(in, t.Pos.Offset+len(figures))
	switch in.Peek().Value {
	case "%", "gal", "gallon", "gallons", "min", "minutes":
		in.Next()
	}
	return nil
}

// count is a required whole number: strap 3, row two.
type count struct {
	Pos lexer.Position
	N   int
}

func (c *count) Parse(in *lexer.PeekingLexer) error {
	t := in.Peek()
	if t.Type != lex.Number {
		return missing(in, "a number")
	}
	c.Pos = t.Pos
	s := t.Pos.Filename[t.Pos.Offset:]
	end := 0
	for end < len(s) && '0' <= s[end] && s[end] <= '9' {
		c.N = min(c.N*10+int(s[end]-'0'), 1e6)
		end++
	}
	if len(s) > end+1 && strings.IndexByte("./-", s[end]) >= 0 && '0' <= s[end+1] && s[end+1] <= '9' {
		return missing(in, "a whole number") // row 2.1
	}
	if end == 0 { // in words
		r, k, _ := length.Scan(s, length.Imperial, length.List)
		if len(r) != 1 || r[0].L%length.Inch != 0 || r[0].L > 1000*length.Inch {
			return missing(in, "a number")
		}
		c.N, end = int(r[0].L/length.Inch), k
	}
	for end += t.Pos.Offset; !in.Peek().EOF() && in.Peek().Pos.Offset < end; {
		in.Next()
	}
	return nil
}

// counted refuses a support, a row or a note of such a number.
func (l *line) counted(c *count) int {
	if c.N < 1 || c.N > 999_999 {
		l.fault(l.refuse(c.Pos, "a number from 1 up"))
	}
	return c.N
}

// pass consumes the tokens before a byte of the line.
func pass(in *lexer.PeekingLexer, end int) {
	for !in.Peek().EOF() && in.Peek().Pos.Offset < end {
		in.Next()
	}
}

// numbers counts the lengths and counts in a line.
func (l *line) numbers() int {
	n, end := 0, 0
	for _, t := range l.Tokens {
		if t.Type == lex.Number && t.Pos.Offset >= end {
			_, k, _ := length.Scan(l.Read[t.Pos.Offset:], l.Units, length.List)
			n, end = n+1, t.Pos.Offset+k
		}
	}
	return n
}
