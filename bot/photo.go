package bot

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

// photos puts the pictures of a message to the note they came with. Without a
// note they wait for one, and the sender is asked.
func (j *Job) photos(in In, out *Out) error {
	for i, a := range out.Answers {
		if !a.Saved {
			continue
		}
		t := j.turn(in, in.Text, "")
		if t.attach(a.Seq, in.Photos); t.err != nil {
			return t.err
		}
		out.Answers[i].Reply += "\nphoto kept with it"
		return nil
	}
	if len(out.Answers) > 0 {
		return nil // a question or a refusal comes first
	}
	t := j.turn(in, strings.TrimSpace("(photo) "+in.Text), "")
	t.askPhoto(in.Photos)
	out.Answers = append(out.Answers, t.ans)
	return t.err
}

func (t *turn) attach(seq uint64, links []string) {
	_, t.err = t.j.save(site.Event{
		Who: t.in.Who, Sent: t.sent.UnixMilli(), Got: t.j.opt.Now().UnixMilli(), ID: t.in.ID, Text: t.said,
		Body: site.Photo{Of: seq, Links: links},
	})
}

func (t *turn) askPhoto(links []string) {
	t.ask(fmt.Sprintf("photo %s: which room and wall, and what gets covered? Send the note it belongs to", t.clock(t.sent.UnixMilli())), "")
	if p := t.j.pending[strings.ToLower(t.in.Who)]; p != nil {
		p.Photos = links
		t.keep(p)
	}
}

// photoNote takes the message after a picture as its note: an entry as it is,
// or words that name a room or a wall as a note word for word.
func (t *turn) photoNote(open *pending, text string, err error) {
	switch {
	case err == nil:
	case t.namesPlace(text):
		text = "note " + text
		if _, err := t.parse(text, false); err != nil {
			return
		}
	case errors.Is(err, grammar.ErrChatter):
		return // the question stays open
	}
	t.close()
	t.run(text)
	if t.err == nil && t.ans.Saved {
		if t.attach(t.ans.Seq, open.Photos); t.err == nil {
			t.ans.Reply += "\nphoto of " + t.clock(time.UnixMilli(open.Sent).UnixMilli()) + " kept with it"
		}
		return
	}
	if t.err == nil && !t.ans.asks() {
		t.j.pending[strings.ToLower(t.in.Who)] = open
		t.keep(open)
	}
}

// namesPlace reports whether words name a room, a wall or the ceiling.
func (t *turn) namesPlace(text string) bool {
	for w := range strings.FieldsFuncSeq(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' || r == '.' || r == ':' }) {
		if t.st.Room(w) != nil || place.Surface(w).IsWall() || w == "ceiling" || w == "wall" {
			return true
		}
	}
	return false
}

// photosOf lists the pictures that belong to any note of the thing.
func (t *turn) photosOf(th *site.ThingState) []string {
	var out []string
	for _, en := range th.Notes() {
		if !en.Struck() {
			out = append(out, t.st.Photos(en.Seq)...)
		}
	}
	return out
}
