package site

import (
	"cmp"
	"slices"
	"strings"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/shell"
)

// Room is one room of the job.
type Room struct {
	Name string

	job        *State
	size       versions[event.RoomSize]
	aliases    []version[event.Named]
	walls      map[place.Surface]versions[event.Boarded]
	surfaces   map[place.Surface]*surface
	numbered   map[string]int // by kind, the number of things named by kind and number
	marks      map[string]versions[event.MarkSet]
	routes     map[string]*RouteState
	squares    []version[event.Square]
	slopes     map[place.Wall]versions[event.Slope]
	bulkheads  map[beam]versions[event.Bulkhead]
	texture    versions[bool]
	wallsFirst versions[bool]
	floor      versions[length.Length]
	closing

	places *places // nil until needed

	Routes []*RouteState // in the order first noted
	Things []*ThingState // in the order first noted
	Framed []*ThingState // those ever noted as an opening in the framing
}

func newRoom(job *State, name string) *Room {
	return &Room{
		Name:      name,
		job:       job,
		walls:     map[place.Surface]versions[event.Boarded]{},
		surfaces:  map[place.Surface]*surface{},
		numbered:  map[string]int{},
		marks:     map[string]versions[event.MarkSet]{},
		slopes:    map[place.Wall]versions[event.Slope]{},
		bulkheads: map[beam]versions[event.Bulkhead]{},
		routes:    map[string]*RouteState{},
	}
}

var _ = onJob(func(s *State, e *Entry, b event.RoomSize) {
	r := s.rooms[b.Room]
	if r == nil {
		r = newRoom(s, b.Room)
		s.rooms[b.Room] = r
		s.Rooms = append(s.Rooms, r)
	}
	r.size.add(e, b)
	for _, sl := range b.Slopes {
		addTo(r.slopes, sl.Wall, e, sl)
	}
	s.person(e.Who).here.add(e, b.Room)
})

var _ = inRoom(func(r *Room, e *Entry, b event.Here) { r.job.person(e.Who).here.add(e, b.Room) })

var _ = inRoom(func(r *Room, e *Entry, b event.Named) { r.aliases = append(r.aliases, version[event.Named]{e, b}) })

// Room returns the standing room of that name or alias, or nil.
func (s *State) Room(name string) *Room {
	name = strings.ToLower(name)
	if r := s.rooms[name]; r != nil {
		if _, e := r.size.now(); e != nil {
			return r
		}
		return nil
	}
	for _, r := range s.Rooms {
		for _, a := range r.aliases {
			if a.v.Wall == "" && a.v.Alias == name && !a.e.Struck() {
				return r
			}
		}
	}
	return nil
}

// Standing returns the rooms that stand.
func (s *State) Standing() []*Room {
	var out []*Room
	for _, r := range s.Rooms {
		if _, e := r.size.now(); e != nil {
			out = append(out, r)
		}
	}
	return out
}

// OnlyRoom returns the job's room if it has exactly one.
func (s *State) OnlyRoom() *Room {
	if all := s.Standing(); len(all) == 1 {
		return all[0]
	}
	return nil
}

// Aliases calls yield for each alias that stands. wall is "" for an alias of the room itself.
func (r *Room) Aliases(yield func(alias string, wall place.Wall)) {
	for _, a := range r.aliases {
		if !a.e.Struck() && (a.v.Wall == "" || r.WallNamed(a.v.Alias) == a.v.Wall) {
			yield(a.v.Alias, a.v.Wall)
		}
	}
}

// WallNamed returns the wall to which that alias was given last, "" if there is none.
func (r *Room) WallNamed(alias string) place.Wall {
	for _, a := range slices.Backward(r.aliases) {
		if a.v.Wall != "" && a.v.Alias == alias && !a.e.Struck() {
			return a.v.Wall
		}
	}
	return ""
}

// Said returns the room's size as last said, and the entry that said it.
func (r *Room) Said() (event.RoomSize, *Entry) { return r.size.now() }

// Sizes returns how many standing notes there are of the room's size.
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

// Shell returns the shape of the room as it stands.
func (r *Room) Shell() *shell.Room {
	c := r.workedOut()
	if c.shell == nil {
		c.shell = r.shell()
	}
	return c.shell
}

func (r *Room) shell() *shell.Room {
	sh := &shell.Room{Boards: map[place.Surface]length.Length{}, Ends: map[place.Wall]length.Length{}, Slopes: map[place.Wall]event.Slope{}}
	if b, e := r.size.now(); e != nil {
		on := r.boards(e.Sent) // the size was said to the faces that were there then
		sh.EW, sh.NS = b.EW+on[1]+on[3], b.NS+on[0]+on[2]
		sh.High, sh.HighTo, sh.Less = b.High, r.CeilingFace(e.Sent), b.Less
	}
	if board, _ := r.BoardFor(place.Ceiling); !r.WallsFirst() {
		sh.Over = cmp.Or(r.CeilingFace(EndOfTime), board.Thick)
	}
	for _, w := range place.Walls {
		sh.Ends[w] = r.BoardNow(w)
		if sh.Ends[w] == 0 && r.WallsFirst() && !r.Finished(place.Surface(w)) {
			board, _ := r.BoardFor(place.Surface(w))
			sh.Ends[w] = board.Thick
		}
		if b, e := r.slopes[w].now(); e != nil {
			sh.Slopes[w] = b
		}
		for n := range place.Ordinals {
			if b, e := r.bulkheads[beam{w, n}].now(); e != nil {
				sh.Bulkheads = append(sh.Bulkheads, b)
			}
		}
	}
	for _, s := range sh.Surfaces() {
		if s.FromFloor() {
			sh.Boards[s] = r.BoardOn(s, EndOfTime)
		}
	}
	sh.Leaning = r.leaning(sh)
	return sh
}
