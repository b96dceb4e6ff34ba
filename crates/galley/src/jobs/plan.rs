//! `galley plan`: what to say in a recording, how long it takes, and what to look out for.

use std::fmt::Write;
use std::io::Write as _;
use std::path::{Path, PathBuf};

use captions::Time;
use rehearse::{Plan, Setting};
use study::Study;

use crate::each::Each;
use crate::job::With;
use crate::json;
use crate::load::{NOTES, cannot_write, root_of, shown, write_file};
use crate::outcome::{Failure, Outcome};
use crate::print;
use crate::recordings::Recordings;
use crate::screen::Screen;
use crate::studies::{Depth, Found};

/// The command.
#[derive(Debug)]
pub(crate) struct PlanRecording {
    /// What to plan.
    pub(crate) each: Each,
    /// The most of one recording, where the walkthrough is to be divided.
    pub(crate) divide: Option<Time>,
    /// Where to write the cue sheet.
    pub(crate) sheet: Option<PathBuf>,
    /// Whether to start a file for notes.
    pub(crate) write: bool,
}

impl PlanRecording {
    /// Tells the plan. A sealed puzzle is refused, which is a trouble of the pack.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        let mut found = self.each.find(Depth::Walkthrough, with)?.refusing_sealed("its plan", |_| true);
        let recordings = Recordings::read(&self.each.target.path, found.inner_mut())?;
        let mut note = match self.write {
            true => self.start_notes(&recordings, found.inner())?,
            false => String::new(),
        };
        if let Some(path) = &self.sheet {
            note += &self.write_sheet(path, &recordings, found.inner())?;
        }
        let outcome = found.outcome(
            with,
            |it| {
                let (setting, plan) = planned(&recordings, found.inner(), it)?;
                Some(in_words(&setting, &plan, self.divide, with.stdout))
            },
            |it| {
                let plan = it.and_then(|it| planned(&recordings, found.inner(), it)).map(|it| it.1);
                json::Planned { plan: plan.map(|it| document(&it, self.divide)) }
            },
        );
        Ok(Outcome { note: if with.is_json { String::new() } else { note }, ..outcome })
    }

    /// Writes the cue sheet of the one puzzle that is meant.
    fn write_sheet(&self, path: &Path, recordings: &Recordings, found: &Found) -> Result<String, Failure> {
        let mut studies = found.studies();
        let (Some(study), None) = (studies.next(), studies.next()) else {
            return Err(Failure::new("a cue sheet is of one puzzle", "name the puzzle after the pack"));
        };
        let Some((setting, plan)) = planned(recordings, found, study) else { return Ok(String::new()) };
        let ending = path.extension().map(|it| it.to_string_lossy().to_ascii_lowercase());
        let bytes = match ending.as_deref() {
            Some("html") => cue::on_screen(&setting, &plan).into_bytes(),
            Some("pdf") => cue::in_print(&setting, &plan)
                .map_err(|it| Failure::new(it, "this is a fault of Galley's: send the pack to its makers"))?,
            _ => {
                let message = format!("{} is to be neither .pdf nor .html", shown(path));
                return Err(Failure::new(message, "name a file that ends in .pdf or .html"));
            }
        };
        write_file(path, &bytes)?;
        Ok(format!("wrote {}\n", print::visible(&path.to_string_lossy())))
    }

    /// Writes a file for the notes of each puzzle that has none yet.
    fn start_notes(&self, recordings: &Recordings, found: &Found) -> Result<String, Failure> {
        let root = root_of(&self.each.target.path);
        if !root.is_dir() {
            let message = format!("{} is one puzzle, and notes belong to a pack", shown(root));
            return Err(Failure::new(message, "name the pack's folder and the puzzle"));
        }
        let mut said = String::new();
        for study in found.studies() {
            let Some((_, plan)) = planned(recordings, found, study) else { continue };
            let path = root.join(NOTES).join(format!("{}.toml", study.entry().id));
            let shown_path = print::visible(&path.to_string_lossy());
            said += &match started(&path, &notes(&plan))? {
                true => format!("wrote {shown_path}\n"),
                false => format!("left {shown_path} as it is\n"),
            };
        }
        Ok(said)
    }
}

/// The setting of a puzzle and its plan; none if it is sealed or has no walkthrough.
fn planned<'a>(recordings: &Recordings, found: &'a Found, study: &'a Study) -> Option<(Setting<'a>, Plan)> {
    let setting = recordings.setting(found, study)?;
    let plan = Plan::new(&setting);
    Some((setting, plan))
}

/// Writes a new file; whether there was none before.
fn started(path: &Path, text: &str) -> Result<bool, Failure> {
    let folder = path.parent().unwrap_or(Path::new("."));
    std::fs::create_dir_all(folder).map_err(|it| cannot_write(folder, &it))?;
    let written = tempfile::NamedTempFile::new_in(folder).and_then(|mut file| {
        file.write_all(text.as_bytes())?;
        match file.persist_noclobber(path) {
            Ok(_) => Ok(true),
            Err(it) if it.error.kind() == std::io::ErrorKind::AlreadyExists => Ok(false),
            Err(it) => Err(it.error),
        }
    });
    written.map_err(|it| cannot_write(path, &it))
}

/// A file of notes with nothing noted: a remark for each key and each step.
fn notes(plan: &Plan) -> String {
    let mut text = String::from(
        "format = 1\n\n# Take away the # before what you want to say.\n\n# target = \"12:00\"\n\
         # words_a_minute = 150\n# opening = \"\"\n# close = \"\"\n# questions = [\"\"]\n\n[steps]\n",
    );
    for it in plan.script.cues() {
        // Keys hold letters, digits and plain signs only.
        _ = writeln!(text, "# \"{}\" = \"\"", it.key);
    }
    text
}

/// The plan in words.
fn in_words(setting: &Setting, plan: &Plan, divide: Option<Time>, screen: Screen) -> String {
    let entry = setting.study().entry();
    let script = &plan.script;
    let mut text = format!("{}, by {}\n", entry.title, entry.setter);
    let total = script.total().clock();
    let basis = match plan.pace.n_steps {
        0 => "estimated".to_owned(),
        n => format!("your own pace, from {n} steps"),
    };
    text += &print::folded(
        &format!("about {total} to speak, at {} words a minute ({basis})", plan.pace.words_a_minute),
        screen,
    );
    text += "\n";
    let mut table = print::table(&["part", "starts", "takes"], screen);
    table.add_row(["Credit and rules".to_owned(), Time(0).clock(), script.opening.clock()]);
    for it in &script.passages {
        table.add_row([it.title.clone(), it.starts.clock(), it.takes.clock()]);
    }
    table.add_row(["Close".to_owned(), script.closes().clock(), script.closing.clock()]);
    text += &print::drawn(&table);
    for (heading, lines) in sections(plan, divide) {
        if !lines.is_empty() {
            text += &format!("\n{heading}\n");
            text.extend(lines.iter().map(|it| print::folded(&format!("- {it}"), screen)));
        }
    }
    text
}

/// What there is to have in mind, under headings.
fn sections(plan: &Plan, divide: Option<Time>) -> Vec<(String, Vec<String>)> {
    let name = |it| tell::technique_name(it);
    let new = plan.introductions.iter().map(|it| {
        let figures: String = it.figures.iter().map(|it| format!(" {it}.")).collect();
        format!("{}, first at step {}. {}{figures}", name(it.technique), it.step.number(), it.says)
    });
    let taught = plan.taught.iter().map(|it| match &it.by {
        Some(title) => format!("{}, in {}", name(it.technique), print::visible(title)),
        None => format!("{}, known from the start", name(it.technique)),
    });
    let asked = plan.questions.iter().map(|it| match it.step {
        Some(step) => format!("{} (before step {})", print::visible(&it.asks), step.number()),
        None => print::visible(&it.asks),
    });
    let stumbles = plan.stumbles.iter().map(|it| format!("step {}: {}", it.step.number(), it.why));
    let noted = plan
        .script
        .cues()
        .filter_map(|it| Some(format!("step {}: {}", it.step.number(), print::visible(it.note.as_ref()?))));
    let orphans =
        plan.orphans.iter().map(|it| format!("{}: {}", print::visible(&it.key), print::visible(&it.says)));
    let (shorter, over) = plan.shortened();
    let steps =
        |it: &[trail::StepId]| tell::list(&it.iter().map(|it| it.number().to_string()).collect::<Vec<_>>());
    let mut shorter: Vec<String> = (shorter.iter())
        .map(|it| format!("say steps {} together; that saves {}", steps(&it.steps), it.saves.clock()))
        .collect();
    if over > Time(0) {
        shorter.push(format!("it is {} too long even then", over.clock()));
    }
    let parts = divide.map(|it| plan.parts(it)).unwrap_or_default();
    let parts = parts.iter().map(|it| {
        let passages = &plan.script.passages[it.passages.0..it.passages.1];
        let (first, last) = (&passages[0].title, &passages[passages.len() - 1].title);
        let which = if passages.len() == 1 { first.clone() } else { format!("{first} to {last}") };
        format!("{which}, {}", it.takes.clock())
    });
    let target = plan.target.map_or(String::new(), |it| format!("To keep to {}", it.clock()));
    vec![
        ("New here".to_owned(), new.collect()),
        ("Taught before".to_owned(), taught.collect()),
        ("To ask".to_owned(), asked.collect()),
        ("Where viewers may stumble".to_owned(), stumbles.collect()),
        ("Your notes".to_owned(), noted.collect()),
        ("Your notes on steps that are no longer made".to_owned(), orphans.collect()),
        (target, shorter),
        ("In parts".to_owned(), parts.collect()),
    ]
}

fn document(plan: &Plan, divide: Option<Time>) -> json::RecordingPlan {
    let (shorter, over) = plan.shortened();
    let numbers = |it: &[trail::StepId]| it.iter().map(|it| it.number()).collect();
    let passages = plan.script.passages.iter().map(|it| json::PlannedPassage {
        title: it.title.clone(),
        starts: it.starts.as_seconds(),
        takes: it.takes.as_seconds(),
        steps: it.cues.iter().map(cue).collect(),
    });
    json::RecordingPlan {
        words_a_minute: plan.pace.words_a_minute,
        learned_from_steps: plan.pace.n_steps,
        total: plan.script.total().as_seconds(),
        opening: plan.script.opening_lines().map(str::to_owned).collect(),
        opening_takes: plan.script.opening.as_seconds(),
        passages: passages.collect(),
        close: plan.script.close.clone(),
        close_takes: plan.script.closing.as_seconds(),
        new: (plan.introductions.iter())
            .map(|it| json::NewHere {
                technique: it.technique.name(),
                step: it.step.number(),
                says: it.says.clone(),
                figures: it.figures.clone(),
            })
            .collect(),
        taught: (plan.taught.iter())
            .map(|it| json::TaughtBefore { technique: it.technique.name(), by: it.by.clone() })
            .collect(),
        questions: (plan.questions.iter())
            .map(|it| json::Question { step: it.step.map(|it| it.number()), asks: it.asks.clone() })
            .collect(),
        stumbles: (plan.stumbles.iter())
            .map(|it| json::Stumble { step: it.step.number(), why: it.why.clone() })
            .collect(),
        orphaned_notes: (plan.orphans.iter())
            .map(|it| json::OrphanedNote { key: it.key.clone(), says: it.says.clone() })
            .collect(),
        target: plan.target.map(Time::as_seconds),
        say_together: (shorter.iter())
            .map(|it| json::SayTogether { steps: numbers(&it.steps), saves: it.saves.as_seconds() })
            .collect(),
        over: over.as_seconds(),
        parts: (divide.map(|it| plan.parts(it)).unwrap_or_default().iter())
            .map(|it| json::RecordingPart {
                passages: [it.passages.0 + 1, it.passages.1],
                takes: it.takes.as_seconds(),
            })
            .collect(),
    }
}

fn cue(it: &rehearse::Cue) -> json::PlannedStep {
    json::PlannedStep {
        step: it.step.number(),
        key: it.key.clone(),
        says: it.says.clone(),
        takes: it.takes.as_seconds(),
        note: it.note.clone(),
    }
}
