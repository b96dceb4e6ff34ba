//! Reading `pack.toml`.

use std::ops::Range;

use pack::{Erratum, Form, PackInfo, Setter, Shelf, TextLimits, Weights};
use toml::de::DeTable;
use trail::TechniqueId;

use crate::fault::{Fault, Move};
use crate::nearest::nearest;
use crate::plans::technique;
use crate::read::{At, Reader};
use crate::source::Source;
use crate::syntax::Syntax;
use crate::{Problem, SourceFile, plans, puzzle};

/// The keys of `pack.toml`.
pub(crate) const KEYS: [&str; 15] = [
    "format",
    "title",
    "editor",
    "licence",
    "base_url",
    "shelves",
    "order",
    "knows",
    "pins",
    "limits",
    "weights",
    "booklets",
    "errata",
    "text_limits",
    "setters",
];

/// A weight is at most so much: sums of a pack's costs stay far from what a number holds.
const MOST_WEIGHT: u64 = 1_000;

/// A text is at most so many characters long where its length is limited.
const MOST_CHARACTERS: u64 = 100_000;

/// A limit is at most so many minutes.
const MOST_MINUTES: u64 = 10_000;

/// The order as it is written: each item with its place.
pub(crate) type WrittenOrder = At<Vec<At<String>>>;

/// The pins as they are written: each id and its place in the pack, with where both stand.
pub(crate) type WrittenPins = Vec<(At<String>, At<u64>)>;

/// What is said of setters, as it is written: each name with where it stands.
pub(crate) type WrittenSetters = Vec<(At<String>, Setter)>;

/// What `pack.toml` says but for order and pins, and those with their places; problems are still to be
/// finished, because only the whole pack can tell whether they are right.
pub(crate) struct ReadInfo<'a> {
    pub(crate) info: PackInfo,
    pub(crate) order: Option<WrittenOrder>,
    pub(crate) pins: WrittenPins,
    pub(crate) setters: WrittenSetters,
    pub(crate) reader: Reader<'a>,
}

/// Reads `pack.toml` as far as it goes; none if it is no text at all.
pub(crate) fn read_info(file: &SourceFile) -> Result<ReadInfo<'_>, Problem> {
    let source = Source::open(file)?;
    let syntax = Syntax::of(source.text());
    let (mut reader, table) = Reader::new(source, &syntax);
    let mut info = PackInfo::default();
    let mut order = None;
    let mut pins = Vec::new();
    let mut setters = Vec::new();
    if reader.format(&table) {
        let of_puzzle = [(&puzzle::KEYS[..], Move::ToPuzzleFile), (&plans::KEYS[..], Move::ToPuzzleFile)];
        reader.only_keys(&table, &KEYS, "this file", &of_puzzle);
        let text = |it: Option<At<String>>| it.map(|it| it.value);
        info.title = text(reader.needed_line(&table, "title", "title = \"…\"")).unwrap_or_default();
        info.editor = text(reader.line(&table, "editor")).unwrap_or_default();
        info.licence = text(reader.line(&table, "licence"));
        info.base_url = reader.line(&table, "base_url").and_then(|it| address(&mut reader, it));
        info.shelves = reader.names(&table, "shelves").into_iter().map(Shelf::from).collect();
        read_limits(&mut reader, &table, &mut info.shelves);
        info.knows = read_known(&mut reader, &table);
        info.weights = read_weights(&mut reader, &table);
        info.booklets = read_booklets(&mut reader, &table);
        info.errata = read_errata(&mut reader, &table);
        info.text_limits = read_text_limits(&mut reader, &table);
        order = reader.lines(&table, "order");
        pins = read_pins(&mut reader, &table);
        setters = read_setters(&mut reader, &table);
    }
    Ok(ReadInfo { info, order, pins, setters, reader })
}

/// The techniques that solvers know; one that comes again is noted.
fn read_known(reader: &mut Reader<'_>, table: &DeTable<'_>) -> Vec<TechniqueId> {
    let mut known = Vec::new();
    for item in reader.lines(table, "knows").map(|it| it.value).unwrap_or_default() {
        let Some(id) = technique(reader, &item.value, item.range.clone()) else { continue };
        match known.contains(&id) {
            true => reader.note(item.range, Fault::ListedTwice { key: "knows", item: item.value }),
            false => known.push(id),
        }
    }
    known
}

/// The forms of the booklet; one that comes again is noted.
fn read_booklets(reader: &mut Reader<'_>, table: &DeTable<'_>) -> Vec<Form> {
    let mut forms: Vec<Form> = Vec::new();
    for item in reader.lines(table, "booklets").map(|it| it.value).unwrap_or_default() {
        match item.value.parse() {
            Err(_) => reader.note(item.range, Fault::UnknownForm { found: item.value }),
            Ok(form) if forms.contains(&form) => {
                reader.note(item.range, Fault::ListedTwice { key: "booklets", item: item.value });
            }
            Ok(form) => forms.push(form),
        }
    }
    forms
}

/// The errata, each a day and what is wrong: `2026-12-05: in "Low wick" …`.
fn read_errata(reader: &mut Reader<'_>, table: &DeTable<'_>) -> Vec<Erratum> {
    let mut errata = Vec::new();
    for item in reader.lines(table, "errata").map(|it| it.value).unwrap_or_default() {
        let parts = item.value.split_once(':').map(|(day, says)| (day.trim().parse(), says.trim()));
        match parts {
            Some((Ok(noted), says)) if !says.is_empty() => {
                errata.push(Erratum { noted, says: says.to_owned() });
            }
            _ => reader.note(item.range, Fault::NotAnErratum { found: item.value }),
        }
    }
    errata
}

/// How long the text under a recording may be. A title of fewer than ten characters says nothing.
fn read_text_limits(reader: &mut Reader<'_>, table: &DeTable<'_>) -> TextLimits {
    let Some(limits) = reader.table(table, "text_limits") else { return TextLimits::default() };
    reader.only_keys(limits, &["title", "text"], "the limits of a text", &[]);
    let mut most = |key| {
        let it = reader.count(limits, key, 10, MOST_CHARACTERS)?;
        usize::try_from(it.value).ok()
    };
    TextLimits { title: most("title"), text: most("text") }
}

/// Adds to the shelves what the table says of each.
fn read_limits(reader: &mut Reader<'_>, table: &DeTable<'_>, shelves: &mut [Shelf]) {
    let Some(limits) = reader.table(table, "limits") else { return };
    for (name, range) in keys_of(limits) {
        let Some(at) = shelves.iter().position(|it| it.name == name) else {
            let shelves: Vec<String> = shelves.iter().map(|it| it.name.clone()).collect();
            let meant = nearest(&name, shelves.iter().map(|it| &it[..])).map(str::to_owned);
            reader.note(range, Fault::UnknownShelf { found: name, meant, shelves });
            continue;
        };
        let heading = format!("limits.{name}");
        let Some(limit) = reader.table_headed(limits, &name, &heading) else { continue };
        reader.only_keys(limit, &["minutes", "hardest"], "a shelf's limits", &[]);
        let minutes = reader.count(limit, "minutes", 1, MOST_MINUTES);
        shelves[at].minutes = minutes.and_then(|it| u32::try_from(it.value).ok());
        let hardest = reader.line(limit, "hardest");
        shelves[at].hardest = hardest.and_then(|it| technique(reader, &it.value, it.range));
    }
}

fn read_pins(reader: &mut Reader<'_>, table: &DeTable<'_>) -> WrittenPins {
    let Some(pins) = reader.table(table, "pins") else { return Vec::new() };
    let mut written = Vec::new();
    for (value, range) in keys_of(pins) {
        if let Some(place) = reader.count(pins, &value, 1, u64::from(u16::MAX)) {
            written.push((At { value, range }, place));
        }
    }
    written
}

/// What is said of each setter.
fn read_setters(reader: &mut Reader<'_>, table: &DeTable<'_>) -> WrittenSetters {
    let Some(setters) = reader.table(table, "setters") else { return Vec::new() };
    let mut written = Vec::new();
    for (value, range) in keys_of(setters) {
        let heading = format!("setters.{value}");
        let Some(of_one) = reader.table_headed(setters, &value, &heading) else { continue };
        reader.only_keys(of_one, &["credit", "link", "wishes"], "what is said of a setter", &[]);
        let setter = Setter {
            credit: reader.line(of_one, "credit").map(|it| it.value),
            link: reader.line(of_one, "link").and_then(|it| address(reader, it)),
            wishes: reader.text(of_one, "wishes").map(|it| it.value),
        };
        written.push((At { value, range }, setter));
    }
    written
}

/// The keys of a table that are not known beforehand, with their places, in the order in which they stand.
pub(crate) fn keys_of(table: &DeTable<'_>) -> Vec<(String, Range<usize>)> {
    let mut keys: Vec<_> = table.keys().map(|it| (it.get_ref().to_string(), it.span())).collect();
    keys.sort_by_key(|it| it.1.start);
    keys
}

/// What each flaw of an order costs: what is not said stays as it is.
fn read_weights(reader: &mut Reader<'_>, table: &DeTable<'_>) -> Weights {
    let mut weights = Weights::default();
    let Some(table) = reader.table(table, "weights") else { return weights };
    let fields: [(&'static str, &mut u64); 8] = [
        ("new_at_once", &mut weights.new_at_once),
        ("prerequisite", &mut weights.prerequisite),
        ("minute_back", &mut weights.minute_back),
        ("same_setter", &mut weights.same_setter),
        ("same_break_in", &mut weights.same_break_in),
        ("shelf_back", &mut weights.shelf_back),
        ("not_taught", &mut weights.not_taught),
        ("said_untrue", &mut weights.said_untrue),
    ];
    reader.only_keys(table, &fields.each_ref().map(|it| it.0), "the weights", &[]);
    for (key, weight) in fields {
        if let Some(it) = reader.count(table, key, 0, MOST_WEIGHT) {
            *weight = it.value;
        }
    }
    weights
}

/// The address, if it names a place on the web: `http` or `https`, a host, and no spaces.
pub(crate) fn address(reader: &mut Reader<'_>, text: At<String>) -> Option<String> {
    let rest = text.value.strip_prefix("https://").or_else(|| text.value.strip_prefix("http://"));
    let host = rest.and_then(|it| it.split(['/', '?', '#']).next()).unwrap_or_default();
    if host.is_empty() || text.value.contains(char::is_whitespace) {
        reader.note(text.range, Fault::NotAnAddress { found: text.value });
        return None;
    }
    Some(text.value)
}
