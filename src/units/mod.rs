//! Dimensions and units; reading numbers as people write them; printing them honestly.
//!
//! Inside the program every quantity is a plain `f64` in the canonical [`Unit`] of its
//! property or fact. Other units exist only at the two edges: [`read()`] and [`mod@print`].

mod dimension;
mod number;
pub mod print;
mod read;
mod scalar;
mod spelling;
mod unit;

pub use dimension::Dimension;
pub use number::{Decimal, Exact, NumberFault, is_stand_in};
pub use read::{Asked, Problem, own_unit, read, read_count, read_plain, split_unit};
pub use scalar::{Scalar, Word};
pub use spelling::Spelling;
pub use unit::Unit;
