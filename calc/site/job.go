package site

import (
	"strapline/calc/event"
	"strapline/calc/length"
)

var _ = onJob(func(s *State, e *Entry, b event.JobTitle) { s.title.add(e, b.Title) })

// Title returns the job's title, "" if it has none.
func (s *State) Title() string { v, _ := s.title.now(); return v }

var _ = onJob(func(s *State, e *Entry, b event.UnitsSet) { s.units.add(e, b.Units) })

// Units returns the units of the job, imperial by default.
func (s *State) Units() length.Units {
	if v, e := s.units.now(); e != nil {
		return v
	}
	return length.Imperial
}

// UnitsSaid reports whether anybody has set the units.
func (s *State) UnitsSaid() bool {
	_, e := s.units.now()
	return e != nil
}

var _ = onJob(func(s *State, e *Entry, b event.Code) { s.code.add(e, b.Code) })

// Nothing is worked out from the year that the house was built; it is logged for readers.
var _ = onJob(func(*State, *Entry, event.Built) {})

// CodeNow returns the chosen rule book, "" if none.
func (s *State) CodeNow() string { v, _ := s.code.now(); return v }

var _ = onJob(func(s *State, e *Entry, b event.Setting) { addTo(s.settings, b.What, e, b) })

// SettingNow returns the lead's own number for what. set is false if there is none.
func (s *State) SettingNow(what string) (v event.Setting, set bool) {
	v, e := s.settings[what].now()
	return v, e != nil
}

// SettingOr returns the lead's own length for what, or otherwise.
func (s *State) SettingOr(what string, otherwise length.Length) length.Length {
	if v, set := s.SettingNow(what); set {
		return v.L
	}
	return otherwise
}
