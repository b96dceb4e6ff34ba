//! The engine in the page: what a solver may ask of it, from what is written on the sheet.
//!
//! Text in, text out: a page gives its puzzle and its sheet as JSON and gets JSON back ([`Player`]). The answers come
//! from `reason`, their words from `tell`, their pictures from `draw`; nothing is found out here. In a browser the same
//! is called through `browser`, built by `build-engine`.

mod answers;
#[cfg(target_arch = "wasm32")]
mod browser;
mod page;
mod player;
mod sheet;

pub use page::NoPuzzle;
pub use player::Player;
pub use sheet::NoSheet;
