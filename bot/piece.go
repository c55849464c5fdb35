package bot

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"strapline/calc/layout"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
)

type (
	askedPiece struct {
		planPiece
		Rip    *Len `json:"rip,omitempty"`
		Board  *Len `json:"board,omitempty"` // the board or offcut it comes out of; none when it is up
		Offcut bool `json:"offcut,omitempty"`
	}
	askedPieces struct {
		Row    int          `json:"row"`
		Pieces []askedPiece `json:"pieces"`
	}
	restRoom struct {
		Room   string   `json:"room"`
		Rows   []int    `json:"rows"`             // nothing of them is up
		Pieces []string `json:"pieces,omitempty"` // planned pieces of other rows that are not up
	}
	restFacts struct {
		Rooms []restRoom `json:"rooms"`
	}
)

// plannedPiece says what is planned of a piece or a row: what to cut, where it
// lies, which boards it comes out of, whether it is up.
func (t *turn) plannedPiece(e grammar.Planned) {
	p := t.plan()
	if p == nil {
		return
	}
	said, _, one := strings.Cut(strings.TrimPrefix(e.ID, "r"), ".")
	n, err := strconv.Atoi(said)
	if err != nil || n < 1 || n > len(p.Rows) {
		t.noPiece(fmt.Sprintf("the layout of %s has %d %s, there is no row %s", t.room.Name, len(p.Rows), plural(len(p.Rows), "row"), said), "layout")
		return
	}
	row, planned := p.Rows[n-1], t.layoutFacts(p).Rows[n-1].Pieces
	name := fmt.Sprintf("row %d", n)
	if one {
		i := slices.IndexFunc(row.Pieces, func(pc layout.Piece) bool { return pc.ID == e.ID })
		if i < 0 {
			t.noPiece(fmt.Sprintf("row %d has %d %s, there is no %s", n, len(row.Pieces), plural(len(row.Pieces), "piece"), e.ID), fmt.Sprintf("whats r%d", n))
			return
		}
		name, planned = e.ID, planned[i:i+1]
		row.Pieces = row.Pieces[i : i+1]
		row.Rip, row.Width = row.Pieces[0].Rip, row.Pieces[0].Width
	}
	facts := askedPieces{Row: n}
	lies := p.rect(row.Pieces[0])
	var cuts, boards []string
	for i, pc := range row.Pieces {
		f := askedPiece{planPiece: planned[i]}
		if pc.Rip {
			rip := fact(t.units(), pc.Width)
			f.Rip = &rip
		}
		cut := t.f(pc.Cut)
		for _, c := range pc.Notches {
			cut += fmt.Sprintf(" (cut out %s x %s)", t.f(c.W), t.f(c.H))
		}
		if p.hung[pc.ID] {
			cut += " up"
		}
		cuts = append(cuts, cut)
		if c, ok := p.boardOf(pc.ID); ok {
			board := fact(t.units(), c.Length)
			f.Board, f.Offcut = &board, c.Offcut
			from := strings.Join(idsOf(c), " + ") + " from a board of " + t.stockLength(c.Length)
			if c.Offcut {
				from = strings.Join(idsOf(c), " + ") + " from an offcut of " + t.f(length.RoundDown(c.Length, t.units()))
			}
			if !slices.Contains(boards, from) {
				boards = append(boards, from)
			}
		}
		q := p.rect(pc)
		lies = place.Rect{X0: min(lies.X0, q.X0), Y0: min(lies.Y0, q.Y0), X1: max(lies.X1, q.X1), Y1: max(lies.Y1, q.Y1)}
		facts.Pieces = append(facts.Pieces, f)
	}
	text := fmt.Sprintf("%s %s: %s", t.room.Name, name, strings.Join(cuts, " + "))
	if row.Rip {
		text += ", rip " + t.f(row.Width)
	}
	text += fmt.Sprintf("\nlies %s to %s off west, %s to %s off north", t.near(lies.X0-p.dx), t.near(lies.X1-p.dx), t.near(lies.Y0-p.dy), t.near(lies.Y1-p.dy))
	t.tell("piece", facts, strings.Join(append([]string{text}, boards...), "; "))
}

// noPiece says that a question is about nothing planned.
func (t *turn) noPiece(why, hint string) {
	t.no(why, hint)
	t.ans.Reply = strings.TrimPrefix(t.ans.Reply, "not saved: ")
}

// boardOf is the board or the offcut that a piece which is not up comes out of.
func (p *plan) boardOf(id string) (layout.Cut, bool) {
	cuts := p.toCut()
	i := slices.IndexFunc(cuts, func(c layout.Cut) bool { return slices.Contains(idsOf(c), id) })
	if i < 0 {
		return layout.Cut{}, false
	}
	return cuts[i], true
}

// toHang says what does not hang yet: of the layout where one is in force, else
// the rows that nobody reported.
func (t *turn) toHang() {
	here := t.room
	facts := restFacts{Rooms: []restRoom{}}
	var lines []string
	for _, r := range t.speakOf() {
		t.room = r
		f := restRoom{Room: r.Name, Rows: []int{}}
		line := ""
		if p := t.planQuietly(); p != nil {
			f.Rows, f.Pieces = p.rest()
			line = restText(f)
		} else if line = strings.TrimPrefix(t.notUp(r), r.Name+": "); line == "" && len(r.Pieces(place.Ceiling)) == 0 {
			line = "nobody reported anything hung"
		}
		if line == "" {
			line = "the ceiling is up"
		}
		facts.Rooms = append(facts.Rooms, f)
		lines = append(lines, r.Name+": "+line)
	}
	t.room = here
	if len(lines) == 0 {
		lines = append(lines, "no rooms yet: `room kitchen 13' 4 x 11' 9`")
	}
	t.tell("rest", facts, strings.Join(lines, "\n"))
	t.ans.Room = t.line.Room
}

// rest is what of the plan is not up: whole rows, and pieces of the others.
func (p *plan) rest() (rows []int, pieces []string) {
	rows = []int{}
	for i, r := range p.Rows {
		var left []string
		for _, pc := range r.Pieces {
			if !p.hung[pc.ID] {
				left = append(left, pc.ID)
			}
		}
		if len(left) == len(r.Pieces) {
			rows = append(rows, i+1)
		} else {
			pieces = append(pieces, left...)
		}
	}
	return rows, pieces
}

func restText(f restRoom) string {
	var parts []string
	if len(f.Rows) > 0 {
		parts = append(parts, plural(len(f.Rows), "row")+" "+ranges(f.Rows))
	}
	if parts = append(parts, f.Pieces...); len(parts) == 0 {
		return ""
	}
	return strings.Join(parts, ", ") + " still to hang"
}

// otherWay turns the boards round to the run they do not have now.
func (t *turn) otherWay() {
	if !t.needRoom() {
		return
	}
	run, known := t.room.BoardsRun(place.Ceiling)
	set := t.room.Supports(place.Ceiling)
	if !known || len(set) == 0 {
		t.no(fmt.Sprintf("no straps noted in %s: which way the boards run now is not known", t.room.Name), "boards along")
		return
	}
	dir := "across"
	if run != set[0].Run {
		dir = "along"
	}
	t.boardsRun(grammar.BoardsRun{Dir: dir})
}
