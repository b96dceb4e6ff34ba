//! Where a try's random numbers come from: its number, the seed, and what it is to give.

use std::hash::Hasher;

use fnv::FnvHasher;
use rand::SeedableRng;
use rand_chacha::ChaCha8Rng;
use trail::TechniqueId;

use crate::brief::{Brief, Clues, Span};

/// The random numbers of that try.
///
/// The brief has a say, and for drills the technique that is asked, so that two briefs with one seed do not start from
/// the same solutions, which would give puzzles that differ on the page and not in the end.
pub(crate) fn luck(brief: &Brief, drilled: Option<TechniqueId>, seed: u64, number: u64) -> ChaCha8Rng {
    let drilled = drilled.map_or("", TechniqueId::name);
    let text = format!("{seed}\n{}\n{drilled}", normal_form(brief));
    let mut hasher = FnvHasher::default();
    hasher.write(text.as_bytes());
    let mut luck = ChaCha8Rng::seed_from_u64(hasher.finish());
    luck.set_stream(number);
    luck
}

/// The brief as a text: equal briefs have equal texts, whatever order their techniques are named in.
fn normal_form(brief: &Brief) -> String {
    let Brief { size, kind, teaches, known, minutes, givens, clues, look, is_spare_allowed } = brief;
    let mut teaches: Vec<&str> = teaches.iter().map(|it| it.name()).collect();
    teaches.sort_unstable();
    teaches.dedup();
    let mut known: Vec<&str> = known.techniques().map(|it| it.id().name()).collect();
    known.sort_unstable();
    let span = |it: &Span| format!("{}..{}", it.least, it.most);
    let minutes = minutes.as_ref().map_or(String::new(), span);
    let clues = match clues {
        Clues::Within(it) => span(it),
        other => format!("{other:?}"),
    };
    let bare = if *is_spare_allowed { "" } else { " bare" };
    let boxes = format!("{}x{}", size.box_width(), size.box_height());
    format!(
        "{boxes} {kind:?} teaches {} knows {} minutes {minutes} givens {} clues {clues} look {look:?}{bare}",
        teaches.join(","),
        known.join(","),
        span(givens),
    )
}

#[cfg(test)]
mod tests {
    use grid::Size;
    use rand::Rng;
    use reason::Known;

    use super::*;
    use crate::brief::{Kind, Look, usually_known};

    #[test]
    fn whatever_a_brief_says_changes_the_luck_and_how_it_is_said_does_not() {
        let ids = [TechniqueId::new("crust-reach"), TechniqueId::new("naked-pair")];
        let teaching = |teaches: &[TechniqueId]| Brief {
            size: Size::NINE,
            kind: Kind::Sandwich,
            teaches: teaches.to_vec(),
            known: usually_known(&ids),
            minutes: None,
            givens: Span { least: 0, most: 24 },
            clues: Clues::Needed,
            look: Look::Any,
            is_spare_allowed: false,
        };
        let first = |brief: &Brief, seed, number| luck(brief, None, seed, number).next_u64();
        let brief = teaching(&ids);
        assert_eq!(first(&brief, 1, 0), first(&teaching(&[ids[1], ids[0]]), 1, 0));
        let some = Some(Span { least: 1, most: 9 });
        let others = [
            Brief { size: Size::of_side(6).unwrap(), ..brief.clone() },
            Brief { kind: Kind::Classic, ..brief.clone() },
            teaching(&ids[..1]),
            Brief { known: Known::ALL, ..brief.clone() },
            Brief { minutes: some, ..brief.clone() },
            Brief { givens: Span { least: 0, most: 23 }, ..brief.clone() },
            Brief { clues: Clues::All, ..brief.clone() },
            Brief { clues: Clues::Within(Span { least: 0, most: 9 }), ..brief.clone() },
            Brief { look: Look::Symmetric, ..brief.clone() },
            Brief { is_spare_allowed: true, ..brief.clone() },
        ];
        let mut lucks: Vec<u64> = others.iter().map(|it| first(it, 1, 0)).collect();
        lucks.extend([first(&brief, 1, 0), first(&brief, 2, 0), first(&brief, 1, 1)]);
        lucks.push(luck(&brief, Some(ids[0]), 1, 0).next_u64());
        lucks.sort_unstable();
        lucks.dedup();
        assert_eq!(lucks.len(), others.len() + 4);
    }
}
