package settle

import (
	"cmp"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/calc/frame"
	"strapline/calc/length"
	"strapline/calc/place"
)

// Text reads a place back: what was said, from which face, and the resolved coordinates if they
// differ.
func Text(c answer.Ctx, s place.Surface, fixes []place.Fix, p frame.Placed) string {
	plain, walls := true, false
	off := c.Room.Shell().FromStart(s, p.Point)
	for _, f := range fixes {
		walls = walls || f.Wall != "" || f.How == place.UpFrom && (s.FromFloor() || s.SlopeTo() != "")
		a, grows, _ := s.Axis(f.Wall)
		same := max(off.On(a)-f.L, f.L-off.On(a)) < length.Millimetre/1000
		plain = plain && !f.ToEdge && (f.How == place.UpFrom || f.How == place.OffWall && grows && same && (!f.Notch || c.Room.Shell().FromCorner(s, f.Wall) > 0))
	}
	parts := make([]string, len(fixes))
	for i, f := range fixes {
		parts[i] = c.Fix(f)
		if f.Name != "" && f.Edge {
			parts[i] += "'s edge"
		}
		_, board := front(c, s, f, p.Point, c.Sent.UnixMilli())
		if f.Face != "" && (f.Face == place.BoardFace) != (board > 0) { // say the face, if it is not the one a typed distance would be taken to
			f.Main = false
			parts[i] = f.Text(c.Said)
		}
	}
	text := strings.Join(parts, ", ")
	if p.InLine != "" {
		text += ", in line with " + p.InLine
	}
	faces := ""
	if walls {
		faces = Faces(c, s, fixes, p.Point)
	}
	if !plain {
		text += " = " + c.Coords(s, p.Point)
		if strings.Contains(faces, "board face") { // the coordinates are not to it
			text += ", to the studs"
		}
	}
	if walls {
		text += " (" + faces + ")"
	}
	return text
}

// Faces names the faces that distances off walls were measured to, wall by wall if they differ, and the
// floor that heights were measured from.
func Faces(c answer.Ctx, s place.Surface, fixes []place.Fix, at place.Point) string {
	var faces, each []string
	floor := ""
	for _, f := range fixes {
		if f.How == place.UpFrom && s.FromFloor() {
			floor = string(cmp.Or(f.Face, floorAt(c, c.Sent.UnixMilli())))
		}
		name, board := front(c, s, f, at, c.Sent.UnixMilli())
		if name == "" {
			continue
		}
		face := "studs"
		switch {
		case c.Room.Finished(c.Room.Shell().Front(s, f, at)):
			face = "finished wall"
		case f.Face == place.BoardFace || f.Face == "" && board > 0:
			face = "board face"
		}
		if !slices.Contains(faces, face) {
			faces = append(faces, face)
		}
		each = append(each, name+" "+face)
	}
	switch {
	case len(faces) == 0 && floor == "":
		return ""
	case len(faces) == 0:
		return "from the " + floor
	case len(faces) == 1 && floor == "":
		return "from the " + faces[0]
	case len(faces) == 1:
		return "from the " + faces[0] + " and the " + floor
	case floor != "":
		each = append(each, floor)
	}
	return strings.Join(each, ", ")
}

// floorAt returns the floor that heights are measured from at time t.
func floorAt(c answer.Ctx, t int64) place.Face {
	if c.Room.Floor(t) > 0 {
		return place.FinishedFloor
	}
	return place.Subfloor
}
