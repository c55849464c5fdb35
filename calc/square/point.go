package square

import (
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Off is a distance off a wall, square to the wall as measured.
type Off struct {
	Wall place.Wall
	L    length.Length
}

// wall is the line of a wall: its first corner, its clockwise direction, and the direction
// into the room, square to it.
func (q quad) wall(i int) (at, along, in xy) {
	at = q[i]
	d := q[(i+1)%4].minus(at)
	along = d.times(1 / d.length())
	return at, along, xy{-along.y, along.x}
}

// index is the index of a wall in place.Walls, and of the corner where it begins.
func index(w place.Wall) int { return slices.Index(place.Walls[:], w) }

// Along returns the room turned so that wall w is parallel to its axis (X for north and
// south, Y for east and west), and moved so that its bounding box begins at the origin.
func (r Room) Along(w place.Wall) Room {
	_, along, _ := r.q.wall(index(w))
	if index(w) >= 2 { // south and west run the other way, clockwise
		along = along.times(-1)
	}
	cos, sin := along.x, along.y
	if w == place.East || w == place.West {
		cos, sin = along.y, -along.x
	}
	for i := range r.q {
		r.q[i] = r.q[i].turned(cos, sin)
	}
	least := r.q[0]
	for _, c := range r.q {
		least = xy{min(least.x, c.x), min(least.y, c.y)}
	}
	for i := range r.q {
		r.q[i] = r.q[i].minus(least)
	}
	return r.rounded()
}

// Wider returns the room with each wall moved outwards, parallel to itself, in the order of
// place.Walls. A negative distance moves it inwards. The origin stays.
func (r Room) Wider(by [4]length.Length) Room {
	var q quad
	for i := range q { // corner i is between the previous wall and wall i
		j := (i + 3) % 4
		at, along, in := r.q.wall(i)
		at2, _, in2 := r.q.wall(j)
		on := at.plus(in.times(-float64(by[i])))
		q[i] = on.plus(along.times((-float64(by[j]) - on.minus(at2).dot(in2)) / along.dot(in2)))
	}
	r.q = q
	return r.rounded()
}

func (r Room) rounded() Room {
	for i, c := range r.q {
		r.Corners[i] = place.Point{X: round(c.x), Y: round(c.y)}
	}
	return r
}

// At is the coordinate (X for east and west, Y for north and south) of the line at distance
// off inside wall w, at the given other coordinate.
func (r Room) At(w place.Wall, off, other length.Length) length.Length {
	at, along, in := r.q.wall(index(w))
	at = at.plus(in.times(float64(off)))
	if w == place.East || w == place.West {
		return round(at.x + (float64(other)-at.y)*along.x/along.y)
	}
	return round(at.y + (float64(other)-at.x)*along.y/along.x)
}

// Resolve is the point at two distances off adjacent walls: where the lines parallel to
// them at those distances cross. It may be outside the room.
func (r Room) Resolve(a, b Off) place.Point {
	at, along, in := r.q.wall(index(a.Wall))
	at2, _, in2 := r.q.wall(index(b.Wall))
	on := at.plus(in.times(float64(a.L)))
	p := on.plus(along.times((float64(b.L) - on.minus(at2).dot(in2)) / along.dot(in2)))
	return place.Point{X: round(p.x), Y: round(p.y)}
}

// Locate is the distance of p off each wall, square to it, in the order of place.Walls. It
// is negative for a wall that p is beyond.
func (r Room) Locate(p place.Point) [4]Off {
	var off [4]Off
	for i, w := range place.Walls {
		off[i] = Off{w, round(r.q.off(i, xy{float64(p.X), float64(p.Y)}))}
	}
	return off
}

// off is how far p is inside wall i.
func (q quad) off(i int, p xy) float64 {
	at, _, in := q.wall(i)
	return p.minus(at).dot(in)
}

// Has reports whether p is in the room or on a wall.
func (r Room) Has(p place.Point) bool {
	for _, o := range r.Locate(p) {
		if o.L < 0 {
			return false
		}
	}
	return true
}
