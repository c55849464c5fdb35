// Package square works out the shape of a room with four corners from tape readings:
// four walls and one or two diagonals, each read once or several times.
//
// The corners are a least-squares fit: they minimize the sum of the squares of
// (fitted - read), with equal weights (variation of coordinates, as in surveying
// textbooks; Ghilani and Wolf, Adjustment Computations, on trilateration; from
// memory). The north-west corner is the origin, the north wall is along X, and Y runs
// south. That fixes three of the eight coordinates and leaves five unknowns.
//
// Five distances determine four corners. The sixth is a check, which shows that a
// reading is bad but not which one: the figure closes without any one of the six.
// Repeated readings can tell.
//
// Input and output lengths are exact; the calculation is in float64 nanometres, good to
// the nanometre in any building. Angles are in degrees, areas in square metres.
package square

import (
	"fmt"
	"math"
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/slip"
)

// Line is what was measured: a wall or a diagonal.
type Line string

const (
	North Line = "north"
	South Line = "south"
	East  Line = "east"
	West  Line = "west"
	NWSE  Line = "nw-se"
	NESW  Line = "ne-sw"
)

// Lines is the order of residuals.
var Lines = [6]Line{North, South, East, West, NWSE, NESW}

// ends are the corners of each line, in the order of Lines.
var ends = [6][2]int{{0, 1}, {3, 2}, {1, 2}, {0, 3}, {0, 2}, {1, 3}}

func (l Line) index() int { return slices.Index(Lines[:], l) }

// Most is the longest reading accepted. MostReadings is their maximum number: ten sets.
const (
	Most         = 100 * length.Metre
	MostReadings = 60
)

// Reading is one reading of a line, which may be read several times.
type Reading struct {
	Line Line
	L    length.Length
	Form slip.Form // how the number was written, which determines the slips considered
}

// Room is the shape that fits the readings best, without the bad reading if Check names
// one.
type Room struct {
	Corners   [4]place.Point   // clockwise from north-west, rounded to the nanometre
	Each      []length.Length  // of each reading, in the order given: fitted - read
	Residuals [6]length.Length // of each of Lines: fitted - mean of its readings; 0 if it was not read
	Check     Check
	q         quad
}

// ErrorKind says why readings make no room.
type ErrorKind string

const (
	Few       ErrorKind = "few"        // Lines are missing
	TooMany   ErrorKind = "too many"   // more than MostReadings
	BadLength ErrorKind = "length"     // a reading of Lines is not positive or longer than Most
	NoCorners ErrorKind = "no corners" // Lines cannot meet, or not with four angles under 180 degrees
)

// Error reports readings, as entered by a person, that make no room.
type Error struct {
	Kind  ErrorKind
	Lines []Line
}

func (e *Error) Error() string { return fmt.Sprintf("no room (%s): %v", e.Kind, e.Lines) }

// Fit works out the room. It needs any five of the six lines; with fewer the error names
// the missing ones.
func Fit(readings []Reading) (Room, error) {
	if len(readings) > MostReadings {
		return Room{}, &Error{Kind: TooMany}
	}
	var seen [6]int
	for _, r := range readings {
		i := r.Line.index()
		if i < 0 || r.L <= 0 || r.L > Most {
			return Room{}, &Error{BadLength, []Line{r.Line}}
		}
		seen[i]++
	}
	var missing []Line
	for i, n := range seen {
		if n == 0 {
			missing = append(missing, Lines[i])
		}
	}
	if len(missing) > 1 {
		return Room{}, &Error{Few, missing}
	}
	use := observe(readings)
	q, err := use.fit()
	if err != nil {
		return Room{}, err
	}
	r := Room{Check: use.check(q)}
	if r.Check.Named >= 0 {
		if better, err := use.without(r.Check.Named).fit(); err == nil {
			q = better
		}
	}
	r.q = q
	for i, c := range q {
		r.Corners[i] = place.Point{X: round(c.x), Y: round(c.y)}
	}
	var sum [6]float64
	for _, o := range use {
		sum[o.line] += o.value
		r.Each = append(r.Each, round(q.along(o.line)-o.value))
	}
	for i, n := range seen {
		if n > 0 {
			r.Residuals[i] = round(q.along(i) - sum[i]/float64(n))
		}
	}
	return r, nil
}

func round(v float64) length.Length { return length.Length(math.Round(v)) }

// Angles returns the interior angles in degrees, clockwise from north-west.
func (r Room) Angles() [4]float64 {
	var deg [4]float64
	for i := range deg {
		deg[i] = r.q.angle(i) * 180 / math.Pi
	}
	return deg
}

// Area is the area in square metres, by the surveyor's (shoelace) formula.
func (r Room) Area() float64 { return r.q.area() / 1e18 }

// Measure is the fitted length of a line, 0 if l is not one of Lines.
func (r Room) Measure(l Line) length.Length {
	i := l.index()
	if i < 0 {
		return 0
	}
	return round(r.q.along(i))
}
