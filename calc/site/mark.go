package site

import "strapline/calc/place"

// MarkSet is a mark on a support or on the framing.
type MarkSet struct {
	Room    string        `json:"room"`
	Name    string        `json:"n"`
	Surface place.Surface `json:"s"`
	Fixes   []place.Fix   `json:"fix"`
	Point   place.Point   `json:"at"`
}

var _ = kind[MarkSet]()

func (MarkSet) Kind() string { return "mark" }

func (b MarkSet) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	m := r.marks[b.Name]
	m.add(e, b)
	r.marks[b.Name] = m
	return nil
}

// Mark returns the mark of that name and where it is. ok is false if none stands.
func (r *Room) Mark(name string) (b MarkSet, at place.Point, ok bool) {
	m, e := r.marks[name].now()
	if e == nil {
		return MarkSet{}, place.Point{}, false
	}
	return m, r.spotAt(spot{mark: true, name: name}), true
}

// MarkedBy returns who made the mark of that name.
func (r *Room) MarkedBy(name string) string {
	if _, e := r.marks[name].now(); e != nil {
		return e.Who
	}
	return ""
}

// Marks returns the names of the standing marks on surface s.
func (r *Room) Marks(s place.Surface) []string {
	var out []string
	for name, vs := range r.marks {
		if m, e := vs.now(); e != nil && m.Surface == s {
			out = append(out, name)
		}
	}
	return out
}
