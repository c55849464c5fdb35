package site

import (
	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
)

var _ = onJob(func(s *State, e *Entry, b event.JobTitle) { s.title.Add(e, b.Title) })

// Title returns the job's title, "" if it has none.
func (s *State) Title() string { v, _ := s.title.Now(); return v }

var _ = onJob(func(s *State, e *Entry, b event.UnitsSet) { s.units.Add(e, b.Units) })

// Units returns the units of the job, imperial by default.
func (s *State) Units() length.Units {
	if v, e := s.units.Now(); e != nil {
		return v
	}
	return length.Imperial
}

// UnitsSaid reports whether anybody has set the units.
func (s *State) UnitsSaid() bool {
	_, e := s.units.Now()
	return e != nil
}

var _ = onJob(func(s *State, e *Entry, b event.Code) { s.code.Add(e, b.Code) })

// Nothing is worked out from the year that the house was built; it is logged for readers.
var _ = onJob(func(*State, *Entry, event.Built) {})

// CodeNow returns the chosen rule book, "" if none.
func (s *State) CodeNow() string { v, _ := s.code.Now(); return v }

var _ = onJob(func(s *State, e *Entry, b event.Setting) { history.AddTo(s.settings, b.What, e, b) })

// SettingNow returns the lead's own number for what. set is false if there is none.
func (s *State) SettingNow(what string) (v event.Setting, set bool) {
	v, e := s.settings[what].Now()
	return v, e != nil
}

// SettingOr returns the lead's own length for what, or otherwise.
func (s *State) SettingOr(what string, otherwise length.Length) length.Length {
	if v, set := s.SettingNow(what); set {
		return v.L
	}
	return otherwise
}
