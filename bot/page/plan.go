package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"html/template"
	"maps"
	"net/url"
	"time"

	"strapline/bot/say"
	"strapline/bot/scene"
	"strapline/bot/sketch"
	"strapline/calc/inforce"
	"strapline/calc/place"
	"strapline/calc/site"
)

// maxPlans is how many pictures a page shows; further surfaces get only a link.
const maxPlans = 24

// plan is the picture of a surface. SVG is empty if it is not drawn.
type plan struct {
	Title string       // such as "kitchen ceiling"
	Href  template.URL // of the page that shows it alone and larger
	SVG   template.HTML
	Due   bool // to be drawn by one of the next views
}

// planID identifies a picture.
type planID struct {
	room string
	on   place.Surface
	up   bool // as seen looking up
}

func (w planID) title() string {
	if w.on.IsWall() {
		return say.Where(w.room, w.on)
	}
	return w.room + " " + string(w.on)
}

// query returns the query parameters of a link to the picture.
func (w planID) query() url.Values {
	q := url.Values{"room": {w.room}, "surface": {string(w.on)}}
	if w.up {
		q.Set("up", "1")
	}
	return q
}

func (w planID) href() template.URL { return template.URL("?" + w.query().Encode()) }

// parsePlanID is the inverse of query. It returns nil unless q is exactly as in our links.
func parsePlanID(q url.Values) *planID {
	w := planID{q.Get("room"), place.Surface(q.Get("surface")), q.Get("up") == "1"}
	if w.query().Encode() != q.Encode() {
		return nil
	}
	return &w
}

// drawing is a picture and the hash of the scene it was drawn from.
type drawing struct {
	sum [sha256.Size]byte
	svg template.HTML
}

// singlePlan is the picture on a page of its own.
type singlePlan struct {
	plan
	Other template.URL // of the same picture, mirrored
	Up    bool
}

// single draws the picture for a page of its own.
func (p *page) single(st *site.State, speech say.Speech, w planID) (*singlePlan, error) {
	other := w
	other.up = !w.up
	o := &singlePlan{plan{Title: w.title(), Href: w.href()}, other.href(), w.up}
	var err error
	if o.SVG, _, err = p.draw(st, speech, w); errors.Is(err, inforce.ErrOver) {
		err = nil
	}
	return o, err
}

// draw draws a surface, or returns the last drawing if the scene has not changed since. The
// drawing then still names the entry that was the last one when it was made.
func (p *page) draw(st *site.State, speech say.Speech, w planID) (svg template.HTML, anew bool, err error) {
	s, err := scene.Room(st, p.job.Plans(st), w.room, w.on, speech, w.up)
	if err == nil && s.Room != w.room { // our links have the room's name exactly
		err = scene.ErrNone
	}
	if err != nil {
		return "", false, err
	}
	bare := s
	bare.Entry, bare.Now = 0, time.Time{}
	from, err := json.Marshal(bare)
	if err != nil {
		return "", false, err
	}
	sum := sha256.Sum256(from)
	if d, ok := p.drawn[w]; ok && d.sum == sum {
		return d.svg, false, nil
	}
	var out bytes.Buffer
	sheet, _ := sketch.Plan(s, sketch.Highest)
	if err := sheet.Inline(&out, w.title()+", plan to scale", s.About()); err != nil {
		return "", false, err
	}
	d := drawing{sum, template.HTML(out.String())} // Inline escapes the crew's texts
	if p.drawn == nil {
		p.drawn = map[planID]drawing{}
	}
	p.drawn[w] = d
	return d.svg, true, nil
}

// plans adds the plans of all rooms to the board. It draws at least one that changed, and
// more until most has passed; the others are left due for the next views. Drawings of
// surfaces that no longer exist are dropped.
func (p *page) plans(st *site.State, speech say.Speech, b *board, most time.Duration) error {
	end := time.Now().Add(most)
	shown, began := map[planID]bool{}, false
	for i := range b.Rooms {
		r := &b.Rooms[i]
		for _, on := range scene.Surfaces(st.Room(r.Room)) {
			w := planID{room: r.Room, on: on}
			next := plan{Title: w.title(), Href: w.href()}
			if len(shown) < maxPlans {
				shown[w] = true
				next.Due = began && time.Now().After(end)
			}
			if shown[w] && !next.Due {
				svg, anew, err := p.draw(st, speech, w)
				if err != nil && !errors.Is(err, inforce.ErrOver) { // a layout that takes too long is only worked out when the crew asks for it
					return err
				}
				next.SVG, began = svg, began || anew
			}
			b.Due = b.Due || next.Due
			r.Plans = append(r.Plans, next)
		}
	}
	maps.DeleteFunc(p.drawn, func(w planID, _ drawing) bool { return !shown[w] })
	return nil
}
