package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/answer/screws"
	"strapline/bot/answer/stock"
	"strapline/bot/answer/told"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/calc/supply"
	"strapline/grammar/boards"
	"strapline/grammar/lex"
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
		case pl.Surface == place.Ceiling && len(c.Room.Supports(pl.Surface)) == 0 && !slices.ContainsFunc(c.Room.Pieces(pl.Surface), func(p frame.Piece) bool { return p.Row == 0 }):
			without = append(without, byArea(c)+stop.Refuse.Want)
		default:
			without = append(without, stop.Refuse.Want)
		}
	}
	return without, nil
}

// byItsArea is in the line of a room whose boards are not laid out.
const byItsArea = "by its area"

// byArea says how many boards the ceiling of the room at hand takes at least, by its area: without straps there is no
// layout.
func byArea(c answer.Ctx) string {
	said, en := c.Room.Said()
	if en == nil {
		return ""
	}
	left, _ := c.State.StockFor(site.Plane{Room: c.Room, Surface: place.Ceiling})
	long := longestBoard(c, place.Ceiling)
	area, with := float64(said.EW)*float64(said.NS), ""
	for _, s := range c.Room.Shell().Surfaces() {
		if w := s.SlopeTo(); w != "" {
			x, y := c.Room.Shell().Extent(s)
			_, off := c.Room.Shell().EndsAt(w)
			area += float64(x) * float64(y-cmp.Or(off, w.Deep(said.EW, said.NS))) // for the part of the flat that it takes
			with = ", slopes too"
		}
	}
	n := int(math.Ceil(area / (float64(long) * float64(boardWide(c, place.Ceiling)))))
	text := fmt.Sprintf("%s: at least %d x %s %s, nothing for waste", c.Room.Name, n, c.Board(long), byItsArea+with)
	if have := stock.OnHand(left, long); have > 0 {
		text += fmt.Sprintf(", %d on hand", have)
	}
	return text + "; "
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
		bill, _, _, _ := screws.Count(c, p, func(id string) bool { return !p.Hung[id] })
		j.Screws += bill.Screws()
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
	j.Own.PerBox = screws.PerBox(c)
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
			have[kind], _ = c.State.StockFor(p.Plane)
		}
		_, _, screw, _ := screws.Count(c, p, func(string) bool { return false })
		if size := c.Len(screw.Length); !slices.Contains(sizes, size) {
			sizes = append(sizes, size)
		}
	})
	if stop != nil {
		return *stop
	}
	facts := orderFacts{Lines: []orderLine{}}
	var lines []string
	boardLines := 0
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
			line = strings.Replace(line, unitOf(l), fmt.Sprintf("%s of %d", unitOf(l), screws.PerBox(c)), 1)
		}
		if l.What == supply.Boards {
			boardLines++
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
		switch {
		case len(without) == 0:
			lines = append(lines, "nothing to order")
		case !slices.ContainsFunc(without, func(w string) bool { return strings.Contains(w, byItsArea) }):
			lines = append(lines, "no order yet: something is missing")
		}
	case len(rooms) > 0:
		what := strings.Join(say.Most(rooms, 4), ", ")
		if len(kinds) == 1 {
			what += ", " + kinds[0] + " board"
		}
		lines[0] = what + ": " + lines[0]
	}
	if strings.Contains(lex.Lower(c.Words), "slope") && !strings.Contains(strings.Join(rooms, " "), "slope") {
		lines = slices.Insert(lines, 0, "no slope is in this, only the flat ceiling: its measures or its framing are not noted")
		boardLines++
	}
	if note := told.Board(c); note != "" {
		lines = append(lines, note)
	}
	for _, w := range without {
		if strings.Contains(w, byItsArea) {
			lines = slices.Insert(lines, min(boardLines, len(lines)), w)
			boardLines++
		} else {
			lines = append(lines, "left out: "+w)
		}
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
		if l.By == supply.Lead {
			return s + fmt.Sprintf(" (%d by the layout, your waste)", l.Size.Count)
		}
		return s + " by the layout, nothing spare"
	}
	s := fmt.Sprintf("%s: %d %s", l.What, l.Count, unitOf(l))
	switch {
	case l.By == supply.Lead:
		s += " (your number)"
	case l.By == supply.Counted:
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
	weight := c.Units.Pick(fmt.Sprintf("%.0f lb", lb), fmt.Sprintf("%.0f kg", lb*0.45359237)) // pounds to kg, exact by definition
	r.Note("weight", fmt.Sprintf("%s board: %s each, %d people", c.Board(long.Length), weight, supply.People(lb)))
	most, rooms := supply.Stack(supply.LiveDwelling, psf), supply.Stack(supply.LiveSleeping, psf)
	if n > rooms {
		r.Note("caution", fmt.Sprintf("%d boards: at most %d in one flat stack on a floor in order (40 psf), %d where people sleep (30 psf); %s",
			n, most, rooms, answer.CautionFloor))
	}
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
	slices.SortStableFunc(without, func(a, b string) int { // what is known of its boards comes first
		return strings.Index(b, byItsArea) - strings.Index(a, byItsArea)
	})
	switch {
	case len(parts)+offcuts == 0 && len(without) > 0 && strings.Contains(without[0], byItsArea):
		text, without = without[0], without[1:]
	case len(parts)+offcuts == 0 && len(without) > 0:
		text = "no list yet: something is missing"
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
