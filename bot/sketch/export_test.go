package sketch

// RunWidth is the width of a run's own line, which no other line has.
const RunWidth = runWidth
