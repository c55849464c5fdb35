package log

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/message"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/hanging"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/topic"
)

// noteText saves a note word for word.
func noteText(c answer.Ctx, e record.Note) answer.Reply {
	b := event.Note{Text: e.Text}
	if c.Room != nil && (c.Line.Room != "" || c.Entered == "") { // else it is of the room they are in, which has no size yet
		b.Room = c.Room.Name
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		if !e.Kept {
			return c.Noted(en, "note", nil, e.Text)
		}
		text := fmt.Sprintf("kept as note %d, not on the plan: %s", en.Seq, say.FirstWords(e.Text))
		if c.Unread != "" {
			text = fmt.Sprintf("the rest kept as note %d, not on the plan: %s", en.Seq, c.Unread)
		}
		r := answer.Tell("note", nil, text)
		if e.Hint != "" {
			r.Line("to have it on the plan: " + e.Hint)
		} else if e.Wrong != "" {
			r.Line(e.Wrong)
		}
		return r
	})
}

// snag notes a defect that has to be corrected.
func snag(c answer.Ctx, e record.Snag) answer.Reply {
	if e.Fixed > 0 {
		return snagFixed(c, uint64(e.Fixed))
	}
	b := event.Snag{Text: e.Text, Fixed: e.Done}
	if c.Room != nil {
		b.Room = c.Room.Name
	}
	if e.Done {
		return mended(c, b)
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		return c.Noted(en, "snag", nil, strings.TrimSpace(fmt.Sprintf("%s snag: %s; open until `snag %d fixed`", b.Room, e.Text, en.Seq)))
	})
}

func snagFixed(c answer.Ctx, seq uint64) answer.Reply {
	var open []string
	for _, en := range c.State.OpenSnags() {
		if en.Seq == seq {
			return c.Keep(event.SnagFixed{Seq: seq}, "snag", fmt.Sprintf("snag %d fixed: %s", seq, en.Body.(event.Snag).Text))
		}
		open = append(open, fmt.Sprint(en.Seq))
	}
	if len(open) == 0 {
		return answer.No(fmt.Sprintf("no open snag %d; none is open", seq), "snag screw missed strap 4 row 2")
	}
	return answer.No(fmt.Sprintf("no open snag %d; open are %s", seq, strings.Join(say.Most(open, 12), ", ")), "snag "+open[0]+" fixed")
}

// mended takes what is told as mended off the list: the snag or the task that has each of its words of the work. With
// only some of them, or of several, it is asked which; without any it is kept as done.
func mended(c answer.Ctx, b event.Snag) answer.Reply {
	about := slices.DeleteFunc(say.Each(topic.Telling(b.Text), topic.Stem), func(w string) bool { return topic.Outcome[w] || topic.Day[w] })
	var choices []grammar.Choice
	all := false
	is := func(text string, done grammar.Entry) {
		words := say.Each(topic.Telling(text), topic.Stem)
		lacks := slices.DeleteFunc(slices.Clone(about), func(w string) bool { return slices.Contains(words, w) })
		if len(lacks) < len(about) {
			all, choices = !slices.ContainsFunc(lacks, topic.Works), append(choices, c.As(say.FirstWords(text), done))
		}
	}
	for _, en := range c.State.OpenSnags() {
		if en.Room == b.Room {
			is(en.Body.(event.Snag).Text, record.Snag{Fixed: int(en.Seq)})
		}
	}
	if c.Room != nil {
		for _, k := range c.Room.Checks(nil) {
			if k.Open() {
				is(k.What, hanging.Check{What: fmt.Sprint(k.Entry.Seq), State: "ok"})
			}
		}
	}
	switch {
	case len(choices) == 0 || c.Line.Sure:
		return c.Keep(b, "snag", strings.TrimSpace(b.Room+" snag fixed: "+b.Text))
	case len(choices) == 1 && all:
		return c.Answer(choices[0].Lines[0].Entry)
	}
	return answer.Ask("which one is done?", "", append(choices, c.Sure("none of these", record.Snag{Text: b.Text, Done: true}))...)
}

// hit notes that something was hit, and says first what to do.
func hit(c answer.Ctx, e record.Hit) answer.Reply {
	b := event.Hit{What: e.What}
	if c.Room != nil {
		b.Room = c.Room.Name
	}
	first := map[string]string{"water": answer.CautionWater, "cable": answer.CautionCable, "gas": answer.CautionGas,
		"pipe": "smell gas? " + answer.CautionGas + ". Water: " + answer.CautionWater}[e.What]
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		r := answer.Tell("hit", nil, fmt.Sprintf("%s: %s. Tell the lead, mark the place. Noted %d", strings.ToUpper(e.What), first, en.Seq))
		r.Notes = append(r.Notes, message.Note{Kind: "caution", Text: first, Said: true})
		return r
	})
}

// mostExplained is the number of lines that help explains. More are only shown.
const mostExplained = 4

// help lists the subjects, the lines of one of them, or explains one word.
func help(c answer.Ctx, e record.Help) answer.Reply {
	var lines []string
	if e.Topic == "" {
		lines = say.Each(read.Subjects, func(of read.Subject) string { return of.Name + ": " + of.Rows[0].Say(c.Units) })
		return answer.Tell("help", nil, "text it as you would say it; `help boards` shows more of one of these:\n"+strings.Join(lines, "\n"))
	}
	topic := read.Topic(e.Topic)
	if len(topic) == 0 {
		var known []string
		for _, k := range read.Commands() {
			known = append(known, k.Words...)
		}
		want := fmt.Sprintf("%q is not a word I know", e.Topic)
		if n := grammar.Nearest(e.Topic, known); n != "" {
			want += fmt.Sprintf("; did you mean %s?", n)
		}
		return answer.Nothing(want, "help")
	}
	for _, k := range topic {
		line := k.Say(c.Units)
		if len(topic) > mostExplained {
			lines = append(lines, line)
			continue
		}
		line = k.About + ". " + line
		if len(k.Words) > 1 {
			line += " (also: " + strings.Join(k.Words[1:], ", ") + ")"
		}
		lines = append(lines, line)
	}
	return answer.Tell("help", nil, strings.Join(lines, "\n"))
}
