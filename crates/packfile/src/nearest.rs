//! The word that somebody may have meant.

/// The nearest of `known` to a misspelt word, if it is near enough to suggest: at most one slip in
/// three characters, a slip being a character added, left out, changed, or exchanged with the next.
pub(crate) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    const LONGEST: usize = 64;
    let word: Vec<char> = word.to_lowercase().chars().take(LONGEST + 1).collect();
    let near_enough = |(slips, it): &(usize, &str)| *slips * 3 <= it.chars().count().max(word.len());
    if word.len() > LONGEST {
        return None;
    }
    let candidates =
        known.into_iter().map(|it| (slips(&word, &it.to_lowercase().chars().collect::<Vec<_>>()), it));
    candidates.filter(near_enough).min_by_key(|it| it.0).map(|it| it.1)
}

/// The fewest slips that turn one word into the other.
fn slips(a: &[char], b: &[char]) -> usize {
    // One row of the usual table for each character of `a`; three are alive at a time.
    let mut before_last: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for i in 1..=a.len() {
        let mut row = vec![i];
        for j in 1..=b.len() {
            let changed = last[j - 1] + usize::from(a[i - 1] != b[j - 1]);
            let mut fewest = changed.min(last[j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                fewest = fewest.min(before_last[j - 2] + 1);
            }
            row.push(fewest);
        }
        before_last = std::mem::replace(&mut last, row);
    }
    last[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_counted() {
        let count = |a: &str, b: &str| slips(&a.chars().collect::<Vec<_>>(), &b.chars().collect::<Vec<_>>());
        for (a, b, expected) in [
            ("", "", 0),
            ("", "row", 3),
            ("row", "rows", 1),
            ("tilte", "title", 1),
            ("setter", "setter", 0),
            ("lantern", "lamp", 5),
        ] {
            assert_eq!(count(a, b), expected, "{a} {b}");
            assert_eq!(count(b, a), expected, "{b} {a}");
        }
    }

    #[test]
    fn only_near_words_are_suggested() {
        let known = ["format", "title", "setter", "sealed", "rows"];
        assert_eq!(nearest("seled", known), Some("sealed"));
        assert_eq!(nearest("Title", known), Some("title"));
        assert_eq!(nearest("row", known), Some("rows"));
        assert_eq!(nearest("colour", known), None);
        assert_eq!(nearest("", known), None);
        assert_eq!(nearest(&"t".repeat(1000), known), None);
    }
}
