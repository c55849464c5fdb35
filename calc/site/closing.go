package site

import "strapline/calc/event"

// closing holds what was said of finishing a room.
type closing struct {
	checked []version[event.Checked]
}

var _ = inRoom(func(r *Room, e *Entry, b event.Checked) { r.checked = append(r.checked, version[event.Checked]{e, b}) })

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

var (
	_ = inRoom(func(*Room, *Entry, event.Coat) {})
	_ = inRoom(func(*Room, *Entry, event.Painted) {})
)
