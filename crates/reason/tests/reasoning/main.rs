//! Techniques by cases in text files, the registry, and whole puzzles from a seed.

mod arguments;
mod cases;
mod corpus;
mod follow;
mod layouts;
mod mutations;
mod registry;
mod spare;
mod support;
