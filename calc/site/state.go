package site

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/stock"
)

// State is the state of a job. Only one goroutine may read it at a time, because readers cache results
// until the next event.
type State struct {
	Entries []*Entry // by Seq-1
	Rooms   []*Room  // in the order they were first named

	rooms  map[string]*Room // by name, lower case
	people map[string]*person
	things index

	title     history.Versions[string]
	units     history.Versions[length.Units]
	boards    frame.Boards
	clearance history.Versions[length.Length]
	screw     history.Versions[length.Length]

	code     history.Versions[string]
	settings map[string]history.Versions[event.Setting]
	stock    stock.Ledger
	longest  history.Versions[length.Length]

	snags, hits []*Entry
	told        []*Entry            // notes and snags
	fixed       map[uint64][]*Entry // by seq of the snag
	photos      map[uint64][]*Entry // by seq of the entry they belong to
}

type person struct {
	entries []*Entry
	noted   []*Entry                 // those that noted things
	here    history.Versions[string] // rooms they said they were in
}

// New returns the state of a job without events.
func New() *State {
	return &State{
		rooms:  map[string]*Room{},
		fixed:  map[uint64][]*Entry{},
		photos: map[uint64][]*Entry{},

		settings: map[string]history.Versions[event.Setting]{},
		people:   map[string]*person{},
		things:   index{named: map[string]*ThingState{}, words: map[string][]*ThingState{}, routes: map[string]bool{}},
	}
}

// Apply folds in one event. An error means that the event does not fit the state, because of a damaged log
// or a defect, never because of what a person typed. The state is then unchanged.
func (s *State) Apply(ev event.Event) error {
	if ev.Seq != uint64(len(s.Entries))+1 {
		return fmt.Errorf("entry %d does not follow entry %d", ev.Seq, len(s.Entries))
	}
	if ev.Body == nil || folds[ev.Body.Kind()] == nil {
		return fmt.Errorf("entry %d could not be read back: a %T", ev.Seq, ev.Body)
	}
	e := &Entry{Event: ev}
	if err := folds[ev.Body.Kind()](s, e, ev.Body); err != nil {
		return fmt.Errorf("entry %d: %w", ev.Seq, err)
	}
	s.Entries = append(s.Entries, e)
	for _, r := range s.Rooms {
		r.places = nil
		r.Forget()
	}
	p := s.person(ev.Who)
	p.entries = append(p.entries, e)
	if _, seen := p.here.Now(); seen == nil && e.Room != "" {
		p.here.Add(e, e.Room)
	}
	return nil
}

// known returns what there is of a person, empty if nothing.
func (s *State) known(who string) person {
	if p := s.people[strings.ToLower(who)]; p != nil {
		return *p
	}
	return person{}
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

// Entry returns entry seq, nil if there is none.
func (s *State) Entry(seq uint64) *Entry {
	if seq == 0 || seq > uint64(len(s.Entries)) {
		return nil
	}
	return s.Entries[seq-1]
}

// LastOf returns the newest entry of who's that undo can take back: one that is not struck, and not one
// that undo skips.
func (s *State) LastOf(who string) *Entry {
	for _, e := range slices.Backward(s.known(who).entries) {
		if b, ok := e.Body.(interface{ UndoSkips() bool }); ok && b.UndoSkips() {
			continue
		}
		if !e.Struck() {
			return e
		}
	}
	return nil
}

// RoomOf returns the room that who is in: the one they named last.
func (s *State) RoomOf(who string) *Room {
	name, _ := s.known(who).here.Now()
	return s.Room(name)
}

// Came returns when who came to the room that they are in, in Unix milliseconds; 0 if they are in none.
func (s *State) Came(who string) int64 {
	if _, e := s.known(who).here.Now(); e != nil {
		return e.Sent
	}
	return 0
}

// Knows reports whether who has sent anything for this job.
func (s *State) Knows(who string) bool { return s.people[strings.ToLower(who)] != nil }
