//! CaDiCaL, a general SAT solver in C++, as the other opinion on verdicts and counts.

#[path = "../../../crates/prove/tests/agreement/clauses.rs"]
mod clauses;
#[path = "../../../crates/prove/tests/agreement/comparison.rs"]
mod comparison;
mod counts;
#[path = "../../../crates/prove/tests/agreement/seeded.rs"]
mod seeded;
mod solver;
mod verdicts;
