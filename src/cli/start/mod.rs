//! `shankwise start`: from an export to a library. It says what each column may mean, and drafts a
//! folder in which nothing is taken for sure that nobody has said.

mod asking;
mod drafted_shop_file;
mod drafted_tables;
mod folder_made;
mod refreshed;

use std::fs;
use std::path::Path;

use crate::input::sheet::is_workbook;
use crate::library::{Kind, Meaning, ReadSettings, Survey, library_root, listed_tools};
use crate::text::{Source, SourceId};
use crate::write::{Look, parted, survey_text};

use super::COULD_NOT;
use super::output::{look_of, terminal_width, write};
use super::refusal::{Refusal, shown};
use super::start_args::StartArgs;
use super::unreadable::of_setup;

/// An export that was read.
struct Export {
    /// Its name as it was typed.
    name: String,
    bytes: Vec<u8>,
    source: Source,
}

/// Surveys an export, and makes a library of it.
pub(super) fn run(arguments: &StartArgs) -> u8 {
    let look = look_of(arguments.colour.color, None);
    match started(arguments, look) {
        Ok(text) => write(&text, look),
        Err(refusal) => {
            refusal.tell(look);
            COULD_NOT
        }
    }
}

fn started(arguments: &StartArgs, look: Look) -> Result<String, Refusal> {
    let width = terminal_width();
    if let (Some(file), Some(folder)) = (&arguments.refresh, &arguments.into) {
        let settings = settings(arguments, folder)?;
        let export = Export::read(file, &settings)?;
        return refreshed::refresh(&export, folder, &settings);
    }
    let Some(file) = &arguments.file else {
        return Err(Refusal::new("no file is named", "name the export"));
    };
    let near = arguments.into.as_deref().unwrap_or(file);
    let settings = settings(arguments, near)?;
    let export = Export::read(file, &settings)?;
    let survey = export.survey(&settings)?;
    let Some(folder) = &arguments.into else {
        let mut text = survey_text(&export.name, &survey, true, width);
        text.push_str(
            "\nNext: `--into FOLDER` drafts a library of it, and leaves this file as it is.\n",
        );
        return Ok(text);
    };
    folder_made::is_free(folder)?;
    let answers = match &arguments.answers {
        Some(file) => drafted_shop_file::Answers::read(file)?,
        None if arguments.ask => asking::ask(&survey)?,
        None => drafted_shop_file::Answers::default(),
    };
    folder_made::make((&export, &survey), folder, &answers, (arguments, look))
}

/// How the export is read: as the shop file says that is found above it.
fn settings(arguments: &StartArgs, near: &Path) -> Result<ReadSettings, Refusal> {
    match arguments.setup.load(near) {
        Ok(setup) => Ok(setup.read_settings()),
        Err(error) => {
            let first = of_setup(&error).into_iter().next();
            let what = first.map_or_else(String::new, |first| first.message);
            let (what, hint) = parted(&what);
            let what = format!(
                "the shop file or the answers cannot be used: {}",
                shown(what)
            );
            Err(Refusal::new(what, hint))
        }
    }
}

impl Export {
    fn read(path: &Path, settings: &ReadSettings) -> Result<Export, Refusal> {
        let name = path.display().to_string();
        let unread = |why: &str| {
            let (why, hint) = parted(why);
            Refusal::new(
                format!("{} cannot be read: {}", shown(&name), shown(why)),
                hint,
            )
        };
        let bytes = fs::read(path).map_err(|why| {
            Refusal::new(
                format!("{} cannot be read: {why}", shown(&name)),
                "check the path",
            )
        })?;
        let source = if is_workbook(&bytes) {
            listed_tools(&name, &bytes, settings).map_err(|why| unread(&why))?
        } else {
            let source = Source::from_bytes(name.clone(), bytes.clone());
            source.map_err(|why| unread(&why.to_string()))?
        };
        if source.sheet().is_none() && source.text().trim_start().starts_with('<') {
            return Err(of_document(&source));
        }
        Ok(Export {
            name,
            bytes,
            source,
        })
    }

    /// The file in which its rows lie in a folder: a table, or a workbook under that name.
    fn file_of(&self, kind: Kind) -> String {
        let table = match kind {
            Kind::Stock => Kind::Stock.table(),
            _ => Kind::Assembly.table(),
        };
        if self.source.sheet().is_none() {
            return table.to_owned();
        }
        let stem = table.trim_end_matches("csv");
        let own = Path::new(&self.name).extension();
        let own = own.map_or_else(|| "xlsx".into(), |own| own.to_string_lossy().to_lowercase());
        format!("{stem}{own}")
    }

    fn survey(&self, settings: &ReadSettings) -> Result<Survey, Refusal> {
        let survey = Survey::of(&self.source, SourceId::default(), settings);
        let name = shown(&self.name);
        match survey {
            Some(survey) if survey.columns.len() < 2 => Err(Refusal::new(
                format!("{name} has one column"),
                "expected cells parted by commas, semicolons or tabs: export it so",
            )),
            Some(survey) if survey.rows > 0 => Ok(survey),
            Some(_) => Err(Refusal::new(
                format!("{name} has a header and no row"),
                "expected a line for each tool",
            )),
            None => Err(Refusal::new(
                format!("{name} is empty"),
                "expected a header line and a line for each tool",
            )),
        }
    }
}

/// A document names each value by its element: nothing is to be guessed.
fn of_document(source: &Source) -> Refusal {
    let name = shown(source.name());
    match library_root(source.text()) {
        Ok(()) => Refusal::new(
            format!("{name} is a library, whose elements name their properties"),
            format!("nothing is to be guessed: shankwise lint {name}"),
        ),
        Err(why) => Refusal::new(
            format!("{name} {why}"),
            "export the tools as a table: CSV, or a sheet",
        ),
    }
}

/// Columns that may mean something and are not answered, and those of which nothing is known.
fn open(survey: &Survey) -> (usize, usize) {
    let count = |is: fn(&Meaning) -> bool| {
        let columns = survey.columns.iter();
        columns.filter(|column| is(&column.meaning)).count()
    };
    (
        count(|one| matches!(one, Meaning::Guessed(_))),
        count(|one| *one == Meaning::Open),
    )
}
