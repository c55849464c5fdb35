package site

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/place"
)

// Thing is an opening or a box that the board will cover. Point is where it
// was when noted; it stands in for Fixes whose support is gone from the log.
type Thing struct {
	Room    string        `json:"room"`
	Name    string        `json:"n"`
	What    string        `json:"what"`
	Label   string        `json:"label,omitempty"`
	Surface place.Surface `json:"s"`
	Size    place.Size    `json:"size,omitzero"`
	Fixes   []place.Fix   `json:"fix,omitempty"`
	Point   place.Point   `json:"at"`
	Due     string        `json:"due,omitempty"` // "" is hanging
	New     bool          `json:"new,omitempty"` // the first note of this name
	// Framed: a door or a window, an opening in the framing itself.
	Framed bool `json:"framed,omitempty"`
}

var _ = kind[Thing]()

// share makes one string of what many things say: a job of 100,000 entries is a tenth smaller.
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

// Things are several noted at once (an even grid).
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

// note folds one thing of room r in, which stands at i in the body of e.
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

// Measured: a colleague's measurement of a thing that is noted already. It is kept
// beside the note, which stands until somebody says otherwise.
type Measured struct {
	Room  string      `json:"room"`
	Name  string      `json:"n"`
	Fixes []place.Fix `json:"fix,omitempty"`
	Point place.Point `json:"at"` // stands in for Fixes whose support is gone from the log
}

var _ = kind[Measured]()

func (Measured) Kind() string { return "measured" }

func (b Measured) apply(s *State, e *Entry) error {
	return s.eachNamed(e, b.Room, []string{b.Name}, func(t *ThingState) { t.since().measured = append(t.since().measured, version[Measured]{e, b}) })
}

// Opened: the holes of these things are cut.
type Opened struct {
	Room  string   `json:"room"`
	Names []string `json:"names"`
}

var _ = kind[Opened]()

func (Opened) Kind() string { return "open" }

func (b Opened) apply(s *State, e *Entry) error {
	return s.eachNamed(e, b.Room, b.Names, func(t *ThingState) { t.since().opens = append(t.since().opens, e) })
}

// Told: the sender was given the places of these things.
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

// eachNamed does f to the things of these names, or to none if one is not there.
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

// thingsNamed are the room's things of those names, struck ones too.
func (r *Room) thingsNamed(names []string) ([]*ThingState, error) {
	out := make([]*ThingState, len(names))
	for i, n := range names {
		if out[i] = r.thing(n); out[i] == nil {
			return nil, fmt.Errorf("no thing %q in %s", n, r.Name)
		}
	}
	return out, nil
}

// ThingState is an opening or box through all its notes.
type ThingState struct {
	Room *Room
	Name string

	vers  versions[int] // where it stands among those that the entry notes
	later *later        // nil while nothing has come of it: most things are noted and no more
	next  *ThingState   // the next of its name, in another room
}

// later is what came of a thing since it was noted.
type later struct {
	opens    []*Entry
	missed   []version[Missed]
	measured []version[Measured]
	told     []*Entry
}

// since is what came of the thing, to add to.
func (t *ThingState) since() *later {
	if t.later == nil {
		t.later = &later{}
	}
	return t.later
}

// came is what came of the thing, to read.
func (t *ThingState) came() later {
	if t.later == nil {
		return later{}
	}
	return *t.later
}

// Now is the newest note of the thing that stands; e is nil when all are struck.
func (t *ThingState) Now() (v Thing, e *Entry) {
	i, e := t.vers.now()
	return thingAt(e, i), e
}

// thingAt is the thing at i among those that e notes, none for no entry.
func thingAt(e *Entry, i int) Thing {
	if e == nil {
		return Thing{}
	}
	if all, ok := e.Body.(Things); ok {
		return all.Each[i]
	}
	return e.Body.(Thing)
}

// Was is the newest note sent before e that stands or e itself replaced.
func (t *ThingState) Was(e *Entry) (Thing, *Entry) {
	for i := len(t.vers) - 1; i >= 0; i-- {
		if t.vers[i].e.before(e) && !t.vers[i].e.Struck() {
			return thingAt(t.vers[i].e, t.vers[i].v), t.vers[i].e
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

// Measures lists the entries that measured it beside those, struck ones too.
func (t *ThingState) Measures() (out []*Entry) {
	for _, m := range t.came().measured {
		out = append(out, m.e)
	}
	return out
}

// Second is where a colleague measured the thing after the note of it that stands,
// by the entry of that: the last one, or nil.
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

// Standing lists the entries that noted the thing and stand.
func (t *ThingState) Standing() []*Entry {
	return slices.DeleteFunc(t.Notes(), (*Entry).Struck)
}

// Opens lists the entries that opened the thing, struck ones too.
func (t *ThingState) Opens() []*Entry { return t.came().opens }

// ToldSince lists who was given the thing's place at or after entry e, by
// others than except, each once, with the last time.
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

// At is where the thing's centre is.
func (t *ThingState) At() place.Point {
	if _, e := t.vers.now(); e == nil {
		return place.Point{}
	}
	return t.Room.spotAt(spot{name: t.Name})
}

// Standing of a thing.
type Standing string

const (
	Noted   Standing = "noted"
	Covered Standing = "covered"
	Open    Standing = "open"
)

// Stands says whether the thing is noted, covered or open, and which piece
// covers it or covered it last. An opening in the framing is always open. Of the piece over it and the cut, the later
// sent counts; a piece that was cut as it hung is open.
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

// thing is the room's thing of exactly that name, a struck one too.
func (r *Room) thing(name string) *ThingState {
	for t := r.job.things.named[name]; t != nil; t = t.next {
		if t.Room == r {
			return t
		}
	}
	return nil
}

// Thing is the room's thing of exactly that name; nil when none stands.
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

// Nth is how many things of that kind got a number for a name in this room so
// far: the next one without a name gets the number after it.
func (r *Room) Nth(what string) int { return r.numbered[what] }

// LastThing is the thing that who noted last and that stands, nil when there is none.
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
