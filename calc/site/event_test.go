package site_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"testing"

	"strapline/calc/place"
	"strapline/calc/site"
)

// Every kind of body comes back from its JSON as it was.
func TestDecode(t *testing.T) {
	for _, b := range []site.Body{
		site.JobTitle{Title: "flat"}, site.UnitsSet{Units: "metric"}, site.Built{Year: 1938},
		site.RoomSize{Room: "den", EW: in, NS: in, Less: []site.Notch{{EW: in, NS: in, Corner: "ne"}}}, site.Here{Room: "den"},
		site.Named{Room: "den", Wall: place.North, Alias: "window"}, site.Supports{Room: "den", Surface: place.Ceiling, What: place.Straps, Run: place.EW, From: place.North},
		site.SupportFix{Room: "den", N: 4, Moved: true, At: in}, site.Board{Thick: in}, site.Clearance{L: in}, site.Screw{L: in},
		site.BoardsRun{Room: "den", Dir: "along"}, site.RowsFrom{Room: "den", Wall: place.South},
		site.Thing{Room: "den", Name: "d1", What: "duct", Size: place.Size{A: in}, Fixes: []place.Fix{off(in, place.West)}},
		site.Things{Room: "den", Each: []site.Thing{{Name: "light 1"}}}, site.MarkSet{Room: "den", Name: "a"}, site.Gap{A: in},
		site.Hung{Room: "den", Row: 1, Pieces: []place.Rect{{X1: in}}, Cut: []string{"d1"}}, site.Boarded{Room: "den", Wall: place.North, Thick: in},
		site.Opened{Room: "den", Names: []string{"d1"}}, site.Told{Room: "den", Names: []string{"d1"}}, site.Note{Text: "x"}, site.Snag{Text: "x"},
		site.SnagFixed{Seq: 1}, site.Hit{What: "gas"}, site.Strike{Seq: 1},
		site.Photo{Of: 1, Links: []string{"x"}},
		site.Route{Room: "den", Name: "p1", What: "pipe", Points: [][]place.Fix{{off(in, place.West)}}, At: []place.Point{{X: in}}, How: "top"},
		site.Plates{Room: "den", Run: "p1", What: place.Straps, N: []int{3}}, site.Code{Code: "us"}, site.Setting{What: "waste", N: 10},
		site.Checked{Room: "den", What: "nails", State: "ok"}, site.Coat{Room: "den", N: 1, RH: new(50.0)}, site.Painted{Room: "den"},
		site.Texture{Room: "den", On: true}, site.Stock{How: "is", Items: []site.Boards{{N: 4, L: 8 * ft}}}, site.Longest{L: 10 * ft},
		site.PlanPick{Room: "den", Pick: 2},
	} {
		data, err := json.Marshal(b)
		if err != nil {
			t.Fatal(err)
		}
		got, err := site.Decode(b.Kind(), site.Version, data)
		if err != nil || !reflect.DeepEqual(got, b) {
			t.Errorf("%s: got %+v %v, want %+v", b.Kind(), got, err, b)
		}
	}
	if _, err := site.Decode("sketch", site.Version, []byte("{}")); !errors.Is(err, site.ErrNewer) {
		t.Errorf("an unknown kind: %v", err)
	}
	if _, err := site.Decode("note", site.Version+1, []byte("{}")); !errors.Is(err, site.ErrNewer) {
		t.Errorf("a newer version: %v", err)
	}
	if _, err := site.Decode("note", site.Version, []byte("{")); err == nil || errors.Is(err, site.ErrNewer) {
		t.Errorf("damaged JSON: %v", err)
	}
}
