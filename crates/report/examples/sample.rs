//! The report on a sample pack, so that a person can look at it:
//! `cargo run -p report --example sample > report.html`; with `-- --unseal` nothing is kept back.
#![allow(clippy::print_stdout)]

#[path = "../tests/common/mod.rs"]
mod common;

fn main() {
    let unseal = std::env::args().any(|it| it == "--unseal");
    println!("{}", common::Sample::whole(unseal).report());
}
