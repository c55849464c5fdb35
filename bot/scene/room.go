package scene

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/say"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/shell"
	"strapline/calc/site"
)

// Surfaces returns the surfaces of a room that have an extent and something noted on them,
// and the ceiling in any case, or the slope that takes its place.
func Surfaces(r *site.Room) (out []place.Surface) {
	for _, s := range r.Shell().Surfaces() {
		x, y := r.Shell().Extent(s)
		noted := s == place.Ceiling && r.Shell().AllSlope() == "" || len(r.Supports(s)) > 0 || len(r.Pieces(s)) > 0 || len(r.Openings(s)) > 0 ||
			len(r.RoutesOn(s)) > 0 || len(r.Marks(s)) > 0 || s == r.Shell().AllSlope() || slices.ContainsFunc(r.Things, func(th *site.ThingState) bool {
			v, e := th.Now()
			return e != nil && v.Surface == s
		})
		if noted && x > 0 && y > 0 {
			out = append(out, s)
		}
	}
	return out
}

// Named returns the surface of a name such as "north wall"; "" is the ceiling.
func Named(name string) place.Surface {
	if name == "" {
		return place.Ceiling
	}
	return place.Surface(strings.TrimSuffix(strings.ToLower(name), " wall"))
}

// ErrNone reports that there is no such room, or no such surface in it to draw.
var ErrNone = errors.New("there is nothing to draw")

// Room makes the scene of a surface of the named room, with its layout if one was taken.
func Room(st *site.State, plans *inforce.Plans, name string, on place.Surface, speech say.Speech, up bool) (Scene, error) {
	r := st.Room(name)
	if r == nil {
		return Scene{}, fmt.Errorf("there is no room %q: %w", name, ErrNone)
	}
	if all := r.Shell().AllSlope(); on == place.Ceiling && all != "" {
		on = all
	}
	if x, y := r.Shell().Extent(on); !slices.Contains(r.Shell().Surfaces(), on) || x <= 0 || y <= 0 {
		return Scene{}, fmt.Errorf("the %s of %s: %w", on.Name(), name, ErrNone)
	}
	var plan *inforce.Plan
	if r.Pick(on) > 0 {
		p, err := plans.Of(site.Plane{Room: r, Surface: on})
		if errors.Is(err, inforce.ErrWork) || errors.Is(err, inforce.ErrOver) {
			return Scene{}, err
		}
		if err == nil { // else the layout no longer fits; draw only what hangs
			plan = p
		}
	}
	return Of(st, r, on, plan, speech, up), nil
}

// Low is a part of the ceiling's plan that a slope or a bulkhead takes.
type Low struct {
	On   place.Surface
	Rect place.Rect
	Up   length.Length // along the slope, or across the bulkhead
}

// low returns what is drawn lower than the ceiling.
func low(r *shell.Room) (out []Low) {
	for _, on := range r.Surfaces() {
		if q, ok := r.OnPlan(on); ok {
			_, up := r.Extent(on)
			out = append(out, Low{on, q, up})
		}
	}
	return out
}

// AddParts adds the scenes of the slopes and bulkheads of the room to that of its ceiling, for its sheet.
func (s *Scene) AddParts(st *site.State, plans *inforce.Plans) error {
	r := st.Room(s.Room)
	if r == nil || s.Surface != place.Ceiling {
		return nil
	}
	for _, on := range r.Shell().Surfaces() {
		if part, _, _ := on.BulkheadOf(); on.SlopeTo() == "" && part == "" {
			continue
		}
		p, err := Room(st, plans, s.Room, on, s.Speech, false)
		if err != nil {
			return err
		}
		s.Parts = append(s.Parts, p)
	}
	return nil
}
