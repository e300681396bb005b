//! Which column means what: each guess is held against the values, the likeliest comes first, and a
//! column of which the header says nothing may still be told by what stands in it.

use super::super::{ClampingKind, ClosedList as _, CutterKind, Field, ReadSettings, find_word};
use super::meaning::{Guess, Meaning};
use super::part_names;
use super::raw_columns::{RawColumn, RawColumns};
use super::shares::{
    ENOUGH, Share, as_the_bore, column_of, in_the_description, remarks, shares, to_the_diameter,
    words,
};
use super::strange_words;

/// The share of rows from which on values speak for a property of which the header says nothing.
const NEARLY_ALL: f64 = 0.9;

/// The share of rows in which a relation to another column makes a guess.
const MOST: f64 = 0.6;

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
            let said = said.map(|(share, what)| share.words(what));
            let besides = remarks(raw, (at, guess), meanings, settings);
            Weight {
                share: least.reduce(f64::min).unwrap_or(0.5),
                reasons: said.chain(besides).collect(),
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
    numbered_by_one(meanings, &mut all);
    all
}

/// Every list has a tool number: where no other column claims it, the one that may be it most likely is.
fn numbered_by_one(meanings: &[Meaning], all: &mut [Vec<Weight>]) {
    let name = Field::ToolNumber.property().name;
    let is_sure = |meaning: &Meaning| match meaning {
        Meaning::Taken(own, _) => *own == name,
        Meaning::Guessed(guesses) => {
            guesses.len() == 1 && guesses.iter().any(|guess| guess.property == name)
        }
        _ => false,
    };
    if meanings.iter().any(is_sure) {
        return;
    }
    for (meaning, own) in meanings.iter().zip(all) {
        if let Meaning::Guessed(guesses) = meaning {
            let mut pairs = guesses.iter().zip(own);
            let may_be = pairs.find(|(guess, weight)| guess.property == name && weight.share > 0.7);
            if let Some((_, weight)) = may_be {
                weight.share += 0.5;
            }
        }
    }
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

/// What diameters may be: those in the names of collets, and in descriptions; what is half of the
/// cutting diameter, or the same.
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
    if described.value().is_some_and(|share| share >= NEARLY_ALL) {
        return Some(Guess::new("cutting_diameter", "diameters"));
    }
    let (halves, _, same) = to_the_diameter(raw, (at, &own), meanings, settings)?;
    let is_most = |share: Share| share.value().is_some_and(|share| share >= MOST);
    let guess = |property, why| Some(Guess::new(property, why));
    if is_most(halves) {
        return guess("corner_radius", "a radius");
    }
    if is_most(same) {
        return guess("shank_diameter", "diameters");
    }
    None
}

/// Whether a column is taken for a property, or may mean it.
fn is_claimed(property: &str, meanings: &[Meaning]) -> bool {
    meanings.iter().any(|meaning| match meaning {
        Meaning::Taken(own, _) => *own == property,
        Meaning::Guessed(guesses) => guesses.iter().any(|one| one.property == property),
        _ => false,
    })
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
