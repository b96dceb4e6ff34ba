//! Techniques by cases in text files, the registry, whole puzzles from a seed, and answers about them.

mod cases;
mod corpus;
mod judgements;
mod reasons;
mod registry;
mod support;
