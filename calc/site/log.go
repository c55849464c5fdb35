package site

import (
	"maps"
	"slices"

	"strapline/calc/event"
)

var _ = onJob(func(s *State, e *Entry, b event.Note) { s.told = append(s.told, e) })

var _ = onJob(func(s *State, e *Entry, b event.Snag) {
	s.snags, s.told = append(s.snags, e), append(s.told, e)
})

// Told returns the notes and the snags, struck or not, in the order of the log.
func (s *State) Told() []*Entry { return s.told }

var _ = fold(func(s *State, e *Entry, b event.SnagFixed) error {
	if _, err := s.about(e, b.Seq); err != nil {
		return err
	}
	s.fixed[b.Seq] = append(s.fixed[b.Seq], e)
	return nil
})

// OpenSnags returns the snags that stand and are not fixed.
func (s *State) OpenSnags() []*Entry {
	var out []*Entry
	for _, e := range s.snags {
		if !e.Struck() && !e.Body.(event.Snag).Fixed && !slices.ContainsFunc(s.fixed[e.Seq], func(f *Entry) bool { return !f.Struck() }) {
			out = append(out, e)
		}
	}
	return out
}

var _ = onJob(func(s *State, e *Entry, b event.Hit) { s.hits = append(s.hits, e) })

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

var _ = fold(func(s *State, e *Entry, b event.Photo) error {
	if _, err := s.about(e, b.Of); err != nil {
		return err
	}
	s.photos[b.Of] = append(s.photos[b.Of], e)
	return nil
})

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
			out = append(out, e.Body.(event.Photo).Links...)
		}
	}
	return out
}

// PhotosFrom returns the entries that attach the pictures of a message.
func (s *State) PhotosFrom(post string) []*Entry {
	var out []*Entry
	for _, seq := range slices.Sorted(maps.Keys(s.photos)) {
		for _, e := range s.photos[seq] {
			if !e.Struck() && e.Body.(event.Photo).Post == post {
				out = append(out, e)
			}
		}
	}
	return out
}

var _ = fold(func(s *State, e *Entry, b event.Strike) error {
	t, err := s.about(e, b.Seq)
	if err != nil {
		return err
	}
	t.Strike(e)
	return nil
})
