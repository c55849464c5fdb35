// Package inforce works out the plan in force for a surface of a room: the layout that was
// taken and which of its pieces are up. If pieces hang otherwise than planned, the rest is
// planned around them, from the boards actually on hand.
//
// The plan is worked out from the job's state each time. Layouts are cached by their input
// (see [Kept]), so the same surface with the same boards is planned only once.
package inforce

import (
	"errors"
	"slices"

	"strapline/calc/cutting"
	"strapline/calc/event"
	"strapline/calc/fasten"
	"strapline/calc/frame"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/calc/square"
)

// Plan is a planned surface. Its places are measured from the faces that bound the surface;
// add Dx and Dy to measure to the framing.
type Plan struct {
	site.Plane
	*layout.Layout
	Offers []*layout.Layout // the best, followed by the alternatives
	Pick   int              // which of them this is, from 1
	In     layout.Input
	Run    place.Direction
	Dx, Dy length.Length
	Line   square.Control  // what the first row is hung to in a room out of square; Off is 0 if to a wall
	Hung   map[string]bool // IDs of planned pieces that are up
	Around bool            // pieces hang otherwise than planned, and the rest is planned around them
	Usual  bool            // no board lengths were noted, so the usual ones are assumed
	Hand   Hand            // what the rest is cut from
}

// Hand is the boards to plan a surface from.
type Hand struct {
	Boards  []event.Boards // on hand now
	Whole   []event.Boards // the same plus what hung pieces used, as when the layouts were taken
	Counted bool           // else any number is assumed
	After   []site.Plane   // surfaces whose layouts take boards before this one
}

// UsualLengths are the board lengths assumed when none were noted.
var UsualLengths = []length.Length{8 * length.Foot, 10 * length.Foot, 12 * length.Foot}

// Reasons why there is no plan. If there is no layout, the error is a [*layout.Problem].
var (
	// ErrNoStraps is returned if no supports, or no direction of boards, are noted.
	ErrNoStraps = errors.New("no straps noted")
	// ErrNoHeight is returned if the height of the surface is not noted.
	ErrNoHeight = errors.New("no height noted")
	// ErrWork is returned if a layout has to be worked out and Work.Here does not allow it.
	ErrWork = errors.New("not planned yet")
	// ErrOver is returned if the message has used up its budget.
	ErrOver = errors.New("over the work of one message")
)

// Plans plans the surfaces of a job for one message.
type Plans struct {
	State *site.State
	Kept  *Kept
	Work  *Work
}

// Of returns the plan of a surface. It takes its boards after the surfaces whose layouts
// were taken earlier, and after those of before, whose layouts nobody has taken.
func (ps *Plans) Of(pl site.Plane, before ...site.Plane) (*Plan, error) {
	hand, err := ps.hand(pl, before)
	if err != nil {
		return nil, err
	}
	return ps.from(pl, hand, true)
}

// hand is the boards on hand for a surface: the boards counted, less those that hung pieces
// used, less those still needed by layouts taken earlier and by the surfaces in before.
func (ps *Plans) hand(pl site.Plane, before []site.Plane) (h Hand, err error) {
	if h.Boards, h.Counted = ps.State.StockFor(pl); !h.Counted {
		return h, nil
	}
	h.Whole = slices.Clone(h.Boards)
	other := func(o site.Plane) bool { return !site.SameBoard(o, pl) }
	taken := slices.DeleteFunc(slices.Clone(ps.State.Planned()), other)
	before = slices.DeleteFunc(slices.Clone(before), other)
	if pl.Room.Planned(pl.Surface) == 0 {
		taken = append(taken, pl)
	}
	for _, o := range taken {
		for _, b := range ps.State.Boards().HungFrom(o.Room.Name, o.Surface) {
			h.Whole = event.AddBoards(h.Whole, b)
		}
	}
	for _, o := range slices.Concat(taken[:slices.Index(taken, pl)], before) {
		p, err := ps.from(o, h, false)
		if errors.Is(err, ErrWork) || errors.Is(err, ErrOver) {
			return h, err
		}
		if err != nil {
			continue
		}
		if todo := p.Todo(); has(h.Boards, todo) {
			h.After = append(h.After, o)
			h.Boards = less(h.Boards, todo)
		}
		h.Whole = less(h.Whole, p.Boards)
		if p.Around { // the layout excludes the boards that hung pieces used
			for _, b := range ps.State.Boards().HungFrom(o.Room.Name, o.Surface) {
				h.Whole = less(h.Whole, []layout.Stock{{Length: b.L, Count: b.N}})
			}
		}
	}
	return h, nil
}

// from plans a surface from hand. While everything hangs as planned, and the boards were not
// counted since, the plan stays; otherwise the rest is planned around what hangs. Without offers
// the alternatives may be missing, unless one of them was taken.
func (ps *Plans) from(pl site.Plane, hand Hand, offers bool) (*Plan, error) {
	r, s := pl.Room, pl.Surface
	run, known := r.BoardsRun(s)
	set := r.Supports(s)
	switch _, y := r.Shell().Extent(s); {
	case !known || len(set) == 0:
		return nil, ErrNoStraps
	case y == 0:
		return nil, ErrNoHeight
	}
	p := &Plan{Plane: pl, Hung: map[string]bool{}, Run: run, Hand: hand}
	p.input(ps.State, set)
	p.In.Stock, p.Usual = boardsFor(ps.State, hand.Counted, hand.Whole)
	best, alts, err := ps.layout(p.In, offers || r.Pick(s) > 1)
	if err != nil {
		return nil, err
	}
	p.Offers = append([]*layout.Layout{best}, alts...)
	if p.Pick = r.Pick(s); p.Pick < 1 || p.Pick > len(p.Offers) {
		p.Pick = 1
	}
	best = p.Offers[p.Pick-1]
	pieces := r.Pieces(s)
	asPlanned := p.match(pieces, best)
	if len(asPlanned) == len(pieces) && (len(pieces) == 0 || !ps.State.Boards().CountedAfter(pieces[0].Entry)) {
		p.Layout = best
		for _, id := range asPlanned {
			if id != "" {
				p.Hung[id] = true
				continue
			}
			for _, id := range IDs(best) { // the whole surface is up
				p.Hung[id] = true
			}
		}
		return p, nil
	}
	p.Around = true
	p.In.Stock, _ = boardsFor(ps.State, hand.Counted, hand.Boards)
	for _, b := range r.Offcuts(s) {
		p.In.Stock = append(p.In.Stock, layout.Stock{Width: b.W, Length: b.L, Count: b.N, Offcut: true})
	}
	if p.Layout, err = ps.around(p, best, pieces, asPlanned); err != nil {
		return nil, err
	}
	for _, row := range p.Rows {
		for _, pc := range row.Pieces {
			if pc.Hung {
				p.Hung[pc.ID] = true
			}
		}
	}
	return p, nil
}

// around plans the rest of a surface where pieces hang otherwise than in layout l. Unchanged
// rows keep their joints, because the saw already has its list, unless that takes more
// boards than are on hand.
func (ps *Plans) around(p *Plan, l *layout.Layout, pieces []frame.Piece, asPlanned map[int]string) (*layout.Layout, error) {
	p.In.Hung = p.hungPieces(pieces, l)
	board, _ := ps.State.BoardNow()
	p.In.Rows = p.settled(pieces, l, board.Wide)
	changed := map[int]bool{} // by row
	for i, h := range pieces {
		if _, ok := asPlanned[i]; !ok {
			changed[h.Row] = true
		}
	}
	at := length.Length(0)
	keep := map[int][]length.Length{}
	for i, r := range l.Rows {
		if i >= len(p.In.Rows) {
			break
		}
		if alike(at, p.start(r)) && alike(p.In.Rows[i], r.To-r.From) && !changed[i+1] {
			keep[i+1] = []length.Length{}
			for _, b := range r.Butts {
				keep[i+1] = append(keep[i+1], b.At)
			}
		}
		at += p.In.Rows[i]
	}
	p.In.Keep = keep
	kept, _, err := ps.layout(p.In, false)
	if err == nil && len(kept.Short) == 0 || errors.Is(err, ErrWork) || errors.Is(err, ErrOver) {
		return kept, err
	}
	p.In.Keep = nil
	fresh, _, why := ps.layout(p.In, false)
	if errors.Is(why, ErrWork) || errors.Is(why, ErrOver) {
		return nil, why
	}
	if why != nil || err == nil && len(fresh.Short) > 0 {
		return kept, err
	}
	return fresh, nil
}

// input fills in p.In from the state, with the surface measured between its faces.
func (p *Plan) input(st *site.State, set []place.Support) {
	c := p.Room.Shell().Clear(p.Surface)
	p.Dx, p.Dy = c.X0, c.Y0
	in := layout.Input{Longest: st.LongestIn(), Rules: Rules(st)}
	in.Surface.W, in.Surface.H = c.X1-c.X0, c.Y1-c.Y0
	rect := func(q place.Rect) layout.Rect {
		return layout.Rect{X: q.X0 - p.Dx, Y: q.Y0 - p.Dy, W: q.X1 - q.X0, H: q.Y1 - q.Y0}
	}
	holes := func(of []place.Rect) (out []layout.Rect) {
		for _, q := range of {
			if q.Meets(c) {
				out = append(out, rect(place.Rect{X0: max(q.X0, c.X0), Y0: max(q.Y0, c.Y0), X1: min(q.X1, c.X1), Y1: min(q.Y1, c.Y1)}))
			}
		}
		return out
	}
	in.Surface.Notches = holes(p.Room.Shell().NotchesOn(p.Surface))
	in.Surface.Openings = holes(p.Room.Openings(p.Surface))
	for _, th := range p.Room.Things {
		if v, e := th.Now(); e != nil && v.Surface == p.Surface && v.Size.A != 0 && !v.Framed {
			in.Surface.Things = append(in.Surface.Things, rect(v.Size.At(th.At())))
		}
	}
	in.Lie = set[0].Lie
	along, across := place.Point{X: p.Dx, Y: p.Dy}.On(in.Lie), place.Point{X: p.Dx, Y: p.Dy}.On(in.Lie.Other())
	for _, s := range set {
		in.Supports = append(in.Supports, layout.Support{
			At: s.Pos - across, From: max(s.From-along, 0), To: s.To - along, Face: s.Wide, Steel: s.Steel(),
		})
	}
	in.Along = p.Run == set[0].Run
	in.Far = frame.Far(p.Room.RowsFrom(p.Surface, p.Run))
	board, _ := p.Room.BoardFor(p.Surface)
	over := !p.Surface.Upright()
	in.Framing = fasten.Where{Board: board.Thick, Wall: !over, Texture: over && p.Room.Textured(), Code: place.Code(st.CodeNow())}
	for _, q := range p.Room.Shell().Under(p.Surface) {
		in.Surface.Under = append(in.Surface.Under, [2]place.Point{{X: q[0].X - p.Dx, Y: q[0].Y - p.Dy}, {X: q[1].X - p.Dx, Y: q[1].Y - p.Dy}})
	}
	p.In = in
	for _, q := range p.Room.Shell().Outline(p.Surface) {
		p.In.Surface.Corners = append(p.In.Surface.Corners, place.Point{X: q.X - p.Dx, Y: q.Y - p.Dy})
	}
	if shape, leans := p.Room.Shell().Faces(p.Surface); leans && !in.Along {
		p.In.Rows, p.Line = rowsByLine(p.Plane, shape, p.Run, p.cross(), board.Wide, p.In.Rules)
	}
}

// RowsByLine returns the widths of the rows of a surface whose walls lean, by its control line,
// from the wall where the count starts. It is nil if the walls are square, or if the boards run
// along the supports.
func RowsByLine(pl site.Plane, run place.Direction, wide length.Length, st *site.State) []length.Length {
	shape, leans := pl.Room.Shell().Faces(pl.Surface)
	if set := pl.Room.Supports(pl.Surface); !leans || len(set) > 0 && set[0].Run == run {
		return nil
	}
	from, to := pl.Room.Shell().Clear(pl.Surface).Span(pl.Surface.Lie(run).Other())
	rows, _ := rowsByLine(pl, shape, run, to-from, wide, Rules(st))
	return rows
}

// rowsByLine returns the widths of the rows by the control line that the first row is hung to:
// full boards from there on, and a rip at the other wall. If that rip would be a sliver, the
// line moves closer to make the first and the last row equal.
func rowsByLine(pl site.Plane, shape square.Room, run place.Direction, cross, wide length.Length, by layout.Rules) ([]length.Length, square.Control) {
	c := shape.Control(run, wide)
	if cross <= c.Off {
		return nil, square.Control{}
	}
	c, whole, rest := c.Even(cross, wide, by.Rip, by.Sliver)
	rows := append([]length.Length{c.Off}, slices.Repeat([]length.Length{wide}, whole)...)
	if rest > by.Rip {
		rows = append(rows, rest)
	} else { // the wall board will cover the gap
		rows[len(rows)-1] += rest
	}
	if c.Wall != pl.Room.RowsFrom(pl.Surface, run) {
		slices.Reverse(rows)
	}
	return rows, c
}

// Rules returns the rules of the job for layouts.
func Rules(st *site.State) layout.Rules {
	r := layout.Defaults()
	r.Sliver = st.SettingOr("sliver", r.Sliver)
	r.Stagger = st.SettingOr("stagger", r.Stagger)
	r.Short = st.SettingOr("short", r.Short)
	r.Rip = st.SettingOr("rip", r.Rip)
	if st.Units() == length.Metric {
		r.Round = length.Millimetre
	}
	return r
}

// boardsFor is the boards to plan from: if they were counted, those plus the noted lengths,
// which can be fetched; else any number of the noted lengths or, without those, of the usual
// ones.
func boardsFor(st *site.State, counted bool, boards []event.Boards) (out []layout.Stock, usual bool) {
	board, _ := st.BoardNow()
	lengths, count := board.Lengths, cutting.Unlimited
	switch {
	case counted:
		for _, b := range boards {
			out = append(out, layout.Stock{Width: board.Wide, Length: b.L, Count: max(b.N, 0)})
		}
		count = 0
	case len(lengths) == 0:
		lengths, usual = UsualLengths, true
	}
	for _, l := range lengths {
		out = append(out, layout.Stock{Width: board.Wide, Length: l, Count: count})
	}
	return out, usual
}

// Rect is the place of a planned piece, measured to the framing.
func (p *Plan) Rect(pc layout.Piece) place.Rect {
	if p.Surface.Lie(p.Run) == place.X {
		return place.Rect{X0: pc.From + p.Dx, X1: pc.To + p.Dx, Y0: pc.Lo + p.Dy, Y1: pc.Hi + p.Dy}
	}
	return place.Rect{X0: pc.Lo + p.Dx, X1: pc.Hi + p.Dx, Y0: pc.From + p.Dy, Y1: pc.To + p.Dy}
}
