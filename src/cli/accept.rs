//! `shankwise accept`: a finding is accepted as it is today, and that is written into the shop
//! file of its library. No other file is touched.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::judge::{Options, Selection, was};
use crate::library::Field;
use crate::rulebook::{Accept, Date, NamedLibrary, SHOP_FILE, Spots};
use crate::sheet::{Finding, Wants};
use crate::text::visible;
use crate::write::Look;

use super::COULD_NOT;
use super::accept_args::AcceptArgs;
use super::day::of_run;
use super::judged::{Read, read};
use super::output::{exchange, look_of, write};
use super::progress::Shows;
use super::refusal::{Refusal, shown};
use super::shop_entry::{entry, with_entry};

/// Accepts a finding.
pub(super) fn run(arguments: &AcceptArgs) -> u8 {
    let look = look_of(arguments.colour.color, None);
    match accepted(arguments, look) {
        Ok(Some(said)) => write(&said, look),
        // It has been told.
        Ok(None) => COULD_NOT,
        Err(refusal) => {
            refusal.tell(look);
            COULD_NOT
        }
    }
}

/// Judges, finds and writes; what was done, none if the library could not be read.
fn accepted(arguments: &AcceptArgs, look: Look) -> Result<Option<String>, Refusal> {
    let today = of_run(arguments.day.as_of);
    check(arguments, today)?;
    let path = &arguments.library;
    let selection = Selection::default();
    let library = read(path, &arguments.setup(), &selection, look, Shows::none());
    let Ok(library) = library else {
        return Ok(None);
    };
    if !library.unreadable.is_empty() {
        let hint = "correct what is unreadable first: what is accepted would not be whole";
        return Err(Refusal::new("nothing is accepted", hint));
    }
    let found = found(&library, &Options::on(today), &arguments.fingerprint)?;
    let accept = made(arguments, &library, &found, today)?;
    let file = own_shop_file(path);
    let line = put(&file, &entry(&accept)).map_err(|why| {
        let what = format!(
            "cannot write {}: {why}",
            visible(&file.display().to_string())
        );
        Refusal::new(what, "")
    })?;
    Ok(Some(told(&accept, &file, line)))
}

/// What can be refused before anything is read.
fn check(arguments: &AcceptArgs, today: Date) -> Result<(), Refusal> {
    if arguments.library == Path::new("-") {
        let what = "what comes on standard input has no shop file of its own";
        return Err(Refusal::new(what, "name the library's file or folder"));
    }
    for (option, text) in [("--reason", &arguments.reason), ("--by", &arguments.by)] {
        if text.trim().is_empty() || text.chars().any(char::is_control) {
            let what = format!("{option} needs a text of one line");
            return Err(Refusal::new(
                what,
                "say it so that it can be followed in a year",
            ));
        }
    }
    if let Some(until) = arguments.until.filter(|until| until.days_after(today) < 0) {
        let what = format!("--until {until} has passed");
        return Err(Refusal::new(what, "name a day to come"));
    }
    Ok(())
}

/// Most findings that are named where none or several are meant.
const NEAR: usize = 10;

/// The finding whose fingerprint is this, or begins so.
fn found(library: &Read, options: &Options, wanted: &str) -> Result<Finding, Refusal> {
    let wanted = wanted.trim().to_ascii_lowercase();
    let (mut own, mut others): (Vec<Finding>, Vec<Finding>) = (Vec::new(), Vec::new());
    let is_of_tool = |finding: &&Finding| finding.assembly_index.is_some();
    let take = |findings: Vec<Finding>| {
        for finding in findings.iter().filter(is_of_tool) {
            if !wanted.is_empty() && finding.fingerprint.starts_with(&wanted) {
                own.push(finding.clone());
            } else {
                others.push(finding.clone());
                others.sort_by_key(|one| rank(one, &wanted));
                others.truncate(NEAR);
            }
        }
        Ok(())
    };
    let wants = Wants::default();
    // Nothing that is taken here can fail.
    let _ = library.each(options, wants, |item| item.findings().to_vec(), take);
    match own.as_slice() {
        [one] => return Ok(one.clone()),
        [] => {}
        many => {
            let what = format!(
                "{} findings have a fingerprint that begins with `{}`",
                many.len(),
                shown(&wanted)
            );
            return Err(Refusal::new(what, named(many)));
        }
    }
    let what = format!(
        "no finding of a tool has the fingerprint `{}`",
        shown(&wanted)
    );
    Err(Refusal::new(what, named(&others)))
}

/// How near a finding is to what was meant: by how many letters it begins alike, then by level.
fn rank(
    finding: &Finding,
    wanted: &str,
) -> (usize, std::cmp::Reverse<Option<crate::rulebook::Level>>) {
    let own = finding.fingerprint.chars().zip(wanted.chars());
    let alike = own.take_while(|(a, b)| a == b).count();
    (usize::MAX - alike, std::cmp::Reverse(finding.level))
}

fn named(findings: &[Finding]) -> String {
    let each = findings.iter().take(NEAR).map(|finding| {
        let tool = finding.tool_number.as_deref().unwrap_or_default();
        let operation = finding.operation.as_deref();
        let operation = operation.map_or_else(String::new, |name| format!(", {}", shown(name)));
        format!(
            "{} (tool {}{operation}, {})",
            finding.fingerprint,
            shown(tool),
            finding.rule
        )
    });
    match each.collect::<Vec<_>>() {
        each if each.is_empty() => "nothing is found on any tool".to_owned(),
        each => format!("there are {}", each.join("; ")),
    }
}

/// The entry for a finding, or why it may not be accepted.
fn made(
    arguments: &AcceptArgs,
    read: &Read,
    finding: &Finding,
    today: Date,
) -> Result<Accept, Refusal> {
    let (library, setup) = (&read.library, read.setup());
    let about = format!(
        "tool {}, {}",
        shown(finding.tool_number.as_deref().unwrap_or("without number")),
        finding.rule
    );
    if let Some(accepted) = &finding.accepted {
        let until = accepted.until.as_ref();
        let until = until.map_or_else(String::new, |day| format!(" until {day}"));
        let by = shown(&accepted.by);
        let what = format!("{about} is already accepted by {by}{until}");
        return Err(Refusal::new(what, "change that entry, or delete it first"));
    }
    let number = finding.tool_number.clone();
    let assembly = finding
        .assembly_index
        .and_then(|at| library.assemblies.get(at));
    let (Some(tool_number), Some(assembly)) = (number, assembly) else {
        let what = "a tool without a number cannot be named in an entry";
        return Err(Refusal::new(what, "give it its number first"));
    };
    until_fits(arguments, setup, finding, today)
        .map_err(|(what, hint)| Refusal::new(format!("{about}: {what}"), hint))?;
    Ok(Accept {
        library: file_name(&arguments.library),
        rule: finding.rule.clone(),
        tool_number,
        machine: assembly.record.text(Field::Machine).map(str::to_owned),
        operation: finding.operation.clone(),
        reason: arguments.reason.clone(),
        by: arguments.by.clone(),
        until: arguments.until,
        was: was(finding, library, assembly),
        spots: Spots::default(),
    })
}

/// Whether the last day is one that the rule and the plant permit.
fn until_fits(
    arguments: &AcceptArgs,
    setup: &crate::judge::Setup,
    finding: &Finding,
    today: Date,
) -> Result<(), (String, &'static str)> {
    let terms = &setup.shop.terms;
    let needs = setup
        .book
        .rule(&finding.rule)
        .is_some_and(crate::rulebook::Rule::needs_until);
    let Some(until) = arguments.until else {
        let hint = "add a last day, such as --until 2027-01-31";
        if needs {
            return Err((
                "what is accepted of this rule has a last day".to_owned(),
                hint,
            ));
        }
        if terms.until_required {
            return Err(("whatever the plant accepts has a last day".to_owned(), hint));
        }
        return Ok(());
    };
    let days = until.days_after(today);
    match terms.longest.filter(|longest| days > *longest) {
        Some(longest) => {
            let what = format!("{until} is {days} days off, and the plant permits {longest}");
            Err((what, "name an earlier day"))
        }
        None => Ok(()),
    }
}

/// What names the library in its own folder: a file has neighbours that a tool number alone would
/// speak of too, and a folder has none.
fn file_name(library: &Path) -> Option<NamedLibrary> {
    if library.is_dir() {
        return None;
    }
    let name = library.file_name()?.to_string_lossy().into_owned();
    Some(NamedLibrary {
        written: name,
        path: library.to_owned(),
    })
}

/// The shop file in the library's own folder.
fn own_shop_file(library: &Path) -> PathBuf {
    if library.is_dir() {
        library.join(SHOP_FILE)
    } else {
        library.with_file_name(SHOP_FILE)
    }
}

/// Adds an entry to a shop file, made if there is none; the line in which it begins.
fn put(file: &Path, entry: &str) -> io::Result<usize> {
    let old = match fs::read(file) {
        Ok(old) => old,
        Err(why) if why.kind() == io::ErrorKind::NotFound => Vec::new(),
        Err(why) => return Err(why),
    };
    let text = str::from_utf8(&old)
        .map_err(|_| io::Error::other("it is not in UTF-8; save it as UTF-8 first"))?;
    let (new, line) = with_entry(text, entry).map_err(io::Error::other)?;
    exchange(file, &old, new.as_bytes())?;
    Ok(line)
}

fn told(accept: &Accept, file: &Path, line: usize) -> String {
    let was = &accept.was;
    let at = was.value.as_ref();
    let at = at.map_or_else(String::new, |at| format!(" at {at}"));
    let until = accept.until;
    let until = until.map_or_else(String::new, |day| format!(", until {day}"));
    format!(
        "accepted: tool {} {}{at}{until}\nwritten to {}:{line}\n",
        shown(&accept.tool_number),
        accept.rule,
        visible(&file.display().to_string()),
    )
}
