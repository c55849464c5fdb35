package layout_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

var mip = flag.String("mip", "", "solve the reference rooms again with this MIP solver (cbc) and write testdata/reference.json")

// refRoom is a room in whole inches: boards run along w, supports across. Cut sizes are rounded down to
// the inch, so that the MIP's arc flow stays small.
type refRoom struct {
	W, H     int
	Supports [][3]int // at, from, to
	Notch    *[4]int  `json:",omitempty"` // x y w h, in a corner at the east side
	Boards   []int    // lengths in ft, 48 in wide
	Counts   []int    `json:",omitempty"` // boards there are, when they are counted

	Butts   int     // optimum
	Feet    int     // of board, optimum with so many butts
	Seconds float64 // the MIP solver took
}

func (r refRoom) input() layout.Input {
	in := layout.Input{Lie: place.Y, Rules: layout.Rules{Round: inch},
		Surface: layout.Surface{W: length.Length(r.W) * inch, H: length.Length(r.H) * inch}}
	for _, s := range r.Supports {
		in.Supports = append(in.Supports, layout.Support{At: length.Length(s[0]) * inch, From: length.Length(s[1]) * inch, To: length.Length(s[2]) * inch})
	}
	if n := r.Notch; n != nil {
		in.Surface.Notches = []layout.Rect{{X: length.Length(n[0]) * inch, Y: length.Length(n[1]) * inch, W: length.Length(n[2]) * inch, H: length.Length(n[3]) * inch}}
	}
	for i, b := range r.Boards {
		s := layout.Stock{Width: 48 * inch, Length: length.Length(b) * foot, Count: -1}
		if r.Counts != nil {
			s.Count = r.Counts[i]
		}
		in.Stock = append(in.Stock, s)
	}
	return in
}

func makeRefRoom(seed uint64) refRoom {
	rnd := rand.New(rand.NewPCG(seed, 99))
	r := refRoom{W: 100 + rnd.IntN(300), H: 50 + rnd.IntN(220)}
	step := []int{16, 16, 24, 12}[rnd.IntN(4)]
	for at := 4 + rnd.IntN(step); at < r.W; at += step {
		s := [3]int{at, 0, r.H}
		if rnd.IntN(4) == 0 {
			s[0] += rnd.IntN(3) - 1
		}
		if rnd.IntN(10) == 0 {
			s[1+rnd.IntN(2)] = r.H / 2
		}
		r.Supports = append(r.Supports, s)
	}
	if rnd.IntN(3) == 0 {
		w, h := r.W/5+rnd.IntN(20), 20+rnd.IntN(r.H/2)
		r.Notch = &[4]int{r.W - w, []int{0, r.H - h}[rnd.IntN(2)], w, h}
	}
	r.Boards = [][]int{{8}, {8, 12}, {8, 10, 12}, {8, 9, 10, 12, 14}, {10, 12}, {12, 14}}[rnd.IntN(6)]
	if seed >= 1000 { // from stock on hand: some of each, with little over
		area := r.W * r.H / 144
		for _, ft := range r.Boards {
			r.Counts = append(r.Counts, 1+area*13/10/(4*ft*len(r.Boards))+rnd.IntN(3))
		}
	}
	return r
}

// TestReference compares with the optima of a general-purpose MIP solver.
func TestReference(t *testing.T) {
	if *mip != "" {
		writeReference(t)
	}
	data, err := os.ReadFile("testdata/reference.json")
	if err != nil {
		t.Fatal(err)
	}
	var rooms []refRoom
	if err := json.Unmarshal(data, &rooms); err != nil {
		t.Fatal(err)
	}
	if len(rooms) < 40 {
		t.Errorf("only %d reference rooms", len(rooms))
	}
	proven := 0
	for i, r := range rooms {
		l, err := layout.Plan(r.input(), nil)
		if err != nil {
			t.Errorf("room %d: %v", i, err)
			continue
		}
		feet := 0
		for _, b := range l.Boards {
			feet += b.Count * int(b.Length/foot)
		}
		if l.Butts != r.Butts || feet != r.Feet || len(l.Short) > 0 {
			t.Errorf("room %d (%d x %d in, boards %v): %d butts, %d ft; want %d, %d", i, r.W, r.H, r.Boards, l.Butts, feet, r.Butts, r.Feet)
		}
		if bound := l.Bound / 0.3048 / 1.2192; bound > float64(r.Feet)+1e-6 {
			t.Errorf("room %d: bound of %.2f ft is over the optimum", i, bound)
		}
		if l.Proven {
			proven++
		}
	}
	t.Logf("%d of %d proven by the solver itself", proven, len(rooms))
}

func writeReference(t *testing.T) {
	var lines []string
	for seed := range uint64(1100) {
		if seed >= 110 && seed < 1000 || seed < 1000 && len(lines) >= 64 || len(lines) >= 100 {
			continue
		}
		r := makeRefRoom(seed)
		m := newModel(r)
		if m == nil {
			continue
		}
		file := filepath.Join(t.TempDir(), "room.lp")
		if err := os.WriteFile(file, m.bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		start := time.Now()
		out, err := exec.Command(*mip, file, "sec", "60", "solve", "solu", file+".out").CombinedOutput()
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		r.Seconds = float64(time.Since(start).Round(10*time.Millisecond)) / 1e9
		sol, err := os.ReadFile(file + ".out")
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		var obj float64
		if _, err := fmt.Sscanf(string(sol), "Optimal - objective value %g", &obj); err != nil {
			t.Logf("room %d: %.40s", seed, sol)
			continue
		}
		total := int(obj + 0.5)
		r.Butts, r.Feet = total/1000, total%1000
		t.Logf("room %d: %dx%d butts %d, %d ft, %.1f s", seed, r.W, r.H, r.Butts, r.Feet, r.Seconds)
		line, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		lines = append(lines, string(line))
	}
	data := "[\n" + strings.Join(lines, ",\n") + "\n]\n"
	if err := os.WriteFile("testdata/reference.json", []byte(data), 0o644); err != nil {
		t.Fatal(err)
	}
}

// model is the whole problem as one integer programme, built from the rules and sharing no code with the
// solver: for each row a path over its supports, and for each kind of strip an arc flow over the inches of
// a board.
type model struct {
	bytes func() []byte
}

func newModel(r refRoom) *model {
	type zone struct{ lo, hi int } // rows, in quarter inches to hold the shared slivers
	const q = 4
	var rows []zone
	rest := r.H % 48
	switch full := r.H / 48; {
	case rest > 0 && rest < 6 && full > 0:
		half := (rest + 48) * q / 2
		rows = append(rows, zone{0, half})
		for i := range full - 1 {
			rows = append(rows, zone{half + i*48*q, half + (i+1)*48*q})
		}
		rows = append(rows, zone{r.H*q - half, r.H * q})
	default:
		for i := range full {
			rows = append(rows, zone{i * 48 * q, (i + 1) * 48 * q})
		}
		if rest > 0 {
			rows = append(rows, zone{full * 48 * q, r.H * q})
		}
	}
	// across is the part of the row that is room at x (between supports, so +- a little).
	across := func(z zone, x float64) (zone, bool) {
		if n := r.Notch; n != nil && x > float64(n[0]) {
			if n[1] == 0 {
				z.lo = max(z.lo, n[3]*q)
			} else {
				z.hi = min(z.hi, n[1]*q)
			}
		}
		return z, z.lo < z.hi
	}
	var longest int
	for _, b := range r.Boards {
		longest = max(longest, b*12)
	}
	type piece struct{ len, width int } // inches, quarter inches as the room's place; 0 = full
	obj := []string{}
	var cons []string
	var vars []string
	made := map[piece][]string{}
	butts := make([]map[int][]string, len(rows))
	for i, z := range rows {
		end := r.W
		if _, ok := across(z, float64(r.W)-0.5); !ok {
			end = r.Notch[0]
		}
		nodes := []int{0}
		for _, s := range r.Supports {
			if s[0] <= 0 || s[0] >= end {
				continue
			}
			a, _ := across(z, float64(s[0])-0.1)
			b, _ := across(z, float64(s[0])+0.1)
			if s[1]*q > min(a.lo, b.lo) || s[2]*q < max(a.hi, b.hi) {
				continue
			}
			if n := r.Notch; n != nil && n[1]*q <= z.hi && (n[1]+n[3])*q >= z.lo && s[0] == n[0] {
				continue // lines up with the inside corner
			}
			nodes = append(nodes, s[0])
		}
		nodes = append(nodes, end)
		slices.Sort(nodes)
		nodes = slices.Compact(nodes)
		butts[i] = map[int][]string{}
		in, out := map[int][]string{}, map[int][]string{}
		for a := range nodes {
			for b := a + 1; b < len(nodes); b++ {
				u, w := nodes[a], nodes[b]
				eighths := (w - u) * 8
				if u == 0 {
					eighths--
				}
				if w == end {
					eighths--
				}
				n := eighths / 8
				if n > longest || n < 16 && !(u == 0 && w == end) {
					continue
				}
				lo, hi := z.hi, z.lo
				for x := float64(u) + 0.5; x < float64(w); x++ {
					c, _ := across(z, x)
					lo, hi = min(lo, c.lo), max(hi, c.hi)
				}
				p := piece{n, 0}
				if hi-lo < 48*q {
					p.width = (hi - lo - 1) / q // a quarter under, to the inch below
				}
				v := fmt.Sprintf("a%d_%d_%d", i, u, w)
				vars = append(vars, v)
				made[p] = append(made[p], v)
				out[u], in[w] = append(out[u], v), append(in[w], v)
				if w < end {
					butts[i][w] = append(butts[i][w], v)
					obj = append(obj, "1000 "+v)
				}
			}
		}
		cons = append(cons, sum(out[0])+" = 1", sum(in[end])+" = 1")
		for _, u := range nodes[1 : len(nodes)-1] {
			if len(in[u]) == 0 && len(out[u]) == 0 {
				continue
			}
			c := sum(in[u])
			for _, v := range out[u] {
				c += " - " + v
			}
			cons = append(cons, c+" = 0")
		}
		if len(out[0]) == 0 || len(in[end]) == 0 {
			return nil
		}
		if i > 0 {
			for u, a := range butts[i] {
				for w, b := range butts[i-1] {
					if max(u-w, w-u) < 16 {
						cons = append(cons, sum(append(slices.Clone(a), b...))+" <= 1")
					}
				}
			}
		}
	}
	// Boards there are.
	ofLength := map[int][]string{}

	// Strips: of the full width, and of each narrower width that a piece has.
	widths := []int{}
	for p := range made {
		if p.width > 0 {
			widths = append(widths, p.width)
		}
	}
	slices.Sort(widths)
	widths = slices.Compact(widths)
	supply := map[piece][]string{}
	strips := map[[2]int][]string{} // width, length -> boards' variables that give such a strip
	for _, ft := range r.Boards {
		v := fmt.Sprintf("w%d", ft)
		vars = append(vars, v)
		obj = append(obj, fmt.Sprintf("%d %s", ft, v))
		strips[[2]int{0, ft}] = append(strips[[2]int{0, ft}], v)
		ofLength[ft] = append(ofLength[ft], v)
		for a, wa := range widths {
			for _, wb := range widths[:a+1] {
				if wa+wb > 48 {
					continue
				}
				v := fmt.Sprintf("r%d_%d_%d", ft, wa, wb)
				vars = append(vars, v)
				obj = append(obj, fmt.Sprintf("%d %s", ft, v))
				ofLength[ft] = append(ofLength[ft], v)
				if wa == wb {
					strips[[2]int{wa, ft}] = append(strips[[2]int{wa, ft}], "2 "+v)
					continue
				}
				strips[[2]int{wa, ft}] = append(strips[[2]int{wa, ft}], v)
				strips[[2]int{wb, ft}] = append(strips[[2]int{wb, ft}], v)
			}
		}
	}
	for i, n := range r.Counts {
		cons = append(cons, fmt.Sprintf("%s <= %d", sum(ofLength[r.Boards[i]]), n))
	}
	sizes := slices.SortedFunc(maps.Keys(made), func(a, b piece) int { return b.len - a.len })
	for _, w := range append([]int{0}, widths...) {
		from, to := map[int][]string{}, map[int][]string{}
		reached := map[int]bool{0: true}
		for _, p := range sizes {
			if w > 0 && (p.width == 0 || p.width > w) {
				continue
			}
			for x := 0; x+p.len <= longest; x++ {
				if !reached[x] {
					continue
				}
				v := fmt.Sprintf("f%d_%d_%d_%d", w, x, p.len, p.width)
				vars = append(vars, v)
				from[x], to[x+p.len] = append(from[x], v), append(to[x+p.len], v)
				supply[p] = append(supply[p], v)
				reached[x+p.len] = true
			}
		}
		for x := range longest {
			v := fmt.Sprintf("l%d_%d", w, x)
			vars = append(vars, v)
			from[x], to[x+1] = append(from[x], v), append(to[x+1], v)
		}
		var all []string
		for _, ft := range r.Boards {
			all = append(all, strips[[2]int{w, ft}]...)
		}
		for x := range longest + 1 {
			var c []string
			for _, v := range to[x] {
				c = append(c, "+ "+v)
			}
			for _, v := range from[x] {
				c = append(c, "- "+v)
			}
			if x == 0 {
				for _, v := range all {
					c = append(c, "+ "+v)
				}
			}
			for _, ft := range r.Boards {
				if ft*12 == x {
					for _, v := range strips[[2]int{w, ft}] {
						c = append(c, "- "+v)
					}
				}
			}
			if len(c) > 0 {
				cons = append(cons, strings.Join(c, " ")+" = 0")
			}
		}
	}
	for p, vs := range made {
		c := sum(supply[p])
		for _, v := range vs {
			c += " - " + v
		}
		cons = append(cons, c+" >= 0")
	}
	slices.Sort(cons)
	return &model{func() []byte {
		var b bytes.Buffer
		wrap := func(s string) {
			for i, w := range strings.Fields(s) {
				if i%40 == 39 {
					b.WriteString("\n")
				}
				b.WriteString(w + " ")
			}
			b.WriteString("\n")
		}
		b.WriteString("Minimize\nobj: ")
		wrap(strings.Join(obj, " + "))
		b.WriteString("Subject To\n")
		for i, c := range cons {
			fmt.Fprintf(&b, "c%d: ", i)
			wrap(c)
		}
		b.WriteString("General\n")
		slices.Sort(vars)
		wrap(strings.Join(slices.Compact(vars), " "))
		b.WriteString("End\n")
		return b.Bytes()
	}}
}

func sum(vs []string) string { return strings.Join(vs, " + ") }
