//! One file a command: what it finds out, in words and as a document.

mod calibrate;
mod check;
mod check_list;
mod explain;
mod grade;
mod judge;
mod make;
mod mend;
mod new;
mod order;
mod press;
mod settle;
mod spare;
mod table;
mod twins;
mod why;

pub(crate) use calibrate::Calibrate;
pub(crate) use check::Check;
pub(crate) use explain::Explain;
pub(crate) use grade::Grade;
pub(crate) use judge::Judge;
pub(crate) use make::Make;
pub(crate) use mend::Mend;
pub(crate) use new::New;
pub(crate) use order::{Move, Order};
pub(crate) use press::Press;
pub(crate) use settle::Settle;
pub(crate) use spare::Spare;
pub(crate) use table::Table;
pub(crate) use twins::Twins;
pub(crate) use why::Why;
