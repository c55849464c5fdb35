package sketch

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"strapline/bot/say"
	"strapline/bot/sheet"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
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

// PDF writes the plan on the first sheet, with its slopes and bulkheads below it, and the lists on the
// following ones. The paper is US Letter, or A4 in a metric job.
func (s Scene) PDF(w io.Writer) error {
	paper := "Letter"
	if s.Units == length.Metric {
		paper = "A4"
	}
	return sheet.PDF(w, paper, s.Room+" "+s.Surface.Name(), s.Now, s.sheets)
}

// Highest is the height limit of a picture, in pixels. What does not fit is in the lists.
const Highest = 4000

// Formats are the file extensions that [Scene.Write] supports.
var Formats = []string{".png", ".svg", ".pdf"}

// Write writes the scene in the format of a file extension. A PDF has the plan on its
// first sheet and the lists on the others; a picture has only the plan or, with cuts, only
// the first page of the lists. The same scene always gives the same bytes.
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
