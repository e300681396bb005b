//! The answer to a quick question as text: the number first, then what it rests on.

mod answer;
mod asked_number;
mod drawing_alone;
mod front;
mod reasons;
mod unknowns;

use crate::sheet::{Answer, Finding};
use crate::units::print::Rounding;

use super::NOTICE;
use super::sketch::{SketchLook, sketch};
use super::text::Look;
use super::wrap::wrapped;
use answer::{labelled, length};
pub use drawing_alone::window_svg;

/// Bold, and bold red: nothing that a window must not be.
const GOOD: &str = "\u{1b}[1m";
const BAD: &str = "\u{1b}[1;31m";
/// What every change of the stick-out entails.
fn changed(answer: &Answer) -> String {
    let around = front::around(answer.front);
    format!(
        "A changed stick-out changes the tool's length and the clearance of {around}: update the library, simulate again, measure again."
    )
}

/// The answer, every line within 80 columns. `failing` is what is wrong whatever the stick-out,
/// `read_as` how values in other units were read.
#[must_use]
pub fn window_text(
    answer: &Answer,
    failing: &[&Finding],
    read_as: &[String],
    look: Look,
    ascii: bool,
) -> String {
    let ink = if answer.window.is_empty() { BAD } else { GOOD };
    let mut text = String::new();
    let headline = painted(&wrapped(&asked_number::headline(answer), 0, 2), ink, look);
    let wrong: String = failing
        .iter()
        .map(|finding| painted(&to_correct(finding), BAD, look))
        .collect();
    // What no stick-out cures comes before a number, which would be followed; where there is no
    // number, that comes first.
    if answer.window.is_empty() {
        text.push_str(&(headline + &wrong));
    } else {
        text.push_str(&(wrong + &headline));
    }
    if let Some(words) = asked_number::outside(answer) {
        text.push_str(&painted(&labelled("as stated", &words), BAD, look));
    }
    for words in read_as {
        text.push_str(&labelled("read as", words));
    }
    text.push_str(&asked_number::mark(answer));
    text.push('\n');
    text.push_str(&drawn(answer, look, ascii));
    text.push_str(&reasons::ends(answer));
    text.push_str(&reasons::job(answer));
    text.push_str(&reasons::reasons(answer));
    text.push_str(&unknowns::gaps(answer));
    for default in &answer.defaults {
        text.push_str(&labelled("default", &of_the_shop(default)));
    }
    text.push('\n');
    text.push_str(&wrapped(&changed(answer), 0, 0));
    text.push_str(&wrapped(NOTICE, 0, 0));
    text
}

/// A default, as the question has one tool only.
fn of_the_shop(default: &str) -> String {
    let value = default.strip_suffix(" on 1 tool").unwrap_or(default);
    format!("{value}: not stated, the shop's default")
}

fn to_correct(finding: &Finding) -> String {
    let level = finding.level_name();
    let words = format!(
        "{level} {}: {}; do: {}",
        finding.rule, finding.message, finding.advice
    );
    labelled("correct", &words)
}

/// The drawing under a line that says at which stick-out; none for who only listens.
fn drawn(answer: &Answer, look: Look, ascii: bool) -> String {
    if look == Look::Plain {
        return String::new();
    }
    let colour = look == Look::Colour;
    let look = SketchLook { ascii, colour };
    let Some(drawn) = sketch(&answer.drawing, answer.units, look) else {
        return String::new();
    };
    // Who reads a drawing beside "Set" takes it for what is to be set.
    let present = answer.present;
    let stated = present.map(|at| length(answer, at, Rounding::Nearest));
    let caption = stated.map_or_else(String::new, |at| format!("  drawn at {at}, as stated\n"));
    format!("{caption}{drawn}\n")
}

/// Lines in an ink, where there is colour; the words alone say the same.
fn painted(lines: &str, ink: &str, look: Look) -> String {
    if look != Look::Colour || ink.is_empty() {
        return lines.to_owned();
    }
    let lines = lines.lines().map(|line| format!("{ink}{line}\u{1b}[0m\n"));
    lines.collect()
}
