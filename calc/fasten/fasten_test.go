package fasten_test

import (
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/fasten"
	"strapline/calc/length"
	"strapline/calc/place"
)

const (
	mm = length.Millimetre
	ft = length.Foot
)

func TestPerCrossing(t *testing.T) {
	for _, tt := range []struct {
		name                 string
		width, edge, spacing length.Length
		want                 int
	}{
		// Common practice, no source: both edges, the middle, and halfway between.
		{"48 in ceiling board", 48 * in, in * 3 / 8, 12 * in, 5},
		// 10 mm and 300 mm (NBC 9.29.5.9): 1200 / 300 = 4 exactly.
		{"1220 mm board", 1220 * mm, 10 * mm, 300 * mm, 5},
		{"a hair over", 1226 * mm, 10 * mm, 300 * mm, 5},
		{"more than a hair over", 1227 * mm, 10 * mm, 300 * mm, 6},
		{"36-1/2 in", in * 73 / 2, in * 3 / 8, 12 * in, 4},
		{"37 in", 37 * in, in * 3 / 8, 12 * in, 4},
		{"37-1/16 in", 37*in + in/16, in * 3 / 8, 12 * in, 5},
		{"24-1/2 in", in * 49 / 2, in * 3 / 8, 12 * in, 3},
		{"a hair over one", in, in * 3 / 8, 12 * in, 2},
		{"48 in wall board at 16 (USG FAQ 1595)", 48 * in, in * 3 / 8, 16 * in, 4},
		{"54 in board", 54 * in, in * 3 / 8, 12 * in, 6},
		{"rip 25-3/4", in * 103 / 4, in * 3 / 8, 12 * in, 4},
		{"rip that holds just two", 12*in + in*3/4, in * 3 / 8, 12 * in, 2},
		{"both edges meet", in * 3 / 4, in * 3 / 8, 12 * in, 1},
		{"narrower than two edges", in / 2, in * 3 / 8, 12 * in, 1},
		{"nothing", 0, in * 3 / 8, 12 * in, 0},
		{"no spacing", 48 * in, in * 3 / 8, 0, 0},
		{"largest", 1<<63 - 1, 1<<63 - 1, 1, 1},
	} {
		if got := fasten.PerCrossing(tt.width, tt.edge, tt.spacing); got != tt.want {
			t.Errorf("%s: got %d, want %d", tt.name, got, tt.want)
		}
	}
}

// The spacing is exceeded by a hair at most, in total, and there is no screw too many.
func TestPerCrossingIsLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := length.Length(rapid.Int64Range(1, int64(20*ft)).Draw(t, "width"))
		edge := length.Length(rapid.Int64Range(0, int64(in)).Draw(t, "edge"))
		spacing := length.Length(rapid.Int64Range(int64(in), int64(3*ft)).Draw(t, "spacing"))
		n := length.Length(fasten.PerCrossing(width, edge, spacing))
		span := width - 2*edge
		if span <= 0 {
			if n != 1 {
				t.Fatalf("narrow strip takes %d", n)
			}
			return
		}
		if hair := span - (n-1)*spacing; hair > in/4 || n > 2 && hair+spacing <= in/4 {
			t.Fatalf("%d screws over %d at %d", n, span, spacing)
		}
	})
}

// straps run along y, the first at x = 0, 16 in apart.
func straps(n int) []place.Support {
	var s []place.Support
	for i := range n {
		s = append(s, place.Support{Lie: place.Y, Pos: length.Length(i) * 16 * in, To: 20 * ft, Wide: in * 5 / 2, Thick: in * 3 / 4, Measured: true})
	}
	return s
}

func rule(t *testing.T, w fasten.Where) fasten.Rule {
	t.Helper()
	r, notes := fasten.RuleFor(w)
	if len(notes) > 0 {
		t.Fatalf("notes: %+v", notes)
	}
	return r
}

func TestForPiece(t *testing.T) {
	ceiling := rule(t, fasten.Where{Code: place.US, Board: in / 2, Across: true, Bay: 16 * in})
	wall := rule(t, fasten.Where{Code: place.US, Wall: true, Board: in / 2, Across: true, Bay: 16 * in})
	for _, tt := range []struct {
		name  string
		piece fasten.Piece
		rule  fasten.Rule
		want  int
	}{
		// A handbook's rule of thumb is 32 screws per 4 x 8 (allmartz.com screw
		// spacing), which is between these two.
		{"4 x 8 ceiling: 7 straps x 5", fasten.Piece{W: 8 * ft, H: 4 * ft}, ceiling, 35},
		{"4 x 8 wall: 7 studs x 4", fasten.Piece{W: 8 * ft, H: 4 * ft}, wall, 28},
		// 144/16 + 1 = 10 straps x 5.
		{"4 x 12 ceiling", fasten.Piece{W: 12 * ft, H: 4 * ft}, ceiling, 50},
		// Cut 1/8 in short of the wall at both ends: the end straps still carry it.
		{"4 x 12, wall ends cut clear", fasten.Piece{X: in / 8, W: 12*ft - in/4, H: 4 * ft}, ceiling, 50},
		// 25-3/4: (25.75 - .75)/12 = 2.08, rounded up to 3, so 4 per strap.
		{"rip", fasten.Piece{W: 12 * ft, H: in * 103 / 4}, ceiling, 40},
		// From a butt at 48 to a butt at 96: straps at 48, 64, 80 and 96.
		{"short piece between butts", fasten.Piece{X: 48 * in, W: 48 * in, H: 4 * ft}, ceiling, 20},
	} {
		c := fasten.ForPiece(tt.piece, straps(10), tt.rule)
		if got := c.Screws(); got != tt.want {
			t.Errorf("%s: got %d, want %d", tt.name, got, tt.want)
		}
	}
}

func TestButtIsCountedWithBothPieces(t *testing.T) {
	r := rule(t, fasten.Where{Code: place.US, Board: in / 2, Across: true, Bay: 16 * in})
	// A 12 ft row with a butt on the strap at 80 in: 6 + 5 rows of screws instead of 10.
	b := fasten.ForPieces([]fasten.Piece{{W: 80 * in, H: 4 * ft}, {X: 80 * in, W: 64 * in, H: 4 * ft}}, straps(10), r)
	if b.Wood != 55 || b.Steel != 0 || len(b.Rows) != 11 {
		t.Errorf("got %+v", b)
	}
}

func TestSupportsUnderPiece(t *testing.T) {
	r := rule(t, fasten.Where{Code: place.US, Board: in / 2, Across: true, Bay: 16 * in})
	stopped := straps(10)
	stopped[4].To = 30 * in
	steel := straps(10)
	for i := range steel {
		steel[i].Kind = place.Channels
	}
	plates := append(straps(10), place.Support{Lie: place.X, Pos: in * 3 / 4, To: 12 * ft, Wide: in * 3 / 2})
	for _, tt := range []struct {
		name        string
		piece       fasten.Piece
		supports    []place.Support
		wood, steel int
	}{
		{"an end 3/8 past a strap's near face cannot hold a screw",
			fasten.Piece{X: 0, W: 16*in - in*5/4 + in*3/8, H: 4 * ft}, straps(10), 5, 0},
		{"an end between straps", fasten.Piece{W: 40 * in, H: 4 * ft}, straps(10), 15, 0},
		{"both ends between straps", fasten.Piece{X: 8 * in, W: 32 * in, H: 4 * ft}, straps(10), 10, 0},
		// The fifth strap is under 30 in of the board: (30 - .75)/12 = 2.44, rounded up to 3, so 4.
		{"a strap that stops short", fasten.Piece{W: 12 * ft, H: 4 * ft}, stopped, 49, 0},
		{"steel takes the other screw", fasten.Piece{W: 12 * ft, H: 4 * ft}, steel, 0, 50},
		{"a strip narrower than two edges", fasten.Piece{W: 32 * in, H: in / 2}, straps(3), 3, 0},
		// The plate's row: (144 - .75)/12 = 11.94, rounded up to 12, so 13 more.
		{"studs and a plate", fasten.Piece{W: 12 * ft, H: 4 * ft}, plates, 63, 0},
		{"nothing under it", fasten.Piece{X: 30 * ft, W: 4 * ft, H: 4 * ft}, straps(10), 0, 0},
		{"no piece", fasten.Piece{}, straps(10), 0, 0},
	} {
		c := fasten.ForPiece(tt.piece, tt.supports, r)
		if c.Wood != tt.wood || c.Steel != tt.steel {
			t.Errorf("%s: got %d wood %d steel, want %d %d", tt.name, c.Wood, c.Steel, tt.wood, tt.steel)
		}
	}
}

// With boards along the straps, the long seam must be on a strap (bobvila.com forum,
// homeadditionplus.com: a strap centred at 48 in so that two sheets share it).
func TestBoardsAlong(t *testing.T) {
	r := rule(t, fasten.Where{Code: place.US, Board: in / 2, Bay: 16 * in})
	var ew []place.Support
	for i := range 5 {
		ew = append(ew, place.Support{Lie: place.X, Pos: length.Length(i) * 16 * in, To: 20 * ft, Wide: in * 5 / 2})
	}
	// Four rows of (96 - .75)/12 = 7.94, rounded up to 8, so 9 each.
	c := fasten.ForPiece(fasten.Piece{W: 8 * ft, H: 4 * ft}, ew, r)
	if c.Wood != 36 {
		t.Errorf("got %+v", c)
	}
	c = fasten.ForPiece(fasten.Piece{W: 8 * ft, H: 54 * in}, ew, r)
	if c.Wood != 36 {
		t.Errorf("54 in: %d", c.Wood)
	}
}

// Every screw is inside its piece, on its support and keeps the edge distance, and the
// spacing is exceeded by a hair at most.
func TestRowsKeepTheRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := func(lo, hi int, name string) length.Length {
			return length.Length(rapid.IntRange(lo, hi).Draw(t, name)) * length.Sixteenth
		}
		p := fasten.Piece{X: step(0, 800, "x"), Y: step(0, 800, "y"), W: step(16, 3000, "w"), H: step(16, 900, "h")}
		var supports []place.Support
		for range rapid.IntRange(0, 12).Draw(t, "supports") {
			from := step(0, 2000, "from")
			supports = append(supports, place.Support{
				Lie: place.Axis(rapid.IntRange(0, 1).Draw(t, "axis")), Pos: step(0, 3000, "at"),
				From: from, To: from + step(1, 3000, "long"), Wide: step(16, 60, "face"),
			})
		}
		r := fasten.Rule{Spacing: 12 * in, Edge: in * 3 / 8}
		c := fasten.ForPiece(p, supports, r)
		sum := 0
		for _, row := range c.Rows {
			s := supports[row.Support]
			sum += row.N
			lo, hi, a0, a1 := p.Y, p.Y+p.H, p.X, p.X+p.W
			if s.Lie == place.X {
				lo, hi, a0, a1 = a0, a1, lo, hi
			}
			if row.First < max(lo, s.From) || row.Last > min(hi, s.To) || row.First > row.Last {
				t.Fatalf("row %+v off %+v %+v", row, p, s)
			}
			if row.N > 1 && (row.First < lo+r.Edge || row.Last > hi-r.Edge || row.Last-row.First > length.Length(row.N-1)*r.Spacing+fasten.Hair) {
				t.Fatalf("row %+v breaks %+v on %+v %+v", row, r, p, s)
			}
			if s.Pos+s.Wide/2 <= a0 || s.Pos-s.Wide/2 >= a1 {
				t.Fatalf("row %+v under no board", row)
			}
		}
		if sum != c.Screws() {
			t.Fatalf("%d in rows, %d in all", sum, c.Screws())
		}
	})
}

func TestTacks(t *testing.T) {
	for board, want := range map[length.Length]int{
		12 * ft: 12, 8 * ft: 8, // common practice, no source
		11 * ft: 12, 11*ft + in: 12, 20 * in: 2, 0: 0, -ft: 0,
	} {
		total, edge := fasten.Tacks(board)
		if total != want || 2*edge != total {
			t.Errorf("Tacks(%d) = %d, %d an edge, want %d", board, total, edge, want)
		}
	}
}

func TestBoxes(t *testing.T) {
	for _, tt := range []struct{ screws, holds, spare, want int }{
		{190, 250, 0, 1},
		{1000, 1000, 0, 1},
		{1001, 1000, 0, 2},
		{1000, 1000, 5, 2},
		{950, 1000, 5, 1}, // 997.5
		{0, 1000, 5, 0},
		{500, 0, 5, 0},
	} {
		if got := (fasten.Box{Holds: tt.holds, Spare: tt.spare}).Boxes(tt.screws); got != tt.want {
			t.Errorf("%+v: got %d", tt, got)
		}
	}
}
