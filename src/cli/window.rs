//! `shankwise window`: the quick question, without a library.

use std::path::Path;

use crate::advice::{self, NO_WINDOW, Window, advise};
use crate::judge::{Finding, Judge, Options, Outcome, Report, Setup, judge};
use crate::library::{Assembly, Field, Library, Overrides, ReadSettings};
use crate::rulebook::Level;
use crate::sheet::{Answer, Asked, AtStickOut, Which};
use crate::units::Unit;
use crate::units::print;
use crate::write::{self, Look, SheetPage};

use super::args::{OutputForm, SocketDrawn, WindowArgs};
use super::comma;
use super::example_socket::with_example;
use super::options::Stated;
use super::output::{self, Destination};
use super::refusal::Refusal;
use super::setup::HERE;
use super::unreadable::complain_setup;
use super::{COULD_NOT, FAILS, NOTHING_FAILS, judged, question};

/// The topic of rules that compare what is stated with itself.
const RECORD: &str = "record/";

/// Answers, or says what of the question cannot be read.
pub(super) fn run(arguments: &WindowArgs) -> u8 {
    let look = output::look(&arguments.output);
    if let Some(refusal) = refused(arguments) {
        refusal.tell(look);
        return COULD_NOT;
    }
    let Some(to) = Destination::of(&arguments.output, &[], &arguments.setup) else {
        return COULD_NOT;
    };
    match answered(arguments, look) {
        Ok((text, left)) => {
            if !to.write(&text) {
                return COULD_NOT;
            }
            if left { NOTHING_FAILS } else { FAILS }
        }
        Err(wrong) => {
            for why in wrong {
                why.tell(look);
            }
            COULD_NOT
        }
    }
}

/// The answer, and whether any stick-out is left.
fn answered(arguments: &WindowArgs, look: Look) -> Result<(String, bool), Vec<Refusal>> {
    let stated = comma::with_points(&arguments.properties.stated)?;
    let setup = arguments.setup.load(Path::new(HERE));
    let mut setup = setup.map_err(|error| {
        complain_setup(&error, look);
        Vec::new()
    })?;
    setup.shop.accept_nothing();
    let settings = question::settings(&setup.read_settings(), arguments.units, &stated);
    let library = question::library(&stated, &settings)?;
    let options = judged::everything(&arguments.day);
    let wrong = implausible(&library, &setup, &options);
    if !wrong.is_empty() {
        return Err(wrong);
    }
    let report = report(&library, &setup, &options);
    let judge = Judge::new(&setup.book, false);
    let Some(assembly) = library.assemblies.first() else {
        return Err(vec![Refusal::new("the question describes no tool", "")]);
    };
    let asked = |library| advice::window(&judge, library, assembly, &Overrides::default());
    let window = asked(&library).ok_or_else(|| vec![no_question(&judge, &library, assembly)])?;
    let left = !window.is_empty();
    if arguments.output.form == OutputForm::Json {
        let line = write::json_line_with(&report, &[Some(&window)], !left);
        return Ok((line, left));
    }
    let asked = Asked {
        judge: &judge,
        library: &library,
        assembly,
        window: &window,
    };
    let as_set = set_to(&window, &stated, &settings, &setup, &options)?;
    let failing = besides(&report, as_set.as_ref(), &judge);
    let read_as = question::read_as(&stated, &settings, &library);
    let ascii = arguments.ascii || !output::shows_unicode();
    let answer = asked.answer(&failing);
    let about = write::shop_files(&report.library) + &write::not_read(&report.library);
    if is_picture(arguments.output.form) {
        let socket = match (arguments.socket, answer.land) {
            (Some(SocketDrawn::Example), Some(land)) => with_example(&stated, land),
            _ => None,
        };
        let invented = socket.as_deref();
        let invented = invented.map(|stated| question::library(stated, &settings));
        let invented = invented.transpose()?;
        let drawn = invented.as_ref().unwrap_or(&library);
        let asked = Asked {
            library: drawn,
            assembly: drawn.assemblies.first().unwrap_or(assembly),
            ..asked
        };
        let pictures = asked.at_stick_outs(answer.present);
        if arguments.output.form == OutputForm::Svg {
            return Ok((alone(&answer, &pictures)?, left));
        }
        let words = stated
            .iter()
            .map(|one| format!("{} {}", one.option, one.value));
        let words: Vec<String> = words.collect();
        let page = SheetPage {
            answer: &answer,
            failing: &failing,
            stated: &words,
            read_as: &read_as,
            shown: &pictures,
            is_example: invented.is_some(),
            day: &options.today.to_string(),
            about: &about,
        };
        return Ok((page.written(), left));
    }
    let text = write::window_text(&answer, &failing, &read_as, look, ascii);
    Ok((text + &about, left))
}

/// Why the question is not answered in this form.
fn refused(arguments: &WindowArgs) -> Option<Refusal> {
    let form = arguments.output.form;
    if arguments.socket.is_some() && !is_picture(form) {
        return Some(Refusal::new(
            "--socket draws an invented socket, and text has no picture of one",
            "add --as html or --as svg",
        ));
    }
    Refusal::of_form(form, &[OutputForm::Svg, OutputForm::Html])
}

fn is_picture(form: OutputForm) -> bool {
    matches!(form, OutputForm::Svg | OutputForm::Html)
}

/// The drawing alone: of the tool as set, else as advised.
fn alone(answer: &Answer, pictures: &[AtStickOut]) -> Result<String, Vec<Refusal>> {
    let own = pictures
        .iter()
        .find(|one| matches!(one.which, Which::AsSet | Which::AsAdvised));
    let drawing = own.map_or(&answer.drawing, |own| &own.drawing);
    write::window_svg(answer, drawing).ok_or_else(|| {
        let hint = "state the cutter, such as --overall-length 83 --shank-length 45";
        vec![Refusal::new("not enough is stated to draw it", hint)]
    })
}

/// What of the question no tool or job can be, by the rules that know what is plausible: a slip
/// would only be answered with another.
fn implausible(library: &Library, setup: &Setup, options: &Options) -> Vec<Refusal> {
    let mut options = options.clone();
    options.with_facts = false;
    options.selection.only = vec!["record".to_owned()];
    let findings = judge(library, setup, &options).findings;
    let refused = findings
        .iter()
        .filter(|finding| {
            let rule = setup.book.rule(&finding.rule);
            rule.is_some_and(|rule| rule.stands_for.nonsense)
        })
        .filter(|finding| {
            finding.outcome == Outcome::NotMet && finding.level >= Some(Level::Warning)
        });
    refused
        .map(|finding| {
            let Finding {
                message,
                advice,
                rule,
                ..
            } = finding;
            Refusal::new(format!("{message} [{rule}]"), advice.to_string())
        })
        .collect()
}

/// What to add where the overall length is not stated.
const ADD_LENGTH: &str = "add --overall-length, such as --overall-length 83";

/// Why no stick-out can be given.
fn no_question(judge: &Judge<'_>, library: &Library, assembly: &Assembly) -> Refusal {
    let none = Overrides::default();
    let (long, out) = judge.look(library, assembly, &none, |base, _| {
        let long = base.view.overall_length().value;
        (long, base.field(Field::StickOut).value)
    });
    let stopped = judge.stopper(library, assembly, &none).is_some();
    let show = |length: f64| print::value(length, Unit::Mm, library.units);
    match (long, out) {
        (Some(long), Some(out)) if out >= long => Refusal::new(
            format!(
                "a tool that is {} long cannot have a stick-out of {}",
                show(long),
                show(out)
            ),
            "correct one of them, or omit the stick-out",
        ),
        (Some(_), _) if stopped => Refusal::new(
            "the stated values contradict each other",
            "correct them, and ask again",
        ),
        (Some(_), _) => Refusal::new(
            "the tool's overall length is impossible",
            "correct it, and ask again",
        ),
        (None, Some(_)) => Refusal::new(
            "NOT JUDGED: the tool's overall length is not stated, so its stick-out cannot be checked",
            ADD_LENGTH,
        ),
        (None, None) => Refusal::new(
            "the tool's overall length is not stated, so no stick-out can be given",
            ADD_LENGTH,
        ),
    }
}

/// What is judged of the tool set as recommended; `None` where nothing is.
fn set_to(
    window: &Window,
    stated: &[Stated],
    settings: &ReadSettings,
    setup: &Setup,
    options: &Options,
) -> Result<Option<Report>, Vec<Refusal>> {
    let Some(at) = window.recommended else {
        return Ok(None);
    };
    let library = question::library(&question::set_to(at, stated), settings)?;
    Ok(Some(report(&library, setup, options)))
}

/// What is judged to fail of what is stated; what is left out is no finding here.
fn report(library: &Library, setup: &Setup, options: &Options) -> Report {
    let mut report = judge(library, setup, options);
    // That nothing is left of the window is a finding here too.
    let _ = advise(library, setup, options, false, &mut report);
    let shown = |finding: &Finding| {
        let points = finding.places.iter().any(|place| !place.absent);
        finding.outcome == Outcome::NotMet && (points || finding.rule == NO_WINDOW)
    };
    report.retain(shown);
    report
}

/// Errors and warnings beside the window: what fails as stated of the rules that do not bound the
/// stick-out, and all that stands at the recommended one.
fn besides<'r>(
    report: &'r Report,
    as_set: Option<&'r Report>,
    judge: &Judge<'_>,
) -> Vec<&'r Finding> {
    let bounding = judge.bounding().map(|(_, rule)| rule.id.as_str());
    let bounding: Vec<&str> = bounding.chain([NO_WINDOW]).collect();
    let counts =
        |finding: &&Finding| finding.level >= Some(Level::Warning) && finding.accepted.is_none();
    let stated = report.findings.iter().filter(counts);
    let mut found: Vec<&Finding> = stated
        .filter(|finding| !bounding.contains(&finding.rule.as_str()))
        .collect();
    let set = as_set.into_iter().flat_map(|report| &report.findings);
    for finding in set.filter(counts) {
        let known = found.iter().any(|one| one.rule == finding.rule);
        // The record was not made for the stick-out that is recommended.
        if !known && !finding.rule.starts_with(RECORD) {
            found.push(finding);
        }
    }
    found
}
