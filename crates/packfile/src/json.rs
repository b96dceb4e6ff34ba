//! A file of JSON that a program wrote: read whole, or refused at a line and column.
//!
//! It is not read past its first fault: such files are not mended by hand, line by line, but written anew.

use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use serde_json::error::Category;

use crate::phrases::shown;
use crate::source::Source;
use crate::{Code, FORMAT, Problem, SourceFile};

/// Only the format; whatever else there is follows its rules.
#[derive(Deserialize)]
struct Formatted {
    format: Option<Value>,
}

/// Reads the file, if it is of the format that is known. `what` names such a file, as in `a test solve`.
///
/// # Errors
///
/// The one problem that it has.
pub(crate) fn read_json<T: DeserializeOwned>(file: &SourceFile, what: &str) -> Result<T, Problem> {
    let source = Source::open(file)?;
    // A byte order mark is no part of JSON, and some programs write it all the same.
    let text = source.text();
    let marked = text.len() - text.trim_start_matches('\u{feff}').len();
    let text = &text[marked..];
    let refused = |it: serde_json::Error| refusal(&source, marked, &it, what);
    let format = serde_json::from_str::<Formatted>(text).map_err(refused)?.format;
    match format {
        Some(Value::Number(it)) if it.as_u64() != Some(u64::from(FORMAT)) => Err(Problem {
            help: Some("read the file with a newer Galley; it is left as it is".to_owned()),
            ..problem(Code::UnknownFormat, file, format!("format {it} is not known, expected {FORMAT}"))
        }),
        _ => serde_json::from_str(text).map_err(refused),
    }
}

/// The problem of a file as a whole, with no help yet.
pub(crate) fn problem(code: Code, file: &SourceFile, message: String) -> Problem {
    Problem { code, severity: code.severity(), file: file.path.clone(), at: None, message, help: None }
}

/// What the parser found, at its place.
fn refusal(source: &Source<'_>, marked: usize, error: &serde_json::Error, what: &str) -> Problem {
    let code = match error.classify() {
        Category::Data => Code::NotAsWritten,
        Category::Syntax | Category::Eof | Category::Io => Code::NotJson,
    };
    let (message, help) = in_our_words(&error.to_string(), code, what);
    let column = error.column().saturating_sub(1) + if error.line() == 1 { marked } else { 0 };
    let at = source.offset(error.line(), column);
    Problem {
        code,
        severity: code.severity(),
        file: source.path().to_owned(),
        at: Some(source.span(at..at)),
        message,
        help: Some(help),
    }
}

/// What the parser said and the next move, in plainer words where they are known.
fn in_our_words(words: &str, code: Code, what: &str) -> (String, String) {
    const NAMED: [(&str, &str); 4] = [
        ("missing field ", "is missing"),
        ("duplicate field ", "is given a second time"),
        ("unknown field ", "is no key there"),
        ("unknown variant ", "is no value there"),
    ];
    const PLAINER: [(&str, &str); 7] = [
        ("EOF while parsing", "the file ends within"),
        ("expected ident", "this is no JSON"),
        ("trailing characters", "something follows the end"),
        ("invalid type: ", ""),
        ("string \"", "the text \""),
        ("expected f64", "expected a number"),
        ("expected u64", "expected a whole number"),
    ];
    // The parser puts the place behind its words; here it stands before them.
    let words = words.split(" at line ").next().unwrap_or_default();
    let (words, choice) = match words.split_once(", expected one of ") {
        Some((words, choice)) => (words, Some(choice)),
        None => (words, None),
    };
    let named = NAMED.into_iter().find_map(|(from, to)| Some(format!("{} {to}", words.strip_prefix(from)?)));
    let plainer =
        |words: &str| PLAINER.into_iter().fold(words.to_owned(), |it, (from, to)| it.replace(from, to));
    let help = match (choice, code) {
        (Some(choice), _) => format!("use one of {choice}"),
        (None, Code::NotJson) => {
            "the file was cut off or changed; take it anew from where it was written".to_owned()
        }
        (None, _) => format!("see what `docs/format.md` says of {what}"),
    };
    (shown(&named.unwrap_or_else(|| plainer(words))), help)
}
