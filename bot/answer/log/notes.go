package log

import (
	"fmt"
	"regexp"
	"strings"

	"strapline/bot/answer"
	"strapline/grammar/record"
)

// notes answers from what the crew noted in their own words. If that is nothing, it says what is known of
// the room.
func notes(c answer.Ctx, e record.Notes) answer.Reply {
	r := c.Recall(e.About)
	if r.About == "" && c.Line.Room != "" { // the room, and nothing of it
		return c.Answer(record.Status{})
	}
	facts := logFacts{Entries: []logEntry{}}
	for _, en := range r.Found {
		facts.Entries = append(facts.Entries, logEntry{Seq: en.Seq, Who: en.Who, When: c.Stamp(en.Sent), Said: en.Text})
	}
	lines := append([]string{r.Head()}, c.Lines(r)...)
	if len(r.Found) == 0 && (screws.MatchString(c.Words) || runs.MatchString(c.Words)) {
		lines[0] += ": that is not the same as none"
	}
	if r.Part {
		lines = append(lines, "nothing noted on the rest of it: that is not the same as none")
	}
	if known := c.Line.Room != "" || r.In == ""; len(r.Found) == 0 && !known && !r.Subject {
		lines[0] += fmt.Sprintf(", and %s is no room here yet: `%s`", r.In, answer.ARoom(r.In, c.Units))
	}
	reply := answer.Tell("notes", facts, strings.Join(lines, "\n"))
	if screws.MatchString(c.Words) {
		reply.Note("caution", answer.CautionScrew)
	}
	return reply
}

// runs are words for what a screw may hit.
var runs = regexp.MustCompile(`(?i)\b(?:pipes?|wires?|wiring|cables?|romex|gas|ducts?|plumbing|pex)\b`)

// screws are questions after which somebody drives a screw or cuts.
var screws = regexp.MustCompile(`(?i)\b(?:screw(?:s|ing)?|drill|nail|hook|anchor|hit|safe|safely|patch)\b`)
