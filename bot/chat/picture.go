package chat

import (
	"bytes"
	"context"

	"strapline/bot/chat/server"
	"strapline/bot/message"

	"github.com/mattermost/mattermost/server/public/model"
)

// noPicture is appended to a reply whose pictures could not be drawn or sent.
const noPicture = "\nno picture: it could not be sent"

// pictureTries is how often a reply is tried with its pictures, before its words are sent
// alone.
const pictureTries = 5

// upload draws the pictures of a reply and uploads them. They are not visible until the
// reply is posted with their IDs, so those of a failed try are left on the server. The words
// do not wait for a picture with Beside set.
func (c *channel) upload(ctx context.Context, out message.Out, still bool) (ids []string, err error) {
	for _, p := range out.Pictures() {
		id, err := c.uploadOne(ctx, p, still)
		switch {
		case err == nil:
			ids = append(ids, id)
		case !p.Beside:
			return nil, err
		}
	}
	return ids, nil
}

// uploadOne draws and uploads a picture, or fails with errNoPicture if that is not worth
// trying again.
func (c *channel) uploadOne(ctx context.Context, p message.Picture, still bool) (id string, err error) {
	if !still {
		return "", errNoPicture
	}
	var png bytes.Buffer
	if err := c.job.Picture(&png, p); err != nil {
		c.d.Log.Error("a picture cannot be drawn", "channel", c.label, "picture", p.Name, "err", err)
		return "", errNoPicture
	}
	up, err := server.Call(ctx, c.d.Server, func(ctx context.Context) (*model.FileUploadResponse, *model.Response, error) {
		return c.d.API.UploadFile(ctx, png.Bytes(), c.id, p.Name)
	})
	if err != nil {
		return "", err
	}
	if len(up.FileInfos) != 1 {
		return "", errNoPicture
	}
	return up.FileInfos[0].Id, nil
}
