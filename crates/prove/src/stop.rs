//! A way to end long questions early, for whoever cannot wait for their limits.

use std::cell::RefCell;
use std::rc::Rc;

thread_local! {
    static IS_ASKED: RefCell<Option<Rc<dyn Fn() -> bool>>> = const { RefCell::new(None) };
}

/// Asks `question`; as soon as `is_asked` says so, every limit in it counts as reached.
///
/// What comes of an interrupted question is therefore never wrong, but depends on the moment, so it is
/// to be thrown away. Holds for questions asked on this thread; where one is asked within another, the
/// inner callback counts until it is answered.
///
/// ```
/// use grid::{Grid, Size};
/// use prove::{Limit, Verdict, interruptible, verdict};
/// use rulebook::Puzzle;
///
/// let blank = Puzzle::new(Grid::empty(Size::NINE), []);
/// let ask = |is_asked: bool| interruptible(move || is_asked, || verdict(&blank, Limit(10_000)));
/// assert!(matches!(ask(false), Verdict::Many(_)));
/// assert_eq!(ask(true), Verdict::Undecided);
/// ```
pub fn interruptible<T>(is_asked: impl Fn() -> bool + 'static, question: impl FnOnce() -> T) -> T {
    /// Puts the callback back that was there before, even if the question panics.
    struct Before(Option<Rc<dyn Fn() -> bool>>);
    impl Drop for Before {
        fn drop(&mut self) {
            IS_ASKED.set(self.0.take());
        }
    }
    let _before = Before(IS_ASKED.replace(Some(Rc::new(is_asked))));
    question()
}

/// Whether the question being asked on this thread should end.
pub(crate) fn is_asked() -> bool {
    // Held by a clone, so that the callback may itself ask a question.
    let callback = IS_ASKED.with_borrow(Clone::clone);
    callback.is_some_and(|it| it())
}
