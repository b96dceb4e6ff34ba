//! Has the store built again when a migration is added: the compiler sees only those that there were.

#![expect(clippy::print_stdout, reason = "this is how a build script speaks")]

fn main() {
    println!("cargo:rerun-if-changed=migrations");
}
