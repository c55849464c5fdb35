package layout

import "strapline/calc/length"

// Framing is what the published limits depend on. With a Thickness of 0, not noted, nothing is checked.
type Framing struct {
	Code      Code
	Thickness length.Length
	Ceiling   bool // else a wall
	Texture   bool // water-based texture will be sprayed on the ceiling
}

// Code is the rule book in force; "" checks both.
type Code string

const (
	US     Code = "us"
	Canada Code = "canada"
)

// limit is one line of a published table: the largest support spacing under board of a thickness, in
// inches on centre; 0 means not allowed.
type limit struct {
	sixteenths                                 int // thickness
	ceiling                                    bool
	across, along, textureAcross, textureAlong int
}

// International Residential Code 2018/2021, table R702.3.5, wood framing, no adhesive, and its
// footnote d on texture (rows from memory; 1/2 in plain board under texture only to 16 in: confirmed in quotes).
var irc = []limit{
	{6, true, 16, 0, 0, 0},
	{6, false, 16, 16, 16, 16},
	{8, true, 24, 16, 16, 0},
	{8, false, 24, 24, 24, 24},
	{10, true, 24, 16, 24, 0},
	{10, false, 24, 24, 24, 24},
}

// National Building Code of Canada 9.29, table 9.29.5.3, read in the Alberta 2023 and Ontario 2024 texts. Its
// 400 and 600 mm are the same nominal spacings as 16 and 24 in (406.4 and 609.6 mm).
var nbc = []limit{
	{6, true, 16, 0, 0, 0},
	{6, false, 16, 0, 16, 0},
	{8, true, 24, 16, 16, 0},
	{8, false, 24, 24, 24, 24},
	{10, true, 24, 16, 24, 0},
	{10, false, 24, 24, 24, 24},
}

// framing adds notes where the supports as noted exceed the published spacing.
func (s *site) framing() (notes []Note) {
	f := s.in.Framing
	if f.Thickness == 0 {
		return notes
	}
	widest := s.widestBay(nil)
	nearest := int((f.Thickness + length.Sixteenth/2) / length.Sixteenth)
	for _, t := range []struct {
		code Code
		name string
		rows []limit
	}{{US, "IRC R702.3.5", irc}, {Canada, "NBC 9.29.5.3", nbc}} {
		if f.Code != "" && f.Code != t.code {
			continue
		}
		found := false
		for _, l := range t.rows {
			if l.sixteenths != nearest || l.ceiling != f.Ceiling {
				continue
			}
			found = true
			most := l.across
			switch {
			case f.Texture && f.Ceiling && s.in.Along:
				most = l.textureAlong
			case f.Texture && f.Ceiling:
				most = l.textureAcross
			case s.in.Along:
				most = l.along
			}
			limit := length.Length(most) * length.Inch
			if most == 0 {
				notes = append(notes, Note{About: Thin, At: f.Thickness, Rule: t.name})
				continue
			}
			s.limits = append(s.limits, Note{About: Spacing, Limit: limit, Rule: t.name})
			if widest > limit+length.Inch { // an inch of tolerance: measured supports are seldom exactly on layout
				notes = append(notes, Note{About: Spacing, At: widest, Limit: limit, Rule: t.name})
			}
		}
		if !found && nearest < 8 {
			notes = append(notes, Note{About: Thin, At: f.Thickness, Rule: t.name})
		}
	}
	return notes
}

// widestBay returns the widest distance between neighbouring supports. Given a lane, it skips supports
// that do not carry its row.
func (s *site) widestBay(l *lane) (widest length.Length) {
	last := length.Length(-1)
	for _, p := range s.posts {
		if l != nil {
			if v, ok := l.section(p.at); ok && !p.carries(v) {
				continue
			}
		}
		if last >= 0 {
			widest = max(widest, p.at-last)
		}
		last = p.at
	}
	return widest
}

// bays adds a note for each row where a support that stops short leaves a bay wider than the limits allow.
func (s *site) bays(lanes []*lane, out *Layout) {
	if s.in.Along {
		return
	}
	all := s.widestBay(nil)
	for i, l := range lanes {
		widest := s.widestBay(l)
		for _, limit := range s.limits {
			if widest > all && widest > limit.Limit+length.Inch {
				limit.Row, limit.At = i+1, widest
				out.Notes = append(out.Notes, limit)
			}
		}
	}
}
