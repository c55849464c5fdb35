package grammar

import (
	"encoding/json"
	"fmt"
	"reflect"
)

// entries maps names to the types of entries, for storage.
var entries = map[string]reflect.Type{}

// Register makes entries of these types readable from storage.
func Register(all ...Entry) {
	for _, e := range all {
		t := reflect.TypeOf(e)
		entries[t.Name()] = t
	}
}

// kept is a line as stored with an open question.
type kept struct {
	Room   string          `json:"room,omitempty"`
	At     string          `json:"at,omitempty"`
	Exact  bool            `json:"exact,omitempty"`
	Before int             `json:"before,omitempty"`
	After  int             `json:"after,omitempty"`
	Sure   bool            `json:"sure,omitempty"`
	Is     string          `json:"is"`
	Entry  json.RawMessage `json:"entry"`
}

// MarshalJSON stores the entry with the name of its type.
func (l Line) MarshalJSON() ([]byte, error) {
	body, err := json.Marshal(l.Entry)
	if err != nil {
		return nil, err
	}
	return json.Marshal(kept{l.Room, l.At, l.Exact, l.Before, l.After, l.Sure, reflect.TypeOf(l.Entry).Name(), body})
}

// UnmarshalJSON is the inverse of MarshalJSON.
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
	*l = Line{Room: k.Room, At: k.At, Exact: k.Exact, Before: k.Before, After: k.After, Sure: k.Sure, Entry: v.Elem().Interface().(Entry)}
	return nil
}
