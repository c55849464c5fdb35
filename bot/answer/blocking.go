package answer

import (
	"fmt"

	"strapline/calc/reach"
	"strapline/calc/site"
)

// usualChecks is the list a room passes before it is closed, and who clears
// each (common practice, no source). The lead adds to it or waives one.
var usualChecks = []struct{ what, who string }{
	{"electrical inspection", "electrician"},
	{"plumbing inspection", "plumber"},
	{"insulation", "lead"},
	{"vapour barrier", "lead"},
	{"backing", "lead"},
	{"nails", "hanger"}, // supports fast and flush, nothing proud
	{"photos", "lead"},
}

// OpenCheck is one thing that keeps a room from being closed, and who clears it.
type OpenCheck struct {
	What string `json:"what"`
	Who  string `json:"who"`
}

// CheckNames are the checks of every room.
func CheckNames() []string {
	var names []string
	for _, c := range usualChecks {
		names = append(names, c.what)
	}
	return names
}

func clears(what string) string {
	for _, c := range usualChecks {
		if c.what == what {
			return c.who
		}
	}
	return "lead"
}

// Blocking lists what keeps the room from being closed.
func (c Ctx) Blocking() []OpenCheck {
	open := []OpenCheck{}
	waived := map[string]bool{}
	for _, k := range c.Room.Checks(CheckNames()) {
		waived[k.What] = !k.Open()
		switch {
		case k.State == "failed":
			open = append(open, OpenCheck{k.What + " failed", clears(k.What)})
		case k.Open():
			open = append(open, OpenCheck{k.What, clears(k.What)})
		}
	}
	for _, s := range c.Room.Surfaces() {
		q := c.ReachQuery(s, 0)
		a := reach.Check(q.Query)
		for _, rt := range q.Routes {
			if due := q.PlatesDue(a, rt.Name); len(due) > 0 {
				open = append(open, OpenCheck{fmt.Sprintf("plates on %s at %s", rt.Name, q.SupportNames(due)), trade(rt)})
			}
		}
	}
	for _, th := range c.Room.Things {
		v, e := th.Now()
		if e == nil {
			continue
		}
		if what := th.Name + " has to stay reachable"; KindOf(v.What).Buried && !waived[what] {
			if st, _ := th.Stands(); st != site.Open {
				open = append(open, OpenCheck{what, "lead"})
			}
		}
	}
	for _, en := range c.State.HitsIn(c.Room.Name) {
		if what := "hit " + en.Body.(site.Hit).What; !waived[what] {
			open = append(open, OpenCheck{what + " at " + c.Clock(en.Sent), "lead"})
		}
	}
	return open
}

func trade(rt *site.RouteState) string {
	v, _ := rt.Now()
	switch v.What {
	case "wire":
		return "electrician"
	case "gas":
		return "gas fitter"
	}
	return "plumber"
}

// NotReady warns when board goes up in a room that has not passed its list.
func (c Ctx) NotReady(r *Reply) {
	if n := len(c.Blocking()); n > 0 {
		r.Note("not ready", fmt.Sprintf("%s checklist: %d open (see `ready`)", c.Room.Name, n))
	}
}
