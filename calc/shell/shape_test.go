package shell_test

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/locate"
	"strapline/calc/place"
	"strapline/calc/site"
)

// measured is a job of one room whose four corners were taped, exactly, to bare framing.
func measured(t interface{ Fatal(...any) }, corners [4][2]float64, more ...event.Body) *site.State {
	d := func(i, k int) length.Length {
		return length.Length(math.Round(math.Hypot(corners[k][0]-corners[i][0], corners[k][1]-corners[i][1]) * float64(length.Inch)))
	}
	st := site.New()
	for i, b := range append([]event.Body{
		event.RoomSize{Room: "den", EW: d(0, 1), NS: d(0, 3), High: 96 * length.Inch},
		event.Square{Room: "den", Readings: []event.Reading{
			{Line: "north", L: d(0, 1)}, {Line: "south", L: d(3, 2)}, {Line: "east", L: d(1, 2)}, {Line: "west", L: d(0, 3)},
			{Line: "nw-se", L: d(0, 2)}, {Line: "ne-sw", L: d(1, 3)},
		}},
	}, more...) {
		if err := st.Apply(event.Event{Seq: uint64(i + 1), Who: "lead", Sent: int64(i + 1), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return st
}

func leaning(t *rapid.T) [4][2]float64 {
	w, h := rapid.Float64Range(96, 300).Draw(t, "w"), rapid.Float64Range(96, 300).Draw(t, "h")
	j := func(l string) float64 { return rapid.Float64Range(-6, 6).Draw(t, l) }
	return [4][2]float64{{0, 0}, {w, 0}, {w + j("se x"), h + j("se y")}, {j("sw x"), h + j("sw y")}}
}

// offLine is how far p is inside the line from a to b, clockwise, in 200-bit floats: twice the triangle's area over the base.
func offLine(a, b, p [2]float64) float64 {
	f := func(v float64) *big.Float { return new(big.Float).SetPrec(200).SetFloat64(v) }
	sub := func(x, y float64) *big.Float { return new(big.Float).Sub(f(x), f(y)) }
	mul := func(x, y *big.Float) *big.Float { return new(big.Float).SetPrec(200).Mul(x, y) }
	dx, dy := sub(b[0], a[0]), sub(b[1], a[1])
	cross := new(big.Float).Sub(mul(dx, sub(p[1], a[1])), mul(dy, sub(p[0], a[0])))
	base := new(big.Float).Add(mul(dx, dx), mul(dy, dy))
	out, _ := new(big.Float).Quo(cross, base.Sqrt(base)).Float64()
	return out
}

// What is noted by its distances off any two walls that meet is found at its true distances off all four, and comes back as
// it was noted; a wall that is boarded afterwards is answered from its board.
func TestTrueWalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := leaning(t)
		p := [2]float64{rapid.Float64Range(12, 80).Draw(t, "x"), rapid.Float64Range(12, 80).Draw(t, "y")}
		var off [4]length.Length
		for i := range off {
			off[i] = length.Length(math.Round(offLine(q[i], q[(i+1)%4], p) * float64(length.Inch)))
		}
		i := rapid.IntRange(0, 3).Draw(t, "wall")
		k := (i + 1) % 4
		fixes := []place.Fix{
			{How: place.OffWall, Wall: place.Walls[i], Said: length.Said{L: off[i]}}, {How: place.OffWall, Wall: place.Walls[k], Said: length.Said{L: off[k]}},
		}
		thick := length.Inch / 2
		st := measured(t, q, event.Thing{Room: "den", Name: "d1", What: "duct", Surface: place.Ceiling, Fixes: fixes}, event.Boarded{Room: "den", Wall: place.East, Thick: thick})
		r := st.Room("den")
		if _, leans := r.Shell().Shape(); !leans {
			t.Skip("a rectangle to 1/16 in")
		}
		th := r.Thing("d1")
		seen := 0
		for _, s := range locate.From(th) {
			for w, wall := range place.Walls {
				if s.Kind != locate.Wall || s.Ref != string(wall) {
					continue
				}
				want := off[w]
				if wall == place.East {
					want -= thick
				}
				seen++
				if d := s.Dist - want; d > 50 || d < -50 {
					t.Fatalf("%s: %d nm from its true distance", wall, d)
				}
			}
		}
		from := r.Shell().FromStart(place.Ceiling, th.At())
		if d := max(from.X-off[3], off[3]-from.X, from.Y-off[0], off[0]-from.Y); seen != 4 || d > 50 {
			t.Fatalf("%d walls; off west and north by %d nm", seen, d)
		}
		if !r.Shell().Inside(place.Ceiling, th.At()) {
			t.Fatal("outside")
		}
	})
}

// Where the true shape makes no difference over 1/16 in the room stays the rectangle that was said, and places stay exact.
func TestSquareEnough(t *testing.T) {
	in := func(w, h float64) *site.Room {
		return measured(t, [4][2]float64{{0, 0}, {144, 0}, {144 + w, 120 + h}, {0, 120}}).Room("den")
	}
	if _, leans := in(0.06, 0.06).Shell().Shape(); leans {
		t.Error("1/16 in counts")
	}
	if _, leans := in(0.07, 0).Shell().Shape(); !leans {
		t.Error("more does not")
	}
	if _, leans := in(-10, 20).Shell().Shape(); !leans {
		t.Error("far out does not")
	}
}

// Readings that do not close, or are of a room of another size, are kept and not worked from.
func TestNoShape(t *testing.T) {
	d := [4][2]float64{{0, 0}, {144, 0}, {145, 120}, {0, 120}}
	in := length.Inch
	st := measured(t, d, event.Strike{Seq: 2}, event.Square{Room: "den", Readings: []event.Reading{
		{Line: "north", L: 144 * in}, {Line: "south", L: 145 * in}, {Line: "east", L: 120 * in}, {Line: "west", L: 120 * in}, {Line: "nw-se", L: 188 * in}, {Line: "ne-sw", L: 186 * in},
	}})
	if _, leans := st.Room("den").Shell().Shape(); leans {
		t.Error("a bad diagonal is worked from")
	}
	st = measured(t, d, event.RoomSize{Room: "den", EW: 150 * length.Inch, NS: 120 * length.Inch})
	if _, leans := st.Room("den").Shell().Shape(); leans {
		t.Error("a room of another size")
	}
	st = measured(t, d, event.Strike{Seq: 2})
	if _, leans := st.Room("den").Shell().Shape(); leans {
		t.Error("struck readings")
	}
}
