package square_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/big"
	"os"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/slip"
	"strapline/calc/square"
)

func fit(t testing.TB, r []square.Reading) square.Room {
	t.Helper()
	room, err := square.Fit(r)
	if err != nil {
		t.Fatal(err)
	}
	return room
}

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.9g, want %.9g", what, got, want)
	}
}

// NCERT, Mathematics for class 9, exercise 12.2, here in metres. The areas are by the
// book's method of two triangles (30 + 6 sqrt 35, as at philoid.com 7482, and 6 + 2 sqrt 21,
// method as at flexiprep.com); the numbers of the second are from memory. The other diagonal
// is by the law of cosines.
func TestTextbook(t *testing.T) {
	m := length.Metre
	one := fit(t, readings(9*m, 5*m, 12*m, 8*m, 0, 13*m))
	near(t, "1 area", one.Area(), 30+6*math.Sqrt(35), 1e-6)
	near(t, "1 angle at C", one.Angles()[2], 90, 1e-6)
	near(t, "1 AC", length.MM(one.Measure(square.NWSE)), 10813.1, 0.05)
	two := fit(t, readings(3*m, 4*m, 4*m, 5*m, 5*m, 0))
	near(t, "2 area", two.Area(), 6+2*math.Sqrt(21), 1e-6)
	near(t, "2 angle at B", two.Angles()[1], 90, 1e-6)
	near(t, "2 BD", length.MM(two.Measure(square.NESW)), 6273.5, 0.05)
	if one.Check.Crossed || one.Check.Bad {
		t.Errorf("five readings check nothing: %+v", one.Check)
	}
	// 3-4-5 and its multiples 6-8-10 and 9-12-15 ft have square corners.
	for k := length.Length(1); k <= 3; k++ {
		r := fit(t, readings(4*k*foot, 4*k*foot, 3*k*foot, 3*k*foot, 5*k*foot, 5*k*foot))
		for _, a := range r.Angles() {
			near(t, "3-4-5", a, 90, 1e-6)
		}
		if r.Check.Bad || r.Check.Misclosure != 0 {
			t.Errorf("%+v", r.Check)
		}
	}
}

// testdata/README.md gives the source of these values.
func TestGEOS(t *testing.T) {
	data, err := os.ReadFile("testdata/geos.json")
	if err != nil {
		t.Fatal(err)
	}
	var rooms []struct {
		Corners [4][2]float64
		Read    [6]float64
		Area    float64
		Points  []struct {
			At  [2]float64
			Off [4]float64
		}
	}
	if err := json.Unmarshal(data, &rooms); err != nil || len(rooms) != 8 {
		t.Fatal(err, len(rooms))
	}
	ends := [6][2]int{{0, 1}, {3, 2}, {1, 2}, {0, 3}, {0, 2}, {1, 3}}
	for _, want := range rooms {
		for missing := -1; missing < 6; missing++ { // any five lines determine the room
			var all []length.Length
			for i, e := range ends {
				a, b := want.Corners[e[0]], want.Corners[e[1]]
				l := length.Length(math.Round(1e6 * math.Hypot(b[0]-a[0], b[1]-a[1])))
				near(t, string(square.Lines[i]), length.MM(l), want.Read[i], want.Read[i]*5e-6)
				if i == missing {
					l = 0
				}
				all = append(all, l)
			}
			r := fit(t, readings(all...))
			for i, c := range r.Corners {
				near(t, "x", length.MM(c.X), want.Corners[i][0], 1e-4)
				near(t, "y", length.MM(c.Y), want.Corners[i][1], 1e-4)
			}
			near(t, "area", r.Area()*1e6, want.Area, want.Area*5e-6)
			for _, p := range want.Points {
				at := place.Point{X: length.Length(p.At[0] * 1e6), Y: length.Length(p.At[1] * 1e6)}
				off := r.Locate(at)
				for i := range off {
					near(t, "off", length.MM(off[i].L), p.Off[i], p.Off[i]*5e-6+1e-4)
				}
			}
		}
	}
}

// The same least-squares problem solved in another way: adjust the lengths under the
// condition that the Cayley-Menger determinant of four points in a plane is 0 (Lagrange
// multipliers; Menger 1928), in 300-bit floats.
func TestAdjustedByConditions(t *testing.T) {
	for _, in := range [][6]float64{
		{144, 144, 108, 108, 180, 180.5}, {160.5, 160.75, 141, 140.875, 213.75, 213.875}, {100, 172, 96, 120, 140, 168}, {300, 296, 90, 97, 309, 318},
	} {
		var all []length.Length
		for _, v := range in {
			all = append(all, length.Length(v*float64(length.Inch)))
		}
		r, err := square.Fit(readings(all...))
		if err != nil {
			t.Fatal(in, err)
		}
		for i, v := range byConditions(in) {
			near(t, string(square.Lines[i]), float64(r.Residuals[i])/float64(length.Inch), v, 1e-6)
		}
	}
}

func num(v float64) *big.Float { return new(big.Float).SetPrec(300).SetFloat64(v) }

func byConditions(read [6]float64) (v [6]float64) {
	var got [6]*big.Float
	for i := range got {
		got[i] = num(0)
	}
	at := func(i int, h float64) *big.Float { // the determinant with length i changed by h
		var d [6]*big.Float
		for k := range d {
			d[k] = num(0).Add(num(read[k]), got[k])
			if k == i {
				d[k].Add(d[k], num(h))
			}
			d[k].Mul(d[k], d[k])
		}
		n, s, e, w, p, q := d[0], d[1], d[2], d[3], d[4], d[5]
		z, o := num(0), num(1)
		return det([][]*big.Float{{z, o, o, o, o}, {o, z, n, p, w}, {o, n, z, e, q}, {o, p, e, z, s}, {o, w, q, s, z}})
	}
	for range 60 {
		const h = 1e-30
		var g [6]*big.Float
		gg, gv := num(0), num(0)
		for i := range g {
			g[i] = num(0).Sub(at(i, h), at(i, -h))
			g[i].Quo(g[i], num(2*h))
			gg.Add(gg, num(0).Mul(g[i], g[i]))
			gv.Add(gv, num(0).Mul(g[i], got[i]))
		}
		k := num(0).Sub(gv, at(-1, 0))
		k.Quo(k, gg)
		for i := range g {
			got[i] = num(0).Mul(k, g[i])
		}
	}
	for i := range v {
		v[i], _ = got[i].Float64()
	}
	return v
}

func det(m [][]*big.Float) *big.Float {
	if len(m) == 1 {
		return m[0][0]
	}
	sum := num(0)
	for c := range m {
		var minor [][]*big.Float
		for _, row := range m[1:] {
			minor = append(minor, append(append([]*big.Float{}, row[:c]...), row[c+1:]...))
		}
		part := num(0).Mul(m[0][c], det(minor))
		if c%2 == 1 {
			part.Neg(part)
		}
		sum.Add(sum, part)
	}
	return sum
}

// quads draws the corners of a room about 8 to 40 ft each way.
func quads(t *rapid.T) [4][2]float64 {
	w, h := rapid.Float64Range(96, 480).Draw(t, "w"), rapid.Float64Range(96, 480).Draw(t, "h")
	j := func(v float64) float64 { return v * rapid.Float64Range(-0.1, 0.1).Draw(t, "lean") }
	return [4][2]float64{{0, 0}, {w + j(w), 0}, {w + j(w), h + j(h)}, {j(w), h + j(h)}}
}

func measure(q [4][2]float64) (d [6]float64) {
	for i, e := range [6][2]int{{0, 1}, {3, 2}, {1, 2}, {0, 3}, {0, 2}, {1, 3}} {
		d[i] = math.Hypot(q[e[1]][0]-q[e[0]][0], q[e[1]][1]-q[e[0]][1])
	}
	return d
}

func taped(inches float64) length.Length {
	return length.RoundNearest(length.Length(inches*float64(in)), length.Imperial)
}

// Readings to 1/16 in are off by up to 1/32 in each, and least squares never makes the
// vector of errors longer, so fitted lengths are within sqrt(6)/32 in of the true ones.
func TestRecoversRooms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := quads(t)
		d := measure(q)
		var all []length.Length
		for _, v := range d {
			all = append(all, taped(v))
		}
		r, err := square.Fit(readings(all...))
		if err != nil {
			t.Fatal(err)
		}
		if r.Check.Bad {
			t.Fatalf("honest readings are called bad: %+v", r.Check)
		}
		sum, sides := 0.0, 0.0
		for i, l := range square.Lines {
			if off := math.Abs(float64(r.Measure(l))/float64(in) - d[i]); off > 1.02*math.Sqrt(6)/32 {
				t.Fatalf("%s is %.4f in off", l, off)
			}
		}
		for i, a := range r.Angles() {
			sum += a
			sides += math.Hypot(float64(r.Corners[i].X)/float64(in)-q[i][0], float64(r.Corners[i].Y)/float64(in)-q[i][1])
		}
		if math.Abs(sum-360) > 1e-9 || sides > 8*math.Sqrt(6)/32 {
			t.Fatalf("angles sum to %v, corners are %v in off together", sum, sides)
		}
	})
}

// Any readings, in any number, give a convex room or an *Error.
func TestAnyReadings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var all []square.Reading
		for range rapid.IntRange(0, 12).Draw(t, "n") {
			l := rapid.OneOf(rapid.Int64Range(1, int64(square.Most)), rapid.Int64Range(int64(100*in), int64(200*in)), rapid.Int64()).Draw(t, "l")
			all = append(all, square.Reading{Line: rapid.SampledFrom(square.Lines[:]).Draw(t, "line"), L: length.Length(l)})
		}
		r, err := square.Fit(all)
		if err != nil {
			if _, ok := errors.AsType[*square.Error](err); !ok {
				t.Fatal(err)
			}
			return
		}
		sum := 0.0
		for _, a := range r.Angles() {
			sum += a
			if !(0 < a && a < 180) {
				t.Fatalf("an angle of %v", a)
			}
		}
		if math.Abs(sum-360) > 1e-9 || !(r.Area() > 0) || len(r.Each) != len(all) {
			t.Fatalf("%+v", r)
		}
		r.Gaps(48 * in)
		r.Rips(r.Control(place.NS, 48*in), 48*in, in/4, length.Metric)
	})
}

// A point resolved from two walls is at those distances off them, and vice versa.
func TestResolveAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := measure(quads(t))
		r, err := square.Fit(readings(taped(d[0]), taped(d[1]), taped(d[2]), taped(d[3]), taped(d[4]), 0))
		if err != nil {
			t.Fatal(err)
		}
		a := square.Off{Wall: rapid.SampledFrom([]place.Wall{place.North, place.South}).Draw(t, "a"), L: taped(rapid.Float64Range(20, 60).Draw(t, "off a"))}
		b := square.Off{Wall: rapid.SampledFrom([]place.Wall{place.East, place.West}).Draw(t, "b"), L: taped(rapid.Float64Range(20, 60).Draw(t, "off b"))}
		if rapid.Bool().Draw(t, "swap") {
			a, b = b, a
		}
		p := r.Resolve(a, b)
		for _, o := range r.Locate(p) {
			if want := map[place.Wall]length.Length{a.Wall: a.L, b.Wall: b.L}[o.Wall]; want != 0 && max(o.L-want, want-o.L) > 2 {
				t.Fatalf("%v off %s, want %v", o.L, o.Wall, want)
			}
		}
	})
}

// With three readings of each line, a reading an inch off is named, and one a foot off with
// the slip as well. With one reading of each, it is detected but never named.
func TestNamesTheBadReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := measure(quads(t))
		var three, one []square.Reading
		for range 3 {
			for i, v := range d {
				three = append(three, square.Reading{Line: square.Lines[i], L: taped(v)})
			}
		}
		bad := rapid.IntRange(0, len(three)-1).Draw(t, "bad")
		one = append(one, three[:6]...)
		by := rapid.SampledFrom([]length.Length{in, -in, foot, -foot}).Draw(t, "by")
		right := three[bad].L
		three[bad].L += by
		r, err := square.Fit(three)
		if err != nil {
			t.Fatal(err)
		}
		if !r.Check.Bad || r.Check.Named != bad {
			t.Fatalf("%s is off by an inch or more: %+v", three[bad].Line, r.Check)
		}
		if off := r.Measure(three[bad].Line) - right; max(off, -off) > in/8 {
			t.Fatalf("the named reading still counts: %v off", length.Format(off, length.Imperial))
		}
		if by == foot || by == -foot {
			s := r.Check.Suspects
			if len(s) == 0 || s[0].Kind != slip.FootOut || s[0].L != right || s[0].Index != bad {
				t.Fatalf("suspects %+v", s)
			}
		}
		one[4].L += in // an inch on a diagonal adds at least a quarter of a square inch to the sum of squares
		r, err = square.Fit(one)
		if err != nil {
			t.Fatal(err)
		}
		if !r.Check.Bad || r.Check.Named >= 0 {
			t.Fatalf("six readings, one bad: %+v", r.Check)
		}
	})
}

// Swapped digits or a burned inch are suspected if they would close the figure.
func TestSuspects(t *testing.T) {
	for _, tc := range []struct {
		kind        slip.Kind
		said, meant length.Length
	}{
		{slip.DigitsSwapped, 126 * in, 162 * in}, {slip.InchBurned, 163 * in, 162 * in}, {slip.TenBurned, 172 * in, 162 * in}, {slip.FootOut, 174 * in, 162 * in},
	} {
		d := math.Hypot(162, 140)
		r := fit(t, readings(tc.said, 162*in, 140*in, 140*in, taped(d), taped(d)))
		found := false
		for _, s := range r.Check.Suspects {
			found = found || s.Index == 0 && s.Kind == tc.kind && s.L == tc.meant
		}
		if !r.Check.Bad || r.Check.Named != -1 || !found {
			t.Errorf("%s: %+v", tc.kind, r.Check)
		}
	}
}

// In the room of ExampleCheck, 10 in burned on a diagonal closes it too, but not as well.
func TestBestSuspectFirst(t *testing.T) {
	r := fit(t, readings(11*foot, 12*foot, 9*foot, 9*foot, 15*foot, 15*foot))
	if s := r.Check.Suspects; len(s) != 3 || s[0].Kind != slip.FootOut || s[1].Kind != slip.TenBurned {
		t.Errorf("got %+v", s)
	}
}

// The 99 % quantile of chi-square with 1 degree of freedom is 6.635 (any table, such as
// NIST/SEMATECH e-Handbook of Statistical Methods 1.3.6.7.4; from memory). In a rectangle a
// misclosure M gives a sum of squares of M^2/4, so readings are bad from
// 2 x sqrt(6.635)/16 = 0.322 in.
func TestWhereBadBegins(t *testing.T) {
	for _, tc := range []struct {
		sixteenths length.Length
		bad        bool
	}{{4, false}, {5, false}, {6, true}, {-5, false}, {-6, true}} {
		r := fit(t, readings(12*foot, 12*foot, 9*foot, 9*foot, 15*foot, 15*foot+tc.sixteenths*length.Sixteenth))
		if r.Check.Bad != tc.bad || r.Check.Misclosure != tc.sixteenths*length.Sixteenth {
			t.Errorf("%d/16: %+v", tc.sixteenths, r.Check)
		}
	}
}

func TestRefused(t *testing.T) {
	for _, tc := range []struct {
		r    []square.Reading
		kind square.ErrorKind
		n    int
	}{
		{readings(9*foot, 9*foot, 12*foot, 0, 15*foot, 0), square.Few, 2},
		{readings(9*foot, 9*foot, 12*foot, 12*foot, 30*foot, 0), square.NoCorners, 3},
		{readings(9*foot, 9*foot, 12*foot, -12*foot, 15*foot), square.BadLength, 1},
		{[]square.Reading{{Line: "up", L: foot}}, square.BadLength, 1},
		{make([]square.Reading, square.MostReadings+1), square.TooMany, 0},
		{nil, square.Few, 6},
		{readings(square.Most+1, square.Most, 12*foot, 12*foot, square.Most), square.BadLength, 1},
		// South-east is a hair off the line from north-east to south-west.
		{readings(100*in, 70710700*in/1000000, 70710700*in/1000000, 100*in, 70710700*in/1000000), square.NoCorners, 6},
		// A dart: north-west at 0, 0, and a reflex corner south-east at 30, 30.
		{readings(taped(100), taped(76.16), taped(76.16), taped(100), taped(42.43), taped(141.42)), square.NoCorners, 6},
	} {
		_, err := square.Fit(tc.r)
		e, ok := errors.AsType[*square.Error](err)
		if !ok || e.Kind != tc.kind || len(e.Lines) != tc.n || e.Error() == "" {
			t.Errorf("%v: got %v, want %s with %d lines", tc.r, err, tc.kind, tc.n)
		}
	}
}
