package slip_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/slip"
)

func TestMisread(t *testing.T) {
	got := func(l length.Length, f slip.Form) map[string]bool {
		m := map[string]bool{}
		for _, r := range slip.Misread(l, f) {
			m[string(r.Kind)+" "+length.Canon(r.L)] = true
		}
		return m
	}
	mm := length.Millimetre
	for _, tc := range []struct {
		said  length.Length
		form  slip.Form
		meant []string
	}{
		{26 * in, slip.Inches, []string{`digits swapped 62"`, `foot out 38"`, `foot out 14"`, `inch burned 25"`, `ten burned 16"`, `mm for in 26 mm`}},
		{116*in + 5*in/8, slip.Inches, []string{`digits swapped 161-5/8"`, `foot out 128-5/8"`, `foot out 104-5/8"`, `inch burned 115-5/8"`, `ten burned 106-5/8"`,
			`sixteenths 116-3/8"`, `sixteenths 116-5/16"`, `mm for in 116.625 mm`}},
		{116*in + 5*in/8, slip.FeetInches, []string{`foot out 128-5/8"`, `foot out 104-5/8"`, `inch burned 115-5/8"`, `ten burned 106-5/8"`, `sixteenths 116-3/8"`, `sixteenths 116-5/16"`}},
		{(21*12 + 10) * in, slip.FeetInches, []string{`digits swapped 154"`, `foot out 274"`, `foot out 250"`, `inch burned 261"`, `ten burned 252"`}},
		{4*in + 5*in/16, slip.FeetInches, []string{`foot out 16-5/16"`, `inch burned 3-5/16"`, `sixteenths 4-11/16"`, `sixteenths 4-5/8"`}},
		{2962 * mm, slip.Millimetres, []string{`digits swapped 9262 mm`, `digits swapped 2692 mm`, `digits swapped 2926 mm`, `hundred burned 2862 mm`}},
		{26 * mm, slip.Millimetres, []string{`digits swapped 62 mm`, `mm for in 26"`}},
		{8*in + in/2, slip.FeetInches, []string{`foot out 20-1/2"`, `inch burned 7-1/2"`}},
	} {
		want := map[string]bool{}
		for _, m := range tc.meant {
			want[m] = true
		}
		sum := map[slip.Kind]float64{}
		for _, r := range slip.Misread(tc.said, tc.form) {
			sum[r.Kind] += r.Weight
		}
		for k, w := range sum {
			if math.Abs(w-1000*per(k)) > 1e-9 {
				t.Errorf("%s %s: the outcomes weigh %v together", length.Canon(tc.said), k, w)
			}
		}
		if g := got(tc.said, tc.form); fmt.Sprint(g) != fmt.Sprint(want) {
			t.Errorf("%s %q:\n got %v\nwant %v", length.Canon(tc.said), tc.form, g, want)
		}
	}
}

// straps run east-west at 16 in.
func straps(s slip.Scene, wide length.Length) slip.Scene {
	for y := 8 * in; y < s.H; y += 16 * in {
		s.Supports = append(s.Supports, place.Support{Kind: place.Straps, N: len(s.Supports) + 1, Run: place.EW, Lie: place.X, Pos: y, To: s.W, Wide: wide})
	}
	return s
}

func from(s slip.Scene, n int, d place.Wall, l length.Length) slip.Coord {
	return slip.Coord{Fix: place.Fix{How: place.DirOf, Said: length.Said{L: l}, Dir: d, Of: place.Of{Sup: place.Straps, N: n}}, From: s.Supports[n-1].Pos, Grows: d == place.South || d == place.East}
}

func kinds(ps []slip.Probe) []slip.Kind {
	var out []slip.Kind
	for _, p := range ps {
		out = append(out, p.Kind())
	}
	return out
}

// find is the index of the first probe with a way at p that has a slip of that kind.
func find(ps []slip.Probe, k slip.Kind, p place.Point) int {
	return slices.IndexFunc(ps, func(o slip.Probe) bool {
		return slices.ContainsFunc(o.Ways, func(w slip.Way) bool { return w.At == p && len(w.Reasons) == 1 && w.Reasons[0].Kind == k })
	})
}

// Every kind of slip leads to its own place, for a 1 in thing with no supports in the way.
func TestEachKind(t *testing.T) {
	s := straps(slip.Scene{W: 160 * in, H: 140 * in}, 2*in+in/2)
	at := place.Point{X: 26*in + 5*in/8, Y: 45 * in} // strap 3 is at 40
	s.Empty = []place.Point{at}
	s.Twins = []slip.Twin{{Room: "bath 2", At: place.Point{X: 77 * in, Y: 77 * in}}}
	x := off(s, place.West, at.X)
	x.Board = in / 2
	n := slip.Note{X: x, Y: from(s, 3, place.South, 5*in), Size: place.Size{A: in / 2}}
	wide := straps(slip.Scene{W: s.W, H: s.H}, 0) // of no width, so that nothing is across them
	wide.Empty, wide.Twins = s.Empty, s.Twins
	ps := slip.Missed(wide, n)
	for k, p := range map[slip.Kind]place.Point{
		slip.Mirror: {X: 160*in - at.X, Y: at.Y}, slip.Face: {X: at.X + in/2, Y: at.Y}, slip.FootOut: {X: at.X - 12*in, Y: at.Y},
		slip.InchBurned: {X: at.X - in, Y: at.Y}, slip.TenBurned: {X: at.X - 10*in, Y: at.Y}, slip.DigitsSwapped: {X: 62*in + 5*in/8, Y: at.Y},
		slip.Sixteenths: {X: at.X - 5*in/16, Y: at.Y}, slip.MMForInch: {X: at.X / 254 * 10, Y: at.Y}, slip.Edge: {X: at.X + in/4, Y: at.Y},
		slip.OtherSide: {X: at.X, Y: 35 * in}, slip.NextSupport: {X: at.X, Y: 61 * in}, slip.WrongRoom: {X: 77 * in, Y: 77 * in},
		slip.Swapped: {X: 5 * in, Y: 40*in + at.X},
	} {
		if find(ps, k, p) < 0 {
			t.Errorf("%s: nothing at %s %s", k, length.Canon(p.X), length.Canon(p.Y))
		}
	}
	if find(ps, slip.NextSupport, place.Point{X: at.X, Y: 29 * in}) > 1 || find(ps, slip.NextSupport, place.Point{X: at.X, Y: 61 * in}) > 1 {
		t.Errorf("the straps beside do not come first: %v", kinds(ps[:4]))
	}
	// Half of a support's face: from its near edge instead of its centre, and vice versa.
	tiny := straps(slip.Scene{W: 160 * in, H: 140 * in, Empty: s.Empty}, 2*in)
	if find(slip.Missed(tiny, n), slip.SupportEdge, place.Point{X: at.X, Y: at.Y + in}) < 0 {
		t.Error("no support edge")
	}
	n.Y.Edge, n.Y.From = true, n.Y.From+in
	tiny.Empty[0].Y += in
	if find(slip.Missed(tiny, n), slip.SupportEdge, place.Point{X: at.X, Y: at.Y}) < 0 {
		t.Error("no support centre")
	}
	// Said to the edge but meant to the centre; and said off the board but meant off the studs.
	n.X.ToEdge, n.X.Face = true, place.BoardFace
	noted := n.Place()
	if noted.X != at.X+in/4 {
		t.Errorf("to edge puts it at %s", length.Canon(noted.X))
	}
	tiny.Empty = []place.Point{noted}
	ps = slip.Missed(tiny, n)
	if find(ps, slip.Edge, place.Point{X: at.X, Y: noted.Y}) < 0 || find(ps, slip.Face, place.Point{X: noted.X - in/2, Y: noted.Y}) < 0 {
		t.Error("to edge, or off the board")
	}
	// East and south grow the other way: a foot less off east is further east.
	e := slip.Note{X: off(s, place.East, 30*in), Y: off(s, place.South, 50*in), Size: place.Size{A: in}}
	ps = slip.Missed(slip.Scene{W: 160 * in, H: 140 * in, Empty: []place.Point{e.Place()}}, e)
	if find(ps, slip.InchBurned, place.Point{X: 131 * in, Y: 90 * in}) < 0 || find(ps, slip.Edge, place.Point{X: 129*in + in/2, Y: 90 * in}) < 0 {
		t.Error("off east")
	}
}

// A thing noted on a strap's line may be on the next one.
func TestOnLine(t *testing.T) {
	s := straps(slip.Scene{W: 160 * in, H: 140 * in}, 2*in+in/2)
	n := slip.Note{X: off(s, place.West, 26*in), Y: slip.Coord{Fix: place.Fix{How: place.OnLine, Of: place.Of{Sup: place.Straps, N: 1}}, From: 8 * in, Grows: true}, Size: place.Size{A: 4 * in, B: 4 * in}}
	s.Empty = []place.Point{n.Place()}
	if p := slip.Missed(s, n)[0]; p.Kind() != slip.NextSupport || p.At != (place.Point{X: 26 * in, Y: 24 * in}) {
		t.Errorf("got %+v", p)
	}
}

// Shares by hand, for the note of ExampleMissed. On either axis the slips add up to
// 30 + 12 + 8 + 2 + 8 + 3 + 12 = 75 per thousand, so 0.925 have none; 0.02 of notes are
// swapped. The opposite wall in x alone weighs 0.03 x 0.925, swapped 0.02 x 0.925^2, and
// a foot less in x with the opposite wall in y 0.006 x 0.03; all but swapped times 0.98.
func TestShares(t *testing.T) {
	s := slip.Scene{W: 160 * in, H: 140 * in, Empty: []place.Point{{X: 26 * in, Y: 41 * in}}}
	n := slip.Note{X: off(s, place.West, 26*in), Y: off(s, place.North, 41*in), Size: place.Size{A: 6 * in}}
	share := map[place.Point]float64{}
	sum := 0.0
	for _, p := range slip.Missed(s, n) {
		for _, w := range p.Ways {
			share[w.At] += w.Share
			sum += w.Share
		}
	}
	mirror := share[place.Point{X: 134 * in, Y: 41 * in}]
	for p, want := range map[place.Point]float64{{X: 41 * in, Y: 26 * in}: 0.02 * 0.925 / (0.03 * 0.98), {X: 14 * in, Y: 99 * in}: 0.006 / 0.925} {
		if got := share[p] / mirror; math.Abs(got-want) > 1e-9 {
			t.Errorf("%v: %v of the other wall's, want %v", p, got, want)
		}
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("all sum to %v", sum)
	}
}

// A neighbouring strap is one of the same set, not a joist or a strap in the other direction.
// But a thing noted clear of supports is not across one in the other direction, either.
func TestOtherSupports(t *testing.T) {
	s := straps(slip.Scene{W: 160 * in, H: 140 * in}, 2*in)
	n := slip.Note{X: off(s, place.West, 26*in), Y: from(s, 3, place.South, 6*in), Size: place.Size{A: 4 * in}}
	s.Empty = []place.Point{n.Place()}
	s.Supports = append(s.Supports,
		place.Support{Kind: place.Joists, N: 1, Lie: place.X, Pos: 45 * in, To: 20 * in},
		place.Support{Kind: place.Straps, N: 20, Lie: place.Y, Pos: 45 * in, From: 130 * in, To: 140 * in, Wide: 2 * in},
		place.Support{Kind: place.Joists, N: 2, Lie: place.Y, Pos: 136 * in, Wide: in})
	ps := slip.Missed(s, n)
	for i, y := range []length.Length{62 * in, 30 * in} {
		if ps[i].Kind() != slip.NextSupport || ps[i].At.Y != y && ps[i].At.Y != 92*in-y {
			t.Errorf("probe %d: %+v", i, ps[i])
		}
	}
	if find(ps, slip.Mirror, place.Point{X: 134 * in, Y: 46 * in}) >= 0 {
		t.Error("132 to 136 in is across a joist of 135-1/2 to 136-1/2")
	}
}

// In line with a mark, no distance was said on that axis, so none was misread.
func TestInLine(t *testing.T) {
	s := slip.Scene{W: 160 * in, H: 140 * in}
	n := slip.Note{Size: place.Size{A: 4 * in},
		X: slip.Coord{Fix: place.Fix{How: place.DirOf, Said: length.Said{L: 20 * in}, Dir: place.East, Of: place.Of{Name: "a"}}, From: 50 * in, Grows: true},
		Y: slip.Coord{Fix: place.Fix{How: place.DirOf, Dir: place.East, Of: place.Of{Name: "a"}}, From: 60 * in, Grows: true}}
	s.Empty = []place.Point{n.Place()}
	ps := slip.Missed(s, n)
	if p := ps[0]; p.Kind() != slip.OtherSide || p.At != (place.Point{X: 30 * in, Y: 60 * in}) {
		t.Errorf("got %+v", p)
	}
	for _, p := range ps {
		for _, w := range p.Ways {
			if w.At.Y != 60*in {
				t.Errorf("got %+v", w)
			}
		}
	}
}

// A wall of unknown height has no upper bound and no mirror image.
func TestHeightNotKnown(t *testing.T) {
	n := slip.Note{X: off(slip.Scene{W: 160 * in}, place.West, 26*in), Y: slip.Coord{Fix: place.Fix{How: place.UpFrom, Said: length.Said{L: 16 * in}}, Grows: true}, Size: place.Size{A: 2 * in, B: 4 * in}}
	ps := slip.Missed(slip.Scene{W: 160 * in, Empty: []place.Point{n.Place()}}, n)
	if find(ps, slip.FootOut, place.Point{X: 26 * in, Y: 28 * in}) < 0 || find(ps, slip.Mirror, place.Point{X: 134 * in, Y: 16 * in}) < 0 {
		t.Errorf("got %v", kinds(ps))
	}
	n.X.Wall, n.X.How = "", place.Along
	if ps := slip.Missed(slip.Scene{W: 160 * in, Empty: []place.Point{n.Place()}}, n); slices.Contains(kinds(ps), slip.Mirror) || slices.Contains(kinds(ps), slip.Face) {
		t.Errorf("got %v", kinds(ps))
	}
}

// If a run passes over the place, the hole is beside its strip but inside the opening, or
// there is none if the strip covers the opening.
func TestRunOverThePlace(t *testing.T) {
	s := slip.Scene{W: 160 * in, H: 140 * in, Empty: []place.Point{{X: 26 * in, Y: 41 * in}}}
	n := slip.Note{X: off(s, place.West, 26*in), Y: off(s, place.North, 41*in), Size: place.Size{A: 6 * in}}
	mirror := place.Point{X: 134 * in, Y: 41 * in}
	for half, dx := range map[length.Length]length.Length{in: 3 * in / 2, 2 * in: 9 * in / 4} {
		s.Runs = []slip.Run{{Path: []place.Point{{X: 134 * in}, {X: 134 * in, Y: 140 * in}}, Half: half}}
		ps := slip.Missed(s, n)
		i := find(ps, slip.Mirror, mirror)
		if i < 0 || ps[i].At != (place.Point{X: 134*in + dx, Y: 41 * in}) {
			t.Errorf("strip of %s: %d", length.Canon(2*half), i)
		}
	}
	s.Runs[0].Half = 3 * in
	if find(slip.Missed(s, n), slip.Mirror, mirror) >= 0 {
		t.Error("drilled through the strip")
	}
}

// If no hole was made at the noted place, that comes first. A hole inside the opening there,
// though off its centre, has tested it.
func TestHoleElsewhere(t *testing.T) {
	s := slip.Scene{W: 160 * in, H: 140 * in, Empty: []place.Point{{X: 36 * in, Y: 41 * in}}}
	n := slip.Note{X: off(s, place.West, 26*in), Y: off(s, place.North, 41*in), Size: place.Size{A: 6 * in}}
	if p := slip.Missed(s, n)[0]; p.At != n.Place() || p.Kind() != slip.Elsewhere || p.Share < 0.7 {
		t.Errorf("got %+v", p)
	}
	strap := straps(s, 2*in)
	n.Y = from(strap, 3, place.South, 4*in)
	if p := slip.Missed(strap, n)[0]; p.At != n.Place() || p.Kind() != slip.Elsewhere {
		t.Errorf("off a strap: got %+v", p)
	}
	n.Y = off(s, place.North, 41*in)
	s.Empty[0].X = 28 * in
	for _, p := range slip.Missed(s, n) {
		if p.At == n.Place() || p.Kind() == slip.Elsewhere {
			t.Errorf("got %+v", p)
		}
	}
}

// A thing found where a person noted it, off the same wall, rules out the habits of that
// person at that wall, but nobody else's.
func TestOpenedDisproves(t *testing.T) {
	s := slip.Scene{W: 160 * in, H: 140 * in, Empty: []place.Point{{X: 26 * in, Y: 41 * in}}}
	n := slip.Note{Who: "sparks", X: off(s, place.West, 26*in), Y: off(s, place.North, 41*in), Size: place.Size{A: 6 * in}}
	x, y, foot := place.Point{X: 134 * in, Y: 41 * in}, place.Point{X: 26 * in, Y: 99 * in}, place.Point{X: 38 * in, Y: 41 * in}
	s.Opened = []slip.Opened{{Who: "sparks", Walls: []place.Wall{place.West}, At: place.Point{X: 80 * in, Y: 80 * in}, Size: place.Size{A: 4 * in}}}
	ps := slip.Missed(s, n)
	if find(ps, slip.Mirror, x) >= 0 || find(ps, slip.Mirror, y) < 0 || find(ps, slip.FootOut, foot) < 0 {
		t.Error("sparks' west is proved, north is not, and a foot out is nobody's habit")
	}
	s.Opened[0].Who = "plumber"
	if find(slip.Missed(s, n), slip.Mirror, x) < 0 {
		t.Error("the plumber's notes prove nothing of the sparks'")
	}
	s.Opened[0].At = place.Point{X: 134 * in, Y: 44 * in}
	if find(slip.Missed(s, n), slip.Mirror, x) >= 0 {
		t.Error("the plumber's open hole is there")
	}
}

func scene(t *rapid.T) (slip.Scene, slip.Note) {
	inch := func(lo, hi int, name string) length.Length {
		return length.Length(rapid.IntRange(lo*8, hi*8).Draw(t, name)) * in / 8
	}
	s := slip.Scene{W: inch(60, 240, "w"), H: inch(60, 200, "h")}
	if rapid.Bool().Draw(t, "straps") {
		s = straps(s, 2*in+in/2)
	}
	if rapid.Bool().Draw(t, "notch") {
		s.Less = []place.Rect{{X0: s.W - 30*in, Y0: 0, X1: s.W, Y1: 20 * in}}
	}
	for range rapid.IntRange(0, 3).Draw(t, "runs") {
		a, b := inch(0, 200, "a"), inch(0, 200, "b")
		s.Runs = append(s.Runs, slip.Run{Path: []place.Point{{X: a}, {X: b, Y: s.H / 2}, {X: b, Y: s.H}}, Half: inch(0, 4, "half")})
	}
	n := slip.Note{Size: rapid.SampledFrom([]place.Size{{}, {A: 6 * in}, {A: 4 * in, B: 10 * in}, {A: 2 * in, B: 4 * in}}).Draw(t, "size")}
	n.X = off(s, rapid.SampledFrom([]place.Wall{place.West, place.East}).Draw(t, "x"), inch(6, 50, "off x"))
	n.X.Board = in / 2
	n.Y = off(s, rapid.SampledFrom([]place.Wall{place.North, place.South}).Draw(t, "y"), inch(6, 50, "off y"))
	if len(s.Supports) > 0 && rapid.Bool().Draw(t, "strap") {
		n.Y = from(s, rapid.IntRange(1, len(s.Supports)).Draw(t, "n"), place.South, inch(2, 8, "south of"))
	}
	s.Empty = append(s.Empty, n.Place())
	for range rapid.IntRange(0, 2).Draw(t, "opened") {
		s.Opened = append(s.Opened, slip.Opened{At: place.Point{X: inch(0, 60, "ox"), Y: inch(0, 60, "oy")}, Size: place.Size{A: 6 * in}})
	}
	return s, n
}

// inOpening reports whether q is inside the thing's opening centred at c. It shares no code
// with the package.
func inOpening(size place.Size, c, q place.Point) bool {
	if size.A == 0 {
		size.A = slip.Unsized
	}
	dx, dy := math.Abs(float64(c.X-q.X)), math.Abs(float64(c.Y-q.Y))
	if size.B == 0 {
		return math.Hypot(dx, dy) < float64(size.A)/2
	}
	return dx < float64(size.A)/2 && dy < float64(size.B)/2
}

func toSegment(p, a, b place.Point) float64 {
	px, py, bx, by := float64(p.X-a.X), float64(p.Y-a.Y), float64(b.X-a.X), float64(b.Y-a.Y)
	t := 0.0
	if l := bx*bx + by*by; l > 0 {
		t = math.Max(0, math.Min(1, (px*bx+py*by)/l))
	}
	return math.Hypot(px-t*bx, py-t*by)
}

func halves(size place.Size) (x, y length.Length) {
	if size.A == 0 {
		return slip.Unsized / 2, slip.Unsized / 2
	}
	return size.Half(place.X), size.Half(place.Y)
}

// across reports whether a thing at c overlaps the face of a support.
func across(s slip.Scene, size place.Size, c place.Point) bool {
	_, hy := halves(size)
	return slices.ContainsFunc(s.Supports, func(o place.Support) bool {
		d := max(c.Y-o.Pos, o.Pos-c.Y)
		return d < hy+o.Wide/2
	})
}

// Invariants of every list of probes, for random scenes.
func TestProbesAreSafe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, n := scene(t)
		ps := slip.Missed(s, n)
		clear := !across(s, n.Size, n.Place())
		sum, last := 0.0, 0
		for i, p := range ps {
			tier := 1
			if w := p.Ways[0]; w.Reasons[0].Kind == slip.NextSupport && len(w.Reasons) == 1 {
				tier = 0
			}
			if tier < last {
				t.Fatalf("probe %d: %v: a strap beside comes after others", i, kinds(ps[:i+1]))
			}
			last = tier
			sum += p.Share
			if p.At.X < 0 || p.At.Y < 0 || p.At.X > s.W || p.At.Y > s.H {
				t.Fatalf("%+v is outside", p.At)
			}
			for _, r := range s.Runs {
				for k := range len(r.Path) - 1 {
					if toSegment(p.At, r.Path[k], r.Path[k+1]) <= float64(r.Half) {
						t.Fatalf("%+v is in a run's strip", p.At)
					}
				}
			}
			if inOpening(n.Size, s.Empty[0], p.At) {
				t.Fatalf("%+v is in the empty hole", p.At)
			}
			for _, o := range s.Opened {
				if inOpening(o.Size, o.At, p.At) {
					t.Fatalf("%+v is in an opened thing", p.At)
				}
			}
			if len(s.Less) > 0 && s.Less[0].Has(p.At) {
				t.Fatalf("%+v is in the notch", p.At)
			}
			for _, w := range p.Ways {
				hx, hy := halves(n.Size)
				if w.At.X < hx || w.At.Y < hy || w.At.X > s.W-hx || w.At.Y > s.H-hy || clear && across(s, n.Size, w.At) {
					t.Fatalf("%+v: a thing there is outside or across a strap", w)
				}
				if len(s.Less) > 0 && w.At.X+hx > s.Less[0].X0 && w.At.Y-hy < s.Less[0].Y1 {
					t.Fatalf("%+v: a thing there reaches into the notch", w)
				}
				if !inOpening(n.Size, w.At, p.At) {
					t.Fatalf("the hole at %+v does not test %+v", p.At, w)
				}
			}
		}
		if len(ps) > 0 && sum > 1+1e-9 {
			t.Fatalf("shares sum to %v", sum)
		}
	})
}

func TestDisagree(t *testing.T) {
	s := straps(slip.Scene{W: 160 * in, H: 140 * in}, 2*in+in/2)
	note := func(x, y length.Length) slip.Note {
		n := slip.Note{X: off(s, place.West, x), Y: off(s, place.North, y), Size: place.Size{A: 6 * in}}
		n.X.Board, n.Y.Board = in/2, in/2
		return n
	}
	for _, tc := range []struct {
		x1, y1, x2, y2 length.Length
		kind           slip.Kind // "" if they agree, "?" if no cause is known
	}{
		{26 * in, 41 * in, 26*in + in/4, 41*in - in/4, ""}, {26 * in, 41 * in, 31 * in, 41 * in, "?"}, {26 * in, 41 * in, 26*in + 5*in/16, 41 * in, slip.Face},
		{18 * in, 41 * in, 17*in + in/2, 41 * in, slip.Face}, {26 * in, 41 * in, 62 * in, 41 * in, slip.DigitsSwapped},
		{26 * in, 41 * in, 26 * in, 53 * in, slip.FootOut}, {26 * in, 41 * in, 41 * in, 26 * in, slip.Swapped},
		{26 * in, 41 * in, 134 * in, 41 * in, slip.Mirror}, {26 * in, 41 * in, 29 * in, 41 * in, slip.Edge},
		{26 * in, 41 * in, 25 * in, 41 * in, slip.InchBurned}, {26*in + in/8, 41 * in, 26*in + 7*in/8, 41 * in, slip.Sixteenths},
		{26 * in, 41 * in, 33 * in, 48 * in, "?"},
	} {
		v := slip.Disagree(s, note(tc.x1, tc.y1), note(tc.x2, tc.y2))
		if v.Agrees != (tc.kind == "") || v.DX != tc.x2-tc.x1 || v.DY != tc.y2-tc.y1 {
			t.Errorf("%v: %+v", tc, v)
		}
		switch {
		case tc.kind == "" || tc.kind == "?":
			if len(v.Causes) > 0 {
				t.Errorf("%v: %+v", tc, v)
			}
		case len(v.Causes) == 0 || v.Causes[0].Reasons[0].Kind != tc.kind:
			t.Errorf("%s: %+v", tc.kind, v)
		default:
			sum := 0.0
			for _, c := range v.Causes {
				sum += c.Share
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Errorf("%s: shares sum to %v", tc.kind, sum)
			}
		}
	}
}

// Heights by two people: 3/4 in of finished floor, or 1/2 in of board on the ceiling, is in one of them. What is up
// from the subfloor is less from the finished floor; what is down from the framing is less from the board.
func TestDisagreeOnHeight(t *testing.T) {
	s := slip.Scene{W: 160 * in, H: 96 * in}
	note := func(y length.Length, how place.How, face place.Face, board length.Length) slip.Note {
		n := slip.Note{X: off(s, place.West, 40*in), Y: slip.Coord{Fix: place.Fix{How: how, Said: length.Said{L: y}, Face: face}, Grows: how == place.UpFrom, Board: board}}
		switch {
		case how == place.DownTo:
			if n.Y.From = 96 * in; face == place.BoardFace {
				n.Y.From -= board
			}
		case face == place.FinishedFloor:
			n.Y.From = board
		}
		return n
	}
	for _, tc := range []struct {
		name          string
		first, second slip.Note
		words         string
		second2       bool // the second is the one that slipped
	}{
		{"16 up, before and after the floor", note(16*in, place.UpFrom, "", 3*in/4), note(16*in, place.UpFrom, place.FinishedFloor, 3*in/4), "off the finished floor, not the subfloor", false},
		{"15-1/4 up the subfloor", note(16*in, place.UpFrom, place.FinishedFloor, 3*in/4), note(16*in, place.UpFrom, "", 3*in/4), "off the subfloor, not the finished floor", false},
		{"12 down the framing, 12 down the board", note(12*in, place.DownTo, "", in/2), note(12*in, place.DownTo, place.BoardFace, in/2), "off the board of the ceiling, not its framing", false},
		{"12 down the board, 12 down the framing", note(12*in, place.DownTo, place.BoardFace, in/2), note(12*in, place.DownTo, "", in/2), "off the framing of the ceiling, not its board", false},
	} {
		v := slip.Disagree(s, tc.first, tc.second)
		i := slices.IndexFunc(v.Causes, func(c slip.Cause) bool {
			return len(c.Reasons) == 1 && c.Reasons[0].Kind == slip.Face && c.Reasons[0].Words == tc.words && c.Second == tc.second2
		})
		if v.Agrees || i < 0 || i > 1 {
			t.Errorf("%s: %+v", tc.name, v)
		}
	}
}
