//! The answer to a quick question as a page: the number, its limits, the tool at three stick-outs,
//! what it rests on, and how to measure, mark and set. It prints on one page.

use std::fmt::Write as _;

use crate::sheet::{Answer, AtStickOut, End, Finding, Front, NoModel, Which};
use crate::units::Unit;
use crate::units::print;

use super::super::NOTICE;
use super::super::html::{Frame, LimitsScale, escaped};
use super::super::json::Drawn;
use super::super::svg::{self, Labels};
use super::answer::Line;
use super::{asked_number, changed, rests_on, to_correct};

const STYLE: &str = include_str!("sheet_page.css");

/// What the page shows besides the answer.
pub(crate) struct SheetPage<'a> {
    /// The answer.
    pub answer: &'a Answer,
    /// What is wrong whatever the stick-out.
    pub failing: &'a [&'a Finding],
    /// What is stated, in words.
    pub stated: &'a [String],
    /// How values in other units were read.
    pub read_as: &'a [String],
    /// The tool at several stick-outs.
    pub shown: &'a [AtStickOut],
    /// Whether the socket that is drawn is invented.
    pub is_example: bool,
    /// The day on which it is answered.
    pub day: &'a str,
    /// Which shop files were used.
    pub about: &'a str,
}

/// How to find out whether a bore grips over its whole length.
const RELIEVED: [&str; 4] = [
    "Take the collet out and clean it. Measure its length.",
    "Put a probe pin, a thin wire with a short hook, into the bore from the front. Draw the hook along the wall: it catches where the gripping part begins. Measure how deep that is.",
    "Do the same from the rear. A collet that is bored out at the rear grips nothing there.",
    "The gripping length is the collet's length less both depths: state it as --bore-length.",
];

/// What everybody does who sets a tool in a nut.
const SET: [&str; 4] = [
    "Clean collet, nut, taper and shank.",
    "Snap the collet into the nut first; never tighten a collet without a shank in it.",
    "Keep the flutes out of the collet.",
    "No extension on the wrench. More torque does not make up for a short grip: it loads the mouth more.",
];

impl SheetPage<'_> {
    /// The page.
    #[must_use]
    pub(crate) fn written(&self) -> String {
        let answer = self.answer;
        let headline = asked_number::headline(answer);
        let frame = Frame {
            title: &headline,
            style: STYLE,
            script: "",
        };
        let mut page = frame.head();
        // Writing to a String cannot fail, here and below.
        let _ = write!(
            page,
            "<main><header><h1{}>{}</h1>",
            if answer.window.is_empty() {
                " class=\"error\""
            } else {
                ""
            },
            escaped(&headline)
        );
        if let Some(outside) = asked_number::outside(answer) {
            let _ = write!(
                page,
                "<p class=\"error\"><b>As stated: {}</b></p>",
                escaped(&outside)
            );
        }
        for line in to_correct(self.failing) {
            let _ = write!(
                page,
                "<p class=\"error\"><b>Correct</b> {}</p>",
                escaped(&line.words)
            );
        }
        page += "</header>\n";
        self.limits(&mut page);
        self.figures(&mut page);
        page += "<div class=\"columns\"><section aria-labelledby=\"rests\"><h2 id=\"rests\">What this rests on</h2><dl>";
        self.grounds(&mut page);
        page += "</dl></section><div>";
        self.bench(&mut page);
        let _ = write!(
            page,
            "</div></div></main><footer><p>{} {}</p><p>{} {} {}</p></footer>",
            escaped(&changed(answer)),
            escaped(NOTICE),
            concat!("shankwise ", env!("CARGO_PKG_VERSION"), ","),
            escaped(self.day),
            escaped(&self.about.split_whitespace().collect::<Vec<_>>().join(" "))
        );
        page + &frame.foot()
    }

    fn limits(&self, page: &mut String) {
        let answer = self.answer;
        let window = &answer.window;
        let at = |end: &Option<End>| end.as_ref().map(|end| end.value);
        let advised = window.advised.as_ref();
        let scale = LimitsScale {
            limits: (!window.is_empty()).then(|| (at(&window.min), at(&window.max))),
            advised: advised.map(|advised| (at(&advised.min), at(&advised.max))),
            recorded: answer.present.map(|at| ("stated", at)),
            recommended: answer.advised.filter(|_| !answer.stopped),
            units: answer.units,
        };
        *page += &scale.drawn();
    }

    /// The tool at each stick-out, side by side.
    fn figures(&self, page: &mut String) {
        if self.shown.is_empty() {
            return;
        }
        *page += "<section aria-labelledby=\"grip\"><h2 id=\"grip\">How much is gripped</h2><div class=\"three\">";
        let all: Vec<Drawn> = self
            .shown
            .iter()
            .map(|one| Drawn::of(&one.drawing))
            .collect();
        let right = all.iter().map(svg::rightmost).fold(0.0, f64::max);
        for (shown, drawn) in self.shown.iter().zip(&all) {
            self.figure(shown, (drawn, right), page);
        }
        *page += "</div>";
        let drawn = self.shown.first().map_or(&[][..], |one| &one.drawn_with);
        for (name, value) in drawn {
            let _ = write!(
                page,
                "<p>{name} is not stated: drawn with {}, the end of its range at which less is gripped. Measure it, and state it: the answer may become better.</p>",
                escaped(&print::value(*value, Unit::Mm, self.answer.units))
            );
        }
        if self.is_example && self.shown.iter().any(|one| one.mouth.is_ok()) {
            *page += "<p><b>The socket that is drawn is an invented example</b>: what it shows is a model of how the load moves to the mouth, not of your holder.</p>";
        }
        if let Some(NoModel::Missing(missing)) = self.without_mouth() {
            let _ = write!(
                page,
                "<p class=\"soft\">The stress in the socket is not worked out: {} not stated. Add it, or --socket example for an invented socket.</p>",
                escaped(&missing.join(", "))
            );
        }
        *page += "</section>\n";
    }

    /// What the model lacks, where it says nothing of any of them.
    fn without_mouth(&self) -> Option<&NoModel> {
        let mut all = self.shown.iter().map(|one| one.mouth.as_ref().err());
        let first = all.next()?;
        first.filter(|_| all.all(|why| why.is_some()))
    }

    fn figure(&self, shown: &AtStickOut, (drawn, right): (&Drawn, f64), page: &mut String) {
        let units = self.answer.units;
        let value = |length: f64| print::value(length, Unit::Mm, units);
        let full = |shown: &AtStickOut| shown.fraction.is_none_or(|part| part > 0.999);
        let name = match shown.which {
            Which::FullGrip if full(shown) => "full grip",
            Which::FullGrip => "as much grip as the shank gives",
            Which::TwoThirds => "two thirds, as is common practice",
            Which::AsSet => "as set",
            Which::AsAdvised => "as advised",
        };
        let mut words = format!("stick-out {}", value(shown.stick_out));
        if let (Some(gripped), Some(part)) = (shown.gripped, shown.fraction) {
            let _ = write!(
                words,
                ", {} gripped ({:.0} % of the gripping length)",
                value(gripped),
                percent(part)
            );
        }
        let mouth = match &shown.mouth {
            Ok(ratio) => Some(format!(
                "stress at the mouth: {ratio:.1}, with 1 for a full grip (model)"
            )),
            Err(NoModel::Outside(why)) => {
                Some(format!("stress at the mouth: not worked out: {why}"))
            }
            Err(NoModel::Missing(_)) => None,
        };
        let labels = Labels {
            assembly: name,
            recommended: None,
            units,
            beside: Some(right),
        };
        let drawing = svg::drawing(drawn, &labels);
        let drawing = drawing
            .unwrap_or_else(|| "<p class=\"soft\">Not enough is stated to draw it.</p>".to_owned());
        let _ = write!(
            page,
            "<figure>{drawing}<figcaption><b>{}</b>: {}{}</figcaption></figure>",
            escaped(name),
            escaped(&words),
            mouth.map_or_else(String::new, |mouth| format!("<br>{}", escaped(&mouth)))
        );
    }

    /// What was stated, what follows, what is assumed and what is not known.
    fn grounds(&self, page: &mut String) {
        let mut entry = |label: &str, words: &str| {
            let _ = write!(
                page,
                "<dt>{}</dt><dd>{}</dd>",
                escaped(label),
                escaped(words)
            );
        };
        entry("stated", &self.stated.join(", "));
        for words in self.read_as {
            entry("read as", words);
        }
        for Line { label, words } in rests_on(self.answer) {
            entry(label.trim(), &words);
        }
    }

    /// What to do at the bench.
    fn bench(&self, page: &mut String) {
        let mark = asked_number::mark(self.answer);
        *page += "<section aria-labelledby=\"mark\"><h2 id=\"mark\">Mark and set</h2>";
        for line in &mark {
            let _ = write!(
                page,
                "<p><b>{}</b>: {}.</p>",
                escaped(&line.label),
                escaped(&line.words)
            );
        }
        if mark.is_empty() {
            *page += "<p>There is no stick-out to mark yet.</p>";
        }
        if self.answer.front == Front::Nut {
            listed("ul", &SET, page);
        }
        *page += "</section>";
        if self.answer.front == Front::Nut {
            *page += "<section aria-labelledby=\"relieved\"><h2 id=\"relieved\">Is the bore relieved?</h2>";
            listed("ol", &RELIEVED, page);
            *page += "</section>";
        }
    }
}

/// In full per cent; what is less than all is never called all.
fn percent(part: f64) -> f64 {
    let percent = (part * 100.0).round();
    if part < 0.999 {
        percent.min(99.0)
    } else {
        percent
    }
}

fn listed(element: &str, items: &[&str], page: &mut String) {
    let _ = write!(page, "<{element}>");
    for item in items {
        let _ = write!(page, "<li>{}</li>", escaped(item));
    }
    let _ = write!(page, "</{element}>");
}
