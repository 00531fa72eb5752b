package drill

// Targets are the shares of breaks that count as good, 0 to 1.
type Targets struct {
	Wing   float64 // the wing ball in its corner
	Window float64 // the cue ball in the window
	// Shot is a shot on the lowest ball, RanOut the table run from the break; 0 when
	// the drill does not ask for it.
	Shot, RanOut float64
}

// TargetKind is one of the targets: the log and the form of a drill are made from
// the list of them.
type TargetKind struct {
	// Name is what a break log calls it; the form's field is "target_" and the name.
	Name string
	// Optional says that a drill need not ask for it.
	Optional bool
	// Label and Hint ask how many of ten breaks.
	Label, Hint string
	// Of is where it is kept.
	Of func(*Targets) *float64
}

// TargetKinds lists the targets, in the order in which they are asked for.
func TargetKinds() []TargetKind { return targetKinds }

var targetKinds = []TargetKind{
	{
		Name: "wing", Label: "Wing ball made, of ten breaks",
		Hint: "About half the breaks is good on a 9-foot table, more on smaller ones.",
		Of:   func(t *Targets) *float64 { return &t.Wing },
	},
	{
		Name: "window", Label: "Cue ball in the window, of ten breaks",
		Hint: "Scratches count as outside.",
		Of:   func(t *Targets) *float64 { return &t.Window },
	},
	{
		Name: "shot", Optional: true, Label: "An open shot on the lowest ball, of ten breaks",
		Hint: "May stay empty. With it, the page at the table asks where the lowest balls lie.",
		Of:   func(t *Targets) *float64 { return &t.Shot },
	},
	{
		Name: "ran_out", Optional: true, Label: "Table run out, of ten breaks",
		Hint: "May stay empty.",
		Of:   func(t *Targets) *float64 { return &t.RanOut },
	},
}

// Field is the form's field for it.
func (k TargetKind) Field() string { return "target_" + k.Name }

func (t Targets) addProblems(p *Problems) {
	for _, kind := range targetKinds {
		share := *kind.Of(&t)
		switch {
		case share > 0 && share <= 1, kind.Optional && share == 0:
		case kind.Optional:
			p.Add(kind.Field(), "a goal is some of ten breaks, at most 10; empty asks for none")
		default:
			p.Add(kind.Field(), "a goal is some of ten breaks, at most 10")
		}
	}
}

// WatchLeave reports whether the drill is also about what a break leaves.
func (t Targets) WatchLeave() bool { return t.Shot > 0 || t.RanOut > 0 }
