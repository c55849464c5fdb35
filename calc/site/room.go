package site

import (
	"slices"
	"strings"

	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/history"
	"strapline/calc/place"
)

// Room is one room of the job.
type Room struct {
	frame.Frame
	job      *State
	aliases  []history.Version[event.Named]
	numbered map[string]int // by kind, the number of things named by kind and number
	marks    map[string]history.Versions[event.MarkSet]
	routes   map[string]*RouteState
	closing

	places *places // nil until needed

	Routes []*RouteState // in the order first noted
	Things []*ThingState // in the order first noted
	Framed []*ThingState // those ever noted as an opening in the framing
}

func newRoom(job *State, name string) *Room {
	r := &Room{
		job:      job,
		numbered: map[string]int{},
		marks:    map[string]history.Versions[event.MarkSet]{},
		routes:   map[string]*RouteState{},
	}
	r.Frame = frame.New(name, &job.boards)
	return r
}

var _ = onJob(func(s *State, e *Entry, b event.RoomSize) {
	r := s.rooms[b.Room]
	if r == nil {
		r = newRoom(s, b.Room)
		s.rooms[b.Room] = r
		s.Rooms = append(s.Rooms, r)
	}
	r.Sized(e, b)
	s.person(e.Who).here.Add(e, b.Room)
})

var _ = inRoom(func(r *Room, e *Entry, b event.Here) { r.job.person(e.Who).here.Add(e, b.Room) })

var _ = inRoom(func(r *Room, e *Entry, b event.Named) {
	r.aliases = append(r.aliases, history.Of(e, b))
})

// Room returns the standing room of that name or alias, or nil.
func (s *State) Room(name string) *Room {
	name = strings.ToLower(name)
	if r := s.rooms[name]; r != nil {
		if _, e := r.Said(); e != nil {
			return r
		}
		return nil
	}
	for _, r := range s.Rooms {
		for _, a := range r.aliases {
			if a.V.Wall == "" && a.V.Alias == name && !a.E.Struck() {
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
		if _, e := r.Said(); e != nil {
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
		if !a.E.Struck() && (a.V.Wall == "" || r.WallNamed(a.V.Alias) == a.V.Wall) {
			yield(a.V.Alias, a.V.Wall)
		}
	}
}

// WallNamed returns the wall to which that alias was given last, "" if there is none.
func (r *Room) WallNamed(alias string) place.Wall {
	for _, a := range slices.Backward(r.aliases) {
		if a.V.Wall != "" && a.V.Alias == alias && !a.E.Struck() {
			return a.V.Wall
		}
	}
	return ""
}

// Used reports whether anything stands in the room that needs its size.
func (r *Room) Used() bool {
	for _, t := range r.Things {
		if _, e := t.Now(); e != nil {
			return true
		}
	}
	for _, vs := range r.marks {
		if _, e := vs.Now(); e != nil {
			return true
		}
	}
	return slices.ContainsFunc(r.Built(), func(s place.Surface) bool { return len(r.Pieces(s)) > 0 || len(r.Supports(s)) > 0 })
}
