//! Cuts as people read and write them: a line each.

use crate::read::stamps::time;
use crate::{Cut, Cuts};

/// A line a cut: from, to, how long, why. [`read_cuts`] reads it back.
pub fn cut_lines(cuts: &Cuts) -> String {
    let lines = cuts.iter().map(|it| {
        let lasts = it.to.since(it.from).as_seconds();
        let why = if it.why.is_empty() { String::new() } else { format!("  {}", it.why.replace('\n', " ")) };
        format!("{} to {}  {lasts:.1} s{why}\n", it.from, it.to)
    });
    lines.collect()
}

/// Reads such lines: two times parted by `to`, then anything; how long it says that is does not count. Times may be
/// written shorter, as `1:05`. Lines that are blank or begin with `#` are passed over.
///
/// # Errors
///
/// The number of the first line, from 1, that is no cut.
pub fn read_cuts(text: &str) -> Result<Vec<Cut>, usize> {
    let lines = text.lines().enumerate().map(|(at, line)| (at + 1, line.trim()));
    let meant = lines.filter(|(_, line)| !line.is_empty() && !line.starts_with('#'));
    meant.map(|(number, line)| cut(line).ok_or(number)).collect()
}

fn cut(line: &str) -> Option<Cut> {
    let mut words = line.split_whitespace();
    let from = time(words.next()?)?;
    let _to = words.next().filter(|it| *it == "to")?;
    let to = time(words.next()?)?;
    let mut why: Vec<&str> = words.collect();
    // How long it is follows from the times.
    if let [lasts, "s", ..] = why[..]
        && lasts.parse::<f64>().is_ok()
    {
        why.drain(..2);
    }
    (from < to).then(|| Cut { from, to, why: why.join(" ") })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Time;

    #[test]
    fn cuts_are_listed_and_read_back() {
        let cut = |from, to, why: &str| Cut { from: Time(from), to: Time(to), why: why.to_owned() };
        let cuts =
            [cut(5_000, 7_500, "slip"), cut(60_000, 61_000, ""), cut(70_001, 80_000, "12 s of silence")];
        let lines = cut_lines(&Cuts::new(cuts.clone(), Time(90_000)));
        assert_eq!(
            lines,
            "00:00:05.000 to 00:00:07.500  2.5 s  slip\n00:01:00.000 to 00:01:01.000  1.0 s\n\
             00:01:10.001 to 00:01:20.000  10.0 s  12 s of silence\n"
        );
        assert_eq!(read_cuts(&lines), Ok(cuts.to_vec()));
        assert_eq!(read_cuts("# mine\n\n 0:05 to 0:07.5 slip\n"), Ok(cuts[..1].to_vec()));
        for (text, line) in [("0:05 to", 1), ("\n0:07 to 0:05", 2), ("0:05 0:07", 1), ("x to y", 1)] {
            assert_eq!(read_cuts(text), Err(line), "{text}");
        }
    }
}
