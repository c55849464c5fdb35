package close

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/ready"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/hanging"
	"strapline/grammar/record"
)

// reachable says what has to stay reachable, or whether a thing has to, and how it is.
func reachable(c answer.Ctx, e record.Reachable) answer.Reply {
	if e.Of != "" {
		th, stop := c.OneThing(e.Of, func(n string) grammar.Entry { return record.Reachable{Of: n} })
		if stop != nil {
			return *stop
		}
		return answer.Tell("reachable", nil, reachableText(c.In(th.Room), th))
	}
	var lines []string
	for _, r := range c.SpeakOf() {
		for _, th := range r.Things {
			if c := c.In(r); ready.MustStay(c, th) {
				lines = append(lines, reachableText(c, th))
			}
		}
	}
	head := fmt.Sprintf("%d noted that %s to stay reachable:", len(lines), map[bool]string{true: "has", false: "have"}[len(lines) == 1])
	if len(lines) == 0 {
		head = "nothing noted that has to stay reachable: that is not the same as nothing. Junction boxes, valves and cleanouts have to, by local code"
	}
	return answer.Tell("reachable", nil, strings.Join(say.MostLines(append([]string{head}, lines...), "name a room: `kitchen: what stays reachable`"), "\n"))
}

// reachableText says whether a thing has to stay reachable, where it is, and what gives access to it.
func reachableText(c answer.Ctx, th *site.ThingState) string {
	v, _ := th.Now()
	st, over := th.Stands()
	how := map[site.Standing]string{site.Open: "it is open"}[st]
	if st == site.Covered {
		how = fmt.Sprintf("covered by %s since %s, not cut", say.Piece(over), c.Clock(over.Entry.Sent))
	}
	name := fmt.Sprintf("%s %s (%s)", c.Room.Name, th.Name, c.Coords(v.Surface, th.At()))
	if !ready.MustStay(c, th) {
		text := name + ": nobody noted that it has to stay reachable"
		if how != "" {
			text += "; " + how
		}
		if answer.KindOf(v.What).Electric {
			text += ". Splices never get buried: the electrician and local code decide"
		}
		return text
	}
	if panel, all := ready.PanelOver(c, th); all && panel != nil {
		how = "reached by " + panel.Name
	}
	if why := ready.Unreachable(c, th); why != "" {
		how = strings.TrimSpace(strings.TrimPrefix(why, ":")) + map[bool]string{true: "; " + how}[how != ""]
	}
	return name + " has to stay reachable: " + how
}

// passed says how a check stands in each room, by the words for it.
func passed(c answer.Ctx, e record.Passed) answer.Reply {
	var lines []string
	for _, r := range c.SpeakOf() {
		var states []string
		for _, k := range r.Checks(slices.Concat(ready.CheckNames(), ready.Stages)) {
			if !strings.Contains(k.What, e.What) && (e.What != "coats" || k.Entry == nil || !slices.Contains(ready.Stages, k.What)) {
				continue
			}
			text := k.What + " "
			if k.Entry == nil || k.State == "" {
				text += "not passed yet, nothing noted"
			} else {
				text += fmt.Sprintf("%s%s (%s)", k.State, map[bool]string{true: ": " + k.Reason}[k.Reason != ""], c.ByWhen(k.Entry))
			}
			states = append(states, text)
		}
		for _, en := range c.State.Entries {
			if b, is := en.Body.(event.Coat); is && e.What == "coats" && b.N > 0 && b.Room == r.Name && !en.Struck() {
				states = append(states, fmt.Sprintf("coat %d (%s)", b.N, c.ByWhen(en)))
			}
		}
		if len(states) > 0 {
			lines = append(lines, r.Name+": "+strings.Join(states, "; "))
		}
	}
	if len(lines) == 0 && e.What == "coats" {
		return c.Answer(hanging.NextCoat{})
	}
	if len(lines) == 0 {
		return answer.Nothing(fmt.Sprintf("no check named %s, and no room with one", e.What), "ready")
	}
	return answer.Tell("passed", nil, strings.Join(say.MostLines(lines, "name a room: `bath: state of insulation`"), "\n"))
}
