//! The reference card of one size: what each sandwich sum can be made of.

use grid::{DigitSet, Size};
use rulebook::{Rule, SANDWICH, filling_digits, filling_sets};
use typst::foundations::{Array, Dict, IntoValue, Value, dict};

use crate::words;

/// Most sets that a card lists: all of a 9x9 line's. Larger boards have thousands, which nobody reads.
const MOST_SETS: usize = 128;

/// Most rows in a column. A 9x9 card then has four columns, and because the sums mirror each other
/// (what is inside for 10 is outside for 25) each is full to the last row.
const MOST_ROWS: usize = 32;

/// The card of a size: an entry for each reachable sum, rising, shared out over columns.
///
/// An entry has the `sum`, how many cells the `filling` and the `outside` can take (`3`, `2 to 4`), and
/// the `sets` that the filling can be, each beside the set that is then outside; larger boards than 9x9
/// have only the number of sets.
pub(crate) fn card(size: Size) -> Dict {
    let entries: Vec<Entry> = SANDWICH.reachable(size).into_iter().map(|it| Entry::new(size, it)).collect();
    let lists_sets = entries.iter().map(|it| it.sets.len()).sum::<usize>() <= MOST_SETS;
    let columns = in_columns(&entries, |it| if lists_sets { it.sets.len() } else { 1 });
    let column = |entries: &[Entry]| -> Value {
        Value::Array(entries.iter().map(|it| Value::Dict(it.value(size, lists_sets))).collect())
    };
    let heads = if lists_sets { ["Filling", "Outside"] } else { ["Outside", "Sets"] };
    dict! {
        "title" => words::card_title(size),
        "note" => words::card_note(size, lists_sets),
        "digits" => digits(filling_digits(size)),
        "heads" => heads.into_iter().map(IntoValue::into_value).collect::<Array>(),
        "columns" => columns.into_iter().map(column).collect::<Array>(),
    }
}

/// The entries in columns: in two as even as can be if they have at most [`MOST_ROWS`] rows, else in as
/// many of so many rows as it takes.
fn in_columns(entries: &[Entry], n_rows: impl Fn(&Entry) -> usize) -> Vec<&[Entry]> {
    let all: usize = entries.iter().map(&n_rows).sum();
    let in_two = (all.div_ceil(2)..=MOST_ROWS).map(|most| filled(entries, &n_rows, most));
    in_two.into_iter().find(|it| it.len() <= 2).unwrap_or_else(|| filled(entries, &n_rows, MOST_ROWS))
}

/// The entries in columns, each filled before the next is begun.
fn filled(entries: &[Entry], n_rows: impl Fn(&Entry) -> usize, most: usize) -> Vec<&[Entry]> {
    let (mut columns, mut start, mut rows) = (Vec::new(), 0, 0);
    for (at, entry) in entries.iter().enumerate() {
        if rows > 0 && rows + n_rows(entry) > most {
            columns.push(&entries[start..at]);
            (start, rows) = (at, 0);
        }
        rows += n_rows(entry);
    }
    columns.push(&entries[start..]);
    columns
}

/// What one sum can be made of.
struct Entry {
    sum: u16,
    sets: Vec<DigitSet>,
}

impl Entry {
    fn new(size: Size, sum: u16) -> Entry {
        Entry { sum, sets: filling_sets(size, sum) }
    }

    fn value(&self, size: Size, lists_sets: bool) -> Dict {
        let all = filling_digits(size);
        let pair = |it: &DigitSet| {
            dict! { "filling" => digits(*it), "outside" => digits(all - *it) }
        };
        let listed = self.sets.iter().filter(|_| lists_sets);
        dict! {
            "sum" => i64::from(self.sum),
            "filling" => counts(self.sets.iter().map(|it| it.len())),
            "outside" => counts(self.sets.iter().map(|it| (all - *it).len())),
            "n-sets" => self.sets.len() as i64,
            "sets" => listed.map(|it| Value::Dict(pair(it))).collect::<Array>(),
        }
    }
}

/// The digits of a set, rising.
fn digits(set: DigitSet) -> Array {
    set.iter().map(|it| it.to_string().into_value()).collect()
}

/// `3`, `2 to 4`.
fn counts(counts: impl Iterator<Item = usize> + Clone) -> String {
    let (fewest, most) = (counts.clone().min().unwrap_or(0), counts.max().unwrap_or(0));
    if fewest == most { fewest.to_string() } else { format!("{fewest} to {most}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(sum: u16) -> Dict {
        Entry::new(Size::NINE, sum).value(Size::NINE, true)
    }

    fn text(value: &Dict, key: &str) -> String {
        value.at(key.into(), None).unwrap().cast().unwrap()
    }

    /// Filling cells a sum on 9x9, exact: they follow from the rules.
    #[test]
    fn counts_are_those_that_follow_from_the_rules() {
        for (sum, filling) in [
            (0, "0"),
            (4, "1"),
            (8, "1 to 2"),
            (13, "2 to 3"),
            (15, "2 to 4"),
            (19, "3 to 4"),
            (21, "3 to 5"),
            (26, "4 to 5"),
            (30, "5 to 6"),
            (33, "6"),
            (35, "7"),
        ] {
            assert_eq!(text(&entry(sum), "filling"), filling, "sum {sum}");
        }
        // A sum need not fix the count: 29 leaves outside either 6 alone or 2 and 4.
        assert_eq!(text(&entry(29), "outside"), "1 to 2");
    }

    #[test]
    fn columns_of_nine_by_nine_are_full() {
        let entries: Vec<Entry> =
            SANDWICH.reachable(Size::NINE).into_iter().map(|it| Entry::new(Size::NINE, it)).collect();
        assert_eq!(entries.len(), 34);
        let columns = in_columns(&entries, |it| it.sets.len());
        let rows = columns.iter().map(|it| it.iter().map(|it| it.sets.len()).sum::<usize>());
        assert_eq!(rows.collect::<Vec<_>>(), [MOST_ROWS; 4]);
        assert_eq!(columns.iter().map(|it| it[0].sum).collect::<Vec<_>>(), [0, 13, 18, 23]);
    }

    #[test]
    fn every_size_has_a_card_without_losing_a_sum() {
        for size in (4..=16).filter_map(Size::of_side) {
            let columns: Array = card(size).at("columns".into(), None).unwrap().cast().unwrap();
            let n = columns.iter().map(|it| it.clone().cast::<Array>().unwrap().len()).sum::<usize>();
            assert_eq!(n, SANDWICH.reachable(size).len(), "{size}");
            assert!(columns.len() <= 2 || size.side() >= 9, "{size} has {} columns", columns.len());
        }
    }
}
