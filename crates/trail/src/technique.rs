//! The names of techniques.

use std::fmt;

/// A technique's name as files and JSON write it, for instance `hidden-single`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct TechniqueId(&'static str);

impl TechniqueId {
    /// The id of the last resort: an argument by cases, which is no technique of its own.
    pub const SMALL_ARGUMENT: TechniqueId = TechniqueId("small-argument");

    /// Names a technique. `reason` keeps the registry of all of them.
    pub const fn new(name: &'static str) -> TechniqueId {
        TechniqueId(name)
    }

    /// The name.
    pub fn name(self) -> &'static str {
        self.0
    }
}

impl fmt::Display for TechniqueId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0)
    }
}

impl fmt::Debug for TechniqueId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0)
    }
}
