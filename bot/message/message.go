// Package message is what passes between a door and a job: a message as it comes in, and the reply that goes
// out.
package message

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strapline/calc/place"
	"strings"
	"time"
)

// In is a message as a door passes it on.
type In struct {
	ID   string    // the door's own id for it, "" if it has none: the same id gets the same reply and no second entry
	Who  string    // the sender
	Sent time.Time // when the sender sent it; zero means now
	// Arrived says that Sent is only when the message reached the chat server. It may have waited in a
	// pocket without signal.
	Arrived bool
	// Direct says that the message is for the bot alone, so every near miss gets its hint, not only the
	// first.
	Direct bool
	Thread string // id of the message whose thread it is in
	Text   string
	// Of is the id of the message that this one replaces, if the sender edited it. With an empty Text the
	// sender deleted it.
	Of string
	// Photos are links to pictures sent with the message.
	Photos []string
	// Row is what the door needs to deliver the reply later. If it is set, the reply goes into the outbox
	// in the same transaction, under ID, until the door calls Job.Sent.
	Row json.RawMessage
}

// Parcel is a reply in the outbox.
type Parcel struct {
	Row json.RawMessage `json:"row"`
	Out Out             `json:"out"`
}

// Out is the reply to a message: one Answer per entry, none if there is nothing to say.
type Out struct {
	Answers []Answer `json:"answers,omitempty"`
	Left    []Answer `json:"-"` // entries left alone, of kind "none"
}

// Text returns the whole reply as shown to people; "" is silence. If it is too long for a phone, it leaves
// out lines about what was noted or answered first. What was not taken, and the question at the end, stay.
func (o Out) Text() string {
	var lines []string
	for _, a := range o.Answers {
		lines = append(lines, strings.Split(a.Reply, "\n")...)
	}
	if len(lines) <= MostLines {
		return strings.Join(lines, "\n")
	}
	return o.brief()
}

func (o Out) brief() string {
	shows := make([]int, len(o.Answers)) // lines shown, by answer
	room := MostLines - 1
	for pass := range 3 {
		for i, a := range slices.Backward(o.Answers) {
			all := strings.Count(a.Reply, "\n") + 1
			want := 1
			switch {
			case pass == 0 && a.Asks():
				want = all
			case pass == 0 && a.Error == nil || pass == 1 && a.Saved:
				continue
			}
			if want = min(want-shows[i], room); want > 0 {
				shows[i], room = shows[i]+want, room-want
			}
		}
	}
	var lines []string
	left := 0
	for i, a := range o.Answers {
		all := strings.Split(a.Reply, "\n")
		left += len(all) - shows[i]
		lines = append(lines, all[:shows[i]]...)
	}
	more := fmt.Sprintf("%d more lines; `log` shows what was noted, ask fewer things at once for the rest", left)
	if n := len(o.Answers); o.Asks() { // keep the question last
		return strings.Join(slices.Insert(lines, len(lines)-shows[n-1], more), "\n")
	}
	return strings.Join(append(lines, more), "\n")
}

// Pictures returns the pictures of all answers.
func (o Out) Pictures() (all []Picture) {
	for _, a := range o.Answers {
		all = append(all, a.Pictures...)
	}
	return all
}

// Failed reports whether the message is NOT confirmed as saved.
func (o Out) Failed() bool { return len(o.Answers) > 0 && o.Answers[0].Kind == KindFailure }

// Asks reports whether the reply ends in an open question.
func (o Out) Asks() bool { return len(o.Answers) > 0 && o.Answers[len(o.Answers)-1].Asks() }

// Answer is the answer to one entry. Its JSON form is the contract of `--json`.
type Answer struct {
	Seq   uint64   `json:"seq,omitempty"` // the number that strike takes; 0 if nothing was saved
	Who   string   `json:"who"`
	When  string   `json:"when"` // time sent, RFC 3339
	Job   string   `json:"job"`
	Room  string   `json:"room,omitempty"`
	Said  string   `json:"said"`
	Kind  string   `json:"kind"`
	Saved bool     `json:"saved"`
	Facts any      `json:"facts,omitempty"`
	Notes []Note   `json:"notes,omitempty"`
	Reply string   `json:"reply"`
	Ask   []string `json:"ask,omitzero"`   // labels of the choices, in the order of their numbers
	Tell  []string `json:"tell,omitempty"` // people who were given a value that this corrects
	Error *Fault   `json:"error,omitempty"`
	// Pictures that go with it, see Job.Picture.
	Pictures []Picture `json:"pictures,omitempty"`
	// From is the last entry that a planned answer is based on.
	From uint64 `json:"from,omitempty"`
}

// Asks reports whether it is an open question.
func (a Answer) Asks() bool { return a.Kind == KindAsk }

// The kinds of answers that are not named for the kind of an entry.
const (
	KindAsk     = "ask"
	KindError   = "error"
	KindNone    = "none"    // left alone
	KindFailure = "failure" // a failure of our own
)

// ErrOtherText is returned for a message id that was used before with other words.
var ErrOtherText = errors.New("this message id was used for another message")

// MostLines is the maximum number of lines of a reply, which is read on a phone. Handlers keep their lists
// shorter; this is for those that grow unexpectedly long.
const MostLines = 30

// Longest is the longest message accepted, in bytes.
const Longest = 4096

// Fault is what in a message could not be taken, and what to type instead.
type Fault struct {
	Col  int    `json:"col"`
	Word string `json:"word"`
	Want string `json:"want"`
	Hint string `json:"hint"`
}

// Note is a warning or remark on a line of its own below the answer. One without a kind is another line of
// the answer.
type Note struct {
	Kind string `json:"kind"` // clash, covered, late, caution, moved, told, check, assumed
	Text string `json:"text"`
	Said bool   `json:"-"` // the text of the answer says it already
}

// Picture is what a picture is drawn from; the same Picture always gives the same image.
type Picture struct {
	Name   string        `json:"name"` // file name
	Room   string        `json:"room"`
	On     place.Surface `json:"on,omitempty"`     // "" is the ceiling
	Up     bool          `json:"up,omitempty"`     // as seen looking up
	Cuts   bool          `json:"cuts,omitempty"`   // draw the cut list, not the plan
	Sought string        `json:"sought,omitempty"` // thing to point out
	Beside bool          `json:"beside,omitempty"` // only accompanies an answer, which is complete without it
	Entry  uint64        `json:"entry"`            // last entry shown
	At     int64         `json:"at"`               // when it was asked for, in Unix milliseconds
}
