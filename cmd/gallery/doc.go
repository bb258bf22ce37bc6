// Command gallery shows every screen of the window with the demo studio in memory,
// without a library: to work on looks, and to see at a glance what a change did to them.
//
//	gallery                 the window itself
//	gallery -shots DIR      pictures of all screens, light and dark, in two sizes
//	gallery -shots DIR -only patterns -theme contrast -text 80,160 -size 1280x720 -scale 2
//	gallery -check -text 80,100,125,160 -size 1280x720
//	                        which words are cut, lie over others or have no room
//
// Open screens.go first.
package main
