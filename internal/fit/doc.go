// Package fit estimates from a student's recorded breaks how their hands carry
// out what they are asked to do: how far from the contact asked for they meet the head ball
// on the average, how far from the height asked for the tip strikes, and how much
// both vary. It does so by simulation-based inference on the model of package
// breaksim: the hands that would make the model's breaks look like the
// student's.
//
// How: a Bank holds some thousands of computed breaks of one setup, each with
// another stroke. Weighting them gives, for any hands, the chance of everything
// that could be written down; with the chances of what was written down, every
// pair of hands on a grid gets its probability (importance sampling, and Bayes'
// rule). What is not known of table, cloth and rack varies through the Bank, so
// that it widens the answer instead of bending it.
//
// It knows hands, breaks and how sure it is. It refuses to prove anything: an
// Estimate is the model's guess about a student on a table that the model does
// not know, one more finding beside the counts. Where several causes explain
// the breaks about equally well, it says so (Causes).
//
// Units: inches from the contact asked for, positive to the right as the breaker
// sees it; parts of the ball's radius, positive upwards. Priors and ranges are
// assumptions without a source, in grid.go and bank_draw.go. FIT.md beside this
// file says how often the truth lies within what is said.
package fit
