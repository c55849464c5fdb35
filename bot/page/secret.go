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

// markName is the mark of a job that keeps its secret.
const markName = "page"

// mark is what a job keeps of its page.
type mark struct {
	Secret string `json:"secret"`
}

// minSecret is the least of a secret that is believed: 26 letters of 5 bits.
const minSecret = 26

// making keeps two who ask at once from making two secrets of one job.
var making sync.Mutex

// Secret is the secret of a job's page. It is made when there is none, and made anew
// when renew is set: then the links given out before are dead.
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
	m.Secret = rand.Text() // 130 bits and more
	row, err := json.Marshal(m)
	if err != nil {
		return "", err
	}
	return m.Secret, j.Mark(ctx, markName, row)
}

// Link is the address of a job's page behind base.
func Link(base, name, secret string) string {
	return strings.TrimRight(base, "/") + "/" + name + "/" + secret
}

// nobody is compared with where there is no such job, so that it takes as long.
var nobody = rand.Text()

// right compares a secret in a time that tells nothing of it.
func right(got, want string) bool {
	a, b := sha256.Sum256([]byte(got)), sha256.Sum256([]byte(want))
	return subtle.ConstantTimeCompare(a[:], b[:]) == 1
}
