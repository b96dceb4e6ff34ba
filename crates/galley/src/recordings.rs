//! What a pack has beside its puzzles for recording them: notes, logs of rehearsals, test solves, and the template of the
//! text under a recording.

use std::collections::BTreeMap;
use std::path::Path;

use grade::Timed;
use pack::{Notes, PuzzleId};
use packfile::{LoggedRehearsal, Problem, SourceFile, read_notes, read_rehearsal};
use rehearse::{Pace, Plan, Script, Setting, TEMPLATE, TemplateError, reached, stops};
use study::Study;

use crate::load::{NOTES, REHEARSALS, UNDER, load_folder, read_if_there, root_of};
use crate::outcome::Failure;
use crate::print;
use crate::solves::Solves;
use crate::studies::Found;

/// All of it.
#[derive(Debug)]
pub(crate) struct Recordings {
    notes: BTreeMap<String, Notes>,
    logs: Vec<LoggedRehearsal>,
    timed: BTreeMap<String, Vec<Timed>>,
    pace: Option<Pace>,
    /// The template, the pack's own or the usual one.
    pub(crate) template: String,
    is_pack: bool,
}

impl Recordings {
    /// Reads it from the pack that was found at that path; of a puzzle file alone there is nothing. What is wrong with the
    /// files is added to what was found.
    ///
    /// # Errors
    ///
    /// If a file cannot be read.
    pub(crate) fn read(path: &Path, found: &mut Found) -> Result<Recordings, Failure> {
        let root = root_of(path);
        let mut recordings = Recordings {
            notes: BTreeMap::new(),
            logs: Vec::new(),
            timed: BTreeMap::new(),
            pace: None,
            template: TEMPLATE.to_owned(),
            is_pack: root.is_dir(),
        };
        if !recordings.is_pack {
            return Ok(recordings);
        }
        let (notes, mut problems) = load_folder(root, NOTES, "toml")?;
        for file in &notes {
            let (read, of_file) = read_notes(file);
            problems.extend(of_file);
            recordings.notes.insert(stem(file), read);
        }
        let (logs, of_folder) = load_folder(root, REHEARSALS, "json")?;
        problems.extend(of_folder);
        for file in &logs {
            match held(file, found) {
                Ok(it) => recordings.logs.extend(it),
                Err(problem) => problems.push(problem),
            }
        }
        // What is wrong with solves is for `calibrate` to say.
        let solves = Solves::read(root, found)?;
        let of_use = solves.logged.into_iter().filter(|it| it.1);
        for ((logged, _), timed) in of_use.zip(solves.timed) {
            recordings.timed.entry(logged.solve.puzzle).or_default().push(timed);
        }
        if let Some(it) = read_if_there(root, UNDER)? {
            recordings.template = String::from_utf8_lossy(&it.bytes).into_owned();
        }
        found.add(notes.into_iter().chain(logs).collect(), problems);
        recordings.pace = recordings.learned(found);
        Ok(recordings)
    }

    /// The setting in which a puzzle is recorded; none if it is sealed or has no walkthrough.
    pub(crate) fn setting<'a>(&self, found: &'a Found, study: &'a Study) -> Option<Setting<'a>> {
        let id = study.entry().id.as_str();
        let setting = self.plain_setting(found, study)?;
        let account = study.opened()?.account?;
        let trail = account.explained.walkthrough().trail();
        let setting = match self.timed.get(id) {
            Some(timed) => setting.tested(stops(trail, &account.estimate, timed)),
            None => setting,
        };
        let setting = match self.pace {
            Some(pace) => setting.at_pace(pace),
            None => setting,
        };
        Some(setting.noted(self.notes.get(id).cloned().unwrap_or_default()))
    }

    fn plain_setting<'a>(&self, found: &'a Found, study: &'a Study) -> Option<Setting<'a>> {
        match self.is_pack {
            true => Setting::in_pack(&found.pack, &study.entry().id),
            false => Setting::alone(study, ""),
        }
    }

    /// The pace at which the pack's rehearsals were spoken.
    fn learned(&self, found: &Found) -> Option<Pace> {
        let script = |id: &str| -> Option<Script> {
            let study = study(found, id)?;
            Some(Plan::new(&self.plain_setting(found, study)?).script)
        };
        let said: Vec<(Script, &LoggedRehearsal)> =
            self.logs.iter().filter_map(|it| Some((script(&it.rehearsal.puzzle)?, it))).collect();
        Pace::learned(said.iter().map(|(script, log)| (script, reached(script, &log.rehearsal))))
    }
}

/// A log, if it is of a puzzle that the pack has; one of another puzzle is kept for when that comes back.
///
/// # Errors
///
/// If it cannot be read, or the puzzle has changed since.
fn held(file: &SourceFile, found: &Found) -> Result<Option<LoggedRehearsal>, Problem> {
    let logged = read_rehearsal(file)?;
    let Some(study) = study(found, &logged.rehearsal.puzzle) else { return Ok(None) };
    logged.check(study.entry())?;
    Ok(Some(logged))
}

fn study<'a>(found: &'a Found, id: &str) -> Option<&'a Study> {
    let id = PuzzleId::new(id)?;
    found.pack.all().find(|it| it.entry().id == id)
}

/// The file's name without folder and ending.
fn stem(file: &SourceFile) -> String {
    Path::new(&file.path).file_stem().map(|it| it.to_string_lossy().into_owned()).unwrap_or_default()
}

/// The failure of a template of the pack's own.
pub(crate) fn template_failure(it: &TemplateError) -> Failure {
    let line = it.line.map_or(String::new(), |it| format!("line {it}: "));
    let message = format!("{UNDER} cannot be used: {line}{}", print::visible(&it.message));
    Failure::new(message, "see docs/format.md for the names that it may use")
}
