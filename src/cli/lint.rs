//! `shankwise lint`.

use std::collections::BTreeSet;

use crate::advice::Advice;
use crate::judge::{Finding, Options, Report, Selection, Verdict};
use crate::rulebook::Level;
use crate::write::{self, Look, Show, Trouble};

use super::args::{FailOn, Form, LintArgs, ShowWhat};
use super::judged::{Judged, one, today};
use super::output::{self, Destination, complain};
use super::{COULD_NOT, FAILS, NOTHING_FAILS, near};

/// Judges every library; the worst status counts.
pub(super) fn run(arguments: &LintArgs) -> u8 {
    let look = output::look(&arguments.output);
    let to = Destination::of(&arguments.output, &arguments.paths, &arguments.setup);
    let Some(to) = to else {
        return COULD_NOT;
    };
    let mut text = String::new();
    let mut status = NOTHING_FAILS;
    let mut unknown: Vec<&String> = arguments.tool.iter().collect();
    let mut known = BTreeSet::new();
    for path in &arguments.paths {
        let options = Options {
            strict: arguments.strict,
            fail_on: match arguments.fail_on {
                FailOn::Error => Level::Error,
                FailOn::Warning => Level::Warning,
                FailOn::Note => Level::Note,
            },
            selection: Selection {
                only: arguments.only.clone(),
                except: arguments.except.clone(),
            },
            with_facts: arguments.with_facts || arguments.remedies,
            today: today(),
        };
        let json = arguments.output.form == Form::Json;
        let remedies = arguments.remedies || (!json && arguments.paths.len() == 1);
        let (judged, readable) = one(path, &arguments.setup, &options, remedies, look);
        let judged = judged.map(|mut judged| {
            judged.report.coverage.wanted = arguments.min_coverage;
            judged
        });
        let own = match &judged {
            Some(judged) if readable => status_of(judged, arguments),
            _ => COULD_NOT,
        };
        status = status.max(own);
        if let Some(judged) = judged {
            unknown.retain(|number| !judged.has(number));
            known.extend(judged.numbers().map(str::to_owned));
            text.push_str(&written(&judged, arguments, look));
        }
    }
    for number in unknown {
        let why = near::no_such_tool(number, &known);
        complain(&Trouble::Other(&why), look);
        status = COULD_NOT;
    }
    if !to.write(&text) {
        return COULD_NOT;
    }
    status
}

fn status_of(judged: &Judged, arguments: &LintArgs) -> u8 {
    match judged.outcome(&arguments.tool) {
        (_, false) | (Verdict::Fails, _) => FAILS,
        (Verdict::Incomplete, _) if arguments.strict => FAILS,
        (Verdict::NothingFound | Verdict::Incomplete, _) => NOTHING_FAILS,
    }
}

/// A report with its windows, as a line of JSON.
pub(super) fn json_line(report: &Report, advice: &Advice, with_remedies: bool) -> String {
    let windows = advice.windows.iter();
    let windows: Vec<_> = windows
        .map(|window| window.as_ref().map(write::window_json))
        .collect();
    let mut object = write::json_with(report, &windows);
    if with_remedies {
        write::add_remedies(&mut object, &advice.remedies);
        if let Some(object) = object.as_object_mut() {
            object.insert("plan".to_owned(), write::plan_json(&advice.plan));
        }
    }
    write::to_json_line(&object)
}

fn written(judged: &Judged, arguments: &LintArgs, look: Look) -> String {
    let Judged { report, advice, .. } = judged;
    if arguments.output.form == Form::Json {
        return json_line(report, advice, arguments.remedies);
    }
    let asked = |what| arguments.show.contains(&what) || arguments.show.contains(&ShowWhat::All);
    let show = if arguments.show.is_empty() && arguments.tool.is_empty() {
        Show::by_default(&report.summary)
    } else if arguments.show.is_empty() {
        Show::all()
    } else {
        Show {
            error: asked(ShowWhat::Error),
            warning: asked(ShowWhat::Warning),
            note: asked(ShowWhat::Note),
            not_judged: asked(ShowWhat::NotJudged),
        }
    };
    if arguments.tool.is_empty() {
        return write::report(report, &advice.plan, look, show);
    }
    let own: Vec<&str> = arguments.tool.iter().map(String::as_str).collect();
    let own: Vec<&str> = own
        .into_iter()
        .filter(|number| judged.has(number))
        .collect();
    if own.is_empty() {
        return String::new();
    }
    let is_of = |finding: &Finding, number: &str| judged.is_of(finding, number);
    write::report_of_tools(report, &own, &is_of, look, show)
}
