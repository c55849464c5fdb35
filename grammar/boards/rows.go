package boards

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/numbers"
	"strapline/grammar/read"
)

// RowsSaid is one or several rows: row 2, rows 1 and 2, rows 1 to 3, row 1, 2.
type RowsSaid struct{ Rows []numbers.Count }

func (r *RowsSaid) Parse(in *lexer.PeekingLexer) error {
	many := manyBefore(in)
	if err := r.one(in); err != nil {
		return err
	}
	for {
		before := in.MakeCheckpoint()
		last := r.Rows[len(r.Rows)-1].N
		switch t := in.Peek(); t.Value {
		case "to", "through":
			in.Next()
			var to numbers.Count
			if err := to.Parse(in); err != nil {
				return err
			}
			if err := r.upTo(last, to); err != nil {
				return err
			}
		case "row":
			in.Next()
			if err := r.one(in); err != nil {
				return err
			}
		default:
			if t.Value == "+" {
				in.Next()
			}
			row, ok := rowAfter(in, last, many)
			if !ok {
				in.LoadCheckpoint(before)
				return nil
			}
			r.Rows = append(r.Rows, row)
		}
	}
}

// one adds the row, or the range of rows, that must be next.
func (r *RowsSaid) one(in *lexer.PeekingLexer) error {
	t := *in.Peek()
	if m := rangeSaid.FindStringSubmatch(t.Pos.Filename[t.Pos.Offset:]); m != nil && t.Type == lex.Number && manyBefore(in) {
		from, _ := strconv.Atoi(m[1])
		to, _ := strconv.Atoi(m[2])
		numbers.Pass(in, t.Pos.Offset+len(m[1]+"-"+m[2]))
		r.Rows = append(r.Rows, numbers.Count{Pos: t.Pos, N: from})
		return r.upTo(from, numbers.Count{Pos: t.Pos, N: to})
	}
	var n numbers.Count
	err := n.Parse(in)
	r.Rows = append(r.Rows, n)
	return err
}

// upTo adds the rows after last up to and including the one said.
func (r *RowsSaid) upTo(last int, to numbers.Count) error {
	if to.N <= last || to.N-last > numbers.MostCounted {
		return &read.Unfilled{Token: lexer.Token{Type: lex.Number, Pos: to.Pos}, Want: "a row past the first one"}
	}
	for i := last + 1; i <= to.N; i++ {
		r.Rows = append(r.Rows, numbers.Count{Pos: to.Pos, N: i})
	}
	return nil
}

// rangeSaid matches the 1-3 of "rows 1-3" if it is not part of a length. "row 1-3" does not count: it may
// be piece 3 of row 1.
var rangeSaid = regexp.MustCompile(`^(\d{1,2})-(\d{1,2})(?:[,;:!?)]|\s+[^0-9\s/'"]|\s*$)`)

// manyBefore reports whether "rows" precedes the next token.
func manyBefore(in *lexer.PeekingLexer) bool {
	t := in.Peek()
	return strings.HasSuffix(strings.TrimRight(lex.Lower(t.Pos.Filename[:t.Pos.Offset]), " "), "rows")
}

// LeastPiece is the shortest piece given by a bare number. Shorter strips are not pieces of a row, so the
// 2 of "row 1 and 2" is a row.
var LeastPiece = map[length.Units]int{length.Imperial: 6, length.Metric: 150}

// mostRows is the largest row number that a bare number after one is taken for.
const mostRows = 30

// rowAfter takes one more row after last: a bare number that is not the size of a piece, or the next
// row's. With many ("rows"), any number is a row.
func rowAfter(in *lexer.PeekingLexer, last int, many bool) (row numbers.Count, ok bool) {
	t := *in.Peek()
	if t.Type != lex.Number {
		return row, false
	}
	units := length.Units(t.Value)
	s, _, _ := strings.Cut(t.Pos.Filename[t.Pos.Offset:], "&") // "1, 2 & 3" is not two and three of something
	said := lex.Pieces(s)[0].Low
	row.Pos, row.N = t.Pos, lex.Counts[said]
	if n, err := strconv.Atoi(said); err == nil {
		row.N = n
	}
	if _, n, _ := measure.Scan(s, units, measure.List); n != len(said) || row.N < 1 || row.N > numbers.MostCounted {
		return row, false
	}
	if !many && row.N > mostRows {
		return row, false
	}
	if row.N >= LeastPiece[units] && !many {
		before := strings.TrimRight(lex.Lower(t.Pos.Filename[:t.Pos.Offset]), " ")
		if joined := strings.HasSuffix(before, "and") || strings.HasSuffix(before, "&"); row.N != last+1 || slices.Contains(StockFeet, row.N) && !joined {
			return row, false
		}
	}
	numbers.Pass(in, t.Pos.Offset+len(said))
	return row, true
}

// IdsSaid is planned pieces and rows by their ids: r2.1, r1 to r3, r1 and 2.
type IdsSaid struct {
	Pos lexer.Position
	IDs []*PieceID
}

func (s *IdsSaid) Parse(in *lexer.PeekingLexer) error {
	s.Pos = in.Peek().Pos
	var first PieceID
	if err := first.Parse(in); err != nil {
		return err
	}
	s.IDs = append(s.IDs, &first)
	for IsRow(s.IDs[len(s.IDs)-1].Text) {
		before := in.MakeCheckpoint()
		t := *in.Peek()
		last, _ := strconv.Atoi(s.IDs[len(s.IDs)-1].Text[1:])
		if t.Value == "to" || t.Value == "-" || t.Value == "through" {
			in.Next()
			to, err := rowTo(in, t.Value != "-") // r1-3 may be piece 3 of row 1
			var more RowsSaid
			if err == nil {
				err = more.upTo(last, to)
			}
			if err != nil {
				return err
			}
			s.add(more.Rows)
			continue
		}
		row, ok := rowAfter(in, last, false)
		if !ok {
			in.LoadCheckpoint(before)
			break
		}
		s.add([]numbers.Count{row})
	}
	return nil
}

func (s *IdsSaid) add(rows []numbers.Count) {
	for _, n := range rows {
		s.IDs = append(s.IDs, &PieceID{n.Pos, "r" + strconv.Itoa(n.N)})
	}
}

// rowTo returns the last row of a range: r3 or, where bare, 3.
func rowTo(in *lexer.PeekingLexer, bare bool) (n numbers.Count, err error) {
	if bare && in.Peek().Type == lex.Number {
		return n, n.Parse(in)
	}
	var id PieceID
	if err := id.Parse(in); err != nil || !IsRow(id.Text) {
		return n, read.Missing(in, "the last row: r1-r3")
	}
	n.Pos = id.Pos
	n.N, err = strconv.Atoi(id.Text[1:])
	return n, err
}

// IsRow reports whether an id is that of a whole row.
func IsRow(s string) bool { return lex.IsPiece(s) && !strings.Contains(s, ".") }

// PieceID is a planned piece or row: r2.1, r2.
type PieceID struct {
	Pos  lexer.Position
	Text string
}

func (p *PieceID) Parse(in *lexer.PeekingLexer) error {
	t := *in.Peek()
	if t.Type != lex.Name {
		return participle.NextMatch
	}
	in.Next()
	*p = PieceID{t.Pos, t.Value}
	rest := t.Pos.Filename[t.Pos.Offset+len(t.Value):]
	if figures := len(rest) - len(strings.TrimLeft(strings.TrimPrefix(rest, "."), "0123456789")); strings.HasPrefix(rest, ".") && figures > 1 && in.Peek().Pos.Offset == t.Pos.Offset+len(t.Value) {
		p.Text += rest[:figures]
		numbers.Pass(in, t.Pos.Offset+len(p.Text))
	}
	return nil
}

// RowID returns the id of a whole row. No ceiling has a thousand of them.
func RowID(l *read.Source, n *numbers.Count) string {
	id := "r" + strconv.Itoa(numbers.Counted(l, n))
	if !IsRow(id) {
		numbers.Fault(l, l.Refuse(n.Pos, "a number under 1000"))
	}
	return id
}
