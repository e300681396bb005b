//! The library at a glance: every assembly as a point, and findings by rule as bars.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::super::html::escaped;
use super::findings;
use super::model::{Audit, Point};

/// Width and height of the map, and its margins.
const SIZE: (f64, f64) = (900.0, 420.0);
const MARGIN: f64 = 72.0;
const TOP: f64 = 22.0;
/// The furthest right, as a part of the gripping length.
const MOST_GRIP: f64 = 1.05;
/// What common practice asks of the grip, as a part of the gripping length: where no tool tells what
/// is asked of it.
const TWO_THIRDS: f64 = 2.0 / 3.0;
/// Lines for what is asked of the grip: where shops differ more, they are not told apart.
const LINES: usize = 4;
/// Points from which on only those are stops of the keyboard that lead to a section.
const FEW: usize = 500;
/// Rules that have a bar.
const BARS: usize = 15;
/// Most points that a reader can tell apart, and a page can hold.
const MOST: usize = 5000;

/// Grip against reach: where a tool has both.
pub(super) fn map(audit: &Audit, page: &mut String) {
    let libraries = audit.libraries.iter().enumerate();
    let points: Vec<(usize, &Point)> = libraries
        .flat_map(|(at, library)| library.points.iter().map(move |point| (at, point)))
        .collect();
    let known = |point: &Point| Some((point.grip?, point.reach_margin?));
    let placed: Vec<(usize, &Point, (f64, f64))> = points
        .iter()
        .filter_map(|(at, point)| Some((*at, *point, known(point)?)))
        .collect();
    if placed.is_empty() {
        return;
    }
    let margins = placed.iter().map(|(_, _, (_, margin))| *margin);
    let (low, high) = margins.fold((-5.0_f64, 5.0_f64), |(low, high), margin| {
        (low.min(margin), high.max(margin))
    });
    let (low, high) = (low.max(-60.0), high.min(120.0));
    let x = |grip: f64| MARGIN + grip.clamp(0.0, MOST_GRIP) / MOST_GRIP * (SIZE.0 - 2.0 * MARGIN);
    let y = |margin: f64| {
        let part = (margin.clamp(low, high) - low) / (high - low);
        SIZE.1 - MARGIN - part * (SIZE.1 - MARGIN - TOP)
    };
    let _ = write!(
        page,
        "<section aria-labelledby=\"map\"><h2 id=\"map\">Grip against reach</h2><p class=\"soft\">Each point is a tool: how much of the gripping length is filled, and how much further it reaches than its job asks. Broken lines: what the rules ask of the grip, and no spare reach. {} of {} tools have both values{}. The shape tells what came of a tool: ▲ not to be used, ◆ to check, ■ not judged, ● nothing found.</p><div class=\"wide\"><svg class=\"map\" role=\"group\" aria-labelledby=\"map\" viewBox=\"0 0 {} {}\">",
        placed.len(),
        points.len(),
        match placed.len() {
            ..=MOST => String::new(),
            _ => format!(", of which the first {MOST} are shown"),
        },
        SIZE.0,
        SIZE.1
    );
    axes((low, high), &asked(&points), &x, &y, page);
    for (at, point, (grip, margin)) in placed.iter().take(MOST) {
        let library = audit.libraries.get(*at);
        let sheet = library.and_then(|library| {
            let sheets = &library.sheets;
            let own = |sheet: &super::model::Sheet| {
                sheet.tool_number.as_ref().or(sheet.assembly.as_ref()) == Some(&point.tool)
            };
            sheets.iter().position(own)
        });
        let shape = dot(&point.group, (x(*grip), y(*margin)));
        let name = library.map_or("", |library| library.input.as_str());
        let open = match sheet {
            Some(number) => format!("a href=\"#t{at}-{number}\""),
            None if placed.len() > FEW => "g".to_owned(),
            None => "a href=\"#map\"".to_owned(),
        };
        let _ = write!(
            page,
            "<{open}><title>tool {}, {}: {:.0} % gripped, {margin:+.1} mm to spare</title>{shape}</{}>",
            escaped(&point.tool),
            escaped(name),
            grip * 100.0,
            &open[..1]
        );
    }
    *page += "</svg></div><p id=\"point\" role=\"status\"></p></section>\n";
}

/// What is asked of the grip, each value once, the most frequent first.
fn asked(points: &[(usize, &Point)]) -> Vec<f64> {
    let mut counts: BTreeMap<i64, usize> = BTreeMap::new();
    for needed in points.iter().filter_map(|(_, point)| point.needed) {
        #[expect(clippy::cast_possible_truncation, reason = "a part of a length")]
        let thousandths = (needed * 1000.0).round() as i64;
        *counts.entry(thousandths).or_default() += 1;
    }
    let mut all: Vec<(i64, usize)> = counts.into_iter().collect();
    all.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(&b.0)));
    #[expect(clippy::cast_precision_loss, reason = "thousandths")]
    let part = |(thousandths, _): (i64, usize)| thousandths as f64 / 1000.0;
    let mut parts: Vec<f64> = all.into_iter().take(LINES).map(part).collect();
    if parts.is_empty() {
        parts.push(TWO_THIRDS);
    }
    parts
}

fn axes(
    (low, high): (f64, f64),
    asked: &[f64],
    x: &dyn Fn(f64) -> f64,
    y: &dyn Fn(f64) -> f64,
    page: &mut String,
) {
    let (left, right, top, bottom) = (x(0.0), x(MOST_GRIP), y(high), y(low));
    let _ = write!(
        page,
        "<path class=\"axisline\" fill=\"none\" d=\"M{left} {top}V{bottom}H{right}\"/>\
         <line class=\"limit\" x1=\"{left}\" y1=\"{zero}\" x2=\"{right}\" y2=\"{zero}\"/>",
        zero = y(0.0)
    );
    for (number, part) in (0_u8..).zip(asked) {
        let _ = write!(
            page,
            "<line class=\"limit\" x1=\"{at:.1}\" y1=\"{top}\" x2=\"{at:.1}\" y2=\"{bottom}\"/><text x=\"{:.1}\" y=\"{}\" text-anchor=\"end\" font-size=\"13\">{}</text>",
            x(*part) - 6.0,
            top + 10.0 + 16.0 * f64::from(number),
            match part {
                part if (part - TWO_THIRDS).abs() < 0.001 => "two thirds asked".to_owned(),
                part => format!("{:.0} % asked", part * 100.0),
            },
            at = x(*part)
        );
    }
    for part in [0.0, 0.25, 0.5, 0.75, 1.0] {
        let _ = write!(
            page,
            "<text x=\"{}\" y=\"{}\" text-anchor=\"middle\" font-size=\"13\">{:.0} %</text>",
            x(part),
            bottom + 22.0,
            part * 100.0
        );
    }
    let _ = write!(
        page,
        "<text x=\"{}\" y=\"{}\" text-anchor=\"middle\" font-size=\"14\">grip, part of the gripping length</text>",
        f64::midpoint(left, right),
        bottom + 46.0
    );
    let _ = write!(
        page,
        "<text x=\"{}\" y=\"{}\" font-size=\"13\">no spare reach</text><text x=\"{left}\" y=\"{}\" text-anchor=\"start\" font-size=\"14\">reach to spare</text>",
        left + 6.0,
        y(0.0) - 6.0,
        top - 8.0
    );
    for margin in [low, 0.0, high] {
        let _ = write!(
            page,
            "<text x=\"{}\" y=\"{}\" text-anchor=\"end\" font-size=\"13\">{margin:.0} mm</text>",
            left - 6.0,
            y(margin) + 4.0
        );
    }
}

/// A shape of its own for each group: colour never says it alone.
fn dot(group: &str, (x, y): (f64, f64)) -> String {
    match group {
        "fails" => format!(
            "<path class=\"dot fails\" d=\"M{x:.1} {:.1}l7 12h-14z\"/>",
            y - 7.0
        ),
        "warned" => format!(
            "<path class=\"dot warned\" d=\"M{x:.1} {:.1}l6 6l-6 6l-6 -6z\"/>",
            y - 6.0
        ),
        "nothing_found" => {
            format!("<circle class=\"dot nothing_found\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"5\"/>")
        }
        group => format!(
            "<rect class=\"dot {}\" x=\"{:.1}\" y=\"{:.1}\" width=\"10\" height=\"10\"/>",
            escaped(group),
            x - 5.0,
            y - 5.0
        ),
    }
}

/// How often each rule speaks, the most frequent first.
pub(super) fn bars(audit: &Audit, page: &mut String) {
    let mut rules: BTreeMap<(&str, &str), usize> = BTreeMap::new();
    for (_, finding) in findings(audit).filter(|(_, finding)| finding.accepted.is_none()) {
        *rules.entry((&finding.rule, &finding.title)).or_default() += 1;
    }
    for library in &audit.libraries {
        for (rule, count) in &library.left_out {
            let own = rules.iter_mut().find(|((id, _), _)| id == rule);
            if let Some((_, own)) = own {
                *own += count.saturating_sub(1000);
            }
        }
    }
    let mut all: Vec<((&str, &str), usize)> = rules.into_iter().collect();
    all.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(&b.0)));
    let rest: usize = all.iter().skip(BARS).map(|(_, count)| count).sum();
    let others = all.len().saturating_sub(BARS);
    all.truncate(BARS);
    let Some(most) = all.first().map(|(_, count)| *count) else {
        return;
    };
    *page += "<section aria-labelledby=\"bars\"><h2 id=\"bars\">Findings by rule</h2>";
    *page += "<table class=\"bars\"><tbody>";
    for ((rule, title), count) in &all {
        let part = *count * 1000 / most.max(1);
        let _ = write!(
            page,
            "<tr><td>{} <span class=\"soft\">({})</span></td><td><svg aria-hidden=\"true\" viewBox=\"0 0 1000 10\" preserveAspectRatio=\"none\"><rect class=\"bar\" width=\"{part}\" height=\"10\"/></svg></td><td>{count}</td></tr>",
            escaped(title),
            escaped(rule)
        );
    }
    *page += "</tbody></table>";
    if others > 0 {
        let _ = write!(
            page,
            "<p class=\"soft\">and {rest} findings of {others} more rules</p>"
        );
    }
    *page += "</section>\n";
}
