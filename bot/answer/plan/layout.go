package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/rows"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/inforce"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar/boards"
)

type (
	planPiece struct {
		ID      string      `json:"id"`
		From    say.Len     `json:"from"`
		To      say.Len     `json:"to"`
		Cut     say.Len     `json:"cut"`
		Notches []planNotch `json:"notches,omitempty"`
		Hung    bool        `json:"hung,omitempty"`
		// If the walls lean: lengths along its north or west edge and the other, rip widths at its west or
		// north end and the other.
		Edges []say.Len `json:"edges,omitempty"`
		Ends  []say.Len `json:"ends,omitempty"`
		Off   []planOff `json:"corners_off,omitempty"`
	}
	// planOff is a corner cut off a piece, at its south, east or top end or edge if far.
	planOff struct {
		FarEnd  bool    `json:"far_end"`
		FarEdge bool    `json:"far_edge"`
		Along   say.Len `json:"along"`
		Across  say.Len `json:"across"`
	}
	planNotch struct {
		X say.Len `json:"x"`
		Y say.Len `json:"y"`
		W say.Len `json:"w"`
		H say.Len `json:"h"`
	}
	planRow struct {
		Width  say.Len     `json:"width"`
		Rip    *say.Len    `json:"rip,omitempty"`
		Pieces []planPiece `json:"pieces"`
	}
	boardCount struct {
		Length say.Len `json:"length"`
		Count  int     `json:"count"`
	}
	layoutFacts struct {
		Surface string       `json:"surface"`
		Run     string       `json:"run"`
		Rows    []planRow    `json:"rows"`
		Boards  []boardCount `json:"boards"`
		Butts   int          `json:"butts"`
		Bought  float64      `json:"bought_m2"`
		Bound   float64      `json:"bound_m2"`
		Proven  bool         `json:"proven"`
	}
)

func factsOf(c answer.Ctx, p *inforce.Plan) layoutFacts {
	f := layoutFacts{
		Surface: string(p.Surface), Run: string(p.Run), Rows: []planRow{}, Boards: []boardCount{}, Butts: p.Butts, Bought: p.Bought, Bound: p.Bound, Proven: p.Proven,
	}
	for _, r := range p.Rows {
		row := planRow{Width: c.Fact(r.Width), Pieces: []planPiece{}}
		if r.Rip {
			rip := c.Fact(r.Width)
			row.Rip = &rip
		}
		for _, pc := range r.Pieces {
			q := p.Rect(pc)
			from, to := q.Span(p.Surface.Lie(p.Run))
			pp := planPiece{ID: pc.ID, From: c.Fact(from), To: c.Fact(to), Cut: c.Fact(pc.Cut), Hung: p.Hung[pc.ID]}
			if pc.Tapered() {
				pp.Edges = []say.Len{c.Fact(pc.Edges[0]), c.Fact(pc.Edges[1])}
			}
			if pc.RipTapered() {
				pp.Ends = []say.Len{c.Fact(pc.Ends[0]), c.Fact(pc.Ends[1])}
			}
			for _, o := range pc.Off {
				pp.Off = append(pp.Off, planOff{o.End, o.Far, c.Fact(o.Along), c.Fact(o.Across)})
			}
			for _, n := range pc.Notches {
				pp.Notches = append(pp.Notches, planNotch{c.Fact(n.X + p.Dx), c.Fact(n.Y + p.Dy), c.Fact(n.W), c.Fact(n.H)})
			}
			row.Pieces = append(row.Pieces, pp)
		}
		f.Rows = append(f.Rows, row)
	}
	for _, b := range p.Boards {
		f.Boards = append(f.Boards, boardCount{c.Fact(b.Length), b.Count})
	}
	return f
}

// layoutOf shows the layout of a surface, or takes one of those offered.
func layoutOf(c answer.Ctx, e boards.Layout) answer.Reply {
	p, stop := c.Plan(e.Surface)
	if stop != nil {
		return orBySize(c, e.Surface, stop)
	}
	was := c.Room.Pick(p.Surface) // from now on `hung` refers to the layout shown
	switch {
	case e.Pick > len(p.Offers):
		return answer.No(fmt.Sprintf("there is no layout %d to take", e.Pick), answer.LayoutOf(p.Surface, 0))
	case e.Pick > 0 && e.Pick != p.Pick && len(p.Hung) > 0:
		return answer.No(fmt.Sprintf("pieces of layout %d are up: the rest goes by it", p.Pick), answer.LayoutOf(p.Surface, 0))
	}
	pick := cmp.Or(e.Pick, was, 1)
	if pick == was {
		return layoutShown(c, p, "")
	}
	return answer.Save(event.PlanPick{Room: c.Room.Name, Surface: p.Surface, Pick: pick, Said: e.Pick > 0}, func(en *site.Entry) answer.Reply {
		p, stop := c.Plan(e.Surface)
		if stop != nil {
			return *stop
		}
		taken := ""
		if e.Pick > 0 {
			taken = fmt.Sprintf("noted %d: layout %d taken\n", en.Seq, p.Pick)
		}
		return layoutShown(c, p, taken)
	})
}

// layoutShown is the answer that shows a plan, with its warnings.
func layoutShown(c answer.Ctx, p *inforce.Plan, head string) answer.Reply {
	r := answer.Tell("layout", factsOf(c, p), head+layoutText(c, p))
	if p.In.Along && p.Butts > 0 {
		r.Note("check", fmt.Sprintf("boards along: the butts fall between the %s, back-block them", c.Room.Supports(p.Surface)[0].Kind))
	}
	if p.Surface.IsWall() && c.Room.Shell().NotchOn(place.Wall(p.Surface)) {
		var faces []string
		for _, s := range c.Room.Shell().Surfaces() {
			if name, _ := s.NotchOf(); name != "" {
				faces = append(faces, string(s))
			}
		}
		r.Note("check", "the notch has walls of its own, by the way they face: "+strings.Join(faces, ", "))
	}
	if s := leaningBeside(c, p); s != "" {
		r.Note("check", s)
	}
	clear := c.Room.Shell().Clear(p.Surface)
	lo, _ := clear.Span(p.Surface.Lie(p.Run).Other())
	rows.OnSeams(c, &r, p.Surface, p.Run, say.Each(p.Rows[1:], func(row layout.Row) length.Length { return lo + row.From }), clear)
	for i, n := range p.Notes {
		if same(n, p.Notes[:i]) == nil {
			if s := layoutNote(c, n, same(n, p.Notes), c.Room.Supports(p.Surface)[0].Kind.One()); s != "" {
				r.Note("check", s)
			}
		}
	}
	if s := nested(c, p); s != "" {
		r.Note("check", s)
	}
	c.Beside(&r, p.Surface, "")
	return r
}

// nested says which pieces can share a slanted cut, "" if none can.
func nested(c answer.Ctx, p *inforce.Plan) string {
	var pairs []string
	for _, n := range p.Nests {
		if !p.Hung[n.Piece] && !p.Hung[n.With] {
			pairs = append(pairs, fmt.Sprintf("%s out of the board of %s (saves 1 x %s)", n.Piece, n.With, c.Board(n.Board)))
		}
	}
	if pairs == nil {
		return ""
	}
	return "turned end for end, one slanted cut serves two: " + strings.Join(pairs, ", ") + ". The list does not count on it"
}

// leaningBeside says which parts of a room with leaning walls are planned larger than they are; "" if
// none.
func leaningBeside(c answer.Ctx, p *inforce.Plan) string {
	_, leans := c.Room.Shell().Shape()
	over := c.Room.Shell().Overcut()
	switch part, _, _ := p.Surface.BulkheadOf(); {
	case leans && part != "" && part != place.Bottom:
		return "the walls lean: it is planned as long as it is at its edge, cut the ends to the walls"
	case p.Surface == place.Ceiling && over > length.Sixteenth:
		return fmt.Sprintf("the walls lean, and a notch or a bulkhead with them: cuts beside it are up to %s over, mark them in place", c.Near(over))
	}
	return ""
}

// same returns the notes that say the same as n, about other rows or by other rules.
func same(n layout.Note, of []layout.Note) (out []layout.Note) {
	for _, o := range of {
		if o.About == n.About && o.At == n.At && o.Limit == n.Limit {
			out = append(out, o)
		}
	}
	return out
}

// layoutText words a plan for the crew: rows, boards, what is proven, and what else is offered.
func layoutText(c answer.Ctx, p *inforce.Plan) string {
	var head []string
	head = append(head, fmt.Sprintf("%s: boards %s, %d %s from %s, %s", c.Where(p.Surface), say.BoardsRun(p.Surface, p.Run), len(p.Rows), say.Plural(len(p.Rows), "row"),
		say.RowsFrom(p.Surface, c.Room.RowsFrom(p.Surface, p.Run)), butts(p.Layout)))
	if len(p.Hung) > 0 {
		head = append(head, fmt.Sprintf("%d of %d pieces up", len(p.Hung), pieceCount(p.Layout)))
	}
	if p.Line.Off > 0 {
		at, _ := c.Room.Shell().EndsAt(p.Line.Wall)
		head = append(head, fmt.Sprintf("hung to a line %s off the %s", c.Near(p.Line.Off), at.Name()))
	}
	lines := []string{strings.Join(head, ", ")}
	lines = append(lines, rowLines(c, p)...)
	if two := lies(p).Two(p.Rows); two != "" && p.In.Leans() {
		lines = append(lines, two)
	}
	cuts := p.ToCut()
	if len(cuts) == 0 {
		return strings.Join(append(lines, fmt.Sprintf("nothing left to cut; joints %s", joints(c, p.Layout))), "\n")
	}
	boards := boardsText(c, p.Boards)
	if n := len(slices.DeleteFunc(cuts, func(c layout.Cut) bool { return !c.Offcut })); n > 0 && p.Around {
		boards += fmt.Sprintf(", %d %s", n, say.Plural(n, "offcut"))
	}
	lines = append(lines, strings.TrimPrefix(boards, ", ")+"; "+proofText(c, p))
	if short := p.Missing(); short != nil {
		lines = append(lines, "short on hand"+answer.LessThose(p.Hand)+": "+boardsText(c, short))
	} else if from := c.FromBoards(p); from != "" {
		lines = append(lines, from)
	}
	if len(p.Hung) == 0 {
		lines = append(lines, others(c, p)...)
	}
	return strings.Join(lines, "\n")
}

func butts(l *layout.Layout) string {
	return fmt.Sprintf("%d %s", l.Butts, say.Plural(l.Butts, "butt"))
}

func pieceCount(l *layout.Layout) int {
	n := 0
	for _, r := range l.Rows {
		n += len(r.Pieces)
	}
	return n
}

// rowLines gives the cut sizes of each row. Equal rows share a line.
func rowLines(c answer.Ctx, p *inforce.Plan) []string {
	var texts []string
	alike := map[string][]int{}
	for i, r := range p.Rows {
		text := rowText(c, p, r)
		if alike[text] == nil {
			texts = append(texts, text)
		}
		alike[text] = append(alike[text], i+1)
	}
	var lines []string
	for _, text := range texts {
		rows := alike[text]
		lines = append(lines, fmt.Sprintf("%s %s: %s", say.Plural(len(rows), "row"), say.Ranges(rows), text))
	}
	return lines
}

func rowText(c answer.Ctx, p *inforce.Plan, r layout.Row) string {
	var cuts []string
	for _, pc := range r.Pieces {
		s := lies(p).Cut(pc, c.Len)
		if len(pc.Notches) > 0 {
			s += " cut out"
		}
		if p.Hung[pc.ID] {
			s += " up"
		}
		cuts = append(cuts, s)
	}
	text := strings.Join(cuts, " + ")
	if r.Rip {
		text += ", rip " + lies(p).RowRip(r, c.Len)
	}
	return text
}

// lies says which way the boards of a plan lie.
func lies(p *inforce.Plan) say.Lies { return say.Lies{On: p.Surface, Run: p.Run} }

func boardsText(c answer.Ctx, boards []layout.Stock) string {
	return strings.Join(say.Each(boards, func(b layout.Stock) string { return fmt.Sprintf("%d x %s", b.Count, c.Board(b.Length)) }), ", ")
}

func proofText(c answer.Ctx, p *inforce.Plan) string {
	text := c.Area(p.Bought) + " bought"
	if !p.Around { // pieces already up take no board of this plan, so its waste would mislead
		text += fmt.Sprintf(", waste %.0f %%", 100*p.Waste())
	}
	text += ", joints " + joints(c, p.Layout)
	switch {
	case p.Proven:
		return text + "; proven best"
	case len(p.Short) > 0 && p.Pick == 1:
		return text + "; not enough boards on hand"
	case len(p.Short) > 0:
		return text
	case p.In.Keep != nil:
		return text + "; unchanged rows keep their joints"
	case p.Pick > 1 && p.Bought <= p.Bound+1e-6:
		return text + "; no layout in these rows takes less board"
	case p.Pick > 1:
		return text + "; no layout in these rows takes less board than " + c.Area(p.Bound)
	}
	return text + fmt.Sprintf("; not proven best, the bound is %d %s and %s", p.BoundButts, say.Plural(p.BoundButts, "butt"), c.Area(p.Bound))
}

func joints(c answer.Ctx, l *layout.Layout) string {
	return fmt.Sprintf("%s butt + %s long", joint(c, l.ButtJoint), joint(c, l.LongJoint))
}

// joint words a length of joint, to the foot or the tenth of a metre.
func joint(c answer.Ctx, l length.Length) string {
	return c.Units.Pick(fmt.Sprintf("%.0f ft", float64(l)/float64(length.Foot)), fmt.Sprintf("%.1f m", length.MM(l)/1000))
}

// others offers the layouts that trade joints for board.
func others(c answer.Ctx, p *inforce.Plan) []string {
	var lines []string
	for i, l := range p.Offers {
		if i+1 == p.Pick {
			continue
		}
		has := fmt.Sprintf("%s, %s bought", boardsText(c, l.Boards), c.Area(l.Bought))
		if len(l.Short) > 0 {
			has = "short " + boardsText(c, l.Short)
		}
		lines = append(lines, fmt.Sprintf("`%s`: %s, %s", answer.LayoutOf(p.Surface, i+1), butts(l), has))
	}
	return lines
}

func layoutNote(c answer.Ctx, n layout.Note, all []layout.Note, support string) string {
	row, rule := "", ""
	var rows []int
	var rules []string
	for _, o := range all {
		if o.Row > 0 && !slices.Contains(rows, o.Row) {
			rows = append(rows, o.Row)
		}
		if o.Rule != "" && !slices.Contains(rules, o.Rule) {
			rules = append(rules, o.Rule)
		}
	}
	if rows != nil {
		row = fmt.Sprintf("%s %s: ", say.Plural(len(rows), "row"), say.Ranges(rows))
	}
	if rules != nil {
		rule = " (" + strings.Join(rules, ", ") + ")"
	}
	switch n.About {
	case layout.EdgeNear:
		return fmt.Sprintf("%sa butt lies %s from an opening's edge, better %s", row, c.Near(n.At), c.Len(n.Limit))
	case layout.StaggerLow:
		return fmt.Sprintf("%sbutts are only %s apart from the next row's, better %s", row, c.Near(n.At), c.Len(n.Limit))
	case layout.ShortPiece:
		return fmt.Sprintf("%sa piece of only %s", row, c.Near(n.At))
	case layout.SliverRow:
		return fmt.Sprintf("%sonly %s wide", row, c.Near(n.At))
	case layout.CornerJoint:
		return row + "a long joint in line with a corner: it tends to crack"
	case layout.FieldCut:
		return row + "a cut edge away from the wall"
	case layout.LooseButt:
		return row + "a butt that misses every " + support + ": back-block it"
	case layout.OffCentre:
		return fmt.Sprintf("%sa butt %s off the middle of its %s: see that both boards bite", row, c.Near(n.At), support)
	case layout.CornerOff:
		return row + "a corner off reads along the long edge first, then across the end: hold it up before you cut"
	case layout.OpenGap:
		return fmt.Sprintf("%s%s left open beside what hangs, too narrow for a board: fill it", row, c.Near(n.At))
	case layout.Spacing:
		if row != "" {
			row += "where a " + support + " stops short, "
		}
		return fmt.Sprintf("%s%ss %s apart are too far for this board, at most %s%s", row, support, c.Near(n.At), c.Len(n.Limit), rule)
	case layout.Thin:
		return "this board is too thin for that ceiling" + rule
	case layout.CutDown:
		return fmt.Sprintf("boards over %s won't go in whole: cut them outside", c.Len(n.Limit))
	case layout.NarrowFace:
		return fmt.Sprintf("%ss %s wide are narrow for a joint, at least %s%s", support, c.Near(n.At), c.Len(n.Limit), rule)
	}
	return ""
}
