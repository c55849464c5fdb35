package site

import "strapline/calc/length"

// JobTitle sets the title of the job.
type JobTitle struct {
	Title string `json:"title"`
}

var _ = kind[JobTitle]()

func (JobTitle) Kind() string { return "job" }

func (b JobTitle) apply(s *State, e *Entry) error {
	s.title.add(e, b.Title)
	return nil
}

// Title returns the job's title, "" if it has none.
func (s *State) Title() string { v, _ := s.title.now(); return v }

// UnitsSet sets the units that the job is measured in.
type UnitsSet struct {
	Units length.Units `json:"units"`
}

var _ = kind[UnitsSet]()

func (UnitsSet) Kind() string { return "units" }

func (b UnitsSet) apply(s *State, e *Entry) error {
	s.units.add(e, b.Units)
	return nil
}

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

// Built is the year the house was built. Nothing is computed from it; it is logged for readers.
type Built struct {
	Year int `json:"year"`
}

var _ = kind[Built]()

func (Built) Kind() string { return "built" }

func (Built) apply(*State, *Entry) error { return nil }

// Code sets the rule book that the lead has chosen: "us" or "canada".
type Code struct {
	Code string `json:"code"`
}

var _ = kind[Code]()

func (Code) Kind() string { return "code" }

func (b Code) apply(s *State, e *Entry) error {
	s.code.add(e, b.Code)
	return nil
}

// CodeNow returns the chosen rule book, "" if none.
func (s *State) CodeNow() string { v, _ := s.code.now(); return v }

// Setting sets one of the lead's own numbers.
type Setting struct {
	What string        `json:"what"`
	L    length.Length `json:"l,omitempty"`
	N    float64       `json:"n,omitempty"`
	Per  int           `json:"per,omitempty"`
}

var _ = kind[Setting]()

func (Setting) Kind() string { return "set" }

func (b Setting) apply(s *State, e *Entry) error {
	vs := s.settings[b.What]
	vs.add(e, b)
	s.settings[b.What] = vs
	return nil
}

// SettingNow returns the lead's own number for what. set is false if there is none.
func (s *State) SettingNow(what string) (v Setting, set bool) {
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
