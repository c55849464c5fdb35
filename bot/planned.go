package bot

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar"
)

// hungPlan hangs planned pieces by their ids, or whole rows.
func (t *turn) hungPlan(e grammar.HungPlan) {
	p := t.plan()
	if p == nil {
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
	touched := map[string]bool{}
	for id := range p.hung {
		touched[id] = true
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
				b.Used = p.use(b.Used, pc.ID, touched)
			}
		}
		if len(b.Pieces) == 0 {
			continue
		}
		b.Room, b.Surface, b.Row, b.Run = t.room.Name, site.Ceiling, i+1, p.run
		cut = slices.DeleteFunc(cut, func(name string) bool {
			at := t.room.Thing(name).At()
			under := slices.ContainsFunc(b.Pieces, func(q site.Rect) bool { return q.Has(at) })
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

// use adds the board that piece id comes from, when it is the first of its
// board to hang.
func (p *plan) use(used []site.Boards, id string, touched map[string]bool) []site.Boards {
	touched[id] = true
	for _, c := range p.Cuts {
		of := idsOf(c)
		if !slices.Contains(of, id) || slices.ContainsFunc(of, func(o string) bool { return o != id && touched[o] }) {
			continue
		}
		for i := range used {
			if used[i].L == c.Length {
				used[i].N++
				return used
			}
		}
		return append(used, site.Boards{N: 1, L: c.Length})
	}
	return used
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
	for _, c := range p.Cuts {
		if !slices.ContainsFunc(idsOf(c), func(id string) bool { return !p.hung[id] }) {
			continue
		}
		b := cutBoard{Length: fact(u, c.Length)}
		for _, s := range c.Strips {
			b.Strips = append(b.Strips, cutStrip{fact(u, s.Width), s.Pieces, fact(u, s.Left)})
		}
		facts.Boards = append(facts.Boards, b)
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
	lines := []string{fmt.Sprintf("%s cut list, %d %s", t.room.Name, len(facts.Boards), plural(len(facts.Boards), "board"))}
	for _, l := range order {
		size, cut, _ := strings.Cut(l, " ")
		lines = append(lines, fmt.Sprintf("%d x %s for %s: %s", len(boards[l]), strings.ReplaceAll(size, "\u00a0", " "), strings.Join(boards[l], ", "), cut))
	}
	t.tell("cuts", facts, strings.Join(lines, "\n"))
}

// cutLine says how one board is cut, and which pieces it gives: sizes in cutting
// order, rips, what is cut out, and what is over. Pieces that are up are left out.
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
			if p.hung[id] {
				continue
			}
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
		if len(cuts) == 0 {
			continue
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
	size := strings.ReplaceAll(t.stockLength(c.Length), " ", "\u00a0") // kept in one word
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
