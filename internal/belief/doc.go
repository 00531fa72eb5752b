// Package belief holds what is believed of one student's hands on one kind of
// table, and what each change of the setup would bring.
//
// A student is a cloud of possible hands (Hand): how what happens differs from
// what was told (contact, tip, side spin, speed), where this table wants the
// cue ball, how steady the stroke is and how the balls stand in the rack. Each
// has a weight. Every recorded fact of every break moves the weights once, by
// what package response says such a stroke would show; sets under other setups
// count through the same hands. No model is a table, so the evidence is
// tempered and says only so much: see temper and ownTable. Of a student judged alone it is
// weighed, too, whether balls hand on a blow otherwise than is computed (instantTable).
// What other students' breaks showed alike (Shown) is what their tables give, and no
// student's hands: how these play, as far as the model knows of tables (characterBelief),
// and how they differ from all it knows (departure). Both are kept as drill.TablesPlay, in
// whole numbers, so that what was said once can be said again.
//
// It is deterministic: the cloud is a fixed sequence of low discrepancy and no
// random source is used. Everything is in the frame of a break from the left.
//
// Units: inches, miles an hour, fractions of the ball's radius; worth as
// Weights has it, a break.
package belief
