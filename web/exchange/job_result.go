package exchange

import (
	"encoding/json"

	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// mostNames is how many names a result remembers.
const mostNames = 200

// newImportOutcome says what an import did, for the page.
func newImportOutcome(done store.ImportResult, sets []drill.Set) importOutcome {
	r := importOutcome{Sets: done.Sets, Duplicates: done.Duplicates, Breaks: done.Breaks}
	for _, student := range done.Students[:min(len(done.Students), mostNames)] {
		r.Students = append(r.Students, student.Name)
	}
	for _, t := range done.Tables[:min(len(done.Tables), mostNames)] {
		r.Tables = append(r.Tables, t.Label())
	}
	return r
}

func (r importOutcome) marshal() []byte {
	text, err := json.Marshal(r)
	if err != nil {
		panic("exchange: names that do not marshal: " + err.Error())
	}
	return text
}
