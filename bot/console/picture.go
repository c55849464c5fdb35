package console

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"strapline/bot/job"
	"strapline/bot/message"
)

// Pictures saves the pictures of replies as files, since a prompt cannot show them. A nil
// *Pictures saves none.
type Pictures struct {
	Dir string // "" makes a temporary folder when the first picture is saved
}

// keep saves the pictures of a reply and returns a line with the path of each.
func (p *Pictures) keep(j *job.Job, out message.Out) (lines []string, err error) {
	if p == nil {
		return nil, nil
	}
	for _, a := range out.Answers {
		for _, pic := range a.Pictures {
			if pic.Beside { // nobody asked for it, so do not report a file
				continue
			}
			path, err := p.write(j, a.Job, pic)
			if err != nil {
				return lines, err
			}
			lines = append(lines, "picture: "+path)
		}
	}
	return lines, nil
}

func (p *Pictures) write(j *job.Job, name string, pic message.Picture) (path string, err error) {
	var png bytes.Buffer
	if err := j.Picture(&png, pic); err != nil {
		return "", err
	}
	if p.Dir == "" {
		p.Dir, err = os.MkdirTemp("", "strapline-pictures-")
	} else {
		err = os.MkdirAll(p.Dir, 0o700)
	}
	if err != nil {
		return "", err
	}
	name = job.Slug(fmt.Sprintf("%s %d %s", name, pic.Entry, strings.TrimSuffix(pic.Name, ".png")))
	path = filepath.Join(p.Dir, name+".png")
	return path, os.WriteFile(path, png.Bytes(), 0o600)
}
