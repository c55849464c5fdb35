package desk

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/record"
)

// A room that was named but has no size yet does not exist, and notes about it cannot be worked out. They
// are read back and held, whoever sends them, and noted as soon as the room exists.

// early is a note held until its room exists.
type early struct {
	Who  string       `json:"who"`
	Sent int64        `json:"sent"`
	ID   string       `json:"id,omitempty"` // of the message
	Said string       `json:"said"`
	Line grammar.Line `json:"line"`
}

// heldMark precedes the name of the room; "" stands for the first room to come.
const heldMark = "held for "

// mostHeld is the most notes held for one room.
const mostHeld = 60

// opening returns the room that a sender named last and whose size is still asked for, or "" if they have
// gone to another room since.
func (d *Desk) opening(who string) string {
	for q := d.Pending[who]; q != nil; q = q.Under {
		if room := q.Room(); room != "" && d.State.Room(room) == nil && q.Sent >= d.State.Came(who) {
			return room
		}
	}
	return ""
}

// openings returns all rooms whose size is still asked for or that notes are held for.
func (d *Desk) openings() (all []string) {
	for _, q := range d.Pending {
		for ; q != nil; q = q.Under {
			if room := q.Room(); room != "" && d.State.Room(room) == nil {
				all = append(all, room)
			}
		}
	}
	for room := range d.early {
		if room != "" {
			all = append(all, room)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// waitsFor returns the room that a line has to wait for.
func (t *turn) waitsFor(line grammar.Line) (room string, waits bool) {
	switch bound := answer.OfRoom(line.Entry); {
	case line.Room != "" && t.d.State.Room(line.Room) == nil:
		return line.Room, bound || answer.Told(line.Entry)
	case line.Room != "" || !bound:
		return "", false
	}
	if room = t.d.opening(t.who()); room != "" {
		return room, true
	}
	if len(t.d.State.Standing()) > 0 {
		return "", false
	}
	if all := t.d.openings(); len(all) > 0 {
		room = all[0]
	}
	return room, true
}

// hold keeps a line until its room exists.
func (t *turn) hold(room string, line grammar.Line) {
	list := t.d.early[room]
	if len(list) >= mostHeld {
		t.show(answer.No(fmt.Sprintf("%d notes wait for the room already: name it with its size first", mostHeld), answer.ARoom(room, t.d.State.Units())))
		return
	}
	line.Room = ""
	t.setHeld(room, append(slices.Clip(list), early{t.in.Who, t.sent.UnixMilli(), t.in.ID, t.said, line}))
	text := "held until its room is noted"
	if room != "" {
		text = fmt.Sprintf("held until the size of %s is known", room)
	}
	if len(list) == 0 && (room == "" || t.d.opening(t.who()) != room) {
		text += ", e.g. `" + answer.ARoom(room, t.d.State.Units()) + "`"
	}
	text += ": " + line.String()
	t.show(answer.Tell("held", nil, text))
	t.ans.Room = room
}

func (t *turn) setHeld(room string, list []early) {
	if len(list) == 0 {
		delete(t.d.early, room)
	} else {
		t.d.early[room] = list
	}
	if err := t.d.mark(heldMark+room, list); err != nil {
		t.err = err
	}
}

// lastHeld finds the sender's last held note, if it is newer than all their notes in the log.
func (t *turn) lastHeld() (room string, i int, ok bool) {
	newest := int64(0)
	if e := t.d.State.LastOf(t.in.Who); e != nil {
		newest = e.Sent
	}
	for _, r := range slices.Sorted(maps.Keys(t.d.early)) {
		for k, h := range t.d.early[r] {
			if strings.EqualFold(h.Who, t.in.Who) && h.Sent >= newest {
				room, i, ok, newest = r, k, true, h.Sent
			}
		}
	}
	return room, i, ok
}

// unholds drops the sender's held note on an undo, which would otherwise strike the note before it.
func (t *turn) unholds(e grammar.Entry) bool {
	room, i, ok := t.lastHeld()
	if _, undo := e.(record.Undo); !ok || !undo {
		return false
	}
	h := t.d.early[room][i]
	t.setHeld(room, slices.Delete(slices.Clone(t.d.early[room]), i, i+1))
	t.show(answer.Tell("undo", nil, "no longer held: "+h.Line.String()))
	return true
}

// forget drops what is held of a message that was edited, and returns it.
func (t *turn) forget() (said []string) {
	ids := append([]string{t.in.Of}, t.d.Edits[t.in.Of]...)
	for _, room := range slices.Sorted(maps.Keys(t.d.early)) {
		list := slices.DeleteFunc(slices.Clone(t.d.early[room]), func(h early) bool {
			gone := h.ID != "" && slices.Contains(ids, h.ID)
			if gone {
				said = append(said, h.Line.String())
			}
			return gone
		})
		if len(list) < len(t.d.early[room]) {
			t.setHeld(room, list)
		}
	}
	return said
}

// sized closes everybody's questions about the size of a room that is now known.
func (d *Desk) sized(room string) error {
	for _, who := range slices.Sorted(maps.Keys(d.Pending)) {
		top := d.Pending[who]
		left := top.Without(func(q *pending.Question) bool { return q.Room() == room && q.Rest == "" })
		if left == top {
			continue
		}
		if err := d.pile(who, left); err != nil {
			return err
		}
	}
	return nil
}

// release notes what was held for rooms that now exist, and adds the answers.
func (d *Desk) release(in message.In, out *message.Out) error {
	for _, room := range slices.Sorted(maps.Keys(d.early)) {
		var stay []early
		list := d.early[room]
		where := make([]*site.Room, len(list))
		for i, h := range list {
			if where[i] = d.State.Room(room); room == "" {
				where[i] = d.State.RoomOf(h.Who)
				if where[i] == nil {
					where[i] = d.State.OnlyRoom()
				}
			}
			if where[i] == nil {
				stay = append(stay, h)
			}
		}
		if len(stay) == len(list) {
			continue
		}
		t := d.turn(in, in.Text, "")
		if t.setHeld(room, stay); t.err != nil {
			return t.err
		}
		for i, h := range list {
			if where[i] == nil {
				continue
			}
			from := len(d.Batch.Records)
			n := d.turn(message.In{ID: h.ID, Who: h.Who, Sent: time.UnixMilli(h.Sent)}, h.Said, "")
			h.Line.Room = where[i].Name
			n.take(n.ctx().AnswerLine(h.Line))
			if n.err != nil || d.wait {
				return n.err
			}
			n.remember(h.ID, append(slices.Clip(d.Asked[h.ID]), Asked{Question: pending.Question{Said: h.Said, Sent: h.Sent, From: h.ID, Saved: true}, Who: n.who(), Made: d.seqs(from, len(d.Batch.Records)), Over: true}))
			if n.err != nil {
				return n.err
			}
			if !strings.EqualFold(h.Who, in.Who) {
				n.ans.Reply = h.Who + ": " + n.ans.Reply
			}
			out.Answers = append(out.Answers, n.ans)
		}
	}
	return nil
}
