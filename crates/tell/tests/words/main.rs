//! The words, read back: what each step says, and what holds for whatever is said.

mod answers;
mod corpus;
mod demo;
mod earlier;
mod guide;
mod promises;
mod reading;
mod registry;
mod repairs;
mod sentences;
mod support;
mod titles;
mod voices;

// Puzzles from a seed, the same that `reason` is tried on.
#[path = "../../../reason/tests/reasoning/support/seeded.rs"]
#[allow(dead_code)] // not all of it is used here
mod seeded;

// The cases of techniques, as `reason` reads them.
#[path = "../../../reason/tests/reasoning/support/case_file.rs"]
#[allow(dead_code)] // not all of it is used here
mod case_file;
#[path = "../../../reason/tests/reasoning/support/shorthand.rs"]
#[allow(dead_code)] // not all of it is used here
mod shorthand;
