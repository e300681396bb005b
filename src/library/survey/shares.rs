//! In how many rows a column is what it is guessed to be: a stick-out is shorter than its tool, a shank
//! is as thick as the bore that holds it.

use crate::units::is_stand_in;

use super::super::{Field, PROPERTIES, ReadSettings, ValueType, trade_size};
use super::meaning::{Guess, Meaning};
use super::part_names;
use super::raw_columns::{RawColumn, RawColumns};

/// How a quantity lies to another of the same row.
struct Relation {
    own: Field,
    other: Field,
    words: &'static str,
    is_so: fn(f64, f64) -> bool,
}

const fn less(own: Field, other: Field, words: &'static str) -> Relation {
    Relation {
        own,
        other,
        words,
        is_so: |own, other| own < other,
    }
}

/// What is so of nearly every tool.
const RELATIONS: [Relation; 11] = [
    less(
        Field::StickOut,
        Field::OverallLength,
        "less than the overall length",
    ),
    less(
        Field::ShankLength,
        Field::OverallLength,
        "less than the overall length",
    ),
    less(
        Field::ChipFluteLength,
        Field::OverallLength,
        "less than the overall length",
    ),
    less(
        Field::DepthOfCutMax,
        Field::OverallLength,
        "less than the overall length",
    ),
    less(
        Field::HeadLength,
        Field::OverallLength,
        "less than the overall length",
    ),
    less(
        Field::Reach,
        Field::OverallLength,
        "less than the overall length",
    ),
    less(
        Field::AxialDepth,
        Field::OverallLength,
        "less than the overall length",
    ),
    Relation {
        own: Field::OverallLength,
        other: Field::ShankLength,
        words: "more than the shank length",
        is_so: |own, other| own > other,
    },
    Relation {
        own: Field::OverallLength,
        other: Field::CuttingDiameter,
        words: "more than twice the cutting diameter",
        is_so: |own, other| own > 2.0 * other,
    },
    less(
        Field::ChipFluteLength,
        Field::StickOut,
        "less than the stick-out",
    ),
    less(
        Field::DepthOfCutMax,
        Field::StickOut,
        "less than the stick-out",
    ),
];

/// Rows from which on a share of them says something.
pub(super) const ENOUGH: usize = 3;
/// A share of rows.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Share {
    pub so: usize,
    pub of: usize,
}

impl Share {
    pub fn of(all: impl Iterator<Item = bool>) -> Share {
        all.fold(Share::default(), |share, is_so| Share {
            so: share.so + usize::from(is_so),
            of: share.of + 1,
        })
    }

    pub fn value(self) -> Option<f64> {
        let number = |count: usize| u32::try_from(count).map_or(f64::MAX, f64::from);
        (self.of >= ENOUGH).then(|| number(self.so) / number(self.of))
    }

    pub fn words(self, what: &str) -> String {
        format!("{what} in {} of {} rows", self.so, self.of)
    }
}

/// The column that states a field, or is most likely to, other than one.
pub(super) fn column_of(field: Field, meanings: &[Meaning], not: usize) -> Option<usize> {
    let name = field.property().name;
    let mut all = meanings.iter().enumerate();
    all.find(|(at, meaning)| *at != not && meaning.likeliest() == Some(name))
        .map(|(at, _)| at)
}

fn field_of(property: &str) -> Option<Field> {
    let known = PROPERTIES.iter().find(|one| one.name == property);
    known.map(|one| one.field)
}

/// In how many rows that is so which is so of nearly every tool.
pub(super) fn shares(
    raw: &RawColumns,
    (at, guess): (usize, &Guess),
    meanings: &[Meaning],
    settings: &ReadSettings,
) -> Vec<(Share, &'static str)> {
    let Some(field) = field_of(guess.property) else {
        return Vec::new();
    };
    let own = raw.numbers(at, field, settings);
    let mut found = Vec::new();
    for relation in RELATIONS.iter().filter(|one| one.own == field) {
        if let Some(other) = column_of(relation.other, meanings, at) {
            let other = raw.numbers(other, relation.other, settings);
            let rows = own.iter().zip(&other);
            let rows = rows.filter_map(|(own, other)| Some((relation.is_so)((*own)?, (*other)?)));
            found.push((Share::of(rows), relation.words));
        }
    }
    let column = raw.columns.get(at);
    match field {
        Field::ShankDiameter => found.push((
            as_the_bore(raw, &own, settings),
            "the bore that its collet's name says",
        )),
        Field::CuttingDiameter => {
            // A description need not have it, or has it in another unit.
            let share = in_the_description(raw, &own, meanings);
            let most = share.value().is_some_and(|share| share >= 0.5);
            found.extend(most.then_some((share, "the number in the description")));
        }
        Field::FluteCount => {
            let rows = own.iter().flatten();
            let rows = rows.map(|number| number.fract() == 0.0 && (1.0..=20.0).contains(number));
            found.push((Share::of(rows), "a small whole number"));
        }
        Field::ToolNumber => {
            found.extend(column.map(|column| (numbered(column), "one word that no other row has")));
        }
        Field::AssemblyDescription => found.extend(column.map(|column| {
            let share = words(column, |text| text.contains(char::is_whitespace));
            (share, "several words")
        })),
        _ => {}
    }
    let is_number = matches!(
        field.property().value,
        ValueType::Quantity(_) | ValueType::Count
    );
    found.extend(column.filter(|_| is_number).and_then(|column| {
        let stated = column
            .sample()
            .iter()
            .filter(|(_, text)| !is_stand_in(text));
        let rows = stated.map(|(row, _)| own.get(*row).copied().flatten().is_some());
        let share = Share::of(rows);
        let few = share.value().is_some_and(|share| share < 0.5);
        few.then_some((share, "a number"))
    }));
    found
}

/// What else its values say of a guess, which makes it neither more nor less likely.
pub(super) fn remarks(
    raw: &RawColumns,
    (at, guess): (usize, &Guess),
    meanings: &[Meaning],
    settings: &ReadSettings,
) -> Vec<String> {
    let field = field_of(guess.property);
    if field == Some(Field::CuttingDiameter) {
        let texts = raw.columns.get(at).map(RawColumn::sample);
        let texts = texts.into_iter().flatten();
        let both = texts.filter(|(_, text)| trade_size::with_radius(text).is_some());
        return match both.count() {
            0 => Vec::new(),
            1 => vec!["with a corner radius, as `8 R4`, in 1 row".to_owned()],
            many => vec![format!("with a corner radius, as `8 R4`, in {many} rows")],
        };
    }
    let Some(field) = field.filter(|_| field != Some(Field::CuttingDiameter)) else {
        return Vec::new();
    };
    let own = raw.numbers(at, field, settings);
    let Some((halves, doubles, same)) = to_the_diameter(raw, (at, &own), meanings, settings) else {
        return Vec::new();
    };
    let is_most = |share: Share, least: f64| share.value().is_some_and(|share| share >= least);
    match field {
        Field::CornerRadius if is_most(halves, 0.5) => {
            vec![halves.words("half of the cutting diameter")]
        }
        Field::CornerRadius if is_most(doubles, 0.5) => {
            vec![doubles.words("at most half of the cutting diameter")]
        }
        Field::ShankDiameter if is_most(same, 0.5) => {
            vec![same.words("the cutting diameter itself")]
        }
        _ => Vec::new(),
    }
}

/// In how many rows a number is half of the cutting diameter, at most half of it, and the same.
pub(super) fn to_the_diameter(
    raw: &RawColumns,
    (at, own): (usize, &[Option<f64>]),
    meanings: &[Meaning],
    settings: &ReadSettings,
) -> Option<(Share, Share, Share)> {
    let other = column_of(Field::CuttingDiameter, meanings, at)?;
    let diameters = raw.numbers(other, Field::CuttingDiameter, settings);
    let pairs = || {
        let pairs = own.iter().zip(&diameters);
        pairs.filter_map(|(own, diameter)| Some(((*own)?, (*diameter)?)))
    };
    let near = |a: f64, b: f64| (a - b).abs() <= b * 0.001;
    Some((
        Share::of(pairs().map(|(own, diameter)| near(own * 2.0, diameter))),
        Share::of(pairs().map(|(own, diameter)| own * 2.0 <= diameter * 1.001)),
        Share::of(pairs().map(|(own, diameter)| near(own, diameter))),
    ))
}

/// In how many rows a text may be the number of a tool: one word that is in no other row.
fn numbered(column: &RawColumn) -> Share {
    let mut many = std::collections::HashMap::new();
    for (_, text) in column.sample() {
        *many.entry(text.as_str()).or_insert(0_usize) += 1;
    }
    words(column, |text| {
        many.get(text) == Some(&1) && !text.contains(char::is_whitespace)
    })
}

/// In how many rows a diameter is that of the bore in the name of the row's collet.
pub(super) fn as_the_bore(raw: &RawColumns, own: &[Option<f64>], settings: &ReadSettings) -> Share {
    let named = raw.bores.get_or_init(|| {
        let mut columns = raw.columns.iter();
        let named = columns.find_map(|column| part_names::bores(column, raw, settings));
        named.unwrap_or_default()
    });
    let rows = named.iter().filter_map(|(row, bore)| {
        let own = own.get(*row).copied().flatten()?;
        Some((bore - own).abs() < 0.6)
    });
    Share::of(rows)
}

/// In how many rows a number stands in the description too.
pub(super) fn in_the_description(
    raw: &RawColumns,
    own: &[Option<f64>],
    meanings: &[Meaning],
) -> Share {
    let description = column_of(Field::AssemblyDescription, meanings, usize::MAX);
    let Some(column) = description.and_then(|at| raw.columns.get(at)) else {
        return Share::default();
    };
    let rows = column.sample().iter().filter_map(|(row, text)| {
        let own = own.get(*row).copied().flatten()?;
        let numbers = text.split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')));
        let mut numbers = numbers.filter_map(|word| word.replace(',', ".").parse::<f64>().ok());
        Some(numbers.any(|number| (number - own).abs() < 1e-6))
    });
    Share::of(rows)
}

pub(super) fn words(column: &RawColumn, is_word: impl Fn(&str) -> bool) -> Share {
    Share::of(column.sample().iter().map(|(_, text)| is_word(text)))
}
