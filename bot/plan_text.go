package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

type (
	planPiece struct {
		ID      string      `json:"id"`
		From    Len         `json:"from"`
		To      Len         `json:"to"`
		Cut     Len         `json:"cut"`
		Notches []planNotch `json:"notches,omitempty"`
		Hung    bool        `json:"hung,omitempty"`
	}
	planNotch struct {
		X Len `json:"x"`
		Y Len `json:"y"`
		W Len `json:"w"`
		H Len `json:"h"`
	}
	planRow struct {
		Width  Len         `json:"width"`
		Rip    *Len        `json:"rip,omitempty"`
		Pieces []planPiece `json:"pieces"`
	}
	boardCount struct {
		Length Len `json:"length"`
		Count  int `json:"count"`
	}
	layoutFacts struct {
		Run    string       `json:"run"`
		Rows   []planRow    `json:"rows"`
		Boards []boardCount `json:"boards"`
		Butts  int          `json:"butts"`
		Bought float64      `json:"bought_m2"`
		Bound  float64      `json:"bound_m2"`
		Proven bool         `json:"proven"`
	}
)

func (t *turn) layoutFacts(p *plan) layoutFacts {
	u := t.units()
	f := layoutFacts{
		Run: string(p.run), Rows: []planRow{}, Boards: []boardCount{}, Butts: p.Butts, Bought: p.Bought, Bound: p.Bound, Proven: p.Proven,
	}
	for _, r := range p.Rows {
		row := planRow{Width: fact(u, r.Width), Pieces: []planPiece{}}
		if r.Rip {
			rip := fact(u, r.Width)
			row.Rip = &rip
		}
		for _, pc := range r.Pieces {
			q := p.rect(pc)
			from, to := q.Span(alongRun(p.run))
			pp := planPiece{ID: pc.ID, From: fact(u, from), To: fact(u, to), Cut: fact(u, pc.Cut), Hung: p.hung[pc.ID]}
			for _, n := range pc.Notches {
				pp.Notches = append(pp.Notches, planNotch{fact(u, n.X+p.dx), fact(u, n.Y+p.dy), fact(u, n.W), fact(u, n.H)})
			}
			row.Pieces = append(row.Pieces, pp)
		}
		f.Rows = append(f.Rows, row)
	}
	for _, b := range p.Boards {
		f.Boards = append(f.Boards, boardCount{fact(u, b.Length), b.Count})
	}
	return f
}

func alongRun(run place.Run) place.Axis {
	if run == place.EW {
		return place.X
	}
	return place.Y
}

func (t *turn) layout(e grammar.Layout) {
	p := t.plan()
	if p == nil {
		return
	}
	was := t.room.Pick() // the layout shown is the one that `hung` means from now on
	switch {
	case e.Pick > len(p.offers):
		t.no(fmt.Sprintf("there is no layout %d to take", e.Pick), "layout")
		return
	case e.Pick > 0 && e.Pick != p.pick && len(p.hung) > 0:
		t.no(fmt.Sprintf("pieces of layout %d are up: the rest goes by it", p.pick), "layout")
		return
	}
	if pick := cmp.Or(e.Pick, was, 1); pick != was {
		t.save(site.PlanPick{Room: t.room.Name, Pick: pick, Said: e.Pick > 0})
		if p = t.plan(); p == nil || t.err != nil {
			return
		}
	}
	text := t.layoutText(p)
	if t.ans.Saved {
		text = fmt.Sprintf("noted %d: layout %d taken\n%s", t.ans.Seq, p.pick, text)
	}
	t.tell("layout", t.layoutFacts(p), text)
	if p.in.Along && p.Butts > 0 {
		t.note("check", "boards along: the butts fall between the straps, back-block them")
	}
	for i, n := range p.Notes {
		if same(n, p.Notes[:i]) == nil {
			if s := t.layoutNote(n, same(n, p.Notes)); s != "" {
				t.note("check", s)
			}
		}
	}
}

// same are the notes that say of other rows, or by other rules, what n says.
func same(n layout.Note, of []layout.Note) (out []layout.Note) {
	for _, o := range of {
		if o.About == n.About && o.At == n.At && o.Limit == n.Limit {
			out = append(out, o)
		}
	}
	return out
}

func (t *turn) layoutText(p *plan) string {
	var head []string
	head = append(head, fmt.Sprintf("%s: boards %s, %d %s from the %s wall, %s", t.room.Name, runWords(p.run), len(p.Rows), plural(len(p.Rows), "row"),
		t.room.RowsFrom(p.run), t.butts(p.Layout)))
	if len(p.hung) > 0 {
		head = append(head, fmt.Sprintf("%d of %d pieces up", len(p.hung), pieceCount(p.Layout)))
	}
	lines := []string{strings.Join(head, ", ")}
	lines = append(lines, t.rowLines(p)...)
	cuts := p.toCut()
	if len(cuts) == 0 {
		return strings.Join(append(lines, fmt.Sprintf("nothing left to cut; joints %s", t.joints(p.Layout))), "\n")
	}
	boards := t.boardsText(p.Boards)
	if n := len(slices.DeleteFunc(cuts, func(c layout.Cut) bool { return !c.Offcut })); n > 0 && p.extra {
		boards += fmt.Sprintf(", %d %s", n, plural(n, "offcut"))
	}
	lines = append(lines, strings.TrimPrefix(boards, ", ")+"; "+t.proofText(p))
	if p.stated != "" && p.short() == nil {
		lines = append(lines, p.stated)
	}
	if short := p.short(); short != nil {
		lines = append(lines, "short on hand"+lessThose(p.hand.after)+": "+t.boardsText(short))
	}
	if len(p.hung) == 0 {
		lines = append(lines, t.others(p)...)
	}
	return strings.Join(lines, "\n")
}

func (t *turn) butts(l *layout.Layout) string {
	return fmt.Sprintf("%d %s", l.Butts, plural(l.Butts, "butt"))
}

func pieceCount(l *layout.Layout) int {
	n := 0
	for _, r := range l.Rows {
		n += len(r.Pieces)
	}
	return n
}

// rowLines says each row's cut sizes; rows that are alike share a line.
func (t *turn) rowLines(p *plan) []string {
	var texts []string
	alike := map[string][]int{}
	for i, r := range p.Rows {
		text := t.rowText(p, r)
		if alike[text] == nil {
			texts = append(texts, text)
		}
		alike[text] = append(alike[text], i+1)
	}
	var lines []string
	for _, text := range texts {
		rows := alike[text]
		lines = append(lines, fmt.Sprintf("%s %s: %s", plural(len(rows), "row"), ranges(rows), text))
	}
	return lines
}

func (t *turn) rowText(p *plan, r layout.Row) string {
	var cuts []string
	for _, pc := range r.Pieces {
		s := t.f(pc.Cut)
		if len(pc.Notches) > 0 {
			s += " cut out"
		}
		if p.hung[pc.ID] {
			s += " up"
		}
		cuts = append(cuts, s)
	}
	text := strings.Join(cuts, " + ")
	if r.Rip {
		text += ", rip " + t.f(r.Width)
	}
	return text
}

func (t *turn) boardsText(boards []layout.Stock) string {
	var bs []string
	for _, b := range boards {
		bs = append(bs, fmt.Sprintf("%d x %s", b.Count, t.stockLength(b.Length)))
	}
	return strings.Join(bs, ", ")
}

// area prints square metres in the job's units.
func (t *turn) area(m2 float64) string {
	if t.units() == length.Metric {
		return fmt.Sprintf("%.1f m2", m2)
	}
	return fmt.Sprintf("%.0f sq ft", m2/0.09290304) // 0.3048 m squared, exact
}

func (t *turn) proofText(p *plan) string {
	text := t.area(p.Bought) + " bought"
	if !p.extra { // what hangs takes no board of this plan, so its waste says nothing
		text += fmt.Sprintf(", waste %.0f %%", 100*p.Waste())
	}
	text += ", joints " + t.joints(p.Layout)
	switch {
	case p.Proven:
		return text + "; proven best"
	case len(p.Short) > 0 && p.pick == 1:
		return text + "; the boards on hand do not do"
	case len(p.Short) > 0:
		return text
	case p.in.Keep != nil:
		return text + "; the rows that stay keep their butts"
	case p.pick > 1 && p.Bought <= p.Bound+1e-6:
		return text + "; no layout in these rows takes less board"
	case p.pick > 1:
		return text + "; no layout in these rows takes less board than " + t.area(p.Bound)
	}
	return text + fmt.Sprintf("; not proven best, the bound is %d %s and %s", p.BoundButts, plural(p.BoundButts, "butt"), t.area(p.Bound))
}

func (t *turn) joints(l *layout.Layout) string {
	return fmt.Sprintf("%s butt + %s long", t.joint(l.ButtJoint), t.joint(l.LongJoint))
}

// joint prints a length of joint to the foot or the tenth of a metre.
func (t *turn) joint(l length.Length) string {
	if t.units() == length.Metric {
		return fmt.Sprintf("%.1f m", length.MM(l)/1000)
	}
	return fmt.Sprintf("%.0f ft", float64(l)/float64(length.Foot))
}

// others offers the layouts that trade joints for board.
func (t *turn) others(p *plan) []string {
	var lines []string
	for i, l := range p.offers {
		if i+1 == p.pick {
			continue
		}
		say := fmt.Sprintf("%s, %s bought", t.boardsText(l.Boards), t.area(l.Bought))
		if len(l.Short) > 0 {
			say = "short " + t.boardsText(l.Short)
		}
		lines = append(lines, fmt.Sprintf("`layout %d`: %s, %s", i+1, t.butts(l), say))
	}
	return lines
}

func (t *turn) layoutNote(n layout.Note, all []layout.Note) string {
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
		row = fmt.Sprintf("%s %s: ", plural(len(rows), "row"), ranges(rows))
	}
	if rules != nil {
		rule = " (" + strings.Join(rules, ", ") + ")"
	}
	switch n.About {
	case layout.EdgeNear:
		return fmt.Sprintf("%sa butt lies %s from an opening's edge, better %s", row, t.near(n.At), t.f(n.Limit))
	case layout.StaggerLow:
		return fmt.Sprintf("%sbutts are only %s apart from the next row's, better %s", row, t.near(n.At), t.f(n.Limit))
	case layout.ShortPiece:
		return fmt.Sprintf("%sa piece of only %s", row, t.near(n.At))
	case layout.SliverRow:
		return fmt.Sprintf("%sonly %s wide", row, t.near(n.At))
	case layout.CornerJoint:
		return row + "a long joint in line with a corner: it likes to crack"
	case layout.FieldCut:
		return row + "a cut edge away from the wall"
	case layout.LooseButt:
		return row + "a butt on no strap: back-block it"
	case layout.OffCentre:
		return fmt.Sprintf("%sa butt %s off the middle of its strap: see that both boards bite", row, t.near(n.At))
	case layout.OpenGap:
		return fmt.Sprintf("%s%s left open beside what hangs, too narrow for a board: fill it", row, t.near(n.At))
	case layout.Spacing:
		if row != "" {
			row += "where a strap stops short, "
		}
		return fmt.Sprintf("%sstraps %s apart are too far for this board, at most %s%s", row, t.near(n.At), t.f(n.Limit), rule)
	case layout.Thin:
		return "this board is too thin for that ceiling" + rule
	case layout.CutDown:
		return fmt.Sprintf("boards over %s do not get in whole: cut them outside", t.f(n.Limit))
	case layout.NarrowFace:
		return fmt.Sprintf("straps %s wide are narrow for a joint, at least %s%s", t.near(n.At), t.f(n.Limit), rule)
	}
	return ""
}
