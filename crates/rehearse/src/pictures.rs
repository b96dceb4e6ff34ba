//! Pictures for a recording: its cover, the board at any step, and the whole walkthrough as a silent film.

use draw::{Board, Marks, Scale};
use page::bare;
use picture::{Frame, Still, Words, film, sheet};
use trail::StepId;

use crate::Setting;

/// The cover, 1280 by 720 pixels, as PNG: the bare board beside title, setter and pack. None only if the drawing library
/// refuses a drawing of ours.
pub fn cover(setting: &Setting) -> Option<Vec<u8>> {
    let entry = setting.study.entry();
    let words = Words {
        above: bare(&setting.pack_title),
        title: bare(&entry.title),
        by: format!("Set by {}", bare(entry.credited())),
        below: String::new(),
    };
    sheet(&[&entry.puzzle], &words, Frame::COVER)
}

/// The board after a step, with what the step looks at and what it settles marked; before the first one if none is
/// named. A drawing of its own, as SVG.
pub fn board(setting: &Setting, step: Option<StepId>) -> String {
    let entry = setting.study.entry();
    let trail = setting.account.explained.walkthrough().trail();
    let (digits, marks) = match step {
        Some(step) => draw::marks_for(&entry.puzzle, trail, &[step]),
        None => (entry.puzzle.givens().clone(), Marks::default()),
    };
    let after = step.map_or(String::new(), |it| format!(", after step {}", it.number()));
    let title = format!("{}{after}", bare(&entry.title));
    draw::board(&Board {
        puzzle: &entry.puzzle,
        digits: &digits,
        marks: &marks,
        title: &title,
        scale: Scale::Large,
        coordinates: true,
    })
}

/// The board before the first step and after each, each shown for so many milliseconds.
pub fn stills(setting: &Setting, milliseconds: u16) -> Vec<Still> {
    let trail = setting.account.explained.walkthrough().trail();
    let steps = std::iter::once(None).chain(trail.steps().map(|it| Some(it.0)));
    steps.map(|it| Still { svg: board(setting, it), milliseconds }).collect()
}

/// The walkthrough as a silent film (APNG), so many pixels wide. None if it would be too large to be drawn.
pub fn silent_film(setting: &Setting, width: u32, milliseconds: u16) -> Option<Vec<u8>> {
    film(&stills(setting, milliseconds), width)
}
