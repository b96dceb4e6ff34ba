//! The text under a recording: title, rules, where to find the puzzle, chapters, techniques, credits and licence.

use captions::{Chapter, Time};
use minijinja::{Environment, UndefinedBehavior, context};
use pack::{PackInfo, TextLimits};
use page::bare;

use crate::{Script, Setting};

/// The template that is used where the pack has none of its own.
pub const TEMPLATE: &str = include_str!("under.txt");

/// What stands for the rest of a title that is too long.
const ELLIPSIS: char = '…';

/// The text under a recording.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Under {
    /// The recording's title, of one line.
    pub title: String,
    /// The text.
    pub text: String,
    /// What was left out so that it is no longer than it may be, in words.
    pub left_out: Vec<String>,
    /// How many characters it is too long even so.
    pub over: usize,
}

/// Why a template cannot be used.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TemplateError {
    /// The line, from 1, if it is known.
    pub line: Option<usize>,
    /// What is wrong there.
    pub message: String,
}

/// Fills in the template, and leaves out what is needed least until the text is short enough: techniques, then the
/// shortest chapters, then the rules.
///
/// `chapters` may be empty, where there is no recording yet. The template is in the language of
/// [minijinja](https://docs.rs/minijinja); the names it may use are those in [`TEMPLATE`]. Lengths are counted in
/// characters.
///
/// # Errors
///
/// If the template cannot be read, or uses a name that there is not.
pub fn under(
    setting: &Setting,
    script: &Script,
    info: &PackInfo,
    (chapters, total): (&[Chapter], Time),
    template: &str,
) -> Result<Under, TemplateError> {
    let mut environment = Environment::new();
    environment.set_undefined_behavior(UndefinedBehavior::Strict);
    environment.set_trim_blocks(true);
    let template = environment.template_from_str(template).map_err(error)?;
    let mut parts = Parts {
        rules: first_sentences(script),
        techniques: techniques(setting),
        chapters: chapters.to_vec(),
    };
    let render = |parts: &Parts| {
        let entry = setting.study.entry();
        let chapters = parts.chapters.iter();
        let chapters: Vec<_> =
            chapters.map(|it| context! { at => it.at.clock(), title => one_line(&it.title) }).collect();
        let filled = template.render(context! {
            title => one_line(&entry.title),
            setter => one_line(entry.credited()),
            setter_link => entry.credit.link,
            pack => one_line(&setting.pack_title),
            editor => one_line(&info.editor),
            licence => info.licence.as_deref().map(one_line),
            address => setting.address,
            pack_address => setting.pack_address,
            rules => parts.rules,
            techniques => parts.techniques,
            chapters,
        });
        filled.map(|it| tidy(&it)).map_err(error)
    };
    let most = info.text_limits.text.unwrap_or(usize::MAX);
    let mut text = render(&parts)?;
    let mut left_out: Vec<String> = Vec::new();
    while length(&text) > most {
        let Some(what) = parts.leave_out(total) else { break };
        if !left_out.contains(&what) {
            left_out.push(what);
        }
        text = render(&parts)?;
    }
    let over = length(&text).saturating_sub(most);
    Ok(Under { title: title(setting, info.text_limits), text, left_out, over })
}

/// What can be left out of the text.
struct Parts {
    rules: String,
    techniques: Vec<&'static str>,
    chapters: Vec<Chapter>,
}

impl Parts {
    /// Leaves out what is needed least, and says what that is; none if all that is left must stay.
    fn leave_out(&mut self, total: Time) -> Option<String> {
        if !self.techniques.is_empty() {
            self.techniques.clear();
            return Some("the techniques".to_owned());
        }
        // The first chapter has to be there, so a shorter list ends with it and another.
        if self.chapters.len() > 2 {
            let ends = self.chapters.iter().skip(1).map(|it| it.at).chain([total]);
            let lasts = self.chapters.iter().zip(ends).map(|(it, end)| end.since(it.at));
            let shortest = lasts.enumerate().skip(1).min_by_key(|it| it.1).map_or(1, |it| it.0);
            self.chapters.remove(shortest);
            return Some("the shortest chapters".to_owned());
        }
        if !self.chapters.is_empty() {
            self.chapters.clear();
            return Some("the chapters".to_owned());
        }
        if !self.rules.is_empty() {
            self.rules.clear();
            return Some("the rules".to_owned());
        }
        None
    }
}

/// `First light by Fern, from The lantern room`, with less of it where that is too long.
fn title(setting: &Setting, limits: TextLimits) -> String {
    let most = limits.title.unwrap_or(usize::MAX);
    let entry = setting.study.entry();
    let (title, setter, pack) =
        (one_line(&entry.title), one_line(entry.credited()), one_line(&setting.pack_title));
    let with_setter = format!("{title} by {setter}");
    let whole = if pack.is_empty() { with_setter.clone() } else { format!("{with_setter}, from {pack}") };
    let fits = |it: &&String| length(it) <= most;
    match [&whole, &with_setter, &title].into_iter().find(fits) {
        Some(it) => it.clone(),
        None => {
            let kept: String = title.chars().take(most.saturating_sub(1)).collect();
            format!("{}{ELLIPSIS}", kept.trim_end())
        }
    }
}

/// The first sentence of each rule's short form.
fn first_sentences(script: &Script) -> String {
    let first = |it: &str| match it.find(". ") {
        Some(end) => it[..=end].to_owned(),
        None => it.to_owned(),
    };
    let sentences: Vec<String> =
        script.rules.iter().map(|it| first(&it.short)).filter(|it| !it.is_empty()).collect();
    sentences.join(" ")
}

/// The names of the walkthrough's techniques, in the order in which they are first used.
fn techniques(setting: &Setting) -> Vec<&'static str> {
    let mut names: Vec<&'static str> = Vec::new();
    for (_, step) in setting.account.explained.walkthrough().trail().steps() {
        let name = tell::technique_name(step.technique());
        if !step.is_small_argument() && !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// Without what would part or turn the line.
fn one_line(text: &str) -> String {
    bare(text).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Without blanks at the ends of lines, and with no more than one blank line in a row.
fn tidy(text: &str) -> String {
    let mut lines: Vec<&str> = Vec::new();
    for line in text.lines().map(str::trim_end) {
        if !line.is_empty() || lines.last().is_some_and(|it| !it.is_empty()) {
            lines.push(line);
        }
    }
    format!("{}\n", lines.join("\n").trim_end())
}

fn length(text: &str) -> usize {
    text.chars().count()
}

fn error(it: minijinja::Error) -> TemplateError {
    let message = it.detail().map_or_else(|| it.kind().to_string(), |detail| detail.to_owned());
    TemplateError { line: it.line(), message }
}
