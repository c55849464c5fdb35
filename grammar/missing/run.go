package missing

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar/things"
)

// run asks where a run is: off which wall first, then whether it goes across the ceiling or up a wall.
func (f *frame) run(i int) (all []Guess) {
	f.head = cmp.Or(things.RunWords[f.Items[i].Text], f.Items[i].Text)
	if !f.measures() {
		return nil
	}
	if f.mid && len(f.said)+len(f.open) == 0 { // down the middle, which way?
		return asks(f.head+" down the middle: which way does it run?", f.beside("east-west", length.Canon(f.NS/2), place.North), f.beside("north-south", length.Canon(f.EW/2), place.West))
	}
	if w := f.wall(); w != "" && !f.up && len(f.said) == 0 && (f.Has("L") || len(f.open) == 0) && len(f.open) < 2 { // along a wall
		from, to := w.Ends()
		if f.Has("L") && len(f.open) == 1 {
			return asks("did you mean this?", f.beside("", f.bare(f.open[0]), w))
		}
		eg := f.Units.Pick("6 off ", "150 off ") + string(w)
		return asks(fmt.Sprintf("%s along the %s wall: how far off it is its middle? e.g. `%s`", f.head, w, eg), Guess{Base: f.roomed(fmt.Sprintf("%s from 0 off %s to 0 off %s,", f.head, from, to))})
	}
	fars := slices.DeleteFunc(slices.Clone(f.said), func(s string) bool { return !strings.Contains(s, " off ") })
	switch {
	case len(fars) == 2 && f.ew && f.ns && !f.upright() && len(f.open) == 0: // it comes through the ceiling there
		name, size, _ := strings.Cut(f.head, " ")
		f.head = strings.TrimSpace("fitting " + cmp.Or(f.Items[i].Low, name) + " " + size)
		all = asks("did you mean this?", f.choice(f.text(), f.text()))
		all[0].Tied = true
		return all
	case len(fars)+len(f.open) != 1:
		return nil
	case len(fars) == 0:
		for _, w := range place.Walls {
			if f.wall() != w {
				all = append(all, f.choice(string(w), f.text(f.bare(f.open[0])+" off "+string(w))))
			}
		}
		all[0].Tied = true
		return asks(fmt.Sprintf("%s: %s off which wall?", f.text(), f.opened()), all...)
	}
	_, wall, _ := strings.Cut(fars[0], " off ")
	from, to := place.Wall(wall).Ends()
	if f.up { // it comes out there
		at := f.said[slices.IndexFunc(f.said, func(s string) bool { return !strings.Contains(s, " off ") })]
		for _, w := range []place.Wall{from, to} {
			if f.on == "" || f.wall() == w {
				head := fmt.Sprintf("%s, on %s wall, %s from ", f.head, w, fars[0])
				all = append(all, f.choice(fmt.Sprintf("%s wall, up from the floor", w), head+"0 up to "+at), f.choice(fmt.Sprintf("%s wall, down from the ceiling", w), head+at+" to 0 down"))
			}
		}
		if len(all) > 0 {
			all[0].Tied = true
		}
		return asks(f.text()+": in which wall, and from where does it come?", all...)
	}
	if !f.upright() {
		far, _, _ := strings.Cut(fars[0], " off ")
		all = append(all, f.beside(fmt.Sprintf("across, from %s to %s", from, to), far, place.Wall(wall)))
	}
	for _, w := range []place.Wall{from, to} {
		if f.on == "" || f.wall() == w {
			all = append(all, f.choice(fmt.Sprintf("up the %s wall, floor to ceiling", w), fmt.Sprintf("%s, on %s wall, %s from 0 up to 0 down", f.head, w, fars[0])))
		}
	}
	if len(all) > 0 {
		all[0].Tied = true
	}
	return asks(f.text()+": does it cross the ceiling, or go up a wall?", all...)
}

// beside is a run from end to end of the room, so far off a wall.
func (f *frame) beside(label, far string, w place.Wall) Guess {
	from, to := w.Ends()
	text := fmt.Sprintf("%s, %s off %s from 0 off %s to 0 off %s", f.head, far, w, from, to)
	return f.choice(cmp.Or(label, text), text)
}
