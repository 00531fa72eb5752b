package store

import (
	"context"
	"slices"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// CardID is the id of a break card.
type CardID struct{ uuid.UUID }

// BreakCard is a student's own best-known break for one table, as a coach gave
// it to them.
//
// A coach issues it ([ErrNotAllowed] for a student); its student reads it, to other
// students it is [ErrNotFound]. Every one is kept; the newest for a table is in force.
type BreakCard struct {
	ID      CardID
	Student PersonID
	Table   Table
	Setup   drill.Setup
	// Set is the latest set that it rests on; the counts are of all breaks under
	// its setup on its table when the card was issued, WingMade of the Watched.
	Set                                 SetID
	Breaks, Watched, WingMade, InWindow int
	IssuedBy                            PersonID
	Issued                              time.Time
}

// IssueCard gives a student a card with the setup of a set: the one they stand
// on now, with all they broke under it on that table. The same id, or the same setup on the
// same table while that card is in force, changes nothing. [ErrNotFound] for a
// set that is open or has no break. Coaches only.
func (s *Store) IssueCard(ctx context.Context, v Actor, id CardID, set SetID) error {
	return s.changeAsCoach(ctx, v, "issue the card", func(t *tx) error {
		row, err := t.GetStintOfSet(ctx, set.UUID)
		if err != nil {
			return err
		}
		x := row.Stint
		if err := t.LockUntilCommit(ctx, x.StudentID.String()); err != nil {
			return err
		}
		inForce, err := t.Queries.ListCards(ctx, x.StudentID)
		if err != nil {
			return err
		}
		for _, c := range inForce {
			if c.BreakCard.TableID == x.TableID && c.BreakCard.SetupID == x.SetupID {
				return nil
			}
		}
		n, err := t.SumStintsUnderSetup(ctx, x.ID)
		if err != nil {
			return err
		}
		_, err = t.InsertCard(ctx, query.InsertCardParams{
			ClubID: v.Club.UUID, ID: idOrNew(id).UUID, StudentID: x.StudentID, TableID: x.TableID, SetupID: x.SetupID,
			SetID: set.UUID, Breaks: n.Breaks, Watched: n.Watched, WingMade: n.WingMade, InWindow: n.InWindow, IssuedBy: v.Person.UUID,
		})
		return err
	})
}

// WithdrawCard takes back a card that was issued by mistake; one that is not there is
// withdrawn already. Coaches only.
func (s *Store) WithdrawCard(ctx context.Context, v Actor, id CardID, student PersonID) error {
	return s.changeAsCoach(ctx, v, "withdraw the card", func(t *tx) error {
		_, err := t.DeleteCard(ctx, query.DeleteCardParams{ID: id.UUID, StudentID: student.UUID})
		return err
	})
}

// ListCards returns the cards of a student that are in force, one a table, the
// newest first. A coach's of anyone, a student's their own.
func (s *Store) ListCards(ctx context.Context, v Actor, student PersonID) ([]BreakCard, error) {
	return readInTransaction(ctx, s, v, "list the break cards", func(t *tx) ([]BreakCard, error) {
		if _, err := t.loadStudent(ctx, student); err != nil {
			return nil, err
		}
		return t.loadCards(ctx, student)
	})
}

func (t *tx) loadCards(ctx context.Context, student PersonID) ([]BreakCard, error) {
	rows, err := t.Queries.ListCards(ctx, student.UUID)
	if err != nil {
		return nil, err
	}
	cards := make([]BreakCard, len(rows))
	for i, r := range rows {
		c := r.BreakCard
		cards[i] = BreakCard{
			ID: CardID{c.ID}, Student: student, Table: tableFromRow(r.PoolTable), Set: SetID{c.SetID},
			Breaks: c.Breaks, Watched: c.Watched, WingMade: c.WingMade, InWindow: c.InWindow,
			IssuedBy: PersonID{c.IssuedBy}, Issued: c.IssuedAt.UTC(),
		}
		if cards[i].Setup, err = setupFromRow(r.Setup); err != nil {
			return nil, err
		}
	}
	slices.SortStableFunc(cards, func(a, b BreakCard) int { return b.Issued.Compare(a.Issued) })
	return cards, nil
}
