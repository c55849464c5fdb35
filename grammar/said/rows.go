package said

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/read"
)

// rowSaid reads "row 2", "rows 1 and 2", "rows 1 to 3", "row"; without a number it is 0.
func rowSaid(r *read.Source, i int) (Word, int) {
	p := r.Pieces[i]
	w := Word{Class: Row, Many: strings.HasSuffix(p.Low, "s")}
	if i+1 >= len(r.Pieces) {
		return w, p.End
	}
	from := r.Pieces[i+1].Start
	s := lex.Lower(r.Read[from:])
	if m := rowRange.FindStringSubmatch(s); m != nil && (w.Many || !strings.Contains(m[0], "-")) {
		a, _ := strconv.Atoi(m[1])
		z, _ := strconv.Atoi(m[2])
		for n := a; n <= z && n < a+30; n++ {
			w.Rows = append(w.Rows, n)
		}
		if w.N = a; len(w.Rows) > 1 {
			return w, from + len(m[0])
		}
		w.Rows = nil
	}
	if rowSize.MatchString(s) { // "last row 18 3/4 up"
		return w, p.End
	}
	m := rowNumber.FindString(s)
	if m == "" || !w.Many && !rowPair.MatchString(s) {
		m = firstRow.FindString(s)
	}
	for _, said := range rowEach.FindAllString(m, -1) {
		if n := counted(said); n > 0 {
			w.Rows = append(w.Rows, n)
		}
	}
	if len(w.Rows) == 0 {
		return w, p.End
	}
	w.N = w.Rows[0]
	return w, from + len(m)
}

// rowsAlone takes numbers that follow one another, at the beginning of a line, for rows that are up: "2 and 3 up", "4 5 6 all
// up". A single number may be of anything.
func (l *Line) rowsAlone() {
	first, last, n, apart := -1, -1, 0, false
	i := 0
	for ; i < len(l.Words); i++ {
		switch w := l.Words[i]; {
		case w.Is(Count) && w.Plain && (n == 0 && w.N > 0 || n > 0 && w.N == l.Words[last].N+1):
			if last, n = i, n+1; first < 0 {
				first = i
			}
			continue
		case w.Is(Sep|Small|Every) && !w.Is(IsUp|Count):
			apart = apart || n > 0 && w.Is(Sep|Every)
			continue
		}
		break
	}
	if n < 2 || n == 2 && !apart || i == len(l.Words) || !l.Words[i].Is(IsUp|Done) || l.Part(Row, 0, i) { // "1 2 up" may be a half
		return
	}
	rows := Word{Class: Row, N: l.Words[first].N, Many: true, Text: l.Words[first].Text}
	for k := first; k <= last; k++ {
		rows.Rows = append(rows.Rows, rows.N+len(rows.Rows))
	}
	rows.Rows = rows.Rows[:n]
	for k := first; k <= last; k++ {
		l.Words[k] = Word{Class: Small, Text: l.Words[k].Text}
	}
	l.Words[first] = rows
}

// rowsWithin takes numbers of rows that were told for the rows that something is cut in: "rows 1 to 3 up, lights cut in 1 and 3".
func (l *Line) rowsWithin() {
	var told []int
	row := func(i int) bool {
		w := l.At(i)
		return w.Is(Count) && w.Plain && slices.Contains(told, w.N) && !l.At(i+1).Is(Noun|Piece|Long|Thing|Size)
	}
	for i := 0; i < len(l.Words); i++ {
		w := &l.Words[i]
		if told = append(told, w.Rows...); w.Text != "in" && w.Text != "cut in" && w.Text != "of" || !row(i+1) {
			continue
		}
		at := i + 1
		of := Word{Class: Row, Text: l.Words[at].Text, N: l.Words[at].N, Rows: []int{l.Words[at].N}, Many: true}
		for i = at; l.At(i+1).Is(Sep) && row(i+2); i += 2 {
			of.Rows = append(of.Rows, l.Words[i+2].N)
			l.Words[i+1], l.Words[i+2] = Word{Class: Small, Text: l.Words[i+1].Text}, Word{Class: Small, Text: l.Words[i+2].Text}
		}
		l.Words[at] = of
	}
}

// wallsUnsaid puts the word for a wall behind the name of one that stands where it would: "top row street up". The ceiling has
// no such rows.
func (l *Line) wallsUnsaid() {
	for i := 1; i+1 < len(l.Words); i++ {
		w, prev := l.Words[i], l.At(i-1)
		if row := prev.Is(Row) && prev.N == 0; w.Class != 0 || len(w.Text) < 3 || lex.Numeral(w.Text) || !l.At(i+1).Is(IsUp) || l.Any(On) || !(row && l.At(i-2).Is(Top|Bottom) || prev.Is(Top|Bottom)) {
			continue
		}
		l.Words = slices.Insert(l.Words, i+1, Word{Class: On, Value: "?", Text: "wall"})
		return
	}
}

var rowSize = regexp.MustCompile(`^\d{1,2} \d/\d`)

// firstRow matches a row's number, if what follows does not make it a length or a count of something else.
var firstRow = regexp.MustCompile(`^(?:\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten)\b`)
