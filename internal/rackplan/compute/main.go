// Command compute makes the file of computed breaks that package rackplan starts
// from:
//
//	go run ./internal/rackplan/compute > internal/rackplan/computed.json
//
// The same seed gives the same file on one kind of processor. It takes a minute
// or two.
package main

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"log"
	"os"

	"breakwright/internal/rack"
	"breakwright/internal/rackplan"
	"breakwright/internal/table"
)

func main() {
	students := flag.Int("students", 80, "computed students for each rack")
	breaks := flag.Int("breaks", 120, "breaks of each")
	seed := flag.Uint64("seed", 1, "the seed of all chance")
	flag.Parse()
	file := rackplan.Computed{Made: fmt.Sprintf("go run ./internal/rackplan/compute -students %d -breaks %d -seed %d", *students, *breaks, *seed)}
	for _, k := range []table.Kind{table.SevenFoot(), table.EightFoot(), table.NineFoot()} {
		size := rackplan.ComputedSize{Feet: k.Feet}
		for _, g := range rack.Games() {
			for _, spot := range g.Spots() {
				c := club{kind: k, game: g, spot: spot, students: *students, breaks: *breaks, seed: *seed}
				if err := c.play(); err != nil {
					log.Fatal(err)
				}
				size.Racks = append(size.Racks, c.rack())
			}
		}
		size.Shot = shotTable(k, *seed)
		size.Position = positionTable(k, *seed)
		file.Tables = append(file.Tables, size)
	}
	if err := write(file); err != nil {
		log.Fatal(err)
	}
}

// write puts one line for each ball and each row of a table.
func write(file rackplan.Computed) error {
	out := bufio.NewWriter(os.Stdout)
	text, err := json.Marshal(file)
	if err != nil {
		return err
	}
	for i, b := range text {
		out.WriteByte(b)
		if b == ',' && (text[i-1] == ']' || text[i-1] == '}') {
			out.WriteByte('\n')
		}
	}
	out.WriteByte('\n')
	return out.Flush()
}
