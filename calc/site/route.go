package site

import (
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
)

// RouteState is a run behind the board through all its notes.
type RouteState struct {
	Room *Room
	Name string

	vers   versions[Route]
	plates []version[Plates]
}

// Now is the newest note of the run that stands; e is nil when all are struck.
func (t *RouteState) Now() (v Route, e *Entry) { return t.vers.now() }

// Path is where the run goes, as the job stands now.
func (t *RouteState) Path() []place.Point {
	v, e := t.vers.now()
	if e == nil {
		return nil
	}
	out := make([]place.Point, len(v.Points))
	for i, fixes := range v.Points {
		out[i] = t.Room.again(v.Surface, fixes, place.Size{}, e.Sent, 0, v.At[i])
	}
	return out
}

// Plated reports whether a plate guards the run at support n.
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

func (s *State) noteRoute(r *Room, e *Entry, b Route) {
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
}

// Route is the room's run of that name; nil when none stands.
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

// RoutesOn lists the runs behind surface s that stand.
func (r *Room) RoutesOn(s place.Surface) []*RouteState {
	var out []*RouteState
	for _, t := range r.Routes {
		if v, e := t.Now(); e != nil && v.Surface == s {
			out = append(out, t)
		}
	}
	return out
}

// CodeNow is the rule book chosen, "" when none.
func (s *State) CodeNow() string { v, _ := s.code.now(); return v }

// SettingNow is the lead's own number for what; set is false when none was given.
func (s *State) SettingNow(what string) (v Setting, set bool) {
	v, e := s.settings[what].now()
	return v, e != nil
}

// SettingOr is the lead's own length for what, or otherwise.
func (s *State) SettingOr(what string, otherwise length.Length) length.Length {
	if v, set := s.SettingNow(what); set {
		return v.L
	}
	return otherwise
}
