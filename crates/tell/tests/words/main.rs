//! The words, read back: what each step says, and what holds for whatever is said.

mod answers;
mod promises;
mod registry;
mod sentences;
mod support;
