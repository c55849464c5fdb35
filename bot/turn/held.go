package turn

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/ledger"
	"strapline/grammar"
	"strapline/grammar/record"
)

// mostHeld is the most notes held for one room.
const mostHeld = 60

// waitsFor returns the room that a line has to wait for.
func (t *Turn) waitsFor(line grammar.Line) (room string, waits bool) {
	switch bound := answer.OfRoom(line.Entry); {
	case line.Room != "" && t.l.State.Room(line.Room) == nil:
		return line.Room, bound || answer.Told(line.Entry)
	case line.Room != "" || !bound:
		return "", false
	}
	if room = t.l.Opening(t.Who()); room != "" {
		return room, true
	}
	if len(t.l.State.Standing()) > 0 {
		return "", false
	}
	if all := t.l.Openings(); len(all) > 0 {
		room = all[0]
	}
	return room, true
}

// hold keeps a line until its room exists.
func (t *Turn) hold(room string, line grammar.Line) {
	list := t.l.Held[room]
	if len(list) >= mostHeld {
		t.Show(answer.No(fmt.Sprintf("%d notes wait for the room already: name it with its size first", mostHeld), answer.ARoom(room, t.l.State.Units())))
		return
	}
	line.Room = ""
	t.setHeld(room, append(slices.Clip(list), ledger.Held{Who: t.in.Who, Sent: t.sent.UnixMilli(), ID: t.in.ID, Said: t.text(), Line: line}))
	text := "held until its room is noted"
	if room != "" {
		text = fmt.Sprintf("held until the size of %s is known", room)
	}
	if len(list) == 0 && (room == "" || t.l.Opening(t.Who()) != room) {
		text += ", e.g. `" + answer.ARoom(room, t.l.State.Units()) + "`"
	}
	text += ": " + line.String()
	t.Show(answer.Tell("held", nil, text))
	t.Ans.Room = room
}

func (t *Turn) setHeld(room string, list []ledger.Held) {
	t.Err = errors.Join(t.Err, t.l.SetHeld(room, list))
}

// lastHeld finds the sender's last held note, if it is newer than all their notes in the log.
func (t *Turn) lastHeld() (room string, i int, ok bool) {
	newest := int64(0)
	if e := t.l.State.LastOf(t.in.Who); e != nil {
		newest = e.Sent
	}
	for _, r := range slices.Sorted(maps.Keys(t.l.Held)) {
		for k, h := range t.l.Held[r] {
			if strings.EqualFold(h.Who, t.in.Who) && h.Sent >= newest {
				room, i, ok, newest = r, k, true, h.Sent
			}
		}
	}
	return room, i, ok
}

// unholds drops the sender's held note on an undo, which would otherwise strike the note before it.
func (t *Turn) unholds(e grammar.Entry) bool {
	room, i, ok := t.lastHeld()
	if _, undo := e.(record.Undo); !ok || !undo {
		return false
	}
	h := t.l.Held[room][i]
	t.setHeld(room, slices.Delete(slices.Clone(t.l.Held[room]), i, i+1))
	t.Show(answer.Tell("undo", nil, "no longer held: "+h.Line.String()))
	return true
}

// Forget drops what is held of a message that was edited, and returns it.
func (t *Turn) Forget() (said []string) {
	ids := append([]string{t.in.Of}, t.l.Edits[t.in.Of]...)
	for _, room := range slices.Sorted(maps.Keys(t.l.Held)) {
		list := slices.DeleteFunc(slices.Clone(t.l.Held[room]), func(h ledger.Held) bool {
			gone := h.ID != "" && slices.Contains(ids, h.ID)
			if gone {
				said = append(said, h.Line.String())
			}
			return gone
		})
		if len(list) < len(t.l.Held[room]) {
			t.setHeld(room, list)
		}
	}
	return said
}
