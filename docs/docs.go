// Package docs hands the glossary to the pages, so that there is one.
package docs

import _ "embed"

// Glossary is GLOSSARY.md.
//
//go:embed GLOSSARY.md
var Glossary string
