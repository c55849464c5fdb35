package sketch

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"strapline/bot/say"
	"strapline/calc/inforce"
	"strapline/calc/place"
	"strapline/calc/site"
)

// Surfaces are those of a room that can be drawn and on which something is noted; the
// ceiling in any case where there is one.
func Surfaces(r *site.Room) (out []place.Surface) {
	for _, s := range r.Surfaces() {
		x, y := r.Extent(s)
		noted := s == place.Ceiling && r.AllSlope() == "" || len(r.Supports(s)) > 0 || len(r.Pieces(s)) > 0 || len(r.Openings(s)) > 0 ||
			len(r.RoutesOn(s)) > 0 || len(r.Marks(s)) > 0 || s == r.AllSlope() || slices.ContainsFunc(r.Things, func(th *site.ThingState) bool {
			v, e := th.Now()
			return e != nil && v.Surface == s
		})
		if noted && x > 0 && y > 0 {
			out = append(out, s)
		}
	}
	return out
}

// Named is the surface that is called so, "" the ceiling.
func Named(name string) place.Surface {
	if name == "" {
		return place.Ceiling
	}
	return place.Surface(strings.TrimSuffix(strings.ToLower(name), " wall"))
}

// ErrNone: there is no such room, or no such surface in it that can be drawn.
var ErrNone = errors.New("there is nothing to draw")

// Room is the scene of a surface of the room of that name, with its layout where one was taken.
func Room(st *site.State, plans *inforce.Plans, name string, on place.Surface, speech say.Speech, up bool) (Scene, error) {
	r := st.Room(name)
	if r == nil {
		return Scene{}, fmt.Errorf("there is no room %q: %w", name, ErrNone)
	}
	if all := r.AllSlope(); on == place.Ceiling && all != "" {
		on = all
	}
	if x, y := r.Extent(on); !slices.Contains(r.Surfaces(), on) || x <= 0 || y <= 0 {
		return Scene{}, fmt.Errorf("the %s of %s: %w", on.Name(), name, ErrNone)
	}
	var plan *inforce.Plan
	if r.Pick(on) > 0 {
		p, err := plans.Of(site.Plane{Room: r, Surface: on})
		if errors.Is(err, inforce.ErrWork) || errors.Is(err, inforce.ErrOver) {
			return Scene{}, err
		}
		if err == nil { // else what was taken fits no more, and what hangs is drawn
			plan = p
		}
	}
	return Of(st, r, on, plan, speech, up), nil
}

// Highest is how high a picture may be: what does not go into it is in the lists.
const Highest = 4000

// Formats are the endings of the files that [Scene.Write] knows.
var Formats = []string{".png", ".svg", ".pdf"}

// Write writes a scene in the format of a file's ending: a PDF has the plan on its first
// sheet and the lists on those that follow, a picture is the plan alone or, with
// cuts, the first page of the lists alone. The same scene gives the same bytes.
func (s Scene) Write(w io.Writer, format string, cuts bool) error {
	if format == ".pdf" {
		return s.PDF(w)
	}
	page, left := s.Plan(Highest)
	if cuts {
		page = s.Lists(Highest, left)[0]
	}
	switch format {
	case ".png":
		return page.PNG(w)
	case ".svg":
		return page.SVG(w)
	}
	return fmt.Errorf("a sketch is a .png, a .svg or a .pdf, not %q", format)
}
