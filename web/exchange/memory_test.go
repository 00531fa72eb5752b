package exchange_test

import (
	"bytes"
	"net/http"
	"runtime/debug"
	"runtime/metrics"
	"sync"
	"testing"
	"time"

	"breakwright/internal/store"
)

// heldBytes is the memory that the program holds of the machine's.
func heldBytes() uint64 {
	held := []metrics.Sample{{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}}
	metrics.Read(held)
	return held[0].Value.Uint64() - held[1].Value.Uint64()
}

// watchMemory returns how many bytes more than now are held at most until it is asked.
func watchMemory() (most func() uint64) {
	debug.FreeOSMemory()
	before, highest := heldBytes(), uint64(0)
	stop := make(chan struct{})
	var watching sync.WaitGroup
	watching.Go(func() {
		for {
			select {
			case <-stop:
				return
			case <-time.After(2 * time.Millisecond):
				highest = max(highest, heldBytes())
			}
		}
	})
	return func() uint64 {
		close(stop)
		watching.Wait()
		return highest - min(before, highest)
	}
}

// Reports README's figure: what files of the largest size cost in memory, one being taken
// over and three more sent at once, with Go's limits as serve sets them. Run with
// -benchtime 1x.
func BenchmarkImport_MemoryOfTheLargestFile(b *testing.B) {
	const maxBytes, perStudent = 20 << 20, 50
	file := years(b, maxBytes/len(years(b, 1, perStudent)), perStudent)
	kind, body := packUpload(b, store.NewID[store.JobID]().String(), "years.csv", file)
	debug.SetGCPercent(50)
	debug.SetMemoryLimit(224 << 20)
	for b.Loop() {
		s := bareSite(b)
		coach := s.SignInCoach(b)
		most := watchMemory()
		preview := coach.PostBody(b, "/import", kind, bytes.NewReader(body)).RequireStatus(b, http.StatusOK)
		begun := coach.Post(b, preview.Path, preview.FormValues(b, "form:has(.plan)")).RequireStatus(b, http.StatusOK)
		var others sync.WaitGroup
		for range 3 {
			others.Go(func() {
				s.SignInCoach(b).PostBody(b, "/import", kind, bytes.NewReader(body)).RequireStatus(b, http.StatusOK)
			})
		}
		others.Wait()
		settle(b, coach, begun.Path)
		b.ReportMetric(float64(len(file))/(1<<20), "MB-file")
		b.ReportMetric(float64(most())/(1<<20), "MB-peak")
	}
}
