package plan

import (
	"fmt"
	"regexp"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/inforce"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/grammar/boards"
)

type (
	cutStrip struct {
		Width  say.Len  `json:"width"`
		Pieces []string `json:"pieces"`
		Left   say.Len  `json:"left"`
	}
	cutBoard struct {
		Surface string     `json:"surface"`
		Offcut  bool       `json:"offcut,omitempty"` // of a board already cut into
		Length  say.Len    `json:"length"`
		Strips  []cutStrip `json:"strips"`
	}
	cutsFacts struct {
		Boards []cutBoard `json:"boards"`
	}
)

// cuts is the list for the saw: surface by surface and board by board, what is still to be cut.
func cuts(c answer.Ctx, e boards.Cuts) answer.Reply {
	facts := cutsFacts{Boards: []cutBoard{}}
	var lines []string
	for _, on := range c.Planes(e.Surface) {
		p, stop := c.Plan(on)
		if stop != nil {
			return orBySize(c, on, stop)
		}
		if notch.MatchString(c.Words) {
			lines = append(lines, notched(c, p))
		}
		lines = append(lines, cutList(c, p, &facts)...)
	}
	return answer.Tell("cuts", facts, strings.Join(say.MostLines(lines, "ask for a row: `whats r9`"), "\n"))
}

// notch is in a question for the pieces that are cut out.
var notch = regexp.MustCompile(`(?i)\bnotch`)

// notched names the pieces of a plan that have a notch.
func notched(c answer.Ctx, p *inforce.Plan) string {
	var ids []string
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			if len(pc.Notches) > 0 {
				ids = append(ids, pc.ID)
			}
		}
	}
	if len(ids) == 0 {
		return c.Where(p.Surface) + ": by the plan no piece has a notch"
	}
	return fmt.Sprintf("%s: notched %s %s", c.Where(p.Surface), say.Plural(len(ids), "is"), strings.Join(ids, ", "))
}

// cutList returns what is still to be cut of one plan. Boards cut alike share a line.
func cutList(c answer.Ctx, p *inforce.Plan, facts *cutsFacts) []string {
	var order []string
	boards := map[string][]string{} // by how they are cut, the pieces of each board
	whole := 0
	for _, from := range p.ToCut() {
		b := cutBoard{Surface: string(p.Surface), Length: c.Fact(from.Length), Offcut: from.Offcut}
		for _, s := range from.Strips {
			b.Strips = append(b.Strips, cutStrip{c.Fact(s.Width), s.Pieces, c.Fact(s.Left)})
		}
		facts.Boards = append(facts.Boards, b)
		if !from.Offcut {
			whole++
		}
		line, ids := cutLine(c, p, from)
		if boards[line] == nil {
			order = append(order, line)
		}
		boards[line] = append(boards[line], ids)
	}
	if len(order) == 0 {
		return []string{c.Where(p.Surface) + ": nothing left to cut"}
	}
	lines := []string{fmt.Sprintf("%s cut list, %d %s", c.Where(p.Surface), whole, say.Plural(whole, "board"))}
	if two := lies(p).Two(p.Rows); two != "" && p.In.Leans() {
		lines = append(lines, two)
	}
	for _, l := range order {
		size, cut, _ := strings.Cut(l, " ")
		lines = append(lines, fmt.Sprintf("%d x %s for %s: %s", len(boards[l]), strings.ReplaceAll(size, "\u00a0", " "), strings.Join(boards[l], ", "), cut))
	}
	return lines
}

// cutLine says how one board is cut, and into which pieces: sizes in cutting order, rips, notches, and
// what is left.
func cutLine(c answer.Ctx, p *inforce.Plan, b layout.Cut) (line, ids string) {
	sizes := map[string]layout.Piece{}
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			sizes[pc.ID] = pc
		}
	}
	var strips, all []string
	for _, s := range b.Strips {
		var cuts []string
		for _, id := range s.Pieces {
			all = append(all, id)
			pc := sizes[id]
			text := lies(p).Cut(pc, c.Len)
			if pc.Rip {
				text += " ripped to " + lies(p).Rip(pc, c.Len)
			}
			for _, n := range pc.Notches {
				text += fmt.Sprintf(", cut out %s x %s", c.Len(n.W), c.Len(n.H))
			}
			cuts = append(cuts, text)
		}
		text := strings.Join(cuts, ", then ")
		if len(b.Strips) > 1 {
			text = fmt.Sprintf("strip of %s: %s", c.Len(s.Width), text)
		}
		switch {
		case s.Keep:
			text += fmt.Sprintf(", keep %s", c.Len(length.RoundDown(s.Left, c.Units)))
		case s.Left > 0:
			text += fmt.Sprintf(", %s over", c.Len(length.RoundDown(s.Left, c.Units)))
		}
		strips = append(strips, text)
	}
	size := c.Board(b.Length)
	if b.Offcut {
		size = "offcut of " + c.Len(length.RoundDown(b.Length, c.Units))
	}
	size = strings.ReplaceAll(size, " ", "\u00a0") // keep it in one word
	return size + " " + strings.Join(strips, "; "), strings.Join(all, " + ")
}
