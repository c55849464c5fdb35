package bot

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

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
		parts = append(parts, fmt.Sprintf("%s (%s, entry %d)", t.byWhen(p.Entry), t.pieceName(&p), p.Entry.Seq))
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
	Blocks  int    `json:"blocks"` // what keeps it from being closed; `ready` names it
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
		for _, p := range r.Pieces(place.Ceiling) {
			if p.Row > 0 {
				up[p.Row] = true
			}
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
			text = fmt.Sprintf("all %d %s up", s.Rows, plural(s.Rows, "row"))
		case len(up) > 0:
			text = fmt.Sprintf("%s %s of %d up", plural(len(up), "row"), strings.Trim(strings.ReplaceAll(fmt.Sprint(s.Up), " ", ", "), "[]"), s.Rows)
		}
		for _, w := range place.Walls {
			if rows := t.wallUp(r, place.Surface(w)); rows != "" {
				text += "; " + rows
			}
		}
		text += fmt.Sprintf("; %d noted, %d covered, %d open", s.Noted, s.Covered, s.Open)
		here := t.room
		t.room = r
		s.Blocks = len(t.blocking())
		t.room = here
		if s.Blocks > 0 {
			text += fmt.Sprintf("; %d checks open", s.Blocks)
		}
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

// wallUp says what hangs on a wall, "" for nothing.
func (t *turn) wallUp(r *site.Room, s place.Surface) string {
	var rows []string
	for _, p := range r.Pieces(s) {
		if p.Row == 0 {
			return string(s) + " wall up"
		}
		if n := fmt.Sprint(p.Row); !slices.Contains(rows, n) {
			rows = append(rows, n)
		}
	}
	if len(rows) == 0 {
		return ""
	}
	return fmt.Sprintf("%s wall %s %s up", s, plural(len(rows), "row"), strings.Join(rows, ", "))
}
