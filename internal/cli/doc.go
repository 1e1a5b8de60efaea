// Package cli is the commands. A command reads the machine through package
// bench, shows findings in plain words or with --json in a documented shape
// (docs/JSON.md), and computes nothing itself.
package cli
