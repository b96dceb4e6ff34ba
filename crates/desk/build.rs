//! Has the store built again when a migration is added: the compiler sees only those that there were.

fn main() {
    println!("cargo:rerun-if-changed=migrations");
}
