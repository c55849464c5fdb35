package bot

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar"
)

// The cautions, where the work can hurt. Each defers to local code and the
// licensed trade; none names a value that a code sets.
const (
	cautionScrew = "Look for pipe and wire before you screw: only what was noted is known here"
	cautionWire  = "Power off and tested dead before you cut; wiring is the electrician's, by local code"
	cautionDuct  = "Cut shallow: the board's thickness, no deeper"
	cautionOld   = "before cutting or sanding old ceilings and paint have them tested for asbestos and lead; local rules apply"
	cautionWater = "leave the screw in until the main is off. Then call the plumber"
	cautionCable = "breaker off and locked, then open it up. The electrician repairs it, by local code"
	cautionGas   = "everybody out, no switches, shut off outside if you can, call the gas company from outside"
)

// cautionCut is the caution for cutting open a covered thing.
func cautionCut(what string) string {
	switch what {
	case "light", "box", "outlet", "switch", "fan", "speaker", "smoke alarm", "camera", "detector", "junction box", "thermostat", "low voltage":
		return cautionWire
	}
	return cautionDuct
}

func (t *turn) noteText(e grammar.Note) {
	b := site.Note{Text: e.Text}
	if t.room != nil {
		b.Room = t.room.Name
	}
	if t.save(b) != nil {
		t.noted("note", nil, e.Text)
	}
}

func (t *turn) snag(e grammar.Snag) {
	if e.Fixed > 0 {
		t.snagFixed(uint64(e.Fixed))
		return
	}
	b := site.Snag{Text: e.Text}
	if t.room != nil {
		b.Room = t.room.Name
	}
	if t.save(b) == nil {
		return
	}
	where := ""
	if b.Room != "" {
		where = b.Room + " "
	}
	t.noted("snag", nil, fmt.Sprintf("%ssnag: %s; open until `snag %d fixed`", where, e.Text, t.ans.Seq))
}

func (t *turn) snagFixed(seq uint64) {
	for _, en := range t.st.OpenSnags() {
		if en.Seq == seq {
			if t.save(site.SnagFixed{Seq: seq}) != nil {
				t.noted("snag", nil, fmt.Sprintf("snag %d fixed: %s", seq, en.Body.(site.Snag).Text))
			}
			return
		}
	}
	var open []string
	for _, en := range t.st.OpenSnags() {
		open = append(open, fmt.Sprint(en.Seq))
	}
	if len(open) == 0 {
		t.no(fmt.Sprintf("no open snag %d; none is open", seq), "snag screw missed strap 4 row 2")
		return
	}
	t.no(fmt.Sprintf("no open snag %d; open are %s", seq, strings.Join(open, ", ")), "snag "+open[0]+" fixed")
}

func (t *turn) hit(e grammar.Hit) {
	b := site.Hit{What: e.What}
	if t.room != nil {
		b.Room = t.room.Name
	}
	if t.save(b) == nil {
		return
	}
	say := map[string]string{"water": cautionWater, "cable": cautionCable, "gas": cautionGas}[e.What]
	// The caution comes first here: it is the answer.
	t.ans.Kind = "hit"
	t.ans.Notes = append(t.ans.Notes, Note{"caution", say})
	t.ans.Reply = fmt.Sprintf("%s: %s. Tell the lead, mark the place. Noted %d", strings.ToUpper(e.What), say, t.ans.Seq)
}

func sortedKeys(set map[length.Length]bool) []length.Length {
	out := make([]length.Length, 0, len(set))
	for l := range set {
		out = append(out, l)
	}
	slices.Sort(out)
	return out
}

// help lists the command table, or explains one word of it.
func (t *turn) help(e grammar.Help) {
	var lines []string
	if e.Topic == "" {
		for _, c := range grammar.Commands() {
			lines = append(lines, c.Example)
		}
		t.tell("help", nil, "for example (`help hung` tells more of one word):\n"+strings.Join(lines, "\n"))
		return
	}
	topic := grammar.Topic(e.Topic)
	if len(topic) == 0 {
		var known []string
		for _, c := range grammar.Commands() {
			known = append(known, c.Words...)
		}
		want := fmt.Sprintf("%q is no word of mine", e.Topic)
		if n := grammar.Nearest(e.Topic, known); n != "" {
			want += fmt.Sprintf("; did you mean %s?", n)
		}
		t.no(want, "help")
		t.ans.Reply = strings.TrimPrefix(t.ans.Reply, "not saved: ")
		return
	}
	for _, c := range topic {
		line := c.About + ". " + c.Example
		if len(c.Words) > 1 {
			line += " (also: " + strings.Join(c.Words[1:], ", ") + ")"
		}
		lines = append(lines, line)
	}
	t.tell("help", nil, strings.Join(lines, "\n"))
}
