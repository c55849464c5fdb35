package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"strapline/bot"
	"strapline/bot/console"
	"strapline/bot/job"
	"strapline/bot/message"
	"strapline/cmd/cli"
	"strapline/store"
)

// commands is the command line; its tags are its manual.
type commands struct {
	cli.Flags

	Play    playCmd    `cmd:"" help:"Play a conversation file and print the replies."`
	Talk    talkCmd    `cmd:"" help:"Text to a job at a prompt, or through a pipe."`
	Export  exportCmd  `cmd:"" help:"Write a job as JSON lines."`
	Import  importCmd  `cmd:"" help:"Make a job from exported JSON lines."`
	Check   checkCmd   `cmd:"" help:"Verify a job's whole file."`
	Backup  backupCmd  `cmd:"" help:"Copy a job that nobody has open."`
	Recover recoverCmd `cmd:"" help:"Put a job right whose file a power cut tore."`
	Sketch  sketchCmd  `cmd:"" help:"Draw the ceiling of a room into a file."`
}

func run(args []string, s *cli.Streams) int {
	return cli.Run("strapline", "A field assistant for the crew that boards ceilings and walls.", new(commands), args, s)
}

// jobFlags select a job in a data folder.
type jobFlags struct {
	Job  string `default:"site" predictor:"job" help:"The job, by its name."`
	Data string `type:"path" predictor:"dir" placeholder:"DIR" help:"The data folder; by default the user's own."`
}

func (j jobFlags) name(s *cli.Streams) (string, error) { return jobName(j.Job, s) }

// jobName returns the name under which the job is stored, and says on s.Err when that
// differs from what was typed by more than case.
func jobName(typed string, s *cli.Streams) (string, error) {
	name, err := job.Named(typed)
	switch {
	case err != nil:
		return "", err
	case strings.HasPrefix(typed, ".") || strings.ContainsAny(typed, `/\`):
		return "", fmt.Errorf("%q is no job's name but a path; name the job with --job and its folder with --data", typed)
	case name != strings.ToLower(typed):
		fmt.Fprintf(s.Err, "job %q is kept as %s\n", typed, name)
	}
	return name, nil
}

// path returns the path of the job's file.
func (j jobFlags) path(s *cli.Streams) (string, error) {
	dir, err := cli.Folder(j.Data)
	if err != nil {
		return "", err
	}
	name, err := j.name(s)
	return filepath.Join(dir, name+".job"), err
}

type playCmd struct {
	File  string  `arg:"" predictor:"file" help:"The conversation; - reads it from standard input."`
	JSON  bool    `name:"json" help:"Print one JSON object an entry."`
	Check bool    `help:"Print only what differs from the expected replies, and fail on it."`
	Data  string  `type:"path" predictor:"dir" placeholder:"DIR" help:"Keep the job in DIR instead of a fresh temporary folder."`
	Job   string  `predictor:"job" help:"The job; by default the file's name."`
	As    *string `help:"Play only what this sender wrote."`
}

func (c *playCmd) Run(s *cli.Streams) (err error) {
	in := s.In
	name := "standard-input"
	if c.File != "-" {
		f, err := os.Open(c.File)
		if err != nil {
			return err
		}
		defer f.Close()
		in, name = f, strings.TrimSuffix(filepath.Base(c.File), filepath.Ext(c.File))
	}
	if c.Job != "" {
		if name, err = jobName(c.Job, s); err != nil {
			return err
		}
	}
	steps, err := console.ReadChat(in)
	if err != nil {
		return fmt.Errorf("%s: %w", c.File, err)
	}
	if c.As != nil {
		if err := checkSender(*c.As); err != nil {
			return err
		}
		var mine []console.Step
		for _, st := range steps {
			if st.Who == "" || strings.EqualFold(st.Who, *c.As) {
				mine = append(mine, st)
			}
		}
		steps = mine
	}
	var dir string
	if c.Data != "" {
		dir, err = cli.Folder(c.Data)
	} else if dir, err = os.MkdirTemp("", "strapline-play-"); err == nil {
		defer os.RemoveAll(dir)
	}
	if err != nil {
		return err
	}
	clock := new(console.Clock)
	b, err := bot.New(bot.Options{Dir: dir, Now: clock.Now, Loc: time.UTC, Log: s.Log()})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	j, err := b.Job(name)
	if err != nil {
		return err
	}
	p := console.Play{Job: j, Clock: clock, JSON: c.JSON, Check: c.Check, Pictures: new(console.Pictures)}
	if c.Data != "" {
		p.Dir = pictures(c.Data)
	}
	return p.Run(s.Ctx, steps, s.Out)
}

type talkCmd struct {
	jobFlags
	JSON bool   `name:"json" help:"Print one JSON object an entry."`
	As   string `default:"lead" help:"Who is texting."`
}

func (c *talkCmd) Run(s *cli.Streams) (err error) {
	dir, err := cli.Folder(c.Data)
	if err != nil {
		return err
	}
	name, err := c.name(s)
	if err != nil {
		return err
	}
	if err := checkSender(c.As); err != nil {
		return err
	}
	b, err := bot.New(bot.Options{Dir: dir, Log: s.Log()})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	j, err := b.Job(name)
	if err != nil {
		return err
	}
	t := console.Talk{Job: j, Who: c.As, JSON: c.JSON, History: filepath.Join(dir, "history"), Pictures: &console.Pictures{Dir: pictures(dir)}}
	return t.Run(s.Ctx, s.In, s.Out)
}

// checkSender fails if the name is blank.
func checkSender(name string) error {
	if strings.TrimSpace(name) == "" {
		return errors.New("--as needs a name, such as --as lead")
	}
	return nil
}

// pictures is the folder of the pictures that sketches write.
func pictures(data string) string { return filepath.Join(data, "pictures") }

type exportCmd struct {
	jobFlags
}

func (c *exportCmd) Run(s *cli.Streams) error {
	path, err := c.path(s)
	if err != nil {
		return err
	}
	return store.Export(path, s.Out)
}

type importCmd struct {
	jobFlags
	File string `arg:"" predictor:"file" help:"The exported lines; - reads standard input."`
}

func (c *importCmd) Run(s *cli.Streams) error {
	path, err := c.path(s)
	if err != nil {
		return err
	}
	in, file := s.In, "standard input"
	if c.File != "-" {
		f, err := os.Open(c.File)
		if err != nil {
			return err
		}
		defer f.Close()
		in, file = f, c.File
	}
	switch err := store.Import(in, path, job.Valid()); {
	case errors.Is(err, fs.ErrExist):
		return fmt.Errorf("there is a job %q already; name another with --job", c.Job)
	case errors.Is(err, store.ErrFull), errors.Is(err, store.ErrReadOnly):
		return err
	case err != nil: // the fault is in the imported lines, not in the job's file
		return fmt.Errorf("%s: %s", file, strings.TrimPrefix(err.Error(), path+": "))
	}
	fmt.Fprintf(s.Out, "imported into %s\n", path)
	return nil
}

type checkCmd struct {
	jobFlags
	File string `arg:"" predictor:"file" optional:"" type:"path" help:"A job's file, wherever it lies, such as a copy; instead of --job."`
}

func (c *checkCmd) Run(s *cli.Streams) (err error) {
	path := c.File
	if path == "" {
		if path, err = c.path(s); err != nil {
			return err
		}
	}
	rep, err := store.Check(path, job.Valid())
	if err != nil {
		return err
	}
	for _, f := range rep.Faults {
		fmt.Fprintln(s.Out, f)
	}
	switch n := len(rep.Faults); n {
	case 0:
	case 1:
		return fmt.Errorf("1 fault in %s", path)
	default:
		return fmt.Errorf("%d faults in %s", n, path)
	}
	fmt.Fprintf(s.Out, "%s: %d entries, all sound\n", path, rep.LastSeq)
	return nil
}

type recoverCmd struct {
	jobFlags
}

func (c *recoverCmd) Run(s *cli.Streams) error {
	path, err := c.path(s)
	if err != nil {
		return err
	}
	kept, last, err := store.Recover(path)
	if err != nil {
		return err
	}
	fmt.Fprintf(s.Out, "%s: put right, %d entries. The last is of %s, %s: %s\nWhat was noted after it has to be sent again. The torn file is kept as %s\n",
		path, last.Seq, time.UnixMilli(last.Sent).Format("2006-01-02 15:04"), message.Clean(last.Who), message.Clean(last.Text), kept)
	return nil
}

type backupCmd struct {
	jobFlags
	To string `arg:"" predictor:"file" type:"path" help:"The copy; it must not be there yet."`
}

func (c *backupCmd) Run(s *cli.Streams) error {
	path, err := c.path(s)
	if err != nil {
		return err
	}
	if err := store.Backup(path, c.To); err != nil {
		return err
	}
	fmt.Fprintf(s.Out, "copied to %s\n", c.To)
	return nil
}
