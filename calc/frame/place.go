package frame

import (
	"fmt"

	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/square"
)

// Placed is the place that a list of fixes gives.
type Placed struct {
	place.Point
	Pinned [2]bool // which coordinates are fixed, by Axis
	InLine string  // the point whose other coordinate is used
	Checks []Check // distances beyond the two needed
}

// Whole reports whether both coordinates are fixed.
func (p Placed) Whole() bool { return p.Pinned[place.X] && p.Pinned[place.Y] }

// Check is a distance to a coordinate that is fixed already, which makes it a check.
type Check struct {
	Axis   place.Axis
	First  int // index of the fix that fixed it
	Second int
	Diff   length.Length // second minus first, along the axis
}

// Why is the reason why a fix gives no coordinate.
type Why int

const (
	NoSupport Why = iota + 1 // no support of that kind and number is noted
	WrongWay                 // the direction is along the support, not off it
	NotHere                  // that wall is not an edge of the surface
	NoPoint                  // no mark or thing of that name on the surface
	NoHeight                 // the height of the ceiling is not known
	NoBoard                  // measured to the board, but none is noted on that wall
	OnFloor                  // up and down mean nothing on a ceiling
	NoFloor                  // measured from the finished floor, whose thickness is not noted
)

// Unplaced is the error that a fix gives no coordinate.
type Unplaced struct {
	Fix int // index
	Why Why
}

func (u *Unplaced) Error() string {
	return fmt.Sprintf("fix %d pins nothing (reason %d)", u.Fix, u.Why)
}

// Named finds the mark or thing of a name on a surface, which distances may be measured from.
type Named func(s place.Surface, name string) (at place.Point, size place.Size, ok bool)

// Place works out where fixes sent at time t put the centre of something of that size. The first fix of a
// coordinate determines it; further ones are checks.
func (r *Frame) Place(s place.Surface, fixes []place.Fix, size place.Size, t int64, named Named) (Placed, error) {
	var p Placed
	var fixedBy [2]int
	var walls [2]*square.Off // distances off walls that may lean
	var side *place.Fix      // what fixed X, off a wall
	shape, leans := r.Shell().Leans(s)
	type line struct {
		of string
		at place.Point
	}
	var inLine []line
	// Fixes off a notch's wall wait, because which notch it is depends on the other coordinate.
	for _, late := range []bool{false, true} {
		for i, f := range fixes {
			if f.Notch != late {
				continue
			}
			a, v, at, why := r.pin(s, f, size, t, p, named)
			if why != 0 {
				return p, &Unplaced{i, why}
			}
			if f.Name != "" {
				inLine = append(inLine, line{f.Name, at})
			}
			if p.Pinned[a] {
				p.Checks = append(p.Checks, Check{a, fixedBy[a], i, v})
				continue
			}
			if leans && f.Wall != "" {
				walls[a] = &square.Off{Wall: f.Wall, L: r.held(s, f, size, t, p.Point)}
			}
			if a == place.X && f.Wall != "" {
				side = &fixes[i]
			}
			p.Pinned[a], fixedBy[a] = true, i
			p.Point = p.With(a, v)
		}
	}
	if len(inLine) == 1 && p.Pinned[place.X] != p.Pinned[place.Y] {
		a := place.X
		if p.Pinned[place.X] {
			a = place.Y
		}
		p.Point, p.Pinned[a], p.InLine = p.With(a, inLine[0].at.On(a)), true, inLine[0].of
	}
	p.Point = onLines(shape, walls, p.Point)
	_, skew := r.Shell().Skew(s)
	if skew && side != nil { // an end of the surface that leans, where the thing is
		p.X = r.Shell().LineAt(s, side.Wall, r.held(s, *side, size, t, p.Point), p.Y)
	}
	for i, x := range p.Checks {
		if f := fixes[x.Second]; f.Wall != "" && (leans || skew && x.Axis == place.X) {
			x.Diff = r.Shell().LineAt(s, f.Wall, r.held(s, f, size, t, p.Point), p.On(x.Axis.Other()))
		}
		p.Checks[i].Diff = x.Diff - p.On(x.Axis)
	}
	return p, nil
}

// onLines moves p to the lines parallel to leaning walls that determine it: to where two of them cross, or
// where one meets the other coordinate.
func onLines(shape square.Room, walls [2]*square.Off, p place.Point) place.Point {
	if x, y := walls[place.X], walls[place.Y]; x != nil && y != nil {
		return shape.Resolve(*x, *y) // the caller checks whether it is outside
	}
	for a, w := range walls {
		if a := place.Axis(a); w != nil {
			p = p.With(a, shape.At(w.Wall, w.L, p.On(a.Other())))
		}
	}
	return p
}

// held returns a distance off a wall, converted to its framing and to the thing's centre. If it was said
// off that of a notch, the notch is found by the other coordinate of at.
func (r *Frame) held(s place.Surface, f place.Fix, size place.Size, t int64, at place.Point) length.Length {
	a, _, _ := s.Axis(f.Wall)
	d := f.L
	if f.ToEdge {
		d += size.Half(a)
	}
	if f.Face == place.BoardFace {
		t = history.EndOfTime
	}
	switch {
	case f.Face != "" && f.Face != place.BoardFace:
	case f.Level:
		d += r.Board(f.Wall, t)
	default:
		d += r.FrontBoard(s, f, at, t)
	}
	if f.Notch {
		_, deep, _ := r.Shell().SaidOff(s, f.Wall, at)
		d += deep
	}
	return d
}

// FrontBoard returns the thickness of the board there at time t, less than 0 around an outside corner.
func (r *Frame) FrontBoard(s place.Surface, f place.Fix, at place.Point, t int64) length.Length {
	if f.Notch && r.Shell().FromCorner(s, f.Wall) == 0 {
		return r.BoardOn(r.Shell().Front(s, f, at), t)
	}
	return r.BoardAt(s, f.Wall, t)
}

// pin returns the coordinate that a fix gives, and the point it was measured from.
func (r *Frame) pin(s place.Surface, f place.Fix, size place.Size, t int64, p Placed, named Named) (place.Axis, length.Length, place.Point, Why) {
	switch f.How {
	case place.OffWall, place.Along:
		a, _, ok := s.Axis(f.Wall)
		if !ok {
			return 0, 0, place.Point{}, NotHere
		}
		if f.How == place.Along {
			sup, ok := r.support(s, f)
			if !ok {
				return 0, 0, place.Point{}, NoSupport
			}
			if sup.Axis() == a {
				return 0, 0, place.Point{}, WrongWay
			}
		}
		if f.Notch && !r.Shell().OfNotch(s, f.Wall, p.Point) {
			return 0, 0, place.Point{}, NotHere
		}
		if f.Face == place.BoardFace && r.FrontBoard(s, f, p.Point, history.EndOfTime) == 0 {
			return 0, 0, place.Point{}, NoBoard
		}
		d := r.held(s, f, size, t, p.Point)
		if f.Level && s.SlopeTo() == f.Wall {
			return a, r.Shell().Up(s, d), place.Point{}, 0
		}
		return a, r.Shell().Line(s, f.Wall, d), place.Point{}, 0
	case place.UpFrom, place.DownTo:
		if !s.Upright() && s.SlopeTo() == "" {
			return 0, 0, place.Point{}, OnFloor
		}
		d := f.L
		if f.ToEdge {
			d += size.Half(place.Y)
		}
		if f.How == place.UpFrom {
			switch {
			case !s.FromFloor() && f.Face != "":
				return 0, 0, place.Point{}, OnFloor
			case s.FromFloor() && f.Face == "":
				d += r.Floor(t)
			case s.SlopeTo() != "":
				d += r.BoardAt(s, s.SlopeTo(), t)
			case f.Face == place.FinishedFloor:
				if r.FloorNow() == 0 {
					return 0, 0, place.Point{}, NoFloor
				}
				d += r.FloorNow()
			}
			return place.Y, d, place.Point{}, 0
		}
		_, h := r.Shell().Extent(s)
		if h == 0 {
			return 0, 0, place.Point{}, NoHeight
		}
		switch f.Face {
		case "":
			h -= r.CeilingFace(t)
		case place.BoardFace:
			if r.CeilingFace(history.EndOfTime) == 0 {
				return 0, 0, place.Point{}, NoBoard
			}
			h -= r.CeilingFace(history.EndOfTime)
		}
		return place.Y, h - d, place.Point{}, 0
	case place.OnLine:
		sup, ok := r.support(s, f)
		if !ok {
			return 0, 0, place.Point{}, NoSupport
		}
		return sup.Axis(), sup.Pos, place.Point{}, 0
	case place.Between:
		a, ok := r.support(s, f)
		f.N = int(f.M)
		b, ok2 := r.support(s, f)
		if !ok || !ok2 {
			return 0, 0, place.Point{}, NoSupport
		}
		return a.Axis(), (a.Pos + b.Pos) / 2, place.Point{}, 0
	case place.Mid:
		a, _, ok := s.Axis(f.Dir)
		if !ok {
			return 0, 0, place.Point{}, NotHere
		}
		far := f.Dir.Opposite()
		return a, (r.fromWall(s, f.Dir, 0, t) + r.fromWall(s, far, 0, t)) / 2, place.Point{}, 0
	}
	return r.pinDir(s, f, size, named)
}

// pinDir returns the coordinate at L in a direction from a support or a point.
func (r *Frame) pinDir(s place.Surface, f place.Fix, size place.Size, named Named) (place.Axis, length.Length, place.Point, Why) {
	a, grows, ok := s.Axis(f.Dir)
	if !ok { // away from the only wall that bounds a slope
		a, grows, ok = s.Axis(f.Dir.Opposite())
		grows = !grows
	}
	if !ok {
		return 0, 0, place.Point{}, NotHere
	}
	// distances off a wall grow away from it, and this goes toward it
	d := f.L
	if f.ToEdge {
		d += size.Half(a)
	}
	var at place.Point
	if f.Name != "" {
		from, of, ok := named(s, f.Name)
		if !ok {
			return 0, 0, place.Point{}, NoPoint
		}
		at = from
		if f.Edge {
			d += of.Half(a)
		}
	} else {
		sup, ok := r.support(s, f)
		if !ok {
			return 0, 0, place.Point{}, NoSupport
		}
		if sup.Axis() != a {
			return 0, 0, place.Point{}, WrongWay
		}
		if f.Edge {
			d += sup.Wide / 2
		}
		at = at.With(a, sup.Pos)
	}
	if grows {
		d = -d
	}
	return a, at.On(a) + d, at, 0
}
