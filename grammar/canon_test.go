package grammar_test

import (
	"encoding/json"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/parse"
)

// TestCanonicalReadsBack: an entry of any type, with other lengths, numbers, walls and directions than the lines
// of the tests have, is read from its canonical text as it is; where it is out of bounds for its slot it is
// refused or asked about, and never read otherwise.
func TestCanonicalReadsBack(t *testing.T) {
	byType := map[string][]grammar.Line{}
	for _, tt := range accepted {
		line, err := parse.Line(tt.in, onSite(length.Imperial))
		if err != nil {
			t.Fatalf("%q: %v", tt.in, err)
		}
		name := reflect.TypeOf(line.Entry).Name()
		byType[name] = append(byType[name], line)
	}
	for name, lines := range byType {
		t.Run(name, func(t *testing.T) {
			tries, read := 0, 0
			property := func(t *rapid.T) {
				want := copied(t, rapid.SampledFrom(lines).Draw(t, "like"))
				e := reflect.New(reflect.TypeOf(want.Entry)).Elem()
				e.Set(reflect.ValueOf(want.Entry))
				vary(t, e)
				want.Entry = e.Interface().(grammar.Entry)
				tries++
				got, err := parse.Line(want.String(), onSite(length.Imperial))
				if err != nil {
					return
				}
				read++
				if diff := cmp.Diff(want, got); diff != "" {
					t.Fatalf("%s:\n%s", want, diff)
				}
			}
			rapid.Check(t, property)
			for n := 0; n < 3 && read < tries/4; n++ { // of the openings about a third are read: a hundred may fall short by chance
				rapid.Check(t, property)
			}
			if read < tries/4 {
				t.Errorf("only %d of %d are read", read, tries)
			}
		})
	}
}

// copied shares nothing with line.
func copied(t *rapid.T, line grammar.Line) (out grammar.Line) {
	data, err := json.Marshal(line)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// vary changes what was said of numbers and directions; what was not said stays so.
func vary(t *rapid.T, v reflect.Value) {
	if f, ok := v.Interface().(place.Fix); v.IsZero() || ok && f.How == place.Mid { // halfway north is halfway south
		return
	}
	switch x := v.Interface().(type) {
	case length.Said:
		if x.L != 0 && rapid.Bool().Draw(t, "another length") {
			x.L = length.Length(rapid.Int64Range(1, 2*int64(x.L/length.SixtyFourth)+2).Draw(t, "64ths")) * length.SixtyFourth
		}
		v.Set(reflect.ValueOf(x))
		return
	case length.Length:
		v.Set(reflect.ValueOf(length.Length(rapid.Int64Range(1, 2*int64(x/length.SixtyFourth)+2).Draw(t, "64ths")) * length.SixtyFourth))
		return
	case place.Wall:
		v.Set(reflect.ValueOf(rapid.SampledFrom(place.Walls[:]).Draw(t, "wall")))
		return
	case int:
		v.SetInt(int64(rapid.IntRange(max(1, x-5), x+5).Draw(t, "number")))
		return
	case []int: // each once
		for i := range x {
			x[i] = rapid.IntRange(1, 5).Draw(t, "number")
			if i > 0 {
				x[i] += x[i-1]
			}
		}
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			vary(t, v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			vary(t, v.Index(i))
		}
	}
}
