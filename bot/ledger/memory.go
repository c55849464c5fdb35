package ledger

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"strapline/bot/message"
	"strapline/bot/pending"
	"strapline/grammar"
)

// Asked is a question that a message led to, and its outcome. It is kept after it is answered, so that the
// message, or the answer, can still be edited.
type Asked struct {
	pending.Question
	Who    string   `json:"who"`              // lower case
	By     string   `json:"by,omitempty"`     // id of the message that answered it; "" if none did
	Made   []uint64 `json:"made,omitempty"`   // entries that the answer made
	Behind []uint64 `json:"behind,omitempty"` // entries of what followed the question in its message
	Over   bool     `json:"over,omitempty"`   // obsolete: the answer that led to it was changed
}

// Origin returns the id of the message whose questions and entries an edit belongs to: if an answer is
// edited, the message that its question was about.
func (l *Ledger) Origin(in message.In) string {
	if in.Of == "" {
		return in.ID
	}
	if of, ok := l.Answers[in.Of]; ok {
		return of
	}
	return in.Of
}

// AnsweredBy returns the index, among the questions of its origin, of the one that the message answered;
// -1 if it answered none.
func (l *Ledger) AnsweredBy(id string) int {
	return slices.IndexFunc(l.Asked[l.Answers[id]], func(a Asked) bool { return a.By == id && !a.Over })
}

// Memory is what is kept besides the state. All but the last five fields are loaded from the log's rows.
type Memory struct {
	Pending  map[string]*pending.Question // by sender, lower case: the newest open question
	Pictures map[string][]Waiting         // by sender: pictures waiting for their note
	Edits    map[string][]string          // by message id: ids of its later versions
	Asked    map[string][]Asked           // by message id: the questions it led to, in order
	Answers  map[string]string            // by id of an answer: the message whose question it answered
	Held     map[string][]Held            // by room: notes that came before the room
	Hinted   map[string]bool              // senders who have had their one hint for a near miss
	Stale    map[string]bool              // senders who have said something since their question was shown
	Reminded map[string]bool              // open questions that were repeated
	Unsaved  map[string]bool              // senders whose last entry was not saved
	Follows  int                          // how many of the next messages may refer to one that was answered
}

// The names of the desk's own marks, each before an id or a sender.
const (
	editMark    = "edits of "
	askedMark   = "questions of "
	pictureMark = "pictures of "
)

// Own reports whether a mark of that name is the desk's own, not a door's.
func Own(name string) bool {
	return slices.ContainsFunc([]string{editMark, askedMark, pictureMark, heldMark}, func(own string) bool { return strings.HasPrefix(name, own) })
}

// clone copies the memory. Its questions and lists may be shared, because they are only ever replaced.
func (m Memory) clone() Memory {
	return Memory{maps.Clone(m.Pending), maps.Clone(m.Pictures), maps.Clone(m.Edits), maps.Clone(m.Asked), maps.Clone(m.Answers), maps.Clone(m.Held),
		maps.Clone(m.Hinted), maps.Clone(m.Stale), maps.Clone(m.Reminded), maps.Clone(m.Unsaved), m.Follows}
}

// Remember builds the memory from the log's rows.
func Remember(rows, marks map[string]json.RawMessage) (Memory, error) {
	m := Memory{
		Pending: map[string]*pending.Question{}, Pictures: map[string][]Waiting{}, Edits: map[string][]string{}, Asked: map[string][]Asked{}, Answers: map[string]string{}, Held: map[string][]Held{},
		Hinted: map[string]bool{}, Stale: map[string]bool{}, Reminded: map[string]bool{}, Unsaved: map[string]bool{},
	}
	for who, row := range rows {
		q := new(pending.Question)
		if err := json.Unmarshal(row, q); err != nil {
			return m, fmt.Errorf("open question of %s: %w", who, err)
		}
		if len(q.Photos) > 0 {
			m.Pictures[who] = append(m.Pictures[who], Waiting{ID: q.ID, Post: q.ID, Sent: q.Sent, Links: q.Photos})
			continue
		}
		m.Pending[who] = q
	}
	for name, row := range marks {
		var err error
		if of, ok := strings.CutPrefix(name, editMark); ok {
			m.Edits[of], err = into[[]string](row)
		} else if of, ok := strings.CutPrefix(name, askedMark); ok {
			m.Asked[of], err = into[[]Asked](row)
			for _, a := range m.Asked[of] {
				if a.By != "" {
					m.Answers[a.By] = of
				}
			}
		} else if of, ok := strings.CutPrefix(name, heldMark); ok {
			var list []Held
			if list, err = into[[]Held](row); len(list) > 0 {
				m.Held[of] = list
			}
		} else if of, ok := strings.CutPrefix(name, pictureMark); ok {
			var list []Waiting
			if list, err = into[[]Waiting](row); len(list) > 0 {
				m.Pictures[of] = append(m.Pictures[of], list...)
			}
		}
		if err != nil {
			return m, fmt.Errorf("%s: %w", name, err)
		}
	}
	return m, nil
}

func into[T any](row json.RawMessage) (v T, err error) {
	err = json.Unmarshal(row, &v)
	return v, err
}

// mark stores v under one of our own names.
func (l *Ledger) mark(name string, v any) error {
	row, err := json.Marshal(v)
	if err == nil {
		Set(l, l.Batch.Marks, name, json.RawMessage(row))
	}
	return err
}

// Set sets m[key], one of the memories. It can be undone until the current message is answered.
func Set[V any](l *Ledger, m map[string]V, key string, v V) {
	was, had := m[key]
	l.written = append(l.written, func() {
		if had {
			m[key] = was
		} else {
			delete(m, key)
		}
	})
	m[key] = v
}

// drop deletes m[key] like [Set].
func drop[V any](l *Ledger, m map[string]V, key string) {
	if was, had := m[key]; had {
		l.written = append(l.written, func() { m[key] = was })
		delete(m, key)
	}
}

// SetAsked stores the questions of a message.
func (l *Ledger) SetAsked(of string, all []Asked) error {
	Set(l, l.Asked, of, all)
	for _, a := range all {
		if a.By != "" {
			Set(l, l.Answers, a.By, of)
		}
	}
	return l.mark(askedMark+of, all)
}

// SetHeld stores the notes that are held for a room.
func (l *Ledger) SetHeld(room string, list []Held) error {
	if Set(l, l.Held, room, list); len(list) == 0 {
		drop(l, l.Held, room)
	}
	return l.mark(heldMark+room, list)
}

// SetPictures stores the waiting pictures of a sender.
func (l *Ledger) SetPictures(who string, all []Waiting) error {
	Set(l, l.Pictures, who, all)
	if l.Pending[who] == nil { // an older log keeps a picture as a question
		Set(l, l.Batch.Pending, who, nil)
	}
	return l.mark(pictureMark+who, all)
}

// Edited stores that a message has a later version.
func (l *Ledger) Edited(of, id string) error {
	Set(l, l.Edits, of, append(slices.Clip(l.Edits[of]), id))
	return l.mark(editMark+of, l.Edits[of])
}

// A room that was named but has no size yet does not exist, and notes about it cannot be worked out. They
// are read back and held, whoever sends them, and noted as soon as the room exists.

// Held is a note held until its room exists.
type Held struct {
	Who  string       `json:"who"`
	Sent int64        `json:"sent"`
	ID   string       `json:"id,omitempty"` // of the message
	Said string       `json:"said"`
	Line grammar.Line `json:"line"`
}

// heldMark precedes the name of the room; "" stands for the first room to come.
const heldMark = "held for "

// Opening returns the room that a sender named last and whose size is still asked for, or "" if they have
// gone to another room since.
func (l *Ledger) Opening(who string) string {
	for q := l.Pending[who]; q != nil; q = q.Under {
		if room := q.Room(); room != "" && l.State.Room(room) == nil && q.Sent >= l.State.Came(who) {
			return room
		}
	}
	return ""
}

// Openings returns all rooms whose size is still asked for or that notes are held for.
func (l *Ledger) Openings() (all []string) {
	for _, q := range l.Pending {
		for ; q != nil; q = q.Under {
			if room := q.Room(); room != "" && l.State.Room(room) == nil {
				all = append(all, room)
			}
		}
	}
	for room := range l.Held {
		if room != "" {
			all = append(all, room)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// Sized closes everybody's questions about the size of a room that is now known.
func (l *Ledger) Sized(room string) error {
	for _, who := range slices.Sorted(maps.Keys(l.Pending)) {
		top := l.Pending[who]
		left := top.Without(func(q *pending.Question) bool { return q.Room() == room && q.Rest == "" })
		if left == top {
			continue
		}
		if err := l.Pile(who, left); err != nil {
			return err
		}
	}
	return nil
}

// Pile makes q and those under it the open questions of a sender.
func (l *Ledger) Pile(who string, q *pending.Question) error {
	Set(l, l.Stale, who, false)
	if Set(l, l.Pending, who, q); q == nil {
		drop(l, l.Pending, who)
		Set(l, l.Batch.Pending, who, nil)
		return nil
	}
	row, err := json.Marshal(q)
	Set(l, l.Batch.Pending, who, json.RawMessage(row))
	return err
}

// Waiting is the pictures of one message that wait for their note.
type Waiting struct {
	ID    string   `json:"id,omitempty"`   // thread in which the note is asked for
	Post  string   `json:"post,omitempty"` // id of the message
	Sent  int64    `json:"sent"`
	Links []string `json:"links"`
}
