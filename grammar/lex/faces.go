package lex

import (
	"strings"

	"strapline/calc/place"
)

// faces are the ways to say a side of a notch, or a part of a bulkhead that needs an ordinal, with its
// surface. A notch's north wall is one of its faces, which one depends on the room (see
// [place.Surface.NotchWall]).
func faces() map[string]string {
	out := map[string]string{}
	for _, at := range notches() {
		for _, w := range place.Walls {
			face, wall := said(at.is, "notch", string(w), "face"), said(at.is, "notch", string(w), "wall")
			for _, name := range at.said {
				out[said(name, "notch", string(w), "face")] = face
				out[said(name, "notch facing", string(w))] = face
				out[said(name, "notch wall facing", string(w))] = face
				out[said(name, "notch", string(w), "wall")] = wall
				for _, the := range [2]string{"", "the"} {
					for _, is := range [2]string{"face", "side"} {
						out[said(string(w), is, "of", the, name, "notch")] = face
					}
					out[said(string(w), "wall of", the, name, "notch")] = wall
				}
			}
			if at.is == "" {
				out["notch's "+string(w)+" wall"], out[string(w)+" notch wall"] = wall, wall
				out["notch's "+string(w)+" face"], out[string(w)+" notch face"] = face, face
			}
		}
	}
	for n := 1; n < len(place.Ordinals); n++ {
		for _, w := range place.Walls {
			for _, part := range [3]string{place.Bottom, place.Front, place.Back} {
				is := string(place.Part(w, n, part))
				out[is] = is
				if part == place.Bottom {
					out[strings.TrimSuffix(is, " bottom")] = is
				}
			}
		}
	}
	return out
}

// notch is the name of a notch, "" if the room has only one, and the ways to say it.
type notch struct {
	is   string
	said []string
}

func notches() []notch {
	out := []notch{{"", []string{""}}}
	for is, also := range place.Corners {
		out = append(out, notch{is, []string{is, also}})
	}
	for n := range place.Ordinals {
		for _, w := range place.Walls {
			is := place.Nth(n, string(w))
			out = append(out, notch{is, []string{is}})
		}
	}
	return out
}

// said joins words, leaving out what is empty.
func said(words ...string) string { return strings.Join(strings.Fields(strings.Join(words, " ")), " ") }
