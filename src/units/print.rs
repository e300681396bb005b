//! Printing numbers honestly: enough decimals to keep two compared values apart, and never
//! rounded towards "enough".

use super::{Spelling, Unit};

/// The units in which a library's people read: its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DisplayUnits {
    length: &'static str,
    torque: &'static str,
}

impl Default for DisplayUnits {
    fn default() -> DisplayUnits {
        DisplayUnits {
            length: "mm",
            torque: "N·m",
        }
    }
}

/// How one quantity is shown: symbol, factor from the canonical unit, decimals.
#[derive(Clone, Copy, Debug)]
struct UnitShown {
    symbol: &'static str,
    factor: f64,
    decimals: usize,
}

impl DisplayUnits {
    /// Lengths in `length`, torques in `torque`, both names from [`Spelling`].
    #[must_use]
    pub fn new(length: &'static str, torque: &'static str) -> DisplayUnits {
        DisplayUnits { length, torque }
    }

    /// Unit of lengths: `mm` or `in`.
    #[must_use]
    pub fn length(&self) -> &'static str {
        self.length
    }

    fn shown(self, unit: Unit) -> UnitShown {
        let canonical = |decimals| UnitShown {
            symbol: unit.shown(),
            factor: 1.0,
            decimals,
        };
        let chosen = |name: &'static str, decimals| {
            let per = Spelling::find(name, unit).map_or(1.0, Spelling::factor);
            UnitShown {
                symbol: name,
                factor: 1.0 / per,
                decimals,
            }
        };
        match unit {
            Unit::Mm if self.length == "in" => chosen("in", 3),
            Unit::Nm => chosen(self.torque, 1),
            Unit::One => UnitShown {
                symbol: "",
                factor: 1.0,
                decimals: 2,
            },
            Unit::Mm | Unit::KW | Unit::Deg | Unit::NPerMm | Unit::GMm => canonical(1),
            Unit::N | Unit::MPa | Unit::Hz | Unit::PerMin | Unit::MPerMin => canonical(0),
            Unit::Kg => canonical(3),
        }
    }
}

impl UnitShown {
    /// Decimals for a value. A size that is stated to a hundredth is shown so: 6.35 mm is no
    /// 6.4. Below two millimetres hundredths always matter, as a pitch of 1.25 is none of 1.2,
    /// and thousandths where they were stated. So are ten-thousandths of an inch: 3/16 is 0.1875.
    fn needed(self, scaled: f64) -> usize {
        let fine = scaled.abs() < 2.0;
        let (most, otherwise) = match self.symbol {
            "mm" if fine => (self.decimals + 2, self.decimals + 1),
            "mm" | "in" => (self.decimals + 1, self.decimals),
            _ => return self.decimals,
        };
        let in_full = |decimals: &usize| is_on(scaled, *decimals);
        (self.decimals..=most).find(in_full).unwrap_or(otherwise)
    }
}

/// Which way a printed value may be off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rounding {
    /// To the nearest.
    Nearest,
    /// Down, for a value that is less than it should be.
    Down,
    /// Up, for a value that is more than it should be.
    Up,
}

/// A value with its unit, in the library's units: `18.0 mm`, `0.45`, `120.0 N·m`.
#[must_use]
pub fn value(value: f64, unit: Unit, units: DisplayUnits) -> String {
    let shown = units.shown(unit);
    let scaled = value * shown.factor;
    let mut decimals = shown.decimals;
    // A small thing is not nothing: 0.04 mm must not read "0.0 mm".
    while scaled != 0.0 && decimals < shown.decimals + 4 && scaled.abs() < 2.5 * tenth(decimals) {
        decimals += 1;
    }
    decimals = decimals.max(shown.needed(scaled));
    if unit == Unit::One && scaled.fract() == 0.0 {
        decimals = 0;
    }
    with_symbol(rounded(scaled, decimals, Rounding::Nearest), shown.symbol)
}

/// The ends of a range in the library's units, rounded outwards: `25.7 to 28.7 mm`; one value
/// where they are equal.
#[must_use]
pub fn ends((low, high): (f64, f64), unit: Unit, units: DisplayUnits) -> String {
    if low == high {
        return value(low, unit, units);
    }
    let shown = units.shown(unit);
    let (low, high) = (low * shown.factor, high * shown.factor);
    let decimals = shown.needed(low).max(shown.needed(high));
    let low = rounded(low, decimals, Rounding::Down);
    with_symbol(
        format!("{low} to {}", rounded(high, decimals, Rounding::Up)),
        shown.symbol,
    )
}

/// Two compared values: as many decimals as keep them apart, the smaller rounded down and the
/// larger up. Neither is ever shown nearer to "enough" than it is.
#[must_use]
pub fn pair(a: f64, b: f64, unit: Unit, units: DisplayUnits) -> (String, String) {
    let shown = units.shown(unit);
    let (x, y, _) = compared(a, b, unit, units);
    (with_symbol(x, shown.symbol), with_symbol(y, shown.symbol))
}

/// What is between two compared values, `a - b`: the difference of what [`pair`] prints of them,
/// so that who takes the one from the other on one screen finds the third, and never less than
/// it is.
#[must_use]
pub fn difference(a: f64, b: f64, unit: Unit, units: DisplayUnits) -> String {
    let shown = units.shown(unit);
    let (x, y, decimals) = compared(a, b, unit, units);
    let between = match (x.parse::<f64>(), y.parse::<f64>()) {
        (Ok(x), Ok(y)) => x - y,
        _ => (a - b) * shown.factor,
    };
    with_symbol(rounded(between, decimals, Rounding::Nearest), shown.symbol)
}

/// Two compared values as numbers, and with how many decimals.
fn compared(a: f64, b: f64, unit: Unit, units: DisplayUnits) -> (String, String, usize) {
    let shown = units.shown(unit);
    let (x, y) = (a * shown.factor, b * shown.factor);
    let mut decimals = shown.needed(x).max(shown.needed(y));
    // Two counts or sizes are told apart as they are: `25` and `32`.
    if unit == Unit::One && x.fract() == 0.0 && y.fract() == 0.0 {
        decimals = 0;
    }
    while decimals < shown.decimals + 6
        && x != y
        && rounded(x, decimals, Rounding::Nearest) == rounded(y, decimals, Rounding::Nearest)
    {
        decimals += 1;
    }
    let (of_x, of_y) = match x.total_cmp(&y) {
        std::cmp::Ordering::Less => (Rounding::Down, Rounding::Up),
        std::cmp::Ordering::Greater => (Rounding::Up, Rounding::Down),
        std::cmp::Ordering::Equal => (Rounding::Nearest, Rounding::Nearest),
    };
    (
        rounded(x, decimals, of_x),
        rounded(y, decimals, of_y),
        decimals,
    )
}

/// An estimate with its unit: two significant digits.
#[must_use]
pub fn estimate(value: f64, unit: Unit, units: DisplayUnits) -> String {
    let shown = units.shown(unit);
    with_symbol(
        significant(value * shown.factor, 2, Rounding::Nearest),
        shown.symbol,
    )
}

/// The digits of an estimate without its unit, and the unit.
#[must_use]
pub fn bare_estimate(value: f64, unit: Unit, units: DisplayUnits) -> (String, &'static str) {
    let shown = units.shown(unit);
    let digits = significant(value * shown.factor, 2, Rounding::Nearest);
    (digits, shown.symbol)
}

/// An estimate that was compared with another value: two significant digits, rounded away from
/// the other, which keeps the two apart, and it is never shown nearer to "enough" than it is.
#[must_use]
pub fn estimate_against(value: f64, other: f64, unit: Unit, units: DisplayUnits) -> String {
    let shown = units.shown(unit);
    let (own, other) = (value * shown.factor, other * shown.factor);
    let way = match own.total_cmp(&other) {
        std::cmp::Ordering::Less => Rounding::Down,
        std::cmp::Ordering::Greater => Rounding::Up,
        std::cmp::Ordering::Equal => Rounding::Nearest,
    };
    with_symbol(significant(own, 2, way), shown.symbol)
}

/// A number with so many significant digits, without an exponent: `25000`, `5.7`, `0.041`.
fn significant(value: f64, digits: i32, way: Rounding) -> String {
    if value == 0.0 || !value.is_finite() {
        return rounded(value, 0, way);
    }
    #[expect(clippy::cast_possible_truncation, reason = "a power of ten of an f64")]
    let leading = value.abs().log10().floor() as i32;
    let decimals = digits - 1 - leading;
    if let Ok(decimals) = usize::try_from(decimals) {
        return rounded(value, decimals.min(12), way);
    }
    let step = 10f64.powi(-decimals);
    rounded(
        (rounded(value / step, 0, way))
            .parse()
            .unwrap_or(value / step)
            * step,
        0,
        way,
    )
}

/// A length in mm, without its unit: one decimal in mm, three in inch, whatever it was stated to.
#[must_use]
pub fn length(length: f64, way: Rounding, units: DisplayUnits) -> String {
    let shown = units.shown(Unit::Mm);
    rounded(length * shown.factor, shown.decimals, way)
}

/// The two ends of a stretch in mm, rounded inwards as [`length`] prints them; with as many
/// decimals as leave something between them, and to the nearest where nothing is.
#[must_use]
pub fn inwards(least: f64, most: f64, units: DisplayUnits) -> (String, String) {
    let shown = units.shown(Unit::Mm);
    let (least, most) = (least * shown.factor, most * shown.factor);
    let finest = shown.decimals + 3;
    for decimals in shown.decimals..=finest {
        let up = rounded(least, decimals, Rounding::Up);
        let down = rounded(most, decimals, Rounding::Down);
        if up.parse::<f64>().ok() <= down.parse::<f64>().ok() {
            return (up, down);
        }
    }
    let nearest = |value| rounded(value, finest, Rounding::Nearest);
    (nearest(least), nearest(most))
}

/// A length in mm that lies between two others, with its unit: as [`value`] prints it, or with as
/// many decimals as keep it between them.
#[must_use]
pub fn between(at: f64, (least, most): (f64, f64), units: DisplayUnits) -> String {
    let shown = units.shown(Unit::Mm);
    let text = value(at, Unit::Mm, units);
    let (at, least, most) = (at * shown.factor, least * shown.factor, most * shown.factor);
    let inside = |text: &str| {
        let number = text.split(' ').next().and_then(|text| text.parse().ok());
        number.is_some_and(|number: f64| number >= least && number <= most)
    };
    if inside(&text) {
        return text;
    }
    let finest = shown.decimals + 3;
    let finer = (shown.decimals..=finest).map(|decimals| {
        let number = rounded(at, decimals, Rounding::Nearest);
        with_symbol(number, shown.symbol)
    });
    let finest = || {
        let number = rounded(at, finest, Rounding::Nearest);
        with_symbol(number, shown.symbol)
    };
    finer
        .into_iter()
        .find(|text| inside(text))
        .unwrap_or_else(finest)
}

/// A ratio in percent, rounded as told: `67 %`.
#[must_use]
pub fn percent(ratio: f64, way: Rounding) -> String {
    format!("{} %", rounded(ratio * 100.0, 0, way))
}

/// A number alone, in the library's units, for a table with the unit in its own column.
#[must_use]
pub fn bare(value: f64, unit: Unit, units: DisplayUnits) -> (String, &'static str) {
    let shown = units.shown(unit);
    let scaled = value * shown.factor;
    let text = rounded(scaled, shown.decimals + 2, Rounding::Nearest);
    let text = match text.split_once('.') {
        Some((whole, part)) => match part.trim_end_matches('0') {
            "" => whole.to_owned(),
            part => format!("{whole}.{part}"),
        },
        None => text,
    };
    (text, shown.symbol)
}

/// A value with its unit as a file keeps it: as many decimals as it has, at most two more than
/// [`value`] prints. One that is rounded to the nearest may have five more: it was stated so.
#[must_use]
pub fn finely(value: f64, unit: Unit, way: Rounding, units: DisplayUnits) -> String {
    let shown = units.shown(unit);
    let scaled = value * shown.factor;
    let finest = shown.decimals + if way == Rounding::Nearest { 5 } else { 2 };
    let exact = (0..=finest).find(|decimals| is_on(scaled, *decimals));
    // A length of 21 mm is written as lengths are: 21.0 mm.
    let usual = if unit == Unit::One {
        0
    } else {
        shown.decimals.min(1)
    };
    let decimals = exact.map_or(finest, |decimals| decimals.max(usual));
    with_symbol(rounded(scaled, decimals, way), shown.symbol)
}

fn with_symbol(number: String, symbol: &str) -> String {
    if symbol.is_empty() {
        number
    } else {
        format!("{number} {symbol}")
    }
}

/// Whether a value has no more decimals than these.
fn is_on(value: f64, decimals: usize) -> bool {
    let steps = value / tenth(decimals);
    (steps - steps.round()).abs() < 1e-6
}

fn tenth(decimals: usize) -> f64 {
    10f64.powi(-i32::try_from(decimals).unwrap_or(9))
}

fn rounded(value: f64, decimals: usize, way: Rounding) -> String {
    let grid = 10f64.powi(i32::try_from(decimals).unwrap_or(9));
    // A millionth of the last digit is noise of arithmetic, not a reason to step a digit.
    let on_grid = match way {
        Rounding::Nearest => value * grid,
        Rounding::Down => (value * grid + 1e-6).floor(),
        Rounding::Up => (value * grid - 1e-6).ceil(),
    };
    let text = format!("{:.*}", decimals, on_grid / grid);
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|b| matches!(b, b'0' | b'.')) => rest.to_owned(),
        _ => text,
    }
}
