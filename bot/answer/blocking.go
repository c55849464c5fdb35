package answer

import (
	"fmt"

	"strapline/calc/place"
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
			if why := c.unreachable(th); why != "" {
				open = append(open, OpenCheck{what + why, "lead"})
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

// Panel is the kind of thing through which what has to stay reachable is reached.
const Panel = "hatch"

// PanelOver is the access panel noted over a thing that has to stay reachable, nil when there is none; all: the thing lies
// in its opening with all of its size, so that it is reached through it.
func (c Ctx) PanelOver(th *site.ThingState) (panel *site.ThingState, all bool) {
	v, e := th.Now()
	if e == nil || !KindOf(v.What).Buried {
		return nil, false
	}
	at := th.At()
	hole := v.Size.At(at)
	for _, o := range th.Room.Things {
		p, e := o.Now()
		if e == nil || p.What != Panel || p.Surface != v.Surface {
			continue
		}
		if q := p.Size.At(o.At()); q.Has(place.Point{X: hole.X0, Y: hole.Y0}) && q.Has(place.Point{X: hole.X1, Y: hole.Y1}) {
			return o, true
		} else if q.Has(at) || q.Meets(hole) {
			panel = o
		}
	}
	return panel, false
}

// unreachable is why a thing that has to stay reachable is not, behind those words; "" where it is: its own hole is cut, or it has
// a panel, which no board covers uncut.
func (c Ctx) unreachable(th *site.ThingState) (why string) {
	if st, _ := th.Stands(); st == site.Open {
		return ""
	}
	panel, all := c.PanelOver(th)
	switch {
	case panel == nil:
		return ": no panel noted over it"
	case !all:
		return ": not all of it is inside " + panel.Name
	}
	if st, _ := panel.Stands(); st == site.Covered {
		return ": " + panel.Name + " over it is not cut"
	}
	return ""
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
