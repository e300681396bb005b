//! Numbers that look random and are the same in every run.

/// A splitmix64 sequence.
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Dice {
        Dice(seed.wrapping_mul(0x2545_f491_4f6c_dd1d))
    }

    /// From 0 to below 1.
    fn part(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        let bits = u32::try_from((z ^ (z >> 31)) >> 32).expect("half of the bits");
        f64::from(bits) / 4_294_967_296.0
    }

    /// A length with three decimals.
    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        let value = least + (most - least) * self.part();
        (value * 1e3).round() / 1e3
    }

    pub fn chance(&mut self, part: f64) -> bool {
        self.part() < part
    }

    /// One of a list.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "a place in a short list"
    )]
    pub fn pick<T: Copy>(&mut self, list: &[T]) -> T {
        list[(self.part() * list.len() as f64) as usize]
    }
}
