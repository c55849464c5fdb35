package site

import (
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
)

// ThingState is an opening or box through all its notes.
type ThingState struct {
	Room *Room
	Name string

	vers  versions[Thing]
	opens []*Entry
	told  []*Entry
}

// Now is the newest note of the thing that stands; e is nil when all are struck.
func (t *ThingState) Now() (v Thing, e *Entry) { return t.vers.now() }

// Was is the newest note sent before e that stands or e itself replaced.
func (t *ThingState) Was(e *Entry) (Thing, *Entry) {
	for i := len(t.vers) - 1; i >= 0; i-- {
		if t.vers[i].e.before(e) && !t.vers[i].e.Struck() {
			return t.vers[i].v, t.vers[i].e
		}
	}
	return Thing{}, nil
}

// Notes lists the entries that noted the thing, struck ones too.
func (t *ThingState) Notes() []*Entry {
	out := make([]*Entry, len(t.vers))
	for i, v := range t.vers {
		out[i] = v.e
	}
	return out
}

// Standing lists the entries that noted the thing and stand.
func (t *ThingState) Standing() []*Entry {
	return slices.DeleteFunc(t.Notes(), (*Entry).Struck)
}

// Opens lists the entries that opened the thing, struck ones too.
func (t *ThingState) Opens() []*Entry { return t.opens }

// ToldSince lists who was given the thing's place at or after entry e, by
// others than except, each once, with the last time.
func (t *ThingState) ToldSince(e *Entry, except string) []*Entry {
	var out []*Entry
	for _, a := range t.told {
		if a.Seq <= e.Seq || a.Struck() || strings.EqualFold(a.Who, except) {
			continue
		}
		out = slices.DeleteFunc(out, func(o *Entry) bool { return strings.EqualFold(o.Who, a.Who) })
		out = append(out, a)
	}
	return out
}

// At is where the thing's centre is.
func (t *ThingState) At() place.Point {
	v, e := t.vers.now()
	if e == nil {
		return place.Point{}
	}
	return t.Room.again(v.Surface, v.Fixes, v.Size, e.Sent, 0, v.Point)
}

// Standing of a thing.
type Standing string

const (
	Noted   Standing = "noted"
	Covered Standing = "covered"
	Open    Standing = "open"
)

// Stands says whether the thing is noted, covered or open, and which piece
// covers it or covered it last. Of the piece over it and the cut, the later
// sent counts; a piece that was cut as it hung is open.
func (t *ThingState) Stands() (Standing, *Piece) {
	v, e := t.vers.now()
	if e == nil {
		return "", nil
	}
	var over *Piece
	if t.Room.hangs(v.Surface) {
		over = t.Room.Over(v.Surface, t.At())
	}
	var cut *Entry
	for _, o := range t.opens {
		if !o.Struck() && (cut == nil || cut.before(o)) {
			cut = o
		}
	}
	switch {
	case cut != nil && (over == nil || !cut.before(over.Entry)):
		return Open, over
	case over != nil:
		return Covered, over
	}
	return Noted, nil
}

// Piece is a piece of board that hangs.
type Piece struct {
	Entry *Entry
	Row   int // 0 when the whole surface went up in one note
	N     int // in its row, from 1
	Rect  place.Rect
	Size  length.Length // as it was cut; 0 = not said
	Run   place.Run
}

// Pieces lists the pieces that hang on surface s, in the order reported.
func (r *Room) Pieces(s place.Surface) []Piece {
	sf := r.surfaces[s]
	if sf == nil {
		return nil
	}
	var out []Piece
	inRow := map[int]int{}
	for _, h := range sf.hung {
		if h.e.Struck() {
			continue
		}
		if h.v.All {
			w, y := r.Extent(s)
			if y == 0 {
				y = EndOfTime // height not known: all the way up
			}
			out = append(out, Piece{Entry: h.e, Rect: place.Rect{X0: 0, Y0: 0, X1: w, Y1: y}, Run: h.v.Run})
			continue
		}
		for i, q := range h.v.Pieces {
			n := inRow[h.v.Row] + 1
			if i < len(h.v.N) {
				n = h.v.N[i]
			}
			inRow[h.v.Row] = max(inRow[h.v.Row], n)
			p := Piece{Entry: h.e, Row: h.v.Row, N: n, Rect: q, Run: h.v.Run}
			if i < len(h.v.Sizes) {
				p.Size = h.v.Sizes[i]
			}
			out = append(out, p)
		}
	}
	return out
}

// hangs reports whether any piece was ever hung on surface s.
func (r *Room) hangs(s place.Surface) bool {
	sf := r.surfaces[s]
	return sf != nil && len(sf.hung) > 0
}

// Over is the piece that hangs over p, the last sent when several do.
func (r *Room) Over(s place.Surface, p place.Point) *Piece {
	if !r.hangs(s) {
		return nil
	}
	var best *Piece
	for _, q := range r.Pieces(s) {
		if q.Rect.Has(p) && (best == nil || !q.Entry.before(best.Entry)) {
			best = &q
		}
	}
	return best
}

// index finds things by name and by word.
type index struct {
	named map[string][]*ThingState // by name
	words map[string][]*ThingState // by each word of what, name and label
	most  int                      // words in the longest name

	routes map[string]bool // names of runs
}

func (s *State) noteThing(r *Room, e *Entry, b Thing) {
	t := r.things[b.Name]
	if t == nil {
		t = &ThingState{Room: r, Name: b.Name}
		r.things[b.Name] = t
		r.Things = append(r.Things, t)
		if strings.HasPrefix(b.Name, b.What+" ") {
			r.numbered[b.What]++
		}
		s.things.named[b.Name] = append(s.things.named[b.Name], t)
		s.things.most = max(s.things.most, 1+strings.Count(b.Name, " "))
	}
	s.things.add(t, b)
	t.vers.add(e, b)
}

func (ix *index) add(t *ThingState, b Thing) {
	for _, text := range [3]string{b.What, b.Name, b.Label} {
		for w := range strings.FieldsSeq(text) {
			if list := ix.words[w]; len(list) == 0 || list[len(list)-1] != t {
				ix.words[w] = append(list, t)
			}
		}
	}
}

// HasName reports whether name is the whole name of a thing or a run.
func (s *State) HasName(name string) bool {
	return len(s.things.named[name]) > 0 || s.things.routes[name]
}

// LongestName is the number of words in the longest name.
func (s *State) LongestName() int { return s.things.most }

// HasWord reports whether word stands in some thing's name, kind or label.
func (s *State) HasWord(word string) bool { return len(s.things.words[word]) > 0 }

// Find lists the things that the words name: those of exactly that name, else
// those of whose name, kind and label every word is one. Room names narrow it.
// Struck things are left out.
func (s *State) Find(words string) []*ThingState {
	stands := func(t *ThingState) bool { _, e := t.Now(); return e != nil }
	if list := s.things.named[words]; len(list) > 0 {
		var out []*ThingState
		for _, t := range list {
			if stands(t) {
				out = append(out, t)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	room, need := s.roomIn(words)
	if len(need) == 0 {
		return nil
	}
	rare := slices.MinFunc(need, func(a, b string) int { return len(s.things.words[a]) - len(s.things.words[b]) })
	var out []*ThingState
	seen := map[*ThingState]bool{}
next:
	for _, t := range s.things.words[rare] {
		if seen[t] || !stands(t) || (room != nil && t.Room != room) {
			continue
		}
		seen[t] = true
		v, _ := t.Now()
		text := " " + v.What + " " + t.Name + " " + v.Label + " "
		for _, w := range need {
			if !strings.Contains(text, " "+w+" ") {
				continue next
			}
		}
		out = append(out, t)
	}
	return out
}

// Gone lists the things of exactly that name all of whose notes are struck.
func (s *State) Gone(name string) []*ThingState {
	var out []*ThingState
	for _, t := range s.things.named[name] {
		if _, e := t.Now(); e == nil {
			out = append(out, t)
		}
	}
	return out
}

// roomIn takes the name of a room out of words, unless some thing goes by it.
func (s *State) roomIn(words string) (*Room, []string) {
	padded := " " + words + " "
	var room *Room
	cut := func(name string, r *Room) {
		if before, after, ok := strings.Cut(padded, " "+name+" "); room == nil && ok && !s.HasWord(name) {
			room, padded = r, before+" "+after
		}
	}
	for _, r := range s.Standing() {
		cut(r.Name, r)
		r.Aliases(func(alias string, w place.Wall) {
			if w == "" {
				cut(alias, r)
			}
		})
	}
	return room, strings.Fields(padded)
}

// Thing is the room's thing of exactly that name; nil when none stands.
func (r *Room) Thing(name string) *ThingState {
	t := r.things[name]
	if t == nil {
		return nil
	}
	if _, e := t.Now(); e == nil {
		return nil
	}
	return t
}

// Nth is how many things of that kind got a number for a name in this room so
// far: the next one without a name gets the number after it.
func (r *Room) Nth(what string) int { return r.numbered[what] }
