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
	"strapline/bot/say"
	"strapline/calc/site"
)

// The most of each that a page shows.
const (
	mostEntries = 50 // a page of the log
	mostRooms   = 100
	mostCells   = 40 // rows drawn of a room
	mostListed  = 200
)

// view is a job as a page shows it.
type view struct {
	*board
	One   *one   // the one picture that was asked for
	seq   uint64 // the last entry there was
	Log   []entry
	Older uint64 // the log goes on before this entry; 0: it does not
	Later bool   // an earlier page of the log was asked for
}

// board is how a job stands.
type board struct {
	Name, Title string
	Last        uint64 // the entry up to which everything is told
	When        stamp
	made        time.Time
	Rooms       []room
	Covered     []covered
	Snags       []snag
	Photos      []entry // notes with pictures, newest first
	More        more
	Cautions    []string // for cutting what is covered
	Checks      int      // open in all rooms
	Due         bool     // pictures are still to be drawn
}

// Shown is the entry up to which all is shown. A reader who knows of a later one asks again.
func (b *board) Shown() uint64 {
	if b.Due {
		return 0
	}
	return b.Last
}

// more is how many of each are not shown.
type more struct{ Rooms, Covered, Snags, Photos int }

type room struct {
	log.RoomStatus
	Size   string
	Cells  []bool // of its ceiling's rows, whether each has boards up; nil when that cannot be said
	Checks []answer.OpenCheck
	Plans  []plan
}

type covered struct {
	Name, Size, Room, Where, By, Due string
	Since                            stamp
	Photos                           []string
}

type snag struct {
	Seq             uint64
	Who, Room, Text string
	When            stamp
}

// entry of the log.
type entry struct {
	Seq             uint64
	Who, Room, Text string
	When            stamp
	Struck          string // by whom, "" when it stands
	Photos          []string
}

// stamp is a time for people and for programs.
type stamp struct{ Text, RFC string }

// query is what of a page is asked for: of the log what stands before an entry, the newest
// when that is 0; or one picture.
type query struct {
	before uint64
	which  *which
}

// view is what a page shows. It is worked out beside the writer, of a state that is the
// page's own; how the job stands once for all who ask at the same moment. Who gets it a
// moment old is told so by the stream.
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
	// With no day to speak of, every time is said with its date.
	c := answer.Ctx{Speech: say.Speech{Units: p.st.Units(), Loc: s.cfg.Loc}, State: p.st}
	speech := c.Speech
	speech.Now = s.cfg.Now()
	now := time.Now() // not the bot's clock: it is the machine that is spared
	if k := p.kept; k == nil || (k.Last != uint64(len(p.st.Entries)) || k.Due) && now.Sub(k.made) >= s.cfg.Limits.Fresh {
		next := boardOf(c, p.job.Name())
		next.When = timeOf(c, speech.Now.UnixMilli())
		if err := p.plans(p.st, speech, next, s.cfg.Limits.Draw); err != nil {
			return nil, err
		}
		next.made, p.kept = time.Now(), next
	}
	v = &view{board: p.kept}
	if q.which != nil {
		if v.One, err = p.alone(p.st, speech, *q.which); err != nil {
			return nil, err
		}
	}
	v.read(c, q.before)
	return v, nil
}

// follow brings the page's state to where the job's is. The writer is held no longer than it takes to
// say which entries are new.
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
	if err != nil { // what was looked at may not have been saved
		p.st = nil
	}
	return err
}

// read takes a page of the log, newest first.
func (v *view) read(c answer.Ctx, before uint64) {
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
		if len(v.Log) == mostEntries {
			v.Older = seq + 1
			break
		}
		v.Log = append(v.Log, entryOf(c, e))
	}
	v.Later = before > 0
}

// boardOf is how the job stands.
func boardOf(c answer.Ctx, name string) *board {
	b := &board{Name: name, Title: cmp.Or(c.State.Title(), name), Last: uint64(len(c.State.Entries))}
	open := map[string]int{}
	for i, e := range c.State.OpenSnags() {
		open[e.Room]++
		if i < mostListed {
			b.Snags = append(b.Snags, snag{e.Seq, e.Who, e.Room, e.Body.(site.Snag).Text, timeOf(c, e.Sent)})
		} else {
			b.More.Snags++
		}
	}
	for i, r := range c.State.Standing() {
		if i == mostRooms {
			b.More.Rooms = len(c.State.Standing()) - mostRooms
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
	for _, e := range slices.Backward(pictured[max(0, len(pictured)-mostListed):]) {
		b.Photos = append(b.Photos, entryOf(c, e))
	}
	b.More.Photos = len(pictured) - len(b.Photos)
	return b
}

func roomOf(c answer.Ctx) room {
	r := room{RoomStatus: log.StatusOf(c), Checks: c.Blocking()}
	r.Blocks = len(r.Checks)
	said, _ := c.Room.Said()
	r.Size = c.Len(said.EW) + " east-west, " + c.Len(said.NS) + " north-south"
	if said.High > 0 {
		r.Size += ", " + c.Len(said.High) + " high"
	}
	if r.Rows > 0 && r.Rows <= mostCells {
		r.Cells = make([]bool, r.Rows)
		for i := range r.Cells {
			r.Cells[i] = r.Whole || slices.Contains(r.Up, i+1)
		}
	}
	return r
}

// cover lists what the board hides in the room at hand and nobody has cut.
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
		if len(b.Covered) == mostListed {
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

// links are those of pictures that a browser may be sent to.
func links(all []string) []string {
	return slices.DeleteFunc(slices.Clone(all), func(l string) bool {
		return !strings.HasPrefix(l, "https://") && !strings.HasPrefix(l, "http://")
	})
}

func timeOf(c answer.Ctx, ms int64) stamp { return stamp{c.Clock(ms), c.Stamp(ms)} }
