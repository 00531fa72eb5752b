package breaklog

import (
	"errors"
	"runtime"
	"strings"
	"testing"
)

// A file that is one row, however it is made, is refused before it fills the
// memory: it took 1.1 GB for 19 MB of commas once.
func TestRead_BoundsARow(t *testing.T) {
	const size = 19 << 20
	for name, text := range map[string]string{
		"commas":             strings.Repeat(",", size),
		"one word":           strings.Repeat("a", size),
		"an open quote mark": `student,"` + strings.Repeat("a\n", size/2),
		"quoted line ends":   strings.Repeat("\"\n\",", size/4),
	} {
		before := allocatedBytes()
		_, err := Read(strings.NewReader(text))
		var problems Problems
		if !errors.As(err, &problems) || problems[0].Says != longRow {
			t.Errorf("%s: %v", name, err)
		}
		if took := allocatedBytes() - before; took > 16<<20 {
			t.Errorf("%s: %d MB were allocated for a file of 19 MB", name, took>>20)
		}
	}
}

func allocatedBytes() uint64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.TotalAlloc
}
