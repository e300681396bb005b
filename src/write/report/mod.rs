//! A report for somebody who decides: one HTML file that needs nothing else, made from the JSON of
//! an audit. It can be read, printed and searched with scripts switched off; a script only sorts and
//! filters.

mod beneath_title;
mod grouped;
mod in_stock;
mod map;
mod model;
mod rows;
mod said_once;
mod teller;
mod to_do;
mod tool_section;

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::io::{self, Read};

use crate::units::print::DisplayUnits;

use super::NOTICE;
use super::html::{Frame, escaped, short};
use model::{Audit, Finding, Library, Sheet};
use said_once::{Kind, SaidOnce};
use teller::Teller;
use tool_section::Look;

const PAGE: &str = include_str!("page.css");
const SCRIPT: &str = include_str!("page.js");
/// Assemblies of which the drawings stand in the page.
const DRAWINGS: usize = 500;
/// Findings of one rule in one library that the list has.
const OF_RULE: usize = 100;

/// A page of an audit, or of several that different sites have made.
///
/// # Errors
/// If one of them is not the JSON of an audit.
pub(crate) fn page(audits: &mut [&mut dyn Read]) -> io::Result<String> {
    let mut all: Option<Audit> = None;
    for audit in audits {
        let own: Audit = serde_json::from_reader(audit)?;
        if own.audit.id.is_empty() {
            return Err(io::Error::other("is not the JSON of an audit"));
        }
        all = Some(match all {
            None => own,
            Some(before) => joined(before, own),
        });
    }
    Ok(written(&all.unwrap_or_default()))
}

/// Two audits as one; the first says by what and when.
fn joined(mut a: Audit, b: Audit) -> Audit {
    let sum = |a: &mut [usize], b: &[usize]| a.iter_mut().zip(b).for_each(|(a, b)| *a += b);
    let (t, u) = (&mut a.totals, &b.totals);
    t.fails |= u.fails;
    t.assemblies += u.assemblies;
    t.accepted += u.accepted;
    t.held_by_shank += u.held_by_shank;
    t.grip_judged += u.grip_judged;
    sum(&mut t.groups, &u.groups);
    sum(&mut t.findings, &u.findings);
    sum(&mut t.new, &u.new);
    sum(&mut t.worse, &u.worse);
    sum(&mut t.accepted_no_more, &u.accepted_no_more);
    sum(&mut t.better, &u.better);
    sum(&mut t.gone, &u.gone);
    sum(&mut t.not_compared, &u.not_compared);
    a.audit.roots.extend(b.audit.roots);
    a.passed_over.extend(b.passed_over);
    a.unreadable.extend(b.unreadable);
    a.libraries.extend(b.libraries);
    a.earlier.extend(b.earlier);
    a
}

fn written(audit: &Audit) -> String {
    let title = format!("Tools to be looked at: {}", audit.audit.roots.join(", "));
    let frame = Frame {
        title: &title,
        style: PAGE,
        script: SCRIPT,
    };
    let mut page = frame.head();
    page += "<main>\n";
    top(audit, &mut page);
    to_do::list(audit, &mut page);
    undecided(audit, &mut page);
    map::map(audit, &mut page);
    map::bars(audit, &mut page);
    rows::list(audit, &mut page);
    page += "<section aria-labelledby=\"tools\"><h2 id=\"tools\">Tool by tool</h2><p class=\"soft\">Drawings are to scale. Filled along the shank: gripped; crossed: gripping length that holds nothing; dashed: assumed. What is not known is not drawn.</p>";
    let once = SaidOnce::of(audit);
    let mut drawn = Drawn::of(audit);
    for (at, library) in audit.libraries.iter().enumerate() {
        of_library((at, library), &once, &mut drawn, &mut page);
    }
    page += "</section>\n";
    earlier(audit, &mut page);
    once.section(&mut page);
    let _ = write!(
        page,
        "</main><footer><p>{}</p><p>{}, rules {}, run {}.</p></footer>\n{}",
        escaped(NOTICE),
        escaped(&audit.program),
        escaped(short(&audit.audit.rules_sha256)),
        escaped(short(&audit.audit.id)),
        frame.foot()
    );
    page
}

/// The verdict, with how much was judged beside it.
fn top(audit: &Audit, page: &mut String) {
    let totals = &audit.totals;
    let [fails, grip, warned, open, nothing] = totals.groups;
    let unread = unread(audit);
    let mut verdict = match fails {
        0 => format!("No tool of the {} that were read fails", totals.assemblies),
        fails => format!(
            "{fails} of {} tools must not be used as recorded",
            totals.assemblies
        ),
    };
    if !unread.is_empty() {
        verdict += "; not everything could be read, and what was not has not passed";
    }
    // Writing to a String cannot fail, here and below.
    let _ = write!(
        page,
        "<header><h1>Tools to be looked at</h1><p class=\"soft\">{} · {} · run {}</p>{}\
         <p class=\"verdict\">{verdict}. Grip judged on {} of {} tools that are held by a shank.</p>\
         <ul class=\"counts\"><li><b class=\"error\">{fails}</b>not to be used</li>\
         <li><b class=\"warning\">{warned}</b>to check</li><li><b class=\"none\">{}</b>not judged</li>\
         <li><b>{nothing}</b>nothing found</li></ul>",
        escaped(&audit.audit.roots.join(", ")),
        escaped(&audit.audit.day),
        escaped(short(&audit.audit.id)),
        beneath_title::named(audit),
        totals.grip_judged,
        totals.held_by_shank,
        grip + open
    );
    let [errors, warnings, notes, not_judged] = totals.findings;
    let _ = write!(
        page,
        "<p>{errors} errors, {warnings} warnings, {notes} notes, {not_judged} findings not judged, {} accepted.{}</p>",
        totals.accepted,
        beneath_title::notes_alone(audit, notes)
    );
    if let Some(since) = &audit.audit.since {
        let sum = |levels: &[usize; 4]| levels.iter().sum::<usize>();
        let _ = write!(
            page,
            "<p>Since the audit of {} (run {}): <b>{} new, {} worse, {} accepted no more</b>, {} better, {} gone, {} not compared.</p>",
            escaped(&since.day),
            escaped(short(&since.id)),
            sum(&totals.new),
            sum(&totals.worse),
            sum(&totals.accepted_no_more),
            sum(&totals.better),
            sum(&totals.gone),
            sum(&totals.not_compared)
        );
    }
    troubles(&unread, page);
    *page += "<nav aria-label=\"on this page\"><a href=\"#findings\">all findings</a><a href=\"#tools\">tool by tool</a></nav>";
    *page += "<p class=\"sign\"><span>reviewed by</span><span>decision</span><span>date</span></p></header>\n";
}

/// What was not read: it has not passed.
fn unread(audit: &Audit) -> Vec<String> {
    let faults = audit.libraries.iter().flat_map(|library| {
        library.unreadable.iter().map(|fault| {
            let file = fault.file.as_deref().unwrap_or(&library.input);
            let line = fault.line.map_or(String::new(), |line| format!(":{line}"));
            format!("{file}{line}: {}", fault.message)
        })
    });
    let failed = audit
        .libraries
        .iter()
        .filter(|library| library.status == "failed");
    let failed = failed.map(|library| format!("{}: the program failed on it", library.input));
    let unseen = audit
        .unreadable
        .iter()
        .map(|one| format!("{}: {}", one.file, one.reason));
    let read = audit.libraries.iter().filter(|one| one.status == "read");
    let beside = read.flat_map(|one| one.library.iter().flat_map(|about| &about.unread));
    let beside = beside.map(|one| format!("{}: {}", one.file, one.reason));
    let lost = audit.earlier.iter().filter(|one| one.is_lost());
    let lost = lost.map(|one| format!("{}: {}", one.finding.library, one.reason));
    let lost: BTreeSet<String> = lost.collect();
    let all = faults.chain(failed).chain(unseen).chain(beside);
    all.chain(lost).collect()
}

fn troubles(all: &[String], page: &mut String) {
    if all.is_empty() {
        return;
    }
    let _ = write!(
        page,
        "<p class=\"error\"><b>Not read, so not judged: {}</b></p><ul>",
        all.len()
    );
    for one in all {
        let _ = write!(page, "<li>{}</li>", escaped(one));
    }
    *page += "</ul>";
}

/// The few values that would decide most of what is not judged.
fn undecided(audit: &Audit, page: &mut String) {
    let mut missing: BTreeMap<&str, (usize, Vec<String>)> = BTreeMap::new();
    for library in &audit.libraries {
        for sheet in &library.sheets {
            let open = sheet.findings.iter().filter(|one| one.level == "none");
            for field in open.flat_map(|finding| &finding.missing) {
                let (count, tools) = missing.entry(field).or_default();
                *count += 1;
                let name = match audit.libraries.len() {
                    1 => sheet.name(),
                    _ => format!("{}: {}", library.key, sheet.name()),
                };
                if tools.last() != Some(&name) {
                    tools.push(name);
                }
            }
        }
    }
    let is_open = |sheet: &Sheet| !matches!(sheet.group.as_str(), "fails" | "warned");
    let mut sheets = audit.libraries.iter().flat_map(|one| &one.sheets);
    if missing.is_empty() && !sheets.any(is_open) {
        return;
    }
    *page += "<section aria-labelledby=\"open\"><h2 id=\"open\">What was not checked</h2>";
    to_do::unchecked(audit, page);
    if missing.is_empty() {
        *page += "</section>\n";
        return;
    }
    let mut all: Vec<_> = missing.into_iter().collect();
    all.sort_by(|a, b| b.1.0.cmp(&a.1.0).then(a.0.cmp(b.0)));
    *page += "<p>Findings wait for these values, also those of tools that fail.</p><div class=\"wide\" tabindex=\"0\" role=\"group\" aria-labelledby=\"open\"><table><thead><tr><th scope=\"col\">value that is missing</th><th scope=\"col\">findings that wait for it</th><th scope=\"col\">tools</th></tr></thead><tbody>";
    for (field, (count, tools)) in all.iter().take(12) {
        let shown: Vec<&str> = tools.iter().take(8).map(String::as_str).collect();
        let more = match tools.len().saturating_sub(8) {
            0 => String::new(),
            more => format!(" and {more} more"),
        };
        let _ = write!(
            page,
            "<tr><td>{}</td><td>{count}</td><td>{}{more}</td></tr>",
            escaped(field),
            escaped(&shown.join(", "))
        );
    }
    *page += "</tbody></table></div></section>\n";
}

fn of_library(
    (at, library): (usize, &Library),
    once: &SaidOnce,
    drawn: &mut Drawn,
    page: &mut String,
) {
    if library.sheets.is_empty() && library.findings.is_empty() && library.left_out.is_empty() {
        return;
    }
    let about = library.library.as_ref();
    let name = about.map_or("", |about| about.name.as_str());
    let _ = write!(
        page,
        "<h3 id=\"l{at}\">{}{}</h3>",
        escaped(&library.input),
        if name.is_empty() {
            String::new()
        } else {
            format!(": {}", escaped(name))
        }
    );
    for weakened in about.map_or(&[][..], |about| &about.weakened) {
        let _ = write!(
            page,
            "<p class=\"soft\">relaxed here: {}</p>",
            escaped(weakened)
        );
    }
    for (rule, count) in &library.left_out {
        let _ = write!(
            page,
            "<p>{}: {count} findings; the first are here, all are in findings.csv.</p>",
            escaped(rule)
        );
    }
    for (number, finding) in library.findings.iter().enumerate() {
        let _ = write!(page, "<div id=\"f{at}-{number}\">");
        let mut teller = Teller::new(once, &library.input);
        tool_section::finding(finding, &Kind::ALL, &mut teller, page);
        *page += "</div>";
    }
    let units = match about.map_or("mm", |about| about.units.as_str()) {
        "in" => DisplayUnits::new("in", "lbf·ft"),
        _ => DisplayUnits::new("mm", "N·m"),
    };
    for (number, sheet) in library.sheets.iter().enumerate() {
        let look = Look {
            units,
            is_drawn: drawn.takes(sheet),
            is_folded: drawn.is_long,
            once,
            folder: &library.input,
        };
        tool_section::sheet(&format!("t{at}-{number}"), sheet, &look, page);
    }
}

/// Which drawings are in the page: those of tools that fail first.
struct Drawn {
    is_long: bool,
    failing: usize,
    others: usize,
}

impl Drawn {
    fn of(audit: &Audit) -> Drawn {
        let sheets = || audit.libraries.iter().flat_map(|one| &one.sheets);
        let failing = sheets().filter(|sheet| sheet.group == "fails").count();
        Drawn {
            is_long: sheets().count() > DRAWINGS,
            failing: DRAWINGS,
            others: DRAWINGS.saturating_sub(failing),
        }
    }

    fn takes(&mut self, sheet: &Sheet) -> bool {
        let left = match sheet.group.as_str() {
            "fails" => &mut self.failing,
            _ => &mut self.others,
        };
        let takes = *left > 0;
        *left = left.saturating_sub(1);
        takes
    }
}

/// What an earlier audit found and this one does not.
fn earlier(audit: &Audit, page: &mut String) {
    if audit.earlier.is_empty() {
        return;
    }
    *page += "<section aria-labelledby=\"earlier\"><h2 id=\"earlier\">Found before, and not today</h2><div class=\"wide\" tabindex=\"0\" role=\"group\" aria-labelledby=\"earlier\"><table><thead><tr><th scope=\"col\">what became of it</th><th scope=\"col\">library, tool</th><th scope=\"col\">finding</th></tr></thead><tbody>";
    for one in &audit.earlier {
        let noted = &one.finding;
        let _ = write!(
            page,
            "<tr><td>{}: {}</td><td>{} {}</td><td>{}: {} ({})</td></tr>",
            escaped(&one.change),
            escaped(&one.reason),
            escaped(&noted.library),
            escaped(&noted.tool_number),
            escaped(match noted.level.as_str() {
                "none" => "not judged",
                level => level,
            }),
            escaped(&noted.message),
            escaped(&noted.rule)
        );
    }
    *page += "</tbody></table></div></section>\n";
}

/// Where a finding stands in a library.
#[derive(Clone, Copy)]
enum Of {
    /// In the sheet of this number.
    Sheet(usize),
    /// In none: it has this number among those.
    None(usize),
}

/// All findings of an audit, each with its library.
fn findings(audit: &Audit) -> impl Iterator<Item = ((usize, Of), &Finding)> {
    audit
        .libraries
        .iter()
        .enumerate()
        .flat_map(|(at, library)| {
            let loose = library.findings.iter().enumerate();
            let loose = loose.map(move |(number, one)| ((at, Of::None(number)), one));
            let sheets = library.sheets.iter().enumerate();
            let own = sheets.flat_map(move |(number, sheet)| {
                let all = sheet.findings.iter();
                all.map(move |one| ((at, Of::Sheet(number)), one))
            });
            loose.chain(own)
        })
}
