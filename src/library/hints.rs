//! What an unknown header may have meant: a demand under a name that is nearly right must not be
//! passed over as a remark.

use std::collections::HashMap;
use std::sync::LazyLock;

use crate::text::{closest, is_slip, quoted};
use crate::units::{Spelling, split_unit};

use super::columns::{Host, fields_of, is_called, normal};
use super::property::ValueType;
use super::standard_sizes::HEADER_WORDS;
use super::{Kind, PROPERTIES, Property};

/// Beside one of these words a header speaks of another quantity, or of somebody's remark.
const OTHERS: [&str; 24] = [
    "angle",
    "diameter",
    "dia",
    "radius",
    "torque",
    "speed",
    "tolerance",
    "price",
    "cost",
    "number",
    "no",
    "id",
    "date",
    "note",
    "notes",
    "comment",
    "remark",
    "check",
    "checked",
    "by",
    "status",
    "ok",
    "drawing",
    "picture",
];
/// Shorter symbols of ISO 13399 stand in too many words by chance, letters.
const SHORTEST_SYMBOL: usize = 3;

/// A known name that the column may have meant, or the record that does have the property; empty
/// where nothing comes near. `whole` is the header, `name` what is before its unit.
pub(super) fn hint(whole: &str, name: &str, host: Host) -> String {
    let folded = normal(name);
    if let Some(property) = PROPERTIES.iter().find(|p| is_called(p, &folded)) {
        return format!(
            "`{}` belongs to the {}",
            property.name,
            property.kind.name()
        );
    }
    let kinds = host.kinds();
    let known = || {
        let all = PROPERTIES.iter();
        all.filter(|property| kinds.contains(&property.kind))
    };
    if let Some((bare, unit)) = with_bare_unit(whole, host) {
        return format!("did you mean `{bare} [{unit}]`?");
    }
    if let Some(words) = by_word(name, &kinds) {
        return words;
    }
    if HEADER_WORDS
        .table
        .none
        .iter()
        .any(|word| fold(word) == folded)
    {
        return String::new();
    }
    let near = closest(&folded, known().map(|property| property.name));
    // A flute length is no gauge length, however few letters are between them.
    match near.filter(|near| is_slip(&folded, near)) {
        Some(near) => format!("did you mean `{near}`?"),
        None => match within(&folded, &kinds).or_else(|| part_of(&folded, known())) {
            Some(near) => format!("did you mean `{near}`?"),
            None => String::new(),
        },
    }
}

/// Words of headers, folded, and the properties that they may mean.
static BY_WORD: LazyLock<HashMap<String, Vec<&'static str>>> = LazyLock::new(|| {
    let table = &HEADER_WORDS.table;
    let one = table.means.iter().flat_map(|(property, words)| {
        let pair = move |word: &String| (fold(word), vec![property.as_str()]);
        words.iter().map(pair)
    });
    let several = table.may_mean.iter().map(|(word, properties)| {
        let properties = properties.iter().map(String::as_str);
        (fold(word), properties.collect())
    });
    one.chain(several).collect()
});

/// The properties that a word of the trade may mean here.
pub(super) fn meant(name: &str, kinds: &[Kind]) -> Vec<&'static str> {
    let folded = fold(name);
    let known = BY_WORD.get(&folded);
    let all = known.or_else(|| BY_WORD.get(&fold(unit_behind(name)?.0)));
    let is_here = |name: &&'static str| {
        let mut all = PROPERTIES.iter();
        all.any(|property| property.name == *name && kinds.contains(&property.kind))
    };
    let all = all.into_iter().flatten().copied();
    all.filter(is_here).collect()
}

/// A header without the unit that stands behind it without brackets, and the unit: `Md Nm`. A letter
/// alone is more often the name of a length: `Laenge M`.
pub(super) fn unit_behind(header: &str) -> Option<(&str, &'static Spelling)> {
    let header = header.trim();
    let (name, unit) = header.rsplit_once([' ', '_'])?;
    let is_letter = unit.chars().nth(1).is_none();
    Some((name, Spelling::find_any(unit).filter(|_| !is_letter)?))
}

/// Whether a header is a word of the trade for a property.
pub(super) fn is_word(name: &str, host: Host) -> bool {
    !meant(name, &host.kinds()).is_empty()
}

/// Who means one thing by a word is asked, who may mean several is told them.
fn by_word(name: &str, kinds: &[Kind]) -> Option<String> {
    match meant(name, kinds).as_slice() {
        [] => None,
        [one] => Some(format!("did you mean `{one}`?")),
        several => Some(format!(
            "it may mean `{}`: say which under [columns]",
            several.join("` or `")
        )),
    }
}

/// Headers that are quoted where none is known.
const QUOTED: usize = 4;

/// What to do where no column of a table is known: its own headers are named for the shop file, each
/// with the property that it means, as far as one is known to.
pub(super) fn no_column_known<'h>(headers: impl Iterator<Item = &'h str>, host: Host) -> String {
    let kinds = host.kinds();
    let guessed = headers.filter_map(|header| {
        let meant = meant(split_unit(header).0, &kinds);
        let [property] = meant.as_slice() else {
            return None;
        };
        Some(format!("\"{}\" = \"{property}\"", quoted(header)))
    });
    let guessed: Vec<String> = guessed.take(QUOTED).collect();
    let example = match guessed.as_slice() {
        [] => "a header such as tool_number, stick_out, overall_length".to_owned(),
        some => format!(
            "known headers, or under [columns] in shankwise.toml what yours mean, such as {}",
            some.join(", ")
        ),
    };
    format!(
        "no column of this table is known; expected {example}. `shankwise columns` lists all names, and `shankwise help rules` shows a shop file"
    )
}

/// Folds a header as [`normal`] does, and letters that some keyboards do not have.
fn fold(header: &str) -> String {
    let mut folded = String::new();
    for c in normal(header).chars() {
        match c {
            'ä' => folded.push_str("ae"),
            'ö' => folded.push_str("oe"),
            'ü' => folded.push_str("ue"),
            'ß' => folded.push_str("ss"),
            '⌀' => folded.push('ø'),
            c => folded.push(c),
        }
    }
    folded
}

/// A known name and the unit that stands behind it without brackets: `REACH mm`, `reach, mm`.
fn with_bare_unit(header: &str, host: Host) -> Option<(&'static str, &'static str)> {
    let header = header.trim().trim_end_matches([']', ')', '.']);
    // A header is short; a cell of 100 kB is none.
    if header.len() > 80 {
        return None;
    }
    let separates = |c: char| !c.is_alphanumeric();
    header.match_indices(separates).find_map(|(at, separator)| {
        let (name, unit) = header.split_at(at);
        let unit = unit.get(separator.len()..)?.trim_start_matches(separates);
        let fields = fields_of(name.trim_end_matches(separates), host.table);
        let property = fields.first()?.property();
        let ValueType::Quantity(wanted) = property.value else {
            return None;
        };
        let spelling = Spelling::find(unit, wanted).filter(|_| !unit.is_empty())?;
        Some((property.name, spelling.name))
    })
}

/// Names of one property, each as its words.
type NameWords = Vec<Vec<String>>;

/// The words of the names and longer symbols of every quantity, in the order of the vocabulary.
static WORDS: LazyLock<Vec<(&Property, NameWords)>> = LazyLock::new(|| {
    let words = |property: &'static Property| {
        let symbols = property.symbols.iter().copied();
        let symbols = symbols.filter(|symbol| symbol.len() >= SHORTEST_SYMBOL);
        let names = std::iter::once(property.name).chain(symbols);
        let words = names.map(|name| name.split('_').map(str::to_lowercase).collect());
        (property, words.collect())
    };
    let is_number = |property: &&Property| {
        matches!(
            property.value,
            ValueType::Quantity(_) | ValueType::Count | ValueType::Size
        )
    };
    PROPERTIES.iter().filter(is_number).map(words).collect()
});

/// The quantity whose whole name stands in a header between other words: `reach needed`.
fn within(folded: &str, kinds: &[Kind]) -> Option<&'static str> {
    if folded.len() > 80 {
        return None;
    }
    let words: Vec<&str> = folded.split(|c: char| !c.is_alphanumeric()).collect();
    let known = WORDS
        .iter()
        .filter(|(property, _)| kinds.contains(&property.kind));
    let found = known.filter_map(|(property, names)| {
        let longest = names.iter().find_map(|name| others(&words, name))?;
        let is_free = longest.iter().all(|word| !OTHERS.contains(word));
        is_free.then_some((longest.len(), property.name))
    });
    // Where several stand in it, the one that leaves the fewest words over.
    found.min_by_key(|(left, _)| *left).map(|(_, name)| name)
}

/// The one name that has a header's two or more words together: `drive square`.
fn part_of<'p>(folded: &str, known: impl Iterator<Item = &'p Property>) -> Option<&'static str> {
    let words: Vec<&str> = folded.split('_').collect();
    // One word alone is part of too many names.
    if words.len() < 2 {
        return None;
    }
    let names = known.map(|property| property.name).filter(|name| {
        let own: Vec<&str> = name.split('_').collect();
        own.windows(words.len()).any(|part| part == words)
    });
    let mut names: Vec<&'static str> = names.collect();
    names.dedup();
    match names.as_slice() {
        [one] => Some(one),
        _ => None,
    }
}

/// The words of a header that are left when those of a name, which stand together, are taken out.
fn others<'w>(words: &[&'w str], own: &[String]) -> Option<Vec<&'w str>> {
    let at = words
        .windows(own.len())
        .position(|window| window.iter().zip(own).all(|(word, own)| word == own))?;
    let before = words.iter().take(at);
    let behind = words.iter().skip(at + own.len());
    Some(before.chain(behind).copied().collect())
}
