//! One assembly with all that is said of it.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use crate::units::Unit;
use crate::units::print::{self, DisplayUnits};

use super::super::html::{LimitsScale, escaped};
use super::super::svg::{self, Labels};
use super::grouped;
use super::model::{Fact, Finding, Limit, Sheet, Value, Window};

pub(super) fn sheet(
    (library, number): (usize, usize),
    sheet: &Sheet,
    (units, draw): (&str, bool),
    page: &mut String,
) {
    let units = match units {
        "in" => DisplayUnits::new("in", "lbf·ft"),
        _ => DisplayUnits::new("mm", "N·m"),
    };
    let worst = ["error", "warning", "none", "note"];
    let worst = worst
        .into_iter()
        .find(|level| sheet.findings.iter().any(|one| one.level == *level));
    let parts: Vec<&str> = sheet
        .clampings
        .iter()
        .flat_map(|one| &one.parts)
        .filter_map(|part| part.id.as_deref())
        .collect();
    let word = match sheet.group.as_str() {
        "fails" => "not to be used as recorded",
        "warned" => "to check",
        "nothing_found" => "nothing found",
        _ => "not judged",
    };
    let mut beside: Vec<String> = Vec::new();
    beside.extend(sheet.description.clone());
    if !parts.is_empty() {
        beside.push(parts.join(" in "));
    }
    beside.extend(sheet.machine.clone());
    beside.extend(sheet.pot.as_ref().map(|pot| format!("pot {pot}")));
    let _ = write!(
        page,
        "<details><summary><b>{}</b> · <span class=\"level {}\">{word}</span> · {}</summary><div class=\"inside\" id=\"t{library}-{number}\">",
        escaped(&sheet.name()),
        worst.unwrap_or("note"),
        escaped(&beside.join(" · "))
    );
    for clamping in &sheet.clampings {
        let recommended = clamping
            .window
            .as_ref()
            .and_then(|window| window.recommended);
        let drawn = clamping.drawing.as_ref().filter(|_| draw);
        let name = sheet.name();
        let labels = Labels {
            assembly: &name,
            recommended,
            units,
            beside: None,
        };
        match drawn.and_then(|drawn| svg::drawing(drawn, &labels)) {
            Some(drawing) => {
                let _ = write!(
                    page,
                    "<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"drawing of {}\">{drawing}</div>",
                    escaped(&name)
                );
                *page += "<p class=\"soft\">To scale. Filled along the shank: gripped; crossed: gripping length that holds nothing; dashed: assumed. What is not known is not drawn.</p>";
            }
            None if draw => *page += "<p class=\"soft\">Not enough is stated to draw it.</p>",
            None => *page += "<p class=\"soft\">Only the first 500 tools are drawn.</p>",
        }
        if let Some(window) = &clamping.window {
            scale(window, sheet.number("assembly.stick_out"), units, page);
        }
    }
    grouped::all(&sheet.findings, page);
    *page += "</div></details>\n";
}

/// The stick-out limits as a scale, with the recorded value.
fn scale(window: &Window, own: Option<f64>, units: DisplayUnits, page: &mut String) {
    let shown = |length: f64| print::value(length, Unit::Mm, units);
    let mut words = match (window.min, window.max) {
        _ if window.short_by.is_some() => "No stick-out meets every rule.".to_owned(),
        (Some(min), Some(max)) => format!("Stick-out limits: {} to {}.", shown(min), shown(max)),
        (Some(min), None) => format!("Stick-out: at least {}.", shown(min)),
        (None, Some(max)) => format!("Stick-out: at most {}.", shown(max)),
        (None, None) => return,
    };
    if let Some(own) = own {
        let _ = write!(words, " Recorded: {}.", shown(own));
    }
    if let Some(at) = window.recommended {
        let _ = write!(words, " Set to {}.", shown(at));
    }
    let rules = [&window.min_rule, &window.max_rule];
    let rules: Vec<&str> = rules.into_iter().flatten().map(String::as_str).collect();
    let _ = write!(
        page,
        "<p><b>{}</b> <span class=\"soft\">{}</span></p>",
        escaped(&words),
        escaped(&rules.join(", "))
    );
    let scale = LimitsScale {
        limits: match window.short_by {
            None => Some((window.min, window.max)),
            Some(_) => None,
        },
        advised: window.advised.as_ref().map(|ends| (ends.min, ends.max)),
        recorded: own.map(|own| ("recorded", own)),
        recommended: window.recommended,
        units,
    };
    *page += &scale.drawn();
}

pub(super) fn finding(finding: &Finding, page: &mut String) {
    let level = escaped(&finding.level);
    let operation = finding.operation.as_ref();
    let operation = operation.map_or(String::new(), |own| format!(", operation {own}"));
    let _ = write!(
        page,
        "<div class=\"finding {level}\"><p><span class=\"level {level}\">{}</span>: {}{} <span class=\"soft\">{} ({}{})</span></p>",
        escaped(finding.level_word()),
        escaped(&finding.message),
        change(finding),
        escaped(&finding.title),
        escaped(&finding.rule),
        escaped(&operation)
    );
    if let Some(accepted) = &finding.accepted {
        let until = accepted.until.as_ref();
        let until = until.map_or(String::new(), |until| format!(" until {until}"));
        let _ = write!(
            page,
            "<p><b>accepted by {}{}</b>: {}</p>",
            escaped(&accepted.by),
            escaped(&until),
            escaped(&accepted.reason)
        );
    }
    for (class, name, text) in [
        ("do", "Do", &finding.advice),
        ("", "Why", &finding.why),
        ("", "Beware", &finding.caution),
    ] {
        if !text.is_empty() {
            let class = match class {
                "" => String::new(),
                class => format!(" class=\"{class}\""),
            };
            let _ = write!(page, "<p{class}>{name}: {}</p>", escaped(text));
        }
    }
    for assumption in &finding.assumptions {
        let _ = write!(
            page,
            "<p class=\"soft\">Assumed: {}</p>",
            escaped(assumption)
        );
    }
    values(finding, page);
    places(&[finding], page);
    *page += "</div>";
}

/// Where what they rest on stands, each place once and a file's name once for all that follow.
pub(super) fn places(findings: &[&Finding], page: &mut String) {
    let all = findings.iter().flat_map(|one| &one.places);
    let mut before = "";
    let mut said = BTreeSet::new();
    let mut shown: Vec<String> = Vec::new();
    for place in all {
        let text = match place.text.as_str() {
            "" => String::new(),
            text => format!(" {text}"),
        };
        let own = format!("{}:{} {}{text}", place.line, place.column, place.field);
        if !said.insert((place.file.as_str(), own.clone())) {
            continue;
        }
        let file = match place.file.as_str() {
            file if file == before => String::new(),
            file => format!("{file}:"),
        };
        before = &place.file;
        shown.push(escaped(&format!("{file}{own}")));
    }
    if !shown.is_empty() {
        let _ = write!(page, "<p class=\"soft\">{}</p>", shown.join("; "));
    }
}

fn change(finding: &Finding) -> String {
    let Some(change) = &finding.change else {
        return String::new();
    };
    let before = match (change.value_before, &finding.facts) {
        (Some(value), _) => format!(", before {}", number(value)),
        (None, _) => String::new(),
    };
    match change.state.as_str() {
        "same" | "" => String::new(),
        state => format!(" <b>[{}{before}]</b>", escaped(state)),
    }
}

/// The values and limits that it rests on.
pub(super) fn values(finding: &Finding, page: &mut String) {
    if finding.facts.is_empty() && finding.limits.is_empty() {
        return;
    }
    let facts = finding.facts.iter().map(|(name, fact)| {
        let Fact {
            value,
            unit,
            assumed,
        } = fact;
        let value = match value {
            Some(value) => format!("{} {}", words(value), symbol(unit.as_deref())),
            None => "not known".to_owned(),
        };
        let mark = if *assumed { " (assumed)" } else { "" };
        format!("{} <b>{}</b>{mark}", plain(name), escaped(value.trim_end()))
    });
    let facts: Vec<String> = facts.collect();
    let limits = finding.limits.iter().map(|(name, limit)| {
        let Limit {
            value,
            unit,
            basis,
            source,
        } = limit;
        let value = format!("{} {}", number(*value), symbol(Some(unit)));
        let source = match source.as_str() {
            "" => String::new(),
            source => format!(": {source}"),
        };
        let basis = format!("{basis}{source}");
        format!(
            "{} <b>{}</b> ({})",
            plain(name),
            escaped(value.trim_end()),
            escaped(&basis)
        )
    });
    let limits: Vec<String> = limits.collect();
    for (name, all) in [("Values", facts), ("Limits", limits)] {
        if !all.is_empty() {
            let _ = write!(page, "<p class=\"facts\">{name}: {}</p>", all.join(" · "));
        }
    }
}

/// A name of a fact or limit in words.
fn plain(name: &str) -> String {
    escaped(&name.replace('_', " "))
}

fn words(value: &Value) -> String {
    match value {
        Value::Number(value) => number(*value),
        Value::Text(text) => text.clone(),
        Value::Truth(true) => "yes".to_owned(),
        Value::Truth(false) => "no".to_owned(),
    }
}

fn symbol(unit: Option<&str>) -> &str {
    unit.filter(|unit| *unit != "1").unwrap_or("")
}

/// A number with four significant digits: what follows nobody has measured.
fn number(value: f64) -> String {
    let digits = format!("{value:.3e}").parse().unwrap_or(value);
    format!("{digits}")
}
