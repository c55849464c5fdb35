package site

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/length"
)

// State is a job as its events have made it. It is not safe for concurrent use.
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

	snags, fixed []*Entry
	hits         []*Entry
	photos       map[uint64][]*Entry // by the entry they belong to
}

type person struct {
	entries []*Entry
	here    versions[string] // rooms they said they are in
}

// New is a job with no events.
func New() *State {
	return &State{
		rooms:  map[string]*Room{},
		photos: map[uint64][]*Entry{},

		settings: map[string]versions[Setting]{},
		people:   map[string]*person{},
		things:   index{named: map[string][]*ThingState{}, words: map[string][]*ThingState{}, routes: map[string]bool{}},
	}
}

// Apply folds one event in. An error means that the event does not fit the
// state (a damaged log or a defect, never what a person typed) and that the
// state is unchanged.
func (s *State) Apply(ev Event) error {
	if ev.Seq != uint64(len(s.Entries))+1 {
		return fmt.Errorf("entry %d does not follow entry %d", ev.Seq, len(s.Entries))
	}
	e := &Entry{Event: ev}
	if err := s.fold(e); err != nil {
		return fmt.Errorf("entry %d: %w", ev.Seq, err)
	}
	s.Entries = append(s.Entries, e)
	p := s.person(ev.Who)
	p.entries = append(p.entries, e)
	if _, seen := p.here.now(); seen == nil && e.Room != "" {
		p.here.add(e, e.Room)
	}
	return nil
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

func (s *State) fold(e *Entry) error {
	switch b := e.Body.(type) {
	case JobTitle:
		s.title.add(e, b.Title)
	case UnitsSet:
		s.units.add(e, b.Units)
	case Built: // in the log for whoever reads it; nothing is computed from it
	case Board:
		s.board = append(s.board, version[Board]{e, b})
	case Clearance:
		s.clearance.add(e, b.L)
	case Screw:
		s.screw.add(e, b.L)
	case Code:
		s.code.add(e, b.Code)
	case Setting:
		vs := s.settings[b.What]
		vs.add(e, b)
		s.settings[b.What] = vs
	case Stock:
		s.stock = append(s.stock, version[Stock]{e, b})
	case Longest:
		s.longest.add(e, b.L)
	case RoomSize:
		r := s.rooms[b.Room]
		if r == nil {
			r = newRoom(b.Room)
			s.rooms[b.Room] = r
			s.Rooms = append(s.Rooms, r)
		}
		r.size.add(e, b)
		e.Room = b.Room
		s.person(e.Who).here.add(e, b.Room)
	case Here:
		if _, ok := s.rooms[b.Room]; !ok {
			return fmt.Errorf("no room %q", b.Room)
		}
		e.Room = b.Room
		s.person(e.Who).here.add(e, b.Room)
	case Gap:
		e.Room = b.Room
	case Note:
		e.Room = b.Room
	case Snag:
		e.Room = b.Room
		s.snags = append(s.snags, e)
	case Hit:
		e.Room = b.Room
		s.hits = append(s.hits, e)
	case SnagFixed:
		t, err := s.entry(b.Seq)
		if err != nil {
			return err
		}
		e.Room = t.Room
		s.fixed = append(s.fixed, e)
	case Photo:
		t, err := s.entry(b.Of)
		if err != nil {
			return err
		}
		e.Room = t.Room
		s.photos[b.Of] = append(s.photos[b.Of], e)
	case Strike:
		t, err := s.entry(b.Seq)
		if err != nil {
			return err
		}
		e.Room = t.Room
		t.by = e
	default:
		return s.foldRoom(e)
	}
	return nil
}

// foldRoom folds the events that belong to one room.
func (s *State) foldRoom(e *Entry) error {
	name := roomOf(e.Body)
	r := s.rooms[name]
	if r == nil {
		return fmt.Errorf("no room %q", name)
	}
	e.Room = name
	switch b := e.Body.(type) {
	case Named:
		r.aliases = append(r.aliases, version[Named]{e, b})
	case BoardsRun:
		r.boardsRun.add(e, b.Dir)
	case RowsFrom:
		r.rowsFrom.add(e, b.Wall)
	case Boarded:
		w := r.walls[b.Wall]
		w.add(e, b)
		r.walls[b.Wall] = w
	case Supports:
		r.surface(b.Surface).supports(b.What).set(e, b)
	case SupportFix:
		set := r.surface(b.Surface).supports(b.What)
		set.fixes = append(set.fixes, version[SupportFix]{e, b})
	case Thing:
		s.noteThing(r, e, b)
	case Things:
		for _, t := range b.Each {
			s.noteThing(r, e, t)
		}
	case MarkSet:
		m := r.marks[b.Name]
		m.add(e, b)
		r.marks[b.Name] = m
	case Hung:
		if err := r.open(e, b.Cut); err != nil {
			return err
		}
		sf := r.surface(b.Surface)
		sf.hung = append(sf.hung, version[Hung]{e, b})
		if whole := slices.DeleteFunc(slices.Clone(b.Used), Boards.Offcut); len(whole) > 0 {
			s.stock = append(s.stock, version[Stock]{e, Stock{How: "hung", Items: whole}})
		}
	case Opened:
		return r.open(e, b.Names)
	case Told:
		for _, n := range b.Names {
			t := r.things[n]
			if t == nil {
				return fmt.Errorf("no thing %q in %s", n, r.Name)
			}
			t.told = append(t.told, e)
		}
	case Route:
		s.noteRoute(r, e, b)
	case Plates:
		rt := r.routes[b.Run]
		if rt == nil {
			return fmt.Errorf("no run %q in %s", b.Run, r.Name)
		}
		rt.plates = append(rt.plates, version[Plates]{e, b})
	case Checked:
		r.checked = append(r.checked, version[Checked]{e, b})
	case Coat:
		r.coats.add(e, b)
	case Painted:
		r.painted.add(e, true)
	case Texture:
		r.texture.add(e, b.On)
	case PlanPick:
		r.pick.add(e, b.Pick)
	default:
		return fmt.Errorf("entry kind %q has no place in the state", e.Body.Kind())
	}
	return nil
}

func roomOf(b Body) string {
	switch b := b.(type) {
	case Named:
		return b.Room
	case BoardsRun:
		return b.Room
	case RowsFrom:
		return b.Room
	case Boarded:
		return b.Room
	case Supports:
		return b.Room
	case SupportFix:
		return b.Room
	case Thing:
		return b.Room
	case Things:
		return b.Room
	case MarkSet:
		return b.Room
	case Hung:
		return b.Room
	case Opened:
		return b.Room
	case Told:
		return b.Room
	case Route:
		return b.Room
	case Plates:
		return b.Room
	case Checked:
		return b.Room
	case Coat:
		return b.Room
	case Painted:
		return b.Room
	case Texture:
		return b.Room
	case PlanPick:
		return b.Room
	}
	return ""
}

func (r *Room) open(e *Entry, names []string) error {
	for _, n := range names {
		if r.things[n] == nil {
			return fmt.Errorf("no thing %q in %s", n, r.Name)
		}
	}
	for _, n := range names {
		r.things[n].opens = append(r.things[n].opens, e)
	}
	return nil
}

func (s *State) entry(seq uint64) (*Entry, error) {
	if seq == 0 || seq > uint64(len(s.Entries)) {
		return nil, fmt.Errorf("no entry %d", seq)
	}
	return s.Entries[seq-1], nil
}

// Entry is entry seq, nil when there is none.
func (s *State) Entry(seq uint64) *Entry {
	e, _ := s.entry(seq)
	return e
}

// LastOf is the newest entry of who's own that undo can take back: not struck,
// not itself an undo, and not merely an answer they were given.
func (s *State) LastOf(who string) *Entry {
	p := s.people[strings.ToLower(who)]
	if p == nil {
		return nil
	}
	for i := len(p.entries) - 1; i >= 0; i-- {
		e := p.entries[i]
		switch b := e.Body.(type) {
		case Told, Photo:
			continue
		case PlanPick:
			if !b.Said {
				continue
			}
		case Strike:
			if b.Undo {
				continue
			}
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

// Knows reports whether who has written in this job.
func (s *State) Knows(who string) bool { return s.people[strings.ToLower(who)] != nil }

// Room is the room of that name or alias, nil when there is none that stands.
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

// Standing lists the rooms that stand.
func (s *State) Standing() []*Room {
	var out []*Room
	for _, r := range s.Rooms {
		if _, e := r.size.now(); e != nil {
			out = append(out, r)
		}
	}
	return out
}

// OnlyRoom is the job's room when it has just one.
func (s *State) OnlyRoom() *Room {
	if all := s.Standing(); len(all) == 1 {
		return all[0]
	}
	return nil
}

// Photos lists the pictures that belong to an entry.
func (s *State) Photos(seq uint64) []string {
	var out []string
	for _, e := range s.photos[seq] {
		if !e.Struck() {
			out = append(out, e.Body.(Photo).Links...)
		}
	}
	return out
}

// HitsIn lists what was hit in a room, by the entries that stand.
func (s *State) HitsIn(room string) []*Entry {
	var out []*Entry
	for _, e := range s.hits {
		if e.Room == room && !e.Struck() {
			out = append(out, e)
		}
	}
	return out
}

// OpenSnags lists the snags that stand and are not fixed.
func (s *State) OpenSnags() []*Entry {
	var out []*Entry
next:
	for _, e := range s.snags {
		if e.Struck() {
			continue
		}
		for _, f := range s.fixed {
			if !f.Struck() && f.Body.(SnagFixed).Seq == e.Seq {
				continue next
			}
		}
		out = append(out, e)
	}
	return out
}

// Title is the job's title, "" when none was given.
func (s *State) Title() string { v, _ := s.title.now(); return v }

// Units is the system the job is measured in; imperial unless told.
func (s *State) Units() length.Units {
	if v, e := s.units.now(); e != nil {
		return v
	}
	return length.Imperial
}

// BoardNow is the board in use; what was never said is the usual sheet, 1/2 in
// by 48 in, and said is false.
func (s *State) BoardNow() (b Board, said bool) {
	for _, v := range s.board {
		if v.e.Struck() {
			continue
		}
		if v.v.Thick != 0 {
			b.Thick, said = v.v.Thick, true
		}
		if v.v.Wide != 0 {
			b.Wide = v.v.Wide
		}
		if v.v.Lengths != nil {
			b.Lengths = v.v.Lengths
		}
	}
	if b.Thick == 0 {
		b.Thick = length.Inch / 2
	}
	if b.Wide == 0 {
		b.Wide = 48 * length.Inch
	}
	return b, said
}

// Clear is how much a cut is under its opening, in all: 1/4 in unless set
// (common practice, no source).
func (s *State) Clear() length.Length {
	if v, e := s.clearance.now(); e != nil {
		return v
	}
	return length.Inch / 4
}

// ScrewSet is the screw the lead set, 0 when none.
func (s *State) ScrewSet() length.Length { v, _ := s.screw.now(); return v }
