//! A time as it is written in a file of captions.

use crate::Time;

/// `00:01:05.250`, `1:05,2`, `01:02:03`: at least minutes and seconds; the fraction of a second after a dot or a comma.
pub(crate) fn time(text: &str) -> Option<Time> {
    let text = text.trim();
    let (whole, fraction) = text.split_once(['.', ',']).unwrap_or((text, ""));
    let parts: Vec<u64> = whole.split(':').map(number).collect::<Option<_>>()?;
    let (hours, minutes, seconds) = match parts[..] {
        // An hour and more may be written in minutes.
        [minutes, seconds] if seconds < 60 => (0, minutes, seconds),
        [hours, minutes, seconds] if minutes < 60 && seconds < 60 => (hours, minutes, seconds),
        _ => return None,
    };
    let thousandths = match fraction {
        "" if whole.len() < text.len() => return None,
        "" => 0,
        it if it.len() <= 9 => number(&format!("{it:0<9}"))? / 1_000_000,
        _ => return None,
    };
    Some(Time((hours * 3_600 + minutes * 60 + seconds) * 1_000 + thousandths))
}

/// Digits only, and few enough that no time gets too large to be counted.
fn number(text: &str) -> Option<u64> {
    let is_number = !text.is_empty() && text.len() <= 9 && text.bytes().all(|it| it.is_ascii_digit());
    if is_number { text.parse().ok() } else { None }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_as_people_and_programs_write_them() {
        for (text, milliseconds) in [
            ("00:01:05.250", Some(65_250)),
            ("00:01:05,250", Some(65_250)),
            ("1:05", Some(65_000)),
            ("0:25.5", Some(25_500)),
            ("75:10", Some(4_510_000)),
            ("1:02:03", Some(3_723_000)),
            ("1:75", None),
            ("1:60:00", None),
            ("25", None),
            ("1:2x", None),
            ("0:25.", None),
            ("-0:25", None),
            ("", None),
        ] {
            assert_eq!(time(text), milliseconds.map(Time), "{text}");
        }
    }
}
