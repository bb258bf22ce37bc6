// Package planner answers one question: what does a person do in the studio, and
// what becomes of the library when she does it?
//
// Studio is the front door for the window and for the verbs: each action of a
// person is one method and one act in the library, with a plain sentence. Long
// work (FindFabric, WhatCanItMake) only reads; it reports results as they come and
// stops when its context ends. The rules themselves are elsewhere: what cloth
// must explain in stash, whether cloth is enough in planner/match, what strips an
// edge takes in planner/binding.
//
// The package must not know SQL, files, windows, clocks or randomness: a Store is
// given, times and IDs are passed in.
//
// Open studio.go first, then store.go.
package planner
