package fake

import (
	"bytes"
	"cmp"
	"image"
	_ "image/png" // to decode the size of uploads
	"io"
	"mime"
	"net/http"
	"path/filepath"
	"slices"
	"strings"
)

// file is an upload, and the post it belongs to once there is one.
type file struct {
	info map[string]any
	data []byte
	post string
}

// upload stores a file, from a form, or from the body with its name in the query.
func (s *Server) upload(u *User, r *http.Request) (int, any) {
	q := r.URL.Query()
	name, ch, from := q.Get("filename"), q.Get("channel_id"), io.Reader(r.Body)
	var clients []any // null unless it is a form
	if strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/") {
		form, head, err := r.FormFile("files")
		if err != nil {
			return 0, refBody
		}
		defer form.Close()
		name, ch, from, clients = head.Filename, r.FormValue("channel_id"), form, []any{}
	}
	data, err := io.ReadAll(from)
	if err != nil {
		return 0, refBody
	}
	if c := s.chans[ch]; c == nil || !slices.Contains(c.members, u.ID) {
		return 0, refForbidden
	}
	ext := filepath.Ext(name)
	id, now := s.id(), s.ms()
	f := &file{data: data, info: map[string]any{
		"id": id, "user_id": u.ID, "channel_id": "", "create_at": now, "update_at": now, "delete_at": 0, "name": name,
		"extension": strings.TrimPrefix(ext, "."), "size": len(data), "mime_type": cmp.Or(mime.TypeByExtension(ext), "application/octet-stream"), "remote_id": "",
	}}
	if pic, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil {
		f.info["width"], f.info["height"], f.info["has_preview_image"] = pic.Width, pic.Height, true
	}
	s.files[id] = f
	return http.StatusCreated, map[string]any{"file_infos": []any{f.info}, "client_ids": clients}
}

// attach attaches to a post its files that were uploaded and are not attached yet. The real
// server silently ignores the rest too.
func (s *Server) attach(p *post) {
	var infos []any
	p.FileIDs = slices.DeleteFunc(slices.Clone(p.FileIDs), func(id string) bool {
		f := s.files[id]
		if f == nil || f.post != "" {
			return true
		}
		f.post = p.ID
		f.info["post_id"] = p.ID
		infos = append(infos, f.info)
		return false
	})
	if len(infos) > 0 {
		p.Metadata["files"] = infos
	}
}

// Files returns the files of a post by name.
func (s *Server) Files(id string) map[string][]byte {
	s.mu.Lock()
	defer s.mu.Unlock()
	all := map[string][]byte{}
	for _, f := range s.files {
		if f.post == id {
			all[f.info["name"].(string)] = f.data
		}
	}
	return all
}
