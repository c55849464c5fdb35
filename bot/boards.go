package bot

import (
	"fmt"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

func (t *turn) board(e grammar.Board) {
	if e.Thick.L > 2*length.Inch || e.Wide.L > 6*length.Foot {
		t.ask(fmt.Sprintf("board %s x %s? send it as `board 1/2 x 48`", t.f(e.Thick.L), t.f(e.Wide.L)), "")
		return
	}
	b := site.Board{Thick: e.Thick.L, Wide: e.Wide.L}
	for _, l := range e.Lengths {
		if l.L < 4*length.Foot || l.L > longestBoard {
			t.ask(fmt.Sprintf("a board %s long? send the lengths again, e.g. `board lengths 8 10 12`", t.f(l.L)), "")
			return
		}
		b.Lengths = append(b.Lengths, l.L)
	}
	if t.save(b) == nil {
		return
	}
	now, _ := t.st.BoardNow()
	text := fmt.Sprintf("board %s x %s", t.exact(now.Thick), t.f(now.Wide))
	if len(now.Lengths) > 0 {
		var ls []string
		for _, l := range now.Lengths {
			ls = append(ls, t.stockLength(l))
		}
		text += ", lengths " + strings.Join(ls, " ")
	}
	t.noted("board", nil, text)
}

// longestBoard is the longest sheet sold (16 ft; makers' lists), with a little over.
const longestBoard = 16*length.Foot + length.Inch

// stockLength says a board's length as it is ordered.
func (t *turn) stockLength(l length.Length) string {
	if t.units() == length.Imperial && l%length.Foot == 0 {
		return fmt.Sprintf("%d'", l/length.Foot)
	}
	return t.f(l)
}

func (t *turn) clearance(e grammar.Clearance) {
	if e.L.L > 2*length.Inch {
		t.ask(fmt.Sprintf("%s clearance? send it again, e.g. `clearance 1/4`", t.f(e.L.L)), "")
		return
	}
	if t.save(site.Clearance{L: e.L.L}) != nil {
		t.noted("clearance", nil, fmt.Sprintf("cuts %s under the gap, in all", t.said1(e.L)))
	}
}

func (t *turn) screw(e grammar.Screw) {
	if e.L.L < length.Inch/2 || e.L.L > 7*length.Inch/2 {
		t.ask(fmt.Sprintf("a %s screw? send it again, e.g. `screw 1 1/4`", t.f(e.L.L)), "")
		return
	}
	if t.save(site.Screw{L: e.L.L}) != nil {
		t.noted("screw", nil, t.f(e.L.L)+" screws on this job")
	}
}

// hangs refuses to turn rows or boards round when some are up already.
func (t *turn) hangs() bool {
	for _, p := range t.room.Pieces(place.Ceiling) {
		if p.Row > 0 {
			t.no(fmt.Sprintf("row %d is up in %s with boards %s, counted from the %s wall; it stays so", p.Row, t.room.Name, runWords(p.Run), t.room.RowsFrom(p.Run)), "")
			return true
		}
	}
	return false
}

func (t *turn) boardsRun(e grammar.BoardsRun) {
	if !t.needRoom() || t.hangs() || t.save(site.BoardsRun{Room: t.room.Name, Dir: e.Dir}) == nil {
		return
	}
	way := string(e.Dir)
	if e.Dir == "ew" || e.Dir == "ns" {
		way = runWords(place.Run(e.Dir))
	}
	text := fmt.Sprintf("%s: boards %s", t.room.Name, way)
	if run, ok := t.room.BoardsRun(place.Ceiling); ok && (e.Dir == "along" || e.Dir == "across") {
		text += ", so " + runWords(run)
	}
	t.noted("boards", nil, text)
}

func (t *turn) rowsFrom(e grammar.RowsFrom) {
	if !t.needRoom() || t.hangs() {
		return
	}
	if run, ok := t.room.BoardsRun(place.Ceiling); ok {
		if from := t.room.RowsFrom(run); from != e.Wall && from != e.Wall.Opposite() {
			t.no(fmt.Sprintf("boards run %s here, so rows count from %s or %s", runWords(run), from, from.Opposite()), "rows from "+string(from.Opposite()))
			return
		}
	}
	if t.save(site.RowsFrom{Room: t.room.Name, Wall: e.Wall}) != nil {
		t.noted("rows", nil, fmt.Sprintf("%s: rows count from the %s wall", t.room.Name, e.Wall))
	}
}
