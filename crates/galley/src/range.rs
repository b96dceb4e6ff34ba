//! Ranges as they are typed: `8..12`, `..6`, `8..`, `8`.

use std::str::FromStr;

/// From so many to so many, both ends included; an end that is not said is open.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Range {
    /// At least so many.
    pub(crate) from: Option<usize>,
    /// At most so many.
    pub(crate) to: Option<usize>,
}

impl FromStr for Range {
    type Err = String;

    fn from_str(text: &str) -> Result<Range, String> {
        let wrong = || "write 8..12, ..12, 8.. or 8 (both ends count)".to_owned();
        let number = |it: &str| match it.trim() {
            "" => Ok(None),
            it => it.parse::<u16>().map(|it| Some(usize::from(it))).map_err(|_| wrong()),
        };
        let range = match text.split_once("..") {
            Some((from, to)) => Range { from: number(from)?, to: number(to)? },
            None => Range { from: number(text)?, to: number(text)? },
        };
        match range {
            Range { from: None, to: None } => Err(wrong()),
            Range { from: Some(from), to: Some(to) } if from > to => {
                Err(format!("it would end before it begins; did you mean {to}..{from}?"))
            }
            it => Ok(it),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_are_read_in_four_shapes() {
        let read = |text: &str| text.parse::<Range>().map(|it| (it.from, it.to));
        assert_eq!(read("8..12"), Ok((Some(8), Some(12))));
        assert_eq!(read("..6"), Ok((None, Some(6))));
        assert_eq!(read("4.."), Ok((Some(4), None)));
        assert_eq!(read("0"), Ok((Some(0), Some(0))));
        for text in ["", "..", "a", "1-2", "1..b", "-1", "1...3", "99999999"] {
            assert!(read(text).is_err(), "{text}");
        }
        assert!(read("12..8").unwrap_err().contains("8..12"));
    }
}
