package hang

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/rows"
	"strapline/bot/say"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/record"
)

// progress is a surface of the room at hand, for a report of board on it without the numbers of its rows.
type progress struct {
	answer.Ctx
	hanging.SoFar
	on   place.Surface
	plan *inforce.Plan // nil if there is none in force
	rows int           // of the surface
	up   map[int]bool  // rows that are up entirely
}

// soFar works out which rows and pieces are meant by board that was only counted, from the plan in force and
// from what hangs. What is not certain it asks.
func soFar(c answer.Ctx, e hanging.SoFar) answer.Reply {
	if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	s := progress{Ctx: c, SoFar: e, on: answer.SurfaceOf(e.Surface), up: map[int]bool{}}
	if e.High.L != 0 {
		next := e
		next.High = length.Said{}
		return c.Answer(boards.High{L: e.High}).After(func(r answer.Reply) answer.Reply {
			if !r.Taken() {
				return r
			}
			return soFar(c, next).After(func(up answer.Reply) answer.Reply { return answer.Join([]answer.Reply{r, up}) })
		})
	}
	if _, high := c.Room.Shell().Extent(s.on); high == 0 && s.on.Upright() {
		return answer.Ask(fmt.Sprintf("rows on a wall count from the ceiling: how high is %s?", c.Room.Name), c.LineOf(e).String()+" high", s.note())
	}
	run, known := c.Room.BoardsRun(s.on)
	if next := e; known && e.But == "" {
		next.Begun = ""
		if stop := begunAt(c, e.Begun, s.on, run, "which rows are up?", "the last ones from "+string(e.Begun), next); stop != nil {
			return *stop
		}
	}
	if !known {
		return s.eitherWay()
	}
	plan, stop := c.InForce(s.on)
	if stop != nil {
		return *stop
	}
	if s.plan = plan; plan != nil {
		s.rows = len(plan.Rows)
	} else {
		s.rows = rows.Count(c, c.Room, s.on, run)
	}
	for n := 1; n <= s.rows; n++ {
		left, any := rows.Left(c.Room, s.on, n)
		s.up[n] = any && left == 0
	}
	switch {
	case s.But != "":
		return s.allBut()
	case s.Part == "rest":
		return c.Answer(boards.UpAll{Surface: e.Surface, Cut: e.Cut})
	case s.Boards > 0 && plan != nil:
		return s.counted()
	case s.Rows > s.rows:
		return answer.Ask(fmt.Sprintf("%s takes %d rows: which are up?", c.Where(s.on), s.rows), "", s.firsts()...)
	case s.Rows > 0:
		return s.first(s.Rows)
	case s.Part == "another row":
		return s.next()
	case strings.HasSuffix(s.Part, " row"):
		return s.edge()
	}
	return answer.Ask(fmt.Sprintf("which rows are up in %s?", c.Where(s.on)), "", s.firsts()...)
}

// eitherWay asks which rows are up of a surface whose boards may run either way.
func (s progress) eitherWay() answer.Reply {
	var choices []grammar.Choice
	for _, run := range []place.Direction{place.EW, place.NS} {
		count, from := rows.Count(s.Ctx, s.Room, s.on, run), s.Room.RowsFrom(s.on, run)
		if beside := cmp.Or(s.Begun, s.lowEdge()); beside != "" && from != beside && from != beside.Opposite() {
			continue
		}
		var ids []int
		switch n, _ := strconv.Atoi(strings.TrimPrefix(s.But, "row ")); {
		case s.SoFar.Rows > 0 && s.SoFar.Rows <= count:
			ids = upTo(s.SoFar.Rows)
		case strings.HasSuffix(s.Part, " row") && s.Part != "another row":
			ids = []int{1}
			if (s.Part == "top row") == (from == s.lowEdge()) {
				ids[0] = count
			}
		case n > 0:
			ids = slices.DeleteFunc(upTo(count), func(k int) bool { return k == n })
		case s.But == "bottom row":
			ids = upTo(count - 1)
		}
		if len(ids) == 0 {
			continue
		}
		var lines []grammar.Line
		if s.Begun != "" && from != s.Begun {
			from = s.Begun
			lines = append(lines, s.LineOf(boards.BoardsRun{Dir: string(run), Surface: s.Surface}), s.LineOf(boards.RowsFrom{Wall: from, Surface: s.Surface}))
		}
		names := make([]string, len(ids))
		for i, n := range ids {
			names[i] = fmt.Sprintf("r%d", n)
			line := s.LineOf(hanging.Hung{Row: n, Surface: s.Surface, Run: run, Cut: s.SoFar.Cut})
			line.Sure = len(ids) > 1
			lines = append(lines, line)
		}
		choices = append(choices, grammar.Choice{Label: fmt.Sprintf("%s from %s, boards %s", inWords(names), from, say.Direction(run)), Lines: lines})
	}
	if len(choices) == 0 {
		return answer.Ask(fmt.Sprintf("no straps are noted in %s: which rows are up, and which way do they run?", s.Room.Name), "", s.note())
	}
	return answer.Ask(fmt.Sprintf("up in %s: which rows?", s.Where(s.on)), "", append(choices, s.note())...)
}

// lowEdge returns the wall at which a slope is low, if the row at its top or at its bottom is meant.
func (s progress) lowEdge() place.Wall {
	if s.Part == "top row" || s.Part == "bottom row" {
		return s.on.SlopeTo()
	}
	return ""
}

func upTo(n int) (all []int) {
	for k := 1; k <= n; k++ {
		all = append(all, k)
	}
	return all
}

// note keeps the report in its own words.
func (s progress) note() grammar.Choice {
	return s.As("keep it as a note", record.Note{Text: s.Words})
}

// is returns a choice: these rows and pieces are up.
func (s progress) is(label string, ids ...string) grammar.Choice {
	return s.As(label, hanging.HungPlan{IDs: ids, Surface: s.Surface, Cut: s.SoFar.Cut})
}

// hang hangs rows and pieces without a question.
func (s progress) hang(ids []string) answer.Reply {
	return s.Answer(hanging.HungPlan{IDs: ids, Surface: s.Surface, Cut: s.SoFar.Cut})
}

// missing returns the ids of the rows up to n that are not up.
func (s progress) missing(from, to int) (ids []string) {
	for n := from; n <= to; n++ {
		if !s.up[n] {
			ids = append(ids, "r"+strconv.Itoa(n))
		}
	}
	return ids
}

// inWords names rows and pieces: "row 1", "rows 1 and 2", "r1.1 r1.2".
func inWords(ids []string) string {
	rows := wholeRows(ids)
	switch len(rows) {
	case 0:
		return strings.Join(ids, " ")
	case 1:
		return fmt.Sprintf("row %d", rows[0])
	case 2:
		return fmt.Sprintf("rows %d and %d", rows[0], rows[1])
	}
	if slices.IsSorted(rows) && rows[len(rows)-1]-rows[0] == len(rows)-1 {
		return fmt.Sprintf("rows %d to %d", rows[0], rows[len(rows)-1])
	}
	return "rows " + strings.ReplaceAll(strings.ReplaceAll(strings.Join(ids, ", "), "r", ""), "ows", "rows")
}

// firsts offers the rows from the start of the count, one more each.
func (s progress) firsts() (all []grammar.Choice) {
	for n := 1; n <= min(s.rows, 7); n++ {
		if ids := s.missing(1, n); len(ids) > 0 && !s.up[n] {
			all = append(all, s.is(inWords(ids), ids...))
		}
	}
	return append(all, s.note())
}

// first is the first n rows.
func (s progress) first(n int) answer.Reply {
	ids := s.missing(1, n)
	switch {
	case len(ids) == 0:
		return answer.No(fmt.Sprintf("the first %d rows of %s are up already", n, s.Where(s.on)), "so far another row")
	case n == s.rows, s.begunHere():
		return s.hang(ids)
	}
	choices := []grammar.Choice{s.is(inWords(ids), ids...)}
	if last := s.missing(s.rows-n+1, s.rows); len(last) == n && !slices.Equal(last, ids) {
		choices = append(choices, s.is(inWords(last), last...))
	}
	return answer.Ask(fmt.Sprintf("up in %s: which rows?", s.Where(s.on)), "", append(choices, s.note())...)
}

// begunHere reports whether the wall that was said is the one that the rows count from.
func (s progress) begunHere() bool {
	run, _ := s.Room.BoardsRun(s.on)
	return s.Begun != "" && s.Begun == s.Room.RowsFrom(s.on, run)
}

// next is the row after those that are up.
func (s progress) next() answer.Reply {
	bare := s.missing(1, s.rows)
	switch len(bare) {
	case 0:
		return answer.No(fmt.Sprintf("all %d rows of %s are up already", s.rows, s.Where(s.on)), "")
	case 1:
		return s.hang(bare)
	}
	var choices []grammar.Choice
	for _, id := range bare[:min(len(bare), 8)] {
		choices = append(choices, s.is(inWords([]string{id}), id))
	}
	return answer.Ask(fmt.Sprintf("up in %s: which row?", s.Where(s.on)), "", append(choices, s.note())...)
}

// edge is the row at the top, at the bottom, or the last one of a surface.
func (s progress) edge() answer.Reply {
	run, _ := s.Room.BoardsRun(s.on)
	from, low := s.Room.RowsFrom(s.on, run), s.lowEdge()
	n := s.rows
	if (s.Part == "top row") != (low != "" && from == low) {
		n = 1
	}
	level := s.on.Upright() && s.on.Lie(run) == place.X || low != "" && (from == low || from == low.Opposite())
	if s.up[n] {
		return answer.No(fmt.Sprintf("%s row %d is up already", s.Where(s.on), n), fmt.Sprintf("who hung row %d", n))
	}
	if level || len(s.missing(1, s.rows)) == 1 {
		return s.hang([]string{"r" + strconv.Itoa(n)})
	}
	other := s.rows + 1 - n
	choices := []grammar.Choice{s.is(fmt.Sprintf("row %d", n), "r"+strconv.Itoa(n))}
	if !s.up[other] && other != n {
		choices = append(choices, s.is(fmt.Sprintf("row %d", other), "r"+strconv.Itoa(other)))
	}
	return answer.Ask(fmt.Sprintf("up in %s: which row?", s.Where(s.on)), "", append(choices, s.note())...)
}

// counted is a number of boards, by the pieces of the plan.
func (s progress) counted() answer.Reply {
	all := inforce.IDs(s.plan.Layout)
	bare := slices.DeleteFunc(slices.Clone(all), func(id string) bool { return s.plan.Hung[id] })
	up := len(all) - len(bare)
	total := slices.DeleteFunc(slices.Clone(all[:min(s.Boards, len(all))]), func(id string) bool { return s.plan.Hung[id] })
	if s.Boards > len(all) {
		return answer.Ask(fmt.Sprintf("%d boards, and the layout of %s has %d pieces: which rows are up?", s.Boards, s.Where(s.on), len(all)), "", s.firsts()...)
	}
	var choices []grammar.Choice
	if len(total) > 0 {
		choices = append(choices, s.is(inWords(s.grouped(total)), s.grouped(total)...))
	}
	if more := bare[:min(s.Boards, len(bare))]; up > 0 && len(more) == s.Boards {
		choices = append(choices, s.is(fmt.Sprintf("%d more: %s", s.Boards, inWords(s.grouped(more))), s.grouped(more)...))
	}
	if len(choices) == 0 {
		return answer.No(fmt.Sprintf("%d pieces of %s are up already", up, s.Where(s.on)), "whats left to hang")
	}
	return answer.Ask(fmt.Sprintf("%d %s up in %s: which of the layout?", s.Boards, say.Plural(s.Boards, "board"), s.Where(s.on)), "", append(choices, s.note())...)
}

// grouped puts the row in place of all of its pieces that are not up.
func (s progress) grouped(pieces []string) (ids []string) {
	for i, r := range s.plan.Rows {
		var all, said []string
		for _, pc := range r.Pieces {
			if !s.plan.Hung[pc.ID] {
				all = append(all, pc.ID)
			}
			if slices.Contains(pieces, pc.ID) {
				said = append(said, pc.ID)
			}
		}
		if len(said) > 0 && len(said) == len(all) {
			said = []string{"r" + strconv.Itoa(i+1)}
		}
		ids = append(ids, said...)
	}
	return ids
}

// allBut is the surface without a row or a piece.
func (s progress) allBut() answer.Reply {
	if row, ok := strings.CutPrefix(s.But, "row "); ok || strings.HasSuffix(s.But, " row") {
		n, err := strconv.Atoi(row)
		if err != nil && s.But == "top row" {
			n = 1
		} else if err != nil {
			n = s.rows
		}
		ids := slices.DeleteFunc(s.missing(1, s.rows), func(id string) bool { return id == "r"+strconv.Itoa(n) })
		if n > s.rows || len(ids) == 0 {
			return answer.No(fmt.Sprintf("%s has %d rows, and nothing else of it is bare", s.Where(s.on), s.rows), "whats left to hang")
		}
		return s.hang(ids)
	}
	if s.plan == nil {
		var choices []grammar.Choice
		for n := s.rows; n > 0 && len(choices) < 8; n-- {
			if ids := slices.DeleteFunc(s.missing(1, s.rows), func(id string) bool { return id == "r"+strconv.Itoa(n) }); len(ids) > 0 && !s.up[n] {
				choices = append(choices, s.is(fmt.Sprintf("row %d, so %s up", n, inWords(ids)+are(ids)), ids...))
			}
		}
		if s.begunHere() { // what is left is beside that wall
			slices.Reverse(choices)
		}
		return answer.Ask(fmt.Sprintf("which row of %s is not whole yet?", s.Where(s.on)), "", append(choices, s.note())...)
	}
	bare := slices.DeleteFunc(inforce.IDs(s.plan.Layout), func(id string) bool { return s.plan.Hung[id] })
	without := func(left []string) []string {
		return s.grouped(slices.DeleteFunc(slices.Clone(bare), func(id string) bool { return slices.Contains(left, id) }))
	}
	if lexed, ok := strings.CutSuffix(s.But, " pieces"); ok {
		n, _ := strconv.Atoi(lexed)
		if n >= len(bare) {
			return answer.No(fmt.Sprintf("%d pieces of %s are not up", len(bare), s.Where(s.on)), "whats left to hang")
		}
		var choices []grammar.Choice
		last := s.plan.Rows[s.rows-1].Pieces
		for _, left := range [][]string{bare[len(bare)-n:], {last[0].ID}} {
			if len(left) == n && !slices.ContainsFunc(choices, func(o grammar.Choice) bool { return strings.HasPrefix(o.Label, inWords(left)) }) && !s.plan.Hung[left[0]] {
				choices = append(choices, s.is(fmt.Sprintf("%s, so %s up", inWords(left), inWords(without(left))+are(without(left))), without(left)...))
			}
		}
		return answer.Ask(fmt.Sprintf("which is left of the layout of %s?", s.Where(s.on)), "", append(choices, s.note())...)
	}
	if !slices.Contains(bare, s.But) {
		return answer.No(fmt.Sprintf("%s is no piece of %s that is not up", s.But, s.Where(s.on)), "whats left to hang")
	}
	return s.hang(without([]string{s.But}))
}

// are is the verb for rows or pieces.
func are(ids []string) string {
	if len(ids) == 1 {
		return " is"
	}
	return " are"
}

// allOf returns the things of one kind ("all light", "all light x 2") that lie under board. n is
// how many were said, 0 if none was; ok is false for words that name a thing.
func allOf(c answer.Ctx, on place.Surface, words string, under func(place.Point) bool) (names []string, n int, ok bool) {
	what, ok := strings.CutPrefix(words, "all ")
	if !ok {
		return nil, 0, false
	}
	if kind, many, counted := strings.Cut(what, " x "); counted {
		what = kind
		n, _ = strconv.Atoi(many)
	}
	for _, th := range c.Room.Things {
		v, now := th.Now()
		if now == nil || v.Surface != on || v.Framed || what != "thing" && what != "things" && v.What != what {
			continue
		}
		if under(th.At()) { // one that was open before is covered by this board, unless it is cut again
			names = append(names, th.Name)
		}
	}
	return names, n, true
}
