//! Problems, tables and numbered paragraphs as text.
//!
//! On a terminal a problem is shown with the line it is in; elsewhere it is one line that editors and
//! other programs can follow to its place, with what follows indented below. Which of the two, and
//! how wide, is for [`Screen`] to say.

use std::fmt::Write;

use comfy_table::{CellAlignment, ColumnConstraint, ContentArrangement, Table, presets};
use miette::{
    GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteDiagnostic, MietteError, NamedSource, Report,
    Severity, SourceCode, SourceSpan, SpanContents, ThemeCharacters, ThemeStyles,
};

use crate::load::Sources;
use crate::screen::Screen;
use crate::trouble::Trouble;

/// Every trouble, and how many there are; empty if there is none.
pub(crate) fn troubles(troubles: &[Trouble], sources: &Sources, screen: Screen) -> String {
    let mut text = each_trouble(troubles, sources, screen);
    let n_errors = troubles.iter().filter(|it| it.is_error).count();
    let counted = [(n_errors, "error"), (troubles.len() - n_errors, "warning")]
        .into_iter()
        .filter(|it| it.0 > 0)
        .map(|(n, noun)| crate::words::counted(n, noun));
    // Writing to a text cannot fail.
    match counted.collect::<Vec<_>>().join(" and ") {
        it if it.is_empty() => {}
        it => _ = writeln!(text, "{it}\n"),
    }
    text
}

/// Every trouble, without counting them.
pub(crate) fn each_trouble(troubles: &[Trouble], sources: &Sources, screen: Screen) -> String {
    let shown = troubles.iter().map(|it| {
        let picture = screen.is_terminal.then(|| picture(it, sources, screen)).flatten();
        picture.unwrap_or_else(|| plain(it, sources, screen))
    });
    shown.collect()
}

/// `pack/puzzles/x.toml:4:9: error[digit-out-of-range]: …`, and what follows on lines of its own.
fn plain(trouble: &Trouble, sources: &Sources, screen: Screen) -> String {
    let mut text = visible(&sources.path(&trouble.file));
    if let Some(at) = trouble.at {
        _ = write!(text, ":{}:{}", at.line, at.column);
    }
    let severity = if trouble.is_error { "error" } else { "warning" };
    _ = writeln!(text, ": {severity}[{}]: {}", trouble.code, trouble.message);
    let why = trouble.why.iter().cloned();
    for it in why.chain(trouble.help.iter().map(|it| format!("help: {it}"))) {
        // Programs count on one line each; people on lines that fit.
        match screen.is_terminal {
            true => text.push_str(&paragraph(&it, 2, screen)),
            false => _ = writeln!(text, "  {it}"),
        }
    }
    text
}

/// The trouble with the line it is in; none if it has no place, or the file is no text.
fn picture(trouble: &Trouble, sources: &Sources, screen: Screen) -> Option<String> {
    let at = trouble.at?;
    let source = same_length_visible(sources.text(&trouble.file)?);
    let severity = if trouble.is_error { Severity::Error } else { Severity::Warning };
    let mut diagnostic = MietteDiagnostic::new(match &trouble.why {
        Some(why) => format!("{}\n{why}", trouble.message),
        None => trouble.message.clone(),
    })
    .with_code(trouble.code)
    .with_severity(severity)
    .with_label(LabeledSpan::new(None, at.start, at.end - at.start));
    diagnostic.help.clone_from(&trouble.help);
    let name = visible(&sources.path(&trouble.file));
    let report = Report::new(diagnostic).with_source_code(WholeLines(NamedSource::new(name, source)));

    let styles = if screen.has_color { ThemeStyles::ansi() } else { ThemeStyles::none() };
    let theme = GraphicalTheme { characters: ThemeCharacters::unicode(), styles };
    let mut text = String::new();
    GraphicalReportHandler::new_themed(theme)
        .with_links(false)
        .with_width(usize::from(screen.width))
        .render_report(&mut text, report.as_ref())
        .ok()?;
    text.push('\n');
    Some(text)
}

/// A file that shows the lines with a problem as a whole, and no others: its neighbours may hold what
/// a seal keeps back, such as a puzzle's aims.
#[derive(Debug)]
struct WholeLines(NamedSource<String>);

impl SourceCode for WholeLines {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        lines_before: usize,
        lines_after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        // Without lines around it, the question is where the span is, not what to show.
        if (lines_before, lines_after) == (0, 0) {
            return self.0.read_span(span, 0, 0);
        }
        let text = self.0.inner();
        let end_of_span = span.offset() + span.len();
        let (Some(before), Some(after)) = (text.get(..span.offset()), text.get(end_of_span..)) else {
            return Err(MietteError::OutOfBounds);
        };
        let start = before.rfind('\n').map_or(0, |it| it + 1);
        let end = after.find('\n').map_or(text.len(), |it| end_of_span + it);
        self.0.read_span(&(start, end - start).into(), 0, 0)
    }
}

/// The text with its control characters written out, for a file's name may hold anything, even an
/// order to the terminal.
pub(crate) fn visible(text: &str) -> String {
    let shown = text.chars().flat_map(|it| match it.is_control() {
        true => it.escape_default().collect(),
        false => vec![it],
    });
    shown.collect()
}

/// The text with harmless characters for those that would change how a terminal shows it. Each takes
/// as many bytes as before, so that places in the text stay the same.
fn same_length_visible(text: &str) -> String {
    let harmless = |it: char| match it {
        '\n' | '\t' => it,
        // The other half of a line end.
        '\r' => ' ',
        _ if it.is_control() && it.len_utf8() == 1 => '?',
        _ if it.is_control() => '¿',
        // Marks that turn the direction of what follows.
        '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => '\u{fffd}',
        _ => it,
    };
    text.chars().map(harmless).collect()
}

/// An empty table with these headings, drawn in characters that the output can show.
pub(crate) fn table(headings: &[&str], screen: Screen) -> Table {
    let mut table = Table::new();
    let style = if screen.is_terminal { presets::UTF8_FULL_CONDENSED } else { presets::ASCII_FULL_CONDENSED };
    table.load_style(style).set_content_arrangement(ContentArrangement::Dynamic).set_width(screen.width);
    table.set_header(headings);
    table
}

/// The table as lines of text.
pub(crate) fn drawn(table: &Table) -> String {
    format!("{}\n", table.trim_fmt())
}

/// Paragraphs, each with its number in the margin, folded to the width.
pub(crate) fn numbered(paragraphs: impl IntoIterator<Item = (usize, String)>, screen: Screen) -> String {
    let mut table = Table::new();
    table.load_style(presets::NOTHING).set_content_arrangement(ContentArrangement::Dynamic);
    table.set_width(screen.width);
    table.add_rows(paragraphs.into_iter().map(|(number, text)| [number.to_string(), text]));
    table.set_constraints([ColumnConstraint::ContentWidth]);
    if let Some(numbers) = table.column_mut(0) {
        numbers.set_cell_alignment(CellAlignment::Right);
    }
    drawn(&table)
}

/// A paragraph, folded to the width.
pub(crate) fn folded(text: &str, screen: Screen) -> String {
    paragraph(text, 0, screen)
}

fn paragraph(text: &str, indent: u16, screen: Screen) -> String {
    let mut table = Table::new();
    table.load_style(presets::NOTHING).set_content_arrangement(ContentArrangement::Dynamic);
    table.set_width(screen.width).add_row([text]);
    if let Some(column) = table.column_mut(0) {
        column.set_padding((indent, 0));
    }
    drawn(&table)
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;

    #[test]
    fn harmless_characters_take_as_many_bytes() {
        let text = "a\u{1b}[2J\u{85}b\u{202e}c\r\nd\te";
        let shown = same_length_visible(text);
        assert_eq!(shown, "a?[2J¿b\u{fffd}c \nd\te");
        assert_eq!(shown.len(), text.len());
        assert_eq!(visible("a\nb\u{1b}"), "a\\nb\\u{1b}");
    }

    #[test]
    fn a_terminal_shows_the_line() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("low-tide.toml");
        std::fs::write(&path, "format = 1\ntitel = \"Low tide\"\n").unwrap();
        let loaded = crate::load::load(Path::new(&path)).unwrap();
        let screen = Screen { width: 80, is_terminal: true, has_color: false };
        let found: Vec<Trouble> = loaded.problems.into_iter().map(Trouble::from).collect();
        let text = troubles(&found, &loaded.sources, screen);
        assert!(text.contains("titel = \"Low tide\""), "{text}");
        assert!(text.contains("unknown-key") && text.contains("help"), "{text}");
        assert!(!text.contains('\u{1b}'), "{text}");
        let colored = troubles(&found, &loaded.sources, Screen { has_color: true, ..screen });
        assert!(colored.contains('\u{1b}'), "{colored}");
    }
}
