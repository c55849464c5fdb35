package site

import (
	"fmt"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
)

// Route is a pipe, wire or duct that runs behind the board through Points. At is where these were when
// noted, like Point of a Thing.
type Route struct {
	Room    string        `json:"room"`
	Name    string        `json:"n"`
	What    string        `json:"what"`
	Surface place.Surface `json:"s"`
	Size    length.Length `json:"size,omitempty"`
	Points  [][]place.Fix `json:"fix"`
	At      []place.Point `json:"at"`
	How     string        `json:"how,omitempty"` // "" (not said), "depth", "top" or "notched"
	Depth   length.Length `json:"depth,omitempty"`
	Conduit bool          `json:"conduit,omitempty"`
	// NotchK and NotchN name the one support it is notched into, to Depth. With N 0, "notched" holds for
	// all.
	NotchK place.SupportKind `json:"notchk,omitempty"`
	NotchN int               `json:"notchn,omitempty"`
}

var _ = kind[Route]()

func (Route) Kind() string { return "run" }

func (b Route) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	t := r.routes[b.Name]
	if t == nil {
		t = &RouteState{Room: r, Name: b.Name}
		r.routes[b.Name] = t
		r.Routes = append(r.Routes, t)
		if strings.HasPrefix(b.Name, b.What+" ") {
			r.numbered[b.What]++
		}
		s.things.routes[b.Name] = true
		s.things.most = max(s.things.most, 1+strings.Count(b.Name, " "))
	}
	t.vers.add(e, b)
	return nil
}

// Plates protect a route where it crosses supports N.
type Plates struct {
	Room string            `json:"room"`
	Run  string            `json:"run"`
	What place.SupportKind `json:"what"`
	N    []int             `json:"n"`
}

var _ = kind[Plates]()

func (Plates) Kind() string { return "plate" }

func (b Plates) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	rt := r.routes[b.Run]
	if rt == nil {
		return fmt.Errorf("no run %q in %s", b.Run, r.Name)
	}
	rt.plates = append(rt.plates, version[Plates]{e, b})
	return nil
}

// RouteState is a run with all its notes.
type RouteState struct {
	Room *Room
	Name string

	vers   versions[Route]
	plates []version[Plates]
}

// Now returns the newest standing note of the run. e is nil if all are struck.
func (t *RouteState) Now() (v Route, e *Entry) { return t.vers.now() }

// Path returns where the run goes as the job stands.
func (t *RouteState) Path() []place.Point {
	v, e := t.vers.now()
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
		if p.e.Struck() || p.v.What != k {
			continue
		}
		for _, m := range p.v.N {
			if m == n {
				return true
			}
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
