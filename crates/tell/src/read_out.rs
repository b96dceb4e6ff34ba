//! A sentence as it is read out: names of cells, sums and labels in words, without references.
//!
//! The sentence is one of ours in print, so cells are `r4c7` or a list of such, sums are numbers with
//! spaced signs, and what stands in brackets refers to a step. Everything else is said as it stands.

/// `r4c1 and r4c5 hold 2 + 8 = 10 (step 3)` becomes `row 4, columns 1 and 5 hold 2 plus 8, which is 10`.
pub(crate) fn read_out(sentence: &str) -> String {
    let mut said = String::with_capacity(sentence.len() * 2);
    let mut rest = sentence;
    // Where the cells named last end: a line named after them is part of a cell's name.
    let mut cells_end = usize::MAX;
    while !rest.is_empty() {
        let is_start = !said.ends_with(|it: char| it.is_alphanumeric() || it == '.');
        if let Some(after) = reference(rest) {
            rest = after;
        } else if let Some((pairs, after)) = is_start.then(|| pairs(rest)).flatten() {
            said.push_str(&pairs);
            cells_end = said.len();
            rest = after;
        } else if let Some((first, after)) = is_start.then(|| cell(rest)).flatten() {
            let (run, last, after) = run(&said, first, after);
            let named = cells(&said, &run, last);
            // A line named just before would be heard as part of the cell's name.
            if said.len() != cells_end.saturating_add(2) && ends_with_line(&said) {
                said.truncate(said.len() - 2);
                said.push_str(": ");
            }
            said.push_str(&named);
            cells_end = said.len();
            rest = after;
        } else if let Some((sum, after)) = is_start.then(|| Sum::read(rest)).flatten() {
            sum.say(&mut said, after);
            rest = after;
        } else if let Some((label, after)) = is_start.then(|| label(rest)).flatten() {
            said.push_str(&label);
            rest = after;
        } else if let Some(house) = next_house(rest).filter(|_| said.len() == cells_end) {
            // A line named after a cell begins what is said of it.
            said.push_str(": ");
            rest = house;
        } else if let Some(house) = next_house(rest).filter(|it| is_crossed(&said, it)) {
            said.push_str(" and ");
            rest = house;
        } else {
            let n = rest.chars().next().map_or(1, char::len_utf8);
            said.push_str(&rest[..n]);
            rest = &rest[n..];
        }
    }
    said
}

/// What follows a reference, if the text begins with one: ` (step 4)`, ` (steps 2 and 5)`.
fn reference(text: &str) -> Option<&str> {
    text.strip_prefix(" (step").and_then(|it| it.split_once(')')).map(|it| it.1)
}

/// The line that is named after a comma.
fn next_house(text: &str) -> Option<&str> {
    let house = text.strip_prefix(", ")?;
    ["row ", "column ", "rows ", "columns "].iter().any(|it| house.starts_with(it)).then_some(house)
}

/// Whether the text ends with a line that the next one crosses: `row 4, column 2` are two lines in print, and
/// would be a cell aloud.
fn is_crossed(said: &str, next: &str) -> bool {
    let is_number = |it: &&str| it.trim_end_matches(',').bytes().all(|it| it.is_ascii_digit());
    let named = said.rsplit(' ').find(|it| !is_number(it) && !["and", "to"].contains(it));
    let kind = |it: &str| ["row", "column"].into_iter().find(|kind| it.starts_with(kind));
    let ends_with_number = said.ends_with(|it: char| it.is_ascii_digit());
    let named = named.map(str::to_lowercase).and_then(|it| kind(&it));
    ends_with_number && named.is_some_and(|it| kind(next).is_some_and(|next| next != it))
}

/// A number at the start, and what follows it.
fn number(text: &str) -> Option<(u16, &str)> {
    let end = text.find(|it: char| !it.is_ascii_digit()).unwrap_or(text.len());
    Some((text[..end].parse().ok()?, &text[end..]))
}

/// Row and column.
type Place = (u16, u16);

/// A cell at the start, and what follows it.
fn cell(text: &str) -> Option<(Place, &str)> {
    let (row, rest) = number(text.strip_prefix('r')?)?;
    let (column, rest) = number(rest.strip_prefix('c')?)?;
    Some(((row, column), rest))
}

/// A cell, or the first and the last of a stretch.
type Stretch = (Place, Place);

/// Pairs of cells of one line that begin the text, and what follows them: `r4c1 with r4c5 and r4c2 with r4c6`
/// becomes `row 4, columns 1 and 5; and columns 2 and 6`.
fn pairs(text: &str) -> Option<(String, &str)> {
    let pair = |text| {
        let (a, rest) = cell(text)?;
        let (b, rest) = cell(rest.strip_prefix(" with ")?)?;
        Some(((a, b), rest))
    };
    let (first, mut rest) = pair(text)?;
    let of_row = first.0.0 == first.1.0;
    let line = |it: Place| if of_row { it.0 } else { it.1 };
    let place = |it: Place| if of_row { it.1 } else { it.0 };
    let (own, crossing) = if of_row { ("row", "column") } else { ("column", "row") };
    let mut said = format!("{own} {}, ", line(first.0));
    let mut next = Some((first, rest, ""));
    while let Some(((a, b), after, link)) = next {
        said += &format!("{link}{crossing}s {} and {}", place(a), place(b));
        rest = after;
        let links = [(", ", "; "), (" and ", "; and "), (" or ", "; or ")];
        next = links.into_iter().find_map(|(link, aloud)| {
            let (pair, after) = pair(rest.strip_prefix(link)?)?;
            ([pair.0, pair.1].map(line) == [line(first.0); 2]).then_some((pair, after, aloud))
        });
    }
    Some((said, rest))
}

/// The whole list of cells that begins with `first`, its last "and" or "or", and what follows it. Of
/// cells that go together in pairs (`r1c1 with r1c8`), each stands alone.
fn run<'a>(said: &str, first: Place, after: &'a str) -> (Vec<Stretch>, &'a str, &'a str) {
    let mut run = vec![(first, first)];
    let (mut last, mut rest) = ("and", after);
    let is_paired = said.ends_with(" with ");
    loop {
        let next = [" to ", ", ", " and ", " or "].into_iter().find_map(|link| {
            let (place, after) = cell(rest.strip_prefix(link)?)?;
            (!after.starts_with(" with ")).then_some((link, place, after))
        });
        let Some((link, place, after)) = next.filter(|_| !is_paired) else { break };
        match (link, run.last_mut()) {
            (" to ", Some(stretch)) => stretch.1 = place,
            _ => run.push((place, place)),
        }
        if link == " and " || link == " or " {
            last = link.trim();
        }
        rest = after;
    }
    (run, last, rest)
}

/// `row 4, columns 1 to 3 and 5`, `row 1, column 2, and row 3, column 4`; after `in row 4, ` without that
/// line.
fn cells(said: &str, run: &[Stretch], last: &str) -> String {
    let down = run.iter().all(|(a, b)| a.1 == run[0].0.1 && b.1 == a.1)
        && (run.len() > 1
            || run[0].0 != run[0].1
            || said.eq_ignore_ascii_case(&format!("in column {}, ", run[0].0.1)));
    let (line, crossing) = if down { ("column", "row") } else { ("row", "column") };
    let of = |it: Place| if down { (it.1, it.0) } else { it };
    let groups: Vec<String> = run
        .chunk_by(|a, b| of(a.0).0 == of(b.0).0)
        .map(|group| {
            let each: Vec<String> = group
                .iter()
                .map(
                    |(a, b)| {
                        if a == b { of(*a).1.to_string() } else { format!("{} to {}", of(*a).1, of(*b).1) }
                    },
                )
                .collect();
            let is_stretch = group.iter().any(|it| it.0 != it.1);
            let plural =
                if is_stretch || group.len() > 2 || (group.len() == 2 && last == "and") { "s" } else { "" };
            format!(
                "{line} {}, {crossing}{plural} {}",
                of(group[0].0).0,
                joined(&each, ", ", &format!(" {last} "))
            )
        })
        .collect();
    let named = format!("{line} {}, ", of(run[0].0).0);
    let between = if groups.len() > 2 { ";" } else { "," };
    let whole = joined(&groups, &format!("{between} "), &format!("{between} {last} "));
    match groups.len() == 1 && said.eq_ignore_ascii_case(&format!("in {named}")) {
        true => whole[named.len()..].to_owned(),
        false => whole,
    }
}

/// Whether it ends with a line's name and a comma, other than `in row 4, ` at the start.
fn ends_with_line(said: &str) -> bool {
    let mut words = said.trim_end().rsplit(' ');
    let number = words.next().and_then(|it| it.strip_suffix(',')).and_then(number);
    let is_line = matches!(words.next(), Some("row" | "Row" | "column" | "Column"));
    number.is_some_and(|it| it.1.is_empty()) && is_line && said.split(' ').count() > 4
}

fn joined(items: &[String], between: &str, last: &str) -> String {
    match items {
        [before @ .., end] if !before.is_empty() => format!("{}{last}{end}", before.join(between)),
        only => only.concat(),
    }
}

/// `2 + 8`, `2 + 8 = 10`, `35 − 29 = 6`.
struct Sum {
    terms: Vec<u16>,
    sign: &'static str,
    is: Option<u16>,
}

impl Sum {
    fn read(text: &str) -> Option<(Sum, &str)> {
        let (first, mut rest) = number(text)?;
        let sign = if rest.starts_with(" + ") { " + " } else { " − " };
        let mut terms = vec![first];
        while let Some((term, after)) = rest.strip_prefix(sign).and_then(number) {
            terms.push(term);
            rest = after;
        }
        let is = rest.strip_prefix(" = ").and_then(number);
        let rest = is.map_or(rest, |it| it.1);
        (terms.len() > 1).then(|| (Sum { terms, sign, is: is.map(|it| it.0) }, rest))
    }

    fn say(&self, said: &mut String, after: &str) {
        let sign = if self.sign == " + " { " plus " } else { " minus " };
        let is_start = said.is_empty() || said.ends_with(": ") || said.ends_with("; ");
        let terms: Vec<String> = self.terms.iter().map(u16::to_string).collect();
        let terms = terms.join(sign);
        let goes_on = after.starts_with(' ');
        said.push_str(&match self.is {
            None => terms,
            Some(is) if is_start || (sign == " minus " && !goes_on) => format!("{terms} is {is}"),
            Some(is) if goes_on => format!("{terms}, which is {is},"),
            Some(is) => format!("{terms}, which is {is}"),
        });
    }
}

/// The label of a case within a case: `1.2` becomes `1, part 2`.
fn label(text: &str) -> Option<(String, &str)> {
    let (first, mut rest) = number(text)?;
    let mut said = first.to_string();
    let mut is_label = false;
    while let Some((part, after)) = rest.strip_prefix('.').and_then(number) {
        said += &format!(", part {part}");
        (rest, is_label) = (after, true);
    }
    is_label.then_some((said, rest))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_sums_are_read_out() {
        for (print, aloud) in [
            ("r4c7 is 5", "row 4, column 7 is 5"),
            ("r4c1, r4c2 and r4c5 are filling (step 3)", "row 4, columns 1, 2 and 5 are filling"),
            ("so r2c7 to r4c7 and r6c7 are not 5", "so column 7, rows 2 to 4 and 6 are not 5"),
            ("in r4c1, r5c2 or r5c3", "in row 4, column 1, or row 5, column 2 or 3"),
            ("in row 4, r4c1 and r4c5 fit", "in row 4, columns 1 and 5 fit"),
            ("In column 2, r1c2 to r3c2 fit", "In column 2, rows 1 to 3 fit"),
            ("with 3 in column 2's sum, r6c2 is 7", "with 3 in column 2's sum, row 6, column 2 is 7"),
            (
                "left: r1c1 with r1c8, r1c2 with r1c9 and r1c3 with r1c9",
                "left: row 1, columns 1 and 8; columns 2 and 9; and columns 3 and 9",
            ),
            ("r2c4 with r7c4 or r3c4 with r8c4", "column 4, rows 2 and 7; or rows 3 and 8"),
            ("if r5c5 is 2, r5c9 is 4", "if row 5, column 5 is 2, row 5, column 9 is 4"),
            ("it can be 2 + 8, 3 + 7 or 4 + 6", "it can be 2 plus 8, 3 plus 7 or 4 plus 6"),
            ("so 35 − 29 = 6 is left outside", "so 35 minus 29, which is 6, is left outside"),
            ("they hold 2 + 3 = 5, and 20 − 5 = 15", "they hold 2 plus 3, which is 5, and 20 minus 5 is 15"),
            ("2 + 3 + 4 = 9", "2 plus 3 plus 4 is 9"),
            ("case 1.4.3", "case 1, part 4, part 3"),
            ("the 5s at r2c1 and r6c5", "the 5s at row 2, column 1, and row 6, column 5"),
            (
                "between the crusts of column 2, r6c2 is not 5",
                "between the crusts of column 2: row 6, column 2 is not 5",
            ),
            ("in 2 and 7 or r1", "in 2 and 7 or r1"),
            ("r4c3 with r4c6, r5c6 with r5c8", "row 4, columns 3 and 6, row 5, columns 6 and 8"),
            ("r1c1, r2c2 and r3c3", "row 1, column 1; row 2, column 2; and row 3, column 3"),
            ("look at row 4, column 2 and box 3", "look at row 4 and column 2 and box 3"),
            ("look at rows 4 and 5, columns 2 and 3", "look at rows 4 and 5 and columns 2 and 3"),
            ("box 4, row 5's clue of 10 and row 2", "box 4, row 5's clue of 10 and row 2"),
            ("row 3, row 2's clue of 13 and box 1", "row 3, row 2's clue of 13 and box 1"),
            ("row 4's clue is 12, column 5's is 9", "row 4's clue is 12, column 5's is 9"),
            ("with 1 in r1c5, row 6 has no 6", "with 1 in row 1, column 5: row 6 has no 6"),
        ] {
            assert_eq!(read_out(print), aloud);
        }
    }
}
