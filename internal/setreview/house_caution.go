package setreview

import (
	"fmt"
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
)

// addHouseCaution says beside a proposal which house rule it breaks or strains, so
// that none is broken unseen.
func addHouseCaution(p *advice.Prescription, before, next drill.Setup, h drill.HouseRules) {
	cautions := houseCautions(*p, before, next, h)
	if p.Caution != "" {
		cautions = append([]string{p.Caution}, cautions...)
	}
	p.Caution = strings.Join(cautions, " ")
}

func houseCautions(p advice.Prescription, before, next drill.Setup, h drill.HouseRules) []string {
	var cautions []string
	if !next.InBox(h.BreakBox) {
		cautions = append(cautions, fmt.Sprintf("This place is outside the room's break box, which reaches %s in to each side of the long string: it is for practice only.", h.BreakBox))
	}
	if h.ThreePoints && p.Variable == advice.VarySpeed && next.Speed < before.Speed {
		cautions = append(cautions, "The room plays the three-point rule: at a lower speed fewer balls pass the head string, so count them.")
	}
	return cautions
}
