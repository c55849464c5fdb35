package log

import (
	"strings"

	"strapline/bot/answer"
	"strapline/grammar/record"
)

// notes answers from what the crew noted in their own words. If that is nothing, it says what is known of
// the room.
func notes(c answer.Ctx, e record.Notes) answer.Reply {
	r := c.Recall(e.About)
	facts := logFacts{Entries: []logEntry{}}
	for _, en := range r.Found {
		facts.Entries = append(facts.Entries, logEntry{Seq: en.Seq, Who: en.Who, When: c.Stamp(en.Sent), Said: en.Text})
	}
	lines := append([]string{r.Head()}, c.Lines(r)...)
	switch known := c.Line.Room != "" || r.In == ""; {
	case len(r.Found) > 0:
	case !known && !r.Subject:
		lines[0] += "; it is no room here yet: `" + answer.ARoom(r.In, c.Units) + "`"
	default:
		about, _, _ := strings.Cut(r.About, ",")
		lines[0] += ". Once it is known: `note " + about + r.Where() + " ...`"
	}
	return answer.Tell("notes", facts, strings.Join(lines, "\n"))
}
