package place

import (
	"slices"
	"strconv"
	"strings"

	"strapline/calc/length"
)

// String is the reference as it is typed, such as "strap 3 edge", "mark a" or "d1".
func (o Of) String() string {
	switch {
	case o.Sup == "" && len(o.Name) == 1:
		return "mark " + o.Name
	case o.Sup == "":
		return o.Name
	case o.Edge:
		return o.Sup.One() + " " + strconv.Itoa(o.N) + " edge"
	}
	return o.Sup.One() + " " + strconv.Itoa(o.N)
}

// String is the distance as it is typed, exactly.
func (f Fix) String() string { return f.Text(length.Said.String) }

// Text is the distance as the crew types it, such as 7" south of strap 3. say prints a
// length with its tag.
func (f Fix) Text(say func(length.Said) string) string {
	l := say(f.Said)
	var words []string
	switch f.How {
	case OnLine:
		words = []string{"on", f.Of.String()}
	case DirOf:
		words = []string{l, string(f.Dir), "of", f.Of.String()}
	case UpFrom:
		words = []string{l, "up"}
		if f.Face != "" {
			words = append(words, "off", string(f.Face))
		}
	case DownTo:
		words = []string{l, "down", f.Face.text()}
	case Mid:
		words = []string{"halfway", "east-west"}
		if f.Dir == North || f.Dir == South {
			words[1] = "north-south"
		}
	case Between:
		words = []string{"between", f.Of.String(), "and", strconv.Itoa(int(f.M))}
	case Along:
		words = []string{l, "along", f.Of.String()}
		if f.Wall != "" {
			words = append(words, "from", string(f.Wall))
		}
		words = append(words, f.Face.text())
	default:
		if f.Wall == "" && f.Side != "" && f.Face == "" {
			words = []string{l, f.Side}
			break
		}
		words = []string{l, "off", string(f.Wall), f.Side, f.notch(), f.level(), f.Face.text()}
	}
	switch {
	case f.ToEdge:
		words = append(words, "to edge")
	case f.ToCentre:
		words = append(words, "to centre")
	}
	return strings.Join(strings.Fields(strings.Join(words, " ")), " ")
}

// Name is what the crew calls a surface, such as "ceiling" or "north wall".
func (s Surface) Name() string {
	if s.IsWall() {
		return string(s) + " wall"
	}
	return string(s)
}

// HasHeight reports whether one of the distances is up from the floor or down from the ceiling.
func HasHeight(fixes []Fix) bool {
	return slices.ContainsFunc(fixes, func(f Fix) bool { return f.How == UpFrom || f.How == DownTo })
}

// Settled returns f as it is saved, without the fields that are resolved by then.
func (f Fix) Settled() Fix {
	f.Side, f.Main, f.ToCentre = "", false, false
	return f
}

// InLine is what pins the other coordinate to that of a point: "0 north of l1" beside a
// distance off the west wall. It is "" beside what is no distance off a wall.
func (f Fix) InLine(name string) string {
	if f.How != OffWall || f.Wall == "" {
		return ""
	}
	across := North
	if f.Wall == North || f.Wall == South {
		across = West
	}
	return "0 " + string(across) + " of " + name
}

func (f Fix) notch() string {
	switch {
	case f.Notch:
		return "notch"
	case f.Main:
		return "main"
	}
	return ""
}

func (f Fix) level() string {
	if f.Level {
		return "on plan"
	}
	return ""
}

func (f Face) text() string {
	if f == Framing {
		return "studs"
	}
	return string(f)
}

// Text is the size with lengths printed by say, such as 4" x 10", or "" if unknown.
func (s Size) Text(say func(length.Length) string) string {
	switch {
	case s.A == 0:
		return ""
	case s.B == 0:
		return say(s.A)
	}
	return say(s.A) + " x " + say(s.B)
}
