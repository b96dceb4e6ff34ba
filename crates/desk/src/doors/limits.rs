//! How often something may be tried: so many times at once, and one more after each span of time.
//!
//! Own code, of one map: the libraries for it bring a clock of their own, which a test cannot put forward, and tables that
//! grow with the number of names an attacker thinks of. What counts here is how often, on tokio's clock.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};
use std::time::Duration;

use tokio::time::Instant;

/// So many names are told apart; those beyond share one allowance, so that many names make nothing large.
const MOST_NAMES: usize = 10_000;

/// An allowance for each name.
#[derive(Debug)]
pub(crate) struct Limit {
    at_once: u32,
    every: Duration,
    /// When the allowance of a name will be whole again.
    whole_at: Mutex<BTreeMap<String, Instant>>,
}

impl Limit {
    /// `at_once` tries, and one more after each `every`.
    pub(crate) fn new(at_once: u32, every: Duration) -> Limit {
        Limit { at_once, every, whole_at: Mutex::default() }
    }

    /// Takes one of the tries under that name.
    ///
    /// # Errors
    ///
    /// If there is none: how long it takes until there is one.
    pub(crate) fn take(&self, name: &str) -> Result<(), Duration> {
        let now = Instant::now();
        let mut whole_at = self.whole_at.lock().unwrap_or_else(PoisonError::into_inner);
        if whole_at.len() >= MOST_NAMES && !whole_at.contains_key(name) {
            whole_at.retain(|_, it| *it > now);
        }
        let is_one_too_many = whole_at.len() >= MOST_NAMES && !whole_at.contains_key(name);
        let name = if is_one_too_many { "" } else { name };
        let after = whole_at.get(name).map_or(now, |it| (*it).max(now)) + self.every;
        let used = after - now;
        let most = self.every * self.at_once;
        if used > most {
            return Err(used - most);
        }
        whole_at.insert(name.to_owned(), after);
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SECOND: Duration = Duration::from_secs(1);

    #[tokio::test(start_paused = true)]
    async fn so_many_at_once_and_one_more_after_each_span() {
        let limit = Limit::new(3, 10 * SECOND);
        for _ in 0..3 {
            assert_eq!(limit.take("a"), Ok(()));
        }
        assert_eq!(limit.take("a"), Err(10 * SECOND));
        assert_eq!(limit.take("b"), Ok(()), "each name has its own");
        tokio::time::advance(4 * SECOND).await;
        assert_eq!(limit.take("a"), Err(6 * SECOND), "a try that is refused costs nothing");
        tokio::time::advance(6 * SECOND).await;
        assert_eq!(limit.take("a"), Ok(()));
        assert_eq!(limit.take("a"), Err(10 * SECOND));
        tokio::time::advance(1000 * SECOND).await;
        for _ in 0..3 {
            assert_eq!(limit.take("a"), Ok(()), "no more than so many add up");
        }
        assert!(limit.take("a").is_err());
    }

    #[tokio::test(start_paused = true)]
    async fn many_names_make_nothing_large() {
        let limit = Limit::new(2, 10 * SECOND);
        for it in 0..MOST_NAMES {
            limit.take(&format!("{it}")).unwrap();
        }
        limit.take("beyond").unwrap();
        limit.take("beyond it").unwrap();
        assert!(limit.take("and more").is_err(), "those beyond share an allowance");
        assert_eq!(limit.take("7"), Ok(()), "known names have their own still");
        assert!(limit.whole_at.lock().unwrap().len() <= MOST_NAMES + 1);
        tokio::time::advance(30 * SECOND).await;
        limit.take("and more").unwrap();
        assert_eq!(limit.whole_at.lock().unwrap().len(), 1, "what is whole again is forgotten");
    }
}
