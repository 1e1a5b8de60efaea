// Package web is the pages: server-rendered, readable and usable without
// JavaScript. A page is built in three steps: a handler takes what was typed
// to the bench, a builder picks and sorts what the view found into a small
// struct, a template prints it. Nothing is computed here.
//
// Whoever comes from beyond this computer needs a pass (access.go).
//
// What it cannot detect: who sits at the browser, and a proxy on this computer
// that makes strangers look local.
package web
