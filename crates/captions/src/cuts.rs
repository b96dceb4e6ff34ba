//! What is cut out of a recording, and where everything else is afterwards.

use crate::{Caption, Chapter, Time, chapters};

/// A caption of which less is left than this is not worth showing: it cannot be read.
const LEAST_SHOWN: Time = Time(500);

/// A stretch to be cut out, and why.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Cut {
    /// Where it begins.
    pub from: Time,
    /// Where it ends.
    pub to: Time,
    /// Why, in a few words; may be empty.
    pub why: String,
}

/// Stretches to be cut out of a recording.
///
/// Invariant: in order, each longer than nothing, with something left between any two, and all within the recording.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Cuts {
    cuts: Vec<Cut>,
}

impl Cuts {
    /// The cuts in order, those that touch or overlap joined into one, as far as they lie within a recording that long.
    pub fn new(cuts: impl IntoIterator<Item = Cut>, total: Time) -> Cuts {
        let mut cuts: Vec<Cut> = cuts.into_iter().map(|it| Cut { to: it.to.min(total), ..it }).collect();
        cuts.retain(|it| it.from < it.to);
        cuts.sort_by_key(|it| (it.from, it.to));
        let mut joined: Vec<Cut> = Vec::new();
        for it in cuts {
            match joined.last_mut() {
                Some(last) if it.from <= last.to => {
                    last.to = last.to.max(it.to);
                    if !it.why.is_empty() && !last.why.contains(&it.why) {
                        let comma = if last.why.is_empty() { "" } else { "; " };
                        last.why = format!("{}{comma}{}", last.why, it.why);
                    }
                }
                _ => joined.push(it),
            }
        }
        Cuts { cuts: joined }
    }

    /// One after the other.
    pub fn iter(&self) -> impl Iterator<Item = &Cut> {
        self.cuts.iter()
    }

    /// Whether nothing is cut.
    pub fn is_empty(&self) -> bool {
        self.cuts.is_empty()
    }

    /// How much is cut out altogether.
    pub fn total(&self) -> Time {
        self.cuts.iter().fold(Time(0), |sum, it| sum + it.to.since(it.from))
    }

    /// What is kept of a recording that long, in order.
    pub fn kept(&self, total: Time) -> Vec<(Time, Time)> {
        let begins = [Time(0)].into_iter().chain(self.cuts.iter().map(|it| it.to));
        let ends = self.cuts.iter().map(|it| it.from).chain([total]);
        begins.zip(ends).filter(|(from, to)| from < to).collect()
    }

    /// Where a moment of the recording is once it is cut; one within a cut is where the cut was.
    pub fn moved(&self, at: Time) -> Time {
        let gone = self.cuts.iter().take_while(|it| it.from < at);
        at - gone.fold(Time(0), |sum, it| sum + it.to.min(at).since(it.from))
    }

    /// Whether that moment is cut out. A cut's first moment is, its last is kept.
    pub fn has_cut(&self, at: Time) -> bool {
        self.cuts.iter().any(|it| it.from <= at && at < it.to)
    }

    /// The captions as they are after cutting. One within a cut is gone; so is one of which less than half a second
    /// is left.
    pub fn captions(&self, captions: &[Caption]) -> Vec<Caption> {
        let moved = captions.iter().map(|it| Caption {
            from: self.moved(it.from),
            to: self.moved(it.to),
            text: it.text.clone(),
        });
        let was_whole = captions.iter().map(Caption::lasts);
        let kept = moved.zip(was_whole).filter(|(it, whole)| it.lasts() >= LEAST_SHOWN.min(*whole));
        kept.map(|(it, _)| it).filter(|it| it.from < it.to).collect()
    }

    /// The chapters as they are after cutting a recording that long, none too short.
    pub fn chapters(&self, parts: &[Chapter], total: Time) -> Vec<Chapter> {
        let moved = parts.iter().map(|it| Chapter { at: self.moved(it.at), title: it.title.clone() });
        chapters(moved.collect(), total - self.total())
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn cuts(stretches: &[(u64, u64)], total: u64) -> Cuts {
        let cut = |&(from, to): &(u64, u64)| Cut { from: Time(from), to: Time(to), why: String::new() };
        Cuts::new(stretches.iter().map(cut), Time(total))
    }

    fn caption(from: u64, to: u64) -> Caption {
        Caption { from: Time(from), to: Time(to), text: "said".to_owned() }
    }

    #[test]
    fn what_follows_a_cut_moves_forward() {
        let cuts = cuts(&[(5_000, 7_000), (10_000, 11_000)], 20_000);
        for (at, then) in
            [(0, 0), (5_000, 5_000), (6_000, 5_000), (7_000, 5_000), (10_500, 8_000), (20_000, 17_000)]
        {
            assert_eq!(cuts.moved(Time(at)), Time(then), "{at}");
        }
        assert_eq!(cuts.kept(Time(20_000)).len(), 3);
    }

    #[test]
    fn cuts_that_overlap_are_one() {
        let joined =
            cuts(&[(5_000, 9_000), (3_000, 6_000), (9_000, 9_500), (30, 20), (19_000, 90_000)], 20_000);
        let stretches: Vec<_> = joined.iter().map(|it| (it.from.0, it.to.0)).collect();
        assert_eq!(stretches, [(3_000, 9_500), (19_000, 20_000)]);
        let why = |why: &str| Cut { from: Time(1), to: Time(5), why: why.to_owned() };
        let both = Cuts::new([why("silence"), why("slip"), why("")], Time(9));
        assert_eq!(both.iter().next().unwrap().why, "silence; slip");
    }

    #[test]
    fn captions_within_a_cut_are_gone() {
        let cuts = cuts(&[(5_000, 9_000)], 20_000);
        let before = [
            caption(0, 4_000),
            caption(4_000, 6_000),
            caption(6_000, 8_000),
            caption(8_800, 9_200),
            caption(8_500, 12_000),
        ];
        let after: Vec<_> = cuts.captions(&before).iter().map(|it| (it.from.0, it.to.0)).collect();
        assert_eq!(after, [(0, 4_000), (4_000, 5_000), (5_000, 8_000)]);
    }

    #[test]
    fn chapters_keep_their_rules_after_cutting() {
        let parts = [0, 30, 60].map(|at| Chapter { at: Time::seconds(at), title: format!("at {at}") });
        let cuts = cuts(&[(35_000, 58_000)], 100_000);
        let lines = crate::chapter_lines(&cuts.chapters(&parts, Time::seconds(100)));
        assert_eq!(lines, "0:00 at 0\n0:37 at 60\n", "the one at 30 is seven seconds long now");
    }

    proptest! {
        #[test]
        fn durations_add_up_and_no_caption_lies_in_a_cut(
            stretches in prop::collection::vec((0_u64..60_000, 0_u64..60_000), 0..8),
            spoken in prop::collection::vec((0_u64..60_000, 1_u64..5_000), 0..20),
        ) {
            let total = Time(60_000);
            let cuts = cuts(&stretches, total.0);
            let kept: u64 = cuts.kept(total).iter().map(|(from, to)| to.0 - from.0).sum();
            prop_assert_eq!(kept + cuts.total().0, total.0);
            prop_assert_eq!(cuts.moved(total), total - cuts.total());
            let captions: Vec<Caption> =
                spoken.iter().map(|(from, lasts)| caption(*from, (from + lasts).min(total.0))).collect();
            for it in &captions {
                // What is left of a caption is as long as the moments of it that are kept.
                let left = (it.from.0..it.to.0).filter(|at| !cuts.has_cut(Time(*at))).count() as u64;
                prop_assert_eq!(cuts.moved(it.to).0 - cuts.moved(it.from).0, left);
            }
            for it in cuts.captions(&captions) {
                prop_assert!(it.from < it.to && it.to <= total - cuts.total());
            }
        }
    }
}
