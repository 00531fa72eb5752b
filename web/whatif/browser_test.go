//go:build !quick

package whatif_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// open signs the coach in on a window and opens an address.
func open(t *testing.T, site *webtest.Site, size browser.Size, address string) *browser.Window {
	t.Helper()
	w := browser.OpenWindow(t, size)
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	w.Navigate(site.URL + address)
	return w
}

// quiet is true when nothing is on its way and what came has settled.
const quiet = `!document.querySelector(".htmx-request, .htmx-settling, .htmx-swapping, .htmx-added")`

func TestWhatIf_LaptopAndPhone(t *testing.T) {
	site := webtest.New(t)
	for name, size := range map[string]browser.Size{"laptop": browser.Laptop, "phone": browser.Phone} {
		w := open(t, site, size, "/what-if?number=300")
		w.WaitFor(`document.querySelectorAll(".pic-crowd").length >= 4 && !document.querySelector(".play-hands").hidden`)
		w.WaitFor(`document.documentElement.scrollWidth <= innerWidth`)
		w.CheckAccessibility(t)
		w.SaveScreenshot("whatif-" + name)
		w.SetDark(true)
		w.CheckAccessibility(t)
		w.SaveScreenshot("whatif-" + name + "-dark")
	}
}

// A change of a field is computed by itself; a setting that is held is compared
// with; what cannot be is refused beside its field.
func TestWhatIf_ComparesWithoutLeavingThePage(t *testing.T) {
	site := webtest.New(t)
	w := open(t, site, browser.Laptop, scene)
	w.WaitFor(`document.querySelector(".pic-crowd")`)
	// The click itself scrolls nothing: its button is brought to the middle first.
	w.RunActions(chromedp.Evaluate[chromedp.Void](`document.querySelector("[value=hold]").scrollIntoView({ block: "center", behavior: "instant" }); void 0`))
	before := browser.Evaluate[float64](w, "scrollY")
	w.ClickText("Compare with this")
	w.WaitFor(`document.querySelectorAll(".pic-pair").length === 3`)
	w.WaitFor(quiet)
	if after := browser.Evaluate[float64](w, "scrollY"); before == 0 || after != before {
		t.Errorf("the page was thrown from %v to %v", before, after)
	}
	w.TypeInto("cue_x", "10")
	w.WaitFor(`document.querySelector(".changes") && location.search.includes("cue_x=10&")`)
	w.WaitFor(`document.querySelector("#look-table-d").textContent.includes("(10 in) left of the middle")`)
	w.CheckAccessibility(t)
	w.SaveScreenshot("whatif-compare")
	w.TypeInto("tip", "2")
	w.WaitFor(`document.getElementById("tip-error").textContent !== "" && document.querySelector("#seen .notice.wrong")`)
	w.CheckAccessibility(t)
	w.TypeInto("tip", "-0.1")
	w.WaitFor(`document.getElementById("tip-error").textContent === "" && document.querySelector(".pic-crowd")`)
}

func TestWhatIf_Plays(t *testing.T) {
	site := webtest.New(t)
	w := open(t, site, browser.Laptop, scene)
	w.WaitFor(`document.getElementById("play")?.dataset.ready`)
	first := browser.Evaluate[string](w, `document.querySelector('.pic-moving[data-ball="1"]').getAttribute("transform")`)
	w.ClickText("Step")
	w.ClickText("Step")
	w.WaitFor(`document.querySelector('.pic-moving[data-ball="0"]').getAttribute("transform") !== ""`)
	w.WaitFor(`document.querySelector(".play-hands output").textContent !== "0.00 s"`)
	w.ClickText("Play")
	w.WaitFor(`document.querySelector(".play-go").textContent === "Pause"`)
	w.WaitFor(`document.querySelector('.pic-moving[data-ball="1"]').getAttribute("transform") !== ` + browser.QuoteScript(first))
	w.ClickText("Pause")
	w.ClickText("To the start")
	w.WaitFor(`document.querySelector('.pic-moving[data-ball="1"]').getAttribute("transform") === ` + browser.QuoteScript(first))
	w.ClickText("Wing ball made")
	w.WaitFor(`document.querySelector("#play p").textContent.includes("the wing ball drops in its corner") && document.getElementById("play").dataset.ready`)
}

// The cue ball is dragged: the fields follow, and so does the answer. It stays
// behind the head string, on its side.
func TestWhatIf_DragsTheCueBall(t *testing.T) {
	site := webtest.New(t)
	w := open(t, site, browser.Laptop, scene)
	w.WaitFor(`document.querySelector(".pic-crowd")`)
	drag := func(x, y string) {
		browser.Evaluate[bool](w, `(() => {
			const ball = document.querySelector("#drawn-table ~ .handle"), svg = document.querySelector("#drawn-table svg");
			const at = new DOMPoint(`+x+`, `+y+`).matrixTransform(svg.getScreenCTM());
			const send = (type) => (type === "pointerdown" ? ball : document).dispatchEvent(
				new PointerEvent(type, { bubbles: true, button: 0, clientX: at.x, clientY: at.y }));
			send("pointerdown");
			send("pointermove");
			send("pointerup");
			return true;
		})()`)
	}
	drag("-120", "-200") // 12 in left, 20 in from the head rail: 5 behind the string
	w.WaitFor(`document.getElementById("cue_x").value === "12" && document.getElementById("cue_y").value === "5"`)
	w.WaitFor(`location.search.includes("cue_x=12&cue_y=5") && document.querySelector("#look-table-d").textContent.includes("(12 in) left of the middle")`)
	w.WaitFor(quiet)
	drag("300", "-700") // far right, at the rack
	w.WaitFor(`document.getElementById("cue_x").value === "0" && document.getElementById("cue_y").value === "0"`)
	w.WaitFor(quiet)
	swapsInTheRack(t, w)
}

// swapsInTheRack exchanges two balls by hand and takes that back by keys: the order's
// field, the address and the picture follow.
func swapsInTheRack(t *testing.T, w *browser.Window) {
	t.Helper()
	browser.Evaluate[bool](w, `(document.getElementById("drawn-rack").closest("details").open = true)`)
	before := browser.Evaluate[string](w, `document.getElementById("rack").value`)
	balls := strings.Split(before, "-")
	balls[1], balls[2] = balls[2], balls[1]
	after := strings.Join(balls, "-")
	shown := func(order string) string {
		ball := strings.Split(order, "-")[1]
		return `document.getElementById("rack").value === "` + order + `" && location.search.includes("rack=` + order + `") &&
			document.getElementById("drawn-seat-2L").getAttribute("aria-label") === "Slot 2L, the ` + ball + `" && ` + quiet
	}
	browser.Evaluate[bool](w, `(() => {
		const from = document.getElementById("drawn-seat-2L"), to = document.getElementById("drawn-seat-2R");
		to.scrollIntoView({ block: "center", behavior: "instant" });
		const send = (where, type) => { const r = where.getBoundingClientRect();
			where.dispatchEvent(new PointerEvent(type, { bubbles: true, button: 0, clientX: r.x + r.width / 2, clientY: r.y + r.height / 2 })); };
		send(from, "pointerdown");
		send(to, "pointermove");
		send(to, "pointerup");
		return true;
	})()`)
	w.WaitFor(shown(after))
	for _, seat := range []string{"2L", "2R"} {
		browser.Evaluate[bool](w, `(document.getElementById("drawn-seat-`+seat+`").focus({ preventScroll: true }), true)`)
		w.RunActions(chromedp.KeyEvent(kb.Enter))
	}
	w.WaitFor(shown(before))
}

// A long question counts up by itself and is stopped by its button.
func TestWhatIf_LongRunCountsAndStops(t *testing.T) {
	site := webtest.New(t)
	w := open(t, site, browser.Laptop, "/what-if?number=5000&tip=-0.07")
	w.WaitFor(`document.querySelector(".going progress")`)
	w.CheckAccessibility(t)
	w.WaitFor(`document.querySelector(".going progress")?.value > 100`)
	w.WaitForNavigation(func() { w.ClickText("Stop") })
	w.WaitFor(`document.querySelector("#seen").textContent.includes("Nothing computed yet") && !document.querySelector(".going")`)
}
