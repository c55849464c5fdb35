// Package ready says what keeps a room from being closed.
package ready

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
)

// usualChecks are the checks a room passes before it is closed, and who clears each (common practice, no
// source). The lead adds to them or waives one.
var usualChecks = []OpenCheck{
	{"electrical inspection", "electrician"},
	{"plumbing inspection", "plumber"},
	{"insulation", "lead"},
	{"vapour barrier", "lead"},
	{"backing", "lead"},
	{"nails", "hanger"}, // supports tight and flush, nothing proud
	{"photos", "lead"},
}

// OpenCheck is something that keeps a room from being closed, and who clears it.
type OpenCheck struct {
	What string `json:"what"`
	Who  string `json:"who"`
}

// CheckNames returns the checks of every room.
func CheckNames() []string { return say.Each(usualChecks, func(c OpenCheck) string { return c.What }) }

func clears(what string) string {
	for _, c := range usualChecks {
		if c.What == what {
			return c.Who
		}
	}
	return "lead"
}

// Snags are the open snags of the room, in words.
func Snags(c answer.Ctx) (all []string) {
	for _, en := range c.State.OpenSnags() {
		if en.Room == c.Room.Name {
			all = append(all, fmt.Sprintf("%s (%d)", say.FirstLine(en.Body.(event.Snag).Text), en.Seq))
		}
	}
	return all
}

// Blocking returns what keeps the room from being closed.
func Blocking(c answer.Ctx) []OpenCheck {
	open := []OpenCheck{}
	waived := map[string]bool{}
	for _, k := range c.Room.Checks(CheckNames()) {
		waived[k.What] = !k.Open()
		switch {
		case named(c, k.What): // said of below, with why
		case k.State == "failed":
			open = append(open, OpenCheck{k.What + " failed", clears(k.What)})
		case k.State == "open" && k.Reason != "":
			open = append(open, OpenCheck{fmt.Sprintf("%s: %q", k.What, k.Reason), clears(k.What)})
		case k.Open():
			open = append(open, OpenCheck{k.What, clears(k.What)})
		}
	}
	for _, s := range c.Room.Shell().Surfaces() {
		q := behind.Of(c, s, 0)
		a := reach.Check(q.Query)
		for _, rt := range q.Routes {
			if due := q.PlatesDue(a, rt.Name); len(due) > 0 {
				open = append(open, OpenCheck{fmt.Sprintf("plates on %s at %s", rt.Name, q.SupportNames(due)), trade(rt)})
			}
		}
	}
	for _, th := range c.Room.Things {
		if what := Reachable(th.Name); MustStay(c, th) && !waived[what] {
			if why := Unreachable(c, th); why != "" {
				open = append(open, OpenCheck{what + why, "lead"})
			}
		}
	}
	for _, en := range c.State.HitsIn(c.Room.Name) {
		if what := "hit " + en.Body.(event.Hit).What; !waived[what] {
			open = append(open, OpenCheck{what + " at " + c.Clock(en.Sent), "lead"})
		}
	}
	return open
}

// Reachable is the check of a room's list that a thing is not covered for good.
func Reachable(name string) string { return name + " has to stay reachable" }

// named reports whether a check is that a noted thing of the room stays reachable.
func named(c answer.Ctx, check string) bool {
	name, ok := strings.CutSuffix(check, Reachable(""))
	if th := c.Room.Thing(name); ok && th != nil {
		_, e := th.Now()
		return e != nil
	}
	return false
}

// MustStay reports whether a thing has to stay reachable: by its kind, or because the crew put it on the list.
func MustStay(c answer.Ctx, th *site.ThingState) bool {
	v, e := th.Now()
	return e != nil && (answer.KindOf(v.What).Buried || slices.ContainsFunc(th.Room.Checks(nil), func(k site.CheckState) bool { return k.What == Reachable(th.Name) }))
}

// Panel is the kind of thing that gives access to what has to stay accessible.
const Panel = "hatch"

// PanelOver returns the access panel noted over a thing that has to stay accessible, nil if there is none.
// all reports whether the whole thing lies within its opening.
func PanelOver(c answer.Ctx, th *site.ThingState) (panel *site.ThingState, all bool) {
	if !MustStay(c, th) {
		return nil, false
	}
	v, _ := th.Now()
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

// Unreachable says why a thing that has to stay accessible is not, for the end of a sentence; "" if its
// own hole is cut, or it has a panel that no board covers uncut.
func Unreachable(c answer.Ctx, th *site.ThingState) (why string) {
	if st, _ := th.Stands(); st == site.Open {
		return ""
	}
	panel, all := PanelOver(c, th)
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
	return cmp.Or(map[string]string{"wire": "electrician", "gas": "gas fitter"}[v.What], "plumber")
}

// Warn warns if board goes up in a room that has not passed its checks.
func Warn(c answer.Ctx, r *answer.Reply) {
	if n := len(Blocking(c)); n > 0 {
		r.Note("not ready", fmt.Sprintf("%s checklist: %d open (see `ready`)", c.Room.Name, n))
	}
}
