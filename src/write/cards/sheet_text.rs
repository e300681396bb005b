//! The setup sheet for a terminal.

use std::fmt::Write as _;

use crate::text::visible;

use super::super::NOTICE;
use super::super::html::short;
use super::super::wrap::wrapped_to;
use super::line::Line;
use super::{OfCards, trouble};

/// Columns of a tool number, and of a value.
const TOOL: usize = 8;
const VALUE: usize = 11;
/// Where what was found begins.
const CAME: usize = TOOL + 3 * (VALUE + 1) + 1;

/// All before the lines.
pub(super) fn head(about: &OfCards<'_>, counts: &str, width: usize) -> String {
    let title = format!("{}: setup sheet, judged on {}", about.library, about.day);
    let mut text = wrapped_to(width, &title, 0, 0);
    for (words, all) in trouble(about) {
        text += &wrapped_to(width, &format!("{words}: {}", all.join(", ")), 0, 2);
    }
    text += &wrapped_to(width, counts, 0, 2);
    text.push('\n');
    text += &columns("tool", ["stick-out", "mark", "torque"]);
    text += "  found\n";
    text
}

fn columns(tool: &str, values: [&str; 3]) -> String {
    let mut text = format!("{tool:<TOOL$}");
    for value in values {
        // Writing to a String cannot fail.
        let _ = write!(text, " {value:>VALUE$}");
    }
    text
}

/// One tool.
pub(super) fn line(line: &Line, width: usize) -> String {
    let tool = visible(&line.tool);
    let values = [&line.stick_out, &line.mark, &line.torque].map(String::as_str);
    let mut text = String::new();
    let tool = if tool.chars().count() > TOOL {
        text += &tool;
        text.push('\n');
        ""
    } else {
        &tool
    };
    text += &columns(tool, values);
    let came = match line.stamp {
        "" => line.came.clone(),
        stamp => format!("{stamp} {}", line.came),
    };
    // The first line goes on behind the values.
    let came = wrapped_to(width, &came, CAME + 1, CAME + 1);
    let came = came.get(CAME + 1..).unwrap_or(&came);
    text += "  ";
    text += came;
    text
}

/// All behind the lines.
pub(super) fn foot(about: &OfCards<'_>, width: usize) -> String {
    let marks = "Mark: from the shank end, flush with the nut or holder face once it is clamped. Torque: of the nut; `enter` where none is recorded.";
    let hash = format!("library SHA-256 {}", short(about.digest));
    let all = [marks, &hash, NOTICE].map(|words| wrapped_to(width, words, 0, 0));
    format!("\n{}", all.concat())
}
