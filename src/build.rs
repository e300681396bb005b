//! Build script: a rule or evidence file that is added must be noticed, though no Rust changed.

#![allow(
    clippy::print_stdout,
    reason = "standard output is how a build script speaks to cargo"
)]

fn main() {
    println!("cargo::rerun-if-changed=rules");
    println!("cargo::rerun-if-changed=tests/evidence");
}
