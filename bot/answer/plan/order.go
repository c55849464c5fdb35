package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/answer/stock"
	"strapline/bot/message"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/fasten"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/calc/supply"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
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
		Length      say.Len `json:"length"`
		Count       int     `json:"count"`
		PerCrossing int     `json:"per_crossing"`
		Boxes       int     `json:"boxes,omitempty"`
	}
)

// eachPlan calls use for each surface that can be planned in the rooms that a question is about, in the
// order in which they take their boards. It returns the surfaces that cannot be planned, and why.
func eachPlan(c answer.Ctx, use func(c answer.Ctx, p *inforce.Plan)) (without []string, stop *answer.Reply) {
	var all, before []site.Plane // before: planned ahead of the one at hand although their layouts were not taken
	for _, r := range c.SpeakOf() {
		walls, bare := boardedWalls(c.In(r))
		if all = append(all, site.Plane{Room: r, Surface: place.Ceiling}); len(bare) > 0 {
			without = append(without, fmt.Sprintf("no studs noted on the %s of %s", strings.Join(bare, ", "), r.Name))
		}
		all = append(all, walls...)
	}
	planned := func(p site.Plane) uint64 { return p.Room.Planned(p.Surface) - 1 } // not planned is 0, which wraps around and so comes last
	slices.SortStableFunc(all, func(a, b site.Plane) int { return cmp.Compare(planned(a), planned(b)) })
	for _, pl := range all {
		c := c.In(pl.Room)
		p, stop := c.Plan(pl.Surface, before...)
		switch {
		case stop == nil:
			use(c, p)
			if c.Room.Planned(pl.Surface) == 0 {
				before = append(before, pl)
			}
		case stop.Refuse == nil || stop.Over:
			return nil, stop
		default:
			without = append(without, stop.Refuse.Want)
		}
	}
	return without, nil
}

// boardedWalls returns the surfaces besides the ceiling that are to be boarded, judging by noted studs or
// hung board. If there is one, bare names the others, for which neither studs, board nor an old finish is
// noted.
func boardedWalls(c answer.Ctx) (walls []site.Plane, bare []string) {
	for _, s := range c.Room.Shell().Surfaces()[1:] {
		switch said, _ := c.Room.WallSaid(s); {
		case len(c.Room.Supports(s)) > 0:
			walls = append(walls, site.Plane{Room: c.Room, Surface: s})
		case len(c.Room.Pieces(s)) == 0 && !said.Finished && said.Thick == 0:
			bare = append(bare, s.Name())
		}
	}
	if walls == nil {
		return nil, nil
	}
	return walls, bare
}

// supplyJob adds up what the plans of the rooms still take, and passes each to see.
func supplyJob(c answer.Ctx, see func(c answer.Ctx, p *inforce.Plan)) (supply.Job, []string, *answer.Reply) {
	var j supply.Job
	cornered := map[*site.Room]bool{} // rooms whose outside corners are counted
	without, stop := eachPlan(c, func(c answer.Ctx, p *inforce.Plan) {
		see(c, p)
		j.Area += p.Area / 0.09290304
		kind := c.BoardName(p.Plane)
		for _, b := range p.Todo() {
			size := supply.Board{Width: b.Width, Length: b.Length, Kind: kind}
			i := slices.IndexFunc(j.Boards, func(o supply.Board) bool { o.Count = 0; return o == size })
			if i < 0 {
				i = len(j.Boards)
				j.Boards = append(j.Boards, size)
			}
			j.Boards[i].Count += b.Count
		}
		j.Joints += p.ButtJoint + p.LongJoint + edgeJoint(p)
		bill, _, _, _ := bill(c, p, func(id string) bool { return !p.Hung[id] })
		j.Screws += bill.Wood + bill.Steel
		said, _ := c.Room.Said()
		if cornered[c.Room] {
			said.Less = nil
		}
		cornered[c.Room] = true
		for _, n := range said.Less { // a notch in a corner has one outside corner, one at a wall has two
			if said.High > 0 {
				j.Corners = append(j.Corners, said.High)
			}
			if said.High > 0 && n.Corner == "" {
				j.Corners = append(j.Corners, said.High)
			}
		}
		j.Plates += len(reach.Check(behind.Of(c, p.Surface, 0).Query).Plates)
	})
	slices.SortStableFunc(j.Boards, func(a, b supply.Board) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(b.Length, a.Length))
	})
	if v, set := c.State.SettingNow("waste"); set {
		j.Own.Waste = &v.N
	}
	if v, set := c.State.SettingNow("compound"); set {
		per := v.N
		if v.Per > 0 {
			per = v.N * 1000 / float64(v.Per)
		}
		j.Own.Compound = &per
	}
	j.Own.PerBox = perBox(c)
	return j, without, stop
}

// edgeJoint returns the joint to tape around a surface: the whole perimeter of a ceiling, but only one
// inside corner of a wall, because two walls share each corner and the top is the ceiling's joint.
func edgeJoint(p *inforce.Plan) length.Length {
	if p.Surface.Upright() {
		return p.In.Surface.H
	}
	return p.WallJoint
}

// order says what to buy, with the range of the published rules.
func order(c answer.Ctx, _ boards.Order) answer.Reply {
	var rooms, sizes, kinds []string
	have := map[string][]event.Boards{} // on hand, by kind
	j, without, stop := supplyJob(c, func(c answer.Ctx, p *inforce.Plan) {
		if len(p.Todo()) == 0 {
			return
		}
		rooms = append(rooms, c.Where(p.Surface))
		if kind := c.BoardName(p.Plane); !slices.Contains(kinds, kind) {
			kinds = append(kinds, kind)
			have[kind], _, _ = c.State.StockFor(p.Plane)
		}
		_, _, screw, _ := bill(c, p, func(string) bool { return false })
		if size := c.Len(screw.Length); !slices.Contains(sizes, size) {
			sizes = append(sizes, size)
		}
	})
	if stop != nil {
		return *stop
	}
	facts := orderFacts{Lines: []orderLine{}}
	var lines []string
	for _, l := range supply.Order(j) {
		if l.What == supply.Screws && j.Screws == 0 {
			continue // everything hangs
		}
		what := string(l.What)
		if l.What == supply.Boards {
			what = fmt.Sprintf("board %s x %s", c.Len(l.Size.Width), c.Board(l.Size.Length))
		}
		if c.Units == length.Metric && l.Unit == "gal" {
			l = l.In("L", litres)
		}
		line := lineText(c, l)
		if l.What == supply.Screws && len(sizes) > 0 {
			line = strings.Replace(line, ":", " "+strings.Join(sizes, " and ")+":", 1)
			line = strings.Replace(line, unitOf(l), fmt.Sprintf("%s of %d", unitOf(l), perBox(c)), 1)
		}
		if l.What == supply.Boards {
			if len(kinds) > 1 {
				line = fmt.Sprintf("%s board: %s", l.Size.Kind, line)
			}
			if have := stock.OnHand(have[l.Size.Kind], l.Size.Length); have > 0 {
				line += fmt.Sprintf(", %d on hand: order %d", have, max(l.Count-have, 0))
				l.Count = max(l.Count-have, 0)
			}
		}
		facts.Lines = append(facts.Lines, orderLine{what, l.Count, l.Unit})
		lines = append(lines, line)
	}
	switch {
	case len(lines) == 0:
		if len(c.State.Standing()) == 0 {
			return *c.NeedRoom()
		}
		if lines = append(lines, "nothing to order"); len(without) > 0 {
			lines[0] = "no order yet: something is missing"
		}
	case len(rooms) > 0:
		what := strings.Join(say.Most(rooms, 4), ", ")
		if len(kinds) == 1 {
			what += ", " + kinds[0] + " board"
		}
		lines[0] = what + ": " + lines[0]
	}
	if told := c.BoardTold(); told != "" {
		lines = append(lines, told)
	}
	for _, w := range without {
		lines = append(lines, "left out: "+w)
	}
	if most := c.State.LongestIn(); most > 0 && len(rooms) > 0 {
		lines = append(lines, "longest that gets in: "+c.Board(most))
	}
	r := answer.Tell("order", facts, strings.Join(say.MostLines(lines, "name a room: `order kitchen`"), "\n"))
	loads(c, &r, j)
	return r
}

func lineText(c answer.Ctx, l supply.Line) string {
	if l.What == supply.Boards {
		s := fmt.Sprintf("%d x %s", l.Count, c.Board(l.Size.Length))
		if l.Basis.Source == "lead" {
			return s + fmt.Sprintf(" (%d by the layout, your waste)", l.Size.Count)
		}
		return s + " by the layout, nothing spare"
	}
	s := fmt.Sprintf("%s: %d %s", l.What, l.Count, unitOf(l))
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

// unitOf returns a line's unit, singular or plural.
func unitOf(l supply.Line) string {
	switch {
	case l.Count == 1 || l.Unit == "gal" || l.Unit == "L":
		return l.Unit
	case l.Unit == "box":
		return "boxes"
	}
	return say.Plural(2, l.Unit)
}

// litres in a US gallon of 231 cubic inches, exact
const litres = 3.785411784

// perBox returns how many screws a box holds.
func perBox(c answer.Ctx) int {
	if v, set := c.State.SettingNow("box"); set {
		return int(v.N)
	}
	return 1000 // common practice, no source
}

// loads says what the boards weigh, who carries them, and what a stack does to a floor.
func loads(c answer.Ctx, r *answer.Reply, j supply.Job) {
	board, _ := c.State.BoardNow()
	if on := c.SpeakOf(); len(on) > 0 {
		board, _ = on[0].BoardFor(place.Ceiling)
	}
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
	if c.Units == length.Metric {
		weight = fmt.Sprintf("%.0f kg", lb*0.45359237) // pounds to kg, exact by definition
	}
	r.Note("weight", fmt.Sprintf("%s board: %s each, %d people", c.Board(long.Length), weight, supply.People(lb)))
	most, rooms := supply.Stack(supply.LiveDwelling, psf), supply.Stack(supply.LiveSleeping, psf)
	if n > rooms {
		r.Note("caution", fmt.Sprintf("%d boards: at most %d in one flat stack on a floor in order (40 psf), %d where people sleep (30 psf); %s",
			n, most, rooms, answer.CautionFloor))
	}
}

// bill counts the screws of those pieces of a plan, and says by which rule, with which screw, and what is
// uncertain.
func bill(c answer.Ctx, p *inforce.Plan, of func(id string) bool) (fasten.Bill, fasten.Rule, fasten.Screw, []fasten.Note) {
	set := c.Room.Bearing(p.Surface)
	where := behind.WhereFixed(c, p.Surface, set)
	rule, notes := fasten.RuleFor(where)
	var pieces []fasten.Piece
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			if !of(pc.ID) {
				continue
			}
			q := p.Rect(pc)
			pieces = append(pieces, fasten.Piece{X: q.X0, Y: q.Y0, W: q.X1 - q.X0, H: q.Y1 - q.Y0})
		}
	}
	screw := behind.ScrewFor(c, where, set[0])
	return fasten.ForPieces(pieces, set, rule), rule, screw, append(notes, screw.Notes...)
}

// screws counts the screws of a room's plans, hung or not.
func screws(c answer.Ctx, e hanging.Screws) answer.Reply {
	if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	facts := screwsFacts{}
	var r answer.Reply
	var lines []string
	planes, of := c.Planes(e.Surface), ""
	if e.Row > 0 {
		planes, of = []place.Surface{answer.SurfaceOf(e.Surface)}, fmt.Sprintf(" row %d", e.Row)
	}
	for _, on := range planes {
		p, stop := c.Plan(on)
		if stop != nil {
			return *stop
		}
		if e.Row > len(p.Rows) {
			return noRow(c, p, fmt.Sprint(e.Row))
		}
		bill, rule, screw, notes := bill(c, p, func(id string) bool { return e.Row == 0 || strings.HasPrefix(id, fmt.Sprintf("r%d.", e.Row)) })
		n := bill.Wood + bill.Steel
		facts.Count += n
		per, narrow := perCrossing(c, p, rule)
		facts.Length, facts.PerCrossing = c.Fact(screw.Length), per
		kind := "coarse"
		if bill.Steel > bill.Wood {
			kind = "fine, for steel"
		}
		one := c.Room.Supports(on)[0].Kind.One()
		lines = append(lines, fmt.Sprintf("%s%s: %d screws %s %s, %d where a board crosses a %s%s, %s apart",
			c.Where(on), of, n, c.Len(screw.Length), kind, per, one, narrow, c.Len(rule.Spacing)))
		for _, n := range notes {
			if s := fastenNote(c, n, screw, one); s != "" && !slices.ContainsFunc(r.Notes, func(o message.Note) bool { return o.Text == s }) {
				r.Note("check", s)
			}
		}
		if !on.Upright() {
			tacks, each := fasten.Tacks(longestPiece(p))
			r.Note("check", fmt.Sprintf("before the lift is taken away: %d in the longest board, %d along each long edge", tacks, each))
		}
	}
	box := perBox(c)
	facts.Boxes = fasten.Box{Holds: box, Spare: 10}.Boxes(facts.Count)
	bring := fmt.Sprintf("bring %d %s of %d", facts.Boxes, map[bool]string{true: "box", false: "boxes"}[facts.Boxes == 1], box)
	if len(lines) > 1 {
		lines = append([]string{fmt.Sprintf("%s: %d screws in all; %s", c.Room.Name, facts.Count, bring)}, lines...)
	} else {
		lines[0] += "; " + bring
	}
	r.Kind, r.Facts, r.Text = "screws", facts, strings.Join(lines, "\n")
	return r
}

// perCrossing returns how many screws the widest row takes where it crosses a support, and words for the
// narrower ones, which take fewer.
func perCrossing(c answer.Ctx, p *inforce.Plan, rule fasten.Rule) (per int, narrow string) {
	var widths []length.Length
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			widths = append(widths, pc.Hi-pc.Lo)
		}
	}
	slices.Sort(widths)
	for _, w := range slices.Backward(slices.Compact(widths)) {
		n := fasten.PerCrossing(w, rule.Edge, rule.Spacing)
		if per == 0 {
			per = n
		} else if n < per {
			narrow += fmt.Sprintf(", %d where it is %s wide", n, c.Near(w))
		}
	}
	return per, narrow
}

// fastenNote says what is uncertain about the screws, "" if nothing needs to be said here.
func fastenNote(c answer.Ctx, n fasten.Note, s fasten.Screw, support string) string {
	source := ""
	if n.Source != "" {
		source = " (" + n.Source + ")"
	}
	switch n.Kind {
	case fasten.ListingRules:
		return "fire-rated: the listed design gives length and spacing, not this count; follow it and the local code" + source
	case fasten.BayTooWide:
		return fmt.Sprintf("%ss %s apart, the limit for this board is %s%s", support, c.Near(n.Got), c.Len(n.Limit), source)
	case fasten.NotAllowed:
		return "the code does not allow this board here at any spacing" + source
	case fasten.Unlisted:
		return fmt.Sprintf("no rule for board of %s: the next thinner one's is used%s", c.Thick(n.Got), source)
	case fasten.ShortBite, fasten.NoStockLength:
		return fmt.Sprintf("%s bites only %s, %s is needed%s", c.Len(s.Length), c.Len(s.Bite), c.Len(s.Need), source)
	case fasten.ThinSupport:
		return fmt.Sprintf("a %s of %s is thinner than the bite wanted (%s): the screw has to reach what is behind it%s", support, c.Len(n.Got), c.Len(n.Limit), source)
	}
	return ""
}

func longestPiece(p *inforce.Plan) length.Length {
	var most length.Length
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			most = max(most, pc.Cut)
		}
	}
	return most
}

// bring says what to bring the next day: the boards still to hang, compared with those on hand.
func bring(c answer.Ctx, _ boards.Bring) answer.Reply {
	offcuts := 0
	j, without, stop := supplyJob(c, func(_ answer.Ctx, p *inforce.Plan) {
		for _, b := range p.ToCut() {
			if b.Offcut {
				offcuts++
			}
		}
	})
	if stop != nil {
		return *stop
	}
	left, counted := c.State.Stock()
	facts := orderFacts{Lines: []orderLine{}}
	var parts []string
	for _, b := range j.Boards {
		facts.Lines = append(facts.Lines, orderLine{fmt.Sprintf("board %s x %s", c.Len(b.Width), c.Board(b.Length)), b.Count, "board"})
		s := fmt.Sprintf("%d x %s", b.Count, c.Board(b.Length))
		if j.Boards[0].Kind != j.Boards[len(j.Boards)-1].Kind {
			s += " of " + b.Kind
		}
		if counted {
			s += fmt.Sprintf(" (%d on hand)", stock.OnHand(left, b.Length))
		}
		parts = append(parts, s)
	}
	text := "nothing left to hang"
	switch {
	case len(parts) > 0:
		text = "bring " + strings.Join(parts, ", ")
	case offcuts > 0:
		text = fmt.Sprintf("no boards to bring: what is left comes out of %d %s", offcuts, say.Plural(offcuts, "offcut"))
	}
	for _, w := range without {
		text += "\nleft out: " + w
	}
	return answer.Tell("bring", facts, text)
}
