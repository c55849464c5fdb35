package bot

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"strapline/calc/locate"
	"strapline/calc/site"
	"strapline/grammar"
)

// oneThing is the thing that the words name, or nil when a question or a
// refusal has been set as the answer. with makes the entry again with the
// thing's own name.
func (t *turn) oneThing(words string, with func(name string) grammar.Entry) *site.ThingState {
	found := t.st.Find(words)
	if t.line.Room != "" {
		found = slices.DeleteFunc(found, func(th *site.ThingState) bool { return th.Room != t.room })
	}
	if len(found) > 1 && t.room != nil {
		here := slices.DeleteFunc(slices.Clone(found), func(th *site.ThingState) bool { return th.Room != t.room })
		if len(here) > 0 {
			found = here
		}
	}
	switch len(found) {
	case 1:
		return found[0]
	case 0:
		t.noThing(words)
		return nil
	}
	var choices []choice
	for _, th := range found[:min(len(found), 9)] {
		line := t.line
		line.Room, line.Entry = th.Room.Name, with(th.Name)
		v, _ := th.Now()
		choices = append(choices, choice{
			Label: fmt.Sprintf("%s %s (%s)", th.Room.Name, th.Name, t.coords(v.Surface, th.At())), Text: line.String(),
		})
	}
	t.ask(fmt.Sprintf("which %s?", words), "", choices...)
	return nil
}

func (t *turn) noThing(words string) {
	in := ""
	if t.line.Room != "" {
		in = " in " + t.room.Name
		if other := t.st.Find(words); len(other) > 0 {
			t.no(fmt.Sprintf("%s is noted in %s, not in %s", other[0].Name, other[0].Room.Name, t.room.Name), other[0].Room.Name+": find "+other[0].Name)
			t.ans.Reply = strings.TrimPrefix(t.ans.Reply, "not saved: ")
			return
		}
	}
	var known []string
	for _, r := range t.st.Standing() {
		for _, th := range r.Things {
			known = append(known, th.Name)
		}
	}
	near, hint := "", "log"
	if n := grammar.Nearest(words, known); n != "" {
		near, hint = fmt.Sprintf("; did you mean %s?", n), ""
	}
	t.no(fmt.Sprintf("no note of %q%s%s", words, in, near), hint)
	t.ans.Reply = strings.TrimPrefix(t.ans.Reply, "not saved: ")
}

func (t *turn) find(e grammar.Find) {
	if t.room != nil && t.room.Route(e.Name) != nil {
		t.findRoute(t.room.Route(e.Name))
		return
	}
	th := t.oneThing(e.Name, func(n string) grammar.Entry { return grammar.Find{Name: n} })
	if th == nil {
		return
	}
	t.room = th.Room
	t.ans.Room = th.Room.Name
	v, en := th.Now()
	at := th.At()
	st, over := th.Stands()
	u := t.units()
	facts := findFacts{
		Name: th.Name, Surface: string(v.Surface), X: fact(u, at.X), Y: fact(u, at.Y), State: string(st),
		From: []fromFacts{}, Probes: []struct{}{},
	}
	// Two distances find it on bare framing; under a board a third is the check.
	show := 2
	if st == site.Covered {
		show = 3
	}
	var steps []string
	for i, s := range locate.From(th) {
		facts.From = append(facts.From, fromFacts{
			Kind: string(s.Kind), Ref: s.Ref, Dir: string(s.Dir), Dist: fact(u, s.Dist), Face: string(s.Face),
		})
		if i < show {
			steps = append(steps, t.stepText(s))
		}
	}
	text := fmt.Sprintf("%s %s: %s, to centre", t.where(v.Surface), t.thingName(v), strings.Join(steps, ", "))
	switch {
	case st == site.Covered:
		facts.CoveredBy = t.pieceName(over)
		text += fmt.Sprintf(". Covered by %s since %s, not cut", facts.CoveredBy, t.clock(over.Entry.Sent))
	case st == site.Open:
		text += ". Open"
	default:
		text += ". Not covered"
	}
	text += fmt.Sprintf(" (%s)", t.byWhen(en))
	facts.Photos = t.photosOf(th)
	if len(facts.Photos) > 0 {
		text += "\nphoto: " + strings.Join(facts.Photos, " ")
	}
	t.tell("find", facts, text)
	if st == site.Covered {
		t.note("caution", cautionFor(v.What))
	}
	if st != site.Open {
		t.passes(th, "")
	}
	t.save(site.Told{Room: th.Room.Name, Names: []string{th.Name}})
}

func (t *turn) stepText(s locate.Step) string {
	d := t.near(s.Dist)
	if s.Kind != locate.Wall {
		return d + " " + string(s.Dir) + " of " + s.Ref
	}
	if s.Ref == "floor" {
		return d + " up"
	}
	face := "studs"
	if s.Face == site.BoardFace {
		face = "board face"
	}
	if t.room.Finished(site.Wall(strings.TrimSuffix(s.Ref, " notch"))) {
		face = "finished wall"
	}
	return d + " off " + s.Ref + " (" + face + ")"
}

func (t *turn) covered() {
	facts := coveredFacts{Things: []coveredThing{}}
	var lines []string
	for _, r := range t.speakOf() {
		// By what covers them and when they are due, in the order noted.
		var groups []string
		in := map[string][]string{}
		for _, th := range r.Things {
			st, over := th.Stands()
			if st != site.Covered {
				continue
			}
			v, _ := th.Now()
			facts.Things = append(facts.Things, coveredThing{
				Name: th.Name, What: v.What, Room: r.Name, By: t.pieceName(over), Since: t.clock(over.Entry.Sent),
			})
			group := fmt.Sprintf("%s, %s since %s", r.Name, t.pieceName(over), t.clock(over.Entry.Sent))
			if v.Due != "" {
				group += ", due " + v.Due
			}
			if in[group] == nil {
				groups = append(groups, group)
			}
			in[group] = append(in[group], th.Name)
		}
		for _, g := range groups {
			lines = append(lines, g+": "+strings.Join(in[g], ", "))
		}
		if left := t.notUp(r); left != "" {
			lines = append(lines, left)
		}
	}
	head := "nothing covered that is not open"
	if n := len(facts.Things); n > 0 {
		head = fmt.Sprintf("%d covered, not open", n)
	}
	t.tell("covered", facts, strings.Join(append([]string{head}, lines...), "\n"))
	t.ans.Room = t.line.Room
}

// speakOf is the room a question names, or all of them.
func (t *turn) speakOf() []*site.Room {
	if t.line.Room != "" {
		return []*site.Room{t.room}
	}
	return t.st.Standing()
}

// notUp says which ceiling rows nobody has reported hung, where some were.
func (t *turn) notUp(r *site.Room) string {
	up := map[int]bool{}
	pieces := r.Pieces(site.Ceiling)
	if len(pieces) == 0 {
		return ""
	}
	for _, p := range pieces {
		if p.Row == 0 {
			return ""
		}
		up[p.Row] = true
	}
	var missing []string
	for n := 1; n <= t.rows(r, pieces[0].Run); n++ {
		if !up[n] {
			missing = append(missing, fmt.Sprint(n))
		}
	}
	if len(missing) == 0 {
		return ""
	}
	return fmt.Sprintf("%s: nobody reported %s %s hung", r.Name, plural(len(missing), "row"), strings.Join(missing, ", "))
}

// rows is how many rows of the board in use the ceiling takes.
func (t *turn) rows(r *site.Room, run site.Run) int {
	board, _ := t.st.BoardNow()
	c := r.Clear()
	across := c.X1 - c.X0
	if run == site.EW {
		across = c.Y1 - c.Y0
	}
	return int((across + board.Wide - 1) / board.Wide)
}

// anyOver answers "any pipe over row 3" from the notes, and never says that
// there is none.
func (t *turn) anyOver(e grammar.AnyOver) {
	if !t.needRoom() {
		return
	}
	place := t.room.Name
	rect := t.room.Clear()
	in := func(p site.Point) bool { return true }
	if e.Row > 0 {
		r, ok := t.rowRect(grammar.Hung{Row: e.Row}, site.Ceiling)
		if !ok {
			return
		}
		place += fmt.Sprintf(" row %d", e.Row)
		in, rect = r.rect.Has, r.rect
	}
	var found []string
	facts := thingsFacts{Things: []thingFacts{}}
	for _, th := range t.room.Things {
		v, en := th.Now()
		if en == nil || (e.Row > 0 && v.Surface != site.Ceiling) || !in(th.At()) {
			continue
		}
		if e.What != "" && v.What != e.What {
			continue
		}
		facts.Things = append(facts.Things, t.thingFacts(th))
		found = append(found, fmt.Sprintf("%s (%s)", th.Name, t.coords(v.Surface, th.At())))
	}
	found = append(found, t.routesOver(e, rect)...)
	what := e.What
	if what == "" {
		what = "thing"
	}
	if len(found) == 0 {
		t.tell("any", facts, fmt.Sprintf("no %s noted in %s: that is not the same as no %s. Look before you screw", what, place, what))
		return
	}
	t.tell("any", facts, fmt.Sprintf("%s: %s. Only what was noted", place, strings.Join(found, ", ")))
}

// logShown is the most entries one answer lists.
const logShown = 20

func (t *turn) log(e grammar.Log) {
	of := strings.ToLower(e.Of)
	var seqs map[uint64]bool
	if of != "" && !t.st.Knows(of) {
		th := t.oneThing(of, func(n string) grammar.Entry { next := e; next.Of = n; return next })
		if th == nil {
			return
		}
		seqs = map[uint64]bool{}
		for _, list := range [][]*site.Entry{th.Notes(), th.Opens()} {
			for _, en := range list {
				seqs[en.Seq] = true
			}
		}
	}
	today := t.in.Sent.In(t.j.opt.Loc)
	var list []*site.Entry
	for _, en := range t.st.Entries {
		if hidden(en.Body) {
			continue
		}
		sent := timeOf(en.Sent, t.j.opt.Loc)
		switch {
		case t.line.Room != "" && en.Room != t.room.Name,
			e.Today && (sent.YearDay() != today.YearDay() || sent.Year() != today.Year()),
			e.Since > 0 && en.Seq < uint64(e.Since),
			seqs != nil && !seqs[en.Seq],
			seqs == nil && of != "" && !strings.EqualFold(en.Who, of):
			continue
		}
		list = append(list, en)
	}
	slices.SortStableFunc(list, func(a, b *site.Entry) int { return cmp.Compare(a.Sent, b.Sent) })
	cut := 0
	if len(list) > logShown {
		if e.Since > 0 {
			list, cut = list[:logShown], len(list)-logShown
		} else {
			list, cut = list[len(list)-logShown:], len(list)-logShown
		}
	}
	facts := logFacts{Entries: []logEntry{}}
	var lines []string
	if cut > 0 && e.Since == 0 {
		lines = append(lines, fmt.Sprintf("%d earlier: `log since 1`", cut))
	}
	for _, en := range list {
		facts.Entries = append(facts.Entries, logEntry{
			Seq: en.Seq, Who: en.Who, When: timeOf(en.Sent, t.j.opt.Loc).Format("2006-01-02T15:04:05Z07:00"), Said: en.Text, Struck: en.Struck(),
		})
		line := fmt.Sprintf("%d %s %s: %s", en.Seq, t.clock(en.Sent), en.Who, firstLine(en.Text))
		if by := en.StruckBy(); by != nil {
			line += fmt.Sprintf(" [struck by %s, %d]", by.Who, by.Seq)
		}
		lines = append(lines, line)
	}
	if cut > 0 && e.Since > 0 {
		lines = append(lines, fmt.Sprintf("%d more: `log since %d`", cut, list[len(list)-1].Seq+1))
	}
	if len(list) == 0 {
		lines = append(lines, "nothing logged there")
	}
	t.tell("log", facts, strings.Join(lines, "\n"))
	t.ans.Room = t.line.Room
}

func (t *turn) whoHung(e grammar.Who) {
	if !t.needRoom() {
		return
	}
	s := surfaceOf(e.Surface)
	facts := logFacts{Entries: []logEntry{}}
	var parts []string
	seen := map[*site.Entry]bool{}
	for _, p := range t.room.Pieces(s) {
		if seen[p.Entry] || (e.Row > 0 && p.Row != e.Row && p.Row != 0) {
			continue
		}
		seen[p.Entry] = true
		facts.Entries = append(facts.Entries, logEntry{
			Seq: p.Entry.Seq, Who: p.Entry.Who, When: timeOf(p.Entry.Sent, t.j.opt.Loc).Format("2006-01-02T15:04:05Z07:00"), Said: p.Entry.Text,
		})
		parts = append(parts, fmt.Sprintf("%s (%s)", t.byWhen(p.Entry), t.pieceName(&p)))
	}
	if len(parts) == 0 {
		t.tell("who", facts, "nobody has reported that hung in "+t.where(s))
		return
	}
	t.tell("who", facts, t.where(s)+": "+strings.Join(parts, ", "))
}

type roomStatus struct {
	Room    string `json:"room"`
	Up      []int  `json:"up"`
	Rows    int    `json:"rows,omitempty"`
	Noted   int    `json:"noted"`
	Covered int    `json:"covered"`
	Open    int    `json:"open"`
	Snags   int    `json:"snags"`
}

func (t *turn) status() {
	facts := struct {
		Rooms []roomStatus `json:"rooms"`
	}{Rooms: []roomStatus{}}
	snags := map[string]int{}
	for _, en := range t.st.OpenSnags() {
		snags[en.Room]++
	}
	var lines []string
	if title := t.st.Title(); title != "" && t.line.Room == "" {
		lines = append(lines, title)
	}
	for _, r := range t.speakOf() {
		s := roomStatus{Room: r.Name, Up: []int{}, Snags: snags[r.Name]}
		for _, th := range r.Things {
			switch st, _ := th.Stands(); st {
			case site.Noted:
				s.Noted++
			case site.Covered:
				s.Covered++
			case site.Open:
				s.Open++
			}
		}
		up := map[int]bool{}
		all := false
		for _, p := range r.Pieces(site.Ceiling) {
			up[p.Row] = true
			all = all || p.Row == 0
			if p.Run != "" {
				s.Rows = t.rows(r, p.Run)
			}
		}
		s.Up = append(s.Up, slices.Sorted(maps.Keys(up))...)
		text := "nothing up"
		switch {
		case all:
			text = "ceiling up"
		case len(up) > 0 && len(up) == s.Rows:
			text = fmt.Sprintf("all %d rows up", s.Rows)
		case len(up) > 0:
			text = fmt.Sprintf("%s %s of %d up", plural(len(up), "row"), strings.Trim(strings.ReplaceAll(fmt.Sprint(s.Up), " ", ", "), "[]"), s.Rows)
		}
		text += fmt.Sprintf("; %d noted, %d covered, %d open", s.Noted, s.Covered, s.Open)
		if s.Snags > 0 {
			text += fmt.Sprintf("; %d %s", s.Snags, plural(s.Snags, "snag"))
		}
		lines = append(lines, r.Name+": "+text)
		facts.Rooms = append(facts.Rooms, s)
	}
	if len(facts.Rooms) == 0 {
		lines = append(lines, "no rooms yet: `room kitchen 13' 4 x 11' 9`")
	}
	t.tell("status", facts, strings.Join(lines, "\n"))
	t.ans.Room = t.line.Room
}

func plural(n int, word string) string {
	if n == 1 {
		return word
	}
	return word + "s"
}
