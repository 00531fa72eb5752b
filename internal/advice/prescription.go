package advice

import (
	"encoding/json"
	"fmt"
	"strconv"

	"breakwright/internal/say"
)

// Variable names the one part of the setup that changes.
type Variable string

// The variables.
const (
	VaryPlace   Variable = "place"   // across, inches from the long string, x of the log
	VaryContact Variable = "contact" // inches from full, positive right
	VaryTip     Variable = "tip"
	VarySpin    Variable = "spin"
	VarySpeed   Variable = "speed"
	VaryRack    Variable = "rack"
	VaryNone    Variable = "none" // the setup stays
)

// Prescription is one change that answers a finding.
type Prescription struct {
	Rule     RuleName `json:"rule"`
	Variable Variable `json:"variable"`
	From     Value    `json:"from"`
	To       Value    `json:"to"`
	// Unit of From and To: "in", "radius", "mph", "slots", or "" for none.
	Unit   string `json:"unit"`
	Reason string `json:"reason"`
	Expect string `json:"expect"`
	// HelpP is the chance that the change helps, as it is told, where everything seen was
	// weighed; 0 where a pattern alone speaks.
	HelpP float64 `json:"help_p,omitempty"`
	// LookFor is what Expect speaks of; nil where a pattern alone speaks.
	LookFor *Expectation `json:"look_for,omitempty"`
	// Caution is the safety line where force or height is involved, or "".
	Caution string `json:"caution,omitempty"`
	// What is said in them, as data.
	ReasonStatement  say.Statement `json:"-"`
	ExpectStatement  say.Statement `json:"-"`
	CautionStatement say.Statement `json:"-"`
}

// Expectation is a share of breaks that is looked for after a change, beside what
// was seen before it.
type Expectation struct {
	// What is counted, one of the Expect words; "" for nothing in particular.
	What  string  `json:"what"`
	Share float64 `json:"share"`
	Shown int     `json:"shown"`
	Of    int     `json:"of"`
}

// What an Expectation speaks of.
const (
	ExpectDown    = "ball down"  // and no scratch, and nothing on the floor
	ExpectWing    = "wing ball"  // in its corner
	ExpectScratch = "scratch"    // fewer are better
	ExpectWeak    = "weak break" // short of the rules' four rails; fewer are better
	ExpectShot    = "open shot"  // on the lowest ball, of all breaks
	ExpectMiddle  = "middle"     // the cue ball at rest between head string and centre
)

// Value is one end of a change: a number, a text (a rack order), or nothing.
// The zero Value is nothing and is null in JSON.
type Value struct {
	Number float64
	Text   string
	kind   valueKind
}

type valueKind uint8

const (
	valueNothing valueKind = iota
	valueNumber
	valueText
)

// NumberValue makes a value of a number.
func NumberValue[T ~float64](v T) Value { return Value{Number: float64(v), kind: valueNumber} }

// TextValue makes a value of a text.
func TextValue(s string) Value { return Value{Text: s, kind: valueText} }

// IsNumber reports whether the value is a number.
func (v Value) IsNumber() bool { return v.kind == valueNumber }

// String writes the number in its shortest form, the text, or "".
func (v Value) String() string {
	if v.kind == valueNumber {
		return strconv.FormatFloat(v.Number, 'f', -1, 64)
	}
	return v.Text
}

// MarshalJSON writes a number, a string or null.
func (v Value) MarshalJSON() ([]byte, error) {
	switch v.kind {
	case valueNumber:
		return json.Marshal(v.Number)
	case valueText:
		return json.Marshal(v.Text)
	}
	return []byte("null"), nil
}

// UnmarshalJSON reads a number, a string or null.
func (v *Value) UnmarshalJSON(data []byte) error {
	var any any
	if err := json.Unmarshal(data, &any); err != nil {
		return fmt.Errorf("advice: value: %w", err)
	}
	switch x := any.(type) {
	case float64:
		*v = NumberValue(x)
	case string:
		*v = TextValue(x)
	case nil:
		*v = Value{}
	default:
		return fmt.Errorf("advice: value %s is neither number nor text", data)
	}
	return nil
}

// trustInHelp is how much of the chance that a change helps is told: the likeliest of many
// is also the luckiest (internal/rehearsal/REHEARSAL.md has what comes of it).
const trustInHelp = 0.97
