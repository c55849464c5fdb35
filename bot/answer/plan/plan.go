// Package plan answers about boards: layouts and cut lists, their pictures, what to order and what to bring.
package plan

import (
	"strapline/bot/answer"
	"strapline/bot/answer/screws"
)

// Register registers the handlers of this package.
func Register(k answer.Kinds) {
	answer.OnQuestion(k, layoutOf)
	answer.OnQuestion(k, answer.InRoom(cuts))
	answer.OnQuestion(k, plannedPiece)
	answer.OnQuestion(k, toHang)
	answer.OnQuestion(k, order)
	answer.OnQuestion(k, bring)
	answer.OnQuestion(k, answer.InRoom(screws.Answer))
	answer.OnQuestion(k, answer.InRoom(sketchOf))
}
