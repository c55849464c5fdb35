package bot

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

// hungPlan hangs planned pieces by their ids, or whole rows.
func (t *turn) hungPlan(e grammar.HungPlan) {
	ans := t.ans
	p := t.plan()
	if p == nil {
		if rows := wholeRows(e.IDs); rows != nil && t.err == nil && t.room != nil {
			t.ans = ans
			t.hungRows(rows, e.Cut)
		}
		return
	}
	rows, ok := t.piecesNamed(p, e.IDs)
	if !ok {
		return
	}
	cut, ok := t.cutNames(e.Cut, func(names []string) grammar.Entry { next := e; next.Cut = names; return next })
	if !ok {
		return
	}
	if t.room.Pick() == 0 && t.save(site.PlanPick{Room: t.room.Name, Pick: 1}) == nil {
		return
	}
	var replies []string
	for i, r := range p.Rows {
		var b site.Hung
		what := fmt.Sprintf("row %d", i+1)
		if slices.ContainsFunc(rows[i], func(id string) bool { return slices.Contains(e.IDs, id) }) {
			what = strings.Join(rows[i], " + ")
		}
		for n, pc := range r.Pieces {
			if slices.Contains(rows[i], pc.ID) {
				b.N = append(b.N, n+1)
				b.Pieces = append(b.Pieces, p.rect(pc))
				b.Sizes = append(b.Sizes, pc.Cut)
				p.take(&b, pc.ID)
			}
		}
		if len(b.Pieces) == 0 {
			continue
		}
		b.Room, b.Surface, b.Row, b.Run = t.room.Name, place.Ceiling, i+1, p.run
		cut = slices.DeleteFunc(cut, func(name string) bool {
			at := t.room.Thing(name).At()
			under := slices.ContainsFunc(b.Pieces, func(q place.Rect) bool { return q.Has(at) })
			if under {
				b.Cut = append(b.Cut, name)
			}
			return under
		})
		t.saveHung(b, what, "as planned")
		if t.err != nil {
			return
		}
		replies = append(replies, t.ans.Reply)
	}
	t.ans.Reply = strings.Join(replies, "\n")
	if len(cut) > 0 {
		t.note("check", "not under these pieces, so not marked cut: "+strings.Join(cut, ", "))
	}
}

// wholeRows are the numbers of the rows named, nil when pieces are named too.
func wholeRows(ids []string) (rows []int) {
	for _, id := range ids {
		n, err := strconv.Atoi(strings.TrimPrefix(id, "r"))
		if err != nil {
			return nil
		}
		rows = append(rows, n)
	}
	return rows
}

// hungRows hangs whole rows where nothing can be planned.
func (t *turn) hungRows(rows []int, cut []string) {
	if _, known := t.room.BoardsRun(place.Ceiling); !known {
		var choices []choice
		for _, r := range []place.Run{place.EW, place.NS} {
			all := choice{Label: runWords(r)}
			for _, n := range rows {
				all.Text += t.as("", grammar.Hung{Row: n, Cut: cut, Run: r}).Text + "\n"
			}
			choices = append(choices, all)
		}
		t.ask("no straps are noted here: which way do the boards run?", "", choices...)
		return
	}
	var replies []string
	for _, n := range rows {
		if t.hung(grammar.Hung{Row: n, Cut: cut}); t.ans.Reply != "" {
			replies = append(replies, t.ans.Reply)
		}
		if t.err != nil || t.ans.asks() || t.ans.Error != nil {
			break
		}
	}
	t.ans.Reply = strings.Join(replies, "\n")
}

// take hangs planned piece id, and puts into b the board or offcut that it is cut from and the offcuts that are over: the whole board
// when it is the first of it, else what was left of its strip.
func (p *plan) take(b *site.Hung, id string) {
	cut := map[string]length.Length{}
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			cut[pc.ID] = pc.Cut
		}
	}
	for _, c := range p.Cuts {
		if !slices.Contains(idsOf(c), id) {
			continue
		}
		offcut := func(s layout.Strip) site.Boards {
			o := site.Boards{N: 1, L: c.Length, W: s.Width}
			for _, id := range s.Pieces {
				if p.hung[id] {
					o.L -= cut[id]
				}
			}
			return o
		}
		begun := slices.ContainsFunc(idsOf(c), func(id string) bool { return p.hung[id] })
		if !begun {
			used := site.Boards{N: 1, L: c.Length}
			if c.Offcut {
				used.W = c.Width
			}
			b.Used = site.Add(b.Used, used)
		}
		for _, s := range c.Strips {
			mine := slices.Contains(s.Pieces, id)
			if begun && !mine {
				continue
			}
			before := offcut(s)
			if begun && before.L >= length.Foot {
				b.Used = site.Add(b.Used, before)
			}
			if mine {
				before.L -= cut[id]
			}
			if before.L >= length.Foot { // shorter is scrap
				b.Left = site.Add(b.Left, before)
			}
		}
		p.hung[id] = true
	}
}

func idsOf(c layout.Cut) []string {
	var ids []string
	for _, s := range c.Strips {
		ids = append(ids, s.Pieces...)
	}
	return ids
}

// piecesNamed sorts ids into the rows of the plan.
func (t *turn) piecesNamed(p *plan, ids []string) (map[int][]string, bool) {
	rows := map[int][]string{}
	for _, id := range ids {
		rowText, _, one := strings.Cut(strings.TrimPrefix(id, "r"), ".")
		n, err := strconv.Atoi(rowText)
		if err != nil || n < 1 || n > len(p.Rows) {
			t.no(fmt.Sprintf("the layout of %s has %d rows, there is no %s", t.room.Name, len(p.Rows), id), "layout")
			return nil, false
		}
		found := false
		for _, pc := range p.Rows[n-1].Pieces {
			if one && pc.ID != id {
				continue
			}
			found = true
			if slices.Contains(rows[n-1], pc.ID) {
				continue // named twice
			}
			if p.hung[pc.ID] {
				if one {
					t.no(id+" is up already", "layout")
					return nil, false
				}
				continue
			}
			rows[n-1] = append(rows[n-1], pc.ID)
		}
		if !found {
			t.no(fmt.Sprintf("row %d has %d pieces, there is no %s", n, len(p.Rows[n-1].Pieces), id), "layout")
			return nil, false
		}
		if len(rows[n-1]) == 0 {
			t.no(fmt.Sprintf("row %d is up already", n), "layout")
			return nil, false
		}
	}
	return rows, true
}

type (
	cutStrip struct {
		Width  Len      `json:"width"`
		Pieces []string `json:"pieces"`
		Left   Len      `json:"left"`
	}
	cutBoard struct {
		Offcut bool       `json:"offcut,omitempty"` // of a board that was begun
		Length Len        `json:"length"`
		Strips []cutStrip `json:"strips"`
	}
	cutsFacts struct {
		Boards []cutBoard `json:"boards"`
	}
)

// cuts is the list for the saw person: board by board what is still to be cut.
func (t *turn) cuts() {
	p := t.plan()
	if p == nil {
		return
	}
	u := t.units()
	facts := cutsFacts{Boards: []cutBoard{}}
	var order []string
	boards := map[string][]string{} // cut alike -> the pieces of each
	whole := 0
	for _, c := range p.toCut() {
		b := cutBoard{Length: fact(u, c.Length), Offcut: c.Offcut}
		for _, s := range c.Strips {
			b.Strips = append(b.Strips, cutStrip{fact(u, s.Width), s.Pieces, fact(u, s.Left)})
		}
		facts.Boards = append(facts.Boards, b)
		if !c.Offcut {
			whole++
		}
		line, ids := t.cutLine(p, c)
		if boards[line] == nil {
			order = append(order, line)
		}
		boards[line] = append(boards[line], ids)
	}
	if len(order) == 0 {
		t.tell("cuts", facts, t.room.Name+": nothing left to cut")
		return
	}
	lines := []string{fmt.Sprintf("%s cut list, %d %s", t.room.Name, whole, plural(whole, "board"))}
	for _, l := range order {
		size, cut, _ := strings.Cut(l, " ")
		lines = append(lines, fmt.Sprintf("%d x %s for %s: %s", len(boards[l]), strings.ReplaceAll(size, "\u00a0", " "), strings.Join(boards[l], ", "), cut))
	}
	t.tell("cuts", facts, strings.Join(lines, "\n"))
}

// toCut are the boards and offcuts that pieces are still to be cut from; a board that was begun is the offcuts left of it.
func (p *plan) toCut() (out []layout.Cut) {
	sizes := map[string]length.Length{}
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			sizes[pc.ID] = pc.Cut
		}
	}
	for _, c := range p.Cuts {
		if !slices.ContainsFunc(idsOf(c), func(id string) bool { return p.hung[id] }) {
			out = append(out, c)
			continue
		}
		for _, s := range c.Strips {
			rest := layout.Strip{Width: s.Width, Left: s.Left, Keep: s.Keep}
			from := layout.Cut{Width: s.Width, Length: s.Left, Offcut: true}
			for _, id := range s.Pieces {
				if !p.hung[id] {
					rest.Pieces = append(rest.Pieces, id)
					from.Length += sizes[id]
				}
			}
			if rest.Pieces != nil {
				from.Strips = []layout.Strip{rest}
				out = append(out, from)
			}
		}
	}
	return out
}

// cutLine says how one board is cut, and which pieces it gives: sizes in cutting
// order, rips, what is cut out, and what is over.
func (t *turn) cutLine(p *plan, c layout.Cut) (line, ids string) {
	sizes := map[string]layout.Piece{}
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			sizes[pc.ID] = pc
		}
	}
	var strips, all []string
	for _, s := range c.Strips {
		var cuts []string
		for _, id := range s.Pieces {
			all = append(all, id)
			pc := sizes[id]
			text := t.f(pc.Cut)
			if pc.Rip {
				text += " ripped to " + t.f(pc.Width)
			}
			for _, n := range pc.Notches {
				text += fmt.Sprintf(", cut out %s x %s", t.f(n.W), t.f(n.H))
			}
			cuts = append(cuts, text)
		}
		text := strings.Join(cuts, ", then ")
		if len(c.Strips) > 1 {
			text = fmt.Sprintf("strip of %s: %s", t.f(s.Width), text)
		}
		switch {
		case s.Keep:
			text += fmt.Sprintf(", keep %s", t.f(length.RoundDown(s.Left, t.units())))
		case s.Left > 0:
			text += fmt.Sprintf(", %s over", t.f(length.RoundDown(s.Left, t.units())))
		}
		strips = append(strips, text)
	}
	size := t.stockLength(c.Length)
	if c.Offcut {
		size = "offcut of " + t.f(length.RoundDown(c.Length, t.units()))
	}
	size = strings.ReplaceAll(size, " ", "\u00a0") // kept in one word
	return size + " " + strings.Join(strips, "; "), strings.Join(all, " + ")
}

func (t *turn) longest(e grammar.Longest) {
	if e.L.L < 2*length.Foot || e.L.L > longestBoard {
		t.ask(fmt.Sprintf("%s as the longest board? send it again, e.g. `longest in 10'`", t.f(e.L.L)), "")
		return
	}
	if t.save(site.Longest{L: e.L.L}) != nil {
		t.noted("longest", nil, "nothing longer than "+t.f(e.L.L)+" gets in")
	}
}

func (t *turn) texture(e grammar.Texture) {
	if !t.needRoom() || t.save(site.Texture{Room: t.room.Name, On: e.On}) == nil {
		return
	}
	text := "no texture"
	if e.On {
		text = "a water-based texture"
	}
	t.noted("texture", nil, t.room.Name+": "+text+" on the ceiling")
}
