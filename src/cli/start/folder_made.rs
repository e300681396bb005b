//! The folder of a drafted library: made beside its name, and renamed when it is whole.

use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::time::Duration;

use crate::judge::Options;
use crate::library::{Kind, Survey};
use crate::rulebook::SHOP_FILE;
use crate::sheet::Wants;
use crate::write::{Look, Started, started_text, survey_text};

use super::super::day::of_run;
use super::super::judged;
use super::super::output::terminal_width;
use super::super::progress::Shows;
use super::super::refusal::{Refusal, shown};
use super::super::start_args::StartArgs;
use super::drafted_shop_file::{self, Answers};
use super::drafted_tables;
use super::{Export, open, settings};

/// Refuses a folder in which something lies already.
pub(super) fn is_free(folder: &Path) -> Result<(), Refusal> {
    let name = shown(&folder.display().to_string());
    match fs::read_dir(folder).map(Iterator::count) {
        Ok(0) => Ok(()),
        Ok(_) => Err(Refusal::new(
            format!("{name} is not empty, and nothing in it is overwritten"),
            "name a new folder, or --refresh to replace the export alone",
        )),
        Err(why) if why.kind() == ErrorKind::NotFound => Ok(()),
        Err(why) => Err(Refusal::new(
            format!("{name} cannot be used: {why}"),
            "name a new folder",
        )),
    }
}

/// Makes the folder, and says what is in it and what comes next.
pub(super) fn make(
    (export, survey): (&Export, &Survey),
    folder: &Path,
    answers: &Answers,
    (arguments, look): (&StartArgs, Look),
) -> Result<String, Refusal> {
    let fails = |why: io::Error| {
        let name = shown(&folder.display().to_string());
        Refusal::new(format!("{name} cannot be written: {why}"), "")
    };
    let making = Making::begin(folder).map_err(fails)?;
    let shop = drafted_shop_file::text(&export.name, survey, answers);
    making
        .put(&export.file_of(survey.kind), &export.bytes)
        .map_err(fails)?;
    making.put(SHOP_FILE, shop.as_bytes()).map_err(fails)?;
    // With the answers, which the program reads as it will from now on.
    let settings = settings(arguments, &making.path)?;
    let survey = export.survey(&settings)?;
    let shop = drafted_shop_file::text(&export.name, &survey, answers);
    making.put(SHOP_FILE, shop.as_bytes()).map_err(fails)?;
    let made = match &survey.elements {
        Some(element) => format!("made from the export's elements `{}`", shown(element)),
        None => "a copy of the export".to_owned(),
    };
    let mut files = vec![
        format!("{} ({made})", export.file_of(survey.kind)),
        SHOP_FILE.to_owned(),
    ];
    let mut blanks = Vec::new();
    for draft in drafted_tables::tables(&survey) {
        making
            .put(draft.file, draft.text.as_bytes())
            .map_err(fails)?;
        files.push(draft.file.to_owned());
        blanks.extend(draft.blanks);
    }
    if survey.kind == Kind::Stock {
        let header = "tool_number,cutter,collet,nut,holder,stick_out,nut_torque\n";
        making
            .put(Kind::Assembly.table(), header.as_bytes())
            .map_err(fails)?;
        files.push(Kind::Assembly.table().to_owned());
    }
    blanks.sort_by_key(|blank| std::cmp::Reverse(blank.tools));
    making.commit(folder).map_err(fails)?;
    let started = Started {
        folder: folder.display().to_string(),
        files,
        blanks,
        open: open(&survey),
        words: survey.columns.iter().map(|column| column.words.len()).sum(),
        judged: judged_grip(&survey, folder, (arguments, look)),
        is_stock: survey.kind == Kind::Stock,
        table: export.file_of(survey.kind),
    };
    let width = terminal_width();
    Ok(survey_text(&export.name, &survey, false, width) + &started_text(&started, width))
}

/// On how many tools the grip is judged as it is; none if not even the numbers can be read.
fn judged_grip(
    survey: &Survey,
    folder: &Path,
    (arguments, look): (&StartArgs, Look),
) -> Option<(usize, usize)> {
    let is_numbered = |property: Option<&str>| property == Some("tool_number");
    let taken = survey.columns.iter().filter(|column| column.is_taken());
    if !taken
        .map(crate::library::SurveyedColumn::property)
        .any(is_numbered)
    {
        return None;
    }
    grip_judged(folder, (arguments, look))
}

/// On how many tools of a folder the grip is judged, and of how many it is to be.
pub(super) fn grip_judged(
    folder: &Path,
    (arguments, look): (&StartArgs, Look),
) -> Option<(usize, usize)> {
    let options = Options::on(of_run(None));
    let read = judged::read(
        folder,
        &arguments.setup,
        &options.selection,
        look,
        Shows::none(),
    );
    let read = read.ok()?;
    let wants = Wants::default();
    let overview = read.each(&options, wants, |_| (), |()| Ok(())).ok()?;
    let coverage = &overview.coverage;
    Some((coverage.grip_judged(), coverage.held_by_shank()))
}

/// How the name of a folder that is being made begins.
const PREFIX: &str = ".shankwise-start-";
/// Behind which a folder in the making belongs to a run that was killed: one takes seconds.
const LEFT: Duration = Duration::from_hours(1);

/// Deletes what runs that were killed have left. What is younger may be another run's, and what
/// cannot be deleted is in nobody's way.
fn swept(parent: &Path) {
    let Ok(entries) = fs::read_dir(parent) else {
        return;
    };
    for entry in entries.flatten() {
        if is_left(&entry) {
            let _ = fs::remove_dir_all(entry.path());
        }
    }
}

/// Whether a run that was killed has left a folder: it is called so, is old, and holds a library in
/// the making at most.
fn is_left(entry: &fs::DirEntry) -> bool {
    let name = entry.file_name();
    let rest = name.to_str().and_then(|name| name.strip_prefix(PREFIX));
    let is_called_so = rest.is_some_and(|rest| {
        !rest.is_empty() && rest.bytes().all(|byte| byte.is_ascii_alphanumeric())
    });
    // A link is none: what it leads to is not ours.
    let is_folder = || entry.file_type().is_ok_and(|kind| kind.is_dir());
    let age = || entry.metadata().ok()?.modified().ok()?.elapsed().ok();
    let is_old = || age().is_some_and(|age| age > LEFT);
    let holds = || {
        fs::read_dir(entry.path())
            .is_ok_and(|mut inner| inner.all(|one| one.is_ok_and(|one| one.file_name() == LIBRARY)))
    };
    is_called_so && is_folder() && is_old() && holds()
}

/// What the folder is called in which it is made.
const LIBRARY: &str = "library";

/// A folder that is being made; removed if it is not finished.
pub(super) struct Making {
    /// Where it lies until it is whole.
    pub(super) path: PathBuf,
    /// Removes all that is left when it is dropped.
    _held: tempfile::TempDir,
}

impl Making {
    pub(super) fn begin(folder: &Path) -> io::Result<Making> {
        let parent = match folder.parent() {
            Some(parent) if parent != Path::new("") => parent.to_owned(),
            _ => PathBuf::from("."),
        };
        fs::create_dir_all(&parent)?;
        swept(&parent);
        let held = tempfile::Builder::new()
            .prefix(PREFIX)
            .tempdir_in(&parent)?;
        // A temporary folder is closed to others, and this one is to be as open as any.
        let path = held.path().join(LIBRARY);
        fs::create_dir(&path)?;
        Ok(Making { path, _held: held })
    }

    pub(super) fn put(&self, name: &str, bytes: &[u8]) -> io::Result<()> {
        let mut file = fs::File::create(self.path.join(name))?;
        io::Write::write_all(&mut file, bytes)?;
        file.sync_all()
    }

    /// The folder gets its name; an empty one gives way.
    pub(super) fn commit(self, folder: &Path) -> io::Result<()> {
        fs::rename(&self.path, folder)
    }
}
