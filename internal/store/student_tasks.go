package store

import "context"

// ListTasksOf returns the drills that wait for a student of the club, as their own page
// has them. Coaches only.
func (s *Store) ListTasksOf(ctx context.Context, v Actor, id PersonID) ([]Task, error) {
	return readInTransaction(ctx, s, v, "list a student's drills", func(t *tx) ([]Task, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		student, err := t.loadStudent(ctx, id)
		if err != nil {
			return nil, err
		}
		return t.loadTasks(ctx, student)
	})
}
