package bot_test

import (
	"bytes"
	"encoding/json"
	"slices"
	"testing"
	"time"

	"strapline/bot"
	"strapline/bot/job"
	"strapline/bot/message"
)

// A receipt keeps what a picture is drawn from: drawn later, and after a restart,
// it is the picture that was asked for.
func TestPicturesAreDrawnAgain(t *testing.T) {
	opt := bot.Options{Dir: t.TempDir(), Loc: time.UTC}
	b, err := bot.New(opt)
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, 5, 4, 8, 0, 0, 0, time.UTC)
	send := func(j *job.Job, text string) message.Out {
		t.Helper()
		at = at.Add(time.Minute)
		out, err := j.Handle(t.Context(), message.In{ID: text, Who: "lead", Sent: at, Text: text})
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	j, err := b.Job("flat")
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"room kitchen 13' 4 1/2 x 11' 9", "straps ew 16 oc first 14 3/8 off north", "light l1 26 off west 41 off north", "layout 1"} {
		send(j, text)
	}
	out := send(j, "sketch kitchen looking up")
	if len(out.Pictures()) != 2 {
		t.Fatalf("pictures %+v", out.Pictures())
	}
	if kept, err := json.Marshal(out); err != nil || len(kept) > 1000 {
		t.Errorf("a receipt of %d bytes, %v", len(kept), err)
	}
	draw := func(j *job.Job, p message.Picture) string {
		t.Helper()
		var buf bytes.Buffer
		if err := j.Picture(&buf, p); err != nil {
			t.Fatal(err)
		}
		return buf.String()
	}
	first := [2]string{draw(j, out.Pictures()[0]), draw(j, out.Pictures()[1])}
	if first[0] == first[1] {
		t.Error("the cut list is the plan")
	}
	send(j, "hung r1")
	send(j, "strike 3")
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	if b, err = bot.New(opt); err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if j, err = b.Job("flat"); err != nil {
		t.Fatal(err)
	}
	again := send(j, "sketch kitchen looking up") // the same id: its receipt
	for i, p := range again.Pictures() {
		if draw(j, p) != first[i] {
			t.Errorf("%s is another picture", p.Name)
		}
	}
	now := again.Pictures()[0]
	now.Entry = 5
	if draw(j, now) == first[0] {
		t.Error("row 1 is up and nothing shows it")
	}
	now.Entry = 1 // there were no straps yet
	if draw(j, now) == first[0] {
		t.Error("straps that nobody had noted are drawn")
	}
	now.Room = "attic"
	if err := j.Picture(new(bytes.Buffer), now); err == nil {
		t.Error("the attic is drawn")
	}
}

// A layout and the place of a thing come with the plan, for doors that show it: with
// the thing pointed out. One on a wall has none.
func TestPicturesBeside(t *testing.T) {
	b, err := bot.New(bot.Options{Dir: t.TempDir(), Loc: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	j, err := b.Job("flat")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		text string
		want []message.Picture
	}{
		{"room living room 13' x 11'", nil},
		{"straps ew 16 oc first 14 off north", nil},
		{"light l1 26 off west 41 off north", nil},
		{"box 2x4 b1 on north wall 52 off west 16 up", nil},
		{"where is b1", nil},
		{"layout", []message.Picture{{Name: "living-room.png", Room: "living room", Beside: true, Entry: 6}}},
		{"where is l1", []message.Picture{{Name: "living-room.png", Room: "living room", Sought: "l1", Beside: true, Entry: 6}}},
		{"layout 1", []message.Picture{{Name: "living-room.png", Room: "living room", Beside: true, Entry: 7}}},
	} {
		out, err := j.Handle(t.Context(), message.In{Who: "lead", Sent: time.Unix(0, 0), Text: c.text})
		if err != nil || out.Failed() {
			t.Fatal(c.text, err, out.Text())
		}
		got := out.Pictures()
		for i := range got {
			got[i].At = 0
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.text, got, c.want)
		}
		for _, p := range got {
			if err := j.Picture(new(bytes.Buffer), p); err != nil {
				t.Errorf("%s: %v", c.text, err)
			}
		}
	}
}
