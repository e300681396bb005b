//! All findings as a table to sort and to filter.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use super::super::html::escaped;
use super::model::{Audit, Finding};
use super::{OF_RULE, Of, findings};

/// Rows that are elements from the start; a script makes the others when they are asked for.
const LISTED: usize = 500;

/// What one row is sorted and filtered by.
struct Row<'a> {
    finding: &'a Finding,
    library: &'a str,
    tool: String,
    machine: &'a str,
    clamping: &'a str,
    link: String,
}

pub(super) fn list(audit: &Audit, page: &mut String) {
    let mut counts: BTreeMap<(usize, &str), usize> = BTreeMap::new();
    let mut rows: Vec<Row<'_>> = Vec::new();
    for ((at, of), finding) in findings(audit) {
        let count = counts.entry((at, &finding.rule)).or_default();
        *count += 1;
        if *count > OF_RULE {
            continue;
        }
        let Some(library) = audit.libraries.get(at) else {
            continue;
        };
        let own = match of {
            Of::Sheet(number) => library.sheets.get(number),
            Of::None(_) => None,
        };
        let tool = own.map_or_else(
            || finding.tool_number.clone().unwrap_or_default(),
            |sheet| sheet.tool_number.clone().unwrap_or_else(|| sheet.name()),
        );
        rows.push(Row {
            finding,
            library: &library.input,
            tool,
            machine: own.and_then(|sheet| sheet.machine.as_deref()).unwrap_or(""),
            clamping: own
                .and_then(|sheet| sheet.word("holder.clamping_kind"))
                .unwrap_or("not stated"),
            link: match of {
                Of::Sheet(number) => format!("t{at}-{number}"),
                Of::None(number) => format!("f{at}-{number}"),
            },
        });
    }
    *page += "<section aria-labelledby=\"findings\"><h2 id=\"findings\">All findings</h2>";
    if rows.is_empty() {
        *page += "<p>Nothing was found by the rules that were asked. That does not say that nothing is wrong.</p></section>";
        return;
    }
    filters(&rows, page);
    for ((at, rule), count) in counts.iter().filter(|(_, count)| **count > OF_RULE) {
        let library = audit.libraries.get(*at);
        let name = library.map_or("", |library| library.input.as_str());
        let whole = library.and_then(|library| library.left_out.get(*rule));
        let _ = write!(
            page,
            "<p>{}, {}: the first {OF_RULE} of {} findings are in this table; findings.csv has all.</p>",
            escaped(name),
            escaped(rule),
            whole.unwrap_or(count)
        );
    }
    rows.sort_by_key(|row| rank(row.finding));
    table(&rows, page);
    *page += "</section>\n";
}

/// The rows; those beyond the first are a mere text where a script runs.
fn table(rows: &[Row<'_>], page: &mut String) {
    let class = narrower(rows);
    // Writing to a String cannot fail, here and below.
    let _ = write!(
        page,
        "<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-labelledby=\"findings\"><table id=\"list\" class=\"list {class}\"><thead><tr>",
    );
    let names = [
        "level", "tool", "finding", "rule", "library", "machine", "since",
    ];
    for name in names {
        let sorted = match name {
            "level" => " aria-sort=\"ascending\"",
            _ => "",
        };
        let _ = write!(
            page,
            "<th scope=\"col\"{sorted}><button type=\"button\">{name}</button></th>"
        );
    }
    *page += "</tr></thead><tbody>\n";
    let (first, rest) = rows.split_at(rows.len().min(LISTED));
    for row in first {
        one(row, page);
    }
    *page += "</tbody></table>";
    if !rest.is_empty() {
        let _ = write!(
            page,
            "<noscript id=\"rest\"><table class=\"list {class}\"><thead><tr>"
        );
        for name in names {
            let _ = write!(page, "<th scope=\"col\">{name}</th>");
        }
        *page += "</tr></thead><tbody>\n";
        for row in rest {
            one(row, page);
        }
        *page += "</tbody></table></noscript>";
    }
    *page += "</div>";
    if !rest.is_empty() {
        *page += "<p><button type=\"button\" id=\"more\" hidden>show 500 more</button></p>";
    }
}

/// Columns that would say the same in every row are not shown.
fn narrower(rows: &[Row<'_>]) -> &'static str {
    let libraries: BTreeSet<&str> = rows.iter().map(|row| row.library).collect();
    let is_compared = rows.iter().any(|row| row.finding.change.is_some());
    match (libraries.len() > 1, is_compared) {
        (true, true) => "",
        (true, false) => "alone",
        (false, true) => "one",
        (false, false) => "one alone",
    }
}

/// What must be mended comes first.
pub(super) fn rank(finding: &Finding) -> usize {
    match finding.level.as_str() {
        "error" => 0,
        "warning" => 1,
        "none" => 2,
        _ => 3,
    }
}

fn one(row: &Row<'_>, page: &mut String) {
    let finding = row.finding;
    let state = finding
        .change
        .as_ref()
        .map_or("", |change| change.state.as_str());
    let accepted = match &finding.accepted {
        Some(_) => ", accepted",
        None => "",
    };
    let _ = writeln!(
        page,
        "<tr data-level=\"{level}\" data-clamping=\"{}\"{}><td>{}{accepted}</td><td{}><a href=\"#{}\">{}</a></td><td>{}</td><td>{rule}</td><td>{library}</td><td>{machine}</td><td>{}</td></tr>",
        escaped(row.clamping),
        if finding.is_news() {
            " data-news=\"new\""
        } else {
            ""
        },
        escaped(finding.level_word()),
        match row.tool.as_str() {
            "" => " class=\"loose\"",
            _ => "",
        },
        row.link,
        match row.tool.as_str() {
            "" => "record".to_owned(),
            tool => escaped(tool),
        },
        escaped(&finding.message),
        escaped(state),
        level = escaped(&finding.level),
        rule = escaped(&finding.rule),
        library = escaped(row.library),
        machine = escaped(row.machine),
    );
}

/// Without a script nothing would answer them: they are shown by it.
fn filters(rows: &[Row<'_>], page: &mut String) {
    *page += "<div class=\"filters\" hidden><label for=\"f-text\">tool or words<input id=\"f-text\" type=\"search\"/></label>";
    let mut choice = |id: &str, label: &str, values: BTreeSet<&str>| {
        // One value chooses nothing, but news among what is old.
        if values.len() < 2 && (id != "news" || values.is_empty()) {
            return;
        }
        let _ = write!(
            page,
            "<label for=\"f-{id}\">{label}<select id=\"f-{id}\"><option value=\"\">all</option>"
        );
        for value in values.into_iter().filter(|value| !value.is_empty()) {
            let shown = match (id, value) {
                ("level", "none") => "not judged",
                ("news", _) => "new, worse, or accepted no more",
                _ => value,
            };
            let _ = write!(
                page,
                "<option value=\"{}\">{}</option>",
                escaped(value),
                escaped(shown)
            );
        }
        *page += "</select></label>";
    };
    choice(
        "level",
        "level",
        rows.iter().map(|row| row.finding.level.as_str()).collect(),
    );
    choice(
        "rule",
        "rule",
        rows.iter().map(|row| row.finding.rule.as_str()).collect(),
    );
    choice(
        "library",
        "library",
        rows.iter().map(|row| row.library).collect(),
    );
    choice(
        "machine",
        "machine",
        rows.iter().map(|row| row.machine).collect(),
    );
    choice(
        "clamping",
        "clamping",
        rows.iter().map(|row| row.clamping).collect(),
    );
    let news = rows.iter().filter(|row| row.finding.is_news());
    choice(
        "news",
        "since the last audit",
        news.map(|_| "new").collect(),
    );
    // Writing to a String cannot fail.
    let _ = write!(
        page,
        "</div><p id=\"shown\" role=\"status\" data-all=\"{}\"></p>",
        rows.len()
    );
}
