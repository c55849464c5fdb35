package hang

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/rows"
	"strapline/bot/answer/stock"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/lex"
	"strapline/grammar/measure"
	"strapline/grammar/record"
)

// progress is a surface of the room at hand, for a report of board on it without the numbers of its rows.
type progress struct {
	answer.Ctx
	hanging.SoFar
	on   place.Surface
	plan *inforce.Plan // nil if there is none in force
	run  place.Direction
	from place.Wall   // the wall the rows count from, "" for the top of a wall
	rows int          // of the surface
	up   map[int]bool // rows that are up entirely
}

// soFar works out which rows and pieces are meant by board that was only counted, from the plan in force and
// from what hangs. What is not certain it asks.
func soFar(c answer.Ctx, e hanging.SoFar) answer.Reply {
	if e.Surface == "" && (e.Part == "top row" || e.Part == "bottom row") {
		e.Surface = rows.WallNow(c)
	}
	s := progress{Ctx: c, SoFar: e, on: answer.SurfaceOf(e.Surface)}
	if e.Sum != "" {
		return s.loose()
	}
	if _, high := c.Room.Shell().Extent(s.on); high == 0 && s.on.Upright() {
		return c.NoHeight()
	}
	run, known := c.Room.BoardsRun(s.on)
	if next := e; known && e.But == "" {
		next.Begun = ""
		if stop := begunAt(c, e.Begun, s.on, run, "which rows are up?", "the last ones from "+string(e.Begun), next); stop != nil {
			return *stop
		}
	}
	plan, stop := c.InForce(s.on)
	switch s.plan = plan; {
	case plan == nil && e.Of != boards.Boards{} && e.Cut == nil: // a board of that kind, which need not be a row
		return s.loose()
	case !known:
		return s.eitherWay()
	case stop != nil:
		return *stop
	case e.Part == "rest":
		return c.Answer(boards.UpAll{Surface: e.Surface, Cut: e.Cut})
	}
	s = s.along(run)
	switch {
	case e.Boards > 0 && plan != nil && e.Boards <= len(inforce.IDs(plan.Layout)):
		return s.counted()
	}
	sets, why := s.sets()
	sure := len(sets) == 1
	var choices []grammar.Choice
	for _, set := range sets {
		ids := s.bare(set)
		label := rows.InWords(ids)
		if left := s.bare(without(s.rows, set)); e.But != "" && len(left) == 1 {
			label = fmt.Sprintf("%s, so %s up", rows.InWords(left), rows.InWords(ids)+are(ids))
		}
		if len(ids) > 0 && !slices.ContainsFunc(choices, func(o grammar.Choice) bool { return o.Label == label }) {
			choices = append(choices, s.is(label, ids...))
		}
	}
	switch {
	case len(choices) == 0 && sure && len(sets[0]) == 1:
		return answer.No(fmt.Sprintf("%s row %d is up already", s.Where(s.on), sets[0][0]), fmt.Sprintf("who hung row %d", sets[0][0]))
	case len(choices) == 0:
		return answer.No(fmt.Sprintf("%s has %d rows, and nothing else of it is bare", s.Where(s.on), s.rows), "whats left to hang")
	case len(choices) == 1 && e.Boards == 0 && (sure || e.But == "" && (e.Part == "another row" || len(s.bare(without(s.rows, nil))) == 1)):
		return c.Answer(choices[0].Lines[0].Entry)
	}
	return answer.Ask(why, "", append(choices[:min(len(choices), 7)], s.orNot()...)...)
}

// along returns the surface with its rows in a direction.
func (s progress) along(run place.Direction) progress {
	s.run, s.from = run, s.Room.RowsFrom(s.on, run)
	if s.rows = rows.Count(s.Ctx, s.Room, s.on, run); s.plan != nil {
		s.rows = len(s.plan.Rows)
	}
	s.up = map[int]bool{}
	for n := 1; n <= s.rows; n++ {
		left, any := rows.Left(s.Room, s.on, n)
		s.up[n] = any && left == 0
	}
	return s
}

// without returns the rows of a surface but for some.
func without(rows int, but []int) (all []int) {
	for n := 1; n <= rows; n++ {
		if !slices.Contains(but, n) {
			all = append(all, n)
		}
	}
	return all
}

// sets returns the rows that may be meant, likely ones first, and what to ask if there are several.
func (s progress) sets() (sets [][]int, why string) {
	all := without(s.rows, nil)
	end := func(top bool) int { // the row at the top or the bottom
		if low := s.on.SlopeTo(); top != (low != "" && s.from == low) {
			return 1
		}
		return s.rows
	}
	why = fmt.Sprintf("up in %s: which rows?", s.Where(s.on))
	switch n, _ := strconv.Atoi(strings.TrimPrefix(s.But, "row ")); {
	case n > 0 && n <= s.rows:
		return [][]int{without(s.rows, []int{n})}, why
	case strings.HasSuffix(s.But, " row"):
		return [][]int{without(s.rows, []int{end(s.But == "top row")})}, why
	case s.But != "":
		for _, n := range slices.Backward(all) {
			if !s.up[n] {
				sets = append(sets, without(s.rows, []int{n}))
			}
		}
		if s.Begun != "" && s.Begun == s.from { // what is left is beside that wall
			slices.Reverse(sets)
		}
		return sets, fmt.Sprintf("which row of %s is not whole yet?", s.Where(s.on))
	case s.SoFar.Rows > s.rows:
		why = fmt.Sprintf("%s takes %d rows: which are up?", s.Where(s.on), s.rows)
	case s.SoFar.Rows > 0 && (s.SoFar.Rows == s.rows || s.Begun != "" && s.Begun == s.from):
		return [][]int{all[:s.SoFar.Rows]}, why
	case s.SoFar.Rows > 0:
		return [][]int{all[:s.SoFar.Rows], all[s.rows-s.SoFar.Rows:]}, why
	case s.Part == "another row":
		return say.Each(all, func(n int) []int { return []int{n} }), fmt.Sprintf("up in %s: which row?", s.Where(s.on))
	case s.Part == "row in the middle":
		return say.Each(all[(s.rows-1)/2:s.rows/2+1], func(n int) []int { return []int{n} }), fmt.Sprintf("up in %s: which row?", s.Where(s.on))
	case strings.HasSuffix(s.Part, " row"):
		n, low := end(s.Part == "top row"), s.on.SlopeTo()
		if s.on.Upright() && s.on.Lie(s.run) == place.X || low != "" && (s.from == low || s.from == low.Opposite()) {
			return [][]int{{n}}, why
		}
		return [][]int{{n}, {s.rows + 1 - n}}, fmt.Sprintf("up in %s: which row?", s.Where(s.on))
	default:
		why = fmt.Sprintf("which rows are up in %s?", s.Where(s.on))
	}
	for n := range all {
		if !s.up[n+1] {
			sets = append(sets, all[:n+1])
		}
	}
	if n := s.Boards; s.on.Upright() && n > 1 && n <= len(sets) && len(sets) == s.rows { // a board to a row
		sets[0], sets[n-1] = sets[n-1], sets[0]
	}
	return sets, why
}

// eitherWay asks which rows are up of a surface whose boards may run either way.
func (s progress) eitherWay() answer.Reply {
	var choices []grammar.Choice
	for _, run := range []place.Direction{place.EW, place.NS} {
		s := s.along(run)
		beside := s.Begun
		if strings.HasSuffix(s.Part, " row") && s.Part != "another row" {
			beside = cmp.Or(beside, s.on.SlopeTo())
		}
		sets, _ := s.sets()
		if beside != "" && s.from != beside && s.from != beside.Opposite() || s.SoFar.Rows > s.rows || len(sets) == 0 || s.SoFar.Rows+len(s.Part)+len(s.But) == 0 || s.Part == "partly" {
			continue
		}
		var lines []grammar.Line
		if s.Begun != "" && s.from != s.Begun && s.But == "" {
			s.from = s.Begun
			lines = append(lines, s.LineOf(boards.BoardsRun{Dir: string(run), Surface: s.Surface}), s.LineOf(boards.RowsFrom{Wall: s.from, Surface: s.Surface}))
		}
		if len(sets[0]) > 1 {
			if rows := s.is("", s.bare(sets[0])...).Lines; lines == nil {
				lines = runThen(s.Ctx, s.Surface, run, rows[0].Entry)
			} else {
				lines = append(lines, rows...)
			}
		} else {
			lines = append(lines, s.LineOf(hanging.Hung{Row: sets[0][0], Surface: s.Surface, Run: run, Cut: s.SoFar.Cut}))
		}
		choices = append(choices, grammar.Choice{Label: fmt.Sprintf("%s from %s, boards %s", rows.InWords(s.bare(sets[0])), s.from, say.Direction(run)), Lines: lines})
	}
	if len(choices) == 0 {
		return answer.Ask(fmt.Sprintf("no straps are noted in %s: which rows are up, and which way do they run?", s.Room.Name), "", s.orNot()...)
	}
	return answer.Ask(fmt.Sprintf("up in %s: which rows?", s.Where(s.on)), "", append(choices, s.orNot()...)...)
}

// orNot only counts boards, or keeps the report in its own words.
func (s progress) orNot() (choices []grammar.Choice) {
	if next := s.SoFar; next.Boards > 0 && next.Cut == nil {
		next.Sum = "counted"
		choices = append(choices, s.As("only count them", next))
	}
	return append(choices, s.As("keep it as a note", record.Note{Text: s.Words}))
}

// loose notes boards whose rows nobody told: they are counted, and may cover what is there.
func (s progress) loose() answer.Reply {
	e, on := s.SoFar, say.Where(s.Room.Name, s.on)
	up := func() int { return s.State.Boards().Up(s.Room.Name, s.on) }
	before := up()
	if next := e; e.Sum != "more" && e.Sum != "total" && before > 0 {
		next.Sum = "more"
		all := next
		all.Sum = "total"
		return answer.Ask(fmt.Sprintf("%d were up on %s before: %d more?", before, on, e.Boards), "", s.As(fmt.Sprintf("%d more: %d", e.Boards, before+e.Boards), next), s.As(fmt.Sprintf("no: %d in all", e.Boards), all))
	}
	if e.Of.N = e.Boards; e.Sum == "total" {
		e.Of.N -= before
	}
	b := event.Stock{How: "up", Room: s.Room.Name, On: s.on, Items: answer.Logged([]boards.Boards{e.Of})}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		all := b.Items[0]
		all.N = up()
		left, facts := stock.Text(s.Ctx)
		r := s.Noted(en, "stock", facts, fmt.Sprintf("%s up on %s, rows not told; %s", s.BoardsText(all), on, left))
		if may := uncovered(s.Ctx, s.on); may != nil {
			r.Note("check", "may be covered now: "+strings.Join(say.Most(say.Each(may, func(th *site.ThingState) string { return th.Name }), 6), ", ")+". Tell the rows, e.g. `so far 2 rows`")
		}
		return r
	})
}

// is returns a choice: these rows and pieces are up.
func (s progress) is(label string, ids ...string) grammar.Choice {
	return s.As(label, hanging.HungPlan{IDs: ids, Surface: s.Surface, Cut: s.SoFar.Cut})
}

// bare returns the ids of those rows that are not up.
func (s progress) bare(rows []int) (ids []string) {
	for _, n := range rows {
		if !s.up[n] {
			ids = append(ids, "r"+strconv.Itoa(n))
		}
	}
	return ids
}

// counted is a number of boards, by the pieces of the plan.
func (s progress) counted() answer.Reply {
	all := inforce.IDs(s.plan.Layout)
	bare := slices.DeleteFunc(slices.Clone(all), func(id string) bool { return s.plan.Hung[id] })
	up := len(all) - len(bare)
	total := slices.DeleteFunc(slices.Clone(all[:min(s.Boards, len(all))]), func(id string) bool { return s.plan.Hung[id] })
	var choices []grammar.Choice
	if len(total) > 0 {
		choices = append(choices, s.is(rows.InWords(s.grouped(total)), s.grouped(total)...))
	}
	if more := bare[:min(s.Boards, len(bare))]; up > 0 && len(more) == s.Boards {
		choices = append(choices, s.is(fmt.Sprintf("%d more: %s", s.Boards, rows.InWords(s.grouped(more))), s.grouped(more)...))
	}
	if len(choices) == 0 {
		return answer.No(fmt.Sprintf("%d pieces of %s are up already", up, s.Where(s.on)), "whats left to hang")
	}
	return answer.Ask(fmt.Sprintf("%d %s up in %s: which of the layout?", s.Boards, say.Plural(s.Boards, "board"), s.Where(s.on)), "", append(choices, s.orNot()...)...)
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

// several is what is said of things of one kind: "all lights", "all light x 2 at east", "all things but d1".
type several struct {
	what string // "light", "thing" for any
	n    int    // how many were said, 0 if none was
	by   string // the wall nearest to them, "" for all
	off  string // a distance off any wall, "" for all
	but  []string
}

// ofSeveral takes such words apart; ok is false for those that name a thing.
func ofSeveral(words string) (s several, ok bool) {
	s.what, ok = strings.CutPrefix(words, "all ")
	all := strings.Split(s.what, " but ")
	s.what, s.but = all[0], all[1:]
	s.what, s.off, _ = strings.Cut(s.what, " off ")
	s.what, s.by, _ = strings.Cut(s.what, " at ")
	if kind, many, counted := strings.Cut(s.what, " x "); counted {
		s.what = kind
		s.n, _ = strconv.Atoi(many)
	}
	return s, ok
}

// under returns the things of the kind on a surface that lie under board, those that are left out among them.
func (of several) under(c answer.Ctx, on place.Surface, board func(place.Point) bool) (names []string) {
	var called []string // by another word: the box for a light
	for _, th := range c.Room.Things {
		v, now := th.Now()
		if now == nil || v.Surface != on || v.Framed || !board(th.At()) {
			continue
		}
		if v.What == of.what || strings.HasPrefix(of.what, "thing") { // one that was open before is covered by this board, unless it is cut again
			names = append(names, th.Name)
		} else if slices.Contains(c.Named(of.what), th) {
			called = append(called, th.Name)
		}
	}
	if len(names) == 0 || of.n > len(names) {
		names = append(names, called...)
	}
	return of.chosen(c, names)
}

// chosen leaves those that were noted at the distance said, and nearest to the wall said.
func (of several) chosen(c answer.Ctx, names []string) []string {
	if off, n, _ := measure.Scan(of.off, c.Units, measure.One); n > 0 {
		names = slices.DeleteFunc(slices.Clone(names), func(name string) bool {
			v, _ := c.Room.Thing(name).Now()
			return !slices.ContainsFunc(v.Fixes, func(f place.Fix) bool {
				return slices.ContainsFunc(off, func(r measure.Reading) bool { return r.L == f.L })
			})
		})
	}
	return nearest(c, names, of.by)
}

// nearest leaves the things that are nearest to a wall, all if it is none.
func nearest(c answer.Ctx, names []string, by string) []string {
	if by == "" || len(names) == 0 {
		return names
	}
	off := func(name string) length.Length {
		at := c.Room.Thing(name).At()
		return map[string]length.Length{"west": at.X, "east": -at.X, "north": at.Y, "south": -at.Y}[by]
	}
	least := off(slices.MinFunc(names, func(a, b string) int { return cmp.Compare(off(a), off(b)) }))
	return slices.DeleteFunc(names, func(name string) bool { return off(name) > least+length.Foot })
}

// without drops those that are left out. If nobody said which one that is, it asks; with returns the entry of others.
func (of several) without(c answer.Ctx, names []string, with func([]string) grammar.Entry) ([]string, *answer.Reply) {
	for _, but := range of.but {
		out, _ := ofSeveral("all " + but)
		near := out.chosen(c, slices.Clone(names))
		spared := func(name string) bool {
			th := c.Room.Thing(name)
			v, _ := th.Now()
			return slices.Contains(near, name) && (out.what == "one" && len(near) < len(names) || v.What == lex.ThingOf[out.what] || slices.Contains(c.Named(out.what), th))
		}
		if len(names) == 0 || c.Room.Thing(but) != nil || slices.ContainsFunc(names, spared) {
			names = slices.DeleteFunc(names, spared)
			continue
		}
		var choices []grammar.Choice
		for i, name := range names[:min(len(names), 7)] {
			th := c.Room.Thing(name)
			v, _ := th.Now()
			choices = append(choices, c.As(fmt.Sprintf("%s (%s)", name, c.Coords(v.Surface, th.At())), with(slices.Delete(slices.Clone(names), i, i+1))))
		}
		return nil, answer.Stop(answer.Ask("which one is not cut?", "", append(choices, c.As("keep it as a note", record.Note{Text: c.Words}))...))
	}
	return names, nil
}

// are is the verb for rows or pieces.
func are(ids []string) string {
	if len(ids) == 1 {
		return " is"
	}
	return " are"
}
