//! The time of this machine.

use std::time::{SystemTime, UNIX_EPOCH};

/// Seconds since 1970 in the time of Greenwich; 0 on a machine whose clock is before that.
#[expect(
    clippy::disallowed_methods,
    reason = "what is approved and exported at the desk has the day on which it is"
)]
pub(crate) fn now() -> i64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    i64::try_from(since.as_secs()).unwrap_or_default()
}
