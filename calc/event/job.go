package event

import "strapline/calc/length"

// JobTitle sets the title of the job.
type JobTitle struct {
	Title string `json:"title"`
}

func (JobTitle) Kind() string { return "job" }
func (JobTitle) In() string   { return "" }

// UnitsSet sets the units that the job is measured in.
type UnitsSet struct {
	Units length.Units `json:"units"`
}

func (UnitsSet) Kind() string { return "units" }
func (UnitsSet) In() string   { return "" }

// Built is the year the house was built. Nothing is computed from it; it is logged for readers.
type Built struct {
	Year int `json:"year"`
}

func (Built) Kind() string { return "built" }
func (Built) In() string   { return "" }

// Code sets the rule book that the lead has chosen: "us" or "canada".
type Code struct {
	Code string `json:"code"`
}

func (Code) Kind() string { return "code" }
func (Code) In() string   { return "" }

// Setting sets one of the lead's own numbers.
type Setting struct {
	What string        `json:"what"`
	L    length.Length `json:"l,omitempty"`
	N    float64       `json:"n,omitempty"`
	Per  int           `json:"per,omitempty"`
}

func (Setting) Kind() string { return "set" }
func (Setting) In() string   { return "" }
