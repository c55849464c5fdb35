package answer

import (
	"errors"
	"fmt"
	"strings"

	"strapline/calc/inforce"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/site"
)

// NoStraps is what to type where no straps are noted.
const NoStraps = "straps ew 16 oc first 14 3/8 off north"

// Plan is the plan of the room at hand, or what to say instead. Boards of the
// rooms in before are taken first, though nobody took their layouts.
func (c Ctx) Plan(before ...*site.Room) (*inforce.Plan, *Reply) {
	if stop := c.NeedRoom(); stop != nil {
		return nil, stop
	}
	p, err := c.Plans.Of(c.Room, before...)
	if err != nil {
		return nil, Stop(c.noPlan(err))
	}
	return p, nil
}

// InForce is the plan of the room at hand where its layout was taken, else nil. The reply is only of
// work that has to be done before anybody knows.
func (c Ctx) InForce() (*inforce.Plan, *Reply) {
	if c.Room == nil || c.Room.Pick() == 0 {
		return nil, nil
	}
	p, err := c.Plans.Of(c.Room)
	if errors.Is(err, inforce.ErrWork) || errors.Is(err, inforce.ErrOver) {
		return nil, Stop(c.noPlan(err))
	}
	return p, nil
}

// noPlan says in one sentence what is missing.
func (c Ctx) noPlan(err error) Reply {
	pr, ok := errors.AsType[*layout.Problem](err)
	switch {
	case errors.Is(err, inforce.ErrWork):
		return Reply{Work: true}
	case errors.Is(err, inforce.ErrOver):
		r := No(fmt.Sprintf("%s is not planned: this message has had all the planning that one gets. Send it by itself", c.Room.Name), c.Words)
		r.Over = true
		return r
	case errors.Is(err, inforce.ErrNoStraps):
		return No(fmt.Sprintf("no straps noted in %s: butts have nowhere to land", c.Room.Name), NoStraps)
	case !ok:
		return Reply{Err: err}
	}
	row := ""
	if pr.Row > 0 {
		row = fmt.Sprintf(" in row %d", pr.Row)
	}
	switch pr.Kind {
	case layout.NoSupports:
		return No(fmt.Sprintf("no straps noted in %s", c.Room.Name), NoStraps)
	case layout.NoBoards:
		return No("no board that gets in", "board lengths 8 10 12")
	case layout.TooFar:
		return No(fmt.Sprintf("no board of %s reaches from %s to a strap%s: a longer board or a strap between", c.Len(pr.Longest), c.Near(pr.From), row), "board lengths 12 14")
	case layout.NoLongEdge:
		return No(fmt.Sprintf("boards along: no strap under the long edge between %s and %s%s", c.Near(pr.From), c.Near(pr.To), row), "boards across")
	case layout.BadHung:
		return No(fmt.Sprintf("what hangs%s does not fit the rows as counted (%s to %s)", row, c.Near(pr.From), c.Near(pr.To)), "log")
	case layout.TooComplex:
		return No("too many straps or rows for one ceiling", "")
	}
	return No("a size is out of range for a layout", "")
}

// FromBoards says what boards a plan was made from, "" where they were said.
func (c Ctx) FromBoards(p *inforce.Plan) string {
	switch {
	case p.Hand.Counted:
		return "from the boards on hand" + LessThose(p.Hand)
	case p.Usual:
		u := inforce.UsualLengths
		say := "8 10"
		if c.Units == length.Metric {
			say = "2.4m 3m"
		}
		return fmt.Sprintf("with boards of %s, %s and %s unless you say, e.g. `board lengths %s`", c.Board(u[0]), c.Board(u[1]), c.Board(u[2]), say)
	}
	return ""
}

// LessThose says that the boards of other rooms are taken off.
func LessThose(h inforce.Hand) string {
	if len(h.After) == 0 {
		return ""
	}
	return ", less those for " + strings.Join(h.After, ", ")
}
