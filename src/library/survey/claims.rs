//! What the values of a column say for or against what it may mean: a stick-out is shorter than its
//! tool, a shank is as thick as the bore that holds it.

use crate::units::is_stand_in;

use super::super::{
    ClampingKind, ClosedList as _, CutterKind, Field, PROPERTIES, ReadSettings, ValueType,
    find_word,
};
use super::meaning::{Guess, Meaning};
use super::part_names;
use super::raw_columns::{RawColumn, RawColumns};
use super::strange_words;

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
const ENOUGH: usize = 3;
/// The share of rows from which on values speak for a property of which the header says nothing.
const NEARLY_ALL: f64 = 0.9;

/// A share of rows.
#[derive(Clone, Copy, Debug, Default)]
struct Share {
    so: usize,
    of: usize,
}

impl Share {
    fn of(all: impl Iterator<Item = bool>) -> Share {
        all.fold(Share::default(), |share, is_so| Share {
            so: share.so + usize::from(is_so),
            of: share.of + 1,
        })
    }

    fn value(self) -> Option<f64> {
        let number = |count: usize| u32::try_from(count).map_or(f64::MAX, f64::from);
        (self.of >= ENOUGH).then(|| number(self.so) / number(self.of))
    }

    fn words(self, what: &str) -> String {
        format!("{what} in {} of {} rows", self.so, self.of)
    }
}

/// Adds to every guess what the values say, puts the likeliest first, and guesses at columns of which
/// the header says nothing.
pub(super) fn weigh(raw: &RawColumns, meanings: &mut [Meaning], settings: &ReadSettings) {
    by_values(raw, meanings, settings);
    // What is likeliest first tells what the other columns are held against.
    sort(&weights(raw, meanings, settings), meanings);
    between(raw, meanings, settings);
    let weights = weights(raw, meanings, settings);
    for (meaning, own) in meanings.iter_mut().zip(&weights) {
        if let Meaning::Guessed(guesses) = meaning {
            for (guess, weight) in guesses.iter_mut().zip(own) {
                guess.reasons.extend(weight.reasons.iter().cloned());
            }
        }
    }
    sort(&weights, meanings);
}

/// What the values say of a guess.
#[derive(Clone, Debug)]
struct Weight {
    /// The least share of rows that fit it; one half if nothing is said.
    share: f64,
    reasons: Vec<String>,
}

/// Of every guess of every column what its values say.
fn weights(raw: &RawColumns, meanings: &[Meaning], settings: &ReadSettings) -> Vec<Vec<Weight>> {
    let weigh = |(at, meaning): (usize, &Meaning)| {
        let Meaning::Guessed(guesses) = meaning else {
            return Vec::new();
        };
        let weights = guesses.iter().map(|guess| {
            let shares = shares(raw, (at, guess), meanings, settings);
            let least = shares.iter().filter_map(|(share, _)| share.value());
            let said = shares.iter().filter(|(share, _)| share.of >= ENOUGH);
            Weight {
                share: least.reduce(f64::min).unwrap_or(0.5),
                reasons: said.map(|(share, what)| share.words(what)).collect(),
            }
        });
        weights.collect::<Vec<_>>()
    };
    let mut all: Vec<Vec<Weight>> = meanings.iter().enumerate().map(weigh).collect();
    // Of several columns that may state one property the one that fits best has the first claim.
    let best = |property: &str, all: &[Vec<Weight>]| {
        let claims = meanings
            .iter()
            .zip(all)
            .filter_map(|(meaning, own)| match meaning {
                Meaning::Taken(taken, _) => (*taken == property).then_some(f64::INFINITY),
                Meaning::Guessed(guesses) => {
                    let at = guesses
                        .iter()
                        .position(|guess| guess.property == property)?;
                    Some(own.get(at)?.share + alone(guesses))
                }
                _ => None,
            });
        claims.fold(0.0, f64::max)
    };
    let before = all.clone();
    for (meaning, own) in meanings.iter().zip(&mut all) {
        let Meaning::Guessed(guesses) = meaning else {
            continue;
        };
        for (guess, weight) in guesses.iter().zip(own) {
            if weight.share + alone(guesses) < best(guess.property, &before) {
                weight.share /= 2.0;
            }
        }
    }
    all
}

/// What a word means alone goes before what another may mean besides.
fn alone(guesses: &[Guess]) -> f64 {
    if guesses.len() == 1 { 0.1 } else { 0.0 }
}

/// Puts the likeliest guess of each column first; of two alike the one that the words have first.
fn sort(weights: &[Vec<Weight>], meanings: &mut [Meaning]) {
    for (meaning, own) in meanings.iter_mut().zip(weights) {
        if let Meaning::Guessed(guesses) = meaning {
            let mut pairs: Vec<(Guess, f64)> = guesses
                .drain(..)
                .zip(own.iter().map(|weight| weight.share))
                .collect();
            pairs.sort_by(|a, b| b.1.total_cmp(&a.1));
            guesses.extend(pairs.into_iter().map(|(guess, _)| guess));
        }
    }
}

/// The column that states a field, or is most likely to, other than one.
fn column_of(field: Field, meanings: &[Meaning], not: usize) -> Option<usize> {
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
fn shares(
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
        let stated = column.cells.iter().filter(|(_, text)| !is_stand_in(text));
        let rows = stated.map(|(row, _)| own.get(*row).copied().flatten().is_some());
        let share = Share::of(rows);
        let few = share.value().is_some_and(|share| share < 0.5);
        few.then_some((share, "a number"))
    }));
    found
}

/// In how many rows a text may be the number of a tool: one word that is in no other row.
fn numbered(column: &RawColumn) -> Share {
    let mut many = std::collections::HashMap::new();
    for (_, text) in &column.cells {
        *many.entry(text.as_str()).or_insert(0_usize) += 1;
    }
    words(column, |text| {
        many.get(text) == Some(&1) && !text.contains(char::is_whitespace)
    })
}

/// In how many rows a diameter is that of the bore in the name of the row's collet.
fn as_the_bore(raw: &RawColumns, own: &[Option<f64>], settings: &ReadSettings) -> Share {
    let named = raw
        .columns
        .iter()
        .find_map(|column| part_names::bores(column, raw, settings));
    let rows = named.into_iter().flatten().filter_map(|(row, bore)| {
        let own = own.get(row).copied().flatten()?;
        Some((bore - own).abs() < 0.6)
    });
    Share::of(rows)
}

/// In how many rows a number stands in the description too.
fn in_the_description(raw: &RawColumns, own: &[Option<f64>], meanings: &[Meaning]) -> Share {
    let description = column_of(Field::AssemblyDescription, meanings, usize::MAX);
    let Some(column) = description.and_then(|at| raw.columns.get(at)) else {
        return Share::default();
    };
    let rows = column.cells.iter().filter_map(|(row, text)| {
        let own = own.get(*row).copied().flatten()?;
        let numbers = text.split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')));
        let mut numbers = numbers.filter_map(|word| word.replace(',', ".").parse::<f64>().ok());
        Some(numbers.any(|number| (number - own).abs() < 1e-6))
    });
    Share::of(rows)
}

/// Guesses at columns of which the header says nothing by what stands in them.
fn by_values(raw: &RawColumns, meanings: &mut [Meaning], settings: &ReadSettings) {
    for at in 0..meanings.len() {
        let Some(column) = raw
            .columns
            .get(at)
            .filter(|_| meanings.get(at) == Some(&Meaning::Open))
        else {
            continue;
        };
        let guess = of_texts(column).or_else(|| of_numbers(raw, at, meanings, settings));
        let is_claimed = |guess: &Guess| is_claimed(guess.property, meanings);
        if let Some(guess) = guess.filter(|guess| !is_claimed(guess))
            && let Some(meaning) = meanings.get_mut(at)
        {
            *meaning = Meaning::Guessed(vec![guess]);
        }
    }
}

/// What texts may be: names of collets, tool numbers, words of a list.
fn of_texts(column: &RawColumn) -> Option<Guess> {
    if part_names::look_like_collets(column) {
        let why = "names such as those of collets: a size, and a bore";
        return Some(Guess::new("collet", why));
    }
    let called = words(column, |text| {
        let behind = text.strip_prefix(['T', 't']).unwrap_or("x").trim_start();
        !behind.is_empty() && behind.bytes().all(|byte| byte.is_ascii_digit())
    });
    if called.value().is_some_and(|share| share >= NEARLY_ALL) {
        return Some(Guess::new("tool_number", &called.words("T and a number")));
    }
    let lists = [
        ("cutter_kind", CutterKind::WORDS),
        ("clamping_kind", ClampingKind::WORDS),
    ];
    lists.into_iter().find_map(|(property, list)| {
        let share = words(column, |text| {
            find_word(list, text).is_some() || strange_words::meant(property, text).is_some()
        });
        let enough = share.value().is_some_and(|share| share >= 0.6);
        enough.then(|| Guess::new(property, &share.words("words of its list")))
    })
}

/// What diameters may be: those in the names of collets, and in descriptions.
fn of_numbers(
    raw: &RawColumns,
    at: usize,
    meanings: &[Meaning],
    settings: &ReadSettings,
) -> Option<Guess> {
    let own = raw.numbers(at, Field::ShankDiameter, settings);
    let bores = as_the_bore(raw, &own, settings);
    if bores.value().is_some_and(|share| share >= NEARLY_ALL) {
        return Some(Guess::new("shank_diameter", "diameters"));
    }
    let described = in_the_description(raw, &own, meanings);
    let enough = described.value().is_some_and(|share| share >= NEARLY_ALL);
    enough.then(|| Guess::new("cutting_diameter", "diameters"))
}

/// Whether a column is taken for a property, or may mean it.
fn is_claimed(property: &str, meanings: &[Meaning]) -> bool {
    meanings.iter().any(|meaning| match meaning {
        Meaning::Taken(own, _) => *own == property,
        Meaning::Guessed(guesses) => guesses.iter().any(|one| one.property == property),
        _ => false,
    })
}

fn words(column: &RawColumn, is_word: impl Fn(&str) -> bool) -> Share {
    Share::of(column.cells.iter().map(|(_, text)| is_word(text)))
}

/// Guesses at a column of lengths that lies where a stick-out or the front of a shank lies, if no
/// other column claims that.
fn between(raw: &RawColumns, meanings: &mut [Meaning], settings: &ReadSettings) {
    let numbers = |field: Field, meanings: &[Meaning]| {
        let at = column_of(field, meanings, usize::MAX)?;
        Some(raw.numbers(at, field, settings))
    };
    let (Some(overall), Some(shank)) = (
        numbers(Field::OverallLength, meanings),
        numbers(Field::ShankLength, meanings),
    ) else {
        return;
    };
    if is_claimed(Field::StickOut.property().name, meanings) {
        return;
    }
    for at in 0..meanings.len() {
        if meanings.get(at) != Some(&Meaning::Open) {
            continue;
        }
        let own = raw.numbers(at, Field::StickOut, settings);
        let rows = own.iter().zip(&overall).zip(&shank);
        let rows = rows.filter_map(|((own, overall), shank)| {
            let (own, overall, shank) = ((*own)?, (*overall)?, (*shank)?);
            Some(own < overall && own >= overall - shank - 1.0)
        });
        let share = Share::of(rows);
        if share.value().is_some_and(|value| value >= NEARLY_ALL)
            && let Some(meaning) = meanings.get_mut(at)
        {
            let why = share.words("between the front of the shank and the overall length");
            *meaning = Meaning::Guessed(vec![Guess::new("stick_out", &why)]);
        }
    }
}
