package log

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/told"
	"strapline/grammar/record"
)

// notes answers from what the crew noted in their own words. If that is nothing, it says what is known of
// the room.
func notes(c answer.Ctx, e record.Notes) answer.Reply {
	r := told.About(c, e.About)
	if r.About == "" && c.Line.Room != "" { // the room, and nothing of it
		return c.Answer(record.Status{})
	}
	lines := append([]string{r.Head()}, told.Lines(c, r)...)
	if things := told.Things(c, r); len(things) > 0 && (len(r.Found) == 0 || r.Away || r.Part) { // what is noted is not denied
		lines = append(things, told.Lines(c, r)...)
		r.Part = true
	}
	if len(r.Found) == 0 && !r.Part && (screws.MatchString(c.Words) || runs.MatchString(c.Words)) {
		lines[0] += ": that is not the same as none"
	}
	if slices.Contains(r.Asked, "coat") && len(r.Found) == 0 {
		lines[0] += ": `coat 1 65f 50%` notes one and says when the next may follow"
	}
	if r.Part {
		lines = append(lines, "nothing noted on the rest of it: that is not the same as none")
	}
	if known := c.Line.Room != "" || r.In == "" || c.State.Room(r.In) != nil; len(r.Found) == 0 && !known && !r.Subject {
		lines[0] += fmt.Sprintf(", and %s is no room here yet: `%s`", r.In, answer.ARoom(r.In, c.Units))
	}
	reply := answer.Tell("notes", told.Facts(c, r.Found), strings.Join(lines, "\n"))
	if screws.MatchString(c.Words) {
		reply.Note("caution", answer.CautionScrew)
	}
	if heavy.MatchString(c.Words) {
		reply.Note("check", answer.CheckWeight)
	}
	if live.MatchString(c.Words) {
		reply.Note("caution", answer.CautionWire)
	}
	return reply
}

// heavy are questions for what a weight may hang from.
var heavy = regexp.MustCompile(`(?i)\b(?:mount|hold|carry|heavy|weight|swing|shelf|shelves|mirror|tv|cabinets?|picture)\b`)

// live are questions whether a wire can hurt: what is noted does not say so for sure.
var live = regexp.MustCompile(`(?i)\b(?:live|hot|dead|energi[sz]ed|powered)\b`)

// runs are words for what a screw may hit.
var runs = regexp.MustCompile(`(?i)\b(?:pipes?|wires?|wiring|cables?|romex|gas|ducts?|plumbing|pex)\b`)

// screws are questions after which somebody drives a screw or cuts.
var screws = regexp.MustCompile(`(?i)\b(?:screw(?:s|ing)?|drill|nail|hook|anchor|hit|safe|safely|patch)\b`)
