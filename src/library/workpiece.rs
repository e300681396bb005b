//! The workpiece's material: what a cutting edge meets there, and how sure that is.
//!
//! A shop's own materials come first, then the table's names, then their other names, and last
//! the group letters of ISO 513. Another name of the same material is no assumption; the nearest
//! material of the table, or a whole group, is one.

use std::borrow::Cow;

use crate::text::likeness;

use super::standard_sizes::{self, Alias, Material};
use super::{Field, Library, Provenance, Reckoned, View};

/// Names less alike than this (Jaro-Winkler, from 0 to 1) are not proposed for each other.
const ALIKE: f64 = 0.7;
/// Longest text that is compared with all names, in bytes.
const LONGEST: usize = 80;

/// Specific cutting force: `k_c = kc11 h^-mc`, after Kienzle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CuttingForce {
    /// Its value at a chip of 1 mm by 1 mm, `k_c1.1`, MPa.
    pub kc11: f64,
    /// Its exponent `m_c`.
    pub mc: f64,
}

/// What is known of a workpiece's material: the band of its specific cutting force. Both ends
/// are equal where the material itself is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Workpiece {
    /// The least that it may be, for chips up to 1 mm thick.
    pub low: CuttingForce,
    /// The most that it may be, for chips up to 1 mm thick.
    pub high: CuttingForce,
}

/// How a text is understood.
enum Meant<'a> {
    /// The shop's own material.
    Own(&'a Material),
    /// A material of the table.
    Listed(&'static Material),
    /// A material of the table by another name.
    Alias(&'static Alias, &'static Material),
    /// All materials of a group.
    Group(char, Vec<&'static Material>),
}

/// Letters and digits in small letters: what tells two names apart.
fn folded(text: &str) -> String {
    let letters = text.chars().filter(|c| c.is_alphanumeric());
    letters.flat_map(char::to_lowercase).collect()
}

fn meant<'a>(library: &'a Library, text: &str) -> Option<Meant<'a>> {
    if text.len() > LONGEST {
        return None;
    }
    let wanted = folded(text);
    let is = |name: &str| folded(name) == wanted;
    let mut own = library.own.materials.iter();
    if let Some(own) = own.find(|own| is(&own.name)) {
        return Some(Meant::Own(own));
    }
    let table = &standard_sizes::MATERIALS.table;
    if let Some(row) = table.material.iter().find(|row| is(&row.name)) {
        return Some(Meant::Listed(row));
    }
    let bare = ["aisi", "sae"]
        .into_iter()
        .find_map(|body| wanted.strip_prefix(body));
    let known = |alias: &&Alias| is(&alias.name) || bare == Some(folded(&alias.name).as_str());
    if let Some(alias) = table.alias.iter().find(known) {
        return Some(Meant::Alias(alias, standard_sizes::material(&alias.of)?));
    }
    group(&wanted)
}

/// The materials of a group by its letter: `P`, `ISO P`, `ISO 513 P`, `group P`.
fn group(folded: &str) -> Option<Meant<'static>> {
    let prefixes = ["iso513", "iso", "group"].into_iter();
    let bare = prefixes
        .filter_map(|prefix| folded.strip_prefix(prefix))
        .find(|rest| rest.len() == 1)
        .unwrap_or(folded);
    let mut letters = bare.chars();
    let letter = letters.next()?.to_ascii_uppercase();
    if letters.next().is_some() {
        return None;
    }
    let all = standard_sizes::MATERIALS.table.material.iter();
    let rows: Vec<_> = all.filter(|row| row.group.starts_with(letter)).collect();
    (!rows.is_empty()).then_some(Meant::Group(letter, rows))
}

/// The band that some materials span. Below 1 mm of chip the specific force rises with both of
/// its numbers, so that the ends hold whichever material is cut.
fn band(rows: &[&Material]) -> Workpiece {
    let end = |better: fn(f64, f64) -> f64| {
        let over = |value: fn(&Material) -> f64| {
            let values = rows.iter().map(|row| value(row));
            values.reduce(better).unwrap_or(f64::NAN)
        };
        CuttingForce {
            kc11: over(|row| row.kc11),
            mc: over(|row| row.mc),
        }
    };
    Workpiece {
        low: end(f64::min),
        high: end(f64::max),
    }
}

impl Meant<'_> {
    fn workpiece(&self) -> Workpiece {
        match self {
            Meant::Own(row) | Meant::Listed(row) | Meant::Alias(_, row) => band(&[row]),
            Meant::Group(_, rows) => band(rows),
        }
    }

    /// Why it is only assumed; `None` if it is not.
    fn guess(&self) -> Option<Cow<'static, str>> {
        match self {
            Meant::Own(_) => None,
            Meant::Alias(alias, row) if !alias.is_same() => Some(Cow::Owned(format!(
                "taken for {}, the nearest in the table of materials; from memory",
                row.name
            ))),
            Meant::Listed(row) | Meant::Alias(_, row) => (row.basis == "from memory")
                .then_some(Cow::Borrowed("its specific cutting force is from memory")),
            Meant::Group(letter, rows) => {
                let Workpiece { low, high } = band(rows);
                Some(Cow::Owned(format!(
                    "group {letter} of ISO 513, by the table's rows: kc1.1 {} to {} MPa, mc {} to {}",
                    low.kc11, high.kc11, low.mc, high.mc
                )))
            }
        }
    }
}

impl<P: Provenance> View<'_, P> {
    /// What is known of the workpiece's material.
    #[must_use]
    pub fn workpiece(&self) -> Reckoned<Workpiece, P> {
        let name = self.word(Field::WorkpieceMaterial);
        let Some(meant) = name.value.and_then(|name| meant(self.library, name)) else {
            let missing = P::missing(Field::WorkpieceMaterial);
            return Reckoned::unknown(name.trace.union(missing));
        };
        let trace = match meant.guess() {
            Some(_) => P::assumed(Field::WorkpieceMaterial),
            None => name.trace,
        };
        Reckoned::known(meant.workpiece(), trace)
    }
}

/// Why what is stated of the workpiece's material is only an assumption.
pub(super) fn reason(view: &View<'_>) -> Option<Cow<'static, str>> {
    let name = view.word(Field::WorkpieceMaterial).value?;
    meant(view.library, name)?.guess()
}

/// The material of the table, or of the shop, whose name is nearest to a text that means none.
pub(super) fn nearest(library: &Library, text: &str) -> Option<String> {
    let wanted = folded(text);
    // Between numbers nearness means nothing: 1.2379 is not nearly 1.2312.
    if text.len() > LONGEST || !wanted.contains(char::is_alphabetic) {
        return None;
    }
    let table = &standard_sizes::MATERIALS.table;
    let plain = |row: &Material| (folded(&row.name), row.name.clone());
    let other = |alias: &Alias| {
        let shown = format!("{} ({})", alias.of, alias.name);
        (folded(&alias.name), shown)
    };
    let own = library.own.materials.iter().map(plain);
    let all = own.chain(table.material.iter().map(plain));
    let all = all.chain(table.alias.iter().map(other));
    let alike = all
        .map(|(name, shown)| (likeness(&wanted, &name), shown))
        .filter(|(likeness, _)| *likeness >= ALIKE);
    // Of two that are equally near the first counts: the table's own names come first.
    let best = alike.reduce(|best, next| if next.0 > best.0 { next } else { best });
    best.map(|(_, shown)| shown)
}
