// Package web is the pages: server-rendered, readable and usable without
// JavaScript. A page is built in three steps: a handler takes what was typed
// to the bench, a builder picks and sorts what the view found into a small
// struct, a template prints it. Nothing is computed here.
//
// What it cannot detect: who sits at the browser. Pairing and TLS for use
// beyond this machine belong to the command that serves it.
package web
