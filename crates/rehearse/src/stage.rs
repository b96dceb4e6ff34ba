//! The stage: the page that is recorded, and the presenter's page beside it.
//!
//! What is recorded shows the board and nothing else: large, quiet, with the title or the rules when they are called.
//! The presenter's page, in a second window, has the words, the clock and what the plan says of it all. Both do the same
//! with the same keys and keep each other in step by themselves, so that either may be closed and opened again; how is
//! in the scripts (`stage/`, whose entries are `stage.js` and `presenter.js`). They work from a folder, from any host and
//! without a network.
//!
//! Left out: recording itself, which is for a recorder of the presenter's choice; what comes of the log that the pages
//! keep (`captions` has the times). Without their scripts the pages have the words of the opening and no more.

mod frame;
mod opening;
mod plan;

use std::collections::BTreeMap;

use pack::{Entry, PuzzleId};
use trail::TechniqueId;

use crate::{Plan, Setting};

/// Files, by their paths within the folder of the stages.
pub type StageFiles = BTreeMap<String, Vec<u8>>;

/// The two pages of a puzzle. They need [`stage_shared`] beside them. Equal settings give equal bytes.
pub fn stage(setting: &Setting) -> StageFiles {
    let Setting { study, account, .. } = setting;
    let Some(solution) = study.opened().and_then(|it| it.solution) else { return StageFiles::new() };
    let plan = Plan::new(setting);
    let practises: Vec<TechniqueId> = reason::by_ease(account.techniques().iter().copied());
    let entry = study.entry();
    let on = On {
        entry,
        pack_title: &setting.pack_title,
        puzzle: site::puzzle_data(entry, solution, &taught(setting), &practises),
        data: plan::data(setting, &plan),
        plan: &plan,
    };
    StageFiles::from([
        (stage_path(&entry.id), frame::stage(&on).into_bytes()),
        (presenter_path(&entry.id), frame::presenter(&on).into_bytes()),
    ])
}

/// What the pages of all puzzles share: styles, scripts and the engine that watches with the plan.
pub fn stage_shared() -> StageFiles {
    StageFiles::from([
        (frame::STAGE_STYLE_PATH.to_owned(), frame::stage_style().into_bytes()),
        (frame::PRESENTER_STYLE_PATH.to_owned(), frame::presenter_style().into_bytes()),
        (frame::STAGE_SCRIPT_PATH.to_owned(), include_bytes!("../stage-built/stage.js").to_vec()),
        (frame::PRESENTER_SCRIPT_PATH.to_owned(), include_bytes!("../stage-built/presenter.js").to_vec()),
        (frame::ENGINE_PATH.to_owned(), site::engine_script()),
    ])
}

/// Where the page is that is recorded.
pub fn stage_path(id: &PuzzleId) -> String {
    format!("{id}.html")
}

/// Where the presenter's page is. No id has a dot, so it is never another puzzle's stage.
pub fn presenter_path(id: &PuzzleId) -> String {
    format!("{id}.presenter.html")
}

/// Everything that both pages are made of.
struct On<'a> {
    entry: &'a Entry,
    pack_title: &'a str,
    plan: &'a Plan,
    /// JSON that can stand in a script element, as is the plan's data.
    puzzle: String,
    data: String,
}

/// What a viewer of this place knows by the end: for nobody in particular, what the walkthrough uses.
fn taught(setting: &Setting) -> Vec<TechniqueId> {
    let known = setting.study.known().into_iter().flat_map(|it| it.techniques().map(reason::Technique::id));
    let all = known.chain(setting.account.techniques().iter().copied());
    let mut taught = reason::by_ease(all.filter(|it| reason::technique(*it).is_some()));
    taught.dedup();
    taught
}
