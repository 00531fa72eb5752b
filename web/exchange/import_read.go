package exchange

import (
	"bytes"
	"context"
	"fmt"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// What may be in memory at once, however many coaches ask: this many files that come in,
// the sets of one file that is looked at, and those of the job at work. A file waits for
// its place, until its request ends.
const uploadsAtOnce = 2

// takePlace waits for one of a channel's places and gives what frees it.
func takePlace(ctx context.Context, places chan struct{}) (free func(), err error) {
	select {
	case places <- struct{}{}:
		return func() { <-places }, nil
	case <-ctx.Done():
		return nil, fmt.Errorf("wait for other files: %w: %w", store.ErrUnavailable, ctx.Err())
	}
}

// lookAtLog loads a file, reads it, and hands its sets on to be used while nobody else's
// are.
func (p *Pages) lookAtLog(ctx context.Context, load func() ([]byte, error), use func(sets []drill.Set) error) error {
	free, err := takePlace(ctx, p.looking)
	if err != nil {
		return err
	}
	defer free()
	file, err := load()
	if err != nil {
		return err
	}
	sets, err := readBreakLog(file)
	if err != nil {
		return err
	}
	return use(sets)
}

// readJobLog reads the file of a job at work: not before its turn, so that jobs that wait
// take no room.
func (p *Pages) readJobLog(ctx context.Context, v store.Actor, id store.JobID) ([]drill.Set, error) {
	file, err := p.store.GetJobFile(ctx, v, id)
	if err != nil {
		return nil, err
	}
	return readBreakLog(file)
}

func readBreakLog(file []byte) ([]drill.Set, error) {
	sets, err := breaklog.Read(bytes.NewReader(file))
	if err == nil && len(sets) == 0 {
		return nil, fileProblem("the file has column names and no breaks")
	}
	return sets, err
}

func countBreaks(sets []drill.Set) int {
	n := 0
	for _, set := range sets {
		n += len(set.Breaks)
	}
	return n
}
