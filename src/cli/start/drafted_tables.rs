//! Tables of the parts that an export only names, with the cells that the main rules need left blank.

use std::borrow::Cow;

use crate::library::{Kind, Meaning, PartNames, Survey};
use crate::write::{Blank, is_in_inches};

/// A table that was drafted.
pub(super) struct Draft {
    /// The file's name.
    pub file: &'static str,
    /// The whole text.
    pub text: String,
    /// Its cells to fill in first.
    pub blanks: Vec<Blank>,
}

/// Columns of a drafted table, behind the id; the first ones are needed before anything is judged.
struct Columns {
    needed: &'static [&'static str],
    more: &'static [&'static str],
}

const fn columns(kind: Kind) -> Columns {
    match kind {
        Kind::Cutter => Columns {
            needed: &[
                "cutting_diameter",
                "shank_diameter",
                "shank_length",
                "overall_length",
            ],
            more: &["cutter_kind", "chip_flute_length"],
        },
        Kind::Collet => Columns {
            needed: &["collet_size", "bore_diameter", "bore_length"],
            more: &["bore_recess"],
        },
        Kind::Nut => Columns {
            needed: &[],
            more: &["nut_style", "face_setback", "torque_max"],
        },
        _ => Columns {
            needed: &["clamping_kind"],
            more: &[
                "collet_size",
                "bore_diameter",
                "clamping_length_min",
                "insertion_depth_max",
                "screw_distance",
            ],
        },
    }
}

/// A whole number from here on is no bore in inches, which are given in fractions, but one in mm.
const LEAST_IN_MM: f64 = 2.0;

/// A bore as a name has it. In a library in inches a bare one would be read so.
fn in_own_unit(bore: &str, in_inches: bool) -> Cow<'_, str> {
    let is_in_mm = bore.parse().is_ok_and(|bore: f64| bore >= LEAST_IN_MM);
    if in_inches && is_in_mm {
        Cow::Owned(format!("{bore} mm"))
    } else {
        Cow::Borrowed(bore)
    }
}

/// Drafts a table for each kind of part that the export names.
pub(super) fn tables(survey: &Survey) -> Vec<Draft> {
    // What lies in stock describes its own parts.
    let parts = survey
        .parts
        .iter()
        .filter(|_| survey.kind == Kind::Assembly);
    parts.filter_map(|parts| table(parts, survey)).collect()
}

fn table(parts: &PartNames, survey: &Survey) -> Option<Draft> {
    let Columns { needed, more } = columns(parts.kind);
    // What the export states itself is not asked for.
    let is_stated = |name: &str| {
        let mut columns = survey.columns.iter();
        columns.any(|column| matches!(column.meaning, Meaning::Taken(own, _) if own == name))
    };
    let names: Vec<&str> = needed.iter().chain(more).copied().collect();
    let names: Vec<&str> = names.into_iter().filter(|name| !is_stated(name)).collect();
    let mut writer = csv::Writer::from_writer(Vec::new());
    let header = std::iter::once("id").chain(names.iter().copied());
    writer.write_record(header).ok()?;
    let in_inches = is_in_inches(survey);
    let mut blanks = Vec::new();
    for part in &parts.names {
        let known = |name: &str| match (name, &part.collet) {
            ("collet_size", Some((size, _))) => Cow::Borrowed(size.as_str()),
            ("bore_diameter", Some((_, bore))) => in_own_unit(bore, in_inches),
            _ => Cow::Borrowed(""),
        };
        let cells: Vec<Cow<'_, str>> = names.iter().map(|name| known(name)).collect();
        let open = needed
            .iter()
            .filter(|name| names.contains(name) && known(name).is_empty());
        blanks.extend(open.map(|field| Blank {
            field,
            kind: parts.kind,
            id: part.name.clone(),
            tools: part.rows,
        }));
        let row = std::iter::once(part.name.as_str()).chain(cells.iter().map(AsRef::as_ref));
        writer.write_record(row).ok()?;
    }
    Some(Draft {
        file: parts.kind.table(),
        text: String::from_utf8(writer.into_inner().ok()?).ok()?,
        blanks,
    })
}
