//! Techniques by cases in text files, the registry, and whole puzzles from a seed.

mod cases;
mod corpus;
mod registry;
mod spare;
mod support;
