//! Reading `pack.toml`.

use pack::PackInfo;

use crate::read::{At, Reader};
use crate::source::Source;
use crate::syntax::Syntax;
use crate::wording::{Fault, Move};
use crate::{Problem, SourceFile, puzzle};

/// The keys of `pack.toml`.
pub(crate) const KEYS: [&str; 7] = ["format", "title", "editor", "licence", "base_url", "shelves", "order"];

/// The order as it is written: each item with its place.
pub(crate) type WrittenOrder = At<Vec<At<String>>>;

/// What `pack.toml` says but for the order, and the order with its places; problems are still to be
/// finished, because only the whole pack can tell whether the order is right.
pub(crate) struct ReadInfo<'a> {
    pub(crate) info: PackInfo,
    pub(crate) order: Option<WrittenOrder>,
    pub(crate) reader: Reader<'a>,
}

/// Reads `pack.toml` as far as it goes; none if it is no text at all.
pub(crate) fn read_info(file: &SourceFile) -> Result<ReadInfo<'_>, Problem> {
    let source = Source::open(file)?;
    let syntax = Syntax::of(source.text());
    let (mut reader, table) = Reader::new(source, &syntax);
    let mut info = no_info();
    let mut order = None;
    if reader.format(&table) {
        reader.only_keys(&table, &KEYS, "this file", &[(&puzzle::KEYS, Move::ToPuzzleFile)]);
        let text = |it: Option<At<String>>| it.map(|it| it.value);
        info.title = text(reader.needed_line(&table, "title", "title = \"…\"")).unwrap_or_default();
        info.editor = text(reader.line(&table, "editor")).unwrap_or_default();
        info.licence = text(reader.line(&table, "licence"));
        info.base_url = reader.line(&table, "base_url").and_then(|it| address(&mut reader, it));
        info.shelves = reader.names(&table, "shelves");
        order = reader.lines(&table, "order");
    }
    Ok(ReadInfo { info, order, reader })
}

/// What is known of a pack whose `pack.toml` says nothing.
pub(crate) fn no_info() -> PackInfo {
    PackInfo {
        title: String::new(),
        editor: String::new(),
        licence: None,
        base_url: None,
        shelves: Vec::new(),
        order: None,
    }
}

/// The address, if it names a place on the web: `http` or `https`, a host, and no spaces.
fn address(reader: &mut Reader<'_>, text: At<String>) -> Option<String> {
    let rest = text.value.strip_prefix("https://").or_else(|| text.value.strip_prefix("http://"));
    let host = rest.and_then(|it| it.split(['/', '?', '#']).next()).unwrap_or_default();
    if host.is_empty() || text.value.contains(char::is_whitespace) {
        reader.note(text.range, Fault::NotAnAddress { found: text.value });
        return None;
    }
    Some(text.value)
}
