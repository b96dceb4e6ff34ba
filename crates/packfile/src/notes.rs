//! Reading the notes for a recording, `notes/*.toml`.

use captions::Time;
use pack::{Notes, StepNote};
use toml::de::DeTable;

use crate::fault::{Fault, Move};
use crate::pack_info::keys_of;
use crate::read::{At, Reader};
use crate::source::Source;
use crate::syntax::Syntax;
use crate::{Problem, SourceFile};

/// The keys of such a file.
pub(crate) const KEYS: [&str; 7] =
    ["format", "target", "words_a_minute", "opening", "close", "questions", "steps"];

/// Nobody speaks slower or faster so that it can be understood (an estimate, no source).
const WORDS_A_MINUTE: [u64; 2] = [60, 260];

/// Reads the notes of one puzzle; what is wrong in them is left out and said.
pub fn read_notes(file: &SourceFile) -> (Notes, Vec<Problem>) {
    let source = match Source::open(file) {
        Ok(it) => it,
        Err(problem) => return (Notes::default(), vec![problem]),
    };
    let syntax = Syntax::of(source.text());
    let (mut reader, table) = Reader::new(source, &syntax);
    let mut notes = Notes::default();
    if reader.format(&table) {
        let of_puzzle = [(&crate::puzzle::KEYS[..], Move::ToPuzzleFile)];
        reader.only_keys(&table, &KEYS, "notes for a recording", &of_puzzle);
        let [least, most] = WORDS_A_MINUTE;
        notes.target = reader.line(&table, "target").and_then(|it| length(&mut reader, it));
        notes.words_a_minute = reader.count(&table, "words_a_minute", least, most).map(|it| it.value);
        notes.opening = reader.text(&table, "opening").map(|it| it.value).unwrap_or_default();
        notes.close = reader.text(&table, "close").map(|it| it.value).unwrap_or_default();
        let questions = reader.lines(&table, "questions").map(|it| it.value).unwrap_or_default();
        notes.questions = questions.into_iter().map(|it| it.value).collect();
        notes.steps = read_steps(&mut reader, &table);
    }
    (notes, reader.finish())
}

/// The notes on steps, in the order in which they stand.
fn read_steps(reader: &mut Reader<'_>, table: &DeTable<'_>) -> Vec<StepNote> {
    let Some(steps) = reader.table(table, "steps") else { return Vec::new() };
    let noted = keys_of(steps).into_iter().filter_map(|(key, _)| {
        let says = reader.text(steps, &key)?.value;
        Some(StepNote { key, says })
    });
    noted.collect()
}

/// `12:00`, as a length: minutes and seconds, more than nothing.
fn length(reader: &mut Reader<'_>, text: At<String>) -> Option<Time> {
    let digits = |it: &str| (1..=3).contains(&it.len()) && it.bytes().all(|it| it.is_ascii_digit());
    let parts = text.value.split_once(':').filter(|(minutes, seconds)| digits(minutes) && seconds.len() == 2);
    let read = parts.filter(|it| digits(it.1)).and_then(|(minutes, seconds)| {
        let (minutes, seconds): (u64, u64) = (minutes.parse().ok()?, seconds.parse().ok()?);
        (seconds < 60 && minutes + seconds > 0).then(|| Time::seconds(60 * minutes + seconds))
    });
    if read.is_none() {
        reader.note(text.range, Fault::NotALength { found: text.value });
    }
    read
}
