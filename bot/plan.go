package bot

import (
	"encoding/json"
	"errors"
	"fmt"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
)

// plan is a room's ceiling as planned. Places in it are from the wall faces;
// dx and dy bring them to the framing.
type plan struct {
	*layout.Layout
	offers []*layout.Layout // the best, and others
	pick   int              // which of them this is, from 1
	in     layout.Input
	run    place.Run
	dx, dy length.Length
	hung   map[string]bool // ids of planned pieces that are up
	extra  bool            // pieces are up that are not as planned; the rest is planned around them
	stated string          // what was assumed
	hand   hand            // what the rest is cut from
}

// planned remembers the last plan of each room, by what it was made from.
type planned struct {
	key  string
	best *layout.Layout
	alts []*layout.Layout
	err  error
}

// usualLengths are the boards taken when none were said.
var usualLengths = []length.Length{8 * length.Foot, 10 * length.Foot, 12 * length.Foot}

// plan plans the ceiling of the room at hand; nil when a question or a refusal
// has been set as the answer.
func (t *turn) plan() *plan {
	if !t.needRoom() {
		return nil
	}
	hand := t.hand()
	if t.err != nil {
		return nil
	}
	return t.planFrom(hand)
}

// planFrom plans the ceiling of the room at hand from the boards of hand, which what hangs there is no longer among. While all that
// hangs is as planned, the plan is the one it was; else the rest is planned around it.
func (t *turn) planFrom(hand hand) *plan {
	run, known := t.room.BoardsRun(place.Ceiling)
	set := t.room.Supports(place.Ceiling)
	if !known || len(set) == 0 {
		t.no(fmt.Sprintf("no straps noted in %s: butts have nowhere to land", t.room.Name), "straps ew 16 oc first 14 3/8 off north")
		return nil
	}
	p := &plan{hung: map[string]bool{}, run: run, hand: hand}
	t.planInput(p, set)
	p.in.Stock, p.stated = t.boardsFor(hand, hand.whole)
	best, alts, err := t.j.layout(t.room.Name, p.in)
	if err != nil {
		t.noPlan(err)
		return nil
	}
	p.offers = append([]*layout.Layout{best}, alts...)
	if p.pick = t.room.Pick(); p.pick < 1 || p.pick > len(p.offers) {
		p.pick = 1
	}
	best = p.offers[p.pick-1]
	pieces := t.room.Pieces(place.Ceiling)
	asPlanned := p.match(pieces, best)
	if len(asPlanned) == len(pieces) && !t.countedSince() {
		p.Layout = best
		for _, id := range asPlanned {
			p.hung[id] = true
		}
		if p.hung[""] { // all of it
			delete(p.hung, "")
			for _, id := range ids(best) {
				p.hung[id] = true
			}
		}
		return p
	}
	p.extra = true
	p.in.Stock, _ = t.boardsFor(hand, hand.boards)
	for _, b := range t.room.Offcuts() {
		p.in.Stock = append(p.in.Stock, layout.Stock{Width: b.W, Length: b.L, Count: b.N, Offcut: true})
	}
	if p.Layout, err = t.around(p, best, pieces, asPlanned); err != nil {
		t.noPlan(err)
		return nil
	}
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			if pc.Hung {
				p.hung[pc.ID] = true
			}
		}
	}
	return p
}

// countedSince reports whether the boards were counted afresh after the first
// piece hung: then what hangs is no longer among them.
func (t *turn) countedSince() bool {
	pieces := t.room.Pieces(place.Ceiling)
	return len(pieces) > 0 && t.st.CountedAfter(pieces[0].Entry)
}

// planQuietly is the plan when there is one in force, without an answer when there is none.
func (t *turn) planQuietly() *plan {
	if t.room == nil || t.room.Pick() == 0 {
		return nil
	}
	ans := t.ans
	p := t.plan()
	t.ans = ans
	return p
}

// planInput puts the room to layout, from face to face.
func (t *turn) planInput(p *plan, set []place.Support) {
	c := t.room.Clear()
	p.dx, p.dy = c.X0, c.Y0
	in := layout.Input{Longest: t.st.LongestIn(), Rules: t.rules()}
	in.Surface.W, in.Surface.H = c.X1-c.X0, c.Y1-c.Y0
	for _, q := range t.room.Notches() {
		q = place.Rect{X0: max(q.X0, c.X0), Y0: max(q.Y0, c.Y0), X1: min(q.X1, c.X1), Y1: min(q.Y1, c.Y1)}
		if q.X1 > q.X0 && q.Y1 > q.Y0 {
			in.Surface.Notches = append(in.Surface.Notches, layout.Rect{X: q.X0 - p.dx, Y: q.Y0 - p.dy, W: q.X1 - q.X0, H: q.Y1 - q.Y0})
		}
	}
	for _, th := range t.room.Things {
		v, e := th.Now()
		if e == nil || v.Surface != place.Ceiling || v.Size.A == 0 {
			continue
		}
		at, hx, hy := th.At(), v.Size.Half(place.X), v.Size.Half(place.Y)
		in.Surface.Things = append(in.Surface.Things, layout.Rect{X: at.X - hx - p.dx, Y: at.Y - hy - p.dy, W: 2 * hx, H: 2 * hy})
	}
	across, along := p.dx, p.dy
	in.Lie = layout.Y
	if set[0].Run == place.EW {
		in.Lie, across, along = layout.X, p.dy, p.dx
	}
	for _, s := range set {
		in.Supports = append(in.Supports, layout.Support{
			At: s.Pos - across, From: max(s.From-along, 0), To: s.To - along, Face: s.Wide, Steel: s.Kind == place.Channels,
		})
	}
	in.Along = p.run == set[0].Run
	from := t.room.RowsFrom(p.run)
	in.Far = from == place.South || from == place.East
	board, _ := t.st.BoardNow()
	in.Framing = layout.Framing{Thickness: board.Thick, Ceiling: true, Texture: t.room.Textured(), Code: layout.Code(t.st.CodeNow())}
	p.in = in
}

func (t *turn) rules() layout.Rules {
	r := layout.Defaults()
	r.Sliver = t.st.SettingOr("sliver", r.Sliver)
	r.Stagger = t.st.SettingOr("stagger", r.Stagger)
	r.Short = t.st.SettingOr("short", r.Short)
	r.Rip = t.st.SettingOr("rip", r.Rip)
	if t.units() == length.Metric {
		r.Round = length.Millimetre
	}
	return r
}

// altSteps is the work allowed for all alternatives together: they are offers, not proofs,
// and the crew waits.
const altSteps = layout.DefaultSteps / 2

// layout plans, or remembers having planned the same before.
func (j *Job) layout(name string, in layout.Input) (*layout.Layout, []*layout.Layout, error) {
	key, err := json.Marshal(in)
	if err != nil {
		return nil, nil, err
	}
	if old, ok := j.plans[name]; ok && old.key == string(key) {
		return old.best, old.alts, old.err
	}
	now := planned{key: string(key)}
	if now.best, now.err = layout.Plan(in); now.err == nil {
		in.Steps = altSteps
		now.alts = layout.Alternatives(in, now.best)
	}
	j.plans[name] = now
	return now.best, now.alts, now.err
}

// rect is a planned piece's place, to the framing.
func (p *plan) rect(pc layout.Piece) place.Rect {
	if p.run == place.EW {
		return place.Rect{X0: pc.From + p.dx, X1: pc.To + p.dx, Y0: pc.Lo + p.dy, Y1: pc.Hi + p.dy}
	}
	return place.Rect{X0: pc.Lo + p.dx, X1: pc.Hi + p.dx, Y0: pc.From + p.dy, Y1: pc.To + p.dy}
}

// noPlan says in one sentence what is missing.
func (t *turn) noPlan(err error) {
	pr, ok := errors.AsType[*layout.Problem](err)
	if !ok {
		t.err = err
		return
	}
	row := ""
	if pr.Row > 0 {
		row = fmt.Sprintf(" in row %d", pr.Row)
	}
	switch pr.Kind {
	case layout.NoSupports:
		t.no(fmt.Sprintf("no straps noted in %s", t.room.Name), "straps ew 16 oc first 14 3/8 off north")
	case layout.NoBoards:
		t.no("no board that gets in", "board lengths 8 10 12")
	case layout.TooFar:
		t.no(fmt.Sprintf("no board of %s reaches from %s to a strap%s: a longer board or a strap between", t.f(pr.Longest), t.near(pr.From), row), "board lengths 12 14")
	case layout.NoLongEdge:
		t.no(fmt.Sprintf("boards along: no strap under the long edge between %s and %s%s", t.near(pr.From), t.near(pr.To), row), "boards across")
	case layout.BadHung:
		t.no(fmt.Sprintf("what hangs%s does not fit the rows as counted (%s to %s)", row, t.near(pr.From), t.near(pr.To)), "log")
	case layout.TooComplex:
		t.no("too many straps or rows for one ceiling", "")
	default:
		t.no("a size is out of range for a layout", "")
	}
}
