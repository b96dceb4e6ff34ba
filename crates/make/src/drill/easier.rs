//! What somebody finds out who knows only what is easier than the technique that is asked.

use reason::{Known, TECHNIQUES, Technique, View};
use rulebook::Claim;

use crate::moment::as_far_as_it_goes;

/// A technique that says in one step what several steps of easier ones always say too: in a chain of equal pairs each
/// link is a naked pair, after which the houses of the links have no other places for either digit, so that two
/// two-colour chains say the rest. That is four steps or more in place of one.
const SHORTER: &str = "chain-of-equal-pairs";

/// Whether a claim is known from there to those who know all that is easier: however many steps it takes, or for a
/// technique that is only shorter, by one step.
pub(super) fn easily_known<'v>(shown: &'v View<'v>, asked: &dyn Technique) -> impl Fn(&Claim) -> bool + 'v {
    let easier = Known::only(TECHNIQUES.iter().map(|it| it.id()).take_while(|it| *it != asked.id()));
    let reached: Vec<View<'v>> = match asked.id().name() {
        SHORTER => after_each_step(shown, easier),
        _ => vec![as_far_as_it_goes(shown.clone(), easier)],
    };
    move |claim| reached.iter().any(|it| !it.is_news(*claim))
}

/// The positions that one step leads to.
fn after_each_step<'v>(shown: &View<'v>, known: Known) -> Vec<View<'v>> {
    let after = |step| {
        let mut view = shown.clone();
        view.take(step).is_ok().then_some(view)
    };
    known.techniques().flat_map(|it| it.find(shown)).filter_map(after).collect()
}
