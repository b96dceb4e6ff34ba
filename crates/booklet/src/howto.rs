//! How to play: the rules that the pack uses, each with a worked line.
//!
//! The rules themselves are worded by `tell`; here they are gathered over the puzzles of a pack, so
//! that each is told once a size, and explained on a line that is worked out.

use std::collections::BTreeMap;

use grid::{Digit, Size};
use rulebook::{Puzzle, RULES, Rule, RuleId, SANDWICH, crusts, filling_digits, filling_total};
use tell::RuleWords;
use typst::foundations::{Array, Dict, IntoValue, Value, dict};

/// A heading with paragraphs under it, and a worked line.
struct Section {
    title: String,
    before: Vec<String>,
    example: Option<Example>,
    after: Vec<String>,
}

/// A line of a board, filled, with its sum.
struct Example {
    size: Size,
    digits: Vec<Digit>,
    sum: u16,
}

/// The sections for those puzzles: small boards first, on each the classic rule first.
pub(crate) fn sections(puzzles: &[&Puzzle]) -> Array {
    let rules = rules(puzzles);
    let mut sizes: Vec<Size> = rules.keys().map(|it| it.1).collect();
    sizes.dedup();
    let sections = rules.into_iter().map(|((_, size, rule), words)| {
        let title = if sizes.len() == 1 { words.name } else { format!("{} on {}", words.name, boards(size)) };
        let (example, after) = match rule {
            Some(rule) if rule == SANDWICH.id() => worked_sandwich(size),
            _ => (None, Vec::new()),
        };
        Section { title, before: vec![words.full.join(" ")], example, after }
    });
    sections.map(|it| Value::Dict(it.value())).collect()
}

/// Small boards first, then the classic rule (which has no id) first.
type Told = BTreeMap<(u8, Size, Option<RuleId>), RuleWords>;

/// The words of each rule on each size. Of puzzles that differ in what
/// must be told, the one with most to tell counts.
fn rules(puzzles: &[&Puzzle]) -> Told {
    let mut rules = Told::new();
    for puzzle in puzzles {
        let size = puzzle.size();
        let has_clues = |rule: &&dyn Rule| puzzle.clues().iter().any(|it| it.rule.id() == rule.id());
        let ids = std::iter::once(None).chain(RULES.into_iter().filter(has_clues).map(|it| Some(it.id())));
        for (id, words) in ids.zip(tell::rules(puzzle)) {
            let told = rules.entry((size.side(), size, id)).or_insert_with(|| words.clone());
            if words.full.len() > told.full.len() {
                *told = words;
            }
        }
    }
    rules
}

/// A worked sandwich, and what it shows.
fn worked_sandwich(size: Size) -> (Option<Example>, Vec<String>) {
    let example = Example::sandwich(size);
    let (one, last) = crusts(size);
    let digits = |it: &[Digit], sign: &str| it.iter().map(Digit::to_string).collect::<Vec<_>>().join(sign);
    let (filling, outside) = (example.filling(), example.outside());
    let (sum, total) = (example.sum, filling_total(size));
    let inside = match filling {
        [only] => format!("Between the crusts stands {only} alone, which is the number beside the line."),
        _ => format!(
            "Between the crusts stand {}, and {} = {sum}, which is the number beside the line.",
            in_words(filling),
            digits(filling, " + "),
        ),
    };
    let others = match &outside[..] {
        [only] => format!("The other digit, {only}, is an outside digit."),
        several => format!("The others, {}, are the outside digits.", in_words(several)),
    };
    let paragraphs = vec![
        format!("The crusts are hatched; the filling is what stands between them. {inside} {others}"),
        format!(
            "All digits from {} to {} add up to {total}, so the outside digits of this line add up to {total} \
             − {sum} = {}. Every sum tells what is inside and what is outside; the reference card at the back \
             lists both.",
            one.get() + 1,
            last.get() - 1,
            total - sum,
        ),
    ];
    (Some(example), paragraphs)
}

impl Section {
    fn value(self) -> Dict {
        let paragraphs = |it: Vec<String>| it.into_iter().map(IntoValue::into_value).collect::<Array>();
        dict! {
            "title" => self.title,
            "before" => paragraphs(self.before),
            "example" => self.example.map(|it| it.value()),
            "after" => paragraphs(self.after),
        }
    }
}

impl Example {
    /// A line whose filling and outside digits mix small and large: of the filling digits, every
    /// second one lies inside.
    fn sandwich(size: Size) -> Example {
        let (one, last) = crusts(size);
        let digits: Vec<Digit> = filling_digits(size).iter().collect();
        let every_second = |first: usize| digits.iter().copied().skip(first).step_by(2).collect::<Vec<_>>();
        let (mut outside, mut inside) = (every_second(0), every_second(1));
        // Out of order, as in a puzzle.
        inside.rotate_right(1);
        outside.rotate_left(1);
        let sum = inside.iter().map(|it| u16::from(it.get())).sum();
        let right = outside.split_off(outside.len() / 2);
        let line = [outside, vec![one], inside, vec![last], right].concat();
        Example { size, digits: line, sum }
    }

    fn crust_places(&self) -> (usize, usize) {
        let (one, last) = crusts(self.size);
        let place = |crust| self.digits.iter().position(|it| *it == crust).unwrap_or(0);
        (place(one), place(last))
    }

    fn filling(&self) -> &[Digit] {
        let (left, right) = self.crust_places();
        &self.digits[left + 1..right]
    }

    fn outside(&self) -> Vec<Digit> {
        let (left, right) = self.crust_places();
        [&self.digits[..left], &self.digits[right + 1..]].concat()
    }

    /// The line in stretches, each of one kind.
    fn value(self) -> Dict {
        let (left, right) = self.crust_places();
        let parts = [
            ("outside", &self.digits[..left]),
            ("crust", &self.digits[left..=left]),
            ("filling", &self.digits[left + 1..right]),
            ("crust", &self.digits[right..=right]),
            ("outside", &self.digits[right + 1..]),
        ];
        let part = |(kind, digits): (&str, &[Digit])| {
            let digits: Array = digits.iter().map(|it| it.to_string().into_value()).collect();
            Value::Dict(dict! { "kind" => kind, "digits" => digits })
        };
        let alt = format!(
            "A line with the sandwich sum {}: {}.",
            self.sum,
            self.digits.iter().map(Digit::to_string).collect::<Vec<_>>().join(", ")
        );
        let parts = parts.into_iter().filter(|(_, it)| !it.is_empty()).map(part).collect::<Array>();
        dict! { "clue" => self.sum.to_string(), "parts" => parts, "alt" => alt }
    }
}

/// `boards of 9 by 9`, with the shape of the boxes if the side alone does not tell it.
fn boards(size: Size) -> String {
    let side = size.side();
    match Size::of_side(side) == Some(size) {
        true => format!("boards of {side} by {side}"),
        false => format!(
            "boards of {side} by {side} with boxes {} wide and {} high",
            size.box_width(),
            size.box_height()
        ),
    }
}

/// `7, 3 and 5`.
fn in_words(digits: &[Digit]) -> String {
    match digits {
        [] => "no digits".to_owned(),
        [only] => only.to_string(),
        [before @ .., last] => {
            let before: Vec<String> = before.iter().map(Digit::to_string).collect();
            format!("{} and {last}", before.join(", "))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_rule_is_told_once_a_size() {
        let empty = |side| Puzzle::new(grid::Grid::empty(Size::of_side(side).unwrap()), []);
        let with_sum = |side| {
            let size = Size::of_side(side).unwrap();
            let line = size.lines().next().unwrap();
            Puzzle::new(grid::Grid::empty(size), [rulebook::Clue { rule: &SANDWICH, line, value: 0 }])
        };
        let puzzles = [empty(9), with_sum(9), with_sum(6), with_sum(9)];
        let told = rules(&puzzles.iter().collect::<Vec<_>>());
        let names: Vec<String> = told.iter().map(|(it, words)| format!("{} {}", it.1, words.name)).collect();
        assert_eq!(names, ["6x6 Classic", "6x6 Sandwich", "9x9 Classic", "9x9 Sandwich"]);
    }

    #[test]
    fn worked_lines_are_true_on_every_size() {
        for size in (4..=16).filter_map(Size::of_side) {
            let example = Example::sandwich(size);
            let all: grid::DigitSet = example.digits.iter().copied().collect();
            assert_eq!((all, example.digits.len()), (size.digits(), usize::from(size.side())));
            assert!(SANDWICH.allows(size, example.sum, &example.digits), "{size}");
            let outside: u16 = example.outside().iter().map(|it| u16::from(it.get())).sum();
            assert_eq!(example.sum + outside, filling_total(size));
        }
    }
}
