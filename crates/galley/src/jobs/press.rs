//! `galley press`: the whole job, and the report.

use std::path::PathBuf;

use super::table;
use crate::folder::OutFolder;
use crate::job::With;
use crate::json;
use crate::outcome::{Failure, Outcome};
use crate::studies::{Found, Target};

/// The file that is written.
const REPORT: &str = "report.html";

/// The command.
#[derive(Debug)]
pub(crate) struct Press {
    /// The pack.
    pub(crate) target: Target,
    /// The folder to write.
    pub(crate) out: PathBuf,
}

impl Press {
    /// Reads, proves, explains, grades and orders the pack, and writes its report. A pack in which no
    /// puzzle can be read has none.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let out = OutFolder::claim(&self.out)?;
        let found = self.target.study(with)?;
        let written = match found.pack.studies().is_empty() {
            true => Vec::new(),
            false => {
                let report = report::report(&found.pack, &found.problems_of_files, &found.unreadable);
                with.stop.check()?;
                out.replace(&[(REPORT, report)])?
            }
        };
        Ok(Outcome {
            problems: found.problems(with),
            note: note(&written, with),
            has_errors: found.has_errors(),
            result: result(&found, written, with),
        })
    }
}

fn result(found: &Found, written: Vec<String>, with: &With) -> String {
    match with.is_json {
        true => json::text(&json::Pressed { table: table::document(found), written }),
        false => table::in_words(found, with.stdout),
    }
}

fn note(written: &[String], with: &With) -> String {
    match written {
        _ if with.is_json => String::new(),
        [] => "no puzzle could be read, so no report was written\n".to_owned(),
        written => format!("wrote {}\n", written.join(" and ")),
    }
}
