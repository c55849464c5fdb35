// Package log answers questions about the log and corrects it: what was noted, how the job stands, notes
// and snags, and corrections.
package log

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/answer/ready"
	"strapline/bot/answer/rows"
	"strapline/bot/answer/told"
	"strapline/bot/say"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/record"
)

// Register registers the handlers of this package.
func Register(k answer.Kinds) {
	answer.OnQuestion(k, list)
	answer.OnQuestion(k, status)
	answer.OnQuestion(k, help)
	answer.OnQuestion(k, notes)
	answer.OnQuestion(k, next)
	answer.OnQuestion(k, boardsUp)
	answer.OnQuestion(k, clearOf)
	answer.OnQuestion(k, between)
	answer.OnNote(k, noteText)
	answer.OnNote(k, snag)
	answer.OnNote(k, func(_ answer.Ctx, e grammar.Doubtful) answer.Reply { return answer.Asks(&e.Ask, "") })
	answer.OnNote(k, hit)
	answer.OnNote(k, undo)
	answer.OnNote(k, strike)
	answer.OnNote(k, swap)
	answer.OnNote(k, instead)
	answer.OnNote(k, turn)
	answer.OnNote(k, gone)
	answer.OnNote(k, repeat)
	answer.OnNote(k, remove)
}

// shown is the maximum number of entries in an answer, and brief that about a day.
const (
	shown = 20
	brief = 7
)

// list lists log entries.
func list(c answer.Ctx, e record.Log) answer.Reply {
	of := strings.ToLower(e.Of)
	var seqs map[uint64]bool
	if of != "" && !c.State.Knows(of) {
		all := c.Named(of)
		if len(all) < 2 || slices.ContainsFunc(all, func(th *site.ThingState) bool { return th.Room != all[0].Room }) { // things of one room are listed together
			th, stop := c.OneThing(of, func(n string) grammar.Entry { next := e; next.Of = n; return next })
			if stop != nil {
				return *stop
			}
			all = []*site.ThingState{th}
		}
		seqs = map[uint64]bool{}
		for _, th := range all {
			for _, en := range slices.Concat(th.Notes(), th.Measures(), th.Opens()) {
				seqs[en.Seq] = true
			}
		}
	}
	today := c.Now.In(c.Loc)
	since := time.Date(today.Year(), today.Month(), today.Day()-1, 0, 0, 0, 0, c.Loc)
	var found []*site.Entry
	for _, en := range c.State.Entries {
		if answer.Hidden(en.Body) {
			continue
		}
		sent := time.UnixMilli(en.Sent).In(c.Loc)
		switch {
		case c.Line.Room != "" && en.Room != c.Room.Name,
			e.Today && (sent.YearDay() != today.YearDay() || sent.Year() != today.Year()),
			e.Yesterday && sent.Before(since),
			e.Last && !strings.EqualFold(en.Who, c.Who),
			e.Since > 0 && en.Seq < uint64(e.Since),
			seqs != nil && !seqs[en.Seq],
			seqs == nil && of != "" && !strings.EqualFold(en.Who, of):
			continue
		}
		found = append(found, en)
	}
	slices.SortStableFunc(found, func(a, b *site.Entry) int { return cmp.Compare(a.Sent, b.Sent) })
	if e.Last {
		found = found[max(len(found)-1, 0):]
	}
	most := shown
	if e.Today || e.Yesterday {
		most = brief
	}
	cut := max(len(found)-most, 0)
	if e.Since > 0 {
		found = found[:len(found)-cut]
	} else {
		found = found[cut:]
	}
	var lines []string
	if cut > 0 && e.Since == 0 {
		lines = append(lines, fmt.Sprintf("%d earlier: `log since 1`", cut))
	}
	for _, en := range found {
		line := fmt.Sprintf("%d %s %s: %s", en.Seq, c.Clock(en.Sent), en.Who, say.FirstLine(en.Text))
		if by := en.StruckBy(); by != nil {
			line += fmt.Sprintf(" [struck by %s, %d]", by.Who, by.Seq)
		}
		lines = append(lines, line)
	}
	if cut > 0 && e.Since > 0 {
		lines = append(lines, fmt.Sprintf("%d more: `log since %d`", cut, found[len(found)-1].Seq+1))
	}
	if len(found) == 0 && e.Last {
		lines = append(lines, "nothing of yours is on the log")
	} else if len(found) == 0 {
		lines = append(lines, "nothing logged there")
	}
	return answer.Tell("log", told.Facts(c, found), strings.Join(lines, "\n"))
}

// RoomStatus is the status of a room.
type RoomStatus struct {
	Room    string `json:"room"`
	Up      []int  `json:"up"`
	Rows    int    `json:"rows,omitempty"`
	Noted   int    `json:"noted"`
	Covered int    `json:"covered"`
	Open    int    `json:"open"`
	Snags   int    `json:"snags"`
	Blocks  int    `json:"blocks"` // number of things that keep it from being closed; `ready` names them
	Hung    string `json:"-"`      // what is up, in words
	Whole   bool   `json:"-"`      // the whole ceiling was noted at once
}

// StatusOf returns the status of the room at hand. It leaves Snags and Blocks to its caller.
func StatusOf(c answer.Ctx) RoomStatus {
	r := c.Room
	s := RoomStatus{Room: r.Name, Up: []int{}}
	for _, th := range r.Things {
		if v, _ := th.Now(); v.Framed {
			continue
		}
		switch st, _ := th.Stands(); st {
		case site.Noted:
			s.Noted++
		case site.Covered:
			s.Covered++
		case site.Open:
			s.Open++
		}
	}
	up, whole := rowsUp(r, place.Ceiling)
	s.Up, s.Whole = append(s.Up, up...), whole
	for _, p := range r.Pieces(place.Ceiling) {
		if p.Run != "" {
			s.Rows = rows.Count(c, r, place.Ceiling, p.Run)
		}
	}
	s.Hung = cmp.Or(rows.Counted(c, r, place.Ceiling), "nothing up")
	switch {
	case s.Whole:
		s.Hung = "ceiling up"
	case len(up) > 0 && len(up) == s.Rows:
		s.Hung = fmt.Sprintf("all %d %s up", s.Rows, say.Plural(s.Rows, "row"))
	case len(up) > 0:
		s.Hung = fmt.Sprintf("%s %s of %d up", say.Plural(len(up), "row"), strings.Trim(strings.ReplaceAll(fmt.Sprint(s.Up), " ", ", "), "[]"), s.Rows)
	}
	for _, on := range r.Shell().Surfaces()[1:] {
		if rows := wallUp(r, on); rows != "" {
			s.Hung += "; " + rows
		}
	}
	return s
}

// status says how each room stands.
func status(c answer.Ctx, _ record.Status) answer.Reply {
	facts := struct {
		Rooms []RoomStatus `json:"rooms"`
	}{Rooms: []RoomStatus{}}
	var lines []string
	if title := c.State.Title(); title != "" && c.Line.Room == "" {
		lines = append(lines, title)
	}
	for _, r := range c.SpeakOf() {
		s := StatusOf(c.In(r))
		s.Snags, s.Blocks = len(ready.Snags(c.In(r))), len(ready.Blocking(c.In(r)))
		text := fmt.Sprintf("%s; %d noted, %d covered, %d open", s.Hung, s.Noted, s.Covered, s.Open)
		if s.Blocks > 0 {
			text += fmt.Sprintf("; %d checks open", s.Blocks)
		}
		if s.Snags > 0 {
			text += fmt.Sprintf("; %d %s", s.Snags, say.Plural(s.Snags, "snag"))
		}
		lines = append(lines, r.Name+": "+text)
		facts.Rooms = append(facts.Rooms, s)
	}
	if len(facts.Rooms) == 0 {
		lines = append(lines, "no rooms yet: `room kitchen 13' 4 x 11' 9`")
	}
	return answer.Tell("status", facts, strings.Join(say.MostLines(lines, "name a room: `status kitchen`"), "\n"))
}

// wallUp says what hangs on a wall, "" for nothing.
func wallUp(r *site.Room, s place.Surface) string {
	switch up, whole := rowsUp(r, s); {
	case whole:
		return s.Name() + " up"
	case len(up) > 0:
		return fmt.Sprintf("%s %s %s up", s.Name(), say.Plural(len(up), "row"), say.Ranges(up))
	}
	return ""
}

// rowsUp returns the rows of a surface that have boards up, and whether all of it was reported up.
func rowsUp(r *site.Room, s place.Surface) (up []int, whole bool) {
	for _, p := range r.Pieces(s) {
		if p.Row > 0 {
			up = append(up, p.Row)
		}
		whole = whole || p.Row == 0
	}
	slices.Sort(up)
	return slices.Compact(up), whole
}
