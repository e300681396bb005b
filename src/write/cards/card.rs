//! The card of one tool, as a part of the page.

use std::fmt::Write as _;

use crate::sheet::{BoreMarked, Card, CardPart, NutShown, Reason, Release};
use crate::text::cut;
use crate::units::Unit;
use crate::units::print::{self, DisplayUnits};

use super::super::html::{escaped, short};
use super::super::json::Drawn;
use super::super::svg::{self, Labels};
use super::to_set::{self, Row};
use super::{OfCards, in_words};

/// Longest name of a library, in characters.
const LIBRARY: usize = 30;
/// Reasons that a card has in full; of others it says how many there are.
const MOST: usize = 4;

/// The card.
pub(super) fn article(card: &Card, about: &OfCards<'_>) -> String {
    let (class, stamp) = match card.released.release {
        Release::DoNotBuild => ("stop", "DO NOT BUILD"),
        Release::NotReleased => ("wait", "NOT RELEASED"),
        Release::Accepted => ("accepted", "ACCEPTED"),
        Release::Free => ("free", ""),
    };
    let says_more = !card.released.warns.is_empty() || !card.released.open.is_empty();
    let more = if says_more { " noted" } else { "" };
    let tool = escaped(&in_words::tool(card));
    // Writing to a String cannot fail, here and below.
    let mut page = format!(
        "<article class=\"card {class}{more}\" id=\"c{}\" aria-label=\"tool {tool}\">",
        card.at
    );
    header(card, &tool, about.units, &mut page);
    if !stamp.is_empty() {
        let _ = write!(
            page,
            "<p class=\"stamp\"><strong>{stamp}</strong>{}</p>",
            match card.released.release {
                Release::Accepted => escaped(&accepted(card)),
                _ => String::new(),
            }
        );
    }
    drawing(card, about.units, &mut page);
    parts(card, about.units, &mut page);
    let released = &card.released;
    if released.release == Release::DoNotBuild {
        reasons("stops", "", &released.stops, &mut page);
        table(&[to_set::not_to_set(card, about.units)], &mut page);
        page += "<p class=\"then\">Do not build it, and do not use it if it is built. Give this card to whoever keeps the library: correct it, simulate again, then print this card again.</p>";
    } else {
        reasons("waits", "Not judged: ", &released.waits, &mut page);
        table(&to_set::all(card, about.units), &mut page);
        reasons("warns", "Check: ", &released.warns, &mut page);
        reasons("open", "Not judged: ", &released.open, &mut page);
        cautions(card, &mut page);
        page += "<p class=\"sign\"><span>date</span><span>initials</span></p>";
    }
    let _ = write!(
        page,
        "<footer>library {} <span>{}</span> · judged on {}</footer></article>",
        escaped(&cut(about.library, LIBRARY)),
        escaped(short(about.digest)),
        escaped(about.day)
    );
    page
}

fn header(card: &Card, tool: &str, units: DisplayUnits, page: &mut String) {
    let mut beside: Vec<String> = Vec::new();
    beside.extend(card.machine.as_deref().map(in_words::name));
    beside.extend(
        card.pot
            .as_ref()
            .map(|pot| format!("pot {}", in_words::name(pot))),
    );
    beside.push(match card.hands.as_slice() {
        [] => "spindle hand not recorded".into(),
        hands => format!("spindle {}", hands.join(" and ")),
    });
    let mut what: Vec<String> = Vec::new();
    what.extend(card.description.as_deref().map(in_words::text));
    let (kind, diameter) = card.cutter;
    let diameter = diameter.map(|own| format!("Ø {}", print::value(own, Unit::Mm, units)));
    let cutter: Vec<String> = kind
        .map(str::to_owned)
        .into_iter()
        .chain(diameter)
        .collect();
    if !cutter.is_empty() {
        what.push(cutter.join(" "));
    }
    let _ = write!(
        page,
        "<header><h2><small>tool</small> {tool}</h2><p><span>{}</span><span>{}</span></p></header>",
        escaped(&beside.join(" · ")),
        escaped(&what.join(" · "))
    );
}

/// Who accepted it, until when, and what.
fn accepted(card: &Card) -> String {
    let all = card.released.accepted.iter().map(|one| {
        let until = match &one.until {
            Some(day) => format!("until {day}"),
            None => "without an end".to_owned(),
        };
        format!(
            " by {} {until}: {}. {}",
            in_words::name(&one.by),
            one.title,
            in_words::text(&one.reason)
        )
    });
    let all: Vec<String> = all.collect();
    all.join(";")
}

/// The tool as recorded, without any stick-out that is only advised.
fn drawing(card: &Card, units: DisplayUnits, page: &mut String) {
    let name = in_words::tool(card);
    let labels = Labels {
        assembly: &name,
        recommended: None,
        beside: None,
        units,
    };
    let is_built = card.released.release != Release::DoNotBuild;
    let is_marked = is_built && card.setting.mark.is_some();
    match svg::setting(&Drawn::of(&card.drawing), &labels, is_marked) {
        Some(drawing) => *page += &drawing,
        None => *page += "<p class=\"soft\">Not enough is recorded to draw it.</p>",
    }
}

fn parts(card: &Card, units: DisplayUnits, page: &mut String) {
    *page += "<dl class=\"parts\">";
    let mut one = |class: &str, name: &str, text: String| {
        let _ = write!(
            page,
            "<div{class}><dt>{name}</dt> <dd>{}</dd></div>",
            escaped(&text)
        );
    };
    for part in &card.parts {
        one("", part.kind, named(part));
    }
    if let Some(bore) = &card.bore {
        one(" class=\"wide\"", "marking", marking(bore, units));
    }
    if let Some(nut) = &card.nut {
        one(" class=\"wide\"", "nut style", nut_style(nut));
    }
    *page += "</dl>";
}

fn named(part: &CardPart) -> String {
    let mut text = match &part.id {
        Some(id) => in_words::name(id),
        None => "no id".into(),
    };
    if part.unresolved {
        text += " (described nowhere)";
    }
    match where_it_lies(part).as_str() {
        "" => text,
        place => format!("{text} in {place}"),
    }
}

/// Empty where the stock does not list it.
fn where_it_lies(part: &CardPart) -> String {
    let places = part.lies.iter().map(|lies| {
        let place = lies.location.as_deref().map(in_words::name);
        let place = place.unwrap_or_else(|| "stock".into());
        match lies.quantity {
            Some(0.0) => format!("{place}: none left"),
            _ => place,
        }
    });
    let places: Vec<String> = places.take(3).collect();
    places.join(", ")
}

/// What to read on the part before it is taken.
fn marking(bore: &BoreMarked, units: DisplayUnits) -> String {
    let length = |length: f64| print::value(length, Unit::Mm, units);
    let mut text: Vec<String> = Vec::new();
    text.extend(
        bore.size
            .map(|size| format!("size {}", print::bare(size, Unit::One, units).0)),
    );
    text.extend(bore.bore.map(|own| match bore.smallest {
        Some(smallest) if smallest < own => {
            let (low, high) = (length(smallest), length(own));
            format!("bore {high} (shanks from {low})")
        }
        _ => format!("bore {}", length(own)),
    }));
    text.extend(bore.form.map(str::to_owned));
    format!("{}: {}", bore.of, text.join(", "))
}

fn nut_style(nut: &NutShown) -> String {
    let sealed = |what: &str, sealed: Option<bool>| match sealed {
        Some(true) => format!("{what} sealed"),
        Some(false) => format!("{what} not sealed"),
        None => format!("sealing of {what} not recorded"),
    };
    let style = nut.style.unwrap_or("style not recorded");
    format!(
        "{style}; {}; {}",
        sealed("nut", nut.sealed),
        sealed("collet", nut.collet_sealed)
    )
}

fn reasons(class: &str, before: &str, all: &[Reason], page: &mut String) {
    if all.is_empty() {
        return;
    }
    let _ = write!(page, "<ul class=\"{class}\">");
    for one in all.iter().take(MOST) {
        let message = one.message.as_deref();
        let message = message.map_or_else(String::new, |own| format!(": {own}"));
        let rule = match one.rule.as_str() {
            "" => String::new(),
            rule => format!(" <span class=\"soft\">{}</span>", escaped(rule)),
        };
        let text = in_words::reason(&format!("{before}{}{message}", one.title));
        let _ = write!(page, "<li>{}{rule}</li>", escaped(&text));
    }
    match all.len().saturating_sub(MOST) {
        0 => {}
        more => {
            let _ = write!(page, "<li>and {more} more</li>");
        }
    }
    *page += "</ul>";
    let mut said: Vec<&str> = Vec::new();
    for caution in all.iter().filter_map(|one| one.caution.as_deref()) {
        if !said.contains(&caution) {
            said.push(caution);
            let _ = write!(
                page,
                "<p class=\"{class}\">Beware: {}</p>",
                escaped(caution)
            );
        }
    }
}

fn table(rows: &[Row], page: &mut String) {
    *page += "<table class=\"set\"><thead><tr><th scope=\"col\">set</th><th scope=\"col\">as recorded</th><th scope=\"col\">measured</th></tr></thead><tbody>";
    for row in rows {
        let class = if row.enter { " class=\"enter\"" } else { "" };
        let (wide, measured) = match row.measured {
            None => (" colspan=\"2\"", String::new()),
            Some(unit) => (
                "",
                format!("<td class=\"box\"><span>{}</span></td>", escaped(unit)),
            ),
        };
        let _ = write!(
            page,
            "<tr{class}><th scope=\"row\">{}</th><td{wide}><b>{}</b> {}</td>{measured}</tr>",
            row.name,
            escaped(&row.value),
            escaped(&row.note)
        );
    }
    *page += "</tbody></table>";
}

fn cautions(card: &Card, page: &mut String) {
    let all: Vec<&str> = card
        .cautions
        .iter()
        .copied()
        .map(in_words::caution)
        .collect();
    let _ = write!(page, "<p class=\"beware\">{}</p>", all.join(" "));
}
