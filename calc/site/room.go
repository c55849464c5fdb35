package site

import (
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Room is one room of the job.
type Room struct {
	Name string

	job        *State
	size       versions[RoomSize]
	aliases    []version[Named]
	walls      map[place.Wall]versions[Boarded]
	surfaces   map[place.Surface]*surface
	numbered   map[string]int // by kind, the number of things named by kind and number
	marks      map[string]versions[MarkSet]
	routes     map[string]*RouteState
	checked    []version[Checked]
	squares    []version[Square]
	slopes     map[place.Wall]versions[Slope]
	bulkheads  map[place.Wall]versions[Bulkhead]
	texture    versions[bool]
	wallsFirst versions[bool]
	floor      versions[length.Length]

	places *places // nil until needed

	Routes []*RouteState // in the order first noted
	Things []*ThingState // in the order first noted
	Framed []*ThingState // those ever noted as an opening in the framing
}

func newRoom(job *State, name string) *Room {
	return &Room{
		Name:      name,
		job:       job,
		walls:     map[place.Wall]versions[Boarded]{},
		surfaces:  map[place.Surface]*surface{},
		numbered:  map[string]int{},
		marks:     map[string]versions[MarkSet]{},
		slopes:    map[place.Wall]versions[Slope]{},
		bulkheads: map[place.Wall]versions[Bulkhead]{},
		routes:    map[string]*RouteState{},
	}
}

// RoomSize sets the room's extents, to the faces that are there when sent.
type RoomSize struct {
	Room   string        `json:"room"`
	EW     length.Length `json:"ew"`
	NS     length.Length `json:"ns"`
	High   length.Length `json:"high,omitempty"`
	Less   []Notch       `json:"less,omitempty"`
	Slopes []Slope       `json:"slopes,omitempty"`
}

var _ = kind[RoomSize]()

func (RoomSize) Kind() string { return "room" }

func (b RoomSize) apply(s *State, e *Entry) error {
	r := s.rooms[b.Room]
	if r == nil {
		r = newRoom(s, b.Room)
		s.rooms[b.Room] = r
		s.Rooms = append(s.Rooms, r)
	}
	r.size.add(e, b)
	for _, sl := range b.Slopes {
		r.slope(e, sl)
	}
	e.Room = b.Room
	s.person(e.Who).here.add(e, b.Room)
	return nil
}

// Here says that the sender is in Room from now on.
type Here struct {
	Room string `json:"room"`
}

var _ = kind[Here]()

func (Here) Kind() string { return "in" }

func (b Here) apply(s *State, e *Entry) error {
	if _, err := s.enter(e, b.Room); err != nil {
		return err
	}
	s.person(e.Who).here.add(e, b.Room)
	return nil
}

// Named gives a room, or a wall of a room, another name.
type Named struct {
	Room  string     `json:"room"`
	Wall  place.Wall `json:"wall,omitempty"`
	Alias string     `json:"alias"`
}

var _ = kind[Named]()

func (Named) Kind() string { return "alias" }

func (b Named) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	r.aliases = append(r.aliases, version[Named]{e, b})
	return nil
}

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
func (r *Room) Said() (RoomSize, *Entry) { return r.size.now() }

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

// Framing returns the room's extent from framing to framing. Its size was said to the faces that were
// there at the time.
func (r *Room) Framing() (ew, ns length.Length) {
	b, e := r.size.now()
	if e == nil {
		return 0, 0
	}
	return b.EW + r.Board(place.West, e.Sent) + r.Board(place.East, e.Sent),
		b.NS + r.Board(place.North, e.Sent) + r.Board(place.South, e.Sent)
}
