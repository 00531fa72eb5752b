package drill

// WatchList says what a student is asked at the table beside what every break
// needs, whether the wing ball dropped and where the cue ball went, and beside
// what a break leaves, which [Targets.WatchLeave] asks for. The zero list asks
// nothing more.
type WatchList struct {
	// WingPath is what a wing ball that stayed up met first.
	WingPath bool
	// CuePath is how a cue ball that missed the window came to rest.
	CuePath bool
	// CueOnly says that only the cue ball is watched: not even whether the wing
	// ball dropped is asked, and every break is noted as [NotWatched]. Not together
	// with WingPath.
	CueOnly bool
}

// UsualWatchList is the wing ball's path.
func UsualWatchList() WatchList { return WatchList{WingPath: true} }
