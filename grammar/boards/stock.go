package boards

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/canon"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/numbers"
	"strapline/grammar/read"
)

// StockSet: `stock 9 x 12' 4 x 8'` is what there is now; `delivered 40 x 12' of 5/8` adds; `used 2 x 8'` takes
// away; `down to 3 x 10'` is what is left of one length; `ordered 32 x 12'` has still to come.
type StockSet struct {
	How   string // "is", "delivered", "ordered", "used", "left"
	Items []Boards
}

func (e StockSet) String() string {
	how := map[string]string{"is": "stock", "left": "down to"}[e.How]
	return canon.Say(cmp.Or(how, e.How), List(e.Items))
}
func (StockSet) Kind() grammar.Kind { return "stock" }

// Boards is a count of boards of one length; of one thickness and type, if those were said. L is zero if the
// length was not.
type Boards struct {
	N     int
	L     length.Said
	Thick length.Said `json:",omitzero"`
	Type  string      `json:",omitempty"` // green, x
}

func (b Boards) String() string {
	said := []any{strconv.Itoa(b.N), "x", b.L}
	if b.L.L == 0 {
		said = []any{"boards", strconv.Itoa(b.N)}
	}
	return canon.Say(append(said, b.OfKind())...)
}

// OfKind is which boards they are, in a line: "of 5/8 type x".
func (b Boards) OfKind() string {
	if b.Thick.L == 0 && b.Type == "" {
		return ""
	}
	return canon.Say("of", b.Thick, canon.Some("type", b.Type))
}

// stockSyntax is "stock 9 x 12' 4 x 8'", "used 2 12s".
type stockSyntax struct {
	Items []*stockItem `parser:"'stock' @@*"`
}

func (s *stockSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if len(s.Items) == 0 {
		if StockVerb(l) == "" {
			return BoardsLeft{}, nil
		}
		return nil, l.RefuseEnd(read.Words.Rows["stock"].Fits)
	}
	items, err := (&StockItems{s.Items}).Boards(l)
	return StockSet{How: cmp.Or(StockVerb(l), "is"), Items: items}, err
}

// stockItem is boards of one length: 9 x 12', 9 12s, a 12, 12' x 9.
type stockItem struct {
	First *boardLen   `parser:"(  (?= Number (Punct | Word) 'x') @@"`
	Of    *boardCount `parser:"   'x' @@"`
	Alone *boardCount `parser:" | 'board' @@"`
	N     *boardCount `parser:" | @@"`
	Board bool        `parser:"   @( 'x' | 'of' | 'board' )*"`
	L     *boardLen   `parser:"   @@"`
	Long  *boardLen   `parser:"   ( 'x' @@ )?"`
	Many  bool        `parser:"   @( 'oc' | 'board' )* )"`
	Kind  *BoardKind  `parser:"( 'of' @@ )?"`
}

// BoardKind is which boards they are: "of 5/8 type x".
type BoardKind struct {
	Thick *numbers.ALength `parser:"@@?"`
	Type  string           `parser:"( 'type' @(Word | 'x') )?"`
}

// StockItems is a list of boards in another line: "hung row 2 using 2 x 12'".
type StockItems struct {
	Items []*stockItem `parser:"@@+"`
}

func (s *StockItems) Boards(l *read.Source) (all []Boards, err error) {
	if s == nil {
		return nil, nil
	}
	for _, it := range s.Items {
		b, err := it.boards(l)
		if err != nil {
			return nil, err
		}
		all = append(all, b)
	}
	return all, nil
}

func (it *stockItem) boards(l *read.Source) (Boards, error) {
	if it.Alone != nil {
		if l.Cmd != nil && l.Cmd.Kind == "stock" && StockVerb(l) == "" {
			return Boards{}, l.Refuse(it.Alone.Pos, read.Words.Rows["stock"].Fits)
		}
		return it.Kind.Of(l, Boards{N: it.Alone.N}), nil
	}
	n, of := it.L, it.N
	if it.First != nil {
		n, of = it.First, it.Of
	}
	if of.N > mostBoards {
		return Boards{}, l.Refuse(of.Pos, "a count of boards")
	}
	if v, ok := n.Whole(); ok && it.Long == nil && l.Units == length.Imperial && v < shortBoard && slices.Contains(StockFeet, of.N) { // "12 x 2"
		ask := &grammar.Ask{Col: of.Pos.Column, Word: l.Text[of.Pos.Offset:n.End], Why: fmt.Sprintf("%s: how many, and how long?", l.Text[of.Pos.Offset:n.End])}
		for _, b := range [][2]int{{v, of.N}, {of.N, v}} {
			said := fmt.Sprintf("%d x %d'", b[0], b[1])
			ask.Choices = append(ask.Choices, grammar.Reads(said, numbers.Canonical(l, l.With(read.Edit{From: of.Pos.Offset, To: n.End, Text: said}))))
		}
		return Boards{}, ask
	}
	if wide, long := n, it.Long; long != nil { // 4 x 12, or 3000 x 1200
		fourWide(l, &wide.Number)
		n = long
	}
	if thick := n.Readings; it.Kind == nil && len(thick) == 1 && thick[0].L <= numbers.BoardThickness.Most && strings.HasSuffix(strings.TrimSuffix(lex.Lower(l.Read[:n.Pos.Offset]), "the "), " of ") { // "40 boards of 5/8"
		return Boards{N: of.N, Thick: numbers.Said(l, &n.Number, numbers.BoardThickness)}, nil
	}
	b := Boards{N: of.N, L: numbers.Said(l, &n.Number, numbers.BoardLengths)}
	if over := b.L.L % length.Foot; l.Units == length.Imperial && n.Bare() && !strings.Contains(n.Raw(), ".") && slices.Contains(thicknesses, over/12) && slices.Contains(StockFeet, int(b.L.L/length.Foot)) && (it.Kind == nil || it.Kind.Thick == nil) { // "21 4x12 5/8"
		b.L.L, b.Thick = b.L.L-over, length.Said{L: over / 12}
	} else if l.Units == length.Imperial && slices.Contains(thicknesses, over) && (it.Kind == nil || it.Kind.Thick == nil) && !strings.HasSuffix(n.Raw(), `"`) { // "13 sheets 8ft 5/8"
		b.L.L, b.Thick = b.L.L-over, length.Said{L: over}
	}
	return it.Kind.Of(l, b), nil
}

// thicknesses are those of common boards: no board is longer than whole feet by one of them. Common practice, no source.
var thicknesses = []length.Length{length.Inch / 4, length.Inch * 3 / 8, length.Inch / 2, length.Inch * 5 / 8}

// Of adds the thickness and type that were said.
func (k *BoardKind) Of(l *read.Source, b Boards) Boards {
	if k == nil {
		return b
	}
	if b.Type = k.Type; k.Thick != nil {
		b.Thick = numbers.Said(l, &k.Thick.Number, numbers.BoardThickness)
	}
	return b
}

// Recount: `delivery was 21`, `delivery was 18 x 12' not 20`, `delivery short 2`, `delivery lost 2`: the boards
// that came last are not as many as was said.
type Recount struct {
	How string // "was", "short", "lost"
	N   int
	L   length.Said // of which boards, if that was said
	Not int         // the wrong count, if it was said
}

func (e Recount) String() string {
	return canon.Say("delivery", e.How, strconv.Itoa(e.N), canon.Some("x", e.L), canon.Tail(e.Not > 0, "not "+strconv.Itoa(e.Not)))
}
func (Recount) Kind() grammar.Kind { return "recount" }

type recountSyntax struct {
	N   numbers.Count  `parser:"'recount' @@"`
	L   *boardLen      `parser:"( 'x' @@ )?"`
	Not *numbers.Count `parser:"( 'not' @@ )?"`
}

func (s *recountSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	said := strings.Fields(l.Began())
	e := Recount{How: said[len(said)-1], N: numbers.Counted(l, &s.N)}
	if s.L != nil {
		e.L = numbers.Said(l, &s.L.Number, numbers.BoardLengths)
	}
	if s.Not != nil {
		e.Not = numbers.Counted(l, s.Not)
	}
	return e, nil
}

// BoardsLeft: `boards left`, `how many 12s left` (L = 12'), `boards left of 5/8 need 7`. N is how many are needed.
// `boards on order` (Due) are those that were ordered and did not come yet.
type BoardsLeft struct {
	Boards
	Due bool `json:",omitempty"`
}

func (e BoardsLeft) String() string {
	if e.Due {
		return canon.Say("boards on order", e.L, e.OfKind())
	}
	if e.L != (length.Said{}) && e.N == 0 && e.OfKind() == "" {
		return canon.Say("how many", e.L, "left")
	}
	return canon.Say("boards left", e.L, e.OfKind(), canon.Tail(e.N > 0, "need "+strconv.Itoa(e.N)))
}
func (BoardsLeft) Kind() grammar.Kind { return "left" }

// leftSyntax is "how many 12s left", "12s left?".
type leftSyntax struct {
	L        *boardLen      `parser:"( 'left' | 'any' )? ( @@"`
	Many     bool           `parser:"  @'oc'? )? @'board'?"`
	Of       *BoardKind     `parser:"( 'of' @@ )?"`
	Need     *numbers.Count `parser:"( 'need' @@ )?"`
	Courtesy *read.Courtesy `parser:"@@?"`
	Said     bool           `parser:"@( 'left' | 'on hand' )*"`
}

func (s *leftSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	left, bad := BoardsLeft{Boards: s.Of.Of(l, Boards{}), Due: strings.HasSuffix(l.Began(), "on order")}, l.RefuseEnd(read.Words.Rows["left"].Fits)
	if s.Need != nil {
		left.N = numbers.Counted(l, s.Need)
	}
	switch w := l.Began(); {
	case s.L == nil && (left.Due || s.Of != nil || s.Need != nil):
	case !s.Said && slices.ContainsFunc(l.Pieces, func(p lex.Piece) bool { return p.Low == "need" || p.Low == "order" || p.Low == "for" && p.Gone }):
		if l.Has(lex.Word, "tomorrow") || l.Has(lex.Word, "tmrw") {
			return Bring{}, nil
		}
		return Order{}, nil
	case s.L == nil && l.Room != "" && strings.HasPrefix(w, "what") && strings.HasSuffix(w, "left"): // "whats left in den"
		return Rest{}, nil
	case s.L == nil && strings.HasSuffix(w, "many"), s.L != nil && l.Tokens[0].Type == lex.Number && !s.Many && s.L.Bare(): // "12 left?"
		return nil, bad
	case s.L != nil:
		if v, ok := s.L.Whole(); ok && (v == 54 && l.Units == length.Imperial || v < 20 && l.Units == length.Metric) { // "54s left", "15s left"
			return nil, bad
		}
		left.L = numbers.Said(l, &s.L.Number, numbers.BoardLengths)
	}
	return left, nil
}

// Longest: `longest in 10'`: the longest board that gets in.
type Longest struct{ L length.Said }

func (e Longest) String() string   { return "longest in " + e.L.String() }
func (Longest) Kind() grammar.Kind { return "longest" }

// longestSyntax is "longest in 10'", "only 10s fit up the stairs", "nothing
// over 10 gets in".
type longestSyntax struct {
	Say bool               `parser:"( 'longest' | @( 'only' | 'nothing' ('over' | 'longer' 'than') ) )"`
	L   numbers.NeedLength `parser:"@@ 'oc'? 'board'?"`
	Fit bool               `parser:"@( 'fit' | 'fits' | 'get' | 'gets' )?"`
	Way *wayIn             `parser:"@@?"`
}

func (s *longestSyntax) Entry(l *read.Source) (grammar.Entry, error) {
	if s.Say != s.Fit {
		return nil, l.RefuseEnd(read.Words.Rows["longest"].Fits)
	}
	return Longest{numbers.Said(l, &s.L.Number, numbers.BoardLengths)}, nil
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
type boardCount struct{ numbers.Count }

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
	return n.Count.Parse(in)
}

var countWords = map[string]int{"dozen": 12, "couple": 2, "pair": 2}

// boardLen is the length of boards in a list. It ends where the next count and its x begin, so that 9 x
// 12' 4 x 8' are boards of 12 and of 8 ft.
type boardLen struct{ numbers.Number }

func (n *boardLen) Parse(in *lexer.PeekingLexer) error {
	t := *in.Peek()
	if t.Type != lex.Number {
		return read.Missing(in, "the length of a board")
	}
	s := t.Pos.Filename[:nextCount(t.Pos.Filename, t.Pos.Offset)]
	readings, k, why := measure.Scan(s[t.Pos.Offset:], length.Units(t.Value), measure.List)
	if k == 0 {
		return read.Missing(in, "the length of a board")
	}
	n.Number = numbers.Number{Pos: t.Pos, End: t.Pos.Offset + k, Readings: readings, Why: why}
	numbers.Pass(in, n.End)
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

// Counts returns the rule for a line about boards that begins with no command: "12s left?", "only 10s fit".
func Counts(l *read.Source) string {
	said := func(words ...string) bool {
		return slices.ContainsFunc(l.Tokens, func(t lexer.Token) bool { return slices.Contains(words, t.Value) })
	}
	switch first := l.Tokens[0]; {
	case first.Type == lex.Number && said("left", "on hand") && (l.Question || numbers.Numbers(l) == 1) && !slices.ContainsFunc(l.Pieces, func(p lex.Piece) bool { return p.Low == "no" }):
		return "left"
	case (first.Value == "only" || first.Value == "nothing") && said("fit", "fits", "get", "gets"):
		return "longest"
	}
	return ""
}

// shortBoard is a length below that of any board sold, in feet.
const shortBoard = 6

// mostBoards limits a count of boards of one length.
const mostBoards = 100_000

// stockHow maps words to what happened to the boards.
var stockHow = map[string]string{"delivered": "delivered", "delivery": "delivered", "came": "delivered", "arrived": "delivered", "ordered": "ordered",
	"to": "left", "used": "used", "spoiled": "used", "broken": "used", "broke": "used", "cracked": "used", "wasted": "used", "ruined": "used"}

// StockVerb returns what the line begins with, in the log's terms: delivered, used; "" for "stock" or any
// other command.
func StockVerb(l *read.Source) string {
	if l.Cmd == nil || l.Cmd.Kind != "stock" {
		return ""
	}
	said := strings.Fields(l.Began())
	return stockHow[said[len(said)-1]]
}

// fourWide refuses boards of another width than 4 ft or 1200 mm: they would be counted among those of the
// usual width.
func fourWide(l *read.Source, n *numbers.Number) {
	switch numbers.Said(l, n, numbers.BoardWidths).L {
	case 48 * length.Inch, 1200 * length.Millimetre, 1220 * length.Millimetre:
	default:
		numbers.Fault(l, l.Refuse(n.Pos, "boards 4 ft wide: 9 x 12'"))
	}
}

var StockKinds = []read.Row{
	{Command: read.Command{Kind: "stock", Words: []string{"stock", "delivered", "delivery", "ordered", "used", "spoiled", "broke", "cracked", "wasted", "ruined", "down to"}, About: "the boards there are; delivered adds to them, used takes away, down to is what is left of one length",
		Example: "stock 9 x 12' 4 x 8'", Metric: "stock 9 x 3600 4 x 2400", Fits: `counts and lengths: 9 x 12'`},
		Rule: read.Rule[stockSyntax](), Makes: []grammar.Entry{StockSet{}},
		Chat: func(l *read.Source) bool { return l.Opens("broke", "cracked", "wasted", "ruined", "down", "ordered") }, // "broke for lunch"
	},
	{Command: read.Command{Kind: "recount", Words: []string{"delivery was", "delivery short", "delivery lost"}, About: "the last delivery was not as said",
		Example: "delivery was 21", Fits: "a count of boards"},
		Rule: read.Rule[recountSyntax](), Makes: []grammar.Entry{Recount{}}},
	{Command: read.Command{Kind: "left", Words: []string{"boards left", "how many boards left", "what's left", "how many", "boards on hand", "boards on order"}, Talk: []string{"what on hand"}, About: "the boards on hand, or those of one length",
		Example: "how many 12s left", Metric: "how many 3600 left", Fits: `nothing, or a length and "left"`},
		Rule: read.Rule[leftSyntax](), Makes: []grammar.Entry{BoardsLeft{}}, Asks: true, OfRoom: true,
		Chat: read.Always,
	},
	{Command: read.Command{Kind: "longest", Words: []string{"longest in", "longest", "longest board", "longest that gets in"}, Talk: []string{"longest board gets in", "longest fits", "longest board fits", "longest fits in", "longest gets in", "max board"}, About: "the longest board that gets in",
		Example: "longest in 10'", Metric: "longest in 3000", Fits: "a length with its unit: 10'"},
		Rule: read.Rule[longestSyntax](), Makes: []grammar.Entry{Longest{}},
		Begins: func(l *read.Source, i int) bool {
			return i == len(l.Pieces) || l.Pieces[i].Low != "wall" && l.Pieces[i].Low != "side"
		}},
}

// StockFeet are the lengths that boards are sold in, in feet (common practice, no source).
var StockFeet = []int{8, 9, 10, 12, 14, 16}
