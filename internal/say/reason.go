package say

import (
	"strings"

	"breakwright/internal/table"
)

func (s Statement) reason(r Reader) string {
	switch s.Kind {
	case Together:
		return strings.Join(s.texts(r), " ")
	case HurtLast:
		return "The last change made it worse: " + s.About + " " + InLetters(s.Count, s.Of) + " before, " + InLetters(s.Since, s.OfSince) + " since."
	case WasBetter:
		return "That was tried and was better: " + s.About + " " + InLetters(s.Count, s.Of) + " there, " + InLetters(s.Since, s.OfSince) + " here."
	case Because:
		return s.because(r)
	case Weighed:
		return s.weighed(r)
	case Sign:
		return s.sign()
	case MeasuredSpeed:
		return s.measuredSpeed(r)
	case AllTogether:
		return "no single count shows it, all that was recorded together does"
	}
	if s.Of == 0 {
		return "Leave the setup alone. The cue ball stopped in the window in " + InLetters(s.Since, s.OfSince) + "."
	}
	return "Leave the setup alone. The wing ball fell in " + InLetters(s.Count, s.Of) + " and the cue ball stopped in the window in " +
		InLetters(s.Since, s.OfSince) + "."
}

// texts are the parts, those that say nothing left out.
func (s Statement) texts(r Reader) []string {
	var all []string
	for _, part := range s.Parts {
		if text := part.Text(r); text != "" {
			all = append(all, text)
		}
	}
	return all
}

// phrases are the parts without full stops, those that say nothing left out.
func (s Statement) phrases(r Reader) []string {
	var all []string
	for _, part := range s.Parts {
		if phrase := part.phrase(r); phrase != "" {
			all = append(all, phrase)
		}
	}
	return all
}

func (s Statement) phrase(r Reader) string {
	switch s.Kind {
	case Finding, SoftFinding, UnaimedFinding:
		return s.finding()
	}
	return s.Text(r)
}

// WentTooFar begins a reason, where the last step is half taken back.
const WentTooFar = "went too far"

// afterFinding are how a reason goes on after its finding, by what asks for it.
var afterFinding = map[string]string{
	"off full": ", and the hit is off full",
	"thrown":   ", and the cue ball is thrown across the table: that is the hit, not the place",
	"too fast": ", and there is little draw to take off: the speed does it",
	"no place": ", and the place has no room left",
	"no room":  ", and there is no room left the other way",
	"search":   ": of the places within reach this one promises most",

	"too central":  ": the cue ball starts too near the middle",
	"too far out":  ": the cue ball starts too far out",
	"more draw":    ": it wants more draw",
	"less draw":    ": more draw would only send it back faster",
	"met off full": ": it meets the head ball off full",
	"control":      ": control before power",
	"first look":   ": this is a first look, a small one",
}

func (s Statement) because(r Reader) string {
	finding := strings.Join(s.phrases(r), ", ")
	if s.About == WentTooFar {
		return "The last step went too far: " + Decapitalize(finding) + "."
	}
	if s.About == "slot goes back" {
		return finding + ": " + r.ownOrTheirs() + " breaks send that slot's ball to the head end."
	}
	return finding + afterFinding[s.About] + "."
}

// measuredSpeed says what was measured in the last set beside what was asked.
func (s Statement) measuredSpeed(r Reader) string {
	text := "In the last set the speed was measured in " + OfTotal(s.Count, s.Of) + " breaks, the middle one " +
		r.Units.Speed(table.Mph(s.To)) + " where " + r.Units.Speed(table.Mph(s.From)) + " was asked"
	if !s.Yes {
		return text
	}
	return text + r.choose(
		": break as fast as is asked, or tell your coach that you do not.",
		": have them break as fast as is asked, or ask for what they break.",
		": break as fast as is asked.")
}

// weighed names the counts that weigh most, what they mean, and what else it
// could be.
func (s Statement) weighed(r Reader) string {
	seen := s.phrases(r)
	for i := range seen {
		seen[i] = Decapitalize(seen[i])
	}
	text := Capitalize(strings.Join(seen, ", and ")) + ": " + causeWords[s.About] + "."
	var rivals []string
	for _, rival := range s.Others {
		if words := causes[rival].rival; words != "" {
			rivals = append(rivals, words)
		}
	}
	if len(rivals) > 0 {
		text += " It could also be " + strings.Join(rivals, ", or ") + "."
	}
	return text
}

// causeWords say what a change answers.
var causeWords = map[string]string{
	"contact made up for": "the head ball is not hit where it was aimed, and this makes up for it",
	"line brought back":   "the wing ball's line is off, likelier by the place than by the hit, but no move of the cue ball is sure enough to help, and this brings the line back",
	"place more":          "the cue ball starts too near the middle",
	"place less":          "the cue ball starts too far out",
	"contact more":        "the head ball is met too far toward the break side",
	"contact less":        "the head ball is met too far toward the far side",
	"tip more":            "the tip strikes too low",
	"tip less":            "the tip strikes too high",
	"spin more":           "side spin turns the cue ball: spin to nothing first",
	"spin less":           "side spin turns the cue ball: spin to nothing first",
	"speed more":          "the break has too little speed to open the rack",
	"speed less":          "control before power",
	"whichever":           "whichever of the likely causes it is, this should help",

	"place wants more":   "a sound stroke wants the cue ball further out here",
	"place wants less":   "a sound stroke wants the cue ball further in here",
	"contact wants more": "a sound stroke wants a hit further from the break side here",
	"contact wants less": "a sound stroke wants a hit nearer the break side here",
	"tip wants more":     "a sound stroke wants a higher tip here",
	"tip wants less":     "a sound stroke wants a lower tip here",
	"spin wants more":    "a sound stroke wants no side spin here",
	"spin wants less":    "a sound stroke wants no side spin here",
	"speed wants more":   "a sound stroke wants a little more speed here",
	"speed wants less":   "a sound stroke wants a little less speed here",
}

// notedWords say what is to be noted of a break.
var notedWords = map[string]string{
	"misses":      "what the wing ball meets first when it stays up",
	"cue path":    "how the cue ball comes to rest: back, off the head rail, on through the rack, or hit by another ball",
	"low balls":   "where the head ball and the two behind it stop",
	"past string": "how many balls cross the head string",
	"rails":       "how many balls reach a rail",
}

// tellApart asks for the one thing that tells two causes apart, or a cause from nothing
// amiss.
func (s Statement) tellApart() string {
	first, second := causes[s.Others[0]], causes[s.Others[1]]
	if first.rival == "" {
		first, second = second, first
	}
	tells := first.rival + " from " + second.rival
	if second.rival == "" {
		tells = first.sound
	}
	return "Note " + notedWords[s.About] + ": of all that could be noted it best tells " + tells + "."
}
