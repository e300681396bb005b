//! A shop's own values for what no record states: `[default]` in its file.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Deserialize;
use toml::Spanned;

use crate::text::Source;
use crate::units::Unit;

use super::RuleError;
use super::limit::{self, Sensible};
use super::schema::{NumberOrText, OneOrTwo};
use super::toml_text::span;

/// What a shop takes for granted where no record states it. Lengths in mm.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShopDefaults {
    /// Clearance of operations.
    pub clearance: Option<f64>,
    /// Material of cutters.
    pub cutter_material: Option<&'static str>,
    /// Recess behind the nut face, by style of nut.
    pub face_setback: Vec<(&'static str, f64)>,
    /// Length of the bore that grips, by size of collet and bore.
    pub bore_length: Vec<BoreLength>,
    /// Minimum insertion of holders, by clamping kind and shank diameter.
    pub clamping_length_min: Vec<Insertion>,
}

/// The gripping length of some collets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoreLength {
    /// Size of the collet.
    pub size: f64,
    /// Nominal bores that it holds for, from and to, mm.
    pub bore: (f64, f64),
    /// The length, mm.
    pub length: f64,
}

/// The minimum insertion of some holders.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Insertion {
    /// What clamps.
    pub kind: &'static str,
    /// Shank diameters that it holds for, from and to, mm.
    pub shank: (f64, f64),
    /// The insertion, mm.
    pub length: f64,
}

/// What the shop takes for granted where no record states it; a stated value wins.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Default")]
pub(super) struct DefaultFile {
    /// The clearance of operations.
    #[schemars(with = "Option<NumberOrText>")]
    clearance: Option<Spanned<toml::Value>>,
    /// The material of cutters.
    #[schemars(with = "Option<String>")]
    cutter_material: Option<Spanned<String>>,
    /// The recess behind the nut face, by style of nut.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, NumberOrText>")]
    face_setback: BTreeMap<Spanned<String>, Spanned<toml::Value>>,
    /// The length of the bore that grips, by size of collet and bore.
    #[serde(default)]
    bore_length: Vec<BoreFile>,
    /// The minimum insertion of holders, by clamping kind and shank diameter.
    #[serde(default)]
    clamping_length_min: Vec<InsertionFile>,
}

/// The gripping length of some collets.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "BoreLength")]
struct BoreFile {
    /// The size of the collet.
    #[schemars(with = "NumberOrText")]
    collet_size: Spanned<toml::Value>,
    /// The nominal bore, or two: from and to.
    #[schemars(with = "OneOrTwo")]
    bore_diameter: Spanned<toml::Value>,
    /// The length.
    #[schemars(with = "NumberOrText")]
    value: Spanned<toml::Value>,
}

/// The minimum insertion of some holders.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Insertion")]
struct InsertionFile {
    /// What clamps.
    #[schemars(with = "String")]
    clamping_kind: Spanned<String>,
    /// The diameter of the shank, or two: from and to.
    #[schemars(with = "OneOrTwo")]
    shank_diameter: Spanned<toml::Value>,
    /// The insertion.
    #[schemars(with = "NumberOrText")]
    value: Spanned<toml::Value>,
}

/// Plausible ends, mm: what lies beyond is a slip of a digit or of the unit.
const CLEARANCE: (f64, f64) = (0.0, 50.0);
const SETBACK: (f64, f64) = (-20.0, 30.0);
const LENGTH: (f64, f64) = (1.0, 300.0);
const DIAMETER: (f64, f64) = (0.1, 200.0);
const SIZE: (f64, f64) = (4.0, 100.0);

/// The word of a property that a text spells, by the property's name; else what is wrong.
pub type FindWord<'a> = dyn Fn(&str, &str) -> Result<&'static str, String> + 'a;

/// Reads the defaults of one file.
pub(super) struct Reader<'a> {
    /// The file.
    pub source: &'a Source,
    /// The words that properties know.
    pub words: &'a FindWord<'a>,
    /// Whether the file counts in inches: then a bare number may be either.
    pub inches: bool,
}

impl Reader<'_> {
    /// Adds what a file states; it overrules what was there before.
    pub(super) fn add(&self, file: &DefaultFile, to: &mut ShopDefaults) -> Result<(), RuleError> {
        if let Some(clearance) = &file.clearance {
            to.clearance = Some(self.length(clearance, "clearance", CLEARANCE)?);
        }
        if let Some(material) = &file.cutter_material {
            to.cutter_material = Some(self.word("cutter_material", material)?);
        }
        for (style, value) in &file.face_setback {
            let style = self.word("nut_style", style)?;
            let value = self.length(value, "face_setback", SETBACK)?;
            to.face_setback.retain(|(known, _)| *known != style);
            to.face_setback.push((style, value));
        }
        // Of two that fit the first counts: the nearer file goes before.
        let bores = file.bore_length.iter().map(|row| self.bore_length(row));
        to.bore_length
            .splice(..0, bores.collect::<Result<Vec<_>, _>>()?);
        let rows = file.clamping_length_min.iter();
        let rows = rows.map(|row| self.insertion(row));
        let rows = rows.collect::<Result<Vec<_>, _>>()?;
        to.clamping_length_min.splice(..0, rows);
        Ok(())
    }

    fn bore_length(&self, row: &BoreFile) -> Result<BoreLength, RuleError> {
        Ok(BoreLength {
            size: self.number(&row.collet_size, "collet_size", Unit::One, SIZE)?,
            bore: self.span(&row.bore_diameter, "bore_diameter")?,
            length: self.length(&row.value, "bore_length", LENGTH)?,
        })
    }

    fn insertion(&self, row: &InsertionFile) -> Result<Insertion, RuleError> {
        Ok(Insertion {
            kind: self.word("clamping_kind", &row.clamping_kind)?,
            shank: self.span(&row.shank_diameter, "shank_diameter")?,
            length: self.length(&row.value, "clamping_length_min", LENGTH)?,
        })
    }

    /// One diameter, or two: from and to.
    fn span(&self, value: &Spanned<toml::Value>, name: &str) -> Result<(f64, f64), RuleError> {
        let toml::Value::Array(ends) = value.get_ref() else {
            let one = self.length(value, name, DIAMETER)?;
            return Ok((one, one));
        };
        let end = |end: &toml::Value| {
            // An array's values have no places of their own.
            let end = Spanned::new(value.span(), end.clone());
            self.length(&end, name, DIAMETER)
        };
        match ends.as_slice() {
            [from, to] => match (end(from)?, end(to)?) {
                (from, to) if from <= to => Ok((from, to)),
                _ => Err(self.error(value, "expected the smaller diameter first")),
            },
            _ => Err(self.error(value, "expected one diameter, or two: [from, to]")),
        }
    }

    fn error(&self, value: &Spanned<toml::Value>, message: &str) -> RuleError {
        RuleError::at(self.source, span(value), message)
    }

    fn length(
        &self,
        value: &Spanned<toml::Value>,
        name: &str,
        range: (f64, f64),
    ) -> Result<f64, RuleError> {
        if self.inches && !matches!(value.get_ref(), toml::Value::String(_)) {
            let message =
                "this shop counts in inches: write the unit, such as \"0.04 in\" or \"1 mm\"";
            return Err(self.error(value, message));
        }
        self.number(value, name, Unit::Mm, range)
    }

    fn number(
        &self,
        value: &Spanned<toml::Value>,
        name: &str,
        unit: Unit,
        (min, max): (f64, f64),
    ) -> Result<f64, RuleError> {
        let (number, _) = limit::number(value, unit, self.source)?;
        let range = Sensible {
            min: Some((min, min.to_string())),
            max: Some((max, max.to_string())),
        };
        range.check(number, name, unit, value, self.source)?;
        Ok(number)
    }

    fn word(&self, property: &str, text: &Spanned<String>) -> Result<&'static str, RuleError> {
        let found = (self.words)(property, text.get_ref());
        found.map_err(|problem| RuleError::at(self.source, span(text), problem))
    }
}
