package bot

import (
	"fmt"

	"strapline/grammar"
)

// answer says which part of the house answers which entry: one line a kind.
func (t *turn) answer(e grammar.Entry) {
	switch e := e.(type) {
	case grammar.Job:
		t.job(e)
	case grammar.UnitsSet:
		t.unitsSet(e)
	case grammar.Built:
		t.built(e)
	case grammar.Room:
		t.roomSize(e)
	case grammar.InRoom:
		t.inRoom(e)
	case grammar.Alias:
		t.alias(e)
	case grammar.SupportSet:
		t.supportSet(e)
	case grammar.SupportFix:
		t.supportFix(e)
	case grammar.Board:
		t.board(e)
	case grammar.Clearance:
		t.clearance(e)
	case grammar.Screw:
		t.screw(e)
	case grammar.BoardsRun:
		t.boardsRun(e)
	case grammar.RowsFrom:
		t.rowsFrom(e)
	case grammar.Thing:
		t.thing(e)
	case grammar.Even:
		t.even(e)
	case grammar.Mark:
		t.mark(e)
	case grammar.Refix:
		t.refix(e)
	case grammar.Gap:
		t.gap(e)
	case grammar.Hung:
		t.hung(e)
	case grammar.UpAll:
		t.upAll(e)
	case grammar.Boarded:
		t.boarded(e)
	case grammar.Opened:
		t.opened(e)
	case grammar.Find:
		t.find(e)
	case grammar.Covered:
		t.covered()
	case grammar.AnyOver:
		t.anyOver(e)
	case grammar.Log:
		t.log(e)
	case grammar.Who:
		t.whoHung(e)
	case grammar.Status:
		t.status()
	case grammar.Note:
		t.noteText(e)
	case grammar.Snag:
		t.snag(e)
	case grammar.Snags:
		t.snags()
	case grammar.Hit:
		t.hit(e)
	case grammar.Undo:
		t.undo()
	case grammar.Strike:
		t.strike(e)
	case grammar.Swap:
		t.swap(e)
	case grammar.Route:
		t.route(e)
	case grammar.Plate:
		t.plate(e)
	case grammar.Code:
		t.code(e)
	case grammar.Set:
		t.set(e)
	case grammar.Reach:
		t.reach(e)
	case grammar.Ready:
		t.ready()
	case grammar.Check:
		t.check(e)
	case grammar.Handoff:
		t.handoff(e)
	case grammar.Coat:
		t.coat(e)
	case grammar.Painted:
		t.painted()
	case grammar.Screws:
		t.screws()
	case grammar.Layout:
		t.layout(e)
	case grammar.Cuts:
		t.cuts()
	case grammar.HungPlan:
		t.hungPlan(e)
	case grammar.StockSet:
		t.stock(e)
	case grammar.BoardsLeft:
		t.boardsLeft(e)
	case grammar.Longest:
		t.longest(e)
	case grammar.Texture:
		t.texture(e)
	case grammar.Order:
		t.order()
	case grammar.Bring:
		t.bring()
	case grammar.Planned:
		t.plannedPiece(e)
	case grammar.Rest:
		t.toHang()
	case grammar.OtherWay:
		t.otherWay()
	case grammar.Help:
		t.help(e)
	default:
		t.err = fmt.Errorf("no answer for entry kind %T", e)
	}
}
