package site

import (
	"maps"
	"slices"
)

// Note is free text; Room is "" for the whole job.
type Note struct {
	Room string `json:"room,omitempty"`
	Text string `json:"text"`
}

var _ = kind[Note]()

func (Note) Kind() string { return "note" }

func (b Note) apply(_ *State, e *Entry) error {
	e.Room = b.Room
	return nil
}

// Snag is a defect, open until a SnagFixed names its seq.
type Snag struct {
	Room string `json:"room,omitempty"`
	Text string `json:"text"`
}

var _ = kind[Snag]()

func (Snag) Kind() string { return "snag" }

func (b Snag) apply(s *State, e *Entry) error {
	e.Room = b.Room
	s.snags = append(s.snags, e)
	return nil
}

// SnagFixed says that the snag of entry Seq is fixed.
type SnagFixed struct {
	Seq uint64 `json:"seq"`
}

var _ = kind[SnagFixed]()

func (SnagFixed) Kind() string { return "fixed" }

func (b SnagFixed) apply(s *State, e *Entry) error {
	if _, err := s.about(e, b.Seq); err != nil {
		return err
	}
	s.fixed[b.Seq] = append(s.fixed[b.Seq], e)
	return nil
}

// OpenSnags returns the snags that stand and are not fixed.
func (s *State) OpenSnags() []*Entry {
	var out []*Entry
	for _, e := range s.snags {
		if !e.Struck() && !slices.ContainsFunc(s.fixed[e.Seq], func(f *Entry) bool { return !f.Struck() }) {
			out = append(out, e)
		}
	}
	return out
}

// Hit says that a screw or a cutter hit a pipe, a wire or gas.
type Hit struct {
	Room string `json:"room,omitempty"`
	What string `json:"what"`
}

var _ = kind[Hit]()

func (Hit) Kind() string { return "hit" }

func (b Hit) apply(s *State, e *Entry) error {
	e.Room = b.Room
	s.hits = append(s.hits, e)
	return nil
}

// HitsIn returns the standing entries about hits in a room.
func (s *State) HitsIn(room string) []*Entry {
	var out []*Entry
	for _, e := range s.hits {
		if e.Room == room && !e.Struck() {
			out = append(out, e)
		}
	}
	return out
}

// Photo attaches pictures to entry Of.
type Photo struct {
	Room  string   `json:"room,omitempty"`
	Of    uint64   `json:"of"`
	Links []string `json:"links"`
	Post  string   `json:"post,omitempty"` // id of the message that brought them; missing in older logs
}

var _ = kind[Photo]()

func (Photo) Kind() string { return "photo" }

func (b Photo) apply(s *State, e *Entry) error {
	if _, err := s.about(e, b.Of); err != nil {
		return err
	}
	s.photos[b.Of] = append(s.photos[b.Of], e)
	return nil
}

func (Photo) undoPasses() bool { return true }

// Pictured returns the entries that have pictures, in the order of the log.
func (s *State) Pictured() []*Entry {
	var out []*Entry
	for _, seq := range slices.Sorted(maps.Keys(s.photos)) {
		if len(s.Photos(seq)) > 0 {
			out = append(out, s.Entry(seq))
		}
	}
	return out
}

// Photos returns the links of the pictures of an entry.
func (s *State) Photos(seq uint64) []string {
	var out []string
	for _, e := range s.photos[seq] {
		if !e.Struck() {
			out = append(out, e.Body.(Photo).Links...)
		}
	}
	return out
}

// PhotosFrom returns the entries that attach the pictures of a message.
func (s *State) PhotosFrom(post string) []*Entry {
	var out []*Entry
	for _, seq := range slices.Sorted(maps.Keys(s.photos)) {
		for _, e := range s.photos[seq] {
			if !e.Struck() && e.Body.(Photo).Post == post {
				out = append(out, e)
			}
		}
	}
	return out
}

// Strike strikes an entry. Striking a strike restores what it struck.
type Strike struct {
	Seq  uint64 `json:"seq"`
	Undo bool   `json:"undo,omitempty"` // made by undo, of the sender's own last entry
}

var _ = kind[Strike]()

func (Strike) Kind() string { return "strike" }

func (b Strike) apply(s *State, e *Entry) error {
	t, err := s.about(e, b.Seq)
	if err != nil {
		return err
	}
	t.struckBy = e
	return nil
}

func (b Strike) undoPasses() bool { return b.Undo }
