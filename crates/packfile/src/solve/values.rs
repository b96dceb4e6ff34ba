//! The values of a test solve. Each is checked while it is read, so that the parser knows the place of what it refuses.

use std::fmt;
use std::marker::PhantomData;

use grid::{Cell, Digit, Size};
use serde::de::{Error, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};

use crate::phrases::quoted;

/// Nobody sits over a puzzle for longer: a week.
const MOST_SECONDS: f64 = 7.0 * 24.0 * 3600.0;

/// A text of one line that is not empty.
pub(crate) struct Line(pub(crate) String);

impl<'de> Deserialize<'de> for Line {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Line, D::Error> {
        let text = String::deserialize(from)?;
        match text.trim().is_empty() || text.chars().any(char::is_control) {
            true => Err(D::Error::custom(format!("{} is no text of one line", quoted(&text)))),
            false => Ok(Line(text)),
        }
    }
}

/// Seconds since the solve began.
pub(crate) struct Seconds(pub(crate) f64);

impl<'de> Deserialize<'de> for Seconds {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Seconds, D::Error> {
        match f64::deserialize(from)? {
            it if (0.0..=MOST_SECONDS).contains(&it) => Ok(Seconds(it)),
            it => Err(D::Error::custom(format!("{it} is not from 0 to {MOST_SECONDS} seconds"))),
        }
    }
}

/// A cell, written `r4c7`.
pub(crate) struct CellName(pub(crate) Cell);

impl<'de> Deserialize<'de> for CellName {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<CellName, D::Error> {
        let text = String::deserialize(from)?;
        let numbers = text.strip_prefix('r').and_then(|it| it.split_once('c'));
        let cell = numbers.and_then(|(row, column)| largest().cell(row.parse().ok()?, column.parse().ok()?));
        // `r04c7` and `r+4c7` are not how anybody writes it.
        match cell.filter(|it| it.to_string() == text) {
            Some(it) => Ok(CellName(it)),
            None => Err(D::Error::custom(format!("{} is no cell, such as `r4c7`", quoted(&text)))),
        }
    }
}

/// A digit, as a number.
pub(crate) struct DigitNumber(pub(crate) Digit);

impl<'de> Deserialize<'de> for DigitNumber {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<DigitNumber, D::Error> {
        let number = u64::deserialize(from)?;
        let digit = u8::try_from(number).ok().and_then(|it| largest().digit(it));
        match digit {
            Some(it) => Ok(DigitNumber(it)),
            None => Err(D::Error::custom(format!("{number} is no digit from 1 to {}", largest().side()))),
        }
    }
}

/// A digit, or `null` for a cell that was emptied; it must be said which.
pub(crate) fn digit_or_null<'de, D: Deserializer<'de>>(from: D) -> Result<Option<DigitNumber>, D::Error> {
    Option::deserialize(from)
}

/// The largest board there is.
fn largest() -> Size {
    (4..=16).rev().find_map(Size::of_side).unwrap_or(Size::NINE)
}

/// Something with a time.
pub(crate) trait At {
    /// From when to when.
    fn span(&self) -> Span;
}

/// A span of time, in seconds.
pub(crate) struct Span {
    pub(crate) from: f64,
    pub(crate) to: f64,
}

/// A list in which time does not go backwards and nothing overlaps.
pub(crate) fn in_order<'de, D: Deserializer<'de>, T: Deserialize<'de> + At>(
    from: D,
) -> Result<Vec<T>, D::Error> {
    from.deserialize_seq(InOrder(PhantomData))
}

struct InOrder<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de> + At> Visitor<'de> for InOrder<T> {
    type Value = Vec<T>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list in order of time")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Vec<T>, A::Error> {
        let mut items: Vec<T> = Vec::new();
        let mut last = 0.0;
        while let Some(it) = list.next_element::<T>()? {
            let span = it.span();
            for (before, after) in [(last, span.from), (span.from, span.to)] {
                if after < before {
                    return Err(A::Error::custom(format!("time goes back from {before} to {after} seconds")));
                }
            }
            last = span.to;
            items.push(it);
        }
        Ok(items)
    }
}
