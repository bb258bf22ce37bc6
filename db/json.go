package db

import (
	"database/sql"
	"encoding/json"
	"fmt"
)

// jsonOrNull returns a list as JSON, or NULL when it is empty.
func jsonOrNull[T any](list []T) (any, error) {
	if len(list) == 0 {
		return nil, nil
	}
	b, err := json.Marshal(list)
	return string(b), err
}

// fromJSON reads a list that jsonOrNull wrote.
func fromJSON[T any](s sql.NullString, into *[]T) error {
	if !s.Valid {
		return nil
	}
	if err := json.Unmarshal([]byte(s.String), into); err != nil {
		return fmt.Errorf("reading a list in the library: %w", err)
	}
	return nil
}
