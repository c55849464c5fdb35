// Package event is what a job's log holds: events, each with the body that says what it means, and their
// JSON. It knows neither how they are folded (calc/site) nor how they are stored.
package event

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"unique"
)

// Event is one entry of the log: who said what when, and what it means.
type Event struct {
	Seq  uint64
	Who  string
	Sent int64  // Unix milliseconds; decides which of two notes of a thing is newer
	Text string // as typed
	Body Body
}

// Body is the content of an event. Its JSON is what a log stores. Bodies are versioned by [Version]:
// fields are only ever added, and omitted from the JSON while they are zero.
type Body interface {
	Kind() string
	In() string // the name of the room that the body names, "" if it names none
}

// Version is the version of the bodies. A log with a newer one is refused.
const Version = 1

// kinds maps the kinds that can be decoded to their types.
var kinds = byKind(
	Board{}, Screw{}, Clearance{}, Gap{}, Hung{}, BoardsRun{}, RowsFrom{}, PlanPick{}, Texture{},
	First{}, Stock{}, Longest{},
	JobTitle{}, UnitsSet{}, Built{}, Code{}, Setting{},
	Checked{}, Coat{}, Painted{}, Note{}, Snag{}, SnagFixed{}, Hit{}, Photo{}, Strike{},
	Floor{}, RoomSize{}, Here{}, Named{}, Square{}, Slope{}, Bulkhead{}, Boarded{},
	Supports{}, SupportFix{},
	MarkSet{}, Missed{}, Route{}, Plates{}, Thing{}, Things{}, Measured{}, Opened{}, Told{},
)

func byKind(all ...Body) map[string]reflect.Type {
	types := map[string]reflect.Type{}
	for _, b := range all {
		types[b.Kind()] = reflect.TypeOf(b)
	}
	return types
}

// shared returns text with the storage of an equal text seen before, so that repeats take no memory.
func shared[S ~string](s S) S {
	if s == "" {
		return ""
	}
	return unique.Make(s).Value()
}

// ErrNewer means that the entry was written by a newer version of the program.
var ErrNewer = errors.New("entry of a newer kind")

// Decode decodes a stored body. An unknown kind or version is [ErrNewer].
func Decode(kind string, version int, data []byte) (Body, error) {
	if version > Version {
		return nil, fmt.Errorf("%w: %q version %d", ErrNewer, kind, version)
	}
	if version < 1 || !bytes.HasPrefix(bytes.TrimSpace(data), []byte("{")) { // null would decode as an empty body
		return nil, fmt.Errorf("entry kind %q: version %d with no body", kind, version)
	}
	t, ok := kinds[kind]
	if !ok {
		return nil, fmt.Errorf("%w: %q", ErrNewer, kind)
	}
	b := reflect.New(t)
	if err := json.Unmarshal(data, b.Interface()); err != nil {
		return nil, fmt.Errorf("entry kind %q: %w", kind, err)
	}
	if many, ok := b.Interface().(interface{ share() }); ok {
		many.share()
	}
	return b.Elem().Interface().(Body), nil
}
