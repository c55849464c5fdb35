package site

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/place"
)

var _ = inRoom(func(r *Room, e *Entry, b event.Route) {
	t := r.routes[b.Name]
	if t == nil {
		t = &RouteState{Room: r, Name: b.Name}
		r.routes[b.Name] = t
		r.Routes = append(r.Routes, t)
		if strings.HasPrefix(b.Name, b.What+" ") {
			r.numbered[b.What]++
		}
		r.job.things.routes[b.Name] = true
		r.job.things.most = max(r.job.things.most, 1+strings.Count(b.Name, " "))
	}
	t.vers.Add(e, b)
})

var _ = fold(func(s *State, e *Entry, b event.Plates) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	rt := r.routes[b.Run]
	if rt == nil {
		return fmt.Errorf("no run %q in %s", b.Run, r.Name)
	}
	rt.plates = append(rt.plates, history.Of(e, b))
	return nil
})

// RouteState is a run with all its notes.
type RouteState struct {
	Room *Room
	Name string

	vers   history.Versions[event.Route]
	plates []history.Version[event.Plates]
}

// Now returns the newest standing note of the run. e is nil if all are struck.
func (t *RouteState) Now() (v event.Route, e *Entry) { return t.vers.Now() }

// Path returns where the run goes as the job stands.
func (t *RouteState) Path() []place.Point {
	v, e := t.vers.Now()
	if e == nil {
		return nil
	}
	out := make([]place.Point, len(v.Points))
	for i, fixes := range v.Points {
		out[i] = t.Room.again(noted{surface: v.Surface, fixes: fixes, sent: e.Sent, point: v.At[i]})
	}
	return out
}

// Plated reports whether a plate protects the run at support n.
func (t *RouteState) Plated(k place.SupportKind, n int) bool {
	for _, p := range t.plates {
		if p.E.Struck() || p.V.What != k {
			continue
		}
		if slices.Contains(p.V.N, n) {
			return true
		}
	}
	return false
}

// Route returns the standing run of that name in the room, or nil.
func (r *Room) Route(name string) *RouteState {
	t := r.routes[name]
	if t == nil {
		return nil
	}
	if _, e := t.Now(); e == nil {
		return nil
	}
	return t
}

// RoutesOn returns the standing runs behind surface s.
func (r *Room) RoutesOn(s place.Surface) []*RouteState {
	var out []*RouteState
	for _, t := range r.Routes {
		if v, e := t.Now(); e != nil && v.Surface == s {
			out = append(out, t)
		}
	}
	return out
}
