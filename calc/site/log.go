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

// Snag stays open until a SnagFixed names its seq.
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

// SnagFixed: the snag of entry Seq is put right.
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

// OpenSnags lists the snags that stand and are not fixed.
func (s *State) OpenSnags() []*Entry {
	var out []*Entry
	for _, e := range s.snags {
		if !e.Struck() && !slices.ContainsFunc(s.fixed[e.Seq], func(f *Entry) bool { return !f.Struck() }) {
			out = append(out, e)
		}
	}
	return out
}

// Hit: a screw or a cutter met a pipe, a wire or gas.
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

// Photo: pictures that belong to entry Of.
type Photo struct {
	Room  string   `json:"room,omitempty"`
	Of    uint64   `json:"of"`
	Links []string `json:"links"`
	Post  string   `json:"post,omitempty"` // the message that brought them; older logs do not say
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

// Pictured lists the entries that pictures belong to, in the order of the log.
func (s *State) Pictured() []*Entry {
	var out []*Entry
	for _, seq := range slices.Sorted(maps.Keys(s.photos)) {
		if len(s.Photos(seq)) > 0 {
			out = append(out, s.Entry(seq))
		}
	}
	return out
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

// PhotosFrom lists the entries that keep the pictures which a message brought.
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

// Strike takes an entry back; striking a strike brings it back.
type Strike struct {
	Seq  uint64 `json:"seq"`
	Undo bool   `json:"undo,omitempty"` // the sender's own last entry, by undo
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
