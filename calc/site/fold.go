package site

import (
	"fmt"

	"strapline/calc/event"
	"strapline/calc/frame"
)

// folds holds, for each kind of body, how it is folded in. Each subject registers its own.
var folds = map[string]func(*State, *Entry, event.Body) error{}

// fold registers how bodies of type T are folded in, as entry e, whose room it sets. If it fails, the state is
// unchanged.
func fold[T event.Body](in func(s *State, e *Entry, b T) error) struct{} {
	var b T
	folds[b.Kind()] = func(s *State, e *Entry, b event.Body) error { return in(s, e, b.(T)) }
	return struct{}{}
}

// onJob is fold for bodies that fit any state. The room they name need not be there.
func onJob[T event.Body](in func(s *State, e *Entry, b T)) struct{} {
	return fold(func(s *State, e *Entry, b T) error {
		e.Room = b.In()
		in(s, e, b)
		return nil
	})
}

// inRoom is fold for bodies that fit any state with their room.
func inRoom[T event.Body](in func(r *Room, e *Entry, b T)) struct{} {
	return fold(func(s *State, e *Entry, b T) error {
		r, err := s.enter(e, b.In())
		if err == nil {
			in(r, e, b)
		}
		return err
	})
}

func init() {
	for kind, in := range frame.Folds {
		folds[kind] = func(s *State, e *Entry, b event.Body) error {
			r, err := s.enter(e, b.In())
			if err == nil {
				in(&r.Frame, e, b)
			}
			return err
		}
	}
}

// enter sets the room of entry e and returns it.
func (s *State) enter(e *Entry, name string) (*Room, error) {
	r := s.rooms[name]
	if r == nil {
		return nil, fmt.Errorf("no room %q", name)
	}
	e.Room = name
	return r, nil
}

// about returns the earlier entry seq that e is about, and puts e in its room.
func (s *State) about(e *Entry, seq uint64) (*Entry, error) {
	t := s.Entry(seq)
	if t == nil {
		return nil, fmt.Errorf("no entry %d", seq)
	}
	e.Room = t.Room
	return t, nil
}
