package site

// Checked changes one check of a room's checklist. State is "ok", "failed", "waived" or "add".
type Checked struct {
	Room   string `json:"room"`
	What   string `json:"what"`
	State  string `json:"state"`
	Reason string `json:"reason,omitempty"`
}

var _ = kind[Checked]()

func (Checked) Kind() string { return "check" }

func (b Checked) apply(s *State, e *Entry) error {
	r, err := s.enter(e, b.Room)
	if err != nil {
		return err
	}
	r.checked = append(r.checked, version[Checked]{e, b})
	return nil
}

// CheckState is the current state of one check of a room.
type CheckState struct {
	What   string
	State  string // "" open, "ok", "failed", "waived"
	Reason string
	Entry  *Entry // latest entry about it, nil if there is none
	Added  bool   // the lead added it to the list
}

// Open reports whether the check still keeps the room from being closed.
func (c CheckState) Open() bool { return c.State != "ok" && c.State != "waived" }

// Checks returns the usual checks and the added ones, in their current states.
func (r *Room) Checks(usual []string) []CheckState {
	out := make([]CheckState, 0, len(usual))
	at := map[string]int{}
	for _, what := range usual {
		at[what] = len(out)
		out = append(out, CheckState{What: what})
	}
	for _, c := range r.checked {
		if c.e.Struck() {
			continue
		}
		i, ok := at[c.v.What]
		if !ok {
			i = len(out)
			at[c.v.What] = i
			out = append(out, CheckState{What: c.v.What, Added: true})
		}
		if old := out[i].Entry; old != nil && c.e.before(old) {
			continue
		}
		out[i].Entry, out[i].Reason = c.e, c.v.Reason
		if out[i].State = c.v.State; c.v.State == "add" {
			out[i].State = ""
		}
	}
	return out
}

// Coat is a coat of compound. Temp is in degrees Fahrenheit, RH in percent; nil means not said.
type Coat struct {
	Room string   `json:"room"`
	N    int      `json:"n"`
	Temp *float64 `json:"f,omitempty"`
	RH   *float64 `json:"rh,omitempty"`
	Damp bool     `json:"damp,omitempty"`
}

var _ = kind[Coat]()

func (Coat) Kind() string { return "coat" }

func (b Coat) apply(s *State, e *Entry) error {
	_, err := s.enter(e, b.Room)
	return err
}

// Painted says that a room is painted, so what was due after paint is due now.
type Painted struct {
	Room string `json:"room"`
}

var _ = kind[Painted]()

func (Painted) Kind() string { return "painted" }

func (b Painted) apply(s *State, e *Entry) error {
	_, err := s.enter(e, b.Room)
	return err
}
