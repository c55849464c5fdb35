package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"html/template"
	"net/url"
	"time"

	"strapline/bot/say"
	"strapline/bot/sketch"
	"strapline/calc/inforce"
	"strapline/calc/place"
	"strapline/calc/site"
)

// mostPlans is how many pictures stand in a page; the others have a link alone.
const mostPlans = 24

// plan is the picture of a surface. It has no SVG while that is not drawn.
type plan struct {
	Title string       // kitchen ceiling
	Href  template.URL // of a page with nothing else, where it is larger
	SVG   template.HTML
	Due   bool // the next view goes on to draw it
}

// which picture it is.
type which struct {
	room string
	on   place.Surface
	up   bool // as seen looking up
}

func (w which) title() string {
	if w.on.IsWall() {
		return say.Where(w.room, w.on)
	}
	return w.room + " " + string(w.on)
}

// query is what a link adds to the page's address.
func (w which) query() url.Values {
	q := url.Values{"room": {w.room}, "surface": {string(w.on)}}
	if w.up {
		q.Set("up", "1")
	}
	return q
}

func (w which) href() template.URL { return template.URL("?" + w.query().Encode()) }

// asked is which picture a request is for; there is none when it is not written as our links are.
func asked(q url.Values) *which {
	w := which{q.Get("room"), place.Surface(q.Get("surface")), q.Get("up") == "1"}
	if w.query().Encode() != q.Encode() {
		return nil
	}
	return &w
}

// drawn is a picture as it was last drawn, and the sum of what it was drawn from.
type drawn struct {
	of  [sha256.Size]byte
	svg template.HTML
}

// one is a page with one picture alone.
type one struct {
	plan
	Other template.URL // the same, seen from the other side
	Up    bool
}

// alone draws one picture, as large as it is wanted.
func (p *page) alone(st *site.State, speech say.Speech, w which) (*one, error) {
	other := w
	other.up = !w.up
	o := &one{plan{Title: w.title(), Href: w.href()}, other.href(), w.up}
	var err error
	if o.SVG, _, err = p.draw(st, speech, w); errors.Is(err, inforce.ErrOver) {
		err = nil
	}
	return o, err
}

// draw draws a surface, unless it was drawn from the same before: then it is as it was, with
// the entry that was the last one at the time.
func (p *page) draw(st *site.State, speech say.Speech, w which) (svg template.HTML, anew bool, err error) {
	s, err := sketch.Room(st, p.job.Plans(st), w.room, w.on, speech, w.up)
	if err == nil && s.Room != w.room { // another way to write it is none of our links
		err = sketch.ErrNone
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
	if d, ok := p.drawn[w]; ok && d.of == sum {
		return d.svg, false, nil
	}
	var out bytes.Buffer
	sheet, _ := s.Plan(sketch.Highest)
	if err := sheet.Inline(&out, w.title()+", plan to scale", s.About()); err != nil {
		return "", false, err
	}
	d := drawn{sum, template.HTML(out.String())} // what was texted is escaped in it
	if p.drawn == nil {
		p.drawn = map[which]drawn{}
	}
	p.drawn[w] = d
	return d.svg, true, nil
}

// plans draws what of a board's rooms can be drawn, one at least and as far as the time allows: what
// is left is drawn by the views that follow. Pictures of what is there no more are forgotten.
func (p *page) plans(st *site.State, speech say.Speech, b *board, most time.Duration) error {
	end := time.Now().Add(most)
	shown, began := map[which]bool{}, false
	for i := range b.Rooms {
		r := &b.Rooms[i]
		for _, on := range sketch.Surfaces(st.Room(r.Room)) {
			w := which{room: r.Room, on: on}
			next := plan{Title: w.title(), Href: w.href()}
			if len(shown) < mostPlans {
				shown[w] = true
				next.Due = began && time.Now().After(end)
			}
			if shown[w] && !next.Due {
				svg, anew, err := p.draw(st, speech, w)
				if err != nil && !errors.Is(err, inforce.ErrOver) { // a plan that takes too long is drawn when somebody in the crew asks for it
					return err
				}
				next.SVG, began = svg, began || anew
			}
			b.Due = b.Due || next.Due
			r.Plans = append(r.Plans, next)
		}
	}
	for w := range p.drawn {
		if !shown[w] {
			delete(p.drawn, w)
		}
	}
	return nil
}
