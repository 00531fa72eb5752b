package advice

// Summary says which breaks the advice rests on.
type Summary struct {
	// Sets and Breaks are counted in the stint that is judged.
	Sets   int `json:"sets"`
	Breaks int `json:"breaks"`
	// Used names the stint's sets; Earlier the sets under other setups on the
	// same table that the follow-up and the place search learn from.
	Used    []string `json:"used,omitempty"`
	Earlier []string `json:"earlier,omitempty"`
	// LeftOut names the other sets, with the reason.
	LeftOut []LeftOut `json:"left_out,omitempty"`
}

// LeftOut is a set that was not used.
type LeftOut struct {
	Set    string `json:"set"`
	Breaks int    `json:"breaks"`
	Why    string `json:"why"`
}
