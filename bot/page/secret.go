package page

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/json"
	"fmt"
	"strings"
	"sync"

	"strapline/bot/job"
)

// markName is the name of the job's mark that holds the secret.
const markName = "page"

// mark is the content of that mark.
type mark struct {
	Secret string `json:"secret"`
}

// minSecret is the shortest secret accepted from a mark: 26 letters of 5 bits.
const minSecret = 26

// making prevents concurrent callers from making two secrets for a job.
var making sync.Mutex

// Secret returns the secret of a job's page, and makes one if there is none. If renew is
// set it makes a new one, which invalidates all earlier links.
func Secret(ctx context.Context, j *job.Job, renew bool) (string, error) {
	making.Lock()
	defer making.Unlock()
	marks, err := j.Marks()
	if err != nil {
		return "", err
	}
	var m mark
	if row := marks[markName]; row != nil {
		if err := json.Unmarshal(row, &m); err != nil || len(m.Secret) < minSecret {
			return "", fmt.Errorf("the secret of the page of %s cannot be read: %w", j.Name(), err)
		}
		if !renew {
			return m.Secret, nil
		}
	}
	m.Secret = rand.Text() // at least 128 bits, by its documentation
	row, err := json.Marshal(m)
	if err != nil {
		return "", err
	}
	return m.Secret, j.Mark(ctx, markName, row)
}

// Link returns the URL of a job's page.
func Link(base, name, secret string) string {
	return strings.TrimRight(base, "/") + "/" + name + "/" + secret
}

// noSecret is compared when there is no such job, so that the response takes equally long.
var noSecret = rand.Text()

// equal compares two secrets in constant time.
func equal(got, want string) bool {
	a, b := sha256.Sum256([]byte(got)), sha256.Sum256([]byte(want))
	return subtle.ConstantTimeCompare(a[:], b[:]) == 1
}
