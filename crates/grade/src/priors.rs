//! How far solves are believed before any is seen: the spreads of the fit, all in logarithms of time, each with its
//! reason. Estimates, from no data yet. A spread of 0.35 is a factor of 1.4 either way for two in three.

/// How far the whole model may be off. Its seconds have never been held against a clock.
pub(crate) const MODEL: f64 = 0.5;

/// How far one kind of solver may be off more than the others.
pub(crate) const KIND: f64 = 0.3;

/// How far one person differs from their kind.
pub(crate) const PERSON: f64 = 0.35;

/// How far one technique's wait may be off more than the others'.
pub(crate) const TECHNIQUE: f64 = 0.5;

/// How far a stretch is off beyond the luck of noticing: the solver went another way than the walkthrough.
pub(crate) const OTHER_WAY: f64 = 0.4;

/// Degrees of freedom of Student's t, the distribution that a stretch's logarithm is taken to have: with so few, a
/// stretch that is far off (a telephone call) hardly moves the fit. K. Lange, R. Little, J. Taylor, "Robust
/// statistical modeling using the t distribution", JASA 84 (1989), who find 4 to work well (from memory).
pub(crate) const FREEDOM: f64 = 4.0;

/// The fewest solves that move the minutes. A day differs by about 0.35, so the mean of five is still off by
/// 0.35 / √5, a sixth; of fewer, by more than would be mended.
pub const FEWEST_SOLVES: usize = 5;

/// The fewest puzzles they must be of: with fewer, leaving one out leaves what one puzzle is like.
pub const FEWEST_PUZZLES: usize = 3;

/// The fewest steps of a technique that move its wait. The logarithm of an exponential wait has a spread of π /
/// √6 = 1.28 (any table of the Gumbel distribution), so the mean of ten is off by 0.4: less than a technique
/// may be.
pub const FEWEST_STEPS: usize = 10;

/// The fewest stretches of a solve that counts.
pub const FEWEST_STRETCHES: usize = 5;
