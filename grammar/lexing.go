package grammar

import (
	"strapline/calc/length"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"
)

type tokenType = lexer.TokenType

// The tokens. A token's Pos.Filename holds the whole line, because a rule that
// reads a length itself is given nothing but tokens; the Value of a Number is
// the system it is read in, its figures stand in the line.
const (
	tCmd     tokenType = iota + 1 // the words a line begins with, as its kind
	tThing                        // what a board hides, as its canonical kind
	tService                      // pipe, wire, gas, ...
	tSupport                      // straps, joists, studs, channels
	tWall                         // north, east, south, west
	tRun                          // ew, ns
	tRoom                         // a declared room
	tName                         // a declared name, or one of the shape d1
	tNumber                       // where a number starts
	tTag                          // what a distance runs to: edge, centre, studs, board, notch, main
	tPlace                        // left, right, floor
	tKey                          // a word of the grammar that is in no label
	tWord                         // any other word
	tText                         // the rest of a line that is kept word for word
	tPunct
	tOther
)

// piece is a run of letters, a run of figures, or one other rune.
type piece struct {
	start, end int    // bytes
	col        int    // runes, from 1
	kind       byte   // 'a' letters, '0' figures, '.' else
	low        string // lower case, phone quotes made plain
	gone       bool   // it belongs to the frame
}

func (p piece) word() bool { return p.kind == 'a' }

// pieces cuts a line. Letters keep an apostrophe, a hyphen or a point between
// two of them, and the figures behind them ("d1", "where's", "j-box").
func pieces(s string) []piece {
	ps := make([]piece, 0, len(s)/3+2)
	col := 0
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		col++
		if unicode.IsSpace(r) {
			i += n
			continue
		}
		p := piece{start: i, col: col}
		switch {
		case '0' <= r && r <= '9':
			p.kind = '0'
			for i < len(s) && '0' <= s[i] && s[i] <= '9' {
				i++
			}
		case unicode.IsLetter(r):
			p.kind = 'a'
			i = letters(s, i)
			tight := len(ps) > 0 && ps[len(ps)-1].end == p.start && (ps[len(ps)-1].kind == '0' || s[p.start:i] == "x" || s[p.start:i] == "X")
			if !tight && !counted[lower(s[p.start:i])] {
				i = figured(s, i)
			}
		case unicode.IsNumber(r):
			p.kind, i = '0', i+n
		default:
			p.kind, i = '.', i+n
		}
		p.end = i
		p.low = lower(s[p.start:i])
		col += utf8.RuneCountInString(s[p.start:i]) - 1
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

// counted are words that figures follow without a space: row2, strap3.
var counted = set([]string{"row", "rows", "strap", "joist", "stud", "channel", "mark"})

// figured returns the end of the figures at i, and of the letters tight behind
// them: d1, but d1d2 in one.
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

func lower(s string) string {
	s = strings.ToLower(s)
	if strings.Contains(s, "’") {
		s = strings.ReplaceAll(s, "’", "'")
	}
	return s
}

// line is a message cut into tokens, and the frame that stood around them.
type line struct {
	*Context
	text      string // as typed
	read      string // text with its frame blanked, same bytes
	ps        []piece
	tokens    []lexer.Token // ends in EOF
	Line                    // the frame
	mistimed  int           // the piece of a time that no clock shows, from 1
	room2     string        // another room was named too
	lost      bool          // it is for a room that is not declared
	before    string        // words before a colon that are no declared room
	first     bool          // the room stood first
	start     int           // the piece the entry begins with, behind its frame
	ended     int           // the byte after the words it began with
	addressed bool          // it began with our name
	question  bool
	cmd       *Command // what it began with, nil when with its subject
	nested    bool     // it is a choice or a hint being tried
}

// lexLine cuts s into tokens.
func lexLine(s string, c *Context) *line {
	l := &line{Context: c, text: s, read: s, ps: pieces(s)}
	l.tokens = make([]lexer.Token, 0, len(l.ps)+1)
	i := l.head()
	if l.cmd != nil && freeText[l.cmd.Kind] {
		for i < len(l.ps) && l.ps[i].low == ":" {
			i++
		}
		if i < len(l.ps) {
			l.emit(tText, strings.TrimSpace(l.text[l.ps[i].start:]), i)
		}
		return l.eof()
	}
	l.frame(i)
	for i < len(l.ps) {
		if l.ps[i].gone {
			i++
			continue
		}
		i += l.token(i)
	}
	return l.eof()
}

var freeText = map[Kind]bool{"note": true, "snag": true, "job": true, "check": true}

func (l *line) emit(t tokenType, value string, i int) {
	p := l.ps[i]
	l.tokens = append(l.tokens, lexer.Token{Type: t, Value: value,
		Pos: lexer.Position{Filename: l.read, Offset: p.start, Line: 1, Column: p.col}})
}

func (l *line) eof() *line {
	l.tokens = append(l.tokens, lexer.EOFToken(lexer.Position{
		Filename: l.read, Offset: len(l.read), Line: 1, Column: utf8.RuneCountInString(l.read) + 1}))
	return l
}

// token emits what begins at piece i and returns how many pieces it took.
func (l *line) token(i int) int {
	p := l.ps[i]
	switch p.kind {
	case '0':
		l.emit(tNumber, string(l.Units), i)
		return 1
	case '.':
		return l.sign(i)
	}
	sym, n := l.phraseAt(i, words.phrases)
	name, m := l.declared(i)
	if m > n || m == n && sym.typ == tWord {
		sym, n = name, m
	}
	if p.low == "studs" && l.faces() {
		sym.typ = tTag
	}
	if sym.typ == tThing && len(l.tokens) == 0 && i+n < len(l.ps) && !l.ps[i+n].gone {
		if next, _ := l.phraseAt(i+n, words.phrases); next.typ == tThing { // "fan box" is a box
			sym.typ = tWord
		}
	}
	switch {
	case n > 0 && sym.typ != 0:
	case p.low == "rows" && l.numberAt(i+1):
		sym, n = symbol{tKey, "row"}, 1
	case len(p.low) == 1 && i > 0 && l.ps[i-1].low == "mark":
		sym, n = symbol{tName, p.low}, 1
	case len(p.low) == 1 && l.abbreviated(i):
		sym, n = symbol{tWall, abbreviations[p.low]}, 1
	case p.low == "in" && i > 0 && l.ps[i-1].word() && l.says(i+1, []string{"from"}): // "26 inches in from west"
		sym, n = symbol{tKey, "off"}, 2
	case words.filler[p.low]:
		if p.low != "is" || !l.names(i) {
			return 1
		}
		sym, n = symbol{tWord, "is"}, 1
	case shape(p.low):
		sym, n = symbol{tName, p.low}, 1
	case p.low == "x" || p.low == "by" && l.between(i):
		sym, n = symbol{tKey, "x"}, 1
	case p.low == "s" && i > 0 && l.ps[i-1].end == p.start: // 16s
		sym, n = symbol{tKey, "oc"}, 1
	case p.low == "can" && l.canLight(i):
		sym, n = symbol{tThing, "light"}, 1
	default:
		sym, n = symbol{tWord, p.low}, 1
		if _, k, _ := length.Scan(l.read[p.start:], l.Units, length.One); k > 0 {
			sym = symbol{tNumber, string(l.Units)}
		}
	}
	l.emit(sym.typ, sym.value, i)
	return n
}

// faces reports whether "studs" is a face of what stands before: "26 off west studs".
func (l *line) faces() bool {
	if len(l.tokens) == 0 {
		return false
	}
	switch t := l.tokens[len(l.tokens)-1]; t.Type {
	case tWall, tNumber, tTag, tPlace:
		return true
	default:
		return t.Value == "off"
	}
}

// parts reports whether piece i only parts words from each other. Lengths see
// it in the line itself.
func (l *line) parts(i int) bool {
	p := l.ps[i]
	last := i == len(l.ps)-1
	switch p.low {
	case ",", ":", "(", ")", "–", "—", "&", "•", "!", "?":
		return true
	case ".", "-":
		return last || l.ps[i+1].start > p.end
	case "#":
		return !last && l.ps[i+1].kind == '0'
	}
	return words.filler[p.low]
}

// sign emits punctuation.
func (l *line) sign(i int) int {
	p := l.ps[i]
	l.question = l.question || p.low == "?"
	if l.parts(i) {
		return 1
	}
	switch p.low {
	case ".", "-":
		if _, k, _ := length.Scan(l.read[p.start:], l.Units, length.One); k > 0 {
			l.emit(tNumber, string(l.Units), i)
			return 1
		}
	case "×":
		l.emit(tKey, "x", i)
		return 1
	}
	typ := tOther
	if p.end-p.start == 1 {
		typ = tPunct
	}
	l.emit(typ, p.low, i)
	return 1
}

// phraseAt finds the longest phrase of the table at piece i.
func (l *line) phraseAt(i int, table map[string][]phrase) (symbol, int) {
	if i >= len(l.ps) {
		return symbol{}, 0
	}
	for _, ph := range table[l.ps[i].low] {
		if l.says(i, ph.words) {
			return ph.symbol, len(ph.words)
		}
	}
	return symbol{}, 0
}

func (l *line) says(i int, said []string) bool {
	if i+len(said) > len(l.ps) {
		return false
	}
	for k, w := range said {
		if p := l.ps[i+k]; p.low != w || p.gone {
			return false
		}
	}
	return true
}

// mostWords bounds declared names of rooms and walls, and those of things too
// whatever the context says.
const mostWords = 6

// declared finds the longest declared name at piece i. Filler inside it does
// not count, and it ends in no number that goes on.
func (l *line) declared(i int) (symbol, int) {
	if l.Rooms == nil && l.Walls == nil && l.Name == nil {
		return symbol{}, 0
	}
	var best symbol
	n, count, said := 0, 0, ""
	for k := i; k < len(l.ps) && count < mostWords; k++ {
		p := l.ps[k]
		if p.kind == '.' || p.gone {
			break
		}
		if k > i && words.filler[p.low] {
			continue
		}
		if count == 0 {
			said = p.low
		} else {
			said += " " + p.low
		}
		count++
		if p.kind == '0' && l.goesOn(k) {
			continue
		}
		switch room, ok := l.Rooms[said]; {
		case ok:
			best, n = symbol{tRoom, room}, k-i+1
		case l.Walls[said] != "":
			best, n = symbol{tWall, string(l.Walls[said])}, k-i+1
		case count <= l.MaxWords && l.Name != nil && l.named(i, said):
			best, n = symbol{tName, said}, k-i+1
		}
	}
	return best, n
}

// named reports whether said, at piece i, is a declared thing's name. A single
// letter needs its place, because "a" and "x" are words too.
func (l *line) named(i int, said string) bool {
	if len(said) == 1 {
		before := ""
		if i > 0 {
			before = l.ps[i-1].low
		}
		if before != "mark" && before != "of" && (said == "a" || said == "x" || said == "i") {
			return false
		}
		return l.Name(said)
	}
	if k := strings.LastIndexByte(said, ' '); len(l.tokens) == 0 && k > 0 && words.thing[said[k+1:]] != "" {
		return false // "sink light 26 off west" says where it is, and what it is
	}
	if sym, n := l.phraseAt(i, words.phrases); len(l.tokens) == 0 && (sym.typ == tService ||
		sym.typ == tThing && strings.Contains(said, " ") && n < len(l.ps)-i && l.ps[i+n].word()) {
		return false // "pipe 1 40 off west" is a pipe, "light over stove 26 off west" a light
	}
	return l.Name(said)
}

// goesOn reports whether the figures at piece k are the start of more.
func (l *line) goesOn(k int) bool {
	_, n, _ := length.Scan(l.read[l.ps[k].start:], l.Units, length.List)
	return n != l.ps[k].end-l.ps[k].start
}

var abbreviations = map[string]string{"n": "north", "e": "east", "s": "south", "w": "west"}

// abbreviated reports whether the letter at piece i stands for a wall.
func (l *line) abbreviated(i int) bool {
	if abbreviations[l.ps[i].low] == "" {
		return false
	}
	if i+1 < len(l.ps) && (l.ps[i+1].low == "wall" || l.ps[i+1].low == "of") {
		return true
	}
	return i > 0 && (l.ps[i-1].low == "off" || l.ps[i-1].low == "from")
}

// names reports whether "is" at piece i gives a wall or a room another name.
func (l *line) names(i int) bool {
	if len(l.tokens) != 1 || l.tokens[0].Type != tWall && l.tokens[0].Type != tRoom || i+1 == len(l.ps) {
		return false
	}
	switch l.ps[i+1].low {
	case "up", "hung", "boarded", "finished":
		return false
	}
	return true
}

// between reports whether "by" at piece i stands between two numbers.
func (l *line) between(i int) bool {
	if i == 0 || i+1 == len(l.ps) {
		return false
	}
	_, n, _ := length.Scan(l.read[l.ps[i+1].start:], l.Units, length.List)
	return n > 0 && len(l.tokens) > 0 && l.lengthBefore(i)
}

// lengthBefore reports whether a number ends right before piece i.
func (l *line) lengthBefore(i int) bool {
	p := l.ps[i-1]
	if p.kind == '0' || p.kind == '.' && strings.ContainsAny(p.low, `"'”″′`) {
		return true
	}
	_, unit, _ := length.Scan("1 "+p.low, length.Imperial, length.List)
	return p.word() && unit > 2 || l.tokens[len(l.tokens)-1].Type == tNumber
}

// canLight reports whether "can" at piece i is a light and not a verb.
func (l *line) canLight(i int) bool {
	return i+1 < len(l.ps) && (l.ps[i+1].kind != 'a' || shape(l.ps[i+1].low))
}

// numberAt reports whether a number begins at piece i.
func (l *line) numberAt(i int) bool {
	if i >= len(l.ps) || l.ps[i].gone {
		return false
	}
	_, n, _ := length.Scan(l.read[l.ps[i].start:], l.Units, length.List)
	return n > 0
}

// shape reports whether a word looks like a name: d1, l12, vb3.
func shape(w string) bool {
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

// plain is what stands in s without case, signs and filler.
func plain(s string) string {
	var b strings.Builder
	for _, p := range pieces(s) {
		if p.kind == '.' || words.filler[p.low] {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(p.low)
	}
	return b.String()
}
