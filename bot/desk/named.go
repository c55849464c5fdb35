package desk

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"time"

	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/bot/turn"
	"strapline/grammar"
	"strapline/grammar/rooms"
)

// named takes what waits, whoever sent it, only for the name of a wall that is known by now, and adds the answers: which
// wall the tub wall is has to be said once.
func (d *Desk) named(in message.In, out *message.Out) error {
	for _, who := range slices.Sorted(maps.Keys(d.Pending)) {
		for {
			var q *pending.Question // the oldest that is settled
			var lines []grammar.Line
			said := ""
			for o := d.Pending[who]; o != nil; o = o.Under {
				if by, of := d.settled(who, o); len(of) > 0 {
					q, said, lines = o, by, of
				}
			}
			if q == nil {
				break
			}
			from := message.In{ID: q.From, Who: who, Sent: time.UnixMilli(q.Sent)}
			if strings.EqualFold(who, in.Who) {
				from.Who = in.Who
			} else if last := d.State.LastOf(who); last != nil {
				from.Who = last.Who
			}
			n := turn.New(d.Ledger, from, said, "")
			n.Settle(q, lines)
			if n.Err != nil || d.Wait {
				return n.Err
			}
			if from.Who != in.Who {
				n.Ans.Reply = from.Who + ": " + n.Ans.Reply
			}
			if !slices.ContainsFunc(out.Answers, func(a message.Answer) bool { return a.Asks() && a.Reply == n.Ans.Reply }) {
				out.Answers = append(out.Answers, n.Ans)
			}
		}
	}
	return nil
}

// settled returns what a question is about once the names of walls are known that it asks for, and the first of these in
// words; nothing if it asks for none.
func (d *Desk) settled(who string, q *pending.Question) (said string, lines []grammar.Line) {
	if q.Saved {
		return "", nil
	}
	choices := q.Choices
	for {
		i := slices.IndexFunc(choices, func(c grammar.Choice) bool { return len(c.Lines) > 1 && d.calls(who, c.Lines[0]) })
		if i < 0 {
			return "", nil
		}
		said, lines = cmp.Or(said, choices[i].Lines[0].String()), choices[i].Lines[1:]
		doubt, asks := lines[0].Entry.(grammar.Doubtful)
		if !asks || len(lines) > 1 || !slices.ContainsFunc(doubt.Ask.Choices, func(c grammar.Choice) bool { return len(c.Lines) > 1 && d.calls(who, c.Lines[0]) }) {
			return said, lines
		}
		choices = doubt.Ask.Choices
	}
}

// calls reports whether a line is a name of a wall that is noted so.
func (d *Desk) calls(who string, line grammar.Line) bool {
	name, ok := line.Entry.(rooms.Alias)
	r := cmp.Or(d.State.Room(line.Room), d.State.RoomOf(who), d.State.OnlyRoom())
	return ok && name.Wall != "" && r != nil && r.WallNamed(name.Name) == name.Wall
}
