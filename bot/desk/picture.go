package desk

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/message"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/place"
	"strapline/calc/site"
)

// Waiting is the pictures of one message that wait for their note.
type Waiting struct {
	ID    string   `json:"id,omitempty"`   // thread in which the note is asked for
	Post  string   `json:"post,omitempty"` // id of the message
	Sent  int64    `json:"sent"`
	Links []string `json:"links"`
}

// photos attaches the pictures of a message to the note they came with. Without a note they wait for one,
// and the sender is asked for it or told.
func (d *Desk) photos(in message.In, out *message.Out) error {
	for i, a := range out.Answers {
		if t := d.turn(in, in.Text, ""); t.takesPhotos(a) {
			out.Answers[i].Reply += "\nphoto kept with it"
			t.save(event.Photo{Of: a.Seq, Links: in.Photos, Post: cmp.Or(in.Of, in.ID)})
			return t.err
		}
	}
	t := d.turn(in, strings.TrimSpace("(photo) "+in.Text), "")
	t.await(t.who(), append(slices.Clip(d.Pictures[t.who()]), Waiting{t.threadID(), in.ID, in.Sent.UnixMilli(), in.Photos}))
	if n := len(out.Answers); n > 0 {
		out.Answers[n-1].Reply += "\nphoto waits for its note"
		return t.err
	}
	t.ans.Kind, t.ans.Ask = message.KindAsk, []string{}
	t.ans.Reply = fmt.Sprintf("photo %s: which room and wall, and what gets covered? Send the note it belongs to", t.clock(in.Sent.UnixMilli()))
	if n := len(d.Pictures[t.who()]); n > 1 {
		t.ans.Reply += fmt.Sprintf(" (%d photos wait)", n)
	}
	out.Answers = append(out.Answers, t.ans)
	return t.err
}

func (t *turn) clock(ms int64) string { return t.ctx().Clock(ms) }

// takesPhotos reports whether pictures can belong to what an answer saved.
func (t *turn) takesPhotos(a message.Answer) bool {
	if !a.Saved {
		return false
	}
	switch t.d.State.Entry(a.Seq).Body.(type) {
	case event.Strike, event.Here, event.UnitsSet:
		return false
	}
	return true
}

// await sets the waiting pictures of a sender.
func (t *turn) await(who string, all []Waiting) {
	t.d.Pictures[who] = all
	t.err = errors.Join(t.err, t.d.mark(pictureMark+who, all))
	if t.d.Pending[who] == nil { // an older log keeps a picture as a question
		t.d.Batch.Pending[who] = nil
	}
}

// waiting returns the waiting pictures that the message can refer to, and whose they are: those of its
// thread, or of the edited message itself, whoever sent them; otherwise all of the sender's.
func (t *turn) waiting() (whose string, list []Waiting) {
	for _, who := range append([]string{t.who()}, slices.Sorted(maps.Keys(t.d.Pictures))...) {
		for _, p := range t.d.Pictures[who] {
			if t.in.Thread != "" && p.ID == t.in.Thread || t.in.Of != "" && p.Post == t.in.Of {
				list = append(list, p)
			}
		}
		if len(list) > 0 {
			return who, list
		}
	}
	return t.who(), t.d.Pictures[t.who()]
}

// attach attaches waiting pictures to an entry and returns which they were, in words.
func (t *turn) attach(seq uint64, whose string, list []Waiting) string {
	for _, p := range list {
		t.save(event.Photo{Of: seq, Links: p.Links, Post: p.Post})
	}
	t.unwait(whose, list)
	from, to := t.clock(list[0].Sent), t.clock(list[len(list)-1].Sent)
	switch {
	case len(list) == 1:
		return "photo of " + from
	case from == to:
		return fmt.Sprintf("%d photos of %s", len(list), from)
	}
	return fmt.Sprintf("%d photos (%s to %s)", len(list), from, to)
}

func (t *turn) unwait(whose string, list []Waiting) {
	t.await(whose, slices.DeleteFunc(slices.Clone(t.d.Pictures[whose]), func(p Waiting) bool {
		return slices.ContainsFunc(list, func(q Waiting) bool { return q.Post == p.Post && q.Sent == p.Sent && slices.Equal(q.Links, p.Links) })
	}))
}

// takeOff drops the waiting pictures of a message that was deleted.
func (t *turn) takeOff() bool {
	whose, list := t.waiting()
	list = slices.DeleteFunc(slices.Clone(list), func(p Waiting) bool { return p.Post != t.in.Of })
	if len(list) == 0 {
		return false
	}
	t.unwait(whose, list)
	return true
}

// lose detaches the pictures of a deleted message from their entries and returns those entries, in words.
func (t *turn) lose() (of []string) {
	if t.in.Of == "" {
		return nil
	}
	said := t.said
	t.said = "(photo deleted)"
	for _, e := range t.d.State.PhotosFrom(t.in.Of) {
		of = append(of, fmt.Sprintf("entry %d", e.Body.(event.Photo).Of))
		t.save(event.Strike{Seq: e.Seq, Undo: true}) // no undo brings it back
	}
	t.said = said
	return slices.Compact(of)
}

// claim attaches the waiting pictures to the note that was saved.
func (t *turn) claim() {
	if t.err != nil || t.d.wait || !t.takesPhotos(t.ans) {
		return
	}
	if whose, list := t.waiting(); len(list) > 0 {
		t.ans.Reply += "\n" + t.attach(t.ans.Seq, whose, list) + " kept with it"
	}
}

// labelled takes the name of a known thing or run as the label of the waiting pictures. In their thread it
// takes ambiguous words too, and asks for one name.
func (t *turn) labelled(text string) bool {
	whose, list := t.waiting()
	name := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	threaded := len(list) > 0 && t.in.Thread != "" && list[0].ID == t.in.Thread
	if len(list) == 0 || !threaded && !t.d.State.HasName(name) {
		return false
	}
	var seqs []uint64
	var names, rooms []string
	add := func(name string, r *site.Room, en *site.Entry) {
		seqs, names, rooms = append(seqs, en.Seq), append(names, name), append(rooms, r.Name)
	}
	for _, th := range t.d.State.Find(name) {
		_, en := th.Now()
		add(th.Name, th.Room, en)
	}
	for _, r := range t.d.State.Standing() {
		if rt := r.Route(name); rt != nil {
			_, en := rt.Now()
			add(name, r, en)
		}
	}
	if here := t.d.State.RoomOf(t.in.Who); here != nil && len(seqs) > 1 {
		var i []int // those in the sender's room
		for k, r := range rooms {
			if r == here.Name {
				i = append(i, k)
			}
		}
		if len(i) == 1 {
			seqs, names = seqs[i[0]:i[0]+1], names[i[0]:i[0]+1]
		}
	}
	switch len(seqs) {
	case 0:
		return false
	case 1:
		t.show(answer.Tell("photo", nil, t.attach(seqs[0], whose, list)+fmt.Sprintf(" kept with %s (entry %d)", names[0], seqs[0])))
	default:
		full := rooms[0] + " " + names[0]
		t.show(answer.Reply{Kind: "error", Refuse: &answer.Refusal{
			Want: "one name", Hint: full, Say: fmt.Sprintf("photo not kept: %q could be %d things. Say which, as `%s`", say.FirstWords(text), len(seqs), full),
		}})
	}
	return true
}

// captions reports whether words that are no entry become the note of the sender's waiting pictures,
// because they name a room or a wall.
func (t *turn) captions(text string) bool {
	if whose, list := t.waiting(); len(list) == 0 || whose != t.who() || !t.namesPlace(text) {
		return false
	}
	_, err := t.ctx().Parse("note "+text, false)
	return err == nil
}

// namesPlace reports whether words name a room, a wall or the ceiling.
func (t *turn) namesPlace(text string) bool {
	for w := range strings.FieldsFuncSeq(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' || r == '.' || r == ':' }) {
		if t.d.State.Room(w) != nil || place.Surface(w).IsWall() || w == "ceiling" || w == "wall" {
			return true
		}
	}
	return false
}
