package bot

import (
	"fmt"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/site"
	"strapline/grammar"
)

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
	say := map[string]string{"water": cautionWater, "cable": cautionCable, "gas": cautionGas,
		"pipe": "smell gas? " + cautionGas + ". Water: " + cautionWater}[e.What]
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
