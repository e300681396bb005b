//! The parts that an export only names: each once, and what a name says where all that are built
//! alike agree on it.

use super::super::standard_sizes::COLLETS;
use super::super::{Field, Kind, ReadSettings};
use super::meaning::Meaning;
use super::raw_columns::{RawColumn, RawColumns};
use crate::units::{self, Decimal, Unit, is_stand_in};

/// The parts of a kind.
#[derive(Clone, Debug)]
pub struct PartNames {
    /// Their kind.
    pub kind: Kind,
    /// Each once, the most used first.
    pub names: Vec<PartName>,
}

/// A part that is only named.
#[derive(Clone, Debug, PartialEq)]
pub struct PartName {
    /// Its name.
    pub name: String,
    /// In how many rows.
    pub rows: usize,
    /// Of a collet, its size and its bore, where its name says so.
    pub collet: Option<(String, String)>,
}

/// The kinds of part that a row may name, and the property that does.
const NAMING: [(Kind, Field); 4] = [
    (Kind::Cutter, Field::CutterOf),
    (Kind::Collet, Field::ColletOf),
    (Kind::Nut, Field::NutOf),
    (Kind::Holder, Field::HolderOf),
];

/// The parts that columns name which are taken for that, or most likely mean it.
pub(super) fn of(raw: &RawColumns, meanings: &[Meaning]) -> Vec<PartNames> {
    let found = NAMING.into_iter().filter_map(|(kind, field)| {
        let name = field.property().name;
        let at = meanings
            .iter()
            .position(|meaning| meaning.likeliest() == Some(name))?;
        let column = raw.columns.get(at)?;
        let alike = alike(column);
        let names = column.counted().into_iter();
        let names = names.filter(|(name, _)| !is_stand_in(name));
        let names = names.map(|(name, rows)| PartName {
            name: name.to_owned(),
            rows,
            collet: (kind == Kind::Collet).then(|| said(name, &alike)).flatten(),
        });
        let mut names: Vec<PartName> = names.collect();
        names.sort_by_key(|name| std::cmp::Reverse(name.rows));
        Some(PartNames { kind, names })
    });
    found.filter(|parts| !parts.names.is_empty()).collect()
}

/// Names of one build from which on it says something.
const FEWEST: usize = 2;

/// The builds of names of which every name has a known size and a bore that fits it.
fn alike(column: &RawColumn) -> Vec<String> {
    let mut builds: Vec<(String, usize, bool)> = Vec::new();
    for name in column.distinct() {
        let Some((build, size, bore)) = parts_of(name) else {
            continue;
        };
        let fits = fits(size, bore);
        match builds.iter_mut().find(|(known, ..)| *known == build) {
            Some((_, many, all)) => {
                *many += 1;
                *all &= fits;
            }
            None => builds.push((build, 1, fits)),
        }
    }
    let builds = builds
        .into_iter()
        .filter(|(_, many, all)| *many >= FEWEST && *all);
    builds.map(|(build, ..)| build).collect()
}

/// A name of letters, a number, a mark and a number or fraction: how it is built, and both.
fn parts_of(name: &str) -> Option<(String, &str, &str)> {
    let name = name.trim();
    let digits = name.find(|c: char| c.is_ascii_digit())?;
    let (letters, rest) = name.split_at(digits);
    if !letters
        .chars()
        .all(|c| c.is_alphabetic() || c.is_whitespace() || "-_".contains(c))
    {
        return None;
    }
    let end = rest.find(|c: char| !c.is_ascii_digit())?;
    let (size, rest) = rest.split_at(end);
    let bore = rest.trim_start_matches(|c: char| c.is_whitespace() || "-_/x".contains(c));
    let marked = bore.len() < rest.len();
    let is_bore = |bore: &str| {
        bore.starts_with(|c: char| c.is_ascii_digit() || c == '.')
            && bore
                .chars()
                .all(|c| c.is_ascii_digit() || "./, -".contains(c))
    };
    let build = letters.trim().to_lowercase();
    (marked && is_bore(bore)).then_some((build, size, bore))
}

/// Whether a collet of this size has such a bore.
fn fits(size: &str, bore: &str) -> bool {
    let Ok(size) = size.parse::<f64>() else {
        return false;
    };
    let known = COLLETS.table.size.iter().find(|known| known.size == size);
    let bore = bore.replace(',', ".").parse::<f64>();
    // A fraction is of an inch, and smaller than any collet.
    known.is_some_and(|known| bore.map_or(true, |bore| bore > 0.0 && bore <= known.bore_max))
}

/// Size and bore as the name of a collet has them.
fn said(name: &str, alike: &[String]) -> Option<(String, String)> {
    let (build, size, bore) = parts_of(name)?;
    let bore = bore.trim().replace(',', ".");
    alike.contains(&build).then(|| (size.to_owned(), bore))
}

/// The bore in the name of a collet, mm.
fn bore(name: &str, alike: &[String], decimal: Decimal, settings: &ReadSettings) -> Option<f64> {
    let (build, _, bore) = parts_of(name)?;
    if !alike.contains(&build) {
        return None;
    }
    units::read(bore.trim(), Unit::Mm, Some(settings.length), decimal).ok()
}

/// Whether most texts of a column are built as names of collets are.
pub(super) fn look_like_collets(column: &RawColumn) -> bool {
    let names = column.distinct();
    let built = names.iter().filter_map(|name| parts_of(name));
    let fitting = built.filter(|(_, size, bore)| fits(size, bore)).count();
    fitting >= 3 && fitting * 2 >= names.len()
}

/// Row and bore, mm, of a column whose texts look like names of collets.
pub(super) fn bores(
    column: &RawColumn,
    raw: &RawColumns,
    settings: &ReadSettings,
) -> Option<Vec<(usize, f64)>> {
    if !look_like_collets(column) {
        return None;
    }
    let alike = alike(column);
    let cells = column
        .sample()
        .iter()
        .filter_map(|(row, name)| Some((*row, bore(name, &alike, raw.decimal(), settings)?)));
    Some(cells.collect())
}
