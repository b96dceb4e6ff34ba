//! Followed to an end: a digit, or a crust, is tried in a cell and followed from house to house; where a house
//! has no way left in the end, it was not there.
//!
//! At most six looks are taken, each at one house with its clue, between the fewest houses that will do; nothing else is
//! tried on the way (`following`). There is hardly a position in which nothing can be tried in vain, so it is a last
//! resort: whoever knows something easier that is open takes that.
//!
//! ```text
//! 7 2
//! 1 .      with 1 up here, the clue of 7 keeps both crusts of the box below out of the left column; so they
//! - #      stand side by side in the right one, whose clue of 2 wants a 2 between them
//! - #
//! ```

use rulebook::Claim;
use trail::{Proposal, TechniqueId};

use crate::{Technique, View, following};

pub(crate) const FOLLOWED: TechniqueId = TechniqueId::new("followed-to-an-end");

pub(crate) struct FollowedToAnEnd;

impl Technique for FollowedToAnEnd {
    fn id(&self) -> TechniqueId {
        FOLLOWED
    }

    fn weight(&self) -> u32 {
        119
    }

    fn is_last_resort(&self) -> bool {
        true
    }

    fn prerequisites(&self) -> &'static [TechniqueId] {
        const { &[TechniqueId::new("hidden-single"), TechniqueId::new("naked-single"), TechniqueId::new("chain")] }
    }

    fn find(&self, view: &View) -> Vec<Proposal> {
        open(view).to_vec()
    }

    fn open_claims(&self, view: &View) -> Option<Vec<Vec<Claim>>> {
        let claims = |it: &Proposal| it.conclusions.iter().map(|it| it.0).collect();
        Some(open(view).iter().map(claims).collect())
    }
}

fn open<'v>(view: &'v View) -> &'v [Proposal] {
    view.remembered().followed.get_or_init(|| following::steps(view))
}
