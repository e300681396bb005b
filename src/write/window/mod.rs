//! The answer to a quick question as text: the number first, then what it rests on.

mod answer;
mod asked_number;
mod drawing_alone;
mod front;
mod reasons;
mod sheet_page;
mod unknowns;

use crate::sheet::{Answer, Finding};
use crate::units::print::Rounding;

use super::NOTICE;
use super::sketch::{SketchLook, sketch};
use super::text::Look;
use super::wrap::wrapped;
use answer::{Line, labelled, length, text};
pub use drawing_alone::window_svg;
pub(crate) use sheet_page::SheetPage;

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
    let mut all = String::new();
    let headline = painted(&wrapped(&asked_number::headline(answer), 0, 2), ink, look);
    let wrong: String = to_correct(failing)
        .iter()
        .map(|line| painted(&line.text(), BAD, look))
        .collect();
    // What no stick-out cures comes before a number, which would be followed; where there is no
    // number, that comes first.
    if answer.window.is_empty() {
        all.push_str(&(headline + &wrong));
    } else {
        all.push_str(&(wrong + &headline));
    }
    if let Some(words) = asked_number::outside(answer) {
        all.push_str(&painted(&labelled("as stated", &words).text(), BAD, look));
    }
    for words in read_as {
        all.push_str(&labelled("read as", words).text());
    }
    all.push_str(&text(&asked_number::mark(answer)));
    all.push('\n');
    all.push_str(&drawn(answer, look, ascii));
    all.push_str(&text(&rests_on(answer)));
    all.push('\n');
    all.push_str(&wrapped(&changed(answer), 0, 0));
    all.push_str(&wrapped(NOTICE, 0, 0));
    all
}

/// What the answer rests on, and what is not known.
fn rests_on(answer: &Answer) -> Vec<Line> {
    let mut lines = reasons::ends(answer);
    lines.extend(reasons::job(answer));
    lines.extend(reasons::reasons(answer));
    lines.extend(unknowns::gaps(answer));
    let defaults = answer.defaults.iter();
    lines.extend(defaults.map(|default| labelled("default", &of_the_shop(default))));
    lines
}

/// A default, as the question has one tool only.
fn of_the_shop(default: &str) -> String {
    let value = default.strip_suffix(" on 1 tool").unwrap_or(default);
    format!("{value}: not stated, the shop's default")
}

/// What is wrong whatever the stick-out.
fn to_correct(failing: &[&Finding]) -> Vec<Line> {
    let one = |finding: &&Finding| {
        let words = format!(
            "{} {}: {}; do: {}",
            finding.level_name(),
            finding.rule,
            finding.message,
            finding.advice
        );
        labelled("correct", &words)
    };
    failing.iter().map(one).collect()
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
