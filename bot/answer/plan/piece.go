package plan

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/rows"
	"strapline/bot/say"
	"strapline/calc/inforce"
	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/boards"
)

type (
	askedPiece struct {
		planPiece
		Rip    *say.Len `json:"rip,omitempty"`
		Board  *say.Len `json:"board,omitempty"` // the board or offcut it comes out of; none if it is up
		Offcut bool     `json:"offcut,omitempty"`
	}
	askedPieces struct {
		Row    int          `json:"row"`
		Pieces []askedPiece `json:"pieces"`
	}
	restRoom struct {
		Room    string   `json:"room"`
		Surface string   `json:"surface"`
		Rows    []int    `json:"rows"`             // none of their pieces is up
		Pieces  []string `json:"pieces,omitempty"` // planned pieces of other rows that are not up
	}
	restFacts struct {
		Rooms []restRoom `json:"rooms"`
	}
)

// pieceOver tells the plan for the piece that hides a thing; of a thing over a joint, for each of them.
func pieceOver(c answer.Ctx, e boards.Planned) answer.Reply {
	th, stop := c.OneThing(e.Over, func(n string) grammar.Entry { return boards.Planned{Over: n} })
	if stop != nil {
		return *stop
	}
	c = c.In(th.Room)
	v, _ := th.Now()
	p, stop := c.Plan(v.Surface)
	if stop != nil && stop.Refuse != nil && !stop.Over && v.Framed && v.Surface.Upright() {
		return aroundIt(c, th, stop.Refuse.Want)
	}
	if stop != nil {
		return *stop
	}
	hole := v.Size.At(th.At())
	if hole.X0 == hole.X1 {
		hole = place.Rect{X0: hole.X0, X1: hole.X0 + 1, Y0: hole.Y0, Y1: hole.Y0 + 1}
	}
	var all []answer.Reply
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			if p.Rect(pc).Meets(hole) {
				all = append(all, plannedPiece(c, boards.Planned{ID: pc.ID, Surface: v.Surface}))
			}
		}
	}
	if len(all) == 0 {
		return answer.Nothing(fmt.Sprintf("no piece of the layout of %s lies over %s", c.Where(v.Surface), th.Name), answer.LayoutOf(v.Surface, 0))
	}
	return answer.Join(all)
}

// aroundIt gives the wall that is left around an opening by the framing, for a wall that has no layout.
func aroundIt(c answer.Ctx, th *site.ThingState, why string) answer.Reply {
	v, _ := th.Now()
	hole := v.Size.At(th.At())
	x, y := c.Room.Shell().Extent(v.Surface)
	parts := []string{c.Near(hole.Y0) + " below"}
	if y > 0 {
		parts = append([]string{c.Near(y-hole.Y1) + " above"}, parts...)
	}
	start := v.Surface.Start(place.X)
	parts = append(parts, fmt.Sprintf("%s to the %s, %s to the %s", c.Near(hole.X0), start, c.Near(x-hole.X1), start.Opposite()))
	return answer.Tell("piece", nil, fmt.Sprintf("%s %s: %s, to the framing, no gap taken off; no layout: %s", c.Where(v.Surface), th.Name, strings.Join(parts, ", "), why))
}

// taper is in a question for what a row loses from one end to the other.
var taper = regexp.MustCompile(`(?i)\btaper`)

// plannedPiece tells the plan for a piece or a row: what to cut, where it goes, which boards it comes out
// of, whether it is up.
func plannedPiece(c answer.Ctx, e boards.Planned) answer.Reply {
	if e.Over != "" {
		return pieceOver(c, e)
	}
	p, stop := c.Plan(e.Surface)
	if stop != nil {
		return orBySize(c, e.Surface, stop)
	}
	if e.ID == boards.Bottom {
		e.ID = fmt.Sprintf("r%d", len(p.Rows))
	}
	said, _, one := strings.Cut(strings.TrimPrefix(e.ID, "r"), ".")
	n, err := strconv.Atoi(said)
	if err != nil || n < 1 || n > len(p.Rows) {
		return c.NoRow(p, said)
	}
	row, planned := p.Rows[n-1], factsOf(c, p).Rows[n-1].Pieces
	name := fmt.Sprintf("row %d", n)
	if one {
		i := slices.IndexFunc(row.Pieces, func(pc layout.Piece) bool { return pc.ID == e.ID })
		if i < 0 {
			return answer.Nothing(fmt.Sprintf("row %d has %d %s, there is no %s", n, len(row.Pieces), say.Plural(len(row.Pieces), "piece"), e.ID), fmt.Sprintf("whats r%d", n))
		}
		name, planned = e.ID, planned[i:i+1]
		row.Pieces = row.Pieces[i : i+1]
		row.Rip, row.Width = row.Pieces[0].Rip, row.Pieces[0].Width
	}
	facts := askedPieces{Row: n}
	at := p.Rect(row.Pieces[0])
	var cuts, boards []string
	for i, pc := range row.Pieces {
		f := askedPiece{planPiece: planned[i]}
		if pc.Rip {
			rip := c.Fact(pc.Width)
			f.Rip = &rip
		}
		cut := lies(p).Cut(pc, c.Len)
		for _, n := range pc.Notches {
			cut += fmt.Sprintf(" (cut out %s x %s)", c.Len(n.W), c.Len(n.H))
		}
		if p.Hung[pc.ID] {
			cut += " up"
		}
		cuts = append(cuts, cut)
		if b, ok := p.BoardOf(pc.ID); ok {
			board := c.Fact(b.Length)
			f.Board, f.Offcut = &board, b.Offcut
			from := strings.Join(inforce.PiecesOf(b), " + ") + " from a board of " + c.Board(b.Length)
			if b.Offcut {
				from = strings.Join(inforce.PiecesOf(b), " + ") + " from an offcut of " + c.Len(length.RoundDown(b.Length, c.Units))
			}
			if !slices.Contains(boards, from) {
				boards = append(boards, from)
			}
		}
		q := p.Rect(pc)
		at = place.Rect{X0: min(at.X0, q.X0), Y0: min(at.Y0, q.Y0), X1: max(at.X1, q.X1), Y1: max(at.Y1, q.Y1)}
		facts.Pieces = append(facts.Pieces, f)
	}
	text := fmt.Sprintf("%s %s: %s", c.Where(p.Surface), name, strings.Join(cuts, " + "))
	if row.Rip {
		text += ", rip " + lies(p).RowRip(row, c.Len)
	}
	if taper.MatchString(c.Words) && !p.In.Leans() {
		text += "; no taper: no wall is noted out of square"
	}
	if two := lies(p).Two([]layout.Row{row}); two != "" && p.In.Leans() {
		text += "\n" + two
	}
	from, y0 := "off north", p.Dy
	if p.Surface.Upright() {
		from, y0 = "up", 0
	}
	text += fmt.Sprintf("\nlies %s to %s off %s, %s to %s %s", c.Near(at.X0-p.Dx), c.Near(at.X1-p.Dx), p.Surface.Start(place.X), c.Near(at.Y0-y0), c.Near(at.Y1-y0), from)
	return answer.Tell("piece", facts, strings.Join(append([]string{text}, boards...), "; "))
}

// toHang tells what does not hang yet: of the layout if one is in force, or else the rows that nobody has
// reported.
func toHang(c answer.Ctx, _ boards.Rest) answer.Reply {
	facts := restFacts{Rooms: []restRoom{}}
	var lines []string
	for _, r := range c.SpeakOf() {
		for _, on := range r.Shell().Surfaces() {
			if on != place.Ceiling && len(r.Pieces(on)) == 0 && r.Planned(on) == 0 {
				continue // no notes about it
			}
			f := restRoom{Room: r.Name, Surface: string(on), Rows: []int{}}
			line := ""
			p, stop := c.In(r).InForce(on)
			if stop != nil {
				return *stop
			}
			if p != nil {
				f.Rows, f.Pieces = p.Rest()
				line = restText(f)
			} else if line = rows.NotUp(c, r, on); line == "" && len(r.Pieces(on)) == 0 {
				line = "nothing reported hung"
			}
			line = cmp.Or(line, "the "+on.Name()+" is up")
			facts.Rooms = append(facts.Rooms, f)
			lines = append(lines, say.Where(r.Name, on)+": "+line)
		}
	}
	if len(lines) == 0 {
		lines = append(lines, "no rooms yet: `room kitchen 13' 4 x 11' 9`")
	}
	return answer.Tell("rest", facts, strings.Join(say.MostLines(lines, "name a room"), "\n"))
}

func restText(f restRoom) string {
	var parts []string
	if len(f.Rows) > 0 {
		parts = append(parts, say.Plural(len(f.Rows), "row")+" "+say.Ranges(f.Rows))
	}
	if parts = append(parts, f.Pieces...); len(parts) == 0 {
		return ""
	}
	return strings.Join(parts, ", ") + " still to hang"
}
