package site

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"unique"
)

// Event is one entry of the log: who said what when, and what it means.
type Event struct {
	Seq  uint64
	Who  string
	Sent int64 // unix milliseconds; what decides between two notes of one thing
	Got  int64
	ID   string // the door's message id
	Text string // as typed
	Body Body
}

// Body is what an event means: its JSON is what a log keeps, and it folds itself
// into the state. Bodies are versioned by [Version]; a field is only ever added,
// and left out of the JSON while it is zero.
type Body interface {
	Kind() string
	// apply folds the body in as entry e and says which room e speaks of. After
	// an error the state is as it was.
	apply(s *State, e *Entry) error
}

// Version of the bodies. A log with a newer one is refused.
const Version = 1

// kinds are those that can be read back.
var kinds = map[string]func([]byte) (Body, error){}

// kind makes bodies of type T readable; it stands beside each type.
func kind[T Body]() struct{} {
	var b T
	kinds[b.Kind()] = decode[T]
	return struct{}{}
}

func decode[T Body](data []byte) (Body, error) {
	var b T
	err := json.Unmarshal(data, &b)
	if many, ok := any(&b).(interface{ share() }); ok {
		many.share()
	}
	return b, err
}

// shared is a text with the same bytes as all that are like it.
func shared[S ~string](s S) S {
	if s == "" {
		return ""
	}
	return unique.Make(s).Value()
}

// ErrNewer: an entry was written by a program that knows more kinds than this one.
var ErrNewer = errors.New("entry of a newer kind")

// Decode reads a stored body. A kind or version it does not know is [ErrNewer].
func Decode(kind string, version int, data []byte) (Body, error) {
	if version > Version {
		return nil, fmt.Errorf("%w: %q version %d", ErrNewer, kind, version)
	}
	if version < 1 || !bytes.HasPrefix(bytes.TrimSpace(data), []byte("{")) { // null would be a body of nothing
		return nil, fmt.Errorf("entry kind %q: version %d with no body", kind, version)
	}
	dec, ok := kinds[kind]
	if !ok {
		return nil, fmt.Errorf("%w: %q", ErrNewer, kind)
	}
	b, err := dec(data)
	if err != nil {
		return nil, fmt.Errorf("entry kind %q: %w", kind, err)
	}
	return b, nil
}
