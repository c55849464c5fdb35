// Package told finds what the crew told in their own words: to answer a question with, or to add to an answer.
package told

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/message"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/recall"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/lex"
	"strapline/grammar/record"
	"strapline/grammar/topic"
)

// mostNotes is the number of notes in an answer, mostBeside that below another answer, and mostScanned that of the newest entries looked at.
const (
	mostNotes   = 4
	mostBeside  = 2
	mostScanned = 20_000
)

// Register has what the crew told added to the answers.
func Register(k answer.Kinds) { answer.OnReply(k, besides) }

// LogFacts are entries of the log.
type LogFacts struct {
	Entries []entryFacts `json:"entries"`
}

type entryFacts struct {
	Seq    uint64 `json:"seq"`
	Who    string `json:"who"`
	When   string `json:"when"`
	Said   string `json:"said"`
	Struck bool   `json:"struck"`
}

// Facts returns the facts of entries.
func Facts(c answer.Ctx, all []*site.Entry) LogFacts {
	return LogFacts{append([]entryFacts{}, say.Each(all, func(en *site.Entry) entryFacts {
		return entryFacts{Seq: en.Seq, Who: en.Who, When: c.Stamp(en.Sent), Said: en.Text, Struck: en.Struck()}
	})...)}
}

// Recalled is what the crew noted about something.
type Recalled struct {
	About string        // what was looked for, as the crew said it
	In    string        // the room that it was looked for in, "" for the whole job
	Found []*site.Entry // the best first
	Away  bool          // nothing was found in that room: Found are from elsewhere
	Part  bool          // Found are on one word of several
	Asked []string      // the words that were looked for, folded
	// Subject says that a thing, a run or framing is named in About.
	Subject bool
}

// About looks for the words of a question in what was noted: about the room that it names, or else in the
// whole job.
func About(c answer.Ctx, about string) Recalled {
	return orWaiting(c, about, find(c, about, c.State.Entries, false), false)
}

// orWaiting looks in what is still asked about or held if nothing was found in what was noted.
func orWaiting(c answer.Ctx, about string, r Recalled, all bool) Recalled {
	if len(r.Found) > 0 || c.Waiting == nil {
		return r
	}
	if w := find(c, about, c.Waiting(), all); len(w.Found) > 0 {
		return w
	}
	return r
}

// find looks in the entries. If all is true, a note must have each word of the work that is asked for.
func find(c answer.Ctx, about string, entries []*site.Entry, all bool) (r Recalled) {
	rooms := map[string]bool{}
	if c.Line.Room != "" && c.Room != nil {
		rooms[c.Room.Name], r.In = true, c.Room.Name
	}
	var asked, subject, must []recall.Word
	var said, other []string
	for _, w := range topic.Telling(about) {
		stem := topic.Stem(w)
		switch {
		case topic.NamesRoom(w):
			rooms[stem] = true
			if c.Line.Room == "" && r.In == "" {
				r.In = w
				if all := slices.DeleteFunc(c.State.Standing(), func(room *site.Room) bool {
					return !strings.Contains(" "+room.Name+" ", " "+w+" ")
				}); len(all) == 1 && c.State.Room(w) == nil { // the upstairs hall is the hall
					r.In = all[0].Name
				}
			}
		case strings.Contains(" "+r.In+" ", " "+w+" "): // the rest of its name
		case topic.Subject(w):
			subject = append(subject, recall.Word{Text: stem, Weight: 1, Must: all})
			said = append(said, w)
		case (stem == "close" || stem == "cover") && beforeThat.MatchString(lex.Lower(c.Words)): // "before it gets closed" is about the rest
		case topic.Works(w):
			weight := 1.0
			if surfaces[stem] {
				weight = 0.3 // of "the ceiling over the stove" the stove tells more
			}
			asked, other = append(asked, recall.Word{Text: stem, Weight: weight, Must: all}), append(other, w)
		case !all:
			asked, other = append(asked, recall.Word{Text: stem, Weight: 0.4}), append(other, w)
		}
	}
	for _, room := range slices.Sorted(maps.Keys(rooms)) {
		for w := range strings.FieldsSeq(room) {
			must = append(must, recall.Word{Text: topic.Stem(w), Must: true})
		}
	}
	r.Asked = say.Each(slices.Concat(subject, asked), func(w recall.Word) string { return w.Text })
	most := 3
	if r.Subject = len(said) > 0; !r.Subject {
		said, most = other, 2
	}
	r.About = strings.Join(said[:min(len(said), most)], ", ")
	if asked = append(asked, subject...); all && len(asked) == 0 {
		return r
	}
	var notes []recall.Note
	var from []*site.Entry
	for _, en := range entries[max(len(entries)-mostScanned, 0):] {
		if tells(en) {
			also := en.Who + " " + en.Room
			if Saved.MatchString(en.Text) {
				also += " offcut"
			}
			notes, from = append(notes, recall.Note{Text: en.Text, Also: also}), append(from, en)
		}
	}
	best := func(asked []recall.Word) (found []*site.Entry) {
		for _, n := range recall.Best(notes, asked, recall.Words{Fold: topic.Stem, Alike: alike}, mostNotes) {
			if en := from[n]; !slices.ContainsFunc(found, func(o *site.Entry) bool { return o.Text == en.Text && o.Who == en.Who }) { // several entries of one message
				found = append(found, en)
			}
		}
		return found
	}
	for _, try := range []struct {
		words []recall.Word
		away  bool
	}{{slices.Concat(asked, must), false}, {slices.Concat(subject, must), false}, {asked, true}, {subject, true}} {
		if len(try.words) == 0 || len(r.Found) > 0 || try.away && len(must) == 0 || !try.away && len(must) == len(try.words) && len(asked) > 0 {
			continue
		}
		r.Found, r.Away = best(try.words), try.away
	}
	if len(r.Found) > 0 || all || len(asked) < 2 {
		return r
	}
	for _, w := range asked { // one word, if not all together: the window of "the piece under the window"
		if r.Found = best(append([]recall.Word{w}, must...)); len(r.Found) > 0 {
			r.About, r.Part, r.Away = w.Text, true, false
			break
		}
	}
	return r
}

// beforeThat matches what is asked for before board goes over it.
var beforeThat = regexp.MustCompile(`\bbefore (?:it|they|that|this|we|i)(?:'?s)?\b`)

// Saved matches what is told of an offcut by another word.
var Saved = regexp.MustCompile(`(?i)\b(?:saved|kept|stashed|set aside|spare|left ?over|lean(?:ed|t|ing))\b.*\b(?:pieces?|pcs?|strips?|rips?|scraps?)\b|\b(?:pieces?|pcs?|strips?|rips?|scraps?|chunk)\b.*\b(?:saved|kept|stashed|set aside|spare|left ?over|lean(?:ed|t|ing))\b`)

// Crew quotes the newest notes that tell who works where or comes when: of the trade that the question names, if any.
func Crew(c answer.Ctx) (lines []string) {
	of := people.FindAllString(lex.Lower(c.Words), -1)
	told := c.State.Told()
	for _, en := range slices.Backward(told[max(len(told)-mostScanned, 0):]) {
		low := lex.Lower(en.Text)
		names := people.FindAllString(low, -1)
		if !tells(en) || len(names) == 0 || !plans.MatchString(low) || len(of) > 0 && !slices.ContainsFunc(of, func(w string) bool {
			return slices.ContainsFunc(names, func(n string) bool { return n[:4] == w[:4] })
		}) {
			continue
		}
		if lines = append(lines, Quote(c, en)); len(lines) == mostBeside {
			break
		}
	}
	return lines
}

// people are words for who works, plans those for what they will do.
var (
	people = regexp.MustCompile(`\b(?:taper|taping|painter|painting|plumber|electrician|hanger|helper|lead|inspector|plasterer|framer|insulator|finisher)s?\b`)
	plans  = regexp.MustCompile(`\b(?:will|comes?|coming|starts?|starting|does|do|hangs?|works?|next|tomorrow|tonight|after|(?:mon|tues?|wednes|thurs?|fri|satur|sun)(?:day)?)\b`)
)

// Things are the things and runs that a word of what was looked for names: one line for each room.
func Things(c answer.Ctx, r Recalled) (lines []string) {
	for _, room := range c.State.Standing() {
		if r.In != "" && c.State.Room(r.In) != nil && c.State.Room(r.In) != room {
			continue
		}
		c := c.In(room)
		var found []string
		for _, th := range room.Things {
			v, en := th.Now()
			if en == nil || !slices.ContainsFunc(r.Asked, func(w string) bool {
				return w == topic.Stem(v.What) || slices.Contains(strings.Fields(th.Name+" "+v.Label), w)
			}) {
				continue
			}
			text := fmt.Sprintf("%s (%s)", th.Name, c.Coords(v.Surface, th.At()))
			if st, _ := th.Stands(); st != site.Noted && !v.Framed {
				text += " " + string(st)
			}
			found = append(found, text)
		}
		for _, rt := range room.Routes {
			if v, en := rt.Now(); en != nil && (slices.Contains(r.Asked, topic.Stem(v.What)) || slices.Contains(r.Asked, rt.Name)) {
				found = append(found, c.RouteText(rt))
			}
		}
		if len(found) > 0 {
			lines = append(lines, room.Name+": "+strings.Join(say.Most(found, 4), ", "))
		}
	}
	return lines[:min(len(lines), mostNotes)]
}

// surfaces are words of the work that nearly every note has.
var surfaces = map[string]bool{"ceiling": true, "wall": true, "board": true, "boarded": true, "sheet": true, "drywall": true}

// tells reports whether an entry stands and says something of the job.
func tells(en *site.Entry) bool {
	switch en.Body.(type) {
	case event.Strike, event.Here:
		return false
	}
	return en.Text != "" && !en.Struck() && !answer.Hidden(en.Body)
}

// besides adds to the answer of a question what the crew noted on it in their own words: instead of it, if it
// is that nothing of the name is known, and below it, if it is about a thing or cannot be worked out yet.
func besides(c answer.Ctx, r answer.Reply) answer.Reply {
	switch c.Line.Entry.(type) {
	case boards.BoardsLeft, boards.Order:
		if due := toCome(c); due != "" && !r.Over && !r.Work {
			r = r.After(func(r answer.Reply) answer.Reply {
				r.Line(due)
				return r
			})
		}
	}
	words, all := c.Words, true
	instead, refused := false, r.Refuse != nil || len(c.State.Standing()) == 0
	switch e := c.Line.Entry.(type) {
	case record.Find, record.Apart, record.Log:
		if _, log := e.(record.Log); log && r.Refuse == nil { // all of it is there
			return r
		}
		instead = true
	case record.List:
		if e.What == "size" && !refused {
			return r
		}
		if e.What == "" && answer.Refers(c.Words) {
			words, all = c.Message, false
		}
	case record.AnyOver, hanging.Reach, hanging.NextCoat, boards.Layout, boards.Cuts, boards.Planned, record.Clear, record.Reachable, record.Passed, record.Between:
	case boards.BoardsLeft, boards.Order, hanging.Screws, hanging.Ready, record.Status, record.Covered:
		if !refused {
			return r
		}
	default:
		return r
	}
	switch {
	case r.Over || r.Work || r.Ask != nil:
	case instead && r.Refuse != nil:
		found := find(c, c.Words, c.State.Told(), false)
		if _, log := c.Line.Entry.(record.Log); !log {
			found = orWaiting(c, c.Words, found, false)
		}
		if len(found.Found) > 0 && strings.HasPrefix(r.Refuse.Want, answer.NoNote) {
			return answer.Tell("notes", nil, strings.Join(append([]string{found.Head()}, Lines(c, found)...), "\n"))
		}
	default:
		found := find(c, words, c.State.Told(), all && !refused)
		switch c.Line.Entry.(type) {
		case record.AnyOver, hanging.Reach, record.List:
			found = orWaiting(c, words, found, all && !refused)
		}
		return r.After(func(r answer.Reply) answer.Reply {
			for _, line := range Lines(c, found)[:min(len(found.Found), mostBeside)] {
				if !found.Away && !strings.Contains(r.Text, line) && !slices.ContainsFunc(r.Notes, func(n message.Note) bool { return strings.Contains(n.Text, line) }) {
					r.Line(line)
				}
			}
			return r
		})
	}
	return r
}

// Lines are the notes found.
func Lines(c answer.Ctx, r Recalled) []string {
	return say.Each(r.Found, func(en *site.Entry) string { return Quote(c, en) })
}

// Quote is a note in the crew's words, or what is not one yet: who said what when.
func Quote(c answer.Ctx, en *site.Entry) string {
	if en.Seq == 0 {
		return fmt.Sprintf("still asked or held: %s %s: \"%s\"", en.Who, c.Clock(en.Sent), shortened(en))
	}
	return fmt.Sprintf("%d %s %s: \"%s\"", en.Seq, en.Who, c.Clock(en.Sent), shortened(en))
}

// Unplanned quotes the newest note in the crew's own words that tells of boards hung in one of the rooms: what it
// says of them is not on the plan. It returns "" if there is none.
func Unplanned(c answer.Ctx, rooms []*site.Room) string {
	return newest(c, "not on the plan, so there may be more: ", func(en *site.Entry) bool {
		return (en.Body.Kind() == "stock" || ofBoards.MatchString(en.Text) && areUp.MatchString(en.Text) || overIt.MatchString(en.Text)) && slices.ContainsFunc(rooms, func(r *site.Room) bool {
			return r.Name == en.Room || strings.Contains(lex.Lower(en.Text), r.Name) && surelyUp.MatchString(en.Text)
		})
	})
}

// newest quotes the newest note in the crew's own words that fits, behind what it is; "" if there is none.
func newest(c answer.Ctx, what string, fits func(*site.Entry) bool) string {
	told := c.State.Told()
	for _, en := range slices.Backward(told[max(len(told)-mostScanned, 0):]) {
		if tells(en) && fits(en) {
			return what + Quote(c, en)
		}
	}
	return ""
}

var (
	ofBoards = regexp.MustCompile(`(?i)\b(?:rows?|boards?|sheets?|lids?|ceiling|drywall|slopes?|flat)\b`)
	surelyUp = regexp.MustCompile(`(?i)\b(?:up|hung|boarded|lidded|closed|sheeted)\b`)
	overIt   = regexp.MustCompile(`(?i)\b(?:cover(?:ed|s)?|bur(?:y|ied)|uncut|(?:not|isn'?t|aren'?t|never) cut|cut\b.* (?:except|but))\b`)
	areUp    = regexp.MustCompile(`(?i)\b(?:up|on|done|hung|boarded|lidded|closed|sheeted)\b`)
)

// toCome quotes the newest note of boards that are still to come, if none came since. It returns "" if there is none.
func toCome(c answer.Ctx) string {
	for _, en := range slices.Backward(c.State.Entries[max(len(c.State.Entries)-mostScanned, 0):]) {
		switch b := en.Body.(type) {
		case event.Stock:
			if b.How == "delivered" && !en.Struck() && !later.MatchString(en.Text) {
				return ""
			}
		case event.Note:
			if tells(en) && later.MatchString(b.Text) && ofDelivery.MatchString(b.Text) {
				return "not here yet: " + Quote(c, en)
			}
		}
	}
	return ""
}

var (
	later      = regexp.MustCompile(`(?i)\b(?:tomorrow|tmrw|tonight|later|after lunch|next week|(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?)\b|\b(?:is|are) coming\b`)
	ofDelivery = regexp.MustCompile(`(?i)\b(?:truck|driver|yard|supplier|deliver\w*|boards?|sheets?|drywall|eights|tens|twelves|rest|other \d+|\d+ more|4 ?x ?\d+)\b`)
)

// longestQuote is the number of characters of a note that an answer shows.
const longestQuote = 160

func shortened(en *site.Entry) string {
	text := say.FirstLine(en.Text)
	switch b := en.Body.(type) {
	case event.Note:
		text = b.Text
	case event.Snag:
		text = b.Text
	}
	if r := []rune(text); len(r) > longestQuote {
		return string(r[:longestQuote]) + " …"
	}
	return text
}

// Head is the first line of an answer: "2 notes on shutoff in laundry:".
func (r Recalled) Head() string {
	about := ""
	if r.About != "" {
		about = " on " + r.About
	}
	switch n := len(r.Found); {
	case n == 0:
		return "nothing noted" + about + r.Where()
	case r.Away:
		return "nothing noted" + about + r.Where() + "; elsewhere:"
	default:
		return fmt.Sprintf("%d %s%s%s:", n, say.Plural(n, "note"), about, r.Where())
	}
}

// Where is the room with "in" before it, "" if none was named.
func (r Recalled) Where() string {
	if r.In == "" {
		return ""
	}
	return " in " + r.In
}

// alike reports whether one of two words is a slip for the other. A word of the work is none.
func alike(asked, noted string) bool {
	return !topic.Works(asked) && !topic.Day[noted] && grammar.Nearest(noted, []string{asked}) != ""
}

// Board quotes the newest note in the crew's own words that tells of a kind of board: it is not on the plan.
// It returns "" if there is none.
func Board(c answer.Ctx) string {
	return newest(c, "not on the plan: ", func(en *site.Entry) bool {
		return boardKinds.MatchString(en.Text) || thick.MatchString(en.Text) && boarded.MatchString(en.Text)
	})
}

// boardKinds matches a type of board; thick and boarded match a thickness and what has it.
var (
	boardKinds = regexp.MustCompile(`(?i)\b(?:type [xc]|moisture|green ?board|purple ?board|fire ?board|fire[ -]rated board|cement board|mou?ld resistant|sound ?board)\b`)
	thick      = regexp.MustCompile(`(?i)\b(?:1/2|5/8|3/8|half[ -]inch|five eighths|(?:9\.5|12\.5|15) ?mm)\b`)
	boarded    = regexp.MustCompile(`(?i)\b(?:boards?|sheets?|lid|ceilings?|walls?|room|everywhere)\b`)
)
