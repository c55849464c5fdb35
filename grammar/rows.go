package grammar

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/calc/place"
)

// What goes up is said by rows ("rows 1 and 2"), by the ids of planned pieces
// ("r2.1"), or by the sizes in one row.

type hungSyntax struct {
	Pos   lexer.Position
	Items []*hungItem `parser:"'hung' @@+"`
}

type hungItem struct {
	Pos  lexer.Position
	Rows *rowsSaid    `parser:"  'row' @@"`
	Cut  *names       `parser:"| 'cut' @@"`
	Run  string       `parser:"| @Run"`
	On   *whereSyntax `parser:"| 'on'? @@"`
	Now  bool         `parser:"| @('today' | 'now' | 'already' | 'both')"`
	IDs  *idsSaid     `parser:"| ('+' | 'as' | 'with' | 'piece' | 'pieces' | 'board')* ( @@"`
	L    *oneLength   `parser:"       | @@ )"`
}

// rowSyntax is "rows 1 and 2 up", "row 3 up: 96 + 41 3/4".
type rowSyntax struct {
	Pos  lexer.Position
	Rows rowsSaid `parser:"'row' @@"`
	Up   upSyntax `parser:"@@"`
}

// piecesSyntax is "r2.1 up", "r3 96 + 41 3/4 up".
type piecesSyntax struct {
	Pos lexer.Position
	IDs []*idsSaid `parser:"@@+"`
	Up  upSyntax   `parser:"@@"`
}

// upSyntax is what is said of rows and pieces that are up, the sizes before or
// behind it.
type upSyntax struct {
	Pos  lexer.Position
	L    []*oneLength `parser:"( ('+' | 'as' | 'with')? @@ )*"`
	Up   bool         `parser:"('both' | 'already' | 'now')* ( @('up' | 'hung') | 'went' ('up' | 'in') ) ('today' | 'now' | 'already')*"`
	Then []*oneLength `parser:"( ('+' | 'as' | 'with')? @@ )*"`
	Run  string       `parser:"@Run?"`
	On   *whereSyntax `parser:"( 'on'? @@ )?"`
	Cut  *names       `parser:"( 'cut' @@ )?"`
}

// rowsSaid is one row or several: row 2, rows 1 and 2, rows 1 to 3, row 1, 2.
type rowsSaid struct{ Rows []count }

func (r *rowsSaid) Parse(lex *lexer.PeekingLexer) error {
	many := manyBefore(lex)
	if err := r.one(lex); err != nil {
		return err
	}
	for {
		before := lex.MakeCheckpoint()
		last := r.Rows[len(r.Rows)-1].N
		switch t := lex.Peek(); t.Value {
		case "to", "through":
			lex.Next()
			if lex.Peek().Value == "row" {
				lex.Next()
			}
			var to count
			if err := to.Parse(lex); err != nil {
				return err
			}
			if err := r.upTo(last, to); err != nil {
				return err
			}
		case "row":
			lex.Next()
			if err := r.one(lex); err != nil {
				return err
			}
		default:
			if t.Value == "+" {
				lex.Next()
			}
			row, ok := rowAfter(lex, last, many)
			if !ok {
				lex.LoadCheckpoint(before)
				return nil
			}
			r.Rows = append(r.Rows, row)
		}
	}
}

// one adds the row, or the range of rows, that must stand next.
func (r *rowsSaid) one(lex *lexer.PeekingLexer) error {
	t := *lex.Peek()
	if m := rangeSaid.FindStringSubmatch(t.Pos.Filename[t.Pos.Offset:]); m != nil && t.Type == tNumber && manyBefore(lex) {
		from, _ := strconv.Atoi(m[1])
		to, _ := strconv.Atoi(m[2])
		pass(lex, t.Pos.Offset+len(m[1]+"-"+m[2]))
		r.Rows = append(r.Rows, count{t.Pos, from})
		return r.upTo(from, count{t.Pos, to})
	}
	var n count
	err := n.Parse(lex)
	r.Rows = append(r.Rows, n)
	return err
}

// upTo adds the rows behind last up to and with the one said.
func (r *rowsSaid) upTo(last int, to count) error {
	if to.N <= last || to.N-last > mostCounted {
		return &unfilled{lexer.Token{Type: tNumber, Pos: to.Pos}, "a row past the first one"}
	}
	for i := last + 1; i <= to.N; i++ {
		r.Rows = append(r.Rows, count{to.Pos, i})
	}
	return nil
}

// rangeSaid is the 1-3 of "rows 1-3", and nothing that makes a length of it.
// "row 1-3" is none: it may be piece 3 of row 1.
var rangeSaid = regexp.MustCompile(`^(\d{1,2})-(\d{1,2})(?:[,;:!?)]|\s+[^0-9\s/'"]|\s*$)`)

// manyBefore reports whether "rows" stands before the next token.
func manyBefore(lex *lexer.PeekingLexer) bool {
	t := lex.Peek()
	return strings.HasSuffix(strings.TrimRight(lower(t.Pos.Filename[:t.Pos.Offset]), " "), "rows")
}

// leastPiece is the shortest piece that a bare number says: a shorter strip is
// no piece of a row, so that the 2 of "row 1 and 2" is a row.
var leastPiece = map[length.Units]int{length.Imperial: 6, length.Metric: 150}

// mostRows is the most rows that a bare number behind one counts.
const mostRows = 30

// rowAfter takes one more row behind row last: a bare number that is no size
// of a piece, or the next row's. With many ("rows") any number is a row.
func rowAfter(lex *lexer.PeekingLexer, last int, many bool) (row count, ok bool) {
	t := *lex.Peek()
	if t.Type != tNumber {
		return row, false
	}
	units := length.Units(t.Value)
	s, _, _ := strings.Cut(t.Pos.Filename[t.Pos.Offset:], "&") // "1, 2 & 3" is not two and three of something
	said := pieces(s)[0].low
	row.Pos, row.N = t.Pos, spoken[said]
	if n, err := strconv.Atoi(said); err == nil {
		row.N = n
	}
	if _, n, _ := length.Scan(s, units, length.List); n != len(said) || row.N < 1 || row.N > mostCounted {
		return row, false
	}
	if !many && row.N > mostRows {
		return row, false
	}
	if row.N >= leastPiece[units] && !many {
		before := strings.TrimRight(lower(t.Pos.Filename[:t.Pos.Offset]), " ")
		if joined := strings.HasSuffix(before, "and") || strings.HasSuffix(before, "&"); row.N != last+1 || slices.Contains(stockFeet, row.N) && !joined {
			return row, false
		}
	}
	pass(lex, t.Pos.Offset+len(said))
	return row, true
}

// idsSaid are planned pieces and rows by their ids: r2.1, r1 to r3, r1 and 2.
type idsSaid struct {
	Pos lexer.Position
	IDs []*pieceID
}

func (s *idsSaid) Parse(lex *lexer.PeekingLexer) error {
	s.Pos = lex.Peek().Pos
	var first pieceID
	if err := first.Parse(lex); err != nil {
		return err
	}
	s.IDs = append(s.IDs, &first)
	for isRow(s.IDs[len(s.IDs)-1].Text) {
		before := lex.MakeCheckpoint()
		t := *lex.Peek()
		last, _ := strconv.Atoi(s.IDs[len(s.IDs)-1].Text[1:])
		if t.Value == "to" || t.Value == "-" || t.Value == "through" {
			lex.Next()
			to, err := rowTo(lex, t.Value != "-") // r1-3 may be piece 3 of row 1
			var more rowsSaid
			if err == nil {
				err = more.upTo(last, to)
			}
			if err != nil {
				return err
			}
			s.add(more.Rows)
			continue
		}
		row, ok := rowAfter(lex, last, false)
		if !ok {
			lex.LoadCheckpoint(before)
			break
		}
		s.add([]count{row})
	}
	return nil
}

func (s *idsSaid) add(rows []count) {
	for _, n := range rows {
		s.IDs = append(s.IDs, &pieceID{n.Pos, "r" + strconv.Itoa(n.N)})
	}
}

// rowTo is the last row of a range: r3 or, where bare, 3.
func rowTo(lex *lexer.PeekingLexer, bare bool) (n count, err error) {
	if bare && lex.Peek().Type == tNumber {
		return n, n.Parse(lex)
	}
	var id pieceID
	if err := id.Parse(lex); err != nil || !isRow(id.Text) {
		return n, missing(lex, "the last row: r1-r3")
	}
	n.Pos = id.Pos
	n.N, err = strconv.Atoi(id.Text[1:])
	return n, err
}

// isRow reports whether an id is that of a whole row.
func isRow(s string) bool { return isPiece(s) && !strings.Contains(s, ".") }

// went is what went up as it was said, before it is known what the ids are.
type went struct {
	rows  []count // "row 2"
	ids   []*pieceID
	sizes []*number
	cut   *names
	run   string
	on    *whereSyntax
}

func (w *went) up(s *upSyntax) {
	for _, n := range append(s.L, s.Then...) {
		w.sizes = append(w.sizes, &n.number)
	}
	w.cut, w.run, w.on = s.Cut, s.Run, s.On
}

func (s *hungSyntax) entry(l *line) (Entry, error) {
	var w went
	for _, it := range s.Items {
		switch {
		case it.Rows != nil:
			w.rows = append(w.rows, it.Rows.Rows...)
		case it.IDs != nil:
			w.ids = append(w.ids, it.IDs.IDs...)
		case it.Cut != nil:
			w.cut = it.Cut
		case it.Run != "":
			w.run = it.Run
		case it.On != nil && w.on != nil:
			return nil, l.refuse(it.Pos, oneRow)
		case it.On != nil:
			w.on = it.On
		case it.Now:
		default:
			w.sizes = append(w.sizes, &it.L.number)
		}
	}
	return w.entry(l)
}

func (s *rowSyntax) entry(l *line) (Entry, error) {
	w := went{rows: s.Rows.Rows}
	w.up(&s.Up)
	return w.entry(l)
}

func (s *piecesSyntax) entry(l *line) (Entry, error) {
	var w went
	for _, of := range s.IDs {
		w.ids = append(w.ids, of.IDs...)
	}
	w.up(&s.Up)
	return w.entry(l)
}

const oneRow = "one row, on one surface"

// pieceNumber is a planned piece's id without its r. A half, 8.5, is a length;
// in a metric job 2.4 is metres.
var pieceNumber = regexp.MustCompile(`^[1-9][0-9]?\.[1-46-9]$`)

// twoRows is the whole of "hung 1 and 2", where no row is said.
var twoRows = regexp.MustCompile(`^([1-9]) ?(?:and|&) ?([1-9])$`)

// raw is the size as typed when it is the only one.
func (w *went) raw() string {
	if len(w.sizes) != 1 {
		return ""
	}
	return strings.ToLower(w.sizes[0].raw())
}

// entry is what hung: planned pieces or whole rows by their ids, or one row
// with all that is said of it.
func (w *went) entry(l *line) (Entry, error) {
	if l.Units == length.Imperial && w.rows == nil && !slices.ContainsFunc(w.ids, func(p *pieceID) bool { return isRow(p.Text) }) {
		w.sizes = slices.DeleteFunc(w.sizes, func(n *number) bool { // "hung 2.1" is piece r2.1
			ok := pieceNumber.MatchString(n.raw())
			if ok {
				w.ids = append(w.ids, &pieceID{n.Pos, "r" + n.raw()})
			}
			return ok
		})
	}
	if m := twoRows.FindStringSubmatch(w.raw()); m != nil && w.rows == nil && w.ids == nil {
		w.rows, w.sizes = []count{{w.sizes[0].Pos, int(m[1][0] - '0')}, {w.sizes[0].Pos, int(m[2][0] - '0')}}, nil
	}
	ids, whole, err := w.said(l)
	if err != nil {
		return nil, err
	}
	e := Hung{Run: place.Run(w.run), Surface: w.on.surface()}
	planned := len(w.sizes) == 0 && e.Run == "" && (e.Surface == "" || e.Surface == place.Ceiling) && (w.rows == nil || len(ids) > 1 && whole)
	switch {
	case ids == nil || planned || len(ids) == 1 && whole:
	case w.ids != nil:
		return nil, l.refuse(w.ids[0].Pos, "planned pieces alone, or lengths and one row")
	default:
		return nil, l.refuse(w.rows[1].Pos, oneRow)
	}
	if w.cut != nil {
		if e.Cut, err = w.cut.known(l, true); err != nil {
			return nil, err
		}
	}
	for _, n := range w.sizes {
		if err := l.sliver(n); err != nil {
			return nil, err
		}
		if err := l.feetOrInches(n); err != nil {
			return nil, err
		}
		piece, err := l.within(n, pieceLengths)
		if err != nil {
			return nil, err
		}
		e.Pieces = append(e.Pieces, piece)
	}
	switch {
	case ids == nil && len(w.sizes) == 0 && w.cut == nil && e.Run == "" && e.Surface != "":
		return UpAll{e.Surface}, nil
	case ids == nil:
		return nil, l.refuseEnd("which row: row 2")
	case planned:
		return HungPlan{ids, e.Cut}, nil
	}
	e.Row, _ = strconv.Atoi(ids[0][1:])
	return e, nil
}

// sliver asks about a size that is too small for a piece: "hung 3 in row 2" may
// be three boards.
func (l *line) sliver(n *number) error {
	v, err := strconv.Atoi(strings.TrimSuffix(n.raw(), " in"))
	if err != nil || v >= leastPiece[l.Units] || len(n.Readings) != 1 {
		return nil
	}
	piece := length.Said{L: n.Readings[0].L, Tag: n.Readings[0].Tag}
	return &Ask{Col: n.Pos.Column, Word: n.raw(), Why: n.raw() + ": how long is each piece?",
		Choices: []Choice{reads("one piece of "+shown(piece, l.Units), l.canonical(l.with(n.cut(piece.String()))))}}
}

// said is the ids of all rows and pieces, each once, and whether all are rows.
func (w *went) said(l *line) (ids []string, whole bool, err error) {
	whole = true
	add := func(id string) {
		whole = whole && isRow(id)
		if !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	for _, n := range w.rows {
		id, err := l.rowID(&n)
		if err != nil {
			return nil, false, err
		}
		add(id)
	}
	for _, p := range w.ids {
		if !isPiece(p.Text) {
			return nil, false, l.refuse(p.Pos, "a row or a planned piece: row 2, r2, r2.1")
		}
		add(p.Text)
	}
	return ids, whole, nil
}

// rowID is the id of a whole row. No ceiling has a thousand of them.
func (l *line) rowID(n *count) (string, error) {
	id := "r" + strconv.Itoa(n.N)
	if isRow(id) {
		return id, nil
	}
	if err := l.counted(n); err != nil {
		return "", err
	}
	return "", l.refuse(n.Pos, "a number under 1000")
}

// pieceID is a planned piece or row: r2.1, r2.
type pieceID struct {
	Pos  lexer.Position
	Text string
}

func (p *pieceID) Parse(lex *lexer.PeekingLexer) error {
	t := *lex.Peek()
	if t.Type != tName {
		return participle.NextMatch
	}
	lex.Next()
	*p = pieceID{t.Pos, t.Value}
	rest := t.Pos.Filename[t.Pos.Offset+len(t.Value):]
	if figures := len(rest) - len(strings.TrimLeft(strings.TrimPrefix(rest, "."), "0123456789")); strings.HasPrefix(rest, ".") && figures > 1 && lex.Peek().Pos.Offset == t.Pos.Offset+len(t.Value) {
		p.Text += rest[:figures]
		pass(lex, t.Pos.Offset+len(p.Text))
	}
	return nil
}

// isPiece reports whether a name is a planned piece's.
func isPiece(s string) bool {
	row, piece, one := strings.Cut(strings.TrimPrefix(s, "r"), ".")
	ok := func(s string) bool {
		return s != "" && len(s) <= 3 && s[0] != '0' && strings.Trim(s, "0123456789") == ""
	}
	return strings.HasPrefix(s, "r") && ok(row) && (!one || ok(piece))
}
