// Package scene is what there is to draw of a surface of a room, in lengths of the job, and how it is said. It
// knows nothing of paper.
package scene

import (
	"slices"

	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/inforce"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/locate"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/calc/square"
)

// Scene is a surface to be drawn. Places are in the surface's own coordinates, measured
// to the framing, whichever way it is seen. EW and NS are its extent along X and Y.
type Scene struct {
	say.Speech
	Job, Room string
	Surface   place.Surface
	Entry     uint64 // the job's last entry when it was made
	Up        bool   // as seen looking up, with east and west swapped
	Sought    string // the name of the thing to point out; "" for none

	EW, NS   length.Length
	Walls    []Wall     // clockwise from north, if the room is out of square; else nil
	Clear    place.Rect // between the wall faces there are now
	Finished bool       // some wall is an old finished one, measured from its face
	Notches  []place.Rect
	Boarded  bool             // a wall of the room is
	Openings []place.Rect     // doors and windows
	Under    [][2]place.Point // slopes over a wall
	Lows     []Low            // slopes and bulkheads, on the ceiling
	Parts    []Scene          // those to be drawn on the ceiling's sheet
	Supports []place.Support
	Pieces   []Piece
	Things   []Thing
	Marks    []Mark
	Runs     []Run
	Lies     say.Lies
	Two      string // the legend for sizes of tapered pieces; "" if there are none
	ToCut    []layout.Cut
	Sizes    map[string]layout.Piece // of the pieces in ToCut
}

// Seek points out a thing. It comes first in the list, and its dimensions are placed first.
func (s *Scene) Seek(name string) {
	s.Sought = name
	first := func(t Thing) int {
		if t.Name == name {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(s.Things, func(a, b Thing) int { return first(a) - first(b) })
}

// Wall is a wall of a room out of square.
type Wall struct {
	Name     place.Wall
	From, To place.Point // the framing, clockwise
	In, End  place.Point // the face there is now
	Long     length.Length
}

// Piece is a piece of board, planned or up.
type Piece struct {
	ID         string // such as r2.1; for a piece that was never planned, its row
	Cut, Width length.Length
	Rip        bool
	Hung       bool
	Rect       place.Rect
}

// Thing is an opening or a box behind the board.
type Thing struct {
	Name    string
	What    string
	Size    place.Size
	Surface place.Surface
	Framed  bool // a door or window, framed in the wall
	At      place.Point
	State   site.Standing
	Over    string // what covers it, such as "row 2"
	Since   int64  // when it was covered, in Unix milliseconds
	From    []Dim  // at most one along each axis; of a door or window, see edged
}

// Dim is a distance off a wall, or the size of a door or window.
type Dim struct {
	Ref  string // such as "west" or "north notch"; "" for a size
	Axis place.Axis
	Wall length.Length // the coordinate of the face it is measured from
	Dist length.Length
	Edge length.Length // from the centre of the thing to what is measured to
	Off  length.Length // from its centre to the dimension line
	Size bool
}

// Mark is a mark on the framing.
type Mark struct {
	Name string
	At   place.Point
}

// Run is a pipe, wire or duct, with the strip around it to keep screws out of.
type Run struct {
	Name, What string
	Path       []place.Point
	Keep       length.Length // half the width of that strip
	Depth      length.Length // behind the board; 0 if unknown
	Plates     []place.Rect
}

// Of makes the scene of a surface of a room. plan is the plan in force, or nil.
func Of(st *site.State, r *site.Room, on place.Surface, plan *inforce.Plan, speech say.Speech, up bool) Scene {
	s := Scene{
		Speech: speech, Job: st.Title(), Room: r.Name, Surface: on, Entry: uint64(len(st.Entries)), Up: up && on == place.Ceiling,
		Clear: r.Shell().Clear(on), Notches: r.Shell().NotchesOn(on), Openings: r.Openings(on), Supports: r.Supports(on),
	}
	s.EW, s.NS = r.Shell().Extent(on)
	s.Under = r.Shell().Under(on)
	if on == place.Ceiling {
		s.Lows = low(r.Shell())
	}
	s.Boarded = slices.ContainsFunc(place.Walls[:], func(w place.Wall) bool { return r.BoardNow(w) > 0 })
	for i := range s.Notches { // an open-ended notch ends with the surface
		s.Notches[i].X1, s.Notches[i].Y1 = min(s.Notches[i].X1, s.EW), min(s.Notches[i].Y1, s.NS)
	}
	if shape, leans := r.Shell().Shape(); leans && on == place.Ceiling {
		now, _ := r.Shell().Faces(place.Ceiling)
		for i, w := range place.Walls {
			k := (i + 1) % 4
			s.Walls = append(s.Walls, Wall{w, shape.Corners[i], shape.Corners[k], now.Corners[i], now.Corners[k], shape.Measure(square.Line(w))})
		}
	}
	if plan != nil {
		s.planned(plan)
	} else {
		for _, p := range r.Pieces(on) {
			s.Pieces = append(s.Pieces, Piece{ID: say.Piece(&p), Cut: p.Size, Hung: true, Rect: p.Rect})
		}
	}
	for _, th := range r.Things {
		if v, e := th.Now(); e != nil {
			if on == place.Ceiling || v.Surface == on {
				s.Things = append(s.Things, thingOf(th, v))
			}
		}
	}
	for _, name := range r.Marks(on) {
		if _, at, ok := r.Mark(name); ok {
			s.Marks = append(s.Marks, Mark{name, at})
		}
	}
	for _, w := range place.Walls {
		s.Finished = s.Finished || r.Finished(place.Surface(w))
	}
	s.runs(r)
	return s
}

func (s *Scene) planned(plan *inforce.Plan) {
	s.Lies = say.Lies{On: plan.Surface, Run: plan.Run}
	if s.Walls != nil {
		s.Two = s.Lies.Two(plan.Rows)
	}
	s.ToCut, s.Sizes = plan.ToCut(), map[string]layout.Piece{}
	for _, row := range plan.Rows {
		for _, pc := range row.Pieces {
			s.Sizes[pc.ID] = pc
			s.Pieces = append(s.Pieces, Piece{
				ID: pc.ID, Cut: pc.Cut, Width: pc.Width, Rip: pc.Rip, Hung: plan.Hung[pc.ID], Rect: plan.Rect(pc),
			})
		}
	}
}

// Cut is the length to cut a piece to, or both lengths if it is tapered.
func (s *Scene) Cut(p Piece) string {
	if pc, ok := s.Sizes[p.ID]; ok {
		return s.Lies.Cut(pc, s.Tape)
	}
	return s.Tape(p.Cut)
}

// Rip is the width to rip a piece to, or both widths if the rip tapers.
func (s *Scene) Rip(p Piece) string {
	if pc, ok := s.Sizes[p.ID]; ok {
		return "rip " + s.Lies.Rip(pc, s.Tape)
	}
	return "rip " + s.Tape(p.Width)
}

func thingOf(th *site.ThingState, v event.Thing) Thing {
	st, over := th.Stands()
	t := Thing{Name: th.Name, What: v.What, Size: v.Size, Surface: v.Surface, Framed: v.Framed, At: th.At(), State: st}
	if st == site.Covered {
		t.Over, t.Since = say.Piece(over), over.Entry.Sent
	}
	var has [2]bool
	for _, step := range locate.From(th) {
		if step.Kind != locate.Wall || has[step.Axis] || v.Framed && step.Ref == "ceiling" {
			continue
		}
		has[step.Axis] = true
		d := Dim{Ref: step.Ref, Axis: step.Axis, Dist: step.Dist, Wall: t.At.On(step.Axis) - step.Dist}
		if _, grows, ok := v.Surface.Axis(step.Dir.Opposite()); ok && !grows || step.Dir == "down" {
			d.Wall = t.At.On(step.Axis) + step.Dist
		}
		t.From = append(t.From, d)
	}
	if v.Surface != place.Ceiling && !has[place.Y] && v.Surface.Start(place.Y) == "" { // no wall there: measure up from the lower edge
		t.From = append(t.From, Dim{Axis: place.Y, Dist: t.At.Y})
	}
	slices.SortStableFunc(t.From, func(a, b Dim) int { return int(a.Axis) - int(b.Axis) })
	if v.Framed {
		t.From = edged(t)
	}
	return t
}

// edged returns the dimensions of a door or window: along each axis to its near and its far edge, from the
// same wall, and its size. What stands on the floor has only its height.
func edged(t Thing) (out []Dim) {
	for _, m := range t.From {
		half, aside := t.Size.Half(m.Axis), t.Size.Half(m.Axis.Other())/2
		out = append(out, Dim{Axis: m.Axis, Wall: t.At.On(m.Axis) - half, Dist: 2 * half, Edge: half, Off: -aside, Size: true})
		if m.Dist <= half { // on the floor, finished or not
			continue
		}
		near, far := m, m
		near.Dist, near.Edge = m.Dist-half, -half
		far.Dist, far.Edge, far.Off = m.Dist+half, half, aside
		if m.Wall > t.At.On(m.Axis) {
			near.Edge, far.Edge = half, -half
		}
		out = append(out, near, far)
	}
	return out
}

// runs adds the runs behind the surface, and the plates installed where they cross supports.
func (s *Scene) runs(r *site.Room) {
	routes := r.RoutesOn(s.Surface)
	q := reach.Query{Supports: s.Supports, Allow: reach.Usual()}
	for _, rt := range routes {
		v, _ := rt.Now()
		q.Runs = append(q.Runs, reach.Run{Half: v.Size / 2, Path: rt.Path()})
		s.Runs = append(s.Runs, Run{Name: rt.Name, What: v.What, Path: rt.Path(), Keep: v.Size/2 + q.Allow.Beside, Depth: v.Depth})
	}
	for _, x := range reach.Check(q).Crossings {
		sup := s.Supports[x.Support]
		if !routes[x.Run].Plated(sup.Kind, sup.N) {
			continue
		}
		plate := place.Rect{X0: x.From, X1: x.To, Y0: sup.Pos - sup.Wide/2, Y1: sup.Pos + sup.Wide/2}
		if sup.Lie == place.Y {
			plate = place.Rect{X0: plate.Y0, X1: plate.Y1, Y0: x.From, Y1: x.To}
		}
		s.Runs[x.Run].Plates = append(s.Runs[x.Run].Plates, plate)
	}
}
