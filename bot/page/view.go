package page

import (
	"cmp"
	"context"
	"fmt"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"strapline/bot/answer"
	"strapline/bot/answer/log"
	"strapline/bot/answer/ready"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/site"
)

// What a page shows at most.
const (
	maxEntries = 50 // of the log
	maxRooms   = 100
	maxCells   = 40 // rows of a room, as cells
	maxListed  = 200
)

// view is what a page shows of a job.
type view struct {
	*board
	Single *singlePlan // shown instead of the rest if a picture was asked for
	seq    uint64      // the last entry
	Log    []entry
	Older  uint64 // there are entries before this one; 0 if there are none
	Later  bool   // there may be later entries, because ?before= was given
}

// board is the status of a job.
type board struct {
	Name, Title string
	Last        uint64 // the last entry included
	When        stamp
	made        time.Time
	Rooms       []room
	Covered     []covered
	Snags       []entry
	Photos      []entry // notes with pictures, newest first
	More        more
	Cautions    []string // for cutting what is covered
	Checks      int      // open in all rooms
	Due         bool     // pictures are still to be drawn
}

// Shown is the last entry that is shown completely. The page's script fetches it again if
// the stream names a later one, so while pictures are due this is 0.
func (b *board) Shown() uint64 {
	if b.Due {
		return 0
	}
	return b.Last
}

// more counts the items left out.
type more struct{ Rooms, Covered, Snags, Photos int }

type room struct {
	log.RoomStatus
	Size   string
	Cells  []bool // by row of the ceiling, whether it has boards up; nil if unknown or too many
	Checks []ready.OpenCheck
	Plans  []plan
}

type covered struct {
	Name, Size, Room, Where, By, Due string
	Since                            stamp
	Photos                           []string
}

// entry is an entry of the log, or a snag with its own words.
type entry struct {
	Seq             uint64
	Who, Room, Text string
	When            stamp
	Struck          string // by whom; "" if it is not struck
	Photos          []string
}

// stamp is a time for people and for programs.
type stamp struct{ Text, RFC string }

// query is the query of a request. The zero value asks for the newest page.
type query struct {
	before uint64  // show the log before this entry
	plan   *planID // show this picture alone
}

// view works out what a page shows, from the page's own state so as not to hold up the
// job's writer. The board is shared by everyone who asks within Limits.Fresh; the stream
// tells a reader who gets an old one to fetch again.
func (s *Server) view(ctx context.Context, p *page, q query) (v *view, err error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	defer func() {
		if fault := recover(); fault != nil {
			p.st, err = nil, fmt.Errorf("looking at the job: %v\n%s", fault, debug.Stack())
		}
	}()
	if err := p.follow(ctx); err != nil {
		return nil, err
	}
	// Speech has no Now, so every time gets its date.
	c := answer.Ctx{Speech: say.Speech{Units: p.st.Units(), Loc: s.cfg.Loc}, State: p.st}
	speech := c.Speech
	speech.Now = s.cfg.Now()
	now := time.Now() // not the bot's clock, since Fresh limits the load on the machine
	if k := p.board; k == nil || (k.Last != uint64(len(p.st.Entries)) || k.Due) && now.Sub(k.made) >= s.cfg.Limits.Fresh {
		next := boardOf(c, p.job.Name())
		next.When = timeOf(c, speech.Now.UnixMilli())
		if err := p.plans(p.st, speech, next, s.cfg.Limits.Draw); err != nil {
			return nil, err
		}
		next.made, p.board = time.Now(), next
	}
	v = &view{board: p.board}
	if q.plan != nil {
		if v.Single, err = p.single(p.st, speech, *q.plan); err != nil {
			return nil, err
		}
	}
	v.readLog(c, q.before)
	return v, nil
}

// follow brings the page's state up to the job's. It holds the job's writer only to get
// the list of new entries.
func (p *page) follow(ctx context.Context) error {
	if p.st == nil {
		p.st = site.New()
	}
	var news []*site.Entry
	had := len(p.st.Entries)
	err := p.job.Look(ctx, func(st *site.State) {
		n := len(st.Entries)
		news = st.Entries[min(had, n):n:n]
	})
	for i := 0; err == nil && i < len(news); i++ {
		err = p.st.Apply(news[i].Event)
	}
	if err != nil { // the entries seen may not have been saved; start over
		p.st = nil
	}
	return err
}

// readLog adds the entries of the log before an entry, or the newest if before is 0, newest
// first.
func (v *view) readLog(c answer.Ctx, before uint64) {
	last := uint64(len(c.State.Entries))
	v.seq = last
	seq := last
	if before > 0 {
		seq = min(before-1, last)
	}
	for ; seq > 0; seq-- {
		e := c.State.Entry(seq)
		if answer.Hidden(e.Body) {
			continue
		}
		if len(v.Log) == maxEntries {
			v.Older = seq + 1
			break
		}
		v.Log = append(v.Log, entryOf(c, e))
	}
	v.Later = before > 0
}

// boardOf works out the status of a job, without the plans.
func boardOf(c answer.Ctx, name string) *board {
	b := &board{Name: name, Title: cmp.Or(c.State.Title(), name), Last: uint64(len(c.State.Entries))}
	open := map[string]int{}
	for i, e := range c.State.OpenSnags() {
		open[e.Room]++
		if i < maxListed {
			b.Snags = append(b.Snags, entry{Seq: e.Seq, Who: e.Who, Room: e.Room, Text: e.Body.(event.Snag).Text, When: timeOf(c, e.Sent)})
		} else {
			b.More.Snags++
		}
	}
	for i, r := range c.State.Standing() {
		if i == maxRooms {
			b.More.Rooms = len(c.State.Standing()) - maxRooms
			break
		}
		c := c.In(r)
		next := roomOf(c)
		next.Snags = open[r.Name]
		b.Checks += next.Blocks
		b.Rooms = append(b.Rooms, next)
		b.cover(c)
	}
	pictured := c.State.Pictured()
	for _, e := range slices.Backward(pictured[max(0, len(pictured)-maxListed):]) {
		b.Photos = append(b.Photos, entryOf(c, e))
	}
	b.More.Photos = len(pictured) - len(b.Photos)
	return b
}

func roomOf(c answer.Ctx) room {
	r := room{RoomStatus: log.StatusOf(c), Checks: ready.Blocking(c)}
	r.Blocks = len(r.Checks)
	said, _ := c.Room.Said()
	r.Size = c.Len(said.EW) + " east-west, " + c.Len(said.NS) + " north-south"
	if said.High > 0 {
		r.Size += ", " + c.Len(said.High) + " high"
	}
	if r.Rows > 0 && r.Rows <= maxCells {
		r.Cells = make([]bool, r.Rows)
		for i := range r.Cells {
			r.Cells[i] = r.Whole || slices.Contains(r.Up, i+1)
		}
	}
	return r
}

// cover lists the things in the room of c that are covered by board and not cut out.
func (b *board) cover(c answer.Ctx) {
	for _, th := range c.Room.Things {
		st, over := th.Stands()
		if st != site.Covered {
			continue
		}
		v, _ := th.Now()
		if text := answer.CautionFor(v.What); !slices.Contains(b.Cautions, text) {
			b.Cautions = append(b.Cautions, text)
		}
		if len(b.Covered) == maxListed {
			b.More.Covered++
			continue
		}
		next := covered{
			Name: th.Name, Size: strings.TrimSpace(c.Size(v.Size)), Room: say.Where(c.Room.Name, v.Surface), Where: c.Coords(v.Surface, th.At()),
			By: say.Piece(over), Due: v.Due, Since: timeOf(c, over.Entry.Sent),
		}
		for _, note := range th.Standing() {
			next.Photos = append(next.Photos, links(c.State.Photos(note.Seq))...)
		}
		b.Covered = append(b.Covered, next)
	}
}

func entryOf(c answer.Ctx, e *site.Entry) entry {
	out := entry{Seq: e.Seq, Who: e.Who, Room: e.Room, Text: e.Text, When: timeOf(c, e.Sent), Photos: links(c.State.Photos(e.Seq))}
	if by := e.StruckBy(); by != nil {
		out.Struck = fmt.Sprintf("struck by %s, entry %d", by.Who, by.Seq)
	}
	return out
}

// links returns the links with a scheme that is safe to put on the page.
func links(all []string) []string {
	return slices.DeleteFunc(slices.Clone(all), func(l string) bool {
		return !strings.HasPrefix(l, "https://") && !strings.HasPrefix(l, "http://")
	})
}

func timeOf(c answer.Ctx, ms int64) stamp { return stamp{c.Clock(ms), c.Stamp(ms)} }
