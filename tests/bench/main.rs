//! Benches: speed as ratios measured in one run.

fn main() {
    divan::main();
}
