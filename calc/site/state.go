package site

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/length"
)

// State is a job as its events have made it. It is read by one goroutine at a
// time: readers keep what they worked out until something is folded in.
type State struct {
	Entries []*Entry // by Seq-1
	Rooms   []*Room  // in the order they were first named

	rooms  map[string]*Room // by name, lower case
	people map[string]*person
	things index

	title     versions[string]
	units     versions[length.Units]
	board     []version[Board]
	clearance versions[length.Length]
	screw     versions[length.Length]

	code     versions[string]
	settings map[string]versions[Setting]
	stock    []version[Stock]
	longest  versions[length.Length]

	snags, hits []*Entry
	fixed       map[uint64][]*Entry // by the snag
	photos      map[uint64][]*Entry // by the entry they belong to
}

type person struct {
	entries []*Entry
	noted   []*Entry         // of those, what noted things
	here    versions[string] // rooms they said they are in
}

// New is a job with no events.
func New() *State {
	return &State{
		rooms:  map[string]*Room{},
		fixed:  map[uint64][]*Entry{},
		photos: map[uint64][]*Entry{},

		settings: map[string]versions[Setting]{},
		people:   map[string]*person{},
		things:   index{named: map[string]*ThingState{}, words: map[string][]*ThingState{}, routes: map[string]bool{}},
	}
}

// Apply folds one event in. An error means that the event does not fit the
// state (a damaged log or a defect, never what a person typed) and that the
// state is unchanged.
func (s *State) Apply(ev Event) error {
	if ev.Seq != uint64(len(s.Entries))+1 {
		return fmt.Errorf("entry %d does not follow entry %d", ev.Seq, len(s.Entries))
	}
	if ev.Body == nil || kinds[ev.Body.Kind()] == nil {
		return fmt.Errorf("entry %d could not be read back: a %T", ev.Seq, ev.Body)
	}
	e := &Entry{Event: ev}
	if err := ev.Body.apply(s, e); err != nil {
		return fmt.Errorf("entry %d: %w", ev.Seq, err)
	}
	s.Entries = append(s.Entries, e)
	for _, r := range s.Rooms {
		r.places = nil
	}
	p := s.person(ev.Who)
	p.entries = append(p.entries, e)
	if _, seen := p.here.now(); seen == nil && e.Room != "" {
		p.here.add(e, e.Room)
	}
	return nil
}

// enter is the room that entry e belongs to.
func (s *State) enter(e *Entry, name string) (*Room, error) {
	r := s.rooms[name]
	if r == nil {
		return nil, fmt.Errorf("no room %q", name)
	}
	e.Room = name
	return r, nil
}

// about is the earlier entry that entry e is about; e belongs to its room.
func (s *State) about(e *Entry, seq uint64) (*Entry, error) {
	t := s.Entry(seq)
	if t == nil {
		return nil, fmt.Errorf("no entry %d", seq)
	}
	e.Room = t.Room
	return t, nil
}

func (s *State) person(who string) *person {
	key := strings.ToLower(who)
	p := s.people[key]
	if p == nil {
		p = &person{}
		s.people[key] = p
	}
	return p
}

// Entry is entry seq, nil when there is none.
func (s *State) Entry(seq uint64) *Entry {
	if seq == 0 || seq > uint64(len(s.Entries)) {
		return nil
	}
	return s.Entries[seq-1]
}

// LastOf is the newest entry of who's own that undo can take back: not struck,
// and not one that undo passes over.
func (s *State) LastOf(who string) *Entry {
	p := s.people[strings.ToLower(who)]
	if p == nil {
		return nil
	}
	for _, e := range slices.Backward(p.entries) {
		if b, ok := e.Body.(interface{ undoPasses() bool }); ok && b.undoPasses() {
			continue
		}
		if !e.Struck() {
			return e
		}
	}
	return nil
}

// RoomOf is the room that who is in: the last one they named.
func (s *State) RoomOf(who string) *Room {
	p := s.people[strings.ToLower(who)]
	if p == nil {
		return nil
	}
	name, _ := p.here.now()
	return s.Room(name)
}

// Came is when who came to the room that they are in, in the milliseconds of [Event]; 0 when they are in none.
func (s *State) Came(who string) int64 {
	if p := s.people[strings.ToLower(who)]; p != nil {
		if _, e := p.here.now(); e != nil {
			return e.Sent
		}
	}
	return 0
}

// Knows reports whether who has written in this job.
func (s *State) Knows(who string) bool { return s.people[strings.ToLower(who)] != nil }
