//! A tool number that no assembly has, and those that may be meant.

use std::collections::BTreeSet;

use crate::text::closest;

use super::judged::Read;
use super::refusal::{Refusal, shown};

/// How many numbers are named as the nearest.
const NEAREST: usize = 3;
/// How many numbers a library may have so that all of them are named.
const FEW: usize = 10;

/// What to say of a number that no assembly has.
pub(super) fn no_such_tool(number: &str, known: &BTreeSet<String>) -> Refusal {
    let what = format!("no assembly has the tool number `{}`", shown(number));
    Refusal::new(what, hint(number, known).unwrap_or_default())
}

/// What to say of the tools that were asked for and are not in a library.
pub(super) fn lacking(library: &Read) -> Vec<Refusal> {
    if library.lacking.is_empty() {
        return Vec::new();
    }
    let known: BTreeSet<String> = library.numbers().map(str::to_owned).collect();
    let lacking = library.lacking.iter();
    lacking.map(|number| no_such_tool(number, &known)).collect()
}

fn hint(number: &str, known: &BTreeSet<String>) -> Option<String> {
    // `T12`, `0012` and `12` are one number to whoever reads them off a machine.
    let same = known.iter().find(|other| {
        let value = value(number);
        value.is_some() && self::value(other) == value
    });
    let is_count = number.chars().all(|digit| digit.is_ascii_digit());
    let slip = || closest(number, known.iter().map(String::as_str)).filter(|_| !is_count);
    if let Some(near) = same.map(String::as_str).or_else(slip) {
        return Some(format!("did you mean `{}`?", shown(near)));
    }
    if let Some(value) = value(number) {
        let mut near: Vec<(u64, &String)> = known
            .iter()
            .filter_map(|other| Some((self::value(other)?.abs_diff(value), other)))
            .collect();
        near.sort();
        near.truncate(NEAREST);
        let near: Vec<&String> = near.into_iter().map(|(_, other)| other).collect();
        return match near.as_slice() {
            [] => None,
            [one] => Some(format!("the nearest is {}", listed(&[one]))),
            many => Some(format!("the nearest are {}", listed(many))),
        };
    }
    let all: Vec<&String> = known.iter().take(FEW + 1).collect();
    match all.as_slice() {
        [] => None,
        [one] => Some(format!("there is {}", listed(&[one]))),
        few if few.len() <= FEW => Some(format!("there are {}", listed(few))),
        _ => Some(format!("there are {} others", known.len())),
    }
}

/// The number in a tool number: its digits behind at most one letter.
fn value(number: &str) -> Option<u64> {
    let digits = number.trim();
    let digits = digits.strip_prefix(|c: char| c.is_ascii_alphabetic());
    digits.unwrap_or(number.trim()).parse().ok()
}

fn listed(numbers: &[&String]) -> String {
    let numbers = numbers.iter().map(|number| format!("`{}`", shown(number)));
    let numbers: Vec<String> = numbers.collect();
    match numbers.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
        None => String::new(),
    }
}
