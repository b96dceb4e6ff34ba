//! Pieces of sentences: lists, numbers of things, and words from a file, which may be anything.

/// `1 row`, `2 rows`.
pub(crate) fn counted(count: usize, noun: &str) -> String {
    format!("{count} {noun}{}", if count == 1 { "" } else { "s" })
}

/// `a`, `a or b`, `a, b, or c`.
pub(crate) fn any_of(items: impl IntoIterator<Item = String>) -> String {
    joined(items.into_iter().collect(), "or")
}

/// `a`, `a and b`, `a, b, and c`.
pub(crate) fn all_of(items: impl IntoIterator<Item = String>) -> String {
    joined(items.into_iter().collect(), "and")
}

fn joined(items: Vec<String>, word: &str) -> String {
    match &items[..] {
        [] => String::new(),
        [only] => only.clone(),
        [first, last] => format!("{first} {word} {last}"),
        [init @ .., last] => format!("{}, {word} {last}", init.join(", ")),
    }
}

/// The same between marks.
pub(crate) fn quoted(text: &str) -> String {
    format!("`{}`", shown(text))
}

/// A text from a file, shortened, its control characters written out.
pub(crate) fn shown(text: &str) -> String {
    const LONGEST: usize = 60;
    let mut shown: String = (text.chars().take(LONGEST))
        .flat_map(|it| match it.is_control() {
            true => it.escape_default().collect(),
            false => vec![it],
        })
        .collect();
    if text.chars().nth(LONGEST).is_some() {
        shown.push('…');
    }
    shown
}
