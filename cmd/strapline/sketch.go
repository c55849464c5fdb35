package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"strapline/bot"
	"strapline/bot/scene"
	"strapline/bot/sketch"
	"strapline/cmd/cli"
)

type sketchCmd struct {
	jobFlags
	Room string `arg:"" help:"The room."`
	Out  string `short:"o" required:"" type:"path" predictor:"file" placeholder:"FILE" help:"The file: a .png, a .svg, or a .pdf with slopes and bulkheads below the ceiling's plan, and the lists behind it."`
	On   string `placeholder:"SURFACE" help:"Which surface: 'north wall', 'south slope', 'north bulkhead face'; the ceiling unless said."`
	Up   bool   `help:"As seen looking up: mirrored."`
	Cuts bool   `help:"The cut list and what is covered, instead of the plan."`
}

func (c *sketchCmd) Run(s *cli.Streams) (err error) {
	format := strings.ToLower(filepath.Ext(c.Out))
	if !slices.Contains(sketch.Formats, format) {
		return fmt.Errorf("a sketch is a file that ends in %s, not %q", strings.Join(sketch.Formats, ", "), c.Out)
	}
	path, err := c.path(s)
	if err != nil {
		return err
	}
	if _, err := os.Stat(path); err != nil {
		return err // opening a missing job would create it
	}
	b, err := bot.New(bot.Options{Dir: filepath.Dir(path), Log: s.Log()})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	j, err := b.Job(c.Job)
	if err != nil {
		return err
	}
	st, plans, err := j.At(0)
	if err != nil {
		return err
	}
	picture, err := scene.Room(st, plans, c.Room, scene.Named(c.On), j.Speech(st, time.Now()), c.Up)
	if err != nil {
		return err
	}
	if format == ".pdf" {
		if err := picture.AddParts(st, plans); err != nil {
			return err
		}
	}
	f, err := os.Create(c.Out)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	if err := sketch.Write(f, picture, format, c.Cuts); err != nil {
		return err
	}
	fmt.Fprintln(s.Out, c.Out)
	return nil
}
