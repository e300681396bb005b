//! `shankwise lint`.

use std::io::Read as _;
use std::path::Path;

use crate::advice::{Advice, advise};
use crate::judge::{Options, Report, Selection, Setup, SetupError, Verdict, judge};
use crate::library::{Input, Library, Loaded, load};
use crate::rulebook::{Date, Level};
use crate::text::visible;
use crate::write::{self, Look, Show, Trouble};

use super::args::{FailOn, Form, LintArgs, SetupArgs, ShowWhat};
use super::output::{self, complain};
use super::{COULD_NOT, FAILS, HOLDS};

/// Judges every library; the worst status counts.
pub(super) fn run(arguments: &LintArgs) -> u8 {
    let look = output::look(&arguments.output);
    let mut text = String::new();
    let mut status = HOLDS;
    let mut unknown: Vec<&String> = arguments.tool.iter().collect();
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
        let own = match &judged {
            Some(judged) if readable => status_of(&judged.report, arguments.strict),
            _ => COULD_NOT,
        };
        status = status.max(own);
        if let Some(judged) = judged {
            unknown.retain(|number| !judged.has(number));
            text.push_str(&written(&judged, arguments, look));
        }
    }
    for number in unknown {
        let why = format!("no assembly has the tool number `{}`", visible(number));
        complain(&Trouble::Other(&why), look);
        status = COULD_NOT;
    }
    if !output::write(&text, arguments.output.out.as_deref()) {
        return COULD_NOT;
    }
    status
}

fn status_of(report: &Report, strict: bool) -> u8 {
    match report.summary.verdict {
        Verdict::Fails => FAILS,
        Verdict::Incomplete if strict => FAILS,
        Verdict::Holds | Verdict::Incomplete => HOLDS,
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
    write::report_of_tools(report, &own, look, show)
}

/// What came of one library.
pub(super) struct Judged {
    library: Library,
    pub report: Report,
    pub advice: Advice,
}

impl Judged {
    /// Whether an assembly has this tool number.
    fn has(&self, number: &str) -> bool {
        let mut assemblies = self.library.assemblies.iter();
        assemblies.any(|assembly| assembly.tool_number() == Some(number))
    }
}

/// Judges one library. The report is there if anything could be judged; the flag says whether
/// everything could be read. What went wrong is told on standard error.
pub(super) fn one(
    path: &Path,
    setup: &SetupArgs,
    options: &Options,
    with_remedies: bool,
    look: Look,
) -> (Option<Judged>, bool) {
    let is_stdin = path == Path::new("-");
    let near = (!is_stdin).then_some(path);
    let config = setup.config.as_deref();
    let loaded_setup = Setup::load(near, config, &setup.rules, !setup.no_built_in)
        .and_then(|setup| setup.check(&options.selection).map(|()| setup));
    let setup = match loaded_setup {
        Ok(setup) => setup,
        Err(error) => {
            complain_setup(&error, look);
            return (None, false);
        }
    };
    let bytes = if is_stdin {
        stdin(look)
    } else {
        Some(Vec::new())
    };
    let Some(bytes) = bytes else {
        return (None, false);
    };
    let input = if is_stdin {
        Input::Bytes("standard input", &bytes)
    } else {
        Input::Path(path)
    };
    let Loaded { library, errors } = load(input, &setup.read_settings());
    for error in &errors {
        complain(&Trouble::Read(error), look);
    }
    let judged = library.map(|library| {
        let mut report = judge(&library, &setup, options);
        let advice = advise(&library, &setup, options, with_remedies, &mut report);
        Judged {
            library,
            report,
            advice,
        }
    });
    (judged, errors.is_empty())
}

fn stdin(look: Look) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    match std::io::stdin().lock().read_to_end(&mut bytes) {
        Ok(_) => Some(bytes),
        Err(why) => {
            let message = format!("standard input cannot be read: {why}");
            complain(&Trouble::Other(&message), look);
            None
        }
    }
}

/// Tells why a library cannot be judged at all.
pub(super) fn complain_setup(error: &SetupError, look: Look) {
    match error {
        SetupError::Rules(errors) => {
            for error in errors {
                complain(&Trouble::Rule(error), look);
            }
        }
        SetupError::NoSuchRule(wanted, near) => {
            let hint = match near {
                Some(near) => format!("did you mean `{near}`?"),
                None => "`shankwise rules` lists them".to_owned(),
            };
            let message = format!("there is no rule or topic `{wanted}`; {hint}");
            complain(&Trouble::Other(&message), look);
        }
    }
}

/// What a command asks that shows all it can work out.
pub(super) fn everything() -> Options {
    Options {
        strict: false,
        fail_on: Level::Error,
        selection: Selection::default(),
        with_facts: true,
        today: today(),
    }
}

/// Today by this machine's clock and zone.
pub(super) fn today() -> Date {
    let date = jiff::ZonedDateTime::now().date();
    Date {
        year: date.year(),
        month: date.month(),
        day: date.day(),
    }
}
