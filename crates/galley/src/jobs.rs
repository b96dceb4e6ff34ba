//! One file a command: what it finds out, in words and as a document.

mod check;
mod explain;
mod judge;
mod make;
mod new;
mod order;
mod press;
mod table;
mod why;

pub(crate) use check::Check;
pub(crate) use explain::Explain;
pub(crate) use judge::Judge;
pub(crate) use make::Make;
pub(crate) use new::New;
pub(crate) use order::Order;
pub(crate) use press::Press;
pub(crate) use table::Table;
pub(crate) use why::Why;
