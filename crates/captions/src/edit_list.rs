//! Cuts as editing programs read them.

use crate::{Cuts, Time};

/// Frames a second, all of them counted.
///
/// Invariant: one to 120. Rates that drop frame numbers (29.97) are not written.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct FrameRate(u8);

impl FrameRate {
    /// So many frames a second, if an edit list can have them.
    pub fn new(frames: u8) -> Option<FrameRate> {
        (1..=120).contains(&frames).then_some(FrameRate(frames))
    }

    /// How many frames have begun by then, the one that begins just then not among them.
    fn frames(self, at: Time) -> u64 {
        (at.0 * u64::from(self.0) + 500) / 1_000
    }

    /// `00:01:05:12`: hours, minutes, seconds and frames.
    fn code(self, frames: u64) -> String {
        let rate = u64::from(self.0);
        let seconds = frames / rate;
        let (hours, minutes) = (seconds / 3_600, seconds / 60 % 60);
        format!("{hours:02}:{minutes:02}:{:02}:{:02}", seconds % 60, frames % rate)
    }
}

/// What is kept of a recording that long, as an edit decision list in the form that is known as CMX 3600: an event a
/// stretch, with its times in the recording and in the result. Times are rounded to the nearest frame.
///
/// `title` is the list's, `reel` the recording's name: eight letters and digits at most are kept of it.
pub fn edit_list(cuts: &Cuts, total: Time, rate: FrameRate, title: &str, reel: &str) -> String {
    let reel: String = reel.chars().filter(char::is_ascii_alphanumeric).take(8).collect();
    let reel = if reel.is_empty() { "AX".to_owned() } else { reel.to_uppercase() };
    let title: String = title.chars().map(|it| if it.is_control() { ' ' } else { it }).take(70).collect();
    let mut list = format!("TITLE: {title}\nFCM: NON-DROP FRAME\n");
    let mut record = 0;
    let mut number = 0;
    for (from, to) in cuts.kept(total) {
        let (from, to) = (rate.frames(from), rate.frames(to));
        // What is shorter than a frame cannot be shown.
        if from == to {
            continue;
        }
        number += 1;
        let times = [from, to, record, record + to - from].map(|it| rate.code(it));
        list.push_str(&format!("{number:03}  {reel:<8} B     C        {}\n", times.join(" ")));
        record += to - from;
    }
    list
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Cut;

    fn cuts() -> Cuts {
        let cut = |from, to, why: &str| Cut { from: Time(from), to: Time(to), why: why.to_owned() };
        Cuts::new([cut(5_000, 7_500, "slip"), cut(60_000, 61_000, "")], Time(90_000))
    }

    #[test]
    fn the_edit_list_keeps_what_is_not_cut() {
        let list = edit_list(&cuts(), Time(90_000), FrameRate::new(25).unwrap(), "First light", "take-1");
        assert_eq!(
            list,
            "TITLE: First light\nFCM: NON-DROP FRAME\n\
             001  TAKE1    B     C        00:00:00:00 00:00:05:00 00:00:00:00 00:00:05:00\n\
             002  TAKE1    B     C        00:00:07:13 00:01:00:00 00:00:05:00 00:00:57:12\n\
             003  TAKE1    B     C        00:01:01:00 00:01:30:00 00:00:57:12 00:01:26:12\n"
        );
    }
}
