package revise

import (
	"fmt"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/say"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// Snapshot records where a room's things and marks are and what state they are in, so that a correction
// can say what it changed.
type Snapshot struct {
	room  *site.Room
	at    map[*site.ThingState]place.Point // off the walls that its coordinates start from
	st    map[*site.ThingState]site.Standing
	marks map[string]place.Point
}

// Snap takes a snapshot, empty if there is no room.
func Snap(c answer.Ctx, r *site.Room) Snapshot {
	s := Snapshot{r, map[*site.ThingState]place.Point{}, map[*site.ThingState]site.Standing{}, map[string]place.Point{}}
	if r == nil {
		return s
	}
	for _, th := range r.Things {
		if st, _ := th.Stands(); st != "" {
			s.at[th], s.st[th] = offWalls(th), st
		}
	}
	for _, w := range r.Shell().Surfaces() {
		for _, name := range r.Marks(w) {
			if _, p, ok := r.Mark(name); ok {
				s.marks[name] = r.Shell().FromStart(w, p)
			}
		}
	}
	return s
}

// offWalls returns a thing's distances off the walls that its coordinates start from, rounded to a
// thousandth of a millimetre so that a place compares equal after its room gets its true shape.
func offWalls(th *site.ThingState) place.Point {
	v, _ := th.Now()
	p := th.Room.Shell().FromStart(v.Surface, th.At())
	const to = length.Millimetre / 1000
	return place.Point{X: (p.X + to/2) / to * to, Y: (p.Y + to/2) / to * to}
}

// Moves says what has moved or changed state since the snapshot, and names those who were given a place
// that has moved. Things in except are left out.
func Moves(c answer.Ctx, r *answer.Reply, before Snapshot, except ...*site.ThingState) {
	if before.room == nil {
		return
	}
	skip := map[*site.ThingState]bool{}
	for _, th := range except {
		skip[th] = true
	}
	now := Snap(c, before.room)
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
			moved = append(moved, fmt.Sprintf("%s (now %s)", th.Name, c.In(th.Room).Coords(v.Surface, th.At())))
			told = append(told, th)
		}
		if !before.room.Shell().Inside(v.Surface, th.At()) {
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
	tell := func(kind, what string, list []string) {
		if len(list) > 0 {
			r.Note(kind, what+": "+strings.Join(say.Most(list, 8), ", "))
		}
	}
	tell("moved", "moves with it", moved)
	tell("check", "now outside the room", outside)
	tell("covered", "covered again", covered)
	tell("moved", "no longer covered", bare)
	for _, th := range told {
		_, en := th.Now()
		TellTold(c, r, th, en)
	}
}

// TellTold names those who were given the old place.
func TellTold(c answer.Ctx, r *answer.Reply, th *site.ThingState, old *site.Entry) {
	var names []string
	for _, a := range th.ToldSince(old, c.Who) {
		names = append(names, fmt.Sprintf("%s (%s)", a.Who, c.Clock(a.Sent)))
		r.Tell = append(r.Tell, a.Who)
	}
	if len(names) > 0 {
		r.Note("told", "given the old place of "+th.Name+": "+strings.Join(names, ", ")+". Tell them")
	}
}

// Without returns the snapshot without a mark.
func (s Snapshot) Without(mark string) Snapshot {
	delete(s.marks, mark)
	return s
}
