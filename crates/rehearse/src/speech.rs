//! How text is read out: how many words it is when it is spoken.

/// How many words are spoken when the text is read out.
///
/// `r4c7` is "row four column seven": four words. Numbers are as many words as they are read with
/// (`35`: "thirty five"), each sign of a sum is one ("plus", "minus", "is"), and a case's label is
/// read number by number. What stands in brackets is a reference for the eye and is not read.
pub(crate) fn n_spoken_words(text: &str) -> usize {
    let mut depth = 0_usize;
    let mut read_out = String::with_capacity(text.len());
    for it in text.chars() {
        match it {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ if depth == 0 => read_out.push(it),
            _ => {}
        }
    }
    read_out.split_whitespace().map(n_words_of).sum()
}

/// The words of what stands between two spaces.
fn n_words_of(token: &str) -> usize {
    if matches!(token, "+" | "−" | "-" | "=") {
        return 1;
    }
    let parts = token.split(|it: char| !it.is_alphanumeric() && it != '\'' && it != '’');
    parts.filter(|it| it.contains(char::is_alphanumeric)).map(n_words_of_part).sum()
}

/// A cell, a number (`3`, or `3s` for several of them), or one word.
fn n_words_of_part(part: &str) -> usize {
    let part = part.trim_end_matches(['\'', '’', 's']);
    let cell = part.strip_prefix('r').and_then(|it| it.split_once('c'));
    if let Some((row, column)) = cell.and_then(|(row, column)| number(row).zip(number(column))) {
        return 2 + n_words_of_number(row) + n_words_of_number(column);
    }
    number(part).map_or(1, n_words_of_number)
}

fn number(digits: &str) -> Option<u64> {
    digits.parse().ok().filter(|_| digits.bytes().all(|it| it.is_ascii_digit()))
}

/// Below a thousand as it is read; beyond, where no sum of a board lies, digit by digit.
fn n_words_of_number(number: u64) -> usize {
    match number {
        0..=20 => 1,
        21..=99 if number.is_multiple_of(10) => 1,
        21..=99 => 2,
        100..=999 if number.is_multiple_of(100) => 2,
        // "a hundred and" and the rest
        100..=999 => 3 + n_words_of_number(number % 100),
        _ => number.to_string().len(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_counted_as_it_is_read_out() {
        for (text, read_out) in [
            ("r4c7", "row four column seven"),
            ("r10c12", "row ten column twelve"),
            ("So r4c7 is 5.", "so row four column seven is five"),
            ("r7c1 to r9c1 are filling", "row seven column one to row nine column one are filling"),
            ("r4c7's clue, row 3's clue", "row four column sevens clue row threes clue"),
            ("The 3s at r2c4 rule it out", "the threes at row two column four rule it out"),
            ("35 − 18 = 17", "thirty five minus eighteen is seventeen"),
            ("2 + 3 + 20", "two plus three plus twenty"),
            ("0, 20, 30 and 118", "zero twenty thirty and a hundred and eighteen"),
            ("100, 200, 1024", "one hundred two hundred one zero two four"),
            ("Column 8's filling is 4 (steps 1, 22 and 65).", "column eights filling is four"),
            ("(never) said (at (all))", "said"),
            (
                "Case 1.4.3. Suppose r8c8 were 4.",
                "case one four three suppose row eight column eight were four",
            ),
            ("X-wing", "x wing"),
            ("It’s “quoted” – or is it?", "its quoted or is it"),
            ("rc r1 c2 r1c r4c7x", "rc r1 c2 r1c r4c7x"),
            ("", ""),
            (" ... ", ""),
            (") lost (", "lost"),
        ] {
            assert_eq!(n_spoken_words(text), read_out.split_whitespace().count(), "{text}");
        }
    }
}
