package site

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/place"
)

// Thing is an opening or a box that the board will cover. Point is where it was when noted, and is used
// instead of Fixes whose support is gone from the log.
type Thing struct {
	Room    string        `json:"room"`
	Name    string        `json:"n"`
	What    string        `json:"what"`
	Label   string        `json:"label,omitempty"`
	Surface place.Surface `json:"s"`
	Size    place.Size    `json:"size,omitzero"`
	Fixes   []place.Fix   `json:"fix,omitempty"`
	Point   place.Point   `json:"at"`
	Due     string        `json:"due,omitempty"` // "" means while hanging
	New     bool          `json:"new,omitempty"` // the first note of this name
	// Framed: a door or a window, that is, an opening in the framing itself.
	Framed bool `json:"framed,omitempty"`
}

var _ = kind[Thing]()

// share shares the storage of strings that many things have in common, which makes a job of 100,000
// entries a tenth smaller.
func (b *Thing) share() {
	b.Room, b.What, b.Surface = shared(b.Room), shared(b.What), shared(b.Surface)
	for i := range b.Fixes {
		f := &b.Fixes[i]
		f.How, f.Wall, f.Dir, f.Sup, f.Face = shared(f.How), shared(f.Wall), shared(f.Dir), shared(f.Sup), shared(f.Face)
	}
}

func (Thing) Kind() string { return "thing" }

func (b Thing) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	b.note(s, r, e, 0)
	s.person(e.Who).noted = append(s.person(e.Who).noted, e)
	return nil
}

// Things are several things noted at once, such as an even grid.
type Things struct {
	Room string  `json:"room"`
	Each []Thing `json:"each"`
}

var _ = kind[Things]()

func (Things) Kind() string { return "things" }

func (b Things) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	for i, t := range b.Each {
		t.note(s, r, e, i)
	}
	s.person(e.Who).noted = append(s.person(e.Who).noted, e)
	return nil
}

// note folds in one thing of room r, which has index i in the body of e.
func (b Thing) note(s *State, r *Room, e *Entry, i int) {
	t := r.thing(b.Name)
	if t == nil {
		t = &ThingState{Room: r, Name: b.Name}
		r.Things = append(r.Things, t)
		if strings.HasPrefix(b.Name, b.What+" ") {
			r.numbered[b.What]++
		}
		s.things.name(t)
	}
	if b.Framed && !slices.Contains(r.Framed, t) {
		r.Framed = append(r.Framed, t)
	}
	s.things.add(t, b)
	t.vers.add(e, i)
}

// Measured is a colleague's measurement of a thing noted already. It is kept beside the note, which stands
// until somebody decides otherwise.
type Measured struct {
	Room  string      `json:"room"`
	Name  string      `json:"n"`
	Fixes []place.Fix `json:"fix,omitempty"`
	Point place.Point `json:"at"` // used instead of Fixes whose support is gone from the log
}

var _ = kind[Measured]()

func (Measured) Kind() string { return "measured" }

func (b Measured) apply(s *State, e *Entry) error {
	return s.eachNamed(e, b.Room, []string{b.Name}, func(t *ThingState) { t.since().measured = append(t.since().measured, version[Measured]{e, b}) })
}

// Opened says that the holes of these things are cut.
type Opened struct {
	Room  string   `json:"room"`
	Names []string `json:"names"`
}

var _ = kind[Opened]()

func (Opened) Kind() string { return "open" }

func (b Opened) apply(s *State, e *Entry) error {
	return s.eachNamed(e, b.Room, b.Names, func(t *ThingState) { t.since().opens = append(t.since().opens, e) })
}

// Told says that the sender was given the places of these things.
type Told struct {
	Room  string   `json:"room"`
	Names []string `json:"names"`
}

var _ = kind[Told]()

func (Told) Kind() string { return "told" }

func (b Told) apply(s *State, e *Entry) error {
	return s.eachNamed(e, b.Room, b.Names, func(t *ThingState) { t.since().told = append(t.since().told, e) })
}

func (Told) undoPasses() bool { return true }

// eachNamed calls f for each thing of these names, or for none if one does not exist.
func (s *State) eachNamed(e *Entry, room string, names []string, f func(*ThingState)) error {
	r, err := s.enter(e, room)
	if err != nil {
		return err
	}
	things, err := r.thingsNamed(names)
	if err != nil {
		return err
	}
	for _, t := range things {
		f(t)
	}
	return nil
}

// thingsNamed returns the room's things of those names, including struck ones.
func (r *Room) thingsNamed(names []string) ([]*ThingState, error) {
	out := make([]*ThingState, len(names))
	for i, n := range names {
		if out[i] = r.thing(n); out[i] == nil {
			return nil, fmt.Errorf("no thing %q in %s", n, r.Name)
		}
	}
	return out, nil
}

// ThingState is an opening or box with all its notes.
type ThingState struct {
	Room *Room
	Name string

	vers  versions[int] // index among the things that the entry notes
	later *later        // nil until needed, since most things are only ever noted
	next  *ThingState   // next thing of the same name, in another room
}

// later holds what happened to a thing after it was noted.
type later struct {
	opens    []*Entry
	missed   []version[Missed]
	measured []version[Measured]
	told     []*Entry
}

// since returns the thing's later, to add to.
func (t *ThingState) since() *later {
	if t.later == nil {
		t.later = &later{}
	}
	return t.later
}

// came returns the thing's later, to read.
func (t *ThingState) came() later {
	if t.later == nil {
		return later{}
	}
	return *t.later
}

// Now returns the newest standing note of the thing. e is nil if all are struck.
func (t *ThingState) Now() (v Thing, e *Entry) {
	i, e := t.vers.now()
	return thingAt(e, i), e
}

// thingAt returns the thing with index i in e, the zero Thing if e is nil.
func thingAt(e *Entry, i int) Thing {
	if e == nil {
		return Thing{}
	}
	if all, ok := e.Body.(Things); ok {
		return all.Each[i]
	}
	return e.Body.(Thing)
}

// Was returns the newest standing note sent before e.
func (t *ThingState) Was(e *Entry) (Thing, *Entry) {
	for i := len(t.vers) - 1; i >= 0; i-- {
		if t.vers[i].e.before(e) && !t.vers[i].e.Struck() {
			return thingAt(t.vers[i].e, t.vers[i].v), t.vers[i].e
		}
	}
	return Thing{}, nil
}

// Notes returns the entries that noted the thing, including struck ones.
func (t *ThingState) Notes() []*Entry {
	out := make([]*Entry, len(t.vers))
	for i, v := range t.vers {
		out[i] = v.e
	}
	return out
}

// Measures returns the entries with further measurements of it, including struck ones.
func (t *ThingState) Measures() (out []*Entry) {
	for _, m := range t.came().measured {
		out = append(out, m.e)
	}
	return out
}

// Second returns the last measurement by a colleague after the standing note of the thing, and its entry;
// nil if there is none.
func (t *ThingState) Second() (at place.Point, e *Entry) {
	v, now := t.Now()
	if now == nil {
		return at, nil
	}
	for _, m := range t.came().measured {
		if !m.e.Struck() && m.e.Seq > now.Seq {
			at, e = t.Room.again(noted{v.Surface, m.v.Fixes, v.Size, m.e.Sent, m.v.Point}), m.e
		}
	}
	return at, e
}

// Standing returns the standing entries that noted the thing.
func (t *ThingState) Standing() []*Entry {
	return slices.DeleteFunc(t.Notes(), (*Entry).Struck)
}

// Opens returns the entries that opened the thing, including struck ones.
func (t *ThingState) Opens() []*Entry { return t.came().opens }

// ToldSince returns who was given the thing's place at or after entry e, other than except: each once,
// with the last time.
func (t *ThingState) ToldSince(e *Entry, except string) []*Entry {
	var out []*Entry
	for _, a := range t.came().told {
		if a.Seq <= e.Seq || a.Struck() || strings.EqualFold(a.Who, except) {
			continue
		}
		out = slices.DeleteFunc(out, func(o *Entry) bool { return strings.EqualFold(o.Who, a.Who) })
		out = append(out, a)
	}
	return out
}

// At returns the place of the thing's centre.
func (t *ThingState) At() place.Point {
	if _, e := t.vers.now(); e == nil {
		return place.Point{}
	}
	return t.Room.spotAt(spot{name: t.Name})
}

// Standing is the state of a thing.
type Standing string

const (
	Noted   Standing = "noted"
	Covered Standing = "covered"
	Open    Standing = "open"
)

// Stands returns whether the thing is noted, covered or open, and which piece covers it or covered it
// last. An opening in the framing is always open. Between a piece over it and its cut, the later one sent
// decides; a thing cut while the piece was hung is open.
func (t *ThingState) Stands() (Standing, *Piece) {
	v, e := t.Now()
	if e == nil {
		return "", nil
	}
	if v.Framed {
		return Open, nil
	}
	var over *Piece
	if t.Room.hangs(v.Surface) {
		over = t.Room.Over(v.Surface, t.At())
	}
	var cut *Entry
	for _, o := range t.came().opens {
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

// thing returns the room's thing of exactly that name, even if struck.
func (r *Room) thing(name string) *ThingState {
	for t := r.job.things.named[name]; t != nil; t = t.next {
		if t.Room == r {
			return t
		}
	}
	return nil
}

// Thing returns the room's standing thing of exactly that name, or nil.
func (r *Room) Thing(name string) *ThingState {
	t := r.thing(name)
	if t == nil {
		return nil
	}
	if _, e := t.Now(); e == nil {
		return nil
	}
	return t
}

// Nth returns how many things of that kind have been named by number in this room. The next unnamed one
// gets the following number.
func (r *Room) Nth(what string) int { return r.numbered[what] }

// LastThing returns the standing thing that who noted last, or nil.
func (s *State) LastThing(who string) *ThingState {
	p := s.people[strings.ToLower(who)]
	if p == nil {
		return nil
	}
	for _, e := range slices.Backward(p.noted) {
		if e.Struck() {
			continue
		}
		last := 0
		if all, ok := e.Body.(Things); ok {
			last = len(all.Each) - 1
		}
		name := thingAt(e, last).Name
		if r := s.Room(e.Room); r != nil && r.thing(name) != nil {
			return r.thing(name)
		}
	}
	return nil
}
