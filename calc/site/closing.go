package site

import (
	"strapline/calc/event"
	"strapline/calc/history"
)

// closing holds what was said of finishing a room.
type closing struct {
	checked []history.Version[event.Checked]
}

var _ = inRoom(func(r *Room, e *Entry, b event.Checked) {
	r.checked = append(r.checked, history.Of(e, b))
})

// CheckState is the current state of one check of a room.
type CheckState struct {
	What   string
	State  string // "" open, "ok", "failed", "waived"
	Reason string
	Entry  *Entry // latest entry about it, nil if there is none
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
		if c.E.Struck() {
			continue
		}
		i, ok := at[c.V.What]
		if !ok {
			i = len(out)
			at[c.V.What] = i
			out = append(out, CheckState{What: c.V.What})
		}
		if old := out[i].Entry; old != nil && c.E.Before(old) {
			continue
		}
		out[i].Entry, out[i].Reason = c.E, c.V.Reason
		if out[i].State = c.V.State; c.V.State == "add" {
			out[i].State = ""
		}
	}
	return out
}

var (
	_ = inRoom(func(*Room, *Entry, event.Coat) {})
	_ = inRoom(func(*Room, *Entry, event.Painted) {})
)
