//! Units as people spell them, each with its exact factor to the canonical unit.

use super::Unit;

/// A unit that may stand in a header, a cell, a rule or the shop's file.
///
/// The factor to the canonical unit is an exact fraction, so that inch libraries read exactly.
#[derive(Debug, PartialEq, Eq)]
pub struct Spelling {
    /// The canonical unit of what it measures.
    pub unit: Unit,
    /// How the program writes it.
    pub name: &'static str,
    /// Numerator of its factor to the canonical unit.
    pub(super) numerator: u64,
    /// Denominator of its factor to the canonical unit.
    pub(super) denominator: u64,
    /// Spellings by which it is known, folded as [`fold`] does.
    folded: &'static [&'static str],
}

const fn spelling(
    unit: Unit,
    name: &'static str,
    (numerator, denominator): (u64, u64),
    folded: &'static [&'static str],
) -> Spelling {
    Spelling {
        unit,
        name,
        numerator,
        denominator,
        folded,
    }
}

const MILLIMETRE: Spelling = spelling(
    Unit::Mm,
    "mm",
    (1, 1),
    &[
        "mm",
        "millimetre",
        "millimeter",
        "millimetres",
        "millimeters",
    ],
);

/// Every unit that input may use.
///
/// # Source
/// Inch 25.4 mm, pound 0.45359237 kg: international yard and pound agreement (1959);
/// standard gravity 9.80665 m/s²: 3rd CGPM (1901). The pound-force factors are their products:
/// 0.45359237 · 9.80665 · 0.3048 = 1.3558179483314004 N·m, a twelfth of it for the inch.
static SPELLINGS: [Spelling; 28] = [
    MILLIMETRE,
    spelling(
        Unit::Mm,
        "in",
        (254, 10),
        &["in", "inch", "inches", "\"", "″", "”"],
    ),
    spelling(Unit::Mm, "cm", (10, 1), &["cm"]),
    spelling(Unit::Mm, "m", (1000, 1), &["m"]),
    spelling(Unit::Mm, "µm", (1, 1000), &["µm", "μm", "um", "micron"]),
    spelling(Unit::One, "1", (1, 1), &["1"]),
    spelling(Unit::One, "%", (1, 100), &["%"]),
    spelling(Unit::N, "N", (1, 1), &["n"]),
    spelling(Unit::N, "kN", (1000, 1), &["kn"]),
    spelling(Unit::Nm, "N·m", (1, 1), &["nm"]),
    spelling(Unit::Nm, "N·cm", (1, 100), &["ncm"]),
    spelling(Unit::Nm, "N·mm", (1, 1000), &["nmm"]),
    spelling(
        Unit::Nm,
        "lbf·ft",
        (13_558_179_483_314_004, 10_000_000_000_000_000),
        &["lbfft", "ftlbf", "lbft", "ftlb", "ftlbs"],
    ),
    spelling(
        Unit::Nm,
        "lbf·in",
        (1_129_848_290_276_167, 10_000_000_000_000_000),
        &["lbfin", "inlbf", "lbin", "inlb", "inlbs"],
    ),
    spelling(Unit::MPa, "MPa", (1, 1), &["mpa", "n/mm²", "n/mm2"]),
    spelling(Unit::MPa, "GPa", (1000, 1), &["gpa"]),
    spelling(Unit::NPerMm, "N/mm", (1, 1), &["n/mm"]),
    spelling(Unit::Hz, "Hz", (1, 1), &["hz"]),
    spelling(Unit::Hz, "kHz", (1000, 1), &["khz"]),
    spelling(Unit::Deg, "deg", (1, 1), &["deg", "°", "degree", "degrees"]),
    spelling(
        Unit::PerMin,
        "rpm",
        (1, 1),
        &[
            "1/min", "rpm", "min⁻¹", "min1", "rev/min", "r/min", "/min", "u/min",
        ],
    ),
    spelling(Unit::MPerMin, "m/min", (1, 1), &["m/min"]),
    spelling(
        Unit::MPerMin,
        "ft/min",
        (3048, 10000),
        &["ft/min", "sfm", "fpm"],
    ),
    spelling(Unit::KW, "kW", (1, 1), &["kw"]),
    spelling(Unit::Kg, "kg", (1, 1), &["kg"]),
    spelling(Unit::Kg, "g", (1, 1000), &["g"]),
    spelling(
        Unit::Kg,
        "lb",
        (45_359_237, 100_000_000),
        &["lb", "lbs", "lbm"],
    ),
    spelling(Unit::GMm, "g·mm", (1, 1), &["gmm"]),
];

impl Spelling {
    /// The unit of lengths that stands where nobody says otherwise.
    #[must_use]
    pub fn millimetre() -> &'static Spelling {
        &MILLIMETRE
    }

    /// The unit that a text spells, of those that measure the same as `wanted`.
    #[must_use]
    pub fn find(text: &str, wanted: Unit) -> Option<&'static Spelling> {
        let folded = fold(text);
        SPELLINGS
            .iter()
            .filter(|spelling| spelling.unit == wanted)
            .find(|spelling| spelling.folded.contains(&folded.as_str()))
    }

    /// The unit that a text spells, whatever it measures. `nm` is a torque: nobody states
    /// a tool length in nanometres.
    #[must_use]
    pub fn find_any(text: &str) -> Option<&'static Spelling> {
        let folded = fold(text);
        SPELLINGS
            .iter()
            .find(|spelling| spelling.folded.contains(&folded.as_str()))
    }

    /// Names of the units that measure the same as `wanted`, for "expected" and "did you mean".
    pub fn names(wanted: Unit) -> impl Iterator<Item = &'static str> {
        SPELLINGS
            .iter()
            .filter(move |spelling| spelling.unit == wanted)
            .map(|spelling| spelling.name)
    }

    /// How many canonical units one of this unit is.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        reason = "a rounding of 1 in 1e16 at display only"
    )]
    pub fn factor(&self) -> f64 {
        self.numerator as f64 / self.denominator as f64
    }
}

/// Folds the many ways of joining unit symbols: `N m`, `N*m`, `N.m`, `N-m` are all `nm`.
fn fold(text: &str) -> String {
    text.chars()
        .filter(|c| !c.is_whitespace() && !matches!(c, '.' | '*' | '·' | '⋅' | '-' | '^' | '_'))
        .flat_map(char::to_lowercase)
        .collect()
}
