package bot

import (
	"encoding/json"
	"strings"
	"time"

	"strapline/calc/length"
	"strapline/grammar"
)

// In is one message as a door hands it over.
type In struct {
	ID   string    // the door's own id for it, "" when it has none: the same id gets the same reply and no second entry
	Who  string    // the sender
	Sent time.Time // when the sender sent it; zero: now
	// Arrived says that Sent is only when the message reached the chat server: it
	// may have waited in a pocket with no signal.
	Arrived bool
	// Direct says that nobody but the bot is spoken to: every near miss gets its
	// hint, not only the first.
	Direct bool
	Thread string // the id of the message whose thread it stands in
	Text   string
	// Of is the id of the message that this one replaces, when the sender
	// edited it; with an empty Text the sender deleted it.
	Of string
	// Photos are links to pictures that came with the message.
	Photos []string
	// Row is what the door needs to deliver the reply later. When it is set, the
	// reply goes into the outbox in the same transaction, under ID, until the door
	// says that it was sent.
	Row json.RawMessage
}

// Parcel is a reply in the outbox.
type Parcel struct {
	Row json.RawMessage `json:"row"`
	Out Out             `json:"out"`
}

// Out is what to answer: one Answer an entry, none when there is nothing to say.
type Out struct {
	Answers []Answer `json:"answers,omitempty"`
}

// Text is the whole reply as shown to people; "" is silence.
func (o Out) Text() string {
	var lines []string
	for _, a := range o.Answers {
		lines = append(lines, a.Reply)
	}
	return strings.Join(lines, "\n")
}

// Failed reports whether the message is NOT confirmed as saved.
func (o Out) Failed() bool { return len(o.Answers) > 0 && o.Answers[0].Kind == kindFail }

// Asks reports whether the reply ends in a question that is kept open.
func (o Out) Asks() bool { return len(o.Answers) > 0 && o.Answers[len(o.Answers)-1].asks() }

// Answer to one entry. Its JSON form is the contract of `--json`.
type Answer struct {
	Seq   uint64   `json:"seq,omitempty"` // the number strike takes; 0 when nothing was saved
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
	Ask   []string `json:"ask,omitzero"`   // the choices, in the order of their numbers
	Tell  []string `json:"tell,omitempty"` // people who were given a value that this corrects
	Error *Fault   `json:"error,omitempty"`
}

func (a Answer) asks() bool { return a.Kind == kindAsk }

const (
	kindAsk   = "ask"
	kindError = "error"
	kindFail  = "failure" // ours, not the sender's
)

// Note is a warning or a remark beside the answer.
type Note struct {
	Kind string `json:"kind"` // clash, covered, late, caution, moved, told, check, assumed
	Text string `json:"text"`
}

// Fault says what in a message could not be taken, and what to type instead.
type Fault struct {
	Col  int    `json:"col"`
	Word string `json:"word"`
	Want string `json:"want"`
	Hint string `json:"hint"`
}

// Len is a length in facts.
type Len struct {
	MM   float64 `json:"mm"`
	Text string  `json:"text"`
}

// The facts of each kind. Their names are the contract of `--json`.
type (
	roomFacts struct {
		Name string `json:"name"`
		EW   Len    `json:"ew"`
		NS   Len    `json:"ns"`
	}
	strapsFacts struct {
		Surface string `json:"surface"`
		What    string `json:"what"`
		Run     string `json:"run"`
		At      []Len  `json:"at"`
		Thick   Len    `json:"thick"`
	}
	thingFacts struct {
		Name    string `json:"name"`
		What    string `json:"what"`
		Label   string `json:"label,omitempty"`
		Surface string `json:"surface"`
		X       Len    `json:"x"`
		Y       Len    `json:"y"`
		Size    []Len  `json:"size,omitempty"`
		Due     string `json:"due"`
		State   string `json:"state"`
	}
	thingsFacts struct {
		Things []thingFacts `json:"things"`
	}
	markFacts struct {
		Name    string `json:"name"`
		Surface string `json:"surface"`
		X       Len    `json:"x"`
		Y       Len    `json:"y"`
	}
	cutFacts struct {
		A     Len  `json:"a"`
		B     *Len `json:"b,omitempty"`
		Taper bool `json:"taper"`
	}
	pieceFacts struct {
		ID   string `json:"id,omitempty"`
		X0   Len    `json:"x0"`
		Y0   Len    `json:"y0"`
		X1   Len    `json:"x1"`
		Y1   Len    `json:"y1"`
		Cut  Len    `json:"cut"`
		Held int    `json:"supports"`
	}
	hungFacts struct {
		Surface string       `json:"surface"`
		Row     int          `json:"row,omitempty"`
		Pieces  []pieceFacts `json:"pieces"`
		Covers  []string     `json:"covers"`
		Screws  int          `json:"screws,omitempty"`
		Screw   *Len         `json:"screw,omitempty"`
	}
	fromFacts struct {
		Kind string `json:"kind"`
		Ref  string `json:"ref"`
		Dir  string `json:"dir"`
		Dist Len    `json:"dist"`
		Face string `json:"face,omitempty"`
	}
	findFacts struct {
		Name      string      `json:"name"`
		Surface   string      `json:"surface"`
		X         Len         `json:"x"`
		Y         Len         `json:"y"`
		State     string      `json:"state"`
		CoveredBy string      `json:"covered_by,omitempty"`
		From      []fromFacts `json:"from"`
		Probes    []struct{}  `json:"probes"`
		Photos    []string    `json:"photos,omitempty"`
	}
	coveredThing struct {
		Name  string `json:"name"`
		What  string `json:"what"`
		Room  string `json:"room"`
		By    string `json:"covered_by,omitempty"`
		Since string `json:"since,omitempty"`
	}
	coveredFacts struct {
		Things []coveredThing `json:"things"`
	}
	logEntry struct {
		Seq    uint64 `json:"seq"`
		Who    string `json:"who"`
		When   string `json:"when"`
		Said   string `json:"said"`
		Struck bool   `json:"struck"`
	}
	logFacts struct {
		Entries []logEntry `json:"entries"`
	}
)

// fact turns a length into a fact in the job's units.
func fact(u length.Units, l length.Length) Len {
	return Len{MM: length.MM(l), Text: length.Format(l, u)}
}

// choice is one numbered answer: what is shown and the message it stands for.
type choice = grammar.Choice
