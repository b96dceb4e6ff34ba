//! The desk: the editor's workplace, a pack served to a browser on the same machine.
//!
//! The pack's folder is the truth for puzzles (`folder`); what is no puzzle is in the store (`store`). Pages are made
//! here (`pages`) and change things only through the interface under `/api/1` (`api`), which describes itself at
//! `/api/1/openapi.json`. Whatever computes does so beside the one thread that answers.
//!
//! Who may come in is looked at before anything else (`doors`). This is the only crate that knows HTTP or SQL. Pressing the
//! outputs is brought by the program (`pressing`), and done as a job (`jobs`).

mod answers;
mod api;
mod aside;
mod clock;
mod doors;
mod edit;
mod failure;
mod folder;
mod guard;
mod hindsight;
mod jobs;
mod logged;
mod message;
mod pages;
mod pressing;
mod seasonal;
mod serve;
mod setting;
mod state;
mod stops;
mod store;
mod studying;
#[cfg(test)]
mod tests;
mod token;
mod typed;
mod watch;
mod words;

pub use doors::{AccountChange, accounts};
pub use failure::Failure;
pub use jobs::Watched;
pub use pressing::{Press, Pressed, WantedPress};
pub use serve::{Settings, run, serve};
