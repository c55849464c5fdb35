package sheet

import (
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"maps"
	"math"
	"slices"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// PNG writes the page as a PNG with a palette.
func (p *Page) PNG(w io.Writer) error {
	img, err := p.Image()
	if err != nil {
		return err
	}
	return (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(w, paletted(img))
}

// shades holds the inks and steps from each to white, which are all the colours on a page
// except where two inks meet.
var shades = sync.OnceValue(func() color.Palette {
	const steps = 26
	out := color.Palette{White.rgba()}
	for _, ink := range slices.Sorted(maps.Keys(inks)) {
		if ink == White {
			continue
		}
		c := ink.rgba()
		for n := range steps {
			mix := func(v uint8) uint8 { return uint8((int(v)*(steps-n) + 255*n) / steps) }
			out = append(out, color.RGBA{mix(c.R), mix(c.G), mix(c.B), 0xff})
		}
	}
	return out
})

// paletted converts a picture to the palette of shades. The file, and the time to
// compress it, is about a third.
func paletted(img *image.RGBA) *image.Paletted {
	out := image.NewPaletted(img.Rect, shades())
	var known [1 << 15]uint8 // by 5 bits of each channel, the palette index + 1; 0 if not looked up yet
	for i := range out.Pix {
		c := img.Pix[4*i : 4*i+3 : 4*i+3]
		k := &known[int(c[0]>>3)<<10|int(c[1]>>3)<<5|int(c[2]>>3)]
		if *k == 0 {
			*k = uint8(out.Palette.Index(color.RGBA{c[0], c[1], c[2], 0xff})) + 1
		}
		out.Pix[i] = *k - 1
	}
	return out
}

// Image rasterizes the page.
func (p *Page) Image() (*image.RGBA, error) {
	c := &canvas{img: image.NewRGBA(image.Rect(0, 0, Width, int(p.H)))}
	draw.Draw(c.img, c.img.Rect, image.White, image.Point{}, draw.Src)
	for _, s := range p.Shapes {
		c.shape(s)
	}
	type set struct {
		size float64
		bold bool
	}
	faces := map[set]font.Face{}
	for _, t := range p.Texts {
		f := faces[set{t.Size, t.Bold}]
		if f == nil {
			var err error
			f, err = opentype.NewFace(face(t.Bold), &opentype.FaceOptions{Size: t.Size, DPI: 72, Hinting: font.HintingNone})
			if err != nil {
				return nil, err
			}
			faces[set{t.Size, t.Bold}] = f
		}
		d := font.Drawer{Dst: c.img, Src: image.NewUniform(t.Ink.rgba()), Face: f}
		x, y := t.X, t.Y
		if t.Up {
			d.Dst, x, y = upward{c.img, int(t.X), int(t.Y)}, 0, 0
		}
		for _, r := range t.S { // one by one, since textWidth ignores kerning
			d.Dot = fixed.Point26_6{X: fixed.Int26_6(math.Round(x * 64)), Y: fixed.Int26_6(math.Round(y * 64))}
			d.DrawString(string(r))
			x += TextWidth(string(r), t.Size, t.Bold)
		}
	}
	return c.img, nil
}

// upward is a view of a picture, turned so that level text drawn at 0, 0 runs upward from
// x, y.
type upward struct {
	img  *image.RGBA
	x, y int
}

func (u upward) ColorModel() color.Model { return color.RGBAModel }
func (u upward) Bounds() image.Rectangle {
	b := u.img.Rect
	return image.Rect(u.y-b.Max.Y, b.Min.X-u.x, u.y-b.Min.Y, b.Max.X-u.x)
}
func (u upward) At(x, y int) color.Color     { return u.img.At(u.x+y, u.y-1-x) }
func (u upward) Set(x, y int, c color.Color) { u.img.Set(u.x+y, u.y-1-x, c) }

func (i Ink) rgba() color.RGBA {
	return color.RGBA{uint8(i >> 16), uint8(i >> 8), uint8(i), 0xff}
}

// canvas draws shapes. Each is rasterized within its own bounds only, for speed.
type canvas struct {
	img *image.RGBA
	ras vector.Rasterizer
}

func (c *canvas) shape(s Shape) {
	if s.Fill != None {
		c.fill(s.Fill, s.Points)
	}
	if s.Pen.W == 0 {
		return
	}
	points := s.Points
	if s.Closed {
		points = append(points[:len(points):len(points)], points[0], points[1%len(points)])
	}
	solid := len(s.Pen.Dash) == 0
	at, on, left := 0, true, math.Inf(1) // the position in the dash pattern
	if !solid {
		left = s.Pen.Dash[0]
	}
	last := len(points) - 1
	if s.Closed {
		last-- // the second point was repeated only to finish the last corner
	}
	for i := range last {
		a, b := points[i], points[i+1]
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		if long == 0 {
			continue
		}
		ux, uy := (b.X-a.X)/long, (b.Y-a.Y)/long
		for from := 0.0; from < long; {
			to := min(long, from+left)
			if on {
				f, t := from, to
				if solid { // extend for corners and square ends
					f, t = f-s.Pen.W/2, t+s.Pen.W/2
				}
				c.fill(s.Pen.Ink, stroke(Point{a.X + ux*f, a.Y + uy*f}, Point{a.X + ux*t, a.Y + uy*t}, s.Pen.W))
			}
			left -= to - from
			from = to
			if !solid && left <= 1e-9 {
				at, on = (at+1)%len(s.Pen.Dash), !on
				left = s.Pen.Dash[at]
			}
		}
	}
}

// stroke is the outline of a line from a to b.
func stroke(a, b Point, w float64) []Point {
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	nx, ny := (a.Y-b.Y)/long*w/2, (b.X-a.X)/long*w/2
	return []Point{{a.X + nx, a.Y + ny}, {b.X + nx, b.Y + ny}, {b.X - nx, b.Y - ny}, {a.X - nx, a.Y - ny}}
}

func (c *canvas) fill(ink Ink, points []Point) {
	lo, hi := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range points {
		lo, hi = Point{min(lo.X, p.X), min(lo.Y, p.Y)}, Point{max(hi.X, p.X), max(hi.Y, p.Y)}
	}
	r := image.Rect(int(math.Floor(lo.X)), int(math.Floor(lo.Y)), int(math.Ceil(hi.X)), int(math.Ceil(hi.Y))).Intersect(c.img.Bounds())
	if r.Empty() {
		return
	}
	c.ras.Reset(r.Dx(), r.Dy())
	x0, y0 := float64(r.Min.X), float64(r.Min.Y)
	for i, p := range points {
		x, y := float32(p.X-x0), float32(p.Y-y0)
		if i == 0 {
			c.ras.MoveTo(x, y)
		} else {
			c.ras.LineTo(x, y)
		}
	}
	c.ras.ClosePath()
	c.ras.DrawOp = draw.Over
	c.ras.Draw(c.img, r, image.NewUniform(ink.rgba()), image.Point{})
}
