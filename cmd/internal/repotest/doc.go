// Package repotest holds the repository to its own rules: who may import whom,
// a comment on every package, documents whose commands run as shown, and no
// traces of the machine that it was written on. It has tests only.
package repotest
