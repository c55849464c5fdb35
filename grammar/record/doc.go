// Package record has the kinds about the job's record: its title, notes and snags, corrections, and questions
// about what was noted.
package record
