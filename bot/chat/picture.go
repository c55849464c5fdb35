package chat

import (
	"bytes"
	"context"

	"github.com/mattermost/mattermost/server/public/model"

	"strapline/bot/job"
)

// noPicture stands below a reply whose pictures could not be drawn or sent:
// its words are worth sending all the same.
const noPicture = "\nno picture: it could not be sent"

// patience is how often a reply is tried with its pictures; then its words go alone.
const patience = 5

// upload draws the pictures of a reply and gives them to the server. They belong to
// no post until the reply is posted with their ids; those of a try that failed
// are left to the server, which shows them to nobody. The words do not wait for one that goes beside them.
func (c *channel) upload(ctx context.Context, out job.Out, still bool) (ids []string, err error) {
	for _, p := range out.Pictures() {
		id, err := c.upload1(ctx, p, still)
		switch {
		case err == nil:
			ids = append(ids, id)
		case !p.Beside:
			return nil, err
		}
	}
	return ids, nil
}

func (c *channel) upload1(ctx context.Context, p job.Picture, still bool) (id string, err error) {
	if !still {
		return "", errNoPicture
	}
	var png bytes.Buffer
	if err := c.job.Picture(&png, p); err != nil {
		c.d.log.Error("a picture cannot be drawn", "channel", c.label, "picture", p.Name, "err", err)
		return "", errNoPicture
	}
	up, err := call(ctx, c.d, func(ctx context.Context) (*model.FileUploadResponse, *model.Response, error) {
		return c.d.api.UploadFile(ctx, png.Bytes(), c.id, p.Name)
	})
	if err != nil {
		return "", err
	}
	if len(up.FileInfos) != 1 {
		return "", errNoPicture
	}
	return up.FileInfos[0].Id, nil
}
