package chat_test

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// When the disk is full, the sender is told in the thread that the note was not saved. When
// there is space again, a repeated note is saved once, and the lost one does not come back
// by itself.
func TestDiskFull(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=1m"); err != nil {
		t.Skipf("needs to mount a small disk, as root: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	onSite(t, func(s *site) {
		s.dir = dir
		s.begin()
		first := s.Post(s.lead, s.flat, "", "note first")
		s.settle()
		filler := filepath.Join(dir, "filler")
		if err := os.WriteFile(filler, make([]byte, 2<<20), 0o600); err == nil {
			t.Fatal("the small disk is not small")
		}
		var lost string
		for range 100 { // until a commit would have to enlarge the file
			lost = s.Post(s.lead, s.flat, "", "note "+strings.Repeat("again and ", 300))
			s.settle()
			if got := s.reply(s.flat, lost); !strings.Contains(got.Text, "noted") {
				break
			}
		}
		if got := s.reply(s.flat, lost); !strings.Contains(got.Text, "NOT confirmed as saved: the disk is full") || got.RootID != lost {
			t.Fatalf("a note on a full disk is answered %+v", got)
		}
		if err := os.Remove(filler); err != nil {
			t.Fatal(err)
		}
		again := s.Post(s.lead, s.flat, "", "note sent again")
		s.settle()
		if got := s.reply(s.flat, again).Text; !strings.Contains(got, "noted") {
			t.Errorf("with room again a note is answered %q", got)
		}
		s.end()
		s.begin()
		s.reply(s.flat, first)
		s.reply(s.flat, lost)
		list := s.Post(s.lead, s.flat, "", "undo")
		s.settle()
		if got := s.reply(s.flat, list).Text; !strings.Contains(got, "sent again") {
			t.Errorf("after a restart the last entry is not the one sent again: %q", got)
		}
		entries := func() uint64 {
			j, err := s.bot.Job("crew-flat-" + s.flat.ID)
			if err != nil {
				t.Fatal(err)
			}
			return j.Figures().Last
		}
		want := entries()
		s.end()
		s.dir = t.TempDir() // a rebuilt log does not have it either
		s.begin()
		s.settle()
		if got := entries(); got != want {
			t.Errorf("made anew the log has %d entries, want %d", got, want)
		}
	})
}
