package evidence

// CUSUM adds up departures from a target until they cannot be chance: the
// cumulative sum chart of Page (1954) in its tabular form (NIST/SEMATECH e-Handbook
// 6.3.2.3). All three numbers are in the unit of the values.
type CUSUM struct {
	// Target is where values should lie.
	Target float64
	// K is the slack taken off each departure, usually half the shift worth
	// finding.
	K float64
	// H is the sum above which an alarm is raised.
	H float64
}

// CUSUMSums are the two running sums, both 0 or more. The zero value is the start.
type CUSUMSums struct {
	// High adds up values above the target, Low values below.
	High, Low float64
}

// NextSums returns the sums after one more value.
func (c CUSUM) NextSums(s CUSUMSums, value float64) CUSUMSums {
	return CUSUMSums{
		High: max(0, s.High+value-c.Target-c.K),
		Low:  max(0, s.Low+c.Target-c.K-value),
	}
}
