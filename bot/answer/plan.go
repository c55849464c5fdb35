package answer

import (
	"errors"
	"fmt"
	"strings"

	"strapline/bot/say"
	"strapline/calc/inforce"
	"strapline/calc/layout"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/boards"
)

// NoStraps is what to type if no straps are noted.
const NoStraps = "straps ew 16 oc first 14 3/8 off north"

// Plan returns the plan of a surface of the room at hand, or what to say instead. The surfaces in before
// take their boards first, even if their layouts were not taken.
func (c Ctx) Plan(on place.Surface, before ...site.Plane) (*inforce.Plan, *Reply) {
	if stop := c.NeedRoom(); stop != nil {
		return nil, stop
	}
	p, err := c.Plans.Of(site.Plane{Room: c.Room, Surface: SurfaceOf(on)}, before...)
	if err != nil {
		return nil, Stop(c.noPlan(SurfaceOf(on), err))
	}
	return p, nil
}

// Planes returns the surfaces of the room at hand that a question about its boards concerns: the one said,
// or else those whose layouts were taken, or else the ceiling.
func (c Ctx) Planes(said place.Surface) []place.Surface {
	if said != "" || c.Room == nil {
		return []place.Surface{SurfaceOf(said)}
	}
	var out []place.Surface
	for _, s := range c.Room.Shell().Surfaces() {
		if c.Room.Planned(s) > 0 {
			out = append(out, s)
		}
	}
	if out == nil {
		return []place.Surface{place.Ceiling}
	}
	return out
}

// InForce returns the plan of a surface of the room at hand if its layout was taken, else nil. The reply
// is non-nil only if something has to be planned first.
func (c Ctx) InForce(on place.Surface) (*inforce.Plan, *Reply) {
	if on = SurfaceOf(on); c.Room == nil || c.Room.Pick(on) == 0 {
		return nil, nil
	}
	p, err := c.Plans.Of(site.Plane{Room: c.Room, Surface: on})
	if errors.Is(err, inforce.ErrWork) || errors.Is(err, inforce.ErrOver) {
		return nil, Stop(c.noPlan(on, err))
	}
	return p, nil
}

// LayoutOf returns what to type for the layout of a surface, or for one of those offered.
func LayoutOf(on place.Surface, pick int) string {
	if on == place.Ceiling {
		on = ""
	}
	return boards.Layout{Pick: pick, Surface: on}.String()
}

// noPlan says in one sentence what is missing for a plan.
func (c Ctx) noPlan(on place.Surface, err error) Reply {
	sups, hint := "straps", NoStraps
	switch {
	case on != place.Ceiling && !on.Upright():
		hint = fmt.Sprintf("straps %s 16 oc first 8 off %s on %s", on.DirectionOf(place.X), on.Start(place.Y), on.Name())
	case on.Upright():
		sups, hint = "studs", fmt.Sprintf("studs 16 oc first 15 1/4 off %s on %s", on.Start(place.X), on.Name())
	}
	pr, ok := errors.AsType[*layout.Problem](err)
	switch {
	case errors.Is(err, inforce.ErrWork):
		return Reply{Work: true}
	case errors.Is(err, inforce.ErrOver):
		r := No(fmt.Sprintf("%s is not planned: this message asks for too much at once. Send it by itself", c.Where(on)), c.Words)
		r.Over = true
		return r
	case errors.Is(err, inforce.ErrNoStraps):
		return No(fmt.Sprintf("no %s noted in %s: butts have nowhere to land", sups, c.Where(on)), hint)
	case errors.Is(err, inforce.ErrNoHeight):
		return c.NoHeight()
	case !ok:
		return Reply{Err: err}
	}
	row := ""
	if pr.Row > 0 {
		row = fmt.Sprintf(" in row %d", pr.Row)
	}
	switch pr.Kind {
	case layout.NoSupports:
		return No(fmt.Sprintf("no %s noted in %s", sups, c.Where(on)), hint)
	case layout.NoBoards:
		return No("no board here can be carried in", "board lengths 8 10 12")
	case layout.TooFar:
		return No(fmt.Sprintf("no board of %s reaches from %s to a %s%s: a longer board or a %s between", c.Len(pr.Longest), c.Near(pr.From), sups[:len(sups)-1], row, sups[:len(sups)-1]), "board lengths 12 14")
	case layout.NoLongEdge:
		return No(fmt.Sprintf("boards along: no "+sups[:len(sups)-1]+" under the long edge between %s and %s%s", c.Near(pr.From), c.Near(pr.To), row), "boards across")
	case layout.BadHung:
		return No(fmt.Sprintf("what is up%s does not fit the rows as counted (%s to %s)", row, c.Near(pr.From), c.Near(pr.To)), "log")
	case layout.TooComplex:
		return No(fmt.Sprintf("too many %s or rows for one surface", sups), "")
	}
	return No("a size is out of range for a layout", "")
}

// NoHeight refuses what needs the height of the room, and asks for that if something is told.
func (c Ctx) NoHeight() Reply {
	said, _ := c.Room.Said()
	r := No("rows on a wall count from the ceiling, whose height is not noted", RoomAsSaid(said)+" high 8'")
	r.Refuse.Asks = &Question{Why: fmt.Sprintf("how high is the ceiling in %s? e.g. `%s`", c.Room.Name, c.Units.Pick("8'", "2440")), Base: grammar.InRoom(c.Room.Name, "ceiling height"), Before: true}
	return r
}

// FromBoards says from which boards a plan was made, "" if they were said.
func (c Ctx) FromBoards(p *inforce.Plan) string {
	switch {
	case p.Hand.Counted:
		return "from the boards on hand" + LessThose(p.Hand)
	case p.Usual:
		u := inforce.UsualLengths
		return fmt.Sprintf("with boards of %s, %s and %s unless you say, e.g. `board lengths %s`", c.Board(u[0]), c.Board(u[1]), c.Board(u[2]), c.Units.Pick("8 10", "2.4m 3m"))
	}
	return ""
}

// LessThose says that the boards of other surfaces are deducted.
func LessThose(h inforce.Hand) string {
	if len(h.After) == 0 {
		return ""
	}
	return ", less those for " + strings.Join(say.Each(h.After, func(p site.Plane) string { return say.Where(p.Room.Name, p.Surface) }), ", ")
}

// NoRow says that a layout has no row of that number.
func (c Ctx) NoRow(p *inforce.Plan, said string) Reply {
	return Nothing(fmt.Sprintf("the layout of %s has %d %s, there is no row %s", c.Where(p.Surface), len(p.Rows), say.Plural(len(p.Rows), "row"), said), LayoutOf(p.Surface, 0))
}
