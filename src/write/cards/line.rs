//! One tool in one line of the setup sheet, for page and terminal alike.

use crate::sheet::{Card, Reason, Release};
use crate::units::Unit;
use crate::units::print::{self, DisplayUnits};

use super::super::html::escaped;
use super::in_words;

/// What the line says; nothing of it is markup.
pub(super) struct Line {
    /// The tool.
    pub tool: String,
    /// Its stamp in a word; empty without one.
    pub stamp: &'static str,
    /// What was found.
    pub came: String,
    /// The recorded stick-out.
    pub stick_out: String,
    /// Where its mark is.
    pub mark: String,
    /// The nut's torque.
    pub torque: String,
    /// Where it goes.
    pub place: String,
    link: usize,
}

/// What stands where there is nothing to set.
const NOTHING: &str = "-";

impl Line {
    pub(super) fn of(card: &Card, units: DisplayUnits) -> Line {
        let setting = &card.setting;
        let length = |length: f64| print::value(length, Unit::Mm, units);
        let stops = card.released.release == Release::DoNotBuild;
        let built = |text: Option<String>| text.filter(|_| !stops).unwrap_or(NOTHING.into());
        let stick_out = setting.stick_out.map(|one| length(one.length));
        let torque = setting.torque.as_ref().map(|torque| match &torque.set {
            Some(set) => print::value(set.value, Unit::Nm, units),
            None => "enter".to_owned(),
        });
        let (stamp, came) = came(card);
        let places = [&card.machine, &card.pot].into_iter().flatten();
        let places: Vec<String> = places.map(|one| in_words::name(one)).collect();
        Line {
            tool: in_words::tool(card),
            stamp,
            came,
            stick_out: stick_out.unwrap_or_else(|| "not recorded".into()),
            mark: built(setting.mark.map(length)),
            torque: built(torque),
            place: places.join(", "),
            link: card.at,
        }
    }

    /// As a row of the page.
    pub(super) fn row(&self) -> String {
        let stamp = match self.stamp {
            "" => String::new(),
            stamp => format!("<b class=\"flag\">{stamp}</b> "),
        };
        let [tool, came, out, mark, torque, place] = [
            &self.tool,
            &self.came,
            &self.stick_out,
            &self.mark,
            &self.torque,
            &self.place,
        ]
        .map(|text| escaped(text));
        format!(
            "<tr><th scope=\"row\"><a href=\"#c{}\">{tool}</a></th><td>{stamp}{came}</td><td>{out}</td><td>{mark}</td><td>{torque}</td><td>{place}</td></tr>\n",
            self.link
        )
    }
}

/// The stamp in a word, and what was found in a few.
fn came(card: &Card) -> (&'static str, String) {
    let released = &card.released;
    let first = |reasons: &[Reason]| {
        let more = reasons.len().saturating_sub(1);
        let title = reasons.first().map_or("", |one| one.title.as_str());
        match more {
            0 => title.to_owned(),
            more => format!("{title}, {more} more"),
        }
    };
    let counted = |count: usize, word: &str| match count {
        0 => None,
        1 => Some(format!("1 {word}")),
        count => Some(format!("{count} {word}s")),
    };
    let open = counted(released.open.len(), "rule").map(|rules| format!("{rules} not judged"));
    let warnings = counted(released.warns.len(), "warning");
    let with = |words: String, others: [&Option<String>; 2]| {
        let others = others.into_iter().flatten();
        let all: Vec<&str> = std::iter::once(&words)
            .chain(others)
            .map(String::as_str)
            .collect();
        all.join("; ")
    };
    match released.release {
        Release::DoNotBuild => ("STOP", first(&released.stops)),
        Release::NotReleased => (
            "NOT CHECKED",
            format!("not judged: {}", first(&released.waits)),
        ),
        Release::Accepted => {
            let until = released.accepted.first().and_then(|one| one.until.as_ref());
            let until = until.map_or_else(|| "without an end".into(), |day| format!("until {day}"));
            ("ACCEPTED", with(until, [&warnings, &open]))
        }
        Release::Free if released.warns.is_empty() => {
            ("", with("nothing found".into(), [&None, &open]))
        }
        Release::Free => ("CHECK", with(first(&released.warns), [&None, &open])),
    }
}
