package lex

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar/measure"
)

type Type = lexer.TokenType

// The tokens. A token's Pos.Filename holds the whole line, because a rule that reads a length itself gets
// only tokens. The Value of a Number is the system of units; its figures are in the line.
const (
	Cmd       Type = iota + 1 // the words a line begins with, as their kind
	Thing                     // what a board hides, as its canonical kind
	Service                   // pipe, wire, gas, ...
	Support                   // straps, joists, studs, channels
	Wall                      // north, east, south, west
	Direction                 // ew, ns
	Room                      // a declared room
	Name                      // a declared name, or one with the shape of d1
	Number                    // where a number starts
	Tag                       // what a distance is measured to: edge, centre, studs, board, notch, main
	Place                     // left, right, floor
	Face                      // a side of a notch, or a bulkhead after the first along its wall
	Key                       // a word of the grammar that no label contains
	Word                      // any other word
	Text                      // the rest of a line that is kept word for word
	Punct
	Other
)

// Piece is a run of letters, a run of figures, or one other rune.
type Piece struct {
	Start, End int    // bytes
	Col        int    // runes, from 1
	Kind       byte   // 'a' letters, '0' figures, '.' other
	Low        string // lower case, with phone quotes made plain
	Gone       bool   // it belongs to the frame
}

func (p Piece) Word() bool { return p.Kind == 'a' }

// Pieces splits a line. Letters include an apostrophe, a hyphen or a point between two of them, and
// figures right after them ("d1", "where's", "j-box").
func Pieces(s string) []Piece {
	ps := make([]Piece, 0, len(s)/3+2)
	col := 0
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		col++
		if unicode.IsSpace(r) {
			i += n
			continue
		}
		p := Piece{Start: i, Col: col}
		switch {
		case '0' <= r && r <= '9':
			p.Kind = '0'
			for i < len(s) && '0' <= s[i] && s[i] <= '9' {
				i++
			}
		case unicode.IsLetter(r):
			p.Kind = 'a'
			i = letters(s, i)
			tight := len(ps) > 0 && ps[len(ps)-1].End == p.Start && (ps[len(ps)-1].Kind == '0' || s[p.Start:i] == "x" || s[p.Start:i] == "X")
			if !tight && !counted[Lower(s[p.Start:i])] {
				i = figured(s, i)
			}
		case unicode.IsNumber(r):
			p.Kind, i = '0', i+n
		default:
			p.Kind, i = '.', i+n
		}
		p.End = i
		p.Low = Lower(s[p.Start:i])
		col += utf8.RuneCountInString(s[p.Start:i]) - 1
		ps = append(ps, p)
	}
	return ps
}

// letters returns the end of the run of letters at i.
func letters(s string, i int) int {
	for i < len(s) {
		r, n := utf8.DecodeRuneInString(s[i:])
		if !unicode.IsLetter(r) {
			next, _ := utf8.DecodeRuneInString(s[i+n:])
			if !strings.ContainsRune("'’-./", r) || !unicode.IsLetter(next) {
				break
			}
		}
		i += n
	}
	return i
}

// counted are words that figures may follow without a space: row2, strap3.
var counted = Set("row", "rows", "strap", "joist", "stud", "channel", "mark")

// figured returns the end of the figures at i and of the letters right after them: d1, but d1d2 in one.
func figured(s string, i int) int {
	for i < len(s) && '0' <= s[i] && s[i] <= '9' {
		for i < len(s) && '0' <= s[i] && s[i] <= '9' {
			i++
		}
		if i < len(s) && s[i] == '-' { // r1-r3
			break
		}
		i = letters(s, i)
	}
	return i
}

func Lower(s string) string {
	s = strings.ToLower(s)
	if strings.Contains(s, "’") {
		s = strings.ReplaceAll(s, "’", "'")
	}
	return s
}

// Reader is a message being cut into tokens.
type Reader struct {
	Names
	Text     string // as typed
	Read     string // Text with its frame blanked, the same number of bytes
	Pieces   []Piece
	Tokens   []lexer.Token // the last one is EOF
	spans    []int         // how many pieces each token has, 0 for those before Cut
	Question bool          // it has a question mark
	longest  int           // words of the longest declared name
}

// Read splits s into pieces.
func Read(s string, n Names) *Reader {
	ps := Pieces(s)
	return &Reader{Names: n, Text: s, Read: s, Pieces: ps, Tokens: make([]lexer.Token, 0, len(ps)+1), longest: n.longest()}
}

// Cut makes tokens of the pieces from i on.
func (l *Reader) Cut(i int) {
	l.spans = make([]int, len(l.Tokens), len(l.Pieces)+1)
	for i < len(l.Pieces) {
		if l.Pieces[i].Gone {
			i++
			continue
		}
		n := l.token(i)
		for len(l.spans) < len(l.Tokens) {
			l.spans = append(l.spans, n)
		}
		i += n
	}
	l.EOF()
}

// TokenAt returns the token that begins with piece i, and how many pieces it has; none if it has no type.
func (l *Reader) TokenAt(i int) (t lexer.Token, n int) {
	if i >= len(l.Pieces) {
		return lexer.Token{}, 0
	}
	at, ok := slices.BinarySearchFunc(l.Tokens, l.Pieces[i].Start, func(t lexer.Token, at int) int { return t.Pos.Offset - at })
	if !ok || at >= len(l.spans) {
		return lexer.Token{}, 1
	}
	return l.Tokens[at], max(1, l.spans[at])
}

func (l *Reader) Emit(t Type, value string, i int) {
	p := l.Pieces[i]
	l.Tokens = append(l.Tokens, lexer.Token{Type: t, Value: value,
		Pos: lexer.Position{Filename: l.Read, Offset: p.Start, Line: 1, Column: p.Col}})
}

func (l *Reader) EOF() {
	l.Tokens = append(l.Tokens, lexer.EOFToken(lexer.Position{
		Filename: l.Read, Offset: len(l.Read), Line: 1, Column: utf8.RuneCountInString(l.Read) + 1}))
}

// token emits the token at piece i and returns how many pieces it took.
func (l *Reader) token(i int) int {
	p := l.Pieces[i]
	switch p.Kind {
	case '0':
		l.Emit(Number, string(l.Units), i)
		return 1
	case '.':
		return l.sign(i)
	}
	sym, n := l.PhraseAt(i, Phrases)
	name, m := l.Declared(i)
	if m > n || m == n && sym.Type == Word {
		sym, n = name, m
	}
	if p.Low == "studs" && l.faces() {
		sym.Type = Tag
	}
	if sym.Type == Thing && len(l.Tokens) == 0 && i+n < len(l.Pieces) && !l.Pieces[i+n].Gone {
		if next, _ := l.PhraseAt(i+n, Phrases); next.Type == Thing { // "fan box" is a box
			sym.Type = Word
		}
	}
	if k := l.middle(i); k > n {
		sym, n = Symbol{Key, "in the middle"}, k
	}
	switch {
	case p.Low == "first" && l.firstOne(i):
		sym, n = Symbol{Word, "first"}, 2
	case lastOnes[p.Low] && i+1 < len(l.Pieces) && l.Pieces[i+1].Low == "one" && !l.NumberAt(i+2):
		sym, n = Symbol{Word, "last"}, 2
	case n > 0 && sym.Type != 0:
	case p.Low == "rows" && l.NumberAt(i+1):
		sym, n = Symbol{Key, "row"}, 1
	case len(p.Low) == 1 && i > 0 && l.Pieces[i-1].Low == "mark":
		sym, n = Symbol{Name, p.Low}, 1
	case len(p.Low) == 1 && l.abbreviated(i):
		sym, n = Symbol{Wall, Compass[p.Low]}, 1
	case p.Low == "in" && i > 0 && (l.Pieces[i-1].Kind != '0' || l.Units == length.Metric && len(l.Pieces[i-1].Low) > 2) && l.Says(i+1, []string{"from"}): // "26 inches in from west"
		sym, n = Symbol{Key, "off"}, 2
	case p.Low == "is" && l.names(i):
		sym, n = Symbol{Word, "is"}, 1
	case (p.Low == "a" || p.Low == "an") && l.NumberAt(i): // an eighth
		sym, n = Symbol{Number, string(l.Units)}, 1
	case Filler[p.Low], sideOf[p.Low] && l.behindWall(i), p.Low == "one" && (i+1 == len(l.Pieces) || l.Pieces[i+1].Low == ",") && l.behindWall(i):
		return 1
	case Shape(p.Low):
		sym, n = Symbol{Name, p.Low}, 1
	case p.Low == "x" || p.Low == "by" && l.between(i):
		sym, n = Symbol{Key, "x"}, 1
	case p.Low == "s" && i > 0 && l.Pieces[i-1].End == p.Start: // 16s
		sym, n = Symbol{Key, "oc"}, 1
	case p.Low == "can" && l.canLight(i):
		sym, n = Symbol{Thing, "light"}, 1
	default:
		sym, n = Symbol{Word, p.Low}, 1
		if _, k, _ := measure.Scan(l.Read[p.Start:], l.Units, measure.One); k > 0 {
			sym = Symbol{Number, string(l.Units)}
		}
	}
	l.Emit(sym.Type, sym.Value, i)
	return n
}

// sideOf are words after a wall that change nothing: "26 off the north side".
var sideOf = Set("side", "corner", "end")

func (l *Reader) behindWall(i int) bool {
	return len(l.Tokens) > 1 && l.Tokens[len(l.Tokens)-1].Type == Wall && l.Tokens[len(l.Tokens)-2].Value == "off" && l.Pieces[i-1].Low != "wall"
}

// faces reports whether "studs" is a face of what precedes it: "26 off west studs", "12 down studs".
func (l *Reader) faces() bool {
	if len(l.Tokens) == 0 {
		return false
	}
	switch t := l.Tokens[len(l.Tokens)-1]; t.Type {
	case Wall, Number, Tag, Place:
		return true
	default:
		return t.Value == "off" || t.Value == "down"
	}
}

// Parts reports whether piece i only separates words. Lengths see it in the line itself.
// it in the line itself.
func (l *Reader) Parts(i int) bool {
	p := l.Pieces[i]
	last := i == len(l.Pieces)-1
	switch p.Low {
	case ",", ":", "(", ")", "–", "—", "&", "•", "!", "?":
		return true
	case ".", "-":
		return last || l.Pieces[i+1].Start > p.End
	case "#":
		return !last && l.Pieces[i+1].Kind == '0'
	}
	return Filler[p.Low] || l.quoted(i)
}

// sign emits punctuation.
func (l *Reader) sign(i int) int {
	p := l.Pieces[i]
	l.Question = l.Question || p.Low == "?"
	if l.Parts(i) {
		return 1
	}
	switch p.Low {
	case ".", "-", "~":
		if _, k, _ := measure.Scan(l.Read[p.Start:], l.Units, measure.One); k > 0 {
			l.Emit(Number, string(l.Units), i)
			return 1
		}
	case "×":
		l.Emit(Key, "x", i)
		return 1
	}
	typ := Other
	if p.End-p.Start == 1 {
		typ = Punct
	}
	l.Emit(typ, p.Low, i)
	return 1
}

// PhraseAt returns the longest phrase of the table at piece i.
func (l *Reader) PhraseAt(i int, table map[string][]Phrase) (Symbol, int) {
	if i >= len(l.Pieces) {
		return Symbol{}, 0
	}
	for _, ph := range table[l.Pieces[i].Low] {
		if l.Says(i, ph.Words) {
			return ph.Symbol, len(ph.Words)
		}
	}
	return Symbol{}, 0
}

func (l *Reader) Says(i int, said []string) bool {
	if i+len(said) > len(l.Pieces) {
		return false
	}
	for k, w := range said {
		if p := l.Pieces[i+k]; p.Low != w || p.Gone {
			return false
		}
	}
	return true
}

// Compass are the letters for the walls.
var Compass = map[string]string{"n": "north", "e": "east", "s": "south", "w": "west"}

// abbreviated reports whether the letter at piece i stands for a wall.
func (l *Reader) abbreviated(i int) bool {
	if Compass[l.Pieces[i].Low] == "" {
		return false
	}
	if i+1 < len(l.Pieces) && (l.Pieces[i+1].Low == "wall" || l.Pieces[i+1].Low == "of") {
		return true
	}
	if i > 1 && l.Pieces[i-1].Low == "the" {
		i--
	}
	return i > 0 && (l.Pieces[i-1].Low == "off" || l.Pieces[i-1].Low == "from")
}

// names reports whether "is" at piece i gives a wall or a room another name.
func (l *Reader) names(i int) bool {
	if len(l.Tokens) != 1 || l.Tokens[0].Type != Wall && l.Tokens[0].Type != Room || i+1 == len(l.Pieces) {
		return false
	}
	switch l.Pieces[i+1].Low {
	case "up", "hung", "boarded", "finished":
		return false
	}
	return true
}

// between reports whether "by" at piece i is between two numbers.
func (l *Reader) between(i int) bool {
	if i == 0 || i+1 == len(l.Pieces) {
		return false
	}
	_, n, _ := measure.Scan(l.Read[l.Pieces[i+1].Start:], l.Units, measure.List)
	return n > 0 && len(l.Tokens) > 0 && l.LengthBefore(i)
}

// LengthBefore reports whether a number ends right before piece i.
func (l *Reader) LengthBefore(i int) bool {
	p := l.Pieces[i-1]
	if p.Kind == '0' || p.Kind == '.' && strings.ContainsAny(p.Low, `"'”″′`) {
		return true
	}
	_, unit, _ := measure.Scan("1 "+p.Low, length.Imperial, measure.List)
	return p.Word() && unit > 2 || l.Tokens[len(l.Tokens)-1].Type == Number
}

// canLight reports whether "can" at piece i is a light, not a verb.
func (l *Reader) canLight(i int) bool {
	return i+1 < len(l.Pieces) && (l.Pieces[i+1].Kind != 'a' || Shape(l.Pieces[i+1].Low) || l.canBeside(i+1))
}

// NumberAt reports whether a number begins at piece i.
func (l *Reader) NumberAt(i int) bool {
	if i >= len(l.Pieces) || l.Pieces[i].Gone {
		return false
	}
	_, n, _ := measure.Scan(l.Read[l.Pieces[i].Start:], l.Units, measure.List)
	return n > 0
}

// Shape reports whether a word looks like a name: d1, l12, vb3.
func Shape(w string) bool {
	n := 0
	for n < len(w) && 'a' <= w[n] && w[n] <= 'z' {
		n++
	}
	k := n
	for k < len(w) && '0' <= w[k] && w[k] <= '9' {
		k++
	}
	return 1 <= n && n <= 3 && n < k && k == len(w) && k-n <= 3
}
