// Package hang answers what goes up and what it covers: rows and pieces, boarded walls, and holes opened.
package hang

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/answer/ready"
	"strapline/bot/answer/rows"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/fasten"
	"strapline/calc/frame"
	"strapline/calc/inforce"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/reach"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/record"
)

// Register registers the handlers of this package.
func Register(k answer.Kinds) {
	answer.OnNote(k, answer.InRoom(hung))
	answer.OnNote(k, hungPlan)
	answer.OnNote(k, answer.InRoom(soFar))
	answer.OnNote(k, answer.InRoom(upAll))
	answer.OnNote(k, answer.InRoom(boarded))
	answer.OnNote(k, opened)
}

type (
	pieceFacts struct {
		ID   string  `json:"id,omitempty"`
		X0   say.Len `json:"x0"`
		Y0   say.Len `json:"y0"`
		X1   say.Len `json:"x1"`
		Y1   say.Len `json:"y1"`
		Cut  say.Len `json:"cut"`
		Held int     `json:"supports"`
	}
	hungFacts struct {
		Surface string       `json:"surface"`
		Row     int          `json:"row,omitempty"`
		Pieces  []pieceFacts `json:"pieces"`
		Covers  []string     `json:"covers"`
		Screws  int          `json:"screws,omitempty"`
		Screw   *say.Len     `json:"screw,omitempty"`
	}
)

// hung notes a row, whole or by the sizes of its pieces.
func hung(c answer.Ctx, e hanging.Hung) answer.Reply {
	s := answer.SurfaceOf(e.Surface)
	p, stop := c.InForce(s)
	if stop != nil {
		return *stop
	}
	run, known := c.Room.BoardsRun(s)
	if e.Run != "" {
		run, known = s.DirectionOf(s.Lie(e.Run)), true
	}
	if !known && e.Row == 1 && e.Begun != "" && e.Pieces == nil && e.Used == nil {
		return soFar(c, hanging.SoFar{Rows: 1, Surface: e.Surface, Begun: e.Begun, Cut: e.Cut})
	}
	if known && (e.Pieces == nil || e.Begun != s.Start(s.Lie(run)) && e.Begun != s.Start(s.Lie(run)).Opposite()) {
		next := e
		next.Begun = ""
		if stop := begunAt(c, e.Begun, s, run, fmt.Sprintf("where is row %d?", e.Row), fmt.Sprintf("row %d off %s", e.Row, e.Begun.Opposite()), next); stop != nil {
			return *stop
		}
	}
	if p != nil && e.Pieces == nil && (e.Run == "" || s.Lie(e.Run) == s.Lie(p.Run)) && e.Row <= len(p.Rows) {
		if stop := cutFrom(c, p, e); stop != nil {
			return *stop
		}
		return hungPlan(c, hanging.HungPlan{IDs: []string{fmt.Sprintf("r%d", e.Row)}, Surface: e.Surface, Cut: e.Cut})
	}
	row, stop := rows.Of(c, e, s)
	if stop != nil {
		return *stop
	}
	if stop := wideOrLong(c, e, row); stop != nil {
		return *stop
	}
	if e.Begun != "" && e.Begun == s.Start(row.Axis).Opposite() {
		e.Pieces = slices.Clone(e.Pieces)
		slices.Reverse(e.Pieces) // the first one is at that end
	}
	b := event.Hung{Room: c.Room.Name, Surface: s, Row: e.Row, Run: row.Run, Used: answer.Logged(e.Used)}
	if b.Pieces, stop = pieces(c, e, s, row); stop != nil {
		return *stop
	}
	b.Sizes = say.Each(e.Pieces, func(p length.Said) length.Length { return p.L })
	if b.Cut, stop = cutNames(c, s, e.Cut, over(b.Pieces), func(names []string) grammar.Entry { next := e; next.Cut = names; return next }); stop != nil {
		return *stop
	}
	if stop := cutsUnder(c, b.Surface, b.Cut, b.Pieces, fmt.Sprintf("row %d", b.Row), func(cut []string) grammar.Entry { e.Cut = cut; return e }); stop != nil {
		return *stop
	}
	if stop := tooLong(c, e, b); stop != nil {
		return *stop
	}
	if p != nil {
		p.Recognise(&b)
	}
	return saveHung(c, b, fmt.Sprintf("row %d", b.Row), row.Says)
}

// cutsUnder asks about a cut in a board that does not cover the thing: with a wrong row number, a buried hole
// would be taken for open.
func cutsUnder(c answer.Ctx, on place.Surface, cut []string, pieces []place.Rect, rows string, with func([]string) grammar.Entry) *answer.Reply {
	for i, name := range cut {
		th := c.Room.Thing(name)
		v, _ := th.Now()
		if at := th.At(); v.Surface != on || !over(pieces)(at) {
			is := map[bool]string{true: "are", false: "is"}[strings.HasPrefix(rows, "rows ")]
			return answer.Stop(answer.Ask(fmt.Sprintf("not saved: %s is at %s, not under %s. %s the %s up without it?", name, c.Coords(v.Surface, at), rows, strings.ToUpper(is[:1])+is[1:], strings.Fields(rows)[0]), "",
				c.As(fmt.Sprintf("%s %s up, and %s is not cut there", rows, is, name), with(slices.Concat(cut[:i], cut[i+1:]))), grammar.Choice{Label: "no, not " + rows}))
		}
	}
	return nil
}

// over reports whether a place lies under one of the pieces.
func over(pieces []place.Rect) func(place.Point) bool {
	return func(at place.Point) bool {
		return slices.ContainsFunc(pieces, func(q place.Rect) bool { return q.Has(at) })
	}
}

// cutNames finds the things opened as the board hung on a surface; all of a kind are those under it. with returns
// the entry with other names.
func cutNames(c answer.Ctx, on place.Surface, names []string, under func(place.Point) bool, with func([]string) grammar.Entry) ([]string, *answer.Reply) {
	var out []string
	for i, name := range names {
		instead := func(of []string) grammar.Entry { return with(slices.Concat(names[:i], of, names[i+1:])) }
		if of, all := ofSeveral(name); all {
			found := of.under(c, on, under)
			few := len(found) == 0 && !strings.HasPrefix(of.what, "thing") && !c.Line.Sure || of.n > 0 && of.n != len(found)
			found, stop := of.without(c, found, instead)
			if stop == nil && few {
				stop = answer.Stop(notAsMany(c, name, of.n, found, instead))
			}
			if stop != nil {
				return nil, stop
			}
			out = append(out, found...)
			continue
		}
		all := c.Named(name)
		here := slices.DeleteFunc(slices.Clone(all), func(th *site.ThingState) bool {
			v, _ := th.Now()
			return th.Room != c.Room || v.Surface != on
		})
		if of := slices.DeleteFunc(slices.Clone(here), func(th *site.ThingState) bool { return !under(th.At()) }); len(of) == 1 {
			here = of
		}
		if len(here) == 1 { // the one box in that wall
			out = append(out, here[0].Name)
			continue
		}
		none := !slices.ContainsFunc(all, func(th *site.ThingState) bool { return th.Room == c.Room })
		if none && len(all) != 1 && name != record.It {
			return nil, answer.Stop(notAsMany(c, name, 0, nil, instead))
		}
		th, stop := c.OneThing(name, func(n string) grammar.Entry { return instead([]string{n}) })
		if stop != nil {
			return nil, stop
		}
		if th.Room != c.Room {
			return nil, answer.Stop(answer.No(fmt.Sprintf("%s is in %s", th.Name, th.Room.Name), ""))
		}
		out = append(out, th.Name)
	}
	return out, nil
}

// saveHung saves pieces, and says what they cover and how to screw them.
func saveHung(c answer.Ctx, b event.Hung, what, says string) answer.Reply {
	bare := uncovered(c, b.Surface)
	first := len(c.Room.Pieces(b.Surface)) == 0
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		covers := []string{}
		for _, th := range bare {
			if st, over := th.Stands(); st == site.Covered && over.Entry == en {
				covers = append(covers, th.Name)
			}
		}
		facts := hungFacts{Surface: string(b.Surface), Row: b.Row, Pieces: []pieceFacts{}, Covers: covers}
		var sizes []string
		for _, q := range standing(c, en) {
			a, z := q.Rect.Span(b.Surface.Lie(b.Run))
			size := z - a
			if q.Size > 0 {
				size = q.Size
			}
			sizes = append(sizes, c.Len(size))
			facts.Pieces = append(facts.Pieces, pieceFacts{
				ID: fmt.Sprintf("r%d.%d", b.Row, q.N), X0: c.Fact(q.Rect.X0), Y0: c.Fact(q.Rect.Y0), X1: c.Fact(q.Rect.X1), Y1: c.Fact(q.Rect.Y1),
				Cut: c.Fact(size),
			})
		}
		text := c.Where(b.Surface)
		switch {
		case b.All && b.Surface == place.Ceiling:
			text += " ceiling up"
		case b.All:
			text += " up"
		default:
			text += fmt.Sprintf(" %s up: %s, %s, boards %s", what, strings.Join(sizes, " + "), says, say.BoardsRun(b.Surface, b.Run))
		}
		if b.Row > 0 {
			if left, _ := rows.Left(c.Room, b.Surface, b.Row); left > 0 {
				text += fmt.Sprintf("; %s of the row left", c.Near(left))
			}
		}
		if len(b.Cut) > 0 {
			text += "; cut: " + strings.Join(b.Cut, ", ")
		}
		screws := screwsFor(c, b, &facts)
		r := c.Noted(en, "hung", facts, text)
		if len(covers) > 0 {
			r.Note("covered", "covers, not cut: "+strings.Join(covers, ", "))
		}
		if screws != "" {
			r.Line(screws)
		}
		if board, _ := c.Room.BoardFor(b.Surface); c.Units == length.Metric && board.Wide == 48*length.Inch && !b.All && len(c.Room.Pieces(b.Surface)) == len(b.Pieces) {
			r.Line(fmt.Sprintf("rows of %s boards, as nobody said how wide: `board 1200 wide` if they are", c.Len(board.Wide)))
		}
		for _, name := range covers {
			th := c.Room.Thing(name)
			panel, all := ready.PanelOver(c, th)
			switch {
			case !ready.MustStay(c, th):
			case !all:
				r.Note("check", fmt.Sprintf("%s has to stay reachable and is behind the board now: plan a panel", name))
			default:
				if st, _ := panel.Stands(); st == site.Covered {
					r.Note("check", fmt.Sprintf("%s has to stay reachable: cut %s, it is over it", name, panel.Name))
				}
			}
		}
		looseButts(c, &r, b)
		onSeams(c, &r, b)
		overRuns(c, &r, b)
		if first {
			ready.Warn(c, &r)
			r.Note("caution", answer.CautionScrew)
		}
		return r
	})
}

// overRuns warns of runs behind the new pieces that the screws can reach.
func overRuns(c answer.Ctx, r *answer.Reply, b event.Hung) {
	q := behind.Of(c, b.Surface, 0)
	if len(q.Routes) == 0 {
		return
	}
	a := reach.Check(q.Query)
	under := a
	under.Crossings = nil
	for _, x := range a.Crossings {
		if b.All || slices.ContainsFunc(b.Pieces, func(q place.Rect) bool { return q.Has(x.At) }) {
			under.Crossings = append(under.Crossings, x)
		}
	}
	behind.ScrewHits(c, r, q, under, func(string) bool { return true })
}

// uncovered returns the things on surface s that are not covered.
func uncovered(c answer.Ctx, s place.Surface) []*site.ThingState {
	var out []*site.ThingState
	for _, th := range c.Room.Things {
		if v, e := th.Now(); e != nil && v.Surface == s {
			if st, _ := th.Stands(); st != site.Covered {
				out = append(out, th)
			}
		}
	}
	return out
}

// standing returns the pieces that entry en hung.
func standing(c answer.Ctx, en *site.Entry) []frame.Piece {
	b := en.Body.(event.Hung)
	if b.All {
		return nil
	}
	var out []frame.Piece
	for _, p := range c.Room.Pieces(b.Surface) {
		if p.Entry == en {
			out = append(out, p)
		}
	}
	return out
}

// screwsFor counts the screws of the new pieces and gives their length.
func screwsFor(c answer.Ctx, b event.Hung, facts *hungFacts) string {
	set := c.Room.Bearing(b.Surface)
	if len(set) == 0 || b.All {
		return ""
	}
	board, said := c.Room.BoardFor(b.Surface)
	where := behind.WhereFixed(c, b.Surface, set)
	where.Across = b.Run != set[0].Run
	rule, _ := fasten.RuleFor(where)
	total := 0
	for i, q := range b.Pieces {
		n := fasten.ForPiece(fasten.Piece{X: q.X0, Y: q.Y0, W: q.X1 - q.X0, H: q.Y1 - q.Y0}, set, rule)
		total += n.Screws()
		facts.Pieces[i].Held = len(n.Rows)
	}
	screw := behind.ScrewFor(c, where, set[0])
	l := c.Fact(screw.Length)
	facts.Screws, facts.Screw = total, &l
	text := fmt.Sprintf("screws: about %d, %s", total, c.Len(screw.Length))
	if !said {
		text += fmt.Sprintf(" for %s board (assumed)", c.Len(board.Thick))
	}
	if !screw.Holds() {
		text += fmt.Sprintf("; bites only %s, %s is needed", c.Len(screw.Bite), c.Len(screw.Need))
	}
	return text
}

// begunAt asks where rows are that were begun at the wall across from the one that the rows count from. next is the
// entry without that wall, here what it means if the count stays.
func begunAt(c answer.Ctx, at place.Wall, s place.Surface, run place.Direction, why, here string, next grammar.Entry) *answer.Reply {
	from := c.Room.RowsFrom(s, run)
	if at == "" || from == "" || at == from {
		return nil
	}
	why = fmt.Sprintf("begun at %s, and the rows count from %s here: %s", at, from, why)
	turned, lines := "", []grammar.Line(nil)
	if at != from.Opposite() {
		across := s.DirectionOf(s.Lie(run).Other())
		turned = fmt.Sprintf("boards run %s, ", say.Direction(across))
		here = fmt.Sprintf("boards run %s, rows count from %s", say.Direction(run), from)
		from = s.Start(s.Lie(run))
		lines = append(lines, c.LineOf(boards.BoardsRun{Dir: string(across), Surface: answer.SaidOn(s)}))
	}
	if at != from {
		lines = append(lines, c.LineOf(boards.RowsFrom{Wall: at, Surface: answer.SaidOn(s)}))
	}
	asSaid := grammar.Choice{Label: turned + "rows count from " + string(at), Lines: append(lines, c.LineOf(next))}
	choices := []grammar.Choice{asSaid, c.As(here, next)}
	if slices.ContainsFunc(c.Room.Pieces(s), func(p frame.Piece) bool { return p.Row > 0 }) {
		choices = choices[1:]
	}
	return answer.Stop(answer.Ask(why, "", choices...))
}

// cutFrom asks whether a row hangs as planned if it was cut from other boards.
func cutFrom(c answer.Ctx, p *inforce.Plan, e hanging.Hung) *answer.Reply {
	if len(e.Used) == 0 || c.Line.Sure {
		return nil
	}
	var b event.Hung
	for _, pc := range p.Rows[e.Row-1].Pieces {
		if !p.Hung[pc.ID] {
			p.Take(&b, pc.ID)
		}
	}
	planned := slices.DeleteFunc(b.Used, event.Boards.Offcut)
	var said []event.Boards
	for _, u := range answer.Logged(e.Used) {
		u.Thick, u.Type = 0, ""
		said = event.AddBoards(said, u)
	}
	same := len(said) == len(planned)
	var from []string
	for _, u := range planned {
		same = same && slices.Contains(said, u)
		from = append(from, fmt.Sprintf("%d x %s", u.N, c.Board(u.L)))
	}
	if same {
		return nil
	}
	next := e
	if next.Used = nil; from == nil {
		from = []string{"offcuts"}
	}
	sizes := strings.Join(say.Each(p.Rows[e.Row-1].Pieces, func(pc layout.Piece) string { return length.Canon(pc.Cut) }), " + ")
	return answer.Stop(answer.Ask(fmt.Sprintf("row %d is planned from %s: do its pieces hang as planned?", e.Row, strings.Join(from, " and ")), "",
		c.As("as planned", next), grammar.Choice{Label: fmt.Sprintf("no: send its pieces, e.g. `hung %s row %d`", sizes, e.Row)}))
}

// upAll notes that a whole surface is up.
func upAll(c answer.Ctx, e boards.UpAll) answer.Reply {
	s := answer.SurfaceOf(e.Surface)
	run, _ := c.Room.BoardsRun(s)
	b := event.Hung{Room: c.Room.Name, Surface: s, Run: run, All: true}
	p, stop := c.InForce(s)
	if stop != nil {
		return *stop
	}
	if p != nil {
		p.TakeAll(&b)
	}
	if e.Used != nil {
		b.Used, b.Left = answer.Logged(e.Used), nil
	}
	if b.Cut, stop = cutNames(c, s, e.Cut, func(place.Point) bool { return true }, func(names []string) grammar.Entry { next := e; next.Cut = names; return next }); stop != nil {
		return *stop
	}
	return saveHung(c, b, "", "").After(func(r answer.Reply) answer.Reply {
		if e.Used != nil {
			r.Line(strings.Join(say.Each(answer.Logged(e.Used), c.BoardsText), ", ") + " used")
		}
		if said, _ := c.Room.WallSaid(s); s.FromFloor() && !said.Finished && c.Room.BoardOn(s, site.EndOfTime) == 0 {
			r.Note("check", fmt.Sprintf("distances off it still start at the studs until you say `%s boarded %s`", s.Name(), boardOn(c, s)))
		}
		return r
	})
}

// boardOn is the thickness of the board of a surface, as typed.
func boardOn(c answer.Ctx, s place.Surface) string {
	b, _ := c.Room.BoardFor(s)
	return strings.TrimSuffix(length.Canon(b.Thick), `"`)
}

// boarded notes the board on a wall.
func boarded(c answer.Ctx, e boards.Boarded) answer.Reply {
	thick := e.Thick.L
	if thick == 0 && !e.Finished {
		b, _ := c.Room.BoardFor(e.Surface)
		thick = b.Thick
	}
	if thick > 3*length.Inch {
		return answer.Ask(fmt.Sprintf("%s of board on a wall? send it again, e.g. `%s boarded 1/2`", c.Len(thick), e.Surface.Name()), "")
	}
	was, en := c.Room.WallSaid(e.Surface)
	if en != nil && was.Finished != e.Finished {
		state := fmt.Sprintf("boarded %s", c.Thick(was.Thick))
		if was.Finished {
			state = "finished, so that it never moves"
		}
		return answer.No(fmt.Sprintf("the %s is noted %s (%s); strike that first if it is wrong", e.Surface.Name(), state, c.ByWhen(en)), fmt.Sprintf("strike %d", en.Seq))
	}
	text := fmt.Sprintf("%s %s is finished and stays where it is", c.Room.Name, e.Surface.Name())
	if !e.Finished {
		before := ""
		if en != nil && was.Thick != thick {
			before = fmt.Sprintf(" (was %s)", c.Thick(was.Thick))
		}
		text = fmt.Sprintf("%s %s boarded %s%s; from now on distances off it start at the board face", c.Room.Name, e.Surface.Name(), c.Thick(thick), before)
	}
	return c.Keep(event.Boarded{Room: c.Room.Name, Wall: place.Wall(e.Surface), Thick: thick, Finished: e.Finished}, "boarded", text)
}
