package site

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/history"
	"strapline/calc/place"
)

var _ = inRoom(func(r *Room, e *Entry, b event.Thing) {
	r.note(e, 0, b)
	r.job.person(e.Who).noted = append(r.job.person(e.Who).noted, e)
})

var _ = inRoom(func(r *Room, e *Entry, b event.Things) {
	for i, t := range b.Each {
		r.note(e, i, t)
	}
	r.job.person(e.Who).noted = append(r.job.person(e.Who).noted, e)
})

// note folds in the thing with index i in the body of e.
func (r *Room) note(e *Entry, i int, b event.Thing) {
	t := r.thing(b.Name)
	if t == nil {
		t = &ThingState{Room: r, Name: b.Name}
		r.Things = append(r.Things, t)
		if strings.HasPrefix(b.Name, b.What+" ") {
			r.numbered[b.What]++
		}
		r.job.things.name(t)
	}
	if b.Framed && !slices.Contains(r.Framed, t) {
		r.Framed = append(r.Framed, t)
	}
	r.job.things.add(t, b)
	t.vers.Add(e, i)
}

var _ = fold(func(s *State, e *Entry, b event.Measured) error {
	return s.eachNamed(e, b.Room, []string{b.Name}, func(l *later) { l.measured = append(l.measured, history.Of(e, b)) })
})

var _ = fold(func(s *State, e *Entry, b event.Opened) error {
	return s.eachNamed(e, b.Room, b.Names, func(l *later) {
		if b.Not {
			l.buried = append(l.buried, e)
		} else {
			l.opens = append(l.opens, e)
		}
	})
})

var _ = fold(func(s *State, e *Entry, b event.Told) error {
	return s.eachNamed(e, b.Room, b.Names, func(l *later) { l.told = append(l.told, e) })
})

var _ = fold(func(s *State, e *Entry, b event.Missed) error {
	return s.eachNamed(e, b.Room, []string{b.Name}, func(l *later) { l.missed = append(l.missed, history.Of(e, b)) })
})

// eachNamed calls f with the later of each thing of these names, or for none if one does not exist.
func (s *State) eachNamed(e *Entry, room string, names []string, f func(*later)) error {
	r, err := s.enter(e, room)
	if err != nil {
		return err
	}
	things, err := r.thingsNamed(names)
	if err != nil {
		return err
	}
	for _, t := range things {
		f(t.since())
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

	vers  history.Versions[int] // index among the things that the entry notes
	later *later                // nil until needed, since most things are only ever noted
	next  *ThingState           // next thing of the same name, in another room
}

// later holds what happened to a thing after it was noted.
type later struct {
	opens    []*Entry
	buried   []*Entry
	missed   []history.Version[event.Missed]
	measured []history.Version[event.Measured]
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
func (t *ThingState) Now() (v event.Thing, e *Entry) {
	i, e := t.vers.Now()
	return thingAt(e, i), e
}

// thingAt returns the thing with index i in e, the zero Thing if e is nil.
func thingAt(e *Entry, i int) event.Thing {
	if e == nil {
		return event.Thing{}
	}
	if all, ok := e.Body.(event.Things); ok {
		return all.Each[i]
	}
	return e.Body.(event.Thing)
}

// Was returns the newest standing note sent before e.
func (t *ThingState) Was(e *Entry) (event.Thing, *Entry) {
	for _, v := range slices.Backward(t.vers) {
		if v.E.Before(e) && !v.E.Struck() {
			return thingAt(v.E, v.V), v.E
		}
	}
	return event.Thing{}, nil
}

// Notes returns the entries that noted the thing, including struck ones.
func (t *ThingState) Notes() []*Entry {
	out := make([]*Entry, len(t.vers))
	for i, v := range t.vers {
		out[i] = v.E
	}
	return out
}

// Measures returns the entries with further measurements of it, including struck ones.
func (t *ThingState) Measures() (out []*Entry) {
	for _, m := range t.came().measured {
		out = append(out, m.E)
	}
	return out
}

// Missed returns the places of the holes that were made for the thing and found nothing.
func (t *ThingState) Missed() (holes []place.Point) {
	for _, v := range t.came().missed {
		if !v.E.Struck() {
			holes = append(holes, v.V.At)
		}
	}
	return holes
}

// Second returns the last measurement by a colleague after the standing note of the thing, and its entry;
// nil if there is none.
func (t *ThingState) Second() (at place.Point, e *Entry) {
	v, now := t.Now()
	if now == nil {
		return at, nil
	}
	for _, m := range t.came().measured {
		if !m.E.Struck() && m.E.Seq > now.Seq {
			at, e = t.Room.again(noted{v.Surface, m.V.Fixes, v.Size, m.E.Sent, m.V.Point}), m.E
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
	if _, e := t.vers.Now(); e == nil {
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
// last. An opening in the framing is always open. Between a piece over it, what was told of it and its cut, the
// later one sent decides; a thing cut while the piece was hung is open.
func (t *ThingState) Stands() (Standing, *frame.Piece) {
	v, e := t.Now()
	if e == nil {
		return "", nil
	}
	if v.Framed {
		return Open, nil
	}
	var over *frame.Piece
	if t.Room.Hangs(v.Surface) {
		over = t.Room.Over(v.Surface, t.At())
	}
	cut := newest(t.came().opens)
	if told := newest(t.came().buried); told != nil && (over == nil || over.Entry.Before(told)) {
		over = &frame.Piece{Entry: told}
	}
	switch {
	case cut != nil && (over == nil || !cut.Before(over.Entry)):
		return Open, over
	case over != nil:
		return Covered, over
	}
	return Noted, nil
}

// newest returns the standing entry that was sent last, or nil.
func newest(all []*Entry) (last *Entry) {
	for _, e := range all {
		if !e.Struck() && (last == nil || last.Before(e)) {
			last = e
		}
	}
	return last
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
	if t == nil || gone(t) {
		return nil
	}
	return t
}

// Nth returns how many things of that kind have been named by number in this room. The next unnamed one
// gets the following number.
func (r *Room) Nth(what string) int { return r.numbered[what] }

// LastThing returns the standing thing that who noted last, or nil.
func (s *State) LastThing(who string) *ThingState {
	for _, e := range slices.Backward(s.known(who).noted) {
		if e.Struck() {
			continue
		}
		last := 0
		if all, ok := e.Body.(event.Things); ok {
			last = len(all.Each) - 1
		}
		name := thingAt(e, last).Name
		if r := s.Room(e.Room); r != nil && r.thing(name) != nil {
			return r.thing(name)
		}
	}
	return nil
}
