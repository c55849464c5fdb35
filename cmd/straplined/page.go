package main

import (
	"context"
	"fmt"
	"io"

	"strapline/bot/job"
	"strapline/bot/page"
	"strapline/cmd/cli"
)

// pageFlags are the flags for the web page.
type pageFlags struct {
	Page    string `placeholder:"ADDR" help:"Show each job on a page at ADDR, such as 127.0.0.1:7718; the links are in the log. It is not encrypted: a tunnel or a TLS server has to stand in front."`
	PageURL string `name:"page-url" placeholder:"URL" help:"The https address of what stands in front of the page, for the links. Any address but loopback needs it."`
	Links   bool   `help:"Print the links to the pages and end."`
	NewLink string `placeholder:"JOB" help:"Make a new link to the page of JOB, after which the old one is dead, print it and end."`
}

func (s *server) openPage(ctx context.Context, f pageFlags) (door, error) {
	addr, err := cli.Address(f.Page)
	if err != nil {
		return nil, err
	}
	ln, err := page.Listen(ctx, addr, f.PageURL)
	if err != nil {
		return nil, err
	}
	s.log.Info("the page is open", "addr", ln.Addr())
	p := page.New(page.Config{Bot: s.jobs, Front: f.PageURL, Log: s.log})
	return func(ctx context.Context) error { return p.Serve(ctx, ln) }, nil
}

// printLinks prints the link to each job's page. With --new-link it makes a new link
// for that job and prints only that one.
func (f pageFlags) printLinks(ctx context.Context, jobs *job.Jobs, out io.Writer) error {
	addr, err := cli.Address(f.Page)
	if err != nil {
		return err
	}
	base, err := page.Base(addr, f.PageURL)
	if err != nil {
		return err
	}
	found := false
	for _, j := range jobs.All() {
		renew := j.Name() == job.Slug(f.NewLink)
		if f.NewLink != "" && !renew {
			continue
		}
		found = true
		secret, err := page.Secret(ctx, j, renew)
		if err != nil {
			return err
		}
		fmt.Fprintln(out, page.Link(base, j.Name(), secret))
	}
	if f.NewLink != "" && !found {
		return fmt.Errorf("there is no job %q that can be opened", f.NewLink)
	}
	return nil
}
