//! One assembly with all that is said of it.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use crate::units::Unit;
use crate::units::print::{self, DisplayUnits};

use super::super::html::{LimitsScale, escaped};
use super::super::svg::{self, Labels};
use super::model::{Clamping, Fact, Finding, Limit, Sheet, Value, Window};
use super::said_once::{Kind, SaidOnce};
use super::teller::Teller;
use super::{grouped, in_stock};

/// How a sheet is shown.
pub(super) struct Look<'a> {
    pub units: DisplayUnits,
    /// Whether its drawing is in the page.
    pub is_drawn: bool,
    /// Whether a script makes its elements when it is opened.
    pub is_folded: bool,
    pub once: &'a SaidOnce,
    /// The library, as its files begin.
    pub folder: &'a str,
}

pub(super) fn sheet(id: &str, sheet: &Sheet, look: &Look<'_>, page: &mut String) {
    summary(id, sheet, page);
    // Without a script a browser shows what is within; with one it is a mere text, until asked for.
    *page += if look.is_folded { "<noscript>" } else { "" };
    for clamping in &sheet.clampings {
        drawing(clamping, &sheet.name(), look, page);
        if let Some(window) = &clamping.window {
            let own = sheet.number("assembly.stick_out");
            scale(window, (own, clamping.set_to), look.units, page);
        }
        let remedies = clamping.remedies.as_deref().unwrap_or_default();
        in_stock::list(remedies, look.units, page);
    }
    let mut teller = Teller::new(look.once, look.folder);
    grouped::all(&sheet.findings, &mut teller, page);
    *page += if look.is_folded { "</noscript>" } else { "" };
    *page += "</div></details>\n";
}

/// What is seen of it while it is closed.
fn summary(id: &str, sheet: &Sheet, page: &mut String) {
    let parts: Vec<&str> = sheet
        .clampings
        .iter()
        .flat_map(|one| &one.parts)
        .filter_map(|part| part.id.as_deref())
        .collect();
    let (level, word) = match sheet.group.as_str() {
        "fails" => ("error", "not to be used as recorded"),
        "warned" => ("warning", "to check"),
        "nothing_found" => ("note", "nothing found"),
        _ => ("none", "not judged"),
    };
    let mut beside: Vec<String> = Vec::new();
    beside.extend(sheet.description.clone());
    if !parts.is_empty() {
        beside.push(parts.join(" in "));
    }
    beside.extend(sheet.machine.clone());
    beside.extend(sheet.pot.as_ref().map(|pot| format!("pot {pot}")));
    // Writing to a String cannot fail, here and below.
    let _ = write!(
        page,
        "<details><summary><b>{}</b> · <span class=\"level {level}\">{word}</span> · {}</summary><div class=\"inside\" id=\"{id}\">",
        escaped(&sheet.name()),
        escaped(&beside.join(" · "))
    );
}

/// One way in which it is clamped, to scale.
fn drawing(clamping: &Clamping, name: &str, look: &Look<'_>, page: &mut String) {
    let labels = Labels {
        assembly: name,
        recommended: clamping.set_to,
        units: look.units,
        beside: None,
    };
    let drawn = clamping.drawing.as_ref().filter(|_| look.is_drawn);
    match drawn.and_then(|drawn| svg::drawing(drawn, &labels)) {
        Some(drawing) => {
            let _ = write!(
                page,
                "<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"drawing of {}\">{drawing}</div>",
                escaped(name)
            );
        }
        None if look.is_drawn => {
            *page += "<p class=\"soft\">Not enough is stated to draw it.</p>";
        }
        None => *page += "<p class=\"soft\">Only 500 tools are drawn, those that fail first.</p>",
    }
}

/// The stick-out limits as a scale, with the recorded value.
fn scale(
    window: &Window,
    (own, set_to): (Option<f64>, Option<f64>),
    units: DisplayUnits,
    page: &mut String,
) {
    let shown = |length: f64| print::value(length, Unit::Mm, units);
    let mut words = match (window.min, window.max) {
        _ if window.short_by.is_some() => "No stick-out meets every rule.".to_owned(),
        (Some(min), Some(max)) => {
            let (min, max) = print::inwards(min, max, units);
            format!("Stick-out limits: {min} to {max} {}.", units.length())
        }
        (Some(min), None) => format!("Stick-out: at least {}.", shown(min)),
        (None, Some(max)) => format!("Stick-out: at most {}.", shown(max)),
        (None, None) => return,
    };
    if let Some(own) = own {
        let _ = write!(words, " Recorded: {}.", shown(own));
    }
    if let Some(at) = set_to {
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
        recommended: set_to,
        units,
    };
    *page += &scale.drawn();
}

/// What is found, and whether it is accepted.
fn head(finding: &Finding, page: &mut String) {
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
}

/// A finding, with what is `said` of it besides its values.
pub(super) fn finding(
    finding: &Finding,
    said: &[Kind],
    teller: &mut Teller<'_>,
    page: &mut String,
) {
    head(finding, page);
    advise(finding, teller, page);
    values(finding, page);
    let mut links: Vec<String> = Vec::new();
    for kind in said {
        let told = match kind {
            Kind::Assumed => teller.assumed(finding),
            kind => teller.told(*kind, &kind.of(finding)),
        };
        match told {
            Some(text) if text.starts_with('<') => links.push(text),
            Some(text) => {
                let _ = write!(page, "<p{}>{text}</p>", kind.class());
            }
            None => {}
        }
    }
    if !links.is_empty() {
        let _ = write!(page, "<p>{}</p>", links.join(" · "));
    }
    places(&[finding], teller, page);
    *page += "</div>";
}

/// What to do. Of what is not judged or is accepted nobody is ordered to do it.
pub(super) fn advise(finding: &Finding, teller: &mut Teller<'_>, page: &mut String) {
    if finding.advice.is_empty() {
        return;
    }
    let advice = escaped(&finding.advice);
    let asks = finding.advice == format!("state {}", finding.missing.join(", "));
    let (class, word, advice) = match (finding.accepted.is_some(), finding.level.as_str()) {
        (true, _) => (" class=\"soft\"", "Instead of accepting it", advice),
        (false, "none") if !asks => (" class=\"soft\"", "Should it fail", advice),
        (false, _) => ("", "Do", teller.advice(&finding.advice)),
    };
    let _ = write!(page, "<p{class}>{word}: {advice}</p>");
}

/// Where what they rest on stands, each place once and a file's name once for all that follow.
pub(super) fn places(findings: &[&Finding], teller: &Teller<'_>, page: &mut String) {
    let all = findings.iter().flat_map(|one| &one.places);
    let mut before = "";
    let mut said = BTreeSet::new();
    let mut shown: Vec<String> = Vec::new();
    for place in all {
        let text = match place.text.as_str() {
            "" => String::new(),
            text => format!(" {text}"),
        };
        let at = match (&place.sheet, &place.cell) {
            (Some(sheet), Some(cell)) => format!(" {sheet}!{cell}"),
            _ => format!("{}:{}", place.line, place.column),
        };
        let own = format!("{at} {}{text}", place.field);
        if !said.insert((place.file.as_str(), own.clone())) {
            continue;
        }
        let file = match place.file.as_str() {
            file if file == before => String::new(),
            file => format!("{}:", teller.file(file)),
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

/// The values that it rests on.
pub(super) fn values(finding: &Finding, page: &mut String) {
    let facts = finding.facts.iter().map(|(name, fact)| {
        let Fact {
            value,
            unit,
            assumed,
        } = fact;
        let mark = match value {
            Some(_) if *assumed => " (assumed)",
            _ => "",
        };
        let value = match value {
            Some(value) => format!("{} {}", words(value), symbol(unit.as_deref())),
            None => "not known".to_owned(),
        };
        format!("{} <b>{}</b>{mark}", plain(name), escaped(value.trim_end()))
    });
    let facts: Vec<String> = facts.collect();
    if !facts.is_empty() {
        let _ = write!(page, "<p class=\"facts\">Values: {}</p>", facts.join(" · "));
    }
}

/// The limits that it rests on, each with its basis, as markup.
pub(super) fn limits(finding: &Finding) -> String {
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
    limits.join(" · ")
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
