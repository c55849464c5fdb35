package bot

import (
	"fmt"
	"strings"

	"strapline/calc/place"
	"strapline/calc/site"
)

// snapshot is where a room's things and marks are and how they stand, to say
// afterwards what a correction has changed.
type snapshot struct {
	room  *site.Room
	at    map[*site.ThingState]place.Point
	st    map[*site.ThingState]site.Standing
	marks map[string]place.Point
}

func (t *turn) snap(r *site.Room) snapshot {
	s := snapshot{r, map[*site.ThingState]place.Point{}, map[*site.ThingState]site.Standing{}, map[string]place.Point{}}
	if r == nil {
		return s
	}
	for _, th := range r.Things {
		if st, _ := th.Stands(); st != "" {
			s.at[th], s.st[th] = th.At(), st
		}
	}
	for _, w := range append([]place.Surface{place.Ceiling}, "north", "east", "south", "west") {
		for _, name := range r.Marks(w) {
			if _, p, ok := r.Mark(name); ok {
				s.marks[name] = p
			}
		}
	}
	return s
}

// moves says what is elsewhere or stands otherwise than in before, and names
// those who were given a place that has moved. Things in except have been
// answered already.
func (t *turn) moves(before snapshot, except ...*site.ThingState) {
	if before.room == nil || t.err != nil {
		return
	}
	skip := map[*site.ThingState]bool{}
	for _, th := range except {
		skip[th] = true
	}
	now := t.snap(before.room)
	var moved, outside, covered, bare []string
	var told []*site.ThingState
	for _, th := range before.room.Things {
		old, had := before.at[th]
		at, has := now.at[th]
		if !had || !has || skip[th] {
			continue
		}
		v, _ := th.Now()
		if old != at {
			moved = append(moved, fmt.Sprintf("%s (now %s)", th.Name, t.coords(v.Surface, at)))
			told = append(told, th)
		}
		if !before.room.Inside(v.Surface, at) {
			outside = append(outside, th.Name)
		}
		switch was, is := before.st[th], now.st[th]; {
		case was != site.Covered && is == site.Covered:
			covered = append(covered, th.Name)
		case was == site.Covered && is != site.Covered:
			bare = append(bare, th.Name)
		}
	}
	for name, p := range now.marks {
		if old, had := before.marks[name]; had && old != p {
			moved = append(moved, "mark "+name)
		}
	}
	say := func(kind, what string, list []string) {
		const most = 8
		if len(list) > most {
			list = append(list[:most:most], fmt.Sprintf("and %d more", len(list)-most))
		}
		if len(list) > 0 {
			t.note(kind, what+": "+strings.Join(list, ", "))
		}
	}
	say("moved", "moves with it", moved)
	say("check", "now outside the room", outside)
	say("covered", "covered again", covered)
	say("moved", "no longer covered", bare)
	for _, th := range told {
		_, en := th.Now()
		t.tellTold(th, en)
	}
}
