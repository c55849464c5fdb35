package turn

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/ledger"
	"strapline/bot/message"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/place"
)

func (t *Turn) Clock(ms int64) string { return t.Ctx().Clock(ms) }

// TakesPhotos reports whether pictures can belong to what an answer saved.
func (t *Turn) TakesPhotos(a message.Answer) bool {
	if !a.Saved {
		return false
	}
	switch t.l.State.Entry(a.Seq).Body.(type) {
	case event.Strike, event.Here, event.UnitsSet:
		return false
	}
	return true
}

// Await sets the waiting pictures of a sender.
func (t *Turn) Await(who string, all []ledger.Waiting) {
	t.Err = errors.Join(t.Err, t.l.SetPictures(who, all))
}

// waiting returns the waiting pictures that the message can refer to, and whose they are: those of its
// thread, or of the edited message itself, whoever sent them; otherwise all of the sender's.
func (t *Turn) waiting() (whose string, list []ledger.Waiting) {
	for _, who := range append([]string{t.Who()}, slices.Sorted(maps.Keys(t.l.Pictures))...) {
		for _, p := range t.l.Pictures[who] {
			if t.in.Thread != "" && p.ID == t.in.Thread || t.in.Of != "" && p.Post == t.in.Of {
				list = append(list, p)
			}
		}
		if len(list) > 0 {
			return who, list
		}
	}
	return t.Who(), t.l.Pictures[t.Who()]
}

// attach attaches waiting pictures to an entry and returns which they were, in words.
func (t *Turn) attach(seq uint64, whose string, list []ledger.Waiting) string {
	for _, p := range list {
		t.Save(event.Photo{Of: seq, Links: p.Links, Post: p.Post})
	}
	t.unwait(whose, list)
	from, to := t.Clock(list[0].Sent), t.Clock(list[len(list)-1].Sent)
	switch {
	case len(list) == 1:
		return "photo of " + from
	case from == to:
		return fmt.Sprintf("%d photos of %s", len(list), from)
	}
	return fmt.Sprintf("%d photos (%s to %s)", len(list), from, to)
}

func (t *Turn) unwait(whose string, list []ledger.Waiting) {
	t.Await(whose, slices.DeleteFunc(slices.Clone(t.l.Pictures[whose]), func(p ledger.Waiting) bool {
		return slices.ContainsFunc(list, func(q ledger.Waiting) bool {
			return q.Post == p.Post && q.Sent == p.Sent && slices.Equal(q.Links, p.Links)
		})
	}))
}

// TakeOff drops the waiting pictures of a message that was deleted.
func (t *Turn) TakeOff() bool {
	whose, list := t.waiting()
	list = slices.DeleteFunc(slices.Clone(list), func(p ledger.Waiting) bool { return p.Post != t.in.Of })
	if len(list) == 0 {
		return false
	}
	t.unwait(whose, list)
	return true
}

// Lose detaches the pictures of a deleted message from their entries and returns those entries, in words.
func (t *Turn) Lose() (of []string) {
	if t.in.Of == "" {
		return nil
	}
	said := t.Said
	t.Said = "(photo deleted)"
	for _, e := range t.l.State.PhotosFrom(t.in.Of) {
		of = append(of, fmt.Sprintf("entry %d", e.Body.(event.Photo).Of))
		t.Save(event.Strike{Seq: e.Seq, Undo: true}) // no undo brings it back
	}
	t.Said = said
	return slices.Compact(of)
}

// Claim attaches the waiting pictures to the note that was saved.
func (t *Turn) Claim() {
	if t.Err != nil || t.l.Wait || !t.TakesPhotos(t.Ans) {
		return
	}
	if whose, list := t.waiting(); len(list) > 0 {
		t.Ans.Reply += "\n" + t.attach(t.Ans.Seq, whose, list) + " kept with it"
	}
}

// labelled takes the name of a known thing or run as the label of the waiting pictures. In their thread it
// takes ambiguous words too, and asks for one name.
func (t *Turn) labelled(text string) bool {
	whose, list := t.waiting()
	name := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	threaded := len(list) > 0 && t.in.Thread != "" && list[0].ID == t.in.Thread
	if len(list) == 0 || !threaded && !t.l.State.HasName(name) {
		return false
	}
	type noted struct {
		name, room string
		seq        uint64
	}
	var found, here []noted
	for _, th := range t.l.State.Find(name) {
		_, en := th.Now()
		found = append(found, noted{th.Name, th.Room.Name, en.Seq})
	}
	for _, r := range t.l.State.Standing() {
		if rt := r.Route(name); rt != nil {
			_, en := rt.Now()
			found = append(found, noted{name, r.Name, en.Seq})
		}
	}
	for _, f := range found {
		if r := t.l.State.RoomOf(t.in.Who); r != nil && f.room == r.Name {
			here = append(here, f)
		}
	}
	if len(here) == 1 {
		found = here
	}
	switch len(found) {
	case 0:
		return false
	case 1:
		t.Show(answer.Tell("photo", nil, t.attach(found[0].seq, whose, list)+fmt.Sprintf(" kept with %s (entry %d)", found[0].name, found[0].seq)))
	default:
		full := found[0].room + " " + found[0].name
		t.Show(answer.Reply{Kind: "error", Refuse: &answer.Refusal{
			Want: "one name", Hint: full, Say: fmt.Sprintf("photo not kept: %q could be %d things. Say which, as `%s`", say.FirstWords(text), len(found), full),
		}})
	}
	return true
}

// captions reports whether words that are no entry become the note of the sender's waiting pictures,
// because they name a room or a wall.
func (t *Turn) captions(text string) bool {
	if whose, list := t.waiting(); len(list) == 0 || whose != t.Who() || !t.namesPlace(text) {
		return false
	}
	_, err := t.Ctx().Parse("note "+text, false)
	return err == nil
}

// namesPlace reports whether words name a room, a wall or the ceiling.
func (t *Turn) namesPlace(text string) bool {
	for w := range strings.FieldsFuncSeq(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' || r == '.' || r == ':' }) {
		if t.l.State.Room(w) != nil || place.Surface(w).IsWall() || w == "ceiling" || w == "wall" {
			return true
		}
	}
	return false
}
