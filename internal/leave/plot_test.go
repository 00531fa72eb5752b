package leave

import (
	"flag"
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// plotFile is MODEL.md's picture of found and computed chances.
const plotFile = "agreement.svg"

var writePlot = flag.Bool("write-plot", false, "have the benchmark Agreement draw "+plotFile+" anew")

// agreedShot is a shot's chance as it was found and as it was computed.
type agreedShot struct{ found, computed float64 }

// rootMeanSquare is that of the difference.
func rootMeanSquare(shots []agreedShot) float64 {
	sum := 0.0
	for _, s := range shots {
		sum += (s.computed - s.found) * (s.computed - s.found)
	}
	return math.Sqrt(sum / float64(len(shots)))
}

// groupByFifth groups shots by the fifth that the found chance is in.
func groupByFifth(shots []agreedShot) (fifths [5][]agreedShot) {
	for _, s := range shots {
		i := min(int(s.found*5), 4)
		fifths[i] = append(fifths[i], s)
	}
	return fifths
}

// meanOf returns the mean found and computed chance.
func meanOf(shots []agreedShot) (m agreedShot) {
	for _, s := range shots {
		m.found, m.computed = m.found+s.found/float64(len(shots)), m.computed+s.computed/float64(len(shots))
	}
	return m
}

// The plot's square, in its own units: a chance of 1 is plotSide wide and high.
const plotLeft, plotTop, plotSide = 64.0, 24.0, 400.0

func plotX(found float64) string { return strconv.FormatFloat(plotLeft+plotSide*found, 'f', 1, 64) }

func plotY(computed float64) string {
	return strconv.FormatFloat(plotTop+plotSide*(1-computed), 'f', 1, 64)
}

// The colours are those of the pages' pictures, by day and by night.
const plotHead = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 496 512" width="496" height="512" role="img" aria-labelledby="t d" font-family="system-ui, sans-serif" font-size="14">
<title id="t">The chance of a shot, found and computed</title>
<desc id="d">%d shots, each a dot: to the right the chance that the finder gives, upwards that of the same shot on the computed table. The root mean square of the difference is %.3f; the band is twice that to either side, and holds %.0f of 100 shots. Bars are the mean and the root mean square of each fifth.</desc>
<style>
svg { background: #f7f5ef; fill: #1f2a35; stroke: none; }
.band { fill: #dfe4e8; } .axis { stroke: #5c6873; } .dots { stroke: #2b6496; stroke-opacity: .45; } .fifths { stroke: #1f2a35; }
@media (prefers-color-scheme: dark) {
svg { background: #1b2127; fill: #e3e7ea; } .band { fill: #333e48; } .axis { stroke: #a3aeb8; } .dots { stroke: #86b6de; } .fifths { stroke: #e3e7ea; }
}
</style>
`

// drawPlot draws shots with the band of twice the root mean square around agreement, and
// the mean of each fifth.
func drawPlot(shots []agreedShot) string {
	var s strings.Builder
	rms := rootMeanSquare(shots)
	fmt.Fprintf(&s, plotHead, len(shots), rms, 100*shareInBand(shots))
	fmt.Fprintf(&s, "<clipPath id=\"c\"><rect x=\"%g\" y=\"%g\" width=\"%g\" height=\"%g\"/></clipPath>\n", plotLeft, plotTop, plotSide, plotSide)
	fmt.Fprintf(&s, "<path class=\"band\" clip-path=\"url(#c)\" d=\"M%s %sL%s %sV%sL%s %sZ\"/>\n",
		plotX(0), plotY(2*rms), plotX(1), plotY(1+2*rms), plotY(1-2*rms), plotX(0), plotY(-2*rms))
	fmt.Fprintf(&s, "<path class=\"axis\" fill=\"none\" d=\"M%s %sH%sV%sH%sZL%s %s\"/>\n", plotX(0), plotY(0), plotX(1), plotY(1), plotX(0), plotX(1), plotY(1))
	s.WriteString("<path class=\"dots\" stroke-width=\"4\" stroke-linecap=\"round\" d=\"")
	for _, shot := range shots {
		fmt.Fprintf(&s, "M%s %sh0", plotX(shot.found), plotY(shot.computed))
	}
	s.WriteString("\"/>\n<path class=\"fifths\" stroke-width=\"2.5\" d=\"")
	for _, fifth := range groupByFifth(shots) {
		m, off := meanOf(fifth), rootMeanSquare(fifth)
		fmt.Fprintf(&s, "M%s %sV%sM%g %sh10", plotX(m.found), plotY(m.computed-off), plotY(m.computed+off), plotLeft+plotSide*m.found-5, plotY(m.computed))
	}
	s.WriteString("\"/>\n<g text-anchor=\"middle\">\n")
	for i := range 6 {
		chance := float64(i) / 5
		fmt.Fprintf(&s, "<text x=\"%s\" y=\"444\">%g</text><text x=\"48\" y=\"%s\">%g</text>\n", plotX(chance), chance, plotY(chance-0.012), chance)
	}
	s.WriteString("<text x=\"264\" y=\"472\">chance found</text><text transform=\"translate(18 224) rotate(-90)\">chance computed</text>\n")
	fmt.Fprintf(&s, "<text x=\"264\" y=\"498\">%d shots; band: twice the root mean square, %.3f</text></g></svg>\n", len(shots), rms)
	return s.String()
}

// shareInBand is the share of shots off by no more than twice the root mean square.
func shareInBand(shots []agreedShot) float64 {
	in, rms := 0, rootMeanSquare(shots)
	for _, s := range shots {
		if math.Abs(s.computed-s.found) <= 2*rms {
			in++
		}
	}
	return float64(in) / float64(len(shots))
}

var plotDot = regexp.MustCompile(`M([\d.]+) ([\d.]+)h0`)

// readPlot reads the shots back from a plot.
func readPlot(t *testing.T, text string) (shots []agreedShot) {
	for _, dot := range plotDot.FindAllStringSubmatch(text, -1) {
		x, errX := strconv.ParseFloat(dot[1], 64)
		y, errY := strconv.ParseFloat(dot[2], 64)
		if errX != nil || errY != nil {
			t.Fatalf("no place: %q", dot)
		}
		shots = append(shots, agreedShot{(x - plotLeft) / plotSide, 1 - (y-plotTop)/plotSide})
	}
	return shots
}

// The plot shows the shots of MODEL.md's table, and they are within what is said there:
// so many, that far off, nine in ten within the band.
func TestPlot_IsOfTheTable(t *testing.T) {
	plot, err := os.ReadFile(plotFile)
	if err != nil {
		t.Fatal(err)
	}
	model, err := os.ReadFile("MODEL.md")
	if err != nil {
		t.Fatal(err)
	}
	shots := readPlot(t, string(plot))
	mean := meanOf(shots)
	row := fmt.Sprintf("| all | %d | %.3f | %.3f | %.3f |", len(shots), mean.found, mean.computed, rootMeanSquare(shots))
	if !strings.Contains(string(model), row) {
		t.Errorf("the plot’s row is %s", row)
	}
	if share := shareInBand(shots); share < 0.9 {
		t.Errorf("only %.2f of the shots are in the band", share)
	}
	if again := readPlot(t, drawPlot(shots)); len(again) != len(shots) || math.Abs(meanOf(again).found-mean.found) > 1e-9 {
		t.Errorf("drawn anew, %d shots", len(again))
	}
}
