//go:build race

package db_test

// kills in all are fewer with the race detector, under which a program takes long to start;
// make figures has all of them.
const kills = 104
