package slip_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/slip"
)

// atom is a place where a thing may really be, given its note.
type atom struct {
	at     place.Point
	weight float64
	kind   string // the slip, or "two at once"
}

// line is a coordinate that may be true, with its weight.
type line struct {
	at     length.Length
	weight float64
	kind   slip.Kind
}

func per(k slip.Kind) float64 {
	return slip.Table[slices.IndexFunc(slip.Table, func(r slip.Row) bool { return r.Kind == k })].Per / 1000
}

// lines finds the possible coordinates by brute force: for each 1/16 in of the axis, what
// would a person have said with each slip? It shares no code with the package.
func lines(s slip.Scene, c slip.Coord, extent, half length.Length) []line {
	var out []line
	in16 := length.Sixteenth
	dist := func(t length.Length) length.Length {
		if c.Grows {
			return t - c.From
		}
		return c.From - t
	}
	for t := in16; t < extent; t += in16 {
		right := dist(t) // what a careful person would have said
		hit := func(k slip.Kind, part float64, said length.Length) {
			if said == c.L && right != c.L {
				out = append(out, line{t, per(k) * part, k})
			}
		}
		if right > 0 {
			hit(slip.FootOut, 0.5, right+12*in)
			hit(slip.FootOut, 0.5, right-12*in)
			hit(slip.InchBurned, 1, right+in)
			hit(slip.TenBurned, 1, right+10*in)
			whole, alike := int(right/in), []int{} // swapped digits of at most three; nobody writes 02 for 20
			if whole >= 100 || whole >= 10 && whole%10 != 0 {
				alike = append(alike, whole/100*100+whole%10*10+whole/10%10)
			}
			if whole >= 100 && whole/10%10 != 0 {
				alike = append(alike, whole/10%10*100+whole/100*10+whole%10)
			}
			for _, a := range alike {
				hit(slip.DigitsSwapped, 1/float64(len(alike)), right+length.Length(a-whole)*in)
			}
			part := right % in
			if part != 0 && part != in/2 {
				hit(slip.Sixteenths, 0.5, right-part+in-part)
			}
			switch n := part / in16; n {
			case 1, 3, 5, 7:
				hit(slip.Sixteenths, 0.5, right+part)
			case 2, 6, 10, 14:
				hit(slip.Sixteenths, 0.5, right-part/2)
			}
			if mm := float64(right) * 25.4; math.Abs(mm-float64(c.L)) < 12.7*float64(in16) {
				hit(slip.MMForInch, 1, c.L)
			}
			hit(slip.Edge, 0.5, right-half)
			hit(slip.Edge, 0.5, right+half)
		}
		if c.How == place.OffWall {
			hit(slip.Mirror, 1, extent-right)
			hit(slip.Face, 1, right-c.Board)
			continue
		}
		hit(slip.OtherSide, 1, -right)
		me := slices.IndexFunc(s.Supports, func(p place.Support) bool { return p.N == c.N })
		for _, j := range [2]int{me - 1, me + 1} {
			if j >= 0 && j < len(s.Supports) {
				d := t - s.Supports[j].Pos
				if !c.Grows {
					d = -d
				}
				hit(slip.NextSupport, 0.5, d)
			}
		}
		hit(slip.SupportEdge, 1, right-s.Supports[me].Wide/2)
	}
	return out
}

// truths returns all atoms that are possible: in the room, clear of straps if noted clear,
// and not where the empty hole would have found the thing.
func truths(s slip.Scene, n slip.Note) []atom {
	at := n.Place()
	hx, hy := halves(n.Size)
	xs, ys := lines(s, n.X, s.W, hx), lines(s, n.Y, s.H, hy)
	none := func(list []line) float64 {
		p := 1.0
		for _, l := range list {
			p -= l.weight
		}
		return p
	}
	x0, y0 := none(xs), none(ys)
	var out []atom
	clear := !across(s, n.Size, at)
	add := func(p place.Point, w float64, kind string) {
		ok := p.X >= hx && p.Y >= hy && p.X <= s.W-hx && p.Y <= s.H-hy && !inOpening(n.Size, p, at)
		if ok && !(clear && across(s, n.Size, p)) {
			out = append(out, atom{p, w, kind})
		}
	}
	swapped := place.Point{X: n.Y.L, Y: n.Y.From + n.X.L}
	if !n.Y.Grows {
		swapped.Y = n.Y.From - n.X.L
	}
	if !n.X.Grows {
		swapped.X = n.X.From - n.Y.L
	}
	add(swapped, per(slip.Swapped)*x0*y0, string(slip.Swapped))
	for _, t := range s.Twins {
		add(t.At, per(slip.WrongRoom)*x0*y0, string(slip.WrongRoom))
	}
	for _, x := range xs {
		add(at.With(place.X, x.at), x.weight*y0, string(x.kind))
		for _, y := range ys {
			add(place.Point{X: x.at, Y: y.at}, x.weight*y.weight, "two at once")
		}
	}
	for _, y := range ys {
		add(at.With(place.Y, y.at), y.weight*x0, string(y.kind))
	}
	return out
}

// circle is the plain search: holes from the noted place outwards, as far apart as still
// finds the thing, in a hexagonal pattern for circles and side by side for rectangles.
// Places where nobody would drill are left out.
func circle(s slip.Scene, n slip.Note) []place.Point {
	at := n.Place()
	hx, hy := halves(n.Size)
	px, py, shift := 2*hx, 2*hy, length.Length(0)
	if n.Size.B == 0 {
		px, py = length.Length(math.Sqrt(3)*float64(hx)), length.Length(1.5*float64(hx))
		shift = px / 2
	}
	px, py = px*15/16, py*15/16 // allow for the tape's error
	var out []place.Point
	for j := -(s.H / py) - 1; j <= s.H/py+1; j++ {
		for i := -(s.W / px) - 1; i <= s.W/px+1; i++ {
			p := place.Point{X: at.X + i*px, Y: at.Y + j*py}
			if j%2 != 0 {
				p.X += shift
			}
			if drillable(s, n, p) {
				out = append(out, p)
			}
		}
	}
	far := func(p place.Point) float64 { return math.Hypot(float64(p.X-at.X), float64(p.Y-at.Y)) }
	slices.SortStableFunc(out, func(a, b place.Point) int { return int(far(a)-far(b)) / int(length.Millimetre) })
	return out
}

func drillable(s slip.Scene, n slip.Note, p place.Point) bool {
	if p.X < 0 || p.Y < 0 || p.X > s.W || p.Y > s.H || inOpening(n.Size, n.Place(), p) {
		return false
	}
	for _, o := range s.Supports {
		if d := max(p.Y-o.Pos, o.Pos-p.Y); d <= o.Wide/2 && !across(s, n.Size, n.Place()) {
			return false
		}
	}
	for _, r := range s.Runs {
		for k := range len(r.Path) - 1 {
			if toSegment(p, r.Path[k], r.Path[k+1]) <= float64(r.Half) {
				return false
			}
		}
	}
	return true
}

// knowing is the search with perfect knowledge of every place and its weight: greedy by the
// weight found, with holes at the places and halfway between any two of the heaviest.
func knowing(s slip.Scene, n slip.Note, atoms []atom) []place.Point {
	atoms = slices.Clone(atoms)
	slices.SortStableFunc(atoms, func(a, b atom) int {
		return map[bool]int{true: -1, false: 1}[a.weight > b.weight]
	})
	var spots []place.Point
	for i, a := range atoms {
		spots = append(spots, a.at)
		for _, b := range atoms[:min(i, 40)] {
			spots = append(spots, place.Point{X: (a.at.X + b.at.X) / 2, Y: (a.at.Y + b.at.Y) / 2})
		}
	}
	hx, hy := halves(n.Size)
	inner := n.Size // less 1/4 in for the tape's error
	inner.A = 2 * max(hx-in/4, hx/2)
	if inner.B != 0 {
		inner.B = 2 * max(hy-in/4, hy/2)
	}
	type hole struct {
		at    place.Point
		finds []int
	}
	var holes []hole
	for i, p := range spots {
		if !drillable(s, n, p) {
			continue
		}
		h := hole{at: p}
		for j, a := range atoms {
			if inOpening(inner, a.at, p) {
				h.finds = append(h.finds, j)
			}
		}
		if i < len(atoms) || len(h.finds) > 1 {
			holes = append(holes, h)
		}
	}
	found := make([]bool, len(atoms))
	var out []place.Point
	for range 20 {
		best, most := -1, 0.0
		for i, h := range holes {
			w := 0.0
			for _, j := range h.finds {
				if !found[j] {
					w += atoms[j].weight
				}
			}
			if w > most {
				best, most = i, w
			}
		}
		if best < 0 {
			break
		}
		for _, j := range holes[best].finds {
			found[j] = true
		}
		out = append(out, holes[best].at)
	}
	return out
}

// noted draws a room and a note: mostly with east-west straps at 16 in, distances to 1/8 in,
// 1/2 in board, a run to keep clear of, and in a third of cases a similar room.
func noted(r *rand.Rand) (slip.Scene, slip.Note) {
	inch := func(lo, hi int) length.Length { return length.Length(lo*8+r.IntN((hi-lo)*8)) * in / 8 }
	for {
		s := slip.Scene{W: inch(96, 240), H: inch(96, 200)}
		n := slip.Note{Size: [...]place.Size{{A: 6 * in}, {A: 6 * in}, {A: 4*in + 3*in/8}, {A: 10 * in, B: 4 * in}, {A: 2 * in, B: 4 * in}}[r.IntN(5)]}
		n.X = off(s, [...]place.Wall{place.West, place.East}[r.IntN(2)], inch(8, int(s.W/in)-8))
		n.Y = off(s, [...]place.Wall{place.North, place.South}[r.IntN(2)], inch(8, int(s.H/in)-8))
		n.X.Board, n.Y.Board = in/2, in/2
		if r.IntN(4) > 0 {
			s = straps(s, 2*in+in/2)
			if r.IntN(2) == 0 {
				n.Y = from(s, 1+r.IntN(len(s.Supports)), [...]place.Wall{place.North, place.South}[r.IntN(2)], inch(3, 13))
			}
		}
		if r.IntN(3) == 0 {
			s.Twins = []slip.Twin{{Room: "the other", At: place.Point{X: inch(8, int(s.W/in)-8), Y: inch(8, int(s.H/in)-8)}}}
		}
		p, x := n.Place(), inch(0, int(s.W/in))
		s.Runs = []slip.Run{{Path: []place.Point{{X: x}, {X: x, Y: s.H}}, Half: 2 * in}}
		hx, hy := halves(n.Size)
		if p.X > hx && p.Y > hy && p.X < s.W-hx && p.Y < s.H-hy && !across(s, n.Size, p) && drillable(slip.Scene{W: s.W, H: s.H, Runs: s.Runs}, slip.Note{Size: place.Size{A: 1}}, p) {
			s.Empty = []place.Point{p}
			return s, n
		}
	}
}

// tally counts, for a kind of slip, the things and the holes made for them in total.
type tally struct{ things, ours, circle int }

// simulate loses 5,000 things, 20 for each of 250 notes, by the weights of the table, each
// up to another 1/8 in off, and looks for them in three ways. ours and knows count the
// things found within k holes in our order and with perfect knowledge.
func simulate() (ours, knows [9]int, by map[string]*tally, all tally) {
	r := rand.New(rand.NewPCG(5, 16))
	by = map[string]*tally{}
	for range 250 {
		s, n := noted(r)
		atoms := truths(s, n)
		if len(atoms) == 0 {
			continue
		}
		var first []place.Point
		for _, p := range slip.Missed(s, n) {
			first = append(first, p.At)
		}
		wide := circle(s, n)
		best := knowing(s, n, atoms)
		total := 0.0
		for _, a := range atoms {
			total += a.weight
		}
		for range 20 {
			pick, a := r.Float64()*total, atoms[len(atoms)-1]
			for _, b := range atoms {
				if pick -= b.weight; pick < 0 {
					a = b
					break
				}
			}
			true := place.Point{X: a.at.X + length.Length(r.IntN(5)-2)*length.Sixteenth, Y: a.at.Y + length.Length(r.IntN(5)-2)*length.Sixteenth}
			holes := func(list []place.Point) int {
				for i, p := range list {
					if inOpening(n.Size, true, p) {
						return i + 1
					}
				}
				return len(list) + 1
			}
			k, q, c := holes(append(slices.Clone(first), wide...)), holes(best), holes(wide)
			for i := range ours {
				if k <= i {
					ours[i]++
				}
				if q <= i && q <= len(best) {
					knows[i]++
				}
			}
			if by[a.kind] == nil {
				by[a.kind] = &tally{}
			}
			for _, t := range []*tally{by[a.kind], &all} {
				t.things++
				t.ours += k
				t.circle += c
			}
		}
	}
	return ours, knows, by, all
}

// Of 5,000 lost things, our order finds within k holes at most 5 % fewer of all things than
// perfect knowledge would, and needs at most half the holes of a widening circle.
func TestFindsLostThings(t *testing.T) {
	ours, knows, by, all := simulate()
	for k := 1; k < len(ours); k++ {
		a, b := 100*float64(ours[k])/float64(all.things), 100*float64(knows[k])/float64(all.things)
		t.Logf("by %d holes: %.1f %%, knowing %.1f %%", k, a, b)
		if a < b-5 {
			t.Errorf("by %d holes: %.1f %%, knowing %.1f %%", k, a, b)
		}
	}
	t.Logf("| slip | things | holes, mean | widening circle |")
	for _, r := range append(slices.Clone(slip.Table), slip.Row{Kind: "two at once"}) {
		if c := by[string(r.Kind)]; c != nil {
			t.Logf("| %s | %d | %.1f | %.0f |", r.Kind, c.things, float64(c.ours)/float64(c.things), float64(c.circle)/float64(c.things))
		}
	}
	t.Logf("| all | %d | %.1f | %.0f |", all.things, float64(all.ours)/float64(all.things), float64(all.circle)/float64(all.things))
	if all.things < 4900 || 2*all.ours > all.circle {
		t.Errorf("%+v", all)
	}
}
