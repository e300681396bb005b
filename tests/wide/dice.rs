//! Numbers that look random and are the same in every run.

/// A generator with 64 bits of state.
///
/// Source: Steele, Lea, Flood, "Fast Splittable Pseudorandom Number Generators" (2014).
pub struct Dice(u64);

impl Dice {
    /// A generator that always gives the same numbers for the same seed.
    pub fn new(seed: u64) -> Dice {
        Dice(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// One of some things.
    pub fn pick<T: Clone>(&mut self, things: &[T]) -> T {
        let at = self.next() % things.len() as u64;
        things[usize::try_from(at).unwrap()].clone()
    }

    /// True in so many of a hundred throws.
    pub fn chance(&mut self, of_a_hundred: u64) -> bool {
        self.next() % 100 < of_a_hundred
    }

    /// A number between two others, in hundredths.
    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        let part = f64::from(u32::try_from(self.next() % 10_001).unwrap()) / 10_000.0;
        hundredths(least + (most - least).max(0.0) * part)
    }
}

/// Rounded to hundredths of a millimetre, as a shop writes a length down.
pub fn hundredths(length: f64) -> f64 {
    (length * 100.0).round() / 100.0
}
