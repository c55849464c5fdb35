package grammar

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"strapline/calc/length"
	"strapline/grammar/lex"
)

// rowsSaid is one or several rows: row 2, rows 1 and 2, rows 1 to 3, row 1, 2.
type rowsSaid struct{ Rows []count }

func (r *rowsSaid) Parse(in *lexer.PeekingLexer) error {
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
			if in.Peek().Value == "row" {
				in.Next()
			}
			var to count
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
func (r *rowsSaid) one(in *lexer.PeekingLexer) error {
	t := *in.Peek()
	if m := rangeSaid.FindStringSubmatch(t.Pos.Filename[t.Pos.Offset:]); m != nil && t.Type == lex.Number && manyBefore(in) {
		from, _ := strconv.Atoi(m[1])
		to, _ := strconv.Atoi(m[2])
		pass(in, t.Pos.Offset+len(m[1]+"-"+m[2]))
		r.Rows = append(r.Rows, count{t.Pos, from})
		return r.upTo(from, count{t.Pos, to})
	}
	var n count
	err := n.Parse(in)
	r.Rows = append(r.Rows, n)
	return err
}

// upTo adds the rows after last up to and including the one said.
func (r *rowsSaid) upTo(last int, to count) error {
	if to.N <= last || to.N-last > mostCounted {
		return &unfilled{lexer.Token{Type: lex.Number, Pos: to.Pos}, "a row past the first one"}
	}
	for i := last + 1; i <= to.N; i++ {
		r.Rows = append(r.Rows, count{to.Pos, i})
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

// leastPiece is the shortest piece given by a bare number. Shorter strips are not pieces of a row, so the
// 2 of "row 1 and 2" is a row.
var leastPiece = map[length.Units]int{length.Imperial: 6, length.Metric: 150}

// mostRows is the largest row number that a bare number after one is taken for.
const mostRows = 30

// rowAfter takes one more row after last: a bare number that is not the size of a piece, or the next
// row's. With many ("rows"), any number is a row.
func rowAfter(in *lexer.PeekingLexer, last int, many bool) (row count, ok bool) {
	t := *in.Peek()
	if t.Type != lex.Number {
		return row, false
	}
	units := length.Units(t.Value)
	s, _, _ := strings.Cut(t.Pos.Filename[t.Pos.Offset:], "&") // "1, 2 & 3" is not two and three of something
	said := lex.Pieces(s)[0].Low
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
		before := strings.TrimRight(lex.Lower(t.Pos.Filename[:t.Pos.Offset]), " ")
		if joined := strings.HasSuffix(before, "and") || strings.HasSuffix(before, "&"); row.N != last+1 || slices.Contains(stockFeet, row.N) && !joined {
			return row, false
		}
	}
	pass(in, t.Pos.Offset+len(said))
	return row, true
}

// idsSaid is planned pieces and rows by their ids: r2.1, r1 to r3, r1 and 2.
type idsSaid struct {
	Pos lexer.Position
	IDs []*pieceID
}

func (s *idsSaid) Parse(in *lexer.PeekingLexer) error {
	s.Pos = in.Peek().Pos
	var first pieceID
	if err := first.Parse(in); err != nil {
		return err
	}
	s.IDs = append(s.IDs, &first)
	for isRow(s.IDs[len(s.IDs)-1].Text) {
		before := in.MakeCheckpoint()
		t := *in.Peek()
		last, _ := strconv.Atoi(s.IDs[len(s.IDs)-1].Text[1:])
		if t.Value == "to" || t.Value == "-" || t.Value == "through" {
			in.Next()
			to, err := rowTo(in, t.Value != "-") // r1-3 may be piece 3 of row 1
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
		row, ok := rowAfter(in, last, false)
		if !ok {
			in.LoadCheckpoint(before)
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

// rowTo returns the last row of a range: r3 or, where bare, 3.
func rowTo(in *lexer.PeekingLexer, bare bool) (n count, err error) {
	if bare && in.Peek().Type == lex.Number {
		return n, n.Parse(in)
	}
	var id pieceID
	if err := id.Parse(in); err != nil || !isRow(id.Text) {
		return n, missing(in, "the last row: r1-r3")
	}
	n.Pos = id.Pos
	n.N, err = strconv.Atoi(id.Text[1:])
	return n, err
}

// isRow reports whether an id is that of a whole row.
func isRow(s string) bool { return lex.IsPiece(s) && !strings.Contains(s, ".") }

// pieceID is a planned piece or row: r2.1, r2.
type pieceID struct {
	Pos  lexer.Position
	Text string
}

func (p *pieceID) Parse(in *lexer.PeekingLexer) error {
	t := *in.Peek()
	if t.Type != lex.Name {
		return participle.NextMatch
	}
	in.Next()
	*p = pieceID{t.Pos, t.Value}
	rest := t.Pos.Filename[t.Pos.Offset+len(t.Value):]
	if figures := len(rest) - len(strings.TrimLeft(strings.TrimPrefix(rest, "."), "0123456789")); strings.HasPrefix(rest, ".") && figures > 1 && in.Peek().Pos.Offset == t.Pos.Offset+len(t.Value) {
		p.Text += rest[:figures]
		pass(in, t.Pos.Offset+len(p.Text))
	}
	return nil
}
