package fake

// What people do in the channels, without going through HTTP.

// Post is a post as tests see it.
type Post struct {
	ID, UserID, RootID, Text string
	At                       int64 // Unix milliseconds
	Deleted                  bool
	Props                    map[string]any
}

// Post posts text in a channel, or in the thread of root, and returns the post's ID.
func (s *Server) Post(u *User, ch *Channel, root, text string) string {
	return s.post(u, ch, post{RootID: root, Message: text})
}

// Picture posts a picture, with or without words.
func (s *Server) Picture(u *User, ch *Channel, mime, text string) string {
	file := s.id()
	return s.post(u, ch, post{
		Message: text, FileIDs: []string{file},
		Metadata: map[string]any{"files": []any{map[string]any{"id": file, "name": "wall", "mime_type": mime, "size": 109}}},
	})
}

// Claim posts text with properties chosen by the author.
func (s *Server) Claim(u *User, ch *Channel, props map[string]any, text string) string {
	return s.post(u, ch, post{Message: text, Props: props})
}

func (s *Server) post(u *User, ch *Channel, p post) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.outage != nil {
		panic("nobody can post without a database")
	}
	p.ChannelID = ch.ID
	made, ref := s.create(u, p)
	if ref != nil {
		panic(ref.text)
	}
	return made.ID
}

// Edit changes the text of a post.
func (s *Server) Edit(u *User, id, text string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if _, ref := s.edit(u, id, text); ref != nil {
		panic(ref.text)
	}
}

// Delete deletes a post and the replies to it.
func (s *Server) Delete(u *User, id string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if ref := s.remove(u, id); ref != nil {
		panic(ref.text)
	}
}

// Pin pins a post.
func (s *Server) Pin(id string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if ref := s.pin(id); ref != nil {
		panic(ref.text)
	}
}

// React adds a reaction to a post.
func (s *Server) React(id string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.react(id)
}

// Posts returns the posts in a channel, oldest first, without system posts and old versions.
func (s *Server) Posts(ch *Channel) []Post {
	s.mu.Lock()
	defer s.mu.Unlock()
	var all []Post
	for _, p := range s.posts {
		if p.ChannelID == ch.ID && p.OriginalID == "" && p.Type == "" {
			all = append(all, Post{p.ID, p.UserID, p.RootID, p.Message, p.CreateAt, p.DeleteAt > 0, p.Props})
		}
	}
	return all
}

// Count returns how many posts of an account the server has stored.
func (s *Server) Count(u *User) int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return u.posts
}
