//! `shankwise window`: the quick question, without a library.

use crate::advice::{self, NO_WINDOW, advise};
use crate::judge::{Finding, Judge, Outcome, Report, Setup, judge};
use crate::library::{Library, Overrides};
use crate::rulebook::Level;
use crate::write::{self, Asked, Look, Trouble};

use super::args::{Form, WindowArgs};
use super::output::{self, complain};
use super::{COULD_NOT, FAILS, HOLDS, lint, options, question};

/// Answers, or says what of the question cannot be read.
pub(super) fn run(arguments: &WindowArgs) -> u8 {
    let look = output::look(&arguments.output);
    match answered(arguments, look) {
        Ok((text, left)) => {
            if !output::write(&text, arguments.output.out.as_deref()) {
                return COULD_NOT;
            }
            if left { HOLDS } else { FAILS }
        }
        Err(wrong) => {
            for why in wrong {
                complain(&Trouble::Other(&why), look);
            }
            COULD_NOT
        }
    }
}

/// The answer, and whether any stick-out is left.
fn answered(arguments: &WindowArgs, look: Look) -> Result<(String, bool), Vec<String>> {
    let stated = options::stated(&arguments.properties)?;
    let from = &arguments.setup;
    let setup = Setup::load(None, from.config.as_deref(), &from.rules, !from.no_built_in);
    let setup = setup.map_err(|error| {
        lint::complain_setup(&error, look);
        Vec::new()
    })?;
    let settings = question::settings(&setup.read_settings(), arguments.units, &stated);
    let library = question::library(&stated, &settings)?;
    let report = report(&library, &setup);
    let judge = Judge::new(&setup.book, false);
    let Some(assembly) = library.assemblies.first() else {
        return Err(vec!["the question describes no tool".to_owned()]);
    };
    let window = advice::window(&judge, &library, assembly, &Overrides::default());
    let Some(window) = window else {
        let why = "the tool's overall length is not stated, and without it no stick-out can be told; add --overall-length, such as --overall-length 83";
        return Err(vec![why.to_owned()]);
    };
    let left = !window.is_empty();
    if arguments.output.form == Form::Json {
        let windows = [Some(write::window_json(&window))];
        let object = write::json_with(&report, &windows);
        return Ok((write::to_json_line(&object), left));
    }
    let asked = Asked {
        judge: &judge,
        library: &library,
        assembly,
        window: &window,
    };
    let failing = besides(&report, &judge);
    let ascii = arguments.ascii || !output::shows_unicode();
    Ok((write::window_text(&asked, &failing, look, ascii), left))
}

/// What is judged to fail of what is stated; what is left out is no finding here.
fn report(library: &Library, setup: &Setup) -> Report {
    let options = lint::everything();
    let mut report = judge(library, setup, &options);
    // That nothing is left of the window is a finding here too.
    let _ = advise(library, setup, &options, false, &mut report);
    let shown = |finding: &Finding| {
        let points = finding.places.iter().any(|place| !place.absent);
        finding.outcome == Outcome::Fails && (points || finding.rule == NO_WINDOW)
    };
    report.retain(shown);
    report
}

/// Errors and warnings that no stick-out cures: those of other rules than bound it.
fn besides<'r>(report: &'r Report, judge: &Judge<'_>) -> Vec<&'r Finding> {
    let bounding = judge.bounding().map(|(_, rule)| rule.id.as_str());
    let bounding: Vec<&str> = bounding.chain([NO_WINDOW]).collect();
    let findings = report.findings.iter();
    findings
        .filter(|finding| {
            finding.level >= Some(Level::Warning)
                && finding.accepted.is_none()
                && !bounding.contains(&finding.rule.as_str())
        })
        .collect()
}
