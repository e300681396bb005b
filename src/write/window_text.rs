//! The answer to a quick question as text: the number first, then what it rests on.

use crate::advice::words::{ends, full, name};
use crate::advice::{End, Window};
use crate::judge::Finding;
use crate::rulebook::Level;
use crate::text::visible;
use crate::units::Unit;
use crate::units::print::{self, DisplayUnits, Rounding};

use super::NOTICE;
use super::sketch::{SketchLook, sketch};
use super::text::Look;
use super::window_facts::{Around, Asked, Shortest};
use super::window_gaps::gaps;
use super::wrap::wrapped;

/// Columns of the labels at the left.
const LABEL: usize = 12;
/// Stick-outs nearer to an end than this are on it, mm.
const SAME: f64 = 0.01;
/// Bold, and bold red: nothing that a window must not be.
const GOOD: &str = "\u{1b}[1m";
const BAD: &str = "\u{1b}[1;31m";
/// What every change of the stick-out entails.
const CHANGED: &str = "A changed stick-out changes the tool's length and the clearance of holder and nut: change the library, simulate again, measure again.";

/// The answer, every line within 80 columns; `failing` is what is wrong whatever the stick-out.
#[must_use]
pub fn window_text(asked: &Asked<'_>, failing: &[&Finding], look: Look, ascii: bool) -> String {
    let around = asked.around();
    let answer = Answer {
        number: asked.assembly.tool_number(),
        window: asked.window,
        around: &around,
        units: asked.library.units,
        stopped: failing
            .iter()
            .any(|finding| finding.level == Some(Level::Error)),
    };
    let ink = if asked.window.is_empty() { BAD } else { GOOD };
    let mut text = String::new();
    // What no stick-out cures comes first: a number before it would be followed.
    for finding in failing {
        let level = finding.level_name();
        let words = format!(
            "{level} {}: {}; do: {}",
            finding.rule, finding.message, finding.advice
        );
        text.push_str(&painted(&labelled("put right", &words), BAD, look));
    }
    text.push_str(&painted(&wrapped(&answer.headline(), 0, 2), ink, look));
    if let Some((words, inside)) = answer.present() {
        let ink = if inside { "" } else { BAD };
        text.push_str(&painted(&labelled("as stated", &words), ink, look));
    }
    text.push_str(&answer.mark());
    text.push('\n');
    if look != Look::Plain {
        let colour = look == Look::Colour;
        let look = SketchLook { ascii, colour };
        let drawn = sketch(&around.drawing, answer.units, look);
        text.push_str(&drawn.map_or_else(String::new, |drawn| drawn + "\n"));
    }
    text.push_str(&answer.ends());
    text.push_str(&answer.clearance());
    text.push_str(&answer.reasons());
    text.push_str(&gaps(&answer));
    text.push('\n');
    text.push_str(&wrapped(CHANGED, 0, 0));
    text.push_str(&wrapped(NOTICE, 0, 0));
    text
}

/// Lines in an ink, where there is colour; the words alone say the same.
fn painted(lines: &str, ink: &str, look: Look) -> String {
    if look != Look::Colour || ink.is_empty() {
        return lines.to_owned();
    }
    let lines = lines.lines().map(|line| format!("{ink}{line}\u{1b}[0m\n"));
    lines.collect()
}

/// A line of the answer under its label; what does not fit goes on below it.
pub(super) fn labelled(label: &str, words: &str) -> String {
    let label = format!("{label}:");
    wrapped(&format!("{label:<LABEL$}{}", visible(words)), 0, LABEL)
}

pub(super) struct Answer<'a> {
    number: Option<&'a str>,
    pub window: &'a Window,
    pub around: &'a Around,
    units: DisplayUnits,
    /// Whether an error stands that no stick-out cures.
    stopped: bool,
}

impl Answer<'_> {
    /// A length with its unit, rounded as told.
    pub(super) fn length(&self, length: f64, way: Rounding) -> String {
        let unit = self.units.length();
        format!("{} {unit}", print::length(length, way, self.units))
    }

    /// The recommended stick-out; finer where rounding would carry it out of a narrow window.
    fn recommended(&self) -> Option<String> {
        let at = self.around.advised?;
        let shown = print::length(at, Rounding::Nearest, self.units);
        let (least, most) = ends(self.window, self.units);
        let outside = |end: &str, way: fn(&f64, &f64) -> bool| {
            let both = shown.parse::<f64>().ok().zip(end.parse::<f64>().ok());
            both.is_some_and(|(shown, end)| way(&shown, &end))
        };
        if outside(&least, f64::lt) || outside(&most, f64::gt) {
            return Some(print::value(at, Unit::Mm, self.units));
        }
        Some(format!("{shown} {}", self.units.length()))
    }

    fn headline(&self) -> String {
        let unit = self.units.length();
        if self.window.is_empty() {
            return format!("There is {}", crate::advice::span(self.window, self.units));
        }
        let (least, most) = ends(self.window, self.units);
        let bound = (&self.window.min, &self.window.max);
        let limits = match bound {
            (Some(_), Some(_)) => format!("limits {least} to {most} {unit}"),
            (Some(_), None) => format!("not below {least} {unit}; no upper end is known"),
            (None, Some(_)) => format!("not above {most} {unit}; no lower end is known"),
            (None, None) => "neither a lower nor an upper end is known".to_owned(),
        };
        let mut both = [bound.0, bound.1].into_iter().flatten();
        let assumed = if both.any(|end| !end.assumed.is_empty()) {
            ", partly assumed"
        } else {
            ""
        };
        match self.recommended() {
            // A number to set by, beside something that must not run, would be followed.
            Some(at) if self.stopped => {
                format!("Once that is put right, {at} would do ({limits}{assumed})")
            }
            Some(at) => format!("Set the stick-out to {at} ({limits}{assumed})"),
            None if self.window.undecided.is_empty() => {
                format!("No stick-out can be recommended ({limits}{assumed})")
            }
            None => format!(
                "No stick-out can be recommended: the grip is not judged, {} not stated ({limits}{assumed})",
                self.window.undecided.join(", ")
            ),
        }
    }

    /// Where the stick-out that the question states lies, and whether that is inside.
    fn present(&self) -> Option<(String, bool)> {
        let present = self.around.present?;
        let at = print::value(present, Unit::Mm, self.units);
        if self.window.is_empty() {
            return Some((format!("{at}: no stick-out is right"), false));
        }
        let (min, max) = (self.window.min.as_ref(), self.window.max.as_ref());
        let below = min.map_or(0.0, |min| min.value - present);
        let above = max.map_or(0.0, |max| present - max.value);
        let out = |by: f64, way: &str, end: Option<&End>| {
            let by = self.length(by, Rounding::Up);
            let name = end.map(name).unwrap_or_default();
            format!("{at}: outside, {by} too {way} ({name})")
        };
        Some(if below > SAME {
            (out(below, "short", min), false)
        } else if above > SAME {
            (out(above, "long", max), false)
        } else {
            let judged = self.window.undecided.is_empty();
            let words = if judged {
                "inside the limits"
            } else {
                "inside what is known, but the grip is not judged"
            };
            (format!("{at}: {words}"), judged)
        })
    }

    /// What binds, and what would bind next.
    fn ends(&self) -> String {
        let window = self.window;
        let mut text = String::new();
        let mut end = |label: &str, end: &Option<End>, way: Rounding| match end {
            Some(end) => text.push_str(&labelled(label, &self.end(end, way))),
            None if label.starts_with("not") => {
                text.push_str(&labelled(label, "nothing known binds here"));
            }
            None => {}
        };
        end("not below", &window.min, Rounding::Up);
        end(" next", &window.next_min, Rounding::Up);
        end("not above", &window.max, Rounding::Down);
        end(" next", &window.next_max, Rounding::Down);
        for (least, most) in &window.others {
            let (least, most) = print::inwards(*least, *most, self.units);
            text.push_str(&labelled("also free", &format!("{least} to {most}")));
        }
        for rule in &window.beyond_cure {
            let words = format!("{rule}: no stick-out keeps it");
            text.push_str(&labelled("not cured", &words));
        }
        text
    }

    fn end(&self, end: &End, way: Rounding) -> String {
        let at = print::length(end.value, way, self.units);
        // An operation without a name goes by the tool's number.
        let operation = end.operation.as_deref();
        let operation = operation.filter(|name| self.number != Some(*name));
        let operation = operation.map_or_else(String::new, |name| format!(" of {name}"));
        let unit = self.units.length();
        let words = format!("{at} {unit}, {}{operation} [{}]", name(end), end.rule);
        let assumed =
            (!end.assumed.is_empty()).then(|| format!("assumed: {}", end.assumed.join(", ")));
        let beyond = end.model_ends.map(|why| format!("beyond it {why}"));
        let all = [Some(words), assumed, beyond].into_iter().flatten();
        all.collect::<Vec<_>>().join("; ")
    }

    /// How to set it at the bench.
    fn mark(&self) -> String {
        let Some((at, shown)) = self.around.advised.zip(self.recommended()) else {
            return String::new();
        };
        let tail = self.length(self.window.overall_length - at, Rounding::Nearest);
        let words = format!(
            "{tail} from the tail, for {shown}; it must end flush with the front face once the nut is tight. Mark with a pen or set a stop collar; never scribe the shank, never measure along the cutting edges"
        );
        labelled("mark", &words)
    }

    /// A job without clearance lets the front face touch the work.
    fn clearance(&self) -> String {
        if !self.around.touches {
            return String::new();
        }
        let words = "none is stated: at the reach itself the front face touches the work; add yours with --clearance";
        labelled("clearance", words)
    }

    /// How much grip is needed, how short the tool may get, the torque, what is assumed.
    fn reasons(&self) -> String {
        let mut text = labelled("grip", &self.grip());
        let shortest = match &self.around.shortest {
            Shortest::ForThisReach(length) => {
                let length = self.length(*length, Rounding::Up);
                Some(if self.window.is_empty() {
                    format!(
                        "a cutter at least {length} overall, with shank enough, would serve; or a collet with a shorter land, or a holder that reaches further"
                    )
                } else {
                    format!("{length} overall after regrinding, for this reach")
                })
            }
            Shortest::AtThisStickOut(length) => {
                let length = self.length(*length, Rounding::Up);
                let at = self.recommended().unwrap_or_default();
                Some(format!(
                    "{length} overall after regrinding, at {at} stick-out"
                ))
            }
            Shortest::Unknown(missing) if missing.is_empty() => None,
            Shortest::Unknown(missing) => {
                Some(format!("not known: {} not stated", missing.join(", ")))
            }
        };
        text.push_str(&shortest.map_or_else(String::new, |words| labelled("shortest", &words)));
        if self.around.held {
            text.push_str(&labelled("torque", &self.torque()));
        }
        for words in &self.around.assumed {
            text.push_str(&labelled("assumed", words));
        }
        text
    }

    fn grip(&self) -> String {
        if !self.around.held {
            let words = "not judged: nothing stated says that a collet holds the tool";
            return words.to_owned();
        }
        let Some(needed) = self.around.needed_grip else {
            let missing = self.window.undecided.join(", ");
            return format!("not judged: {missing} not stated");
        };
        let needed = self.length(needed, Rounding::Up);
        let land = self.around.land.map_or_else(String::new, |land| {
            let land = self.length(land, Rounding::Nearest);
            format!(" of the {land} land")
        });
        let full = full(self.window, self.units);
        let full = full.map_or_else(String::new, |full| format!("; {full}"));
        format!("needed {needed}{land}{full}")
    }

    fn torque(&self) -> String {
        let stated = self.around.torques.iter().map(|(word, torque)| {
            format!("{word} {}", print::value(*torque, Unit::Nm, self.units))
        });
        let stated: Vec<String> = stated.collect();
        let words = if stated.is_empty() {
            "take it from the makers' instructions for this bore".to_owned()
        } else {
            format!("as stated: {}", stated.join(", "))
        };
        format!("{words}; more torque never makes up for a short grip")
    }
}
