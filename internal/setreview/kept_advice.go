package setreview

import (
	"encoding/json"
	"fmt"

	"breakwright/internal/advice"
	"breakwright/internal/say"
	"breakwright/internal/store"
)

// keptAdvice is advice as it is kept: the fields of the break log's adviser,
// and beside the words what is said in them as data, so that old advice is
// read as it was told, and can be told to another reader.
type keptAdvice struct {
	advice.Advice
	Findings   []keptFinding `json:"findings"`
	Statements *statements   `json:"said,omitempty"`
}

// keptFinding is a finding with what it says.
type keptFinding struct {
	advice.Finding
	Statement *say.Statement `json:"said,omitempty"`
}

// statements is what advice says, its findings aside.
type statements struct {
	Answer   say.Statement   `json:"answer"`
	Checks   []say.Statement `json:"checks,omitempty"`
	Proposal say.Proposal    `json:"proposal,omitzero"`
	FollowUp say.Statement   `json:"follow_up,omitzero"`
	Places   say.Statement   `json:"places,omitzero"`
	Card     say.Statement   `json:"card,omitzero"`
}

// writeAdvice returns advice as it is kept.
func writeAdvice(a advice.Advice) ([]byte, error) {
	fields := map[string]json.RawMessage{}
	words, err := json.Marshal(a)
	if err == nil {
		err = json.Unmarshal(words, &fields)
	}
	findings := make([]keptFinding, len(a.Findings))
	for i, f := range a.Findings {
		findings[i] = keptFinding{f, &f.Statement}
	}
	for name, value := range map[string]any{"findings": findings, "said": statementsOf(a)} {
		if err == nil {
			fields[name], err = json.Marshal(value)
		}
	}
	if err != nil {
		return nil, fmt.Errorf("setreview: write the advice: %w", err)
	}
	return json.Marshal(fields)
}

func statementsOf(a advice.Advice) statements {
	s := statements{Answer: a.Statement, Checks: a.CheckStatements}
	if p := a.Prescription; p != nil {
		s.Proposal = say.Proposal{Reason: p.ReasonStatement, Expect: p.ExpectStatement, Caution: p.CautionStatement}
	}
	if a.FollowUp != nil {
		s.FollowUp = a.FollowUp.Statement
	}
	if a.Places != nil {
		s.Places = a.Places.Statement
	}
	if a.Card != nil {
		s.Card = a.Card.Statement
	}
	return s
}

// ReadAdvice returns advice as it was kept. Its Next setup is not part of that:
// the prescription has it. What was kept without its facts says the words it was
// told in, to every reader.
func ReadAdvice(kept *store.Advice) (advice.Advice, error) {
	var k keptAdvice
	if err := json.Unmarshal(kept.JSON, &k); err != nil {
		return advice.Advice{}, fmt.Errorf("setreview: read the advice: %w", err)
	}
	a := k.Advice
	for _, f := range k.Findings {
		a.Findings = append(a.Findings, f.withStatement())
	}
	if k.Statements == nil || len(k.Statements.Checks) != len(a.Checks) {
		statements := statementsOfWords(a)
		k.Statements = &statements
	}
	k.Statements.putInto(&a)
	return a, nil
}

// ReadFinding returns the finding of kept advice; nil when it had none.
func ReadFinding(kept []byte) (*advice.Finding, error) {
	var k *keptFinding
	if err := json.Unmarshal(kept, &k); err != nil {
		return nil, fmt.Errorf("setreview: read the finding: %w", err)
	}
	if k == nil {
		return nil, nil
	}
	f := k.withStatement()
	return &f, nil
}

// withStatement is the finding with what it says, the words where that is all that
// was kept.
func (f keptFinding) withStatement() advice.Finding {
	found := f.Finding
	found.Statement = say.KeptWords(found.Says)
	if f.Statement != nil {
		found.Statement = *f.Statement
	}
	return found
}

// statementsOfWords are the words of advice that was kept without its facts.
func statementsOfWords(a advice.Advice) statements {
	s := statements{Answer: say.KeptWords(a.Says)}
	for _, check := range a.Checks {
		s.Checks = append(s.Checks, say.KeptWords(check))
	}
	if p := a.Prescription; p != nil {
		s.Proposal = say.Proposal{Reason: say.KeptWords(p.Reason), Expect: say.KeptWords(p.Expect), Caution: say.KeptWords(p.Caution)}
	}
	if a.FollowUp != nil {
		s.FollowUp = say.KeptWords(a.FollowUp.Says)
	}
	if a.Places != nil {
		s.Places = say.KeptWords(a.Places.Says)
	}
	if a.Card != nil {
		s.Card = say.KeptWords(a.Card.Says)
	}
	return s
}

// putInto fills advice with what it says.
func (s statements) putInto(a *advice.Advice) {
	a.Statement, a.CheckStatements = s.Answer, s.Checks
	if p := a.Prescription; p != nil {
		p.ReasonStatement, p.ExpectStatement, p.CautionStatement = s.Proposal.Reason, s.Proposal.Expect, s.Proposal.Caution
	}
	if a.FollowUp != nil {
		a.FollowUp.Statement = s.FollowUp
	}
	if a.Places != nil {
		a.Places.Statement = s.Places
	}
	if a.Card != nil {
		a.Card.Statement = s.Card
	}
}
