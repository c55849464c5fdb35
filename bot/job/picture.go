package job

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
)

// picture is one message's pictures that came without a note and wait for it.
type picture struct {
	ID    string   `json:"id,omitempty"` // of the thread that asks for it
	Sent  int64    `json:"sent"`
	Links []string `json:"links"`
}

// photos puts the pictures of a message to the note they came with. Without a
// note they wait for one, and the sender is asked.
func (d *desk) photos(in In, out *Out) error {
	for i, a := range out.Answers {
		if !a.Saved {
			continue
		}
		t := d.turn(in, in.Text, "")
		t.save(site.Photo{Of: a.Seq, Links: in.Photos})
		out.Answers[i].Reply += "\nphoto kept with it"
		return t.err
	}
	t := d.turn(in, strings.TrimSpace("(photo) "+in.Text), "")
	t.await(append(slices.Clip(d.pictures[t.who()]), picture{t.threadID(), in.Sent.UnixMilli(), in.Photos}))
	if len(out.Answers) > 0 || t.err != nil {
		return t.err // a question or a refusal comes first; the picture waits for what comes of it
	}
	t.ans.Kind, t.ans.Ask = kindAsk, []string{}
	t.ans.Reply = fmt.Sprintf("photo %s: which room and wall, and what gets covered? Send the note it belongs to", t.clock(in.Sent.UnixMilli()))
	out.Answers = append(out.Answers, t.ans)
	return nil
}

func (t *turn) clock(ms int64) string { return t.ctx().Clock(ms) }

// await makes these the sender's waiting pictures.
func (t *turn) await(all []picture) {
	t.d.pictures[t.who()] = all
	t.err = errors.Join(t.err, t.d.mark(pictureMark+t.who(), all))
	t.d.batch.Pending[t.who()] = t.row() // an older log keeps them there
}

// row is the sender's open question as a row, nil when there is none.
func (t *turn) row() []byte {
	if q := t.d.pending[t.who()]; q != nil {
		t.keep(q)
		return t.d.batch.Pending[t.who()]
	}
	return nil
}

// pictures are those that wait for this message's note: those asked about in the
// thread it stands in, else all of the sender's.
func (t *turn) pictures() []picture {
	all := t.d.pictures[t.who()]
	if t.in.Thread == "" {
		return all
	}
	own := slices.DeleteFunc(slices.Clone(all), func(p picture) bool { return p.ID != t.in.Thread })
	if len(own) > 0 {
		return own
	}
	return nil
}

// pictureNote takes the message after pictures as their note: an entry as it is, the
// name of a thing that is noted, or words that name a room or a wall as a note word
// for word.
func (t *turn) pictureNote(waiting []picture, text string, line grammar.Line, err error) {
	if th := t.named(text); th != nil && (t.in.Thread != "" || err != nil) {
		_, en := th.Now()
		t.attach(en.Seq, waiting)
		t.ans.Kind, t.ans.Room = "photo", th.Room.Name
		t.ans.Reply = photosOf(t, waiting) + " kept with " + th.Name
		return
	}
	open := t.d.pending[t.who()]
	mine := open != nil && (t.in.Thread == "" || open.ID == "" || t.in.Thread == open.ID)
	if err != nil && t.namesPlace(text) {
		if as, noteErr := t.ctx().Parse("note "+text, false); noteErr == nil {
			line, err = as, nil
		}
	}
	t.read(text, open, mine, nil, line, err)
	if t.err == nil && t.ans.Saved && !t.d.wait {
		t.attach(t.ans.Seq, waiting)
		t.ans.Reply += "\n" + photosOf(t, waiting) + " kept with it"
	}
}

// attach keeps pictures with an entry; they wait no longer.
func (t *turn) attach(seq uint64, waiting []picture) {
	var links []string
	for _, p := range waiting {
		links = append(links, p.Links...)
	}
	room, saved := t.ans.Room, t.ans.Seq
	t.save(site.Photo{Of: seq, Links: links})
	t.ans.Room, t.ans.Seq = room, saved
	left := slices.DeleteFunc(slices.Clone(t.d.pictures[t.who()]), func(p picture) bool {
		return slices.ContainsFunc(waiting, func(w picture) bool { return w.ID == p.ID && w.Sent == p.Sent })
	})
	t.await(left)
}

func photosOf(t *turn, waiting []picture) string {
	if len(waiting) > 1 {
		return fmt.Sprintf("%d photos", len(waiting))
	}
	return "photo of " + t.clock(time.UnixMilli(waiting[0].Sent).UnixMilli())
}

// named is the one thing of the job that the text names and nothing more.
func (t *turn) named(text string) *site.ThingState {
	if found := t.d.state.Find(strings.ToLower(strings.TrimSpace(text))); len(found) == 1 {
		return found[0]
	}
	return nil
}

// namesPlace reports whether words name a room, a wall or the ceiling.
func (t *turn) namesPlace(text string) bool {
	for w := range strings.FieldsFuncSeq(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' || r == '.' || r == ':' }) {
		if t.d.state.Room(w) != nil || place.Surface(w).IsWall() || w == "ceiling" || w == "wall" {
			return true
		}
	}
	return false
}
