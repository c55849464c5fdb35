package site

import (
	"slices"

	"strapline/calc/length"
	"strapline/calc/place"
)

// CheckState is one check of a room's list as it stands.
type CheckState struct {
	What   string
	State  string // "" open, "ok", "failed", "waived"
	Reason string
	Entry  *Entry // the last word on it, nil while nobody said any
	Added  bool   // the lead put it on the list
}

// Open reports whether the check still keeps the room from being closed.
func (c CheckState) Open() bool { return c.State != "ok" && c.State != "waived" }

// Checks lists the usual checks and those that were added, as they stand.
func (r *Room) Checks(usual []string) []CheckState {
	out := make([]CheckState, 0, len(usual))
	at := map[string]int{}
	for _, what := range usual {
		at[what] = len(out)
		out = append(out, CheckState{What: what})
	}
	for _, c := range r.checked {
		if c.e.Struck() {
			continue
		}
		i, ok := at[c.v.What]
		if !ok {
			i = len(out)
			at[c.v.What] = i
			out = append(out, CheckState{What: c.v.What, Added: true})
		}
		if old := out[i].Entry; old != nil && c.e.before(old) {
			continue
		}
		out[i].Entry, out[i].Reason = c.e, c.v.Reason
		if out[i].State = c.v.State; c.v.State == "add" {
			out[i].State = ""
		}
	}
	return out
}

// CoatNow is the last coat of compound, e nil when there was none.
func (r *Room) CoatNow() (Coat, *Entry) { return r.coats.now() }

// IsPainted is the entry that said so, nil while nobody did.
func (r *Room) IsPainted() *Entry { _, e := r.painted.now(); return e }

// Textured reports whether a water-based texture goes on the ceiling.
func (r *Room) Textured() bool { on, _ := r.texture.now(); return on }

// Pick is which of the layouts offered the crew took, from 1; 0 for the first.
func (r *Room) Pick() int { n, _ := r.pick.now(); return n }

// Planned is the number of the entry that first took one of the layouts, 0 when none stands.
func (r *Room) Planned() (seq uint64) {
	for _, v := range r.pick {
		if !v.e.Struck() && (seq == 0 || v.e.Seq < seq) {
			seq = v.e.Seq
		}
	}
	return seq
}

// LongestIn is the longest board that gets in, 0 when not said.
func (s *State) LongestIn() length.Length { l, _ := s.longest.now(); return l }

// Stock is how many boards of each length are on hand, in the order they were first named: those counted, less those that planned
// pieces were cut from; counted is false while nobody counted any.
func (s *State) Stock() (boards []Boards, counted bool) {
	for _, v := range s.stock {
		if v.e.Struck() {
			continue
		}
		if v.v.How != "hung" {
			counted = true
		}
		if v.v.How == "is" {
			boards = nil
		}
		for _, b := range v.v.Items {
			if v.v.How == "used" || v.v.How == "hung" {
				b.N = -b.N
			}
			boards = Add(boards, b)
		}
	}
	return boards, counted
}

// HungFrom is what the planned pieces of a room took off the boards on hand, since they were last counted.
func (s *State) HungFrom(room string) (boards []Boards) {
	for _, v := range s.stock {
		switch {
		case v.e.Struck():
		case v.v.How == "is":
			boards = nil
		case v.v.How == "hung" && v.e.Room == room:
			for _, b := range v.v.Items {
				boards = Add(boards, b)
			}
		}
	}
	return boards
}

// Add puts boards to those of their size.
func Add(to []Boards, b Boards) []Boards {
	for i := range to {
		if to[i].L == b.L && to[i].W == b.W {
			to[i].N += b.N
			return to
		}
	}
	return append(to, b)
}

// Offcut says that these are not whole boards.
func (b Boards) Offcut() bool { return b.W > 0 }

// Offcuts are those left of the boards that the room's planned pieces were cut from.
func (r *Room) Offcuts() (left []Boards) {
	sf := r.surfaces[place.Ceiling]
	if sf == nil {
		return nil
	}
	for _, h := range sf.hung {
		if h.e.Struck() {
			continue
		}
		for _, b := range h.v.Used {
			if b.N = -b.N; b.Offcut() {
				left = Add(left, b)
			}
		}
		for _, b := range h.v.Left {
			left = Add(left, b)
		}
	}
	return slices.DeleteFunc(left, func(b Boards) bool { return b.N <= 0 })
}

// CountedAfter reports whether all boards were counted after entry e.
func (s *State) CountedAfter(e *Entry) bool {
	for _, v := range s.stock {
		if v.v.How == "is" && !v.e.Struck() && v.e.Seq > e.Seq {
			return true
		}
	}
	return false
}
