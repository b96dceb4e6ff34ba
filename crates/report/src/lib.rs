//! The editor's report: one page on a whole pack, to read on a screen or on paper.
//!
//! Everything that was found out about the pack is here: what is wrong with its files, what each
//! puzzle takes and teaches, and for each puzzle its proof, its walkthrough and the reasons for its
//! place. The page is self-contained (no script, nothing fetched) and is made in the order in which it
//! is read: head, problems, table, coverage, marks, puzzles.
//!
//! Every text that comes from a file goes through `page`, so that it can neither become markup nor turn
//! the direction of what stands beside it. What would spoil a sealed puzzle is never asked for; see
//! `contents` for what the puzzles beside it must not give away.
//!
//! Left out: wording of steps and techniques (`tell`), pictures and their colours (`draw`), and where
//! the page is written to (`galley`). The other sentences of the page are in `words`.

mod contents;
mod coverage;
mod head;
mod key;
mod minutes;
mod problems;
mod puzzle;
mod soundness;
mod table;
mod walkthrough;
mod words;

use std::collections::BTreeMap;

use maud::{DOCTYPE, PreEscaped, html};
use pack::PuzzleId;
use packfile::{Problem, Unreadable};
use study::{StudiedPack, Worth};
use trail::TechniqueId;

use crate::contents::Contents;

/// The rules of the page, beside those that all pages share.
const STYLE: &str = include_str!("report.css");

/// Nothing may run and nothing may be fetched, whatever a file of the pack holds.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'";

/// What techniques of a puzzle's walkthrough are worth, easiest first; of puzzles and techniques that are not in it nothing
/// is said.
pub type Worths = BTreeMap<PuzzleId, Vec<(TechniqueId, Worth)>>;

/// The report on a pack, as one HTML page.
///
/// `problems` and `unreadable` are what reading the pack's files gave beside its puzzles. `worths` takes long to find out
/// ([`study::Study::worth`]) and is for the caller to spread over cores. Equal inputs give equal bytes.
pub fn report(
    pack: &StudiedPack,
    worths: &Worths,
    problems: &[Problem],
    unreadable: &[Unreadable],
) -> String {
    let contents = &Contents::new(pack, worths);
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta http-equiv="Content-Security-Policy" content=(POLICY);
                title { (head::window_title(pack.info())) }
                style { (PreEscaped(page::style())) (PreEscaped(STYLE)) }
            }
            body {
                a.skip href="#report" { "Skip to the report" }
                (head::masthead(contents, problems, unreadable))
                main #report tabindex="-1" {
                    (problems::section(problems, unreadable))
                    (table::section(contents))
                    (coverage::section(contents))
                    (key::section(contents))
                    @for at in 0..pack.studies().len() {
                        (puzzle::section(contents, at))
                    }
                }
            }
        }
    };
    page.into_string()
}
