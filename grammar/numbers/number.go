package numbers

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/read"
)

// Number is a length as read from the line. Its range is checked later, by its slot.
type Number struct {
	Pos      lexer.Position
	End      int // the byte after it in the line
	Readings []measure.Reading
	Why      string
}

func (n *Number) Raw() string { return strings.TrimSpace(n.Pos.Filename[n.Pos.Offset:n.End]) }

// Bare reports whether the number was given without a unit.
func (n *Number) Bare() bool {
	for w := range strings.FieldsSeq(lex.Lower(n.Raw())) {
		if strings.Trim(w, "0123456789./-½¼¾⅛⅜⅝⅞⁄") != "" && !lex.Numeral(w) && w != "and" && w != "a" {
			return false
		}
	}
	return true
}

// Whole returns the number if it is nothing but figures.
func (n *Number) Whole() (int, bool) {
	v := 0
	for _, r := range n.Raw() {
		if r < '0' || r > '9' || v > 1e6 {
			return 0, false
		}
		v = v*10 + int(r-'0')
	}
	return v, true
}

// take reads a length at the next token and consumes its tokens.
func (n *Number) take(in *lexer.PeekingLexer, slot measure.Slot) bool {
	t := in.Peek()
	if t.Type != lex.Number {
		return false
	}
	readings, k, why := measure.Scan(t.Pos.Filename[t.Pos.Offset:], length.Units(t.Value), slot)
	if k == 0 {
		return false
	}
	*n = Number{t.Pos, t.Pos.Offset + k, readings, why}
	Pass(in, n.End)
	if in.Peek().Value == "even" && !grid.MatchString(t.Pos.Filename) { // 96 even
		in.Next()
	}
	return true
}

// grid matches the counts of a grid, which may precede "even".
var grid = regexp.MustCompile(`(?i)\d ?(?:x|×|by) ?\d|lights? \d+ even$`)

type OneLength struct{ Number }

func (n *OneLength) Parse(in *lexer.PeekingLexer) error {
	if !n.take(in, measure.One) {
		return participle.NextMatch
	}
	return nil
}

type ALength struct{ Number }

func (n *ALength) Parse(in *lexer.PeekingLexer) error {
	if !n.take(in, measure.List) {
		return participle.NextMatch
	}
	return nil
}

type NeedLength struct{ Number }

func (n *NeedLength) Parse(in *lexer.PeekingLexer) error {
	if !n.take(in, measure.One) {
		return read.Missing(in, "a length")
	}
	return nil
}

type NeedAmong struct{ Number }

func (n *NeedAmong) Parse(in *lexer.PeekingLexer) error {
	if !n.take(in, measure.List) {
		return read.Missing(in, "a length")
	}
	return nil
}

// Bounds are the limits of a slot. A reading outside them is dropped if another one fits, or else asked
// about, which catches slips of a digit.
type Bounds struct {
	What        string
	Least, Most length.Length
	// unlikely: of several readings, those below it are dropped.
	Unlikely length.Length
	// scaled: a bare number too small for the slot is in feet, or metres in a metric job; board lengths
	// are said "8 10 12".
	Scaled bool
}

// leastBareMM is a number of inches that nobody reads off a tape, but of millimetres. Common practice, no source.
const leastBareMM = 800

// The limits are wide on purpose (common practice, no source).
var (
	AnyLength      = Bounds{What: "a length", Most: 200 * length.Foot}
	Distances      = Bounds{What: "a distance", Most: 200 * length.Foot}
	RoomSide       = Bounds{What: "a room's side", Least: length.Inch, Most: 200 * length.Foot, Unlikely: 2 * length.Foot}
	RoomHeight     = Bounds{What: "a room's height", Least: 4 * length.Foot, Most: 40 * length.Foot, Scaled: true}
	NotchSide      = Bounds{What: "a notch", Least: length.Inch, Most: 100 * length.Foot}
	Spacings       = Bounds{What: "a spacing", Least: 3 * length.Inch, Most: 6 * length.Foot}
	Thicknesses    = Bounds{What: "a support", Least: length.Inch / 4, Most: 16 * length.Inch}
	BoardThickness = Bounds{What: "a board's thickness", Least: length.Inch / 8, Most: 2 * length.Inch}
	BoardWidths    = Bounds{What: "a board's width", Least: 12 * length.Inch, Most: 60 * length.Inch, Scaled: true}
	BoardLengths   = Bounds{What: "a board's length", Least: 2 * length.Foot, Most: 20 * length.Foot, Scaled: true}
	PieceLengths   = Bounds{What: "a piece", Least: length.Inch, Most: 16*length.Foot + length.Inch}
	Screws         = Bounds{What: "a screw", Least: length.Inch / 2, Most: 6 * length.Inch}
	Clearances     = Bounds{What: "a clearance", Most: 4 * length.Inch}
	OpeningSides   = Bounds{What: "a rough opening", Least: length.Inch / 4, Most: 20 * length.Foot}
	Sizes          = Bounds{What: "a size", Least: length.Inch / 4, Most: 36 * length.Inch}
)

// Within returns the length that n means in a slot.
func Within(l *read.Source, n *Number, b Bounds) (length.Said, error) {
	if len(n.Readings) == 0 {
		return length.Said{}, &grammar.Ask{Col: n.Pos.Column, Word: n.Raw(), Why: fmt.Sprintf("%s: %s", n.Raw(), n.Why)}
	}
	var fit, likely []measure.Reading
	for _, r := range n.Readings {
		if b.Scaled && n.Bare() && len(n.Readings) == 1 && r.L < b.Least {
			r.L = scaled(l, r.L)
		}
		if b.Least <= r.L && r.L <= b.Most {
			fit = append(fit, r)
			if r.L >= b.Unlikely {
				likely = append(likely, r)
			}
		}
	}
	if len(likely) > 0 {
		fit = likely
	}
	switch len(fit) {
	case 0:
		ask := &grammar.Ask{Col: n.Pos.Column, Word: n.Raw(), Why: fmt.Sprintf("%s: %s is from %s to %s, what is it?",
			n.Raw(), b.What, length.Format(b.Least, l.Units), length.Format(b.Most, l.Units))}
		if mm, ok := n.Whole(); ok && mm >= 1000 && l.Units == length.Imperial { // 4255 on a metric tape
			if v := (length.Said{L: length.Length(mm) * length.Millimetre}); b.Least <= v.L && v.L <= b.Most && len(n.Readings) == 1 && n.Readings[0].L > b.Most {
				ask.Choices = append(ask.Choices, grammar.Reads(v.String(), Canonical(l, l.With(n.Cut(v.String())))))
			}
		}
		return length.Said{}, ask
	case 1:
		if mm, ok := n.Whole(); ok && mm >= leastBareMM && l.Units == length.Imperial && n.Bare() && fit[0].L == length.Length(mm)*length.Inch {
			ask := &grammar.Ask{Col: n.Pos.Column, Word: n.Raw(), Why: n.Raw() + ": mm or inches?"}
			for _, v := range []length.Said{{L: length.Length(mm) * length.Millimetre}, {L: fit[0].L}} {
				said := v.String()
				if v.L == fit[0].L {
					said = n.Raw() + `"`
				}
				ask.Choices = append(ask.Choices, grammar.Reads(said, Canonical(l, l.With(n.Cut(said)))))
			}
			return length.Said{}, ask
		}
		if n.Why == "" || len(n.Readings) > 1 && !fit[0].Guess {
			return length.Said{L: fit[0].L, Tag: fit[0].Tag}, nil
		}
	}
	if fit = onTape(l, n, fit); len(fit) == 1 && len(n.Readings) > 1 && !fit[0].Guess {
		return length.Said{L: fit[0].L, Tag: fit[0].Tag}, nil
	}
	ask := &grammar.Ask{Col: n.Pos.Column, Word: n.Raw(), Why: n.Why}
	if ask.Why == "" {
		ask.Why = "which?"
	}
	if !strings.HasPrefix(ask.Why, n.Raw()) {
		ask.Why = n.Raw() + ": " + ask.Why
	}
	for _, r := range fit {
		v := length.Said{L: r.L, Tag: r.Tag}
		ask.Choices = append(ask.Choices, grammar.Reads(Shown(v, l.Units), Canonical(l, l.With(n.Cut(v.String())))))
	}
	return length.Said{}, ask
}

// Said returns the length that n means in a slot. If there is none, it sets l.wrong, which takes
// precedence over other errors in the line.
func Said(l *read.Source, n *Number, b Bounds) length.Said {
	v, err := Within(l, n, b)
	Fault(l, err)
	return v
}

// Fault keeps the first error of a line.
func Fault(l *read.Source, err error) {
	if l.Wrong == nil {
		l.Wrong = err
	}
}

// scaled turns a bare 8 into 8 ft or, in a metric job, a bare 2.4 or 3 into metres.
func scaled(l *read.Source, v length.Length) length.Length {
	if l.Units == length.Metric {
		return v * 1000
	}
	return v * 12
}

// onTape replaces a decimal of an inch that is on no tape by the nearest sixteenth: 12.6 was read as
// 12-5/8.
func onTape(l *read.Source, n *Number, readings []measure.Reading) []measure.Reading {
	if l.Units != length.Imperial || !n.Bare() {
		return readings
	}
	var out []measure.Reading
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

// Shown returns a length as a choice shows it: exactly what it stands for.
func Shown(v length.Said, u length.Units) string {
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

func (n *Number) Cut(text string) read.Edit {
	return read.Edit{From: n.Pos.Offset, To: n.Pos.Offset + len(n.Raw()), Text: text}
}

// Canonical returns text in canonical form, or unchanged if something else in it is in doubt.
func Canonical(l *read.Source, text string) string {
	if l.Context.Choice { // or ten doubtful lengths would be read in each of their 10! orders
		return text
	}
	c := *l.Context
	c.Choice = true
	if got, err := read.Nested(text, &c); err == nil {
		return got.String()
	}
	return text
}

// OneOrTwo asks if two adjacent numbers may be feet and inches of one.
func OneOrTwo(l *read.Source, a, b *Number) error {
	joined, ok := Joined(l, a, b)
	if !ok {
		return nil
	}
	ask := &grammar.Ask{Col: a.Pos.Column, Word: a.Raw() + " " + b.Raw(), Why: fmt.Sprintf("%s %s: one length or two?", a.Raw(), b.Raw())}
	for _, r := range joined {
		v := length.Said{L: r.L, Tag: r.Tag}
		ask.Choices = append(ask.Choices, grammar.Reads(Shown(v, l.Units),
			Canonical(l, l.With(read.Edit{From: a.Pos.Offset, To: b.Pos.Offset + len(b.Raw()), Text: v.String()}))))
	}
	ask.Choices = append(ask.Choices, grammar.Reads(a.Raw()+" and "+b.Raw(),
		Canonical(l, l.With(read.Edit{From: a.Pos.Offset, To: b.Pos.Offset, Text: a.Raw() + ", "}))))
	return ask
}

// NumberOrSize asks about "light 2": the second light, or one 2 inches across?
func NumberOrSize(l *read.Source, what string, a *ALength) error {
	n := a.Raw()
	if count := lex.Counts[lex.Lower(n)]; count > 0 && count < 10 { // "pot three"
		n = strconv.Itoa(count)
	}
	if what == "" || l.Units == length.Metric || !a.Bare() || len(n) != 1 || n[0] < '1' {
		return nil
	}
	ask := &grammar.Ask{Col: a.Pos.Column, Word: n, Why: fmt.Sprintf("%s %s: its number or its size?", what, n)}
	for _, as := range []struct{ label, text string }{{"number " + n, what[:1] + n}, {n + " inches", n + `"`}} {
		ask.Choices = append(ask.Choices, grammar.Reads(as.label, Canonical(l, l.With(read.Edit{From: a.Pos.Offset, To: a.End, Text: as.text}))))
	}
	return ask
}

// Thousands asks if two numbers of a list may be one, like 1 200 in a metric job.
func Thousands(l *read.Source, list []*Number) {
	for i := 1; i < len(list) && l.Units == length.Metric; i++ {
		if err := OneOrTwo(l, list[i-1], list[i]); err != nil {
			Fault(l, err)
		}
	}
}

// Joined reads two adjacent numbers as one.
func Joined(l *read.Source, a, b *Number) ([]measure.Reading, bool) {
	if a.End > b.Pos.Offset || strings.TrimSpace(l.Read[a.End:b.Pos.Offset]) != "" {
		return nil, false
	}
	r, k, _ := measure.Scan(l.Read[a.Pos.Offset:], l.Units, measure.One)
	return r, len(r) > 0 && a.Pos.Offset+k == b.End
}

// Amount is a plain number that is not a length.
type Amount struct {
	Pos lexer.Position
	N   float64
}

func (a *Amount) Parse(in *lexer.PeekingLexer) error {
	t := in.Peek()
	s := t.Pos.Filename[t.Pos.Offset:]
	figures := s[:len(s)-len(strings.TrimLeft(s, "0123456789."))]
	n, err := strconv.ParseFloat(figures, 64)
	if t.Type != lex.Number || err != nil || len(figures) > 9 || strings.HasPrefix(s[len(figures):], "/") {
		return read.Missing(in, "a plain number")
	}
	*a = Amount{t.Pos, n}
	Pass(in, t.Pos.Offset+len(figures))
	switch in.Peek().Value {
	case "%", "gal", "gallon", "gallons", "min", "minutes":
		in.Next()
	}
	return nil
}

// Count is a required whole number: strap 3, row two.
type Count struct {
	Pos lexer.Position
	N   int
}

func (c *Count) Parse(in *lexer.PeekingLexer) error {
	t := in.Peek()
	if t.Type != lex.Number {
		return read.Missing(in, "a number")
	}
	c.Pos = t.Pos
	s := t.Pos.Filename[t.Pos.Offset:]
	end := 0
	for end < len(s) && '0' <= s[end] && s[end] <= '9' {
		c.N = min(c.N*10+int(s[end]-'0'), 1e6)
		end++
	}
	if len(s) > end+1 && strings.IndexByte("./-", s[end]) >= 0 && '0' <= s[end+1] && s[end+1] <= '9' {
		return read.Missing(in, "a whole number") // row 2.1
	}
	if end == 0 { // in words
		r, k, _ := measure.Scan(s, length.Imperial, measure.List)
		if len(r) != 1 || r[0].L%length.Inch != 0 || r[0].L > 1000*length.Inch {
			return read.Missing(in, "a number")
		}
		c.N, end = int(r[0].L/length.Inch), k
	}
	for end += t.Pos.Offset; !in.Peek().EOF() && in.Peek().Pos.Offset < end; {
		in.Next()
	}
	return nil
}

// Counted refuses a support, a row or a note of such a number.
func Counted(l *read.Source, c *Count) int {
	if c.N < 1 || c.N > 999_999 {
		Fault(l, l.Refuse(c.Pos, "a number from 1 up"))
	}
	return c.N
}

// Pass consumes the tokens before a byte of the line.
func Pass(in *lexer.PeekingLexer, end int) {
	for !in.Peek().EOF() && in.Peek().Pos.Offset < end {
		in.Next()
	}
}

// Numbers counts the lengths and counts in a line.
func Numbers(l *read.Source) int {
	n, end := 0, 0
	for _, t := range l.Tokens {
		if t.Type == lex.Number && t.Pos.Offset >= end {
			_, k, _ := measure.Scan(l.Read[t.Pos.Offset:], l.Units, measure.List)
			n, end = n+1, t.Pos.Offset+k
		}
	}
	return n
}

// MostCounted limits a range of supports.
const MostCounted = 200
