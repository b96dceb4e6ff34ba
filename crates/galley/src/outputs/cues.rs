//! What a recording needs: for each puzzle a cue sheet, a cover, and the text that goes under it.

use captions::{Chapter, Time};
use rayon::prelude::*;
use rehearse::{Plan, Setting, cover, under};
use study::{StudiedPack, Study};

use super::differs;
use crate::folder::Files;
use crate::outcome::Failure;
use crate::recordings::{Recordings, template_failure};
use crate::studies::Found;

/// The files of each puzzle that has a place, is open and has a walkthrough.
pub(super) fn cues(found: &Found, recordings: &Recordings, is_printed: bool) -> Result<Files, Failure> {
    let of = |study: &Study| match recordings.setting(found, study) {
        Some(setting) => of_puzzle(&setting, &found.pack, recordings, is_printed),
        None => Ok(Files::new()),
    };
    let all: Result<Vec<Files>, Failure> = found.pack.studies().par_iter().map(of).collect();
    Ok(all?.into_iter().flatten().collect())
}

fn of_puzzle(
    setting: &Setting,
    pack: &StudiedPack,
    recordings: &Recordings,
    is_printed: bool,
) -> Result<Files, Failure> {
    let plan = Plan::new(setting);
    let entry = setting.study().entry();
    let chapters = entry.chapters.iter();
    let chapters: Vec<Chapter> =
        chapters.map(|it| Chapter { at: Time::seconds(u64::from(it.at)), title: it.title.clone() }).collect();
    // How long a recording is that is only known by its chapters nobody says: to the last of them, at least.
    let total = chapters.last().map_or(Time(0), |it| it.at);
    let text = under(setting, &plan.script, pack.info(), (&chapters, total), &recordings.template)
        .map_err(|it| template_failure(&it))?;
    let mut files = Files::new();
    let mut put =
        |ending: &str, bytes: Vec<u8>| _ = files.insert(format!("cue/{}.{ending}", entry.id), bytes);
    put("html", cue::on_screen(setting, &plan).into_bytes());
    if is_printed {
        put("pdf", cue::in_print(setting, &plan).map_err(|it| differs("cue sheet", &it))?);
    }
    put("txt", format!("{}\n\n{}", text.title, text.text).into_bytes());
    if let Some(cover) = cover(setting) {
        put("png", cover);
    }
    Ok(files)
}
