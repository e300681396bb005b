//! What is not the same in the new form, said in lines: nothing is lost in silence.

use std::collections::BTreeMap;

use crate::library::{Field, Kind};
use crate::text::{quoted, visible};

/// Names of one line; of more only the number is told.
const NAMES: usize = 20;

/// What there is to tell of a conversion.
#[derive(Debug, Default)]
pub(super) struct Told {
    made: BTreeMap<Kind, usize>,
    same_id: Vec<String>,
    left_over: BTreeMap<Kind, Vec<String>>,
    nowhere: Vec<String>,
    hidden: BTreeMap<&'static str, usize>,
    strays: BTreeMap<String, usize>,
    foreign: BTreeMap<String, usize>,
    tables: Vec<String>,
    lines: BTreeMap<String, usize>,
    /// Rows of which only ids are written, by file and line.
    pub ragged: Vec<String>,
    /// Comments and processing instructions without a place.
    pub comments: usize,
    pub instructions: usize,
    /// Records that state nothing, which a table cannot hold.
    pub empty: usize,
    /// Numbers without unit, and those with two readings, that bear a question mark.
    pub unitless: usize,
    pub doubtful: usize,
    /// Characters that a document must not hold.
    pub characters: usize,
    /// Values that are written in another way, and the first of them: as it was, as it is.
    rewritten: usize,
    example: Option<(String, String)>,
    /// Cells of the stock that are about the other kind of part.
    pub other_part: usize,
    /// What shop files had a part in reading.
    pub shop: Vec<String>,
}

impl Told {
    /// Ids that were made for parts without one.
    pub(super) fn ids_made(&mut self, kind: Kind, count: usize) {
        if count > 0 {
            self.made.insert(kind, count);
        }
    }

    /// Two parts of one id that differ.
    pub(super) fn same_id(&mut self, kind: Kind, given: &str, id: &str) {
        let line = format!("{} {} and {}", kind.name(), shown(given), shown(id));
        self.same_id.push(line);
    }

    /// A record that no row has a place for.
    pub(super) fn left_over(&mut self, kind: Kind, id: &str) {
        let all = self.left_over.entry(kind).or_default();
        all.push(shown(id));
    }

    /// A part that is named and nowhere described.
    pub(super) fn nowhere_described(&mut self, kind: Kind, id: &str) {
        self.nowhere.push(format!("{} {}", kind.name(), shown(id)));
    }

    /// A cell that is no value and stood before one.
    pub(super) fn hidden(&mut self, field: Field) {
        *self.hidden.entry(field.short()).or_default() += 1;
    }

    /// A cell of a column that nobody reads, and that has no place.
    pub(super) fn stray(&mut self, name: &str) {
        let name = if name.is_empty() { "(no name)" } else { name };
        *self.strays.entry(shown(name)).or_default() += 1;
    }

    /// An element or attribute that was not read.
    pub(super) fn foreign(&mut self, name: &str) {
        *self.foreign.entry(shown(name)).or_default() += 1;
    }

    /// A table that was not read.
    pub(super) fn table(&mut self, name: &str) {
        self.tables.push(shown(name));
    }

    /// A line of a table that is no record.
    pub(super) fn line(&mut self, what: &str) {
        *self.lines.entry(shown(what)).or_default() += 1;
    }

    /// A value that is written in another way.
    pub(super) fn rewritten(&mut self, was: &str, is: String) {
        // A unit beside the number is the number as it was.
        let bare = |text: &str| text.split_whitespace().collect::<String>();
        if bare(was) == bare(&is) {
            return;
        }
        self.rewritten += 1;
        if self.example.is_none() {
            self.example = Some((shown(was), is));
        }
    }

    /// All of it, a line each.
    pub(super) fn lines(&self) -> Vec<String> {
        let mut lines = self.of_records();
        lines.extend(self.of_cells());
        lines.extend(self.of_source());
        lines
    }

    fn of_records(&self) -> Vec<String> {
        let mut lines = Vec::new();
        for (kind, count) in &self.made {
            lines.push(format!(
                "no id was given: {}, numbered in the order of the tools",
                counted(*kind, *count)
            ));
        }
        lines.extend(listed(
            "one id and not the same, so two records",
            &self.same_id,
        ));
        for (kind, ids) in &self.left_over {
            lines.push(format!(
                "no place in a row for each tool: {} ({})",
                counted(*kind, ids.len()),
                some(ids)
            ));
        }
        lines.extend(listed(
            "named and nowhere described, which a row does not need",
            &self.nowhere,
        ));
        lines.extend(number(
            "records that state nothing, which no table can hold",
            self.empty,
        ));
        lines.extend(listed(
            "rows with cells under doubtful names, of which only ids and tool number are written",
            &self.ragged,
        ));
        lines
    }

    fn of_cells(&self) -> Vec<String> {
        let mut lines = Vec::new();
        lines.extend(listed(
            "columns that are not read and have no place here, with their cells",
            &by_name(&self.strays),
        ));
        lines.extend(listed(
            "cells that cannot be read where the part states a value, which is written instead",
            &by_name(&self.hidden),
        ));
        lines.extend(number(
            "numbers without the unit that they need, with `?` behind them so that no other is taken",
            self.unitless,
        ));
        lines.extend(number(
            "numbers with two readings, with `?` behind them so that neither is taken",
            self.doubtful,
        ));
        lines.extend(number(
            "cells of the stock about another kind of part than their row",
            self.other_part,
        ));
        lines.extend(number(
            "characters that no document may hold, with U+FFFD in their place",
            self.characters,
        ));
        if let Some((was, is)) = &self.example {
            lines.push(format!(
                "values written in another way that mean the same: {}, such as `{was}` as `{is}`",
                self.rewritten
            ));
        }
        lines
    }

    fn of_source(&self) -> Vec<String> {
        let mut lines = Vec::new();
        lines.extend(number(
            "comments, for which a table has no place",
            self.comments,
        ));
        lines.extend(number("processing instructions", self.instructions));
        lines.extend(listed(
            "elements that are not read",
            &by_name(&self.foreign),
        ));
        lines.extend(listed(
            "lines that are not read as records",
            &by_name(&self.lines),
        ));
        lines.extend(listed("files that are not read as tables", &self.tables));
        lines.extend(self.shop.iter().cloned());
        lines
    }
}

/// Names, each with how often it was met.
fn by_name<N: AsRef<str>>(all: &BTreeMap<N, usize>) -> Vec<String> {
    let all = all.iter();
    all.map(|(name, count)| format!("{} {count}", name.as_ref()))
        .collect()
}

/// So many records of a kind.
pub(crate) fn counted(kind: Kind, count: usize) -> String {
    match (kind, count) {
        (Kind::Stock, 1) => "1 row of stock".to_owned(),
        (Kind::Stock, _) => format!("{count} rows of stock"),
        (_, 1) => format!("1 {}", kind.name()),
        _ => format!("{count} {}", kind.section()),
    }
}

/// A line of a number; none where there is nothing to count.
fn number(what: &str, count: usize) -> Option<String> {
    (count > 0).then(|| format!("{what}: {count}"))
}

/// A line of names; none where there are none.
fn listed(what: &str, names: &[String]) -> Option<String> {
    (!names.is_empty()).then(|| format!("{what}: {} ({})", names.len(), some(names)))
}

/// The first names, and how many more there are.
fn some(names: &[String]) -> String {
    let first: Vec<&str> = names.iter().take(NAMES).map(String::as_str).collect();
    match names.len() - first.len() {
        0 => first.join(", "),
        more => format!("{} and {more} more", first.join(", ")),
    }
}

/// A name as a terminal may show it.
fn shown(name: &str) -> String {
    visible(&quoted(name)).into_owned()
}
