//! Comparison of `prove` with CaDiCaL, a general SAT solver in C++.
//!
//! It has no code of its own, only tests: `cargo test -p checks`. The puzzles and their clauses are those
//! with which `prove` tests itself against another solver (`crates/prove/tests/agreement`), from other
//! seeds. It stands outside the workspace's default members, because it needs a C++ compiler and about a
//! minute to build; `.ci/run` runs it.
