package bot

// The cautions: all there are, said where the work can hurt and nowhere else.
// Each defers to local code or to the licensed trade; none names a value that a
// code sets.
const (
	cautionScrew = "Look for pipe and wire before you screw: only what was noted is known here, and local code rules"
	cautionReach = "only what was noted; local code and the licensed trade have the last word"
	cautionReady = "local code and the inspector have the last word"
	cautionWire  = "Power off and tested dead before you cut; wiring is the electrician's, by local code"
	cautionCut   = "Cut no deeper than the board, eyes covered; local code first"
	cautionOld   = "Before cutting or sanding old ceilings and paint have them tested for asbestos and lead; local code rules"
	cautionFloor = "spread them, and by local code ask before loading an old or cut floor"

	cautionWater = "leave the screw in until the main is off. Then call the plumber"
	cautionCable = "breaker off and locked, then open it up. The electrician repairs it, by local code"
	cautionGas   = "everybody out, no switches, shut off outside if you can, call the gas company from outside"

	cautionNearWire = "Power off and tested dead first; local code and the electrician decide"
	cautionNearGas  = "Keep off; local code and the gas fitter decide"
	cautionNearPipe = "Know where the main is; local code and the plumber decide"
	cautionNearDuct = "Local code decides"
)

// electric are the kinds that bring a wire to the opening.
var electric = map[string]bool{
	"light": true, "box": true, "outlet": true, "switch": true, "fan": true, "speaker": true, "smoke alarm": true,
	"camera": true, "detector": true, "junction box": true, "thermostat": true, "low voltage": true,
}

// cautionFor is the caution for cutting a covered thing open.
func cautionFor(what string) string {
	if electric[what] {
		return cautionWire
	}
	return cautionCut
}

// cautionNear is the caution beside a run that a screw or cutter comes near.
func cautionNear(what string) string {
	switch what {
	case "wire":
		return cautionNearWire
	case "gas":
		return cautionNearGas
	case "pipe", "heat tube":
		return cautionNearPipe
	}
	return cautionNearDuct
}
