//! What makes steps of a walkthrough stand out: the break-in, narrow places, and where several ways lead on.

use trail::StepId;

use crate::Account;

/// So many steps that lead on and are no harder than the one told are several ways on.
const SEVERAL: usize = 6;

/// Where no more than so many lead on, a stretch with several ways has come to its end.
const FEW: usize = 2;

/// What makes a step stand out.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Landmark {
    /// With it the puzzle opens: the last step of the way in.
    BreakIn,
    /// It is waited for long, and little else leads on. So many steps do that are no harder, itself among them.
    Narrow(usize),
    /// From here on, so many steps lead on that are no harder.
    Several(usize),
}

impl Account {
    /// Each step that stands out, in order, and what makes it so.
    pub fn landmarks(&self) -> Vec<(StepId, Landmark)> {
        let narrow = self.estimate.narrow_places();
        let break_in = self.break_in_step();
        let (mut landmarks, mut were_several) = (Vec::new(), false);
        for it in &self.estimate.steps {
            if break_in == Some(it.step) {
                landmarks.push((it.step, Landmark::BreakIn));
            }
            if narrow.iter().any(|narrow| narrow.step == it.step) {
                landmarks.push((it.step, Landmark::Narrow(it.open)));
            }
            // A stretch of such steps is one place, even if fewer lead on in between.
            if it.open >= SEVERAL && !were_several {
                landmarks.push((it.step, Landmark::Several(it.open)));
            }
            were_several = it.open >= SEVERAL || (were_several && it.open > FEW);
        }
        landmarks
    }

    /// What makes that step stand out.
    pub fn landmarks_at(&self, step: StepId) -> impl Iterator<Item = Landmark> + use<> {
        self.landmarks().into_iter().filter(move |it| it.0 == step).map(|it| it.1)
    }

    /// The step of the walkthrough that ends its way in.
    fn break_in_step(&self) -> Option<StepId> {
        let way = self.way_in()?;
        let (_, last) = way.steps().last()?;
        let claims: Vec<_> = last.concludes().iter().map(|it| way.fact(*it).claim()).collect();
        let trail = self.explained.walkthrough().trail();
        trail.facts().find(|(_, it)| it.step().is_some() && claims.contains(&it.claim()))?.1.step()
    }
}
