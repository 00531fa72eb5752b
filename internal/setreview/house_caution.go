package setreview

import (
	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/say"
)

// addHouseCaution says beside a proposal which house rule it breaks or strains, so
// that none is broken unseen.
func addHouseCaution(p *advice.Prescription, before, next drill.Setup, h drill.HouseRules) {
	cautions := houseCautions(*p, before, next, h)
	if len(cautions) == 0 {
		return
	}
	p.CautionStatement = say.Statement{Kind: say.Together, Parts: append([]say.Statement{p.CautionStatement}, cautions...)}
	p.Caution = p.CautionStatement.Text(say.Reader{})
}

func houseCautions(p advice.Prescription, before, next drill.Setup, h drill.HouseRules) []say.Statement {
	var cautions []say.Statement
	if !next.InBox(h.BreakBox) {
		cautions = append(cautions, say.Statement{Kind: say.Caution, About: "outside the box", To: float64(h.BreakBox)})
	}
	if h.ThreePoints && p.Variable == advice.VarySpeed && next.Speed < before.Speed {
		cautions = append(cautions, say.Statement{Kind: say.Caution, About: "three points"})
	}
	return cautions
}
