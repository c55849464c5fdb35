// Package length holds exact lengths: int64 nanometres, in which every 64th of
// an inch and every tenth of a millimetre is a whole number.
//
// The inch is 25.4 mm exactly (international yard and pound agreement, in
// force since 1 July 1959), so 1/64 in = 396 875 nm with nothing left over.
package length

// Length is a distance in nanometres. It may be negative only as a difference.
type Length int64

// The units. All are exact.
const (
	Nanometre   Length = 1
	Millimetre         = 1_000_000 * Nanometre
	Centimetre         = 10 * Millimetre
	Metre              = 1000 * Millimetre
	SixtyFourth        = 396_875 * Nanometre // 1/64 in
	Sixteenth          = 4 * SixtyFourth     // 1/16 in
	Inch               = 64 * SixtyFourth    // 25.4 mm
	Foot               = 12 * Inch
)

// Units is the system a job is measured in. It decides how a number without a
// unit is read and how lengths are printed.
type Units string

const (
	Imperial Units = "imperial"
	Metric   Units = "metric"
)

// Pick is what is said in inches, or of a metric job.
func (u Units) Pick(inches, metric string) string {
	if u == Metric {
		return metric
	}
	return inches
}

// Tag is what a person said of a length without giving a number: a bit over
// or a bit under. It is kept and echoed, never turned into a fraction.
type Tag string

const (
	Exact  Tag = ""
	Strong Tag = "strong"
	Shy    Tag = "shy"
)
