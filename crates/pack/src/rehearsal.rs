//! The log of a rehearsal or a recording: what happened on the stage, and when.

use captions::Time;
use grid::{Cell, Digit};

/// One rehearsal or recording of a puzzle's walkthrough.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Rehearsal {
    /// The puzzle's id, which the pack need not have.
    pub puzzle: String,
    /// Whether it was recorded.
    pub is_recording: bool,
    /// How long it was.
    pub total: Time,
    /// What happened, in order.
    pub events: Vec<Event>,
}

/// Something that happened on the stage.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Event {
    /// When.
    pub at: Time,
    /// What.
    pub is: Happening,
}

/// What can happen on the stage.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Happening {
    /// Credit and rules begin to be said.
    Opening,
    /// A step begins to be said.
    Step {
        /// Its number in the walkthrough of that day.
        number: usize,
        /// Its key, which outlives that walkthrough.
        key: String,
    },
    /// The walkthrough is over, and the close begins to be said.
    Close,
    /// A digit was written.
    Digit(Cell, Digit),
    /// Something else was marked in a cell: a crust, filling, a pencil mark.
    Mark(Cell),
    /// What had been entered in a cell at a time before was undone.
    Undone {
        /// The cell.
        cell: Cell,
        /// When it had been entered.
        since: Time,
    },
    /// The presenter went away.
    Pause,
    /// The presenter came back.
    Resume,
}

impl Rehearsal {
    /// When which step was first reached, by its key: in order of time, each step once.
    pub fn reached(&self) -> Vec<(Time, &str)> {
        let mut reached: Vec<(Time, &str)> = Vec::new();
        for it in &self.events {
            if let Happening::Step { key, .. } = &it.is
                && !reached.iter().any(|(_, known)| known == key)
            {
                reached.push((it.at, key));
            }
        }
        reached
    }

    /// When something first happened, if it did.
    pub fn first(&self, what: &Happening) -> Option<Time> {
        self.events.iter().find(|it| it.is == *what).map(|it| it.at)
    }

    /// From when to when the presenter was away; to the end, if they never came back.
    pub fn pauses(&self) -> Vec<(Time, Time)> {
        let mut pauses = Vec::new();
        let mut since = None;
        for it in &self.events {
            match (&it.is, since) {
                (Happening::Pause, None) => since = Some(it.at),
                (Happening::Resume, Some(from)) => {
                    pauses.push((from, it.at));
                    since = None;
                }
                _ => {}
            }
        }
        pauses.extend(since.map(|it| (it, self.total)));
        pauses
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_count_from_when_they_were_first_reached() {
        let step = |at, key: &str| Event {
            at: Time::seconds(at),
            is: Happening::Step { number: 1, key: key.to_owned() },
        };
        let event = |at, is| Event { at: Time::seconds(at), is };
        let log = Rehearsal {
            puzzle: "first-light".to_owned(),
            is_recording: true,
            total: Time::seconds(99),
            events: vec![
                event(0, Happening::Opening),
                step(10, "a"),
                event(12, Happening::Pause),
                event(13, Happening::Pause),
                event(20, Happening::Resume),
                step(30, "b"),
                step(40, "a"),
                event(90, Happening::Pause),
            ],
        };
        assert_eq!(log.reached(), [(Time::seconds(10), "a"), (Time::seconds(30), "b")]);
        let pauses = [(12, 20), (90, 99)].map(|(from, to)| (Time::seconds(from), Time::seconds(to)));
        assert_eq!(log.pauses(), pauses);
        assert_eq!(log.first(&Happening::Opening), Some(Time(0)));
        assert_eq!(log.first(&Happening::Close), None);
    }
}
