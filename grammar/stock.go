package grammar

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar/lex"
)

// StockSet: `stock 9 x 12' 4 x 8'` is what there is now; `delivered 40 x 12'` adds; `used 2 x 8'` takes away.
type StockSet struct {
	How   string // "is", "delivered", "used"
	Items []Boards
}

func (e StockSet) String() string {
	var all []string
	for _, b := range e.Items {
		all = append(all, say(strconv.Itoa(b.N), "x", b.L))
	}
	return say(tail(e.How == "is", "stock"), tail(e.How != "is", e.How), strings.Join(all, ", "))
}
func (StockSet) Kind() Kind { return "stock" }

// Boards is a count of boards of one length.
type Boards struct {
	N int
	L length.Said
}

// stockSyntax is "stock 9 x 12' 4 x 8'", "we have 9 12s", "only 8 12s came".
type stockSyntax struct {
	Pos   lexer.Position
	Has   string       `parser:"( 'stock' | 'only' | ('we' | 'i')? @('got' | 'have') )?"`
	Items []*stockItem `parser:"@@*"`
	State string       `parser:"@('on hand' | 'came' | 'arrived' | 'delivered' | 'used' | 'spoiled' | 'broken' | 'broke' | 'cracked')?"`
}

func (s *stockSyntax) entry(l *line) (Entry, error) {
	e := StockSet{How: "is"}
	switch verb := l.stockVerb(); {
	case verb != "":
		e.How = verb
	case stockHow[s.State] != "":
		e.How = stockHow[s.State]
	case l.cmd != nil && len(s.Items) == 0:
		return BoardsLeft{}, nil
	}
	if len(s.Items) == 0 || l.cmd == nil && strings.Contains(lex.Lower(l.Text), "footer") && !l.has(lex.Tag, "board") { // ladders
		return nil, l.refuseEnd(words.rows["stock"].Fits)
	}
	for _, it := range s.Items {
		b, err := it.boards(l)
		if err != nil {
			return nil, err
		}
		e.Items = append(e.Items, b)
	}
	if s.Has == "got" && s.State == "" {
		came := e
		came.How = "delivered"
		return nil, &Ask{Col: s.Pos.Column, Word: s.Has, Why: "got: is that all there is, or did it come on top?",
			Choices: []Choice{reads("all there is", e.String()), reads("on top", came.String())}}
	}
	return e, nil
}

// stockItem is boards of one length: 9 x 12', 9 12s, a 12, 12' x 9.
type stockItem struct {
	First *boardLen   `parser:"(  (?= Number (Punct | Word) 'x') @@"`
	Of    *boardCount `parser:"   'x' @@"`
	N     *boardCount `parser:" | @@"`
	Board bool        `parser:"   @( 'x' | 'of' | 'board' )*"`
	L     *boardLen   `parser:"   @@"`
	Long  *boardLen   `parser:"   ( 'x' @@ )?"`
	Many  bool        `parser:"   @( 'oc' | 'board' )* )"`
}

func (it *stockItem) boards(l *line) (Boards, error) {
	n, of := it.L, it.N
	if it.First != nil {
		n, of = it.First, it.Of
	}
	if of.N > mostBoards {
		return Boards{}, l.refuse(of.Pos, "a count of boards")
	}
	if l.cmd == nil && it.First == nil && !it.Board && !it.Many && n.bare() { // "5 10 came"
		return Boards{}, l.refuse(n.Pos, "boards: 9 12s")
	}
	if v, ok := n.whole(); ok && it.Long == nil && l.Units == length.Imperial && v < shortBoard && slices.Contains(stockFeet, of.N) { // "12 x 2"
		ask := &Ask{Col: of.Pos.Column, Word: l.Text[of.Pos.Offset:n.End], Why: fmt.Sprintf("%s: how many, and how long?", l.Text[of.Pos.Offset:n.End])}
		for _, b := range [][2]int{{v, of.N}, {of.N, v}} {
			said := fmt.Sprintf("%d x %d'", b[0], b[1])
			ask.Choices = append(ask.Choices, reads(said, l.canonical(l.with(cut{of.Pos.Offset, n.End, said}))))
		}
		return Boards{}, ask
	}
	if it.Long != nil { // 4 x 12, its width first
		l.fourWide(&n.number)
		n = it.Long
	}
	return Boards{of.N, l.said(&n.number, boardLengths)}, nil
}

// BoardsLeft: `boards left`, `how many 12s left` (L = 12').
type BoardsLeft struct{ L length.Said }

func (e BoardsLeft) String() string {
	if e.L == (length.Said{}) {
		return "boards left"
	}
	return say("how many", e.L, "left")
}
func (BoardsLeft) Kind() Kind { return "left" }

// leftSyntax is "how many 12s left", "12s left?".
type leftSyntax struct {
	L        *boardLen `parser:"( 'left' | 'any' )? ( @@"`
	Many     bool      `parser:"  @'oc'? )? @'board'?"`
	Courtesy *courtesy `parser:"@@?"`
	Said     bool      `parser:"@( 'left' | 'on hand' )*"`
}

func (s *leftSyntax) entry(l *line) (Entry, error) {
	switch {
	case s.Said || !l.forOrder():
	case l.has(lex.Word, "tomorrow"), l.has(lex.Word, "tmrw"):
		return Bring{}, nil
	default:
		return Order{}, nil
	}
	if s.L == nil && l.Room != "" && strings.HasPrefix(l.began(), "what") && strings.HasSuffix(l.began(), "left") { // "whats left in den"
		return Rest{}, nil
	}
	if s.L == nil {
		if strings.HasSuffix(lex.Lower(l.Text[:l.ended]), "many") {
			return nil, l.refuseEnd(words.rows["left"].Fits)
		}
		return BoardsLeft{}, nil
	}
	if l.Tokens[0].Type == lex.Number && !s.Many && s.L.bare() { // "12 left?"
		return nil, l.refuse(s.L.Pos, "boards: 12s left?")
	}
	return BoardsLeft{l.said(&s.L.number, boardLengths)}, nil
}

// Longest: `longest in 10'`: the longest board that gets in.
type Longest struct{ L length.Said }

func (e Longest) String() string { return "longest in " + e.L.String() }
func (Longest) Kind() Kind       { return "longest" }

// longestSyntax is "longest in 10'", "only 10s fit up the stairs", "nothing
// over 10 gets in".
type longestSyntax struct {
	Say bool       `parser:"( 'longest' | @( 'only' | 'nothing' ('over' | 'longer' 'than') ) )"`
	L   needLength `parser:"@@ 'oc'? 'board'?"`
	Fit bool       `parser:"@( 'fit' | 'fits' | 'get' | 'gets' )?"`
	Way *wayIn     `parser:"@@?"`
}

func (s *longestSyntax) entry(l *line) (Entry, error) {
	if s.Say != s.Fit {
		return nil, l.refuseEnd(words.rows["longest"].Fits)
	}
	return Longest{l.said(&s.L.number, boardLengths)}, nil
}

// wayIn is what boards have to get through.
type wayIn struct{ _ int }

func (*wayIn) Parse(in *lexer.PeekingLexer) error {
	first := in.Peek().Pos.Offset
	for t := in.Peek(); !t.EOF() && waysIn[lex.Pieces(t.Pos.Filename[t.Pos.Offset:])[0].Low]; t = in.Peek() {
		in.Next()
	}
	if in.Peek().Pos.Offset == first {
		return participle.NextMatch
	}
	return nil
}

var waysIn = lex.Set("in", "into", "up", "down", "through", "thru", "around", "the", "this", "here", "there", "stairs", "stair", "stairwell", "door", "doors",
	"window", "elevator", "lift", "hall", "hallway", "corner", "house")

// boardCount is a number of boards: 9, a dozen, and one in "used a 12".
type boardCount struct{ count }

func (n *boardCount) Parse(in *lexer.PeekingLexer) error {
	t := *in.Peek()
	n.Pos = t.Pos
	before := strings.Fields(lex.Lower(t.Pos.Filename[:t.Pos.Offset]))
	switch {
	case t.Type == lex.Word && countWords[t.Value] > 0:
		in.Next()
		n.N = countWords[t.Value]
		return nil
	case t.Type == lex.Number && len(before) > 0 && (before[len(before)-1] == "a" || before[len(before)-1] == "an"):
		n.N = 1
		return nil
	}
	return n.count.Parse(in)
}

var countWords = map[string]int{"dozen": 12, "couple": 2, "pair": 2}

// boardLen is the length of boards in a list. It ends where the next count and its x begin, so that 9 x
// 12' 4 x 8' are boards of 12 and of 8 ft.
type boardLen struct{ number }

func (n *boardLen) Parse(in *lexer.PeekingLexer) error {
	t := *in.Peek()
	if t.Type != lex.Number {
		return missing(in, "the length of a board")
	}
	s := t.Pos.Filename[:nextCount(t.Pos.Filename, t.Pos.Offset)]
	readings, k, why := length.Scan(s[t.Pos.Offset:], length.Units(t.Value), length.List)
	if k == 0 {
		return missing(in, "the length of a board")
	}
	n.number = number{t.Pos, t.Pos.Offset + k, readings, why}
	pass(in, n.End)
	return nil
}

// nextCount returns where the next figures before an x or "of" are, after the first figures at from.
func nextCount(s string, from int) int {
	ps := lex.Pieces(s[from:])
	for i := 1; i+1 < len(ps); i++ {
		if p := ps[i]; p.Kind == '0' && (ps[i+1].Low == "x" || ps[i+1].Low == "×" || ps[i+1].Low == "of" || ps[i+1].Low == "by") {
			return from + p.Start
		}
	}
	return len(s)
}

// counts returns the rule for a line about boards that begins with no command: "9 12s came", "12s left?",
// "we have 9 12s", "only 10s fit".
func (l *line) counts() string {
	said := func(words ...string) bool {
		return slices.ContainsFunc(l.Tokens, func(t lexer.Token) bool { return slices.Contains(words, t.Value) })
	}
	last := l.Tokens[max(len(l.Tokens)-2, 0)].Value
	if l.opens("have") { // "have 9 12s delivered" asks for them
		return ""
	}
	switch l.Tokens[0].Value {
	case "only", "nothing":
		if said("fit", "fits", "get", "gets") {
			return "longest"
		}
	case "got":
		return "stock"
	case "we", "i":
		if next := l.Tokens[1].Value; next == "got" || next == "have" {
			return "stock"
		}
	}
	switch last {
	case "left", "on hand":
		if l.Tokens[0].Type == lex.Number && (l.Question || l.numbers() == 1) {
			return "left"
		}
		if last == "on hand" {
			return "stock"
		}
	case "came", "arrived", "delivered", "used", "spoiled", "broken", "broke", "cracked":
		return "stock"
	}
	return ""
}

// shortBoard is a length below that of any board sold, in feet.
const shortBoard = 6

// mostBoards limits a count of boards of one length.
const mostBoards = 100_000

// stockHow maps words to what happened to the boards.
var stockHow = map[string]string{"delivered": "delivered", "delivery": "delivered", "came": "delivered", "arrived": "delivered",
	"used": "used", "spoiled": "used", "broken": "used", "broke": "used", "cracked": "used", "wasted": "used", "ruined": "used"}

// stockVerb returns what the line begins with, in the log's terms: delivered, used; "" for "stock" or any
// other command.
func (l *line) stockVerb() string {
	if l.cmd == nil || l.cmd.Kind != "stock" {
		return ""
	}
	said := strings.Fields(l.began())
	return stockHow[said[len(said)-1]]
}

// began returns the words of the command that the line begins with.
func (l *line) began() string {
	if l.cmd == nil {
		return ""
	}
	return lex.Lower(l.Text[l.Pieces[l.begin].Start:l.ended])
}

// fourWide refuses boards of another width than 4 ft or 1200 mm: they would be counted among those of the
// usual width.
func (l *line) fourWide(n *number) {
	if v := l.said(n, boardWidths); v.L != 48*length.Inch && v.L != 1200*length.Millimetre && v.L != 1220*length.Millimetre {
		l.fault(l.refuse(n.Pos, "boards 4 ft wide: 9 x 12'"))
	}
}

// forOrder reports whether the question is how many boards a room takes: "how many boards do i need", "how
// many boards for den".
func (l *line) forOrder() bool {
	for i, p := range l.Pieces {
		if p.Low == "need" || p.Low == "order" || p.Low == "for" && p.Gone && i+1 < len(l.Pieces) {
			return true
		}
	}
	return false
}

var stockKinds = []kind{
	{Command: Command{Kind: "stock", Words: []string{"stock", "delivered", "delivery", "used", "spoiled", "broke", "cracked", "wasted", "ruined"}, About: "the boards there are; delivered adds to them, used takes away",
		Example: "stock 9 x 12' 4 x 8'", Metric: "stock 9 x 3600 4 x 2400", Fits: `counts and lengths: 9 x 12'`},
		rule: rule[stockSyntax](), makes: []Entry{StockSet{}},
		talk: func(l *line) bool { return l.opens("broke", "cracked", "wasted", "ruined") }, // "broke for lunch"
	},
	{Command: Command{Kind: "left", Words: []string{"boards left", "how many boards left", "what's left", "how many", "boards on hand"}, Talk: []string{"how many boards", "what on hand", "how many boards on hand"}, About: "the boards on hand, or those of one length",
		Example: "how many 12s left", Metric: "how many 3600 left", Fits: `nothing, or a length and "left"`},
		rule: rule[leftSyntax](), makes: []Entry{BoardsLeft{}}, asks: true, ofRoom: true,
		talk: always,
	},
	{Command: Command{Kind: "longest", Words: []string{"longest in", "longest", "longest board", "longest that gets in"}, Talk: []string{"longest board gets in", "longest fits", "longest board fits", "longest fits in", "longest gets in", "max board"}, About: "the longest board that gets in",
		Example: "longest in 10'", Metric: "longest in 3000", Fits: "a length with its unit: 10'"},
		rule: rule[longestSyntax](), makes: []Entry{Longest{}}},
}
