package site_test

import (
	"fmt"
	"slices"
	"testing"

	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// TestStrikeTakesBack: what an entry says is read while it stands, not when it is struck, and again when the strike is.
func TestStrikeTakesBack(t *testing.T) {
	up := place.Rect{X1: 120 * in, Y1: 48 * in}
	room := func(s *site.State) *site.Room { return s.Room("den") }
	d1 := func(s *site.State) *site.ThingState { return room(s).Thing("d1") }
	seqs := func(es []*site.Entry) (out []uint64) {
		for _, e := range es {
			out = append(out, e.Seq)
		}
		return out
	}
	for _, tt := range []struct {
		name string
		body event.Body
		read func(*site.State) any
		with string // what is read while it stands
		none string // and when it is struck
	}{
		{"title", event.JobTitle{Title: "larkspur"}, func(s *site.State) any { return s.Title() }, "larkspur", ""},
		{"units", event.UnitsSet{Units: length.Metric}, func(s *site.State) any { return s.Units() }, "metric", "imperial"},
		{"code", event.Code{Code: "us"}, func(s *site.State) any { return s.CodeNow() }, "us", ""},
		{"setting", event.Setting{What: "margin", L: 3}, func(s *site.State) any { return s.SettingOr("margin", 7) }, "3", "7"},
		{"setting of another", event.Setting{What: "waste", N: 10}, func(s *site.State) any { v, set := s.SettingNow("waste"); return fmt.Sprint(v.N, set) }, "10 true", "0 false"},
		{"board", event.Board{Thick: 5 * in / 8}, func(s *site.State) any { b, said := s.BoardNow(); return fmt.Sprint(b.Thick == 5*in/8, said) }, "true true", "false false"},
		{"screw", event.Screw{L: 2 * in}, func(s *site.State) any { return s.ScrewSet() == 2*in }, "true", "false"},
		{"clearance", event.Clearance{L: in}, func(s *site.State) any { return s.Clear() == in }, "true", "false"},
		{"longest", event.Longest{L: 10 * ft}, func(s *site.State) any { return s.LongestIn() == 10*ft }, "true", "false"},
		{"stock", event.Stock{How: "is", Items: []event.Boards{{N: 3, L: 8}}}, func(s *site.State) any { b, counted := s.Stock(); return fmt.Sprint(b, counted) }, "[{3 8 0 0 }] true", "[] false"},
		{"stock used", event.Stock{How: "used", Items: []event.Boards{{N: 3, L: 8}}}, func(s *site.State) any { b, counted := s.Stock(); return fmt.Sprint(b, counted) }, "[{-3 8 0 0 }] false", "[] false"},
		{"counted after", event.Stock{How: "is"}, func(s *site.State) any { return s.Boards().CountedAfter(s.Entry(1)) }, "true", "false"},
		{"texture", event.Texture{Room: "den", On: true}, func(s *site.State) any { return room(s).Textured() }, "true", "false"},
		{"rows", event.RowsFrom{Room: "den", Wall: place.South}, func(s *site.State) any { return room(s).RowsFrom(place.Ceiling, place.EW) }, "south", "north"},
		{"boards", event.BoardsRun{Room: "den", Dir: "ew"}, func(s *site.State) any { run, known := room(s).BoardsRun(place.Ceiling); return fmt.Sprint(run, known) }, "ewtrue", "false"},
		{"pick", event.PlanPick{Room: "den", Pick: 2}, func(s *site.State) any { return fmt.Sprint(room(s).Pick(place.Ceiling), len(s.Planned())) }, "2 1", "0 0"},
		{"name of a room", event.Named{Room: "den", Alias: "snug"}, func(s *site.State) any { return s.Room("snug") != nil }, "true", "false"},
		{"name of a wall", event.Named{Room: "den", Wall: place.East, Alias: "stairs"}, func(s *site.State) any { return room(s).WallNamed("stairs") }, "east", ""},
		{"boarded wall", event.Boarded{Room: "den", Wall: place.East, Thick: in}, func(s *site.State) any { return room(s).BoardNow(place.East) == in }, "true", "false"},
		{"finished wall", event.Boarded{Room: "den", Wall: place.East, Finished: true}, func(s *site.State) any { return room(s).Finished(place.Surface(place.East)) }, "true", "false"},
		{"mark", event.MarkSet{Room: "den", Name: "a", Surface: place.Ceiling, Fixes: []place.Fix{off(in, place.West), off(in, place.North)}}, func(s *site.State) any {
			return fmt.Sprint(room(s).Marks(place.Ceiling), room(s).MarkedBy("a"))
		}, "[a]hanger", "[]"},
		{"thing", event.Thing{Room: "den", Name: "d2", What: "duct", Label: "tub", Surface: place.Ceiling, Fixes: []place.Fix{off(in, place.West), off(in, place.North)}, New: true}, func(s *site.State) any {
			return fmt.Sprint(len(s.Find("d2")), len(s.Find("den tub")), len(s.Gone("d2")), s.LastThing("hanger") != nil && s.LastThing("hanger").Name == "d2")
		}, "1 1 0 true", "0 0 1 false"},
		{"second tape", event.Measured{Room: "den", Name: "d1", Fixes: []place.Fix{off(31*in, place.West), off(20*in, place.North)}}, func(s *site.State) any { _, e := d1(s).Second(); return e != nil }, "true", "false"},
		{"opened", event.Opened{Room: "den", Names: []string{"d1"}}, func(s *site.State) any { st, _ := d1(s).Stands(); return st }, "open", "noted"},
		{"told", event.Told{Room: "den", Names: []string{"d1"}}, func(s *site.State) any { return len(d1(s).ToldSince(s.Entry(3), "")) }, "1", "0"},
		{"missed", event.Missed{Room: "den", Name: "d1", At: place.Point{X: 7}}, func(s *site.State) any { return d1(s).Missed() }, "[{7 0}]", "[]"},
		{"hung", event.Hung{Room: "den", Surface: place.Ceiling, Row: 1, Run: place.EW, Pieces: []place.Rect{up}}, func(s *site.State) any {
			st, over := d1(s).Stands()
			return fmt.Sprint(st == site.Covered, over != nil, len(room(s).Pieces(place.Ceiling)))
		}, "true true 1", "false false 0"},
		{"hung and cut", event.Hung{Room: "den", Surface: place.Ceiling, Row: 1, Run: place.EW, Pieces: []place.Rect{up}, Cut: []string{"d1"}}, func(s *site.State) any { st, _ := d1(s).Stands(); return st }, "open", "noted"},
		{"hung from stock", event.Hung{Room: "den", Surface: place.Ceiling, Row: 1, Run: place.EW, Pieces: []place.Rect{up}, Used: []event.Boards{{N: 1, L: 120}}, Left: []event.Boards{{N: 1, L: 20, W: 48}}}, func(s *site.State) any {
			return fmt.Sprint(s.Boards().HungFrom(room(s).Name, place.Ceiling), room(s).Offcuts(place.Ceiling))
		}, "[{1 120 0 0 }] [{1 20 48 0 }]", "[] []"},
		{"run", event.Route{Room: "den", Name: "p2", What: "pipe", Surface: place.Ceiling, Points: [][]place.Fix{{off(in, place.West), off(in, place.North)}, {off(in, place.West), off(9*in, place.North)}}, At: []place.Point{{}, {}}}, func(s *site.State) any {
			return fmt.Sprint(len(room(s).RoutesOn(place.Ceiling)), room(s).Route("p2") != nil)
		}, "2 true", "1 false"},
		{"plate", event.Plates{Room: "den", Run: "p1", What: place.Straps, N: []int{3}}, func(s *site.State) any { return room(s).Route("p1").Plated(place.Straps, 3) }, "true", "false"},
		{"check", event.Checked{Room: "den", What: "nails", State: "ok"}, func(s *site.State) any { return room(s).Checks([]string{"nails"})[0].Open() }, "false", "true"},
		{"check waived", event.Checked{Room: "den", What: "nails", State: "waived", Reason: "glued"}, func(s *site.State) any { return room(s).Checks([]string{"nails"})[0].Reason }, "glued", ""},
		{"check added", event.Checked{Room: "den", What: "caulk", State: "add"}, func(s *site.State) any { return len(room(s).Checks([]string{"nails"})) }, "2", "1"},
		{"snag", event.Snag{Room: "den", Text: "proud nail"}, func(s *site.State) any { return seqs(s.OpenSnags()) }, "[4 7]", "[4]"},
		{"snag fixed", event.SnagFixed{Seq: 4}, func(s *site.State) any { return seqs(s.OpenSnags()) }, "[]", "[4]"},
		{"hit", event.Hit{Room: "den", What: "water"}, func(s *site.State) any { return len(s.HitsIn("den")) }, "1", "0"},
		{"photo", event.Photo{Room: "den", Of: 4, Links: []string{"x"}, Post: "p"}, func(s *site.State) any {
			return fmt.Sprint(s.Photos(4), seqs(s.Pictured()), len(s.PhotosFrom("p")), len(s.PhotosFrom("q")))
		}, "[x] [4] 1 0", "[] [] 0 0"},
		{"another size", event.RoomSize{Room: "den", EW: 130 * in, NS: 100 * in}, func(s *site.State) any {
			b, _ := room(s).Said()
			return fmt.Sprint(b.EW == 130*in, room(s).Sizes())
		}, "true 2", "false 1"},
		{"another place", event.Thing{Room: "den", Name: "d1", What: "duct", Surface: place.Ceiling, Fixes: []place.Fix{off(50*in, place.West), off(20*in, place.North)}}, func(s *site.State) any {
			return fmt.Sprint(d1(s).At().X == 50*in, len(d1(s).Standing()))
		}, "true 2", "false 1"},
		{"a grid", event.Things{Room: "den", Each: []event.Thing{
			{Room: "den", Name: "light 1", What: "light", Surface: place.Ceiling, New: true}, {Room: "den", Name: "light 2", What: "light", Surface: place.Ceiling, New: true},
		}}, func(s *site.State) any { return len(s.Find("light")) }, "2", "0"},
	} {
		l := newLog(t)
		l.at(1, "lead", event.RoomSize{Room: "den", EW: 120 * in, NS: 100 * in})
		l.at(2, "lead", event.Route{Room: "den", Name: "p1", What: "pipe", Surface: place.Ceiling, Points: [][]place.Fix{{off(in, place.West), off(in, place.North)}, {off(90*in, place.West), off(in, place.North)}}, At: []place.Point{{}, {}}})
		l.at(3, "sparks", event.Thing{Room: "den", Name: "d1", What: "duct", Surface: place.Ceiling, Fixes: []place.Fix{off(30*in, place.West), off(20*in, place.North)}, New: true})
		l.at(4, "lead", event.Snag{Room: "den", Text: "nail"})
		l.at(5, "lead", event.Note{Text: "mind the step"})
		l.at(6, "lead", event.Note{Room: "den", Text: "mind the cat"})
		got := func() string { return fmt.Sprint(tt.read(l.st)) }
		if s := got(); tt.name != "thing" && tt.name != "name of a room" && s != tt.none {
			t.Errorf("%s: before it %q, want %q", tt.name, s, tt.none)
		}
		said := l.at(7, "hanger", tt.body)
		if s := got(); s != tt.with {
			t.Errorf("%s: said, it reads %q, want %q", tt.name, s, tt.with)
		}
		strike := l.at(8, "lead", event.Strike{Seq: said})
		if s := got(); s != tt.none {
			t.Errorf("%s: struck, it reads %q, want %q", tt.name, s, tt.none)
		}
		if by := l.st.Entry(said).StruckBy(); by == nil || by.Seq != strike {
			t.Errorf("%s: struck by %+v", tt.name, by)
		}
		l.at(9, "lead", event.Strike{Seq: strike})
		if s := got(); s != tt.with {
			t.Errorf("%s: brought back, it reads %q, want %q", tt.name, s, tt.with)
		}
	}
}

// TestWhoIsWhere: people are known by what they said, and are where they last were.
func TestWhoIsWhere(t *testing.T) {
	l := newLog(t)
	l.say(event.RoomSize{Room: "den", EW: 120 * in, NS: 100 * in})
	if r := l.st.OnlyRoom(); r == nil || r.Name != "den" {
		t.Errorf("the only room is %+v", r)
	}
	l.say(event.RoomSize{Room: "hall", EW: 240 * in, NS: 48 * in})
	if r := l.st.OnlyRoom(); r != nil {
		t.Errorf("one of two is the only room: %s", r.Name)
	}
	l.at(9, "Sparks", event.Here{Room: "den"})
	if r := l.st.RoomOf("sparks"); r == nil || r.Name != "den" || !l.st.Knows("SPARKS") || l.st.Knows("taper") || l.st.RoomOf("taper") != nil {
		t.Errorf("sparks is in %+v", r)
	}
	l.at(10, "sparks", event.Strike{Seq: l.at(9, "lead", event.Built{Year: 1938}), Undo: true})
	var names []string
	for _, r := range l.st.Standing() {
		names = append(names, r.Name)
	}
	if !slices.Equal(names, []string{"den", "hall"}) || l.st.Room("den").Used() {
		t.Errorf("standing: %v", names)
	}
}

// TestWords: what a message may call things by.
func TestWords(t *testing.T) {
	l := kitchen(t)
	l.say(event.Thing{Room: "kitchen", Name: "light over sink", What: "light", Label: "over sink", Surface: place.Ceiling, New: true})
	l.say(event.Boarded{Room: "kitchen", Wall: place.West, Thick: in / 2})
	st := l.st
	if !st.HasName("light over sink") || st.HasName("sink") || !st.HasWord("sink") || st.HasWord("bath") || st.LongestName() != 3 {
		t.Errorf("names: %v %v, words: %v %v, the longest of %d words", st.HasName("light over sink"), st.HasName("sink"), st.HasWord("sink"), st.HasWord("bath"), st.LongestName())
	}
	if got := st.Labelled("sink"); len(got) != 1 || len(st.Labelled("tub")) != 0 {
		t.Errorf("labelled sink: %v", got)
	}
	r := st.Room("kitchen")
	if got := r.MeasuredFrom(place.Ceiling, place.Straps); got != place.North {
		t.Errorf("straps are measured off %s", got)
	}
	if b, e := r.WallSaid(place.Surface(place.West)); e == nil || b.Thick != in/2 {
		t.Errorf("the west wall is said to be %+v", b)
	}
	if frame.Far(place.North) || !frame.Far(place.South) {
		t.Error("rows count from the north unless turned round")
	}
}
