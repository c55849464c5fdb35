package grammar

import (
	"encoding/json"
	"fmt"
	"reflect"
)

// entries are all kinds of entry, by the name they are kept under.
var entries = named(
	Job{}, UnitsSet{}, Built{}, Room{}, InRoom{}, Alias{}, SupportSet{}, SupportFix{}, Board{}, Clearance{}, Screw{}, BoardsRun{}, RowsFrom{},
	Thing{}, Even{}, Mark{}, Gap{}, Hung{}, UpAll{}, Boarded{}, Opened{}, Find{}, Covered{}, AnyOver{}, Log{}, Who{}, Status{},
	Note{}, Snag{}, Snags{}, Hit{}, Undo{}, Strike{}, Refix{}, Swap{}, Help{}, Pick{}, Bare{},
	Route{}, Plate{}, Code{}, Set{}, Reach{}, Screws{}, Ready{}, Check{}, Handoff{}, Coat{}, Painted{},
	Layout{}, Cuts{}, Order{}, StockSet{}, BoardsLeft{}, Longest{}, Bring{}, HungPlan{}, Planned{}, Rest{}, OtherWay{}, Texture{},
)

func named(all ...Entry) map[string]reflect.Type {
	out := map[string]reflect.Type{}
	for _, e := range all {
		t := reflect.TypeOf(e)
		out[t.Name()] = t
	}
	return out
}

// kept is a line as it is kept with an open question.
type kept struct {
	Room   string          `json:"room,omitempty"`
	At     string          `json:"at,omitempty"`
	Exact  bool            `json:"exact,omitempty"`
	Before int             `json:"before,omitempty"`
	After  int             `json:"after,omitempty"`
	Is     string          `json:"is"`
	Entry  json.RawMessage `json:"entry"`
}

// MarshalJSON keeps the entry with the name of its type.
func (l Line) MarshalJSON() ([]byte, error) {
	body, err := json.Marshal(l.Entry)
	if err != nil {
		return nil, err
	}
	return json.Marshal(kept{l.Room, l.At, l.Exact, l.Before, l.After, reflect.TypeOf(l.Entry).Name(), body})
}

// UnmarshalJSON is its opposite.
func (l *Line) UnmarshalJSON(data []byte) error {
	var k kept
	if err := json.Unmarshal(data, &k); err != nil {
		return err
	}
	t, ok := entries[k.Is]
	if !ok {
		return fmt.Errorf("no entry %q", k.Is)
	}
	v := reflect.New(t)
	if err := json.Unmarshal(k.Entry, v.Interface()); err != nil {
		return err
	}
	*l = Line{k.Room, k.At, k.Exact, k.Before, k.After, v.Elem().Interface().(Entry)}
	return nil
}

// read turns the texts of a question's choices into lines, where they have one reading.
func (a *Ask) read(c *Context) {
	for i, ch := range a.Choices {
		if line, err := parse(ch.Text, c, true); err == nil {
			a.Choices[i] = Choice{Label: ch.Label, Lines: []Line{line}}
		}
	}
}
