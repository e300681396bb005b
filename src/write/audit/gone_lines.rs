//! What is gone, in lines: tool by tool, as one that is corrected has lost several findings at once,
//! and one that has left its library all.

use crate::audit::Noted;
use crate::text::counted;

use super::markdown::{code, escaped};
use super::news_lines::{Line, alike, name, rest};
use super::story::{News, Told};

/// Tools that one line names.
const IN_LINE: usize = 8;

/// What is gone, those first that were gravest.
pub(super) fn gone(news: &News) -> Vec<Line> {
    let mut tools: Vec<Vec<&Told>> = Vec::new();
    for one in &news.named {
        let same = |tool: &&mut Vec<&Told>| tool.first().is_some_and(|first| is_same(first, one));
        match tools.iter_mut().find(same) {
            Some(tool) => tool.push(one),
            None => tools.push(vec![one]),
        }
    }
    let parts = tools.chunks(IN_LINE).map(line);
    let mut lines: Vec<Line> = alike(news).chain(parts).collect();
    lines.extend(rest(news, &lines, 0));
    lines
}

/// Whether two are of one tool; what is of none stands alone.
fn is_same(first: &Told, other: &Told) -> bool {
    let (first, other) = (&first.noted, &other.noted);
    let is_named = !first.tool_number.is_empty() || !first.assembly.is_empty();
    is_named
        && first.library == other.library
        && first.tool_number == other.tool_number
        && first.assembly == other.assembly
}

fn line(tools: &[Vec<&Told>]) -> Line {
    let mut line = Line::default();
    let mut library = None;
    for tool in tools {
        let own = tool.first().map(|first| &first.noted.library);
        line.text += if library.is_none() { "" } else { "; " };
        if let Some(own) = own.filter(|own| library != Some(*own)) {
            line.text += &code(own);
            line.text.push(' ');
        }
        library = own;
        line.text += &told(tool);
        line.findings += tool.len();
        line.errors += tool.iter().filter(|one| one.is_error()).count();
    }
    line
}

/// A tool with what it was found to have.
fn told(tool: &[&Told]) -> String {
    let Some(first) = tool.first() else {
        return String::new();
    };
    // Its findings may be of several operations.
    let who = name(&Noted {
        operation: String::new(),
        ..first.noted.clone()
    });
    if first.without_tool {
        return format!("{who} is not in the library any more{}", how_many(tool));
    }
    let mut titles: Vec<&str> = tool.iter().map(|one| one.noted.title.as_str()).collect();
    titles.dedup();
    let more = match titles.len() {
        0 | 1 => String::new(),
        all => format!(", {} more", all - 1),
    };
    let title = escaped(&first.noted.title);
    format!("{who}: {title}{more}{}", how_many(tool))
}

/// How many findings of a tool are gone, where that is more than the one that is told.
fn how_many(tool: &[&Told]) -> String {
    if tool.len() < 2 {
        return String::new();
    }
    let errors = tool.iter().filter(|one| one.is_error()).count();
    format!(
        " ({}, {})",
        counted(tool.len(), "finding"),
        counted(errors, "error")
    )
}
