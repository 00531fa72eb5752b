package store

import "context"

// ListTasksOf returns the drills that wait for a student, as their own page has them: a
// coach's of anyone, a student's their own.
func (s *Store) ListTasksOf(ctx context.Context, v Actor, id PersonID) ([]Task, error) {
	return readInTransaction(ctx, s, v, "list a student's drills", func(t *tx) ([]Task, error) {
		student, err := t.loadStudent(ctx, id)
		if err != nil {
			return nil, err
		}
		return t.loadTasks(ctx, student)
	})
}
