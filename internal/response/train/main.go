// Command train makes the response model: it computes breaks, fits a network for
// each rack and writes them, with the error on breaks it was not made from.
//
//	go run ./internal/response/train -out internal/response/model.bin
//
// It takes some twenty minutes of one core for the usual numbers of breaks. The
// same seed and numbers give the same file on one kind of processor.
package main

import (
	"flag"
	"fmt"
	"os"

	"breakwright/internal/rack"
	"breakwright/internal/response"
)

// usualBreaks is how many breaks each network is made from: nine-ball with the
// head ball on the spot is what students are taught most.
func usualBreaks(r response.Rack) int {
	switch {
	case r.Game == rack.NineBall && r.Spot == rack.HeadOnSpot:
		return 700_000
	case r.Game == rack.NineBall:
		return 350_000
	case r.Game == rack.TenBall:
		return 250_000
	}
	return 200_000
}

func main() {
	out := flag.String("out", "", "the file of weights to write")
	share := flag.Float64("share", 1, "share of the usual numbers of breaks")
	epochs := flag.Int("epochs", 6, "how often each break is learned from")
	seed := flag.Uint64("seed", 11, "where chance begins")
	flag.Parse()
	if err := run(*out, *share, *epochs, *seed); err != nil {
		fmt.Fprintln(os.Stderr, "train:", err)
		os.Exit(1)
	}
}

func run(out string, share float64, epochs int, seed uint64) error {
	var file []byte
	for _, r := range response.Racks() {
		samples, err := drawSamples(r, int(share*float64(usualBreaks(r))), seed)
		if err != nil {
			return err
		}
		held := samples[:len(samples)/20]
		fitted := fit(samples[len(samples)/20:], epochs, seed)
		fitted.standardise()
		report(r, fitted, held)
		file = append(file, fitted.encode()...)
	}
	return os.WriteFile(out, file, 0o644)
}

// report prints the mean log loss of each fact on breaks held out, of tables of which
// nothing is known and of known ones, beside that of knowing only how often each outcome
// comes, in nats. It forgets the constants of the tables.
func report(r response.Rack, n *learner, held []sample) {
	fmt.Printf("%s, %s on the spot: %d breaks held out\n", r.Game, r.Spot, len(held))
	known, base := n.losses(held), baseLosses(held)
	for i := range held {
		clear(held[i].constants[:])
	}
	unknown := n.losses(held)
	for f := range known {
		fmt.Printf("  %-12s %.4f, of a table that is known %.4f, of %.4f\n", response.Fact(f), unknown[f], known[f], base[f])
	}
}
