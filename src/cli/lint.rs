//! `shankwise lint`: libraries are read, judged and written in the form that is asked for; the exit
//! status.

use std::collections::BTreeSet;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use crate::judge::{Coverage, Leaning, Options};
use crate::library::Beside;
use crate::sheet::{Finding, Item, Overview, Records, Wants};
use crate::write::{
    self, Digest, Figure, Input, Json, Log, Look, Pieces, Results, Show, Sort, Text, TextOptions,
    brief,
};

use super::args::{LintArgs, OutputForm, ShowWhat, SortBy};
use super::day::of_run;
use super::judged::{self, Read, input_name, read_for};
use super::output::{self, Destination, Sink};
use super::progress::Shows;
use super::refusal::Refusal;
use super::{COULD_NOT, FAILS, NOTHING_FAILS, here, near};

/// Judges every library; the worst status counts.
pub(super) fn run(arguments: &LintArgs) -> u8 {
    let look = output::look(&arguments.output);
    if let Some(refusal) = Refusal::of_form(arguments.output.form, &[OutputForm::Sarif]) {
        refusal.tell(look);
        return COULD_NOT;
    }
    let paths = match here::named(&arguments.paths) {
        Ok(paths) => paths,
        Err(why) => {
            why.tell(look);
            return COULD_NOT;
        }
    };
    if arguments.job.is_some() && paths.len() > 1 {
        let hint = "name the library that its tools are in";
        Refusal::new("a job is judged with one library", hint).tell(look);
        return COULD_NOT;
    }
    all(&paths, arguments, look)
}

fn all(paths: &[PathBuf], arguments: &LintArgs, look: Look) -> u8 {
    let beside = arguments.job.iter().chain(&arguments.with);
    let read: Vec<PathBuf> = paths.iter().chain(beside).cloned().collect();
    let to = Destination::of(&arguments.output, &read, &arguments.setup);
    let Some(to) = to else {
        return COULD_NOT;
    };
    let mut sink = to.open();
    let mut log = (arguments.output.form == OutputForm::Sarif).then(Log::default);
    if log.is_some() {
        // The sink remembers why, and tells it; here and below.
        let _ = Log::head(&mut sink);
    }
    let status = written(paths, arguments, look, (&mut sink, log.as_mut()));
    if let Some(log) = &log {
        let _ = log.finish(
            (status, status != COULD_NOT, meaning(status)),
            None,
            &mut sink,
        );
    }
    if !sink.finish() {
        return COULD_NOT;
    }
    status
}

/// Reads, judges and writes all libraries; the worst status.
fn written(
    paths: &[PathBuf],
    arguments: &LintArgs,
    look: Look,
    (to, mut log): (&mut Sink<'_>, Option<&mut Log>),
) -> u8 {
    let mut status = NOTHING_FAILS;
    let mut unknown: Vec<&String> = arguments.tool.iter().collect();
    let mut known = BTreeSet::new();
    for path in paths {
        let is_alone = paths.len() == 1;
        let to = (&mut *to, log.as_deref_mut());
        let (own, library) = one(path, is_alone, arguments, look, to);
        status = status.max(own);
        if let Some(library) = library.filter(|_| !unknown.is_empty()) {
            unknown.retain(|number| !library.has(number));
            known.extend(library.numbers().map(str::to_owned));
        }
    }
    for number in unknown {
        let refusal = near::no_such_tool(number, &known);
        refusal.tell(look);
        if let Some(log) = log.as_deref_mut() {
            log.refused(&refusal.message());
        }
        status = COULD_NOT;
    }
    status
}

/// Reads, judges and writes one library; its status, and the library where there is one.
fn one(
    path: &Path,
    is_alone: bool,
    arguments: &LintArgs,
    look: Look,
    (to, mut log): (&mut Sink<'_>, Option<&mut Log>),
) -> (u8, Option<Read>) {
    let options = options(arguments);
    let shows = Shows::of(&arguments.output, true);
    let beside = Beside {
        job: arguments.job.as_deref(),
        tables: arguments.with.as_deref(),
    };
    let selection = &options.selection;
    let mut library = match read_for(path, beside, &arguments.setup, selection, (look, shows)) {
        Ok(library) => library,
        Err(unreadable) => {
            let name = input_name(path);
            let input = Input::new(&name, &unreadable);
            match log {
                Some(log) => log.unreadable(input),
                // The sink remembers why, and tells it.
                None => drop(to.write_all(not_read(input, is_alone, arguments).as_bytes())),
            }
            return (COULD_NOT, None);
        }
    };
    if let Some(job) = library.job.take() {
        library.only(&job.numbers);
        for refusal in near::lacking(&library) {
            refusal.tell(look);
            if let Some(log) = log.as_deref_mut() {
                log.refused(&refusal.message());
            }
        }
    }
    let json = arguments.output.form == OutputForm::Json;
    let for_programs = json || log.is_some();
    let short = !arguments.full && arguments.tool.is_empty() && arguments.show.is_empty();
    let is_long = !short && arguments.output.form != OutputForm::Brief;
    let wants = Wants {
        card: false,
        remedies: arguments.remedies || (!for_programs && is_alone),
        // The short text and one line a finding do not say it, nor does what is said of few tools.
        plan: json || is_long && arguments.tool.is_empty(),
        lacks: !for_programs,
        record: if for_programs || arguments.tool.is_empty() {
            Records::None
        } else {
            Records::All
        },
    };
    let run = Run {
        library: &library,
        path,
        options: &options,
        wants,
        arguments,
    };
    let ended = if let Some(log) = log {
        run.sarif(log, to)
    } else if json {
        run.json(to)
    } else if arguments.output.form == OutputForm::Brief {
        run.brief(to)
    } else if short {
        run.digest(look, to)
    } else {
        run.text(look, to)
    };
    let status = match ended {
        Ok(_) if !library.unreadable.is_empty() => COULD_NOT,
        Ok((overview, own)) if run.fails(&overview, &own) => FAILS,
        Ok(_) => NOTHING_FAILS,
        // It is told at the end.
        Err(why) => {
            to.fail(&why);
            COULD_NOT
        }
    };
    (status, Some(library))
}

/// What stands in the output for an input that could not be read. Text of that input alone has
/// nothing to say beside standard error.
fn not_read(input: Input<'_>, is_alone: bool, arguments: &LintArgs) -> String {
    match arguments.output.form {
        OutputForm::Json => write::unreadable_json(input),
        OutputForm::Brief => write::unreadable_brief(input.unreadable),
        // The log says it by itself.
        OutputForm::Sarif | OutputForm::Svg | OutputForm::Html => String::new(),
        OutputForm::Text | OutputForm::Plain if is_alone => String::new(),
        OutputForm::Text | OutputForm::Plain => write::unreadable_text(input),
    }
}

/// What an exit status says.
pub(super) const fn meaning(status: u8) -> &'static str {
    match status {
        NOTHING_FAILS => "nothing found that fails, or incomplete",
        FAILS => "fails",
        _ => "could not run, or an input was unreadable",
    }
}

fn options(arguments: &LintArgs) -> Options {
    Options {
        strict: arguments.strict,
        fail_on: arguments.asked.level(),
        selection: arguments.asked.selection(),
        with_facts: arguments.with_facts || arguments.remedies,
        today: of_run(arguments.day.as_of),
    }
}

/// One library that is judged and written.
struct Run<'r> {
    library: &'r Read,
    path: &'r Path,
    options: &'r Options,
    wants: Wants,
    arguments: &'r LintArgs,
}

/// What came of the tools that were asked for by their number.
struct OfTools<'r> {
    /// Those of them that the library has.
    numbers: Vec<&'r str>,
    /// Those of which something was found.
    found: BTreeSet<&'r str>,
    leaning: Leaning,
    coverage: Coverage,
}

impl<'r> Run<'r> {
    fn tools(&self) -> OfTools<'r> {
        let numbers = self.arguments.tool.iter().map(String::as_str);
        OfTools {
            numbers: numbers.filter(|number| self.library.has(number)).collect(),
            found: BTreeSet::new(),
            leaning: Leaning::default(),
            coverage: Coverage::new(true),
        }
    }

    fn json(&self, to: &mut Sink<'_>) -> io::Result<(Overview, OfTools<'r>)> {
        let (facts, remedies) = (self.options.with_facts, self.arguments.remedies);
        let mut own = self.tools();
        let name = input_name(self.path);
        let input = Input::new(&name, &self.library.unreadable).lacking(&self.library.lacking);
        let mut json = Json::begin(to, input, facts, remedies)?;
        let is_asked = !own.numbers.is_empty();
        let prepare = |item: Item| {
            let pieces = Pieces::of(&item, facts, remedies);
            (pieces, is_asked.then_some(item))
        };
        let take = |(pieces, item): (Pieces, Option<Item>)| {
            if let Some(item) = &item {
                self.note(item, &mut own);
            }
            json.take(&pieces)
        };
        let mut overview = self.library.each(self.options, self.wants, prepare, take)?;
        overview.coverage.wanted = self.arguments.min_coverage;
        json.finish(&overview, self.fails(&overview, &own))?;
        Ok((overview, own))
    }

    fn sarif(&self, log: &mut Log, to: &mut Sink<'_>) -> io::Result<(Overview, OfTools<'r>)> {
        let mut own = self.tools();
        let name = input_name(self.path);
        let input = Input::new(&name, &self.library.unreadable);
        let numbers = log.library(input, &self.library.rules());
        let prepare = |item: Item| (Results::of(&item, &numbers, &name), item);
        let take = |(results, item): (Results, Item)| {
            self.note(&item, &mut own);
            log.take(&results, to)
        };
        let mut overview = self.library.each(self.options, self.wants, prepare, take)?;
        overview.coverage.wanted = self.arguments.min_coverage;
        log.end(input, &overview, self.fails(&overview, &own));
        Ok((overview, own))
    }

    fn brief(&self, to: &mut Sink<'_>) -> io::Result<(Overview, OfTools<'r>)> {
        let mut own = self.tools();
        to.write_all(write::unreadable_brief(&self.library.unreadable).as_bytes())?;
        let name = input_name(self.path);
        to.write_all(write::lacking_brief(&name, &self.library.lacking).as_bytes())?;
        let prepare = |item: Item| (brief(&item), item);
        let take = |(lines, item): (String, Item)| {
            self.note(&item, &mut own);
            to.write_all(lines.as_bytes())
        };
        let overview = self.library.each(self.options, self.wants, prepare, take)?;
        Ok((overview, own))
    }

    fn digest(&self, look: Look, to: &mut Sink<'_>) -> io::Result<(Overview, OfTools<'r>)> {
        let sort = match self.arguments.sort {
            SortBy::Number => Sort::Number,
            SortBy::Severity => Sort::Severity,
        };
        let width = output::width(&self.arguments.output);
        let mut digest = Digest::of(look, width, self.most(), sort);
        let mut overview = self.library.each(
            self.options,
            self.wants,
            |item| item,
            |item| {
                digest.take(item);
                Ok(())
            },
        )?;
        overview.coverage.wanted = self.arguments.min_coverage;
        to.write_all(write::lacking_text(&self.library.lacking, width).as_bytes())?;
        digest.finish(&overview, to)?;
        Ok((overview, self.tools()))
    }

    /// Most blocks and names of a list.
    const fn most(&self) -> usize {
        match self.arguments.most {
            0 => usize::MAX,
            most => most,
        }
    }

    fn text(&self, look: Look, to: &mut Sink<'_>) -> io::Result<(Overview, OfTools<'r>)> {
        let mut own = self.tools();
        let some = !self.arguments.tool.is_empty();
        let mut text = Text::of(TextOptions {
            look,
            show: self.show(),
            most: self.most(),
            ascii: !output::shows_unicode(),
        });
        let mut figures: Vec<Figure> = Vec::new();
        let wants = self.wants;
        let mut overview = self.library.each(
            self.options,
            wants,
            |item| item,
            |item| {
                if some {
                    self.note(&item, &mut own);
                    figures.extend(self.figure(&item));
                }
                let numbers = &own.numbers;
                let is_own =
                    |finding: &Finding| numbers.iter().any(|one| self.library.is_of(finding, one));
                text.take(item, |finding| !some || is_own(finding));
                Ok(())
            },
        )?;
        overview.coverage.wanted = self.arguments.min_coverage;
        let width = output::width(&self.arguments.output);
        to.write_all(write::lacking_text(&self.library.lacking, width).as_bytes())?;
        if !some {
            text.finish(&overview, to)?;
        } else if !own.numbers.is_empty() {
            let clean = own.numbers.iter().copied();
            let clean: Vec<&str> = clean.filter(|number| !own.found.contains(number)).collect();
            text.finish_of_tools(&overview, &own.numbers, &clean, &figures, to)?;
        }
        Ok((overview, own))
    }

    /// The drawing of a tool that is asked for.
    fn figure(&self, item: &Item) -> Option<Figure> {
        let Item::Sheet(sheet) = item else {
            return None;
        };
        let is_asked = |number: &String| self.arguments.tool.contains(number);
        sheet
            .tool_number
            .as_ref()
            .filter(|number| is_asked(number))?;
        Figure::of(sheet)
    }

    /// Takes down what an item says of the tools that are asked for.
    fn note(&self, item: &Item, own: &mut OfTools<'r>) {
        for finding in item.findings() {
            let numbers = own.numbers.iter().copied();
            let mut about = numbers
                .filter(|number| self.library.is_of(finding, number))
                .peekable();
            if about.peek().is_some() {
                own.leaning.take(finding, self.options.fail_on);
            }
            own.found.extend(about);
        }
        if let Item::Sheet(sheet) = item {
            let number = sheet.tool_number.as_deref();
            if number.is_some_and(|number| own.numbers.contains(&number)) {
                own.coverage.add(&sheet.covered);
            }
        }
    }

    /// What text shows, where the arguments say so.
    fn show(&self) -> Option<Show> {
        let arguments = self.arguments;
        let asked =
            |what| arguments.show.contains(&what) || arguments.show.contains(&ShowWhat::All);
        if arguments.show.is_empty() {
            return (!arguments.tool.is_empty()).then(Show::all);
        }
        Some(Show {
            error: asked(ShowWhat::Error),
            warning: asked(ShowWhat::Warning),
            note: asked(ShowWhat::Note),
            not_judged: asked(ShowWhat::NotJudged),
        })
    }

    /// Whether the library fails, or the tools that are asked for alone.
    fn fails(&self, overview: &Overview, own: &OfTools<'_>) -> bool {
        let (mut coverage, verdict) = if self.arguments.tool.is_empty() {
            (overview.coverage.clone(), overview.summary.verdict)
        } else {
            let verdict = own.leaning.verdict(&overview.library.unread);
            let mut coverage = own.coverage.clone();
            coverage.grip_rules = overview.coverage.grip_rules;
            (coverage, verdict)
        };
        coverage.wanted = self.arguments.min_coverage;
        let lacks = !self.library.lacking.is_empty();
        lacks || judged::fails(verdict, &coverage, self.arguments.strict)
    }
}
