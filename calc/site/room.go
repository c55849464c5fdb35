package site

import (
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Room is one room of the job.
type Room struct {
	Name string

	size      versions[RoomSize]
	aliases   []version[Named]
	walls     map[place.Wall]versions[Boarded]
	boardsRun versions[string]
	rowsFrom  versions[place.Wall]
	surfaces  map[place.Surface]*surface
	things    map[string]*ThingState
	numbered  map[string]int // by kind: things whose name is the kind and a number
	marks     map[string]versions[MarkSet]
	routes    map[string]*RouteState
	checked   []version[Checked]
	coats     versions[Coat]
	painted   versions[bool]
	texture   versions[bool]
	pick      versions[int]

	Routes []*RouteState // in the order they were first noted
	Things []*ThingState // in the order they were first noted
}

type surface struct {
	sets map[place.SupportKind]*supportSet
	hung []version[Hung]
}

func newRoom(name string) *Room {
	return &Room{
		Name:     name,
		walls:    map[place.Wall]versions[Boarded]{},
		surfaces: map[place.Surface]*surface{},
		things:   map[string]*ThingState{},
		numbered: map[string]int{},
		marks:    map[string]versions[MarkSet]{},
		routes:   map[string]*RouteState{},
	}
}

func (r *Room) surface(s place.Surface) *surface {
	sf := r.surfaces[s]
	if sf == nil {
		sf = &surface{sets: map[place.SupportKind]*supportSet{}}
		r.surfaces[s] = sf
	}
	return sf
}

// WallNamed is the wall with that alias, "" when there is none: the last one
// that was given it.
func (r *Room) WallNamed(alias string) place.Wall {
	for _, a := range slices.Backward(r.aliases) {
		if a.v.Wall != "" && a.v.Alias == alias && !a.e.Struck() {
			return a.v.Wall
		}
	}
	return ""
}

// Aliases calls yield for each alias that stands; wall is "" for one of the
// room itself.
func (r *Room) Aliases(yield func(alias string, wall place.Wall)) {
	for _, a := range r.aliases {
		if !a.e.Struck() && (a.v.Wall == "" || r.WallNamed(a.v.Alias) == a.v.Wall) {
			yield(a.v.Alias, a.v.Wall)
		}
	}
}

// Said is the room's size as it was last said, and the entry that said it.
func (r *Room) Said() (RoomSize, *Entry) { return r.size.now() }

// Sizes is how many notes of the room's size stand.
func (r *Room) Sizes() int {
	n := 0
	for _, v := range r.size {
		if !v.e.Struck() {
			n++
		}
	}
	return n
}

// Used reports whether anything stands in the room that needs its size.
func (r *Room) Used() bool {
	for _, t := range r.Things {
		if _, e := t.Now(); e != nil {
			return true
		}
	}
	for _, vs := range r.marks {
		if _, e := vs.now(); e != nil {
			return true
		}
	}
	for s := range r.surfaces {
		if len(r.Pieces(s)) > 0 || len(r.Supports(s)) > 0 {
			return true
		}
	}
	return false
}

// Board is how thick the board in front of wall w's framing was at t: zero on
// bare framing and on an old finished wall, which never moves.
func (r *Room) Board(w place.Wall, t int64) length.Length {
	b, e := r.walls[w].at(t)
	if e == nil || b.Finished {
		return 0
	}
	return b.Thick
}

// WallSaid is what was last said of wall w's face, e nil when nothing was.
func (r *Room) WallSaid(w place.Wall) (b Boarded, e *Entry) { return r.walls[w].now() }

// BoardNow is Board as things stand.
func (r *Room) BoardNow(w place.Wall) length.Length { return r.Board(w, EndOfTime) }

// Finished reports whether w is an old finished wall.
func (r *Room) Finished(w place.Wall) bool {
	b, e := r.walls[w].now()
	return e != nil && b.Finished
}

// Framing is the room's extent from framing to framing. The size was said to
// the faces that were there at that time.
func (r *Room) Framing() (ew, ns length.Length) {
	b, e := r.size.now()
	if e == nil {
		return 0, 0
	}
	return b.EW + r.Board(place.West, e.Sent) + r.Board(place.East, e.Sent),
		b.NS + r.Board(place.North, e.Sent) + r.Board(place.South, e.Sent)
}

// Extent is the size of a surface from framing to framing (a wall's height is
// zero until it is known).
func (r *Room) Extent(s place.Surface) (x, y length.Length) {
	ew, ns := r.Framing()
	switch s {
	case place.Ceiling:
		return ew, ns
	case place.Surface(place.North), place.Surface(place.South):
		x = ew
	case place.Surface(place.East), place.Surface(place.West):
		x = ns
	}
	b, _ := r.size.now()
	return x, b.High
}

// Clear is the rectangle of the ceiling between the faces that are there now.
func (r *Room) Clear() place.Rect {
	ew, ns := r.Framing()
	return place.Rect{X0: r.BoardNow(place.West), Y0: r.BoardNow(place.North), X1: ew - r.BoardNow(place.East), Y1: ns - r.BoardNow(place.South)}
}

// NotchRect is where a notch stands, in ceiling coordinates to the framing.
func (r *Room) NotchRect(n Notch) place.Rect {
	ew, ns := r.Framing()
	at := func(corner string) place.Rect {
		q := place.Rect{X0: 0, Y0: 0, X1: n.EW, Y1: n.NS}
		if corner[1] == 'e' {
			q.X0, q.X1 = ew-n.EW, ew
		}
		if corner[0] == 's' {
			q.Y0, q.Y1 = ns-n.NS, ns
		}
		return q
	}
	if n.Corner != "" {
		return at(n.Corner)
	}
	var q place.Rect
	switch n.Wall {
	case place.North, place.West:
		q = at("nw")
	case place.South:
		q = at("sw")
	case place.East:
		q = at("ne")
	}
	if n.Wall == place.North || n.Wall == place.South {
		q.X0 = n.Off
		if n.From == place.East {
			q.X0 = ew - n.Off - n.EW
		}
		q.X1 = q.X0 + n.EW
	} else {
		q.Y0 = n.Off
		if n.From == place.South {
			q.Y0 = ns - n.Off - n.NS
		}
		q.Y1 = q.Y0 + n.NS
	}
	return q
}

// Notches are the room's notches, to the framing.
func (r *Room) Notches() []place.Rect {
	b, _ := r.size.now()
	out := make([]place.Rect, 0, len(b.Less))
	for _, n := range b.Less {
		out = append(out, r.NotchRect(n))
	}
	return out
}

// NotchAt is the notch standing at wall w over the place v on the other axis.
func (r *Room) NotchAt(w place.Wall, v length.Length) (place.Rect, bool) {
	ew, ns := r.Framing()
	for _, q := range r.Notches() {
		switch {
		case w == place.North && q.Y0 <= 0 && q.X0 < v && v < q.X1,
			w == place.South && q.Y1 >= ns && q.X0 < v && v < q.X1,
			w == place.West && q.X0 <= 0 && q.Y0 < v && v < q.Y1,
			w == place.East && q.X1 >= ew && q.Y0 < v && v < q.Y1:
			return q, true
		}
	}
	return place.Rect{}, false
}

// NotchOn reports whether a notch stands at wall w.
func (r *Room) NotchOn(w place.Wall) bool {
	ew, ns := r.Framing()
	return slices.ContainsFunc(r.Notches(), func(q place.Rect) bool {
		switch w {
		case place.North:
			return q.Y0 <= 0
		case place.South:
			return q.Y1 >= ns
		case place.West:
			return q.X0 <= 0
		}
		return q.X1 >= ew
	})
}

// Inside reports whether p lies on surface s of the room, notches left out. A
// wall whose height is not known bounds nothing upward.
func (r *Room) Inside(s place.Surface, p place.Point) bool {
	w, h := r.Extent(s)
	if p.X < 0 || p.X > w || p.Y < 0 || (h > 0 && p.Y > h) {
		return false
	}
	if s == place.Ceiling {
		for _, q := range r.Notches() {
			if q.X0 < p.X && p.X < q.X1 && q.Y0 < p.Y && p.Y < q.Y1 {
				return false
			}
		}
	}
	return true
}

// BoardsRun is the direction the boards run on surface s, and whether it was
// said or follows from supports that were noted; known is false when neither.
// Boards cross the supports unless the crew says along.
func (r *Room) BoardsRun(s place.Surface) (run place.Run, known bool) {
	if s.IsWall() {
		return place.EW, true // rows lie level on a wall
	}
	for _, p := range r.Pieces(s) {
		if p.Row > 0 && p.Run != "" {
			return p.Run, true // what hangs has settled it
		}
	}
	said, _ := r.boardsRun.now()
	switch said {
	case "ew", "ns":
		return place.Run(said), true
	}
	set := r.Supports(s)
	if len(set) == 0 {
		return "", false
	}
	if said == "along" {
		return set[0].Run, true
	}
	return set[0].Run.Across(), true
}

// RowsFrom is the wall the rows are counted from: north for boards running
// east-west, west for boards running north-south, unless the crew turned it.
func (r *Room) RowsFrom(boards place.Run) place.Wall {
	w, e := r.rowsFrom.now()
	if e != nil && (w == place.North || w == place.South) == (boards == place.EW) {
		return w
	}
	if boards == place.EW {
		return place.North
	}
	return place.West
}
