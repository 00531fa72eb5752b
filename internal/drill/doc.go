// Package drill holds the nouns of the job and what makes them valid: Setup,
// Drill, Break, Set and Stint. It knows what was asked for, what was seen and what
// may be pooled; it refuses to judge it.
//
// A coach writes a setup for one side of the table; the other side is its
// mirror image, exactly. Ranges of the setup's parts are common practice, no
// source, unless a line says otherwise.
package drill
