package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/calc/fasten"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/calc/supply"
)

type (
	orderLine struct {
		What  string `json:"what"`
		Count int    `json:"count"`
		Unit  string `json:"unit"`
	}
	orderFacts struct {
		Lines []orderLine `json:"lines"`
	}
	screwsFacts struct {
		Length      Len `json:"length"`
		Count       int `json:"count"`
		PerCrossing int `json:"per_crossing"`
		Boxes       int `json:"boxes,omitempty"`
	}
)

// eachPlan calls use for each room a question speaks of that can be planned,
// and lists the rooms that cannot, with why.
func (t *turn) eachPlan(use func(p *plan)) (without []string) {
	ans, here := t.ans, t.room
	rooms := slices.Clone(t.speakOf())
	slices.SortStableFunc(rooms, func(a, b *site.Room) int { return cmp.Compare(a.Planned()-1, b.Planned()-1) }) // not planned, 0: last
	for _, r := range rooms {
		t.room, t.ans = r, ans
		if p := t.plan(); p != nil {
			use(p)
			if r.Planned() == 0 {
				t.before = append(t.before, r)
			}
		} else if t.ans.Error != nil {
			without = append(without, strings.TrimPrefix(t.ans.Error.Want, "not saved: "))
		}
		if t.err != nil {
			break
		}
	}
	t.ans, t.room, t.before = ans, here, nil
	return without
}

// todo is the boards of a plan that no piece was cut from yet.
func (p *plan) todo() []layout.Stock {
	var out []layout.Stock
	for _, c := range p.toCut() {
		if c.Offcut {
			continue
		}
		i := slices.IndexFunc(out, func(s layout.Stock) bool { return s.Length == c.Length && s.Width == c.Width })
		if i < 0 {
			i = len(out)
			out = append(out, layout.Stock{Width: c.Width, Length: c.Length})
		}
		out[i].Count++
	}
	return out
}

// supplyJob adds up what the plans of the rooms still take, and shows each to see.
func (t *turn) supplyJob(see func(p *plan)) (supply.Job, []string) {
	var j supply.Job
	without := t.eachPlan(func(p *plan) {
		see(p)
		j.Area += p.Area / 0.09290304
		for _, b := range p.todo() {
			i := slices.IndexFunc(j.Boards, func(o supply.Board) bool { return o.Length == b.Length && o.Width == b.Width })
			if i < 0 {
				i = len(j.Boards)
				j.Boards = append(j.Boards, supply.Board{Width: b.Width, Length: b.Length})
			}
			j.Boards[i].Count += b.Count
		}
		j.Joints += p.ButtJoint + p.LongJoint + p.WallJoint
		bill, _, _, _ := t.bill(p, func(id string) bool { return !p.hung[id] })
		j.Screws += bill.Wood + bill.Steel
		said, _ := t.room.Said()
		for _, n := range said.Less { // a notch in a corner has one outside corner, one at a wall has two
			if said.High > 0 {
				j.Corners = append(j.Corners, said.High)
			}
			if said.High > 0 && n.Corner == "" {
				j.Corners = append(j.Corners, said.High)
			}
		}
		j.Plates += len(t.platesDue(place.Ceiling))
	})
	slices.SortFunc(j.Boards, func(a, b supply.Board) int { return cmp.Compare(b.Length, a.Length) })
	if v, set := t.st.SettingNow("waste"); set {
		j.Own.Waste = &v.N
	}
	if v, set := t.st.SettingNow("compound"); set {
		per := v.N
		if v.Per > 0 {
			per = v.N * 1000 / float64(v.Per)
		}
		j.Own.Compound = &per
	}
	if v, set := t.st.SettingNow("box"); set {
		j.Own.PerBox = int(v.N)
	}
	return j, without
}

func (t *turn) platesDue(s place.Surface) []reach.PlateDue {
	return reach.Check(t.reachQuery(s, 0).Query).Plates
}

func (t *turn) order() {
	j, without := t.supplyJob(func(*plan) {})
	if t.err != nil {
		return
	}
	facts := orderFacts{Lines: []orderLine{}}
	var lines []string
	for _, l := range supply.Order(j) {
		if l.What == supply.Screws && j.Screws == 0 {
			continue // it all hangs
		}
		what := string(l.What)
		if l.What == supply.Boards {
			what = fmt.Sprintf("board %s x %s", t.f(l.Size.Width), t.stockLength(l.Size.Length))
		}
		line := t.orderLine(l)
		if l.What == supply.Boards {
			if have := t.onHand(l.Size.Length); have > 0 {
				line += fmt.Sprintf(", %d on hand: order %d", have, max(l.Count-have, 0))
				l.Count = max(l.Count-have, 0)
			}
		}
		facts.Lines = append(facts.Lines, orderLine{what, l.Count, l.Unit})
		lines = append(lines, line)
	}
	if len(lines) == 0 {
		lines = append(lines, "nothing to order")
	}
	for _, w := range without {
		lines = append(lines, "left out: "+w)
	}
	t.tell("order", facts, strings.Join(lines, "\n"))
	t.ans.Room = t.line.Room
	t.loads(j)
}

// onHand is how many boards of a length are left by the count.
func (t *turn) onHand(l length.Length) int {
	left, _ := t.st.Stock()
	for _, b := range left {
		if b.L == l {
			return b.N
		}
	}
	return 0
}

func (t *turn) orderLine(l supply.Line) string {
	if l.What == supply.Boards {
		s := fmt.Sprintf("%d x %s", l.Count, t.stockLength(l.Size.Length))
		if l.Basis.Source == "lead" {
			return s + fmt.Sprintf(" (%d by the layout, your waste)", l.Size.Count)
		}
		return s + " by the layout, nothing spare"
	}
	unit := l.Unit
	if l.Count != 1 && unit != "gal" {
		unit = plural(2, unit)
		if l.Unit == "box" {
			unit = "boxes"
		}
	}
	s := fmt.Sprintf("%s: %d %s", l.What, l.Count, unit)
	switch {
	case l.Basis.Source == "lead":
		s += " (your number)"
	case l.Basis.Rule == "counted":
		s += " (counted)"
	}
	if l.High > l.Low {
		s += fmt.Sprintf("; rules say %d to %d", l.Low, l.High)
	}
	return s
}

// loads says what the boards weigh, who carries them, and what a stack does to a floor.
func (t *turn) loads(j supply.Job) {
	board, _ := t.st.BoardNow()
	psf, ok := supply.PerSquareFoot(board.Thick)
	if !ok || len(j.Boards) == 0 {
		return
	}
	long, n := j.Boards[0], 0
	for _, b := range j.Boards {
		n += b.Count
	}
	lb, _ := supply.Weight(board.Thick, long.Width, long.Length)
	weight := fmt.Sprintf("%.0f lb", lb)
	if t.units() == length.Metric {
		weight = fmt.Sprintf("%.0f kg", lb*0.45359237) // the pound of 1959, exact
	}
	t.note("weight", fmt.Sprintf("%s board: %s each, %d people", t.stockLength(long.Length), weight, supply.People(lb)))
	most, rooms := supply.Stack(supply.LiveDwelling, psf), supply.Stack(supply.LiveSleeping, psf)
	if n > rooms {
		t.note("caution", fmt.Sprintf("%d boards: at most %d in one flat stack on a floor in order (40 psf), %d where people sleep (30 psf); %s",
			n, most, rooms, cautionFloor))
	}
}

// bill counts the screws of those pieces of a plan, and says by which rule, with which
// screw, and what is in doubt.
func (t *turn) bill(p *plan, of func(id string) bool) (fasten.Bill, fasten.Rule, fasten.Screw, []fasten.Note) {
	set := t.room.Supports(place.Ceiling)
	supports := set
	where := t.whereFixed(place.Ceiling, set)
	rule, notes := fasten.RuleFor(where)
	var pieces []fasten.Piece
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			if !of(pc.ID) {
				continue
			}
			q := p.rect(pc)
			pieces = append(pieces, fasten.Piece{X: q.X0, Y: q.Y0, W: q.X1 - q.X0, H: q.Y1 - q.Y0})
		}
	}
	screw := t.screwFor(where, supports[0])
	return fasten.ForPieces(pieces, supports, rule), rule, screw, append(notes, screw.Notes...)
}

// screws counts the screws of a room's ceiling, hung and planned.
func (t *turn) screws() {
	p := t.plan()
	if p == nil {
		return
	}
	bill, rule, screw, notes := t.bill(p, func(string) bool { return true })
	board, _ := t.st.BoardNow()
	n := bill.Wood + bill.Steel
	per := fasten.PerCrossing(board.Wide, rule.Edge, rule.Spacing)
	facts := screwsFacts{Length: fact(t.units(), screw.Length), Count: n, PerCrossing: per}
	box := 1000 // common practice, no source
	if v, set := t.st.SettingNow("box"); set {
		box = int(v.N)
	}
	facts.Boxes = fasten.Box{Holds: box, Spare: 10}.Boxes(n)
	kind := "coarse"
	if bill.Steel > bill.Wood {
		kind = "fine, for steel"
	}
	boxes := "box"
	if facts.Boxes != 1 {
		boxes = "boxes"
	}
	text := fmt.Sprintf("%s: %d screws %s %s, %d where a board crosses a strap, %s apart; bring %d %s of %d",
		t.room.Name, n, t.f(screw.Length), kind, per, t.f(rule.Spacing), facts.Boxes, boxes, box)
	t.tell("screws", facts, text)
	for _, n := range notes {
		if say := t.fastenNote(n, screw); say != "" {
			t.note("check", say)
		}
	}
	tacks, each := fasten.Tacks(longestPiece(p))
	t.note("check", fmt.Sprintf("before the lift comes away: %d in the longest board, %d along each long edge", tacks, each))
}

// fastenNote says what is in doubt about screws, "" for what needs no words here.
func (t *turn) fastenNote(n fasten.Note, s fasten.Screw) string {
	source := ""
	if n.Source != "" {
		source = " (" + n.Source + ")"
	}
	switch n.Kind {
	case fasten.ListingRules:
		return "fire-rated: the listed design gives length and spacing, not this count; follow it and the local code" + source
	case fasten.BayTooWide:
		return fmt.Sprintf("straps %s apart, the limit for this board is %s%s", t.near(n.Got), t.f(n.Limit), source)
	case fasten.NotAllowed:
		return "the code has no such use of this board at any spacing" + source
	case fasten.Unlisted:
		return fmt.Sprintf("no rule for board of %s: the next thinner one's is used%s", t.exact(n.Got), source)
	case fasten.ShortBite, fasten.NoStockLength:
		return fmt.Sprintf("%s bites only %s, %s is needed%s", t.f(s.Length), t.f(s.Bite), t.f(s.Need), source)
	case fasten.ThinSupport:
		return fmt.Sprintf("a strap of %s is thinner than the bite wanted (%s): the screw has to reach what is behind it%s", t.f(n.Got), t.f(n.Limit), source)
	}
	return ""
}

func longestPiece(p *plan) length.Length {
	var most length.Length
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			most = max(most, pc.Cut)
		}
	}
	return most
}

// bring says what the next day wants from the stock: the boards still to hang,
// against those on hand.
func (t *turn) bring() {
	offcuts := 0
	j, without := t.supplyJob(func(p *plan) {
		for _, c := range p.toCut() {
			if c.Offcut {
				offcuts++
			}
		}
	})
	if t.err != nil {
		return
	}
	_, counted := t.st.Stock()
	facts := orderFacts{Lines: []orderLine{}}
	var parts []string
	for _, b := range j.Boards {
		facts.Lines = append(facts.Lines, orderLine{fmt.Sprintf("board %s x %s", t.f(b.Width), t.stockLength(b.Length)), b.Count, "board"})
		s := fmt.Sprintf("%d x %s", b.Count, t.stockLength(b.Length))
		if counted {
			s += fmt.Sprintf(" (%d on hand)", t.onHand(b.Length))
		}
		parts = append(parts, s)
	}
	text := "nothing left to hang"
	switch {
	case len(parts) > 0:
		text = "bring " + strings.Join(parts, ", ")
	case offcuts > 0:
		text = fmt.Sprintf("no boards to bring: what is left comes out of %d %s", offcuts, plural(offcuts, "offcut"))
	}
	for _, w := range without {
		text += "\nleft out: " + w
	}
	t.tell("bring", facts, text)
	t.ans.Room = t.line.Room
}
