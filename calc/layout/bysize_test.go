package layout_test

import (
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/fit"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

// What is told of rows by the size of a ceiling alone is what its layout comes to once its straps are known, if each row is
// one board.
func TestRowsBySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		eighths := func(name string, from, to int) length.Length {
			return length.Length(rapid.IntRange(8*from, 8*to).Draw(t, name)) * length.Inch / 8
		}
		in := layout.Input{Lie: place.Y, Surface: layout.Surface{W: eighths("along", 60, 140), H: eighths("across", 20, 200)},
			Stock: []layout.Stock{{Width: 48 * length.Inch, Length: 12 * length.Foot, Count: -1}}}
		for at := 16 * length.Inch; at < in.Surface.W; at += 16 * length.Inch {
			in.Supports = append(in.Supports, layout.Support{At: at})
		}
		l, err := layout.Plan(in, nil)
		if err != nil {
			t.Skip(err)
		}
		d := layout.Defaults()
		r := fit.InRows(in.Surface.W, in.Surface.H, 48*length.Inch, 2*d.Clear, d.Rip, d.Sliver, length.Imperial)
		first, last := l.Rows[0], l.Rows[len(l.Rows)-1]
		if len(l.Rows) != r.N || last.Width != r.Last || (first.Width == last.Width) != (r.Shared || r.N == 1 || r.Last == 48*length.Inch) || last.Pieces[0].Cut != r.Cut {
			t.Fatalf("by size %+v, layout %d rows of %d, the last %d wide", r, len(l.Rows), last.Pieces[0].Cut, last.Width)
		}
	})
}
