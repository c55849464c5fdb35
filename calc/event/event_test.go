package event_test

import (
	"bufio"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"

	"strapline/calc/event"
)

var update = flag.Bool("update", false, "add the kinds that testdata/kinds.txt lacks")

const kindsFile = "testdata/kinds.txt"

// fill sets every field below v to something other than zero.
func fill(t *testing.T, v reflect.Value) {
	t.Helper()
	switch v.Kind() {
	case reflect.String:
		v.SetString("x")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int, reflect.Int16, reflect.Int64:
		v.SetInt(7)
	case reflect.Uint64:
		v.SetUint(7)
	case reflect.Float64:
		v.SetFloat(7.5)
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(t, v.Elem())
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		fill(t, v.Index(0))
	case reflect.Struct:
		for _, f := range v.Fields() {
			fill(t, f)
		}
	default:
		t.Fatalf("a body with a %s: teach this test how to fill it", v.Kind())
	}
}

// full is a body of the kind with no field left zero.
func full(t *testing.T, kind string) event.Body {
	t.Helper()
	zero, err := event.Decode(kind, event.Version, []byte("{}"))
	if err != nil {
		t.Fatal(err)
	}
	v := reflect.New(reflect.TypeOf(zero)).Elem()
	fill(t, v)
	return v.Interface().(event.Body)
}

// Every kind comes back from its JSON as it was. kinds.txt holds each as the
// first program that knew it wrote it: a field that is renamed would lose what
// old logs hold, and one that is added is left out while it is zero.
func TestKinds(t *testing.T) {
	file, err := os.ReadFile(kindsFile)
	if err != nil {
		t.Fatal(err)
	}
	kept := map[string]string{}
	for sc := bufio.NewScanner(strings.NewReader(string(file))); sc.Scan(); {
		kind, data, _ := strings.Cut(sc.Text(), " ")
		kept[kind] = data
	}
	for _, kind := range event.Kinds() {
		b := full(t, kind)
		data, err := json.Marshal(b)
		if err != nil {
			t.Fatal(err)
		}
		if b.Kind() != kind {
			t.Errorf("kind %q decodes to one of kind %q", kind, b.Kind())
		}
		got, err := event.Decode(kind, event.Version, data)
		if err != nil || !reflect.DeepEqual(got, b) {
			t.Errorf("%s: got %+v %v, want %+v", kind, got, err, b)
		}
		switch old, known := kept[kind]; {
		case !known && *update:
			file = fmt.Appendf(file, "%s %s\n", kind, data)
		case !known:
			t.Errorf("%s lacks kind %q: run with -update", kindsFile, kind)
		default:
			b, err := event.Decode(kind, event.Version, []byte(old))
			if err != nil {
				t.Fatal(err)
			}
			if again, err := json.Marshal(b); err != nil || !reflect.DeepEqual(values(t, again), values(t, []byte(old))) {
				t.Errorf("%s: an old log's\n%s\nis now %v\n%s", kind, old, err, again)
			}
		}
		delete(kept, kind)
	}
	for kind := range kept {
		t.Errorf("kind %q is in old logs and can no longer be read", kind)
	}
	if *update {
		if err := os.WriteFile(kindsFile, file, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// values is what a JSON text holds, whatever the order of its fields.
func values(t *testing.T, text []byte) (v any) {
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

func TestDecodeRefuses(t *testing.T) {
	if _, err := event.Decode("sketch", event.Version, []byte("{}")); !errors.Is(err, event.ErrNewer) {
		t.Errorf("an unknown kind: %v", err)
	}
	if _, err := event.Decode("note", event.Version+1, []byte("{}")); !errors.Is(err, event.ErrNewer) {
		t.Errorf("a newer version: %v", err)
	}
	if _, err := event.Decode("note", event.Version, []byte("{")); err == nil || errors.Is(err, event.ErrNewer) {
		t.Errorf("damaged JSON: %v", err)
	}
}
