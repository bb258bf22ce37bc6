//go:build !race

package db_test

const kills = 520 // in all
