//! What several areas need: puzzles that questions are asked about, puzzles from a seed, and claims in short form.

pub(crate) mod case_file;
pub(crate) mod known;
pub(crate) mod seeded;
pub(crate) mod shorthand;
