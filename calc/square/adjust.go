package square

import (
	"math"
	"slices"

	"strapline/calc/slip"
)

// xy is a point in nanometres, with y to the south.
type xy struct{ x, y float64 }

func (a xy) minus(b xy) xy              { return xy{a.x - b.x, a.y - b.y} }
func (a xy) dot(b xy) float64           { return a.x*b.x + a.y*b.y }
func (a xy) cross(b xy) float64         { return a.x*b.y - a.y*b.x } // positive if b is clockwise of a on a plan
func (a xy) length() float64            { return math.Hypot(a.x, a.y) }
func (a xy) times(f float64) xy         { return xy{a.x * f, a.y * f} }
func (a xy) plus(b xy) xy               { return xy{a.x + b.x, a.y + b.y} }
func (a xy) turned(cos, sin float64) xy { return xy{a.x*cos + a.y*sin, a.y*cos - a.x*sin} }

// quad is the four corners, clockwise from north-west.
type quad [4]xy

func (q quad) along(line int) float64 {
	return q[ends[line][1]].minus(q[ends[line][0]]).length()
}

// angle is the interior angle at corner i, in radians; negative at a reflex corner.
func (q quad) angle(i int) float64 {
	next, last := q[(i+1)%4].minus(q[i]), q[(i+3)%4].minus(q[i])
	return math.Atan2(next.cross(last), next.dot(last))
}

func (q quad) area() float64 {
	return (q[2].minus(q[0])).cross(q[3].minus(q[1])) / 2
}

// straight is how close to 0 or 180 degrees an angle no longer counts as a corner, in
// radians.
const straight = 1e-3

// convex reports whether all four angles are between 0 and 180 degrees.
func (q quad) convex() bool {
	for i := range q {
		if a := q.angle(i); !(a > straight && a < math.Pi-straight) {
			return false
		}
	}
	return true
}

// observation is a reading as the solver uses it, in nanometres.
type observation struct {
	line  int
	value float64
	form  slip.Form
}

type observations []observation

func observe(readings []Reading) observations {
	use := make(observations, len(readings))
	for i, r := range readings {
		use[i] = observation{r.Line.index(), float64(r.L), r.Form}
	}
	return use
}

func (use observations) without(i int) observations { return slices.Delete(slices.Clone(use), i, i+1) }

func (use observations) with(i int, v float64) observations {
	use = slices.Clone(use)
	use[i].value = v
	return use
}

// means returns the mean of each line's readings, 0 if there are none, and their number.
func (use observations) means() (mean, n [6]float64) {
	for _, o := range use {
		mean[o.line] += o.value
		n[o.line]++
	}
	for i := range mean {
		if n[i] > 0 {
			mean[i] /= n[i]
		}
	}
	return mean, n
}

// fit returns the least-squares corners.
func (use observations) fit() (quad, error) {
	mean, n := use.means()
	for _, drop := range [6]int{5, 4, 0, 1, 2, 3} {
		q, ok := start(mean, drop)
		if !ok {
			continue
		}
		if q, ok = settle(q, mean, n); ok && q.convex() {
			return q, nil
		}
	}
	return quad{}, &Error{NoCorners, apart(mean)}
}

// apart names the lines of the first triangle that cannot close, or else all lines.
func apart(mean [6]float64) []Line {
	for _, t := range [4][3]int{{0, 2, 4}, {1, 3, 4}, {0, 3, 5}, {1, 2, 5}} {
		a, b, c := mean[t[0]], mean[t[1]], mean[t[2]]
		if a*b*c > 0 && 2*max(a, b, c) >= a+b+c {
			return []Line{Lines[t[0]], Lines[t[1]], Lines[t[2]]}
		}
	}
	return Lines[:]
}

// start builds the corners from the five lines other than drop, as two triangles on a
// common base with p = (a^2 - b^2 + e^2) / 2e and h = sqrt(a^2 - p^2). Their tips are on
// opposite sides of the base if it is a diagonal, on the same side if it is a wall.
func start(mean [6]float64, drop int) (q quad, ok bool) {
	for i, v := range mean {
		if i != drop && v == 0 {
			return q, false
		}
	}
	base := [6]int{1, 0, 3, 2, 5, 4}[drop]
	from, to := ends[base][0], ends[base][1]
	e := mean[base]
	q[to] = xy{x: e}
	side := 1.0
	for _, tip := range ends[drop] {
		a, b := mean[between(from, tip)], mean[between(to, tip)]
		p := (a*a - b*b + e*e) / (2 * e)
		if h2 := a*a - p*p; h2 > 0 {
			q[tip] = xy{p, side * math.Sqrt(h2)}
		} else {
			return q, false
		}
		if base >= 4 {
			side = -1
		}
	}
	if q.area() < 0 {
		for i := range q {
			q[i].y = -q[i].y
		}
	}
	return q.normalized(), true
}

// between is the line from corner a to corner b.
func between(a, b int) int {
	return slices.IndexFunc(ends[:], func(e [2]int) bool { return e == [2]int{a, b} || e == [2]int{b, a} })
}

// normalized returns q, moved and turned so that the north-west corner is the origin and the
// north wall is along x.
func (q quad) normalized() quad {
	nw := q[0]
	north := q[1].minus(nw)
	cos, sin := north.x/north.length(), north.y/north.length()
	for i := range q {
		q[i] = q[i].minus(nw).turned(cos, sin)
	}
	q[0], q[1].y = xy{}, 0
	return q
}

// unknown is the index of each corner's x and y among the five unknowns, -1 if it is fixed.
var unknown = [4][2]int{{-1, -1}, {0, -1}, {1, 2}, {3, 4}}

// settle improves the corners by Gauss-Newton iteration, until a step is below a hundredth of
// a nanometre. The readings of a line are replaced by their mean, weighted by their number.
func settle(q quad, mean, number [6]float64) (quad, bool) {
	for range 50 {
		var n [5][5]float64
		var r [5]float64
		for line, w := range number {
			row, now := q.row(line)
			for i := range row {
				r[i] += w * row[i] * (mean[line] - now)
				for j := range row {
					n[i][j] += w * row[i] * row[j]
				}
			}
		}
		step, ok := solve(n, r)
		if !ok {
			return q, false
		}
		most := 0.0
		for c := range q {
			for axis, i := range unknown[c] {
				if i < 0 {
					continue
				}
				if axis == 0 {
					q[c].x += step[i]
				} else {
					q[c].y += step[i]
				}
				most = max(most, math.Abs(step[i]))
			}
		}
		// In a room of 100 m, float64 nanometres are good to 1e-5.
		if most < 1e-2 {
			return q, true
		}
	}
	return q, false
}

// row is the derivative of a line's length with respect to each unknown, and the length now.
func (q quad) row(line int) (row [5]float64, now float64) {
	from, to := ends[line][0], ends[line][1]
	d := q[to].minus(q[from])
	now = d.length()
	for axis, u := range [2]float64{d.x / now, d.y / now} {
		if i := unknown[to][axis]; i >= 0 {
			row[i] = u
		}
		if i := unknown[from][axis]; i >= 0 {
			row[i] = -u
		}
	}
	return row, now
}

// solve solves n x = r by Cholesky decomposition (n = L L'). ok is false if n is not
// positive definite, for example because the corners are on a line.
func solve(n [5][5]float64, r [5]float64) (x [5]float64, ok bool) {
	for i := range n {
		for j := range i + 1 {
			s := n[i][j]
			for k := range j {
				s -= n[i][k] * n[j][k]
			}
			if i != j {
				n[i][j] = s / n[j][j]
				continue
			}
			if !(s > 1e-12) {
				return x, false
			}
			n[i][i] = math.Sqrt(s)
		}
		x[i] = r[i]
		for k := range i {
			x[i] -= n[i][k] * x[k]
		}
		x[i] /= n[i][i]
	}
	for i := 4; i >= 0; i-- {
		for k := i + 1; k < 5; k++ {
			x[i] -= n[k][i] * x[k]
		}
		x[i] /= n[i][i]
	}
	return x, true
}

// squares is the sum of the squares of the residuals.
func (use observations) squares(q quad) float64 {
	var sum float64
	for _, o := range use {
		v := q.along(o.line) - o.value
		sum += v * v
	}
	return sum
}
