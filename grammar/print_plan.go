package grammar

import (
	"strapline/calc/length"
	"strapline/calc/place"
	"strconv"
	"strings"
)

func (e Route) String() string {
	var t text
	t.add(e.What, e.Name, orNone(e.Size))
	t.place(e.Surface, e.Shared, e.Size != (length.Said{}))
	for i, p := range e.Points {
		switch i {
		case 0:
			t.add("from")
		case len(e.Points) - 1:
			t.add("to")
		default:
			t.add("through")
		}
		for k, f := range p {
			if k > 0 {
				t.b.WriteByte(',')
			}
			if f.How == place.OnLine {
				t.add(f.Of.String())
			} else {
				t.add(f.String())
			}
		}
	}
	switch e.How {
	case "top":
		t.clause("on top of the straps")
		if e.Notch.N > 0 {
			t.clause("notched into", e.Notch.String())
			if e.Depth != (length.Said{}) {
				t.clause("depth", e.Depth.String())
			}
		}
	case "depth":
		t.clause("depth", e.Depth.String())
	case "notched":
		t.clause("notched")
		if e.Notch.N > 0 {
			t.add("into", e.Notch.String())
		}
		if e.Depth != (length.Said{}) {
			t.add("depth", e.Depth.String())
		}
	}
	if e.Conduit {
		t.clause("in conduit")
	}
	return t.String()
}

func (e Plate) String() string {
	var t text
	t.add("plate", e.Run)
	if len(e.N) == 1 {
		return t.add(e.What.One(), strconv.Itoa(e.N[0])).String()
	}
	t.add(string(e.What))
	for _, n := range e.N {
		t.add(strconv.Itoa(n))
	}
	return t.String()
}

func (e Set) String() string {
	var t text
	t.add("set", e.What)
	switch e.What {
	case "waste":
		return t.add(decimal(e.N) + "%").String()
	case "compound", "box", "rated":
		t.add(decimal(e.N))
		if e.Per > 0 {
			t.add("per", strconv.Itoa(e.Per))
		}
		return t.String()
	}
	return t.add(e.L.String()).String()
}

func decimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func (e Check) String() string {
	var t text
	if e.State == "add" {
		return t.add("check add", e.What).String()
	}
	return t.add("check", e.What, e.State, e.Reason).String()
}

func (e Coat) String() string {
	var t text
	t.add("coat", strconv.Itoa(e.N))
	if e.Unit != "" {
		t.add(decimal(e.Temp) + e.Unit)
	}
	if e.RH >= 0 {
		t.add(decimal(e.RH) + "%")
	}
	if e.Damp {
		t.add("damp")
	}
	return t.String()
}

func (e StockSet) String() string {
	var t text
	if e.How == "is" {
		t.add("stock")
	} else {
		t.add(e.How)
	}
	for i, b := range e.Items {
		if i > 0 {
			t.b.WriteByte(',')
		}
		t.add(strconv.Itoa(b.N), "x", b.L.String())
	}
	return t.String()
}

func (e BoardsLeft) String() string {
	if e.L == (length.Said{}) {
		return "boards left"
	}
	return "how many " + e.L.String() + " left"
}

func (e HungPlan) String() string {
	var t text
	t.add("hung", strings.Join(e.IDs, " "))
	if len(e.Cut) > 0 {
		t.add("cut", strings.Join(e.Cut, ", "))
	}
	return t.String()
}

func (e Reach) String() string {
	var t text
	return t.add("reach", orNone(e.Screw)).String()
}

func (e Handoff) String() string {
	var t text
	return t.add("handoff", e.To).String()
}

func (e Layout) String() string {
	if e.Pick == 0 {
		return "layout"
	}
	return "layout " + strconv.Itoa(e.Pick)
}

func (e Texture) String() string {
	if e.On {
		return "texture"
	}
	return "no texture"
}

func (e Code) String() string    { return "code " + e.Code }
func (e Longest) String() string { return "longest in " + e.L.String() }
func (e Screws) String() string  { return "how many screws" }
func (e Ready) String() string   { return "ready" }
func (e Painted) String() string { return "painted" }
func (e Cuts) String() string    { return "cut list" }
func (e Order) String() string   { return "order" }
func (e Planned) String() string { return "whats " + e.ID }
func (Rest) String() string      { return "whats left to hang" }
func (OtherWay) String() string  { return "boards the other way" }
func (e Bring) String() string   { return "what do i bring" }

func (Route) Kind() Kind      { return "run" }
func (Plate) Kind() Kind      { return "plate" }
func (Code) Kind() Kind       { return "code" }
func (Set) Kind() Kind        { return "set" }
func (Reach) Kind() Kind      { return "reach" }
func (Screws) Kind() Kind     { return "screws" }
func (Ready) Kind() Kind      { return "ready" }
func (Check) Kind() Kind      { return "check" }
func (Handoff) Kind() Kind    { return "handoff" }
func (Coat) Kind() Kind       { return "coat" }
func (Painted) Kind() Kind    { return "painted" }
func (Layout) Kind() Kind     { return "layout" }
func (Cuts) Kind() Kind       { return "cuts" }
func (Order) Kind() Kind      { return "order" }
func (StockSet) Kind() Kind   { return "stock" }
func (BoardsLeft) Kind() Kind { return "left" }
func (Longest) Kind() Kind    { return "longest" }
func (Bring) Kind() Kind      { return "bring" }
func (HungPlan) Kind() Kind   { return "hung" }
func (Texture) Kind() Kind    { return "texture" }
func (Planned) Kind() Kind    { return "piece" }
func (Rest) Kind() Kind       { return "rest" }
func (OtherWay) Kind() Kind   { return "otherway" }
