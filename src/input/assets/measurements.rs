//! Which measurement of an asset is which property, by the symbols of ISO 13399.
//!
//! Only those are taken that mean the same. Not taken: `UsableLengthMax` (LUX counts parts that do
//! not cut, a usable length does not), `BodyDiameterMax`, `BodyLengthMax` and `FlangeDiameterMax`
//! (of the whole tool, not of the holder), `ShankHeight` (of a square shank), and of a cutting item
//! what is about an insert. `FunctionalLength` is measured to the cutting reference point and
//! `ProtrudingLength` to the foremost point, both from the gauge line: neither is a stick-out, which
//! follows from the second with the holder's gauge length.
//!
//! # Source
//! MTConnect Part 4, cutting tools: names, symbols and units of its measurements.

/// Where a measurement stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Level {
    /// With the whole tool.
    Tool,
    /// With one of its cutting items.
    Item,
    /// With either.
    Both,
}

/// A measurement.
pub(super) struct Measurement {
    /// Its element.
    pub element: &'static str,
    /// Where it belongs.
    pub level: Level,
    /// The column that it becomes; none if it means nothing that is asked for.
    pub column: Option<&'static str>,
    /// Its unit where it names none.
    pub unit: &'static str,
}

const fn row(
    element: &'static str,
    level: Level,
    column: Option<&'static str>,
    unit: &'static str,
) -> Measurement {
    Measurement {
        element,
        level,
        column,
        unit,
    }
}

/// All of them.
pub(super) const MEASUREMENTS: [Measurement; 26] = [
    row("DepthOfCutMax", Level::Tool, Some("APMX"), "mm"),
    row("CuttingDiameterMax", Level::Tool, Some("DC"), "mm"),
    row("OverallToolLength", Level::Tool, Some("OAL"), "mm"),
    row("ShankDiameter", Level::Tool, Some("DMM"), "mm"),
    row("ShankLength", Level::Tool, Some("LS"), "mm"),
    row("ProtrudingLength", Level::Both, Some("LPR"), "mm"),
    row("FunctionalLength", Level::Both, Some("LF"), "mm"),
    row("Weight", Level::Both, Some("assembly_mass"), "g"),
    row("BodyDiameterMax", Level::Tool, None, "mm"),
    row("BodyLengthMax", Level::Tool, None, "mm"),
    row("FlangeDiameterMax", Level::Tool, None, "mm"),
    row("ShankHeight", Level::Tool, None, "mm"),
    row("UsableLengthMax", Level::Tool, None, "mm"),
    row("CuttingDiameter", Level::Item, Some("DC"), "mm"),
    row("CornerRadius", Level::Item, Some("RE"), "mm"),
    row("PointAngle", Level::Item, Some("SIG"), "deg"),
    row("CuttingReferencePoint", Level::Item, None, "mm"),
    row("CuttingEdgeLength", Level::Item, None, "mm"),
    row("FlangeDiameter", Level::Item, None, "mm"),
    row("FunctionalWidth", Level::Item, None, "mm"),
    row("IncribedCircleDiameter", Level::Item, None, "mm"),
    row("ToolCuttingEdgeAngle", Level::Item, None, "deg"),
    row("ToolLeadAngle", Level::Item, None, "deg"),
    row("StepDiameterLength", Level::Item, None, "mm"),
    row("StepIncludedAngle", Level::Item, None, "deg"),
    row("CuttingHeight", Level::Item, None, "mm"),
];

/// Lengths of which a measured and a nominal value are two properties: the column, and those of
/// the two where both are stated.
pub(super) const BOTH: [(&str, &str, &str); 4] = [
    ("OAL", "overall_length_actual", "OAL"),
    ("LPR", "LPR", "protruding_length_nominal"),
    ("LF", "LF", "functional_length_nominal"),
    ("LS", "LS", "shank_length_nominal"),
];

/// Symbols by which an element of another namespace may name what the standard has no element
/// for.
pub(super) const BY_SYMBOL: [&str; 10] = [
    "LCF", "LSC", "LSCN", "LSCX", "LU", "LH", "DN", "LN", "NOF", "FHA",
];

/// The unit that a word of the standard means; the word itself if it is none of them.
pub(super) fn unit(word: &str) -> &str {
    match word {
        "MILLIMETER" => "mm",
        "INCH" => "in",
        "DEGREE" => "deg",
        "GRAM" => "g",
        "KILOGRAM" => "kg",
        "POUND" => "lb",
        "REVOLUTION/MINUTE" => "rpm",
        other => other,
    }
}
