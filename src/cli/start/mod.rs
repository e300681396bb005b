//! `shankwise start`: from an export to a library. It says what each column may mean, and drafts a
//! folder in which nothing is taken for sure that nobody has said.

mod asking;
mod assets_folder;
mod drafted_shop_file;
mod drafted_tables;
mod folder_made;
mod refreshed;

use std::fs;
use std::path::Path;

use crate::input::sheet::is_workbook;
use crate::library::{
    Kind, Meaning, ReadSettings, Survey, is_own_document, listed_elements, listed_tools,
};
use crate::text::{Source, SourceId, visible};
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
    /// What is put into a folder: the export as it is, or the table that its elements are.
    bytes: Vec<u8>,
    source: Source,
    /// The elements that are its rows, and others that repeat.
    elements: Option<(String, Vec<(String, usize)>)>,
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
        if let Some(assets) = assets_folder::Assets::read(file, &settings)? {
            return assets.refresh(folder, &settings);
        }
        let export = Export::read(file, &settings)?;
        return refreshed::refresh(&export, folder, &settings);
    }
    let Some(file) = &arguments.file else {
        return Err(Refusal::new("no file is named", "name the export"));
    };
    let near = arguments.into.as_deref().unwrap_or(file);
    let settings = settings(arguments, near)?;
    if let Some(assets) = assets_folder::Assets::read(file, &settings)? {
        return match &arguments.into {
            Some(folder) => assets.make(folder, (arguments, look)),
            None => Ok(assets.described()),
        };
    }
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
                format!("{} cannot be read: {}", shown(&name), visible(why)),
                hint,
            )
        };
        if path.is_dir() {
            let hint = "name one file: a CSV table, a workbook or an XML document";
            return Err(Refusal::new(format!("{} is a folder", shown(&name)), hint));
        }
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
            return Export::of_document(&source, settings);
        }
        Ok(Export {
            name,
            bytes,
            source,
            elements: None,
        })
    }

    /// Of an XML document the elements that repeat. In a library of the program's own each element
    /// names its property, and nothing is to be guessed.
    fn of_document(document: &Source, settings: &ReadSettings) -> Result<Export, Refusal> {
        let name = document.name().to_owned();
        if is_own_document(document.text()) {
            return Err(Refusal::new(
                format!(
                    "{} is a library, whose elements name their properties",
                    shown(&name)
                ),
                format!("nothing is to be guessed: shankwise lint {}", shown(&name)),
            ));
        }
        let listed = listed_elements(document, settings).map_err(|why| {
            let place = why
                .at
                .map_or_else(String::new, |(line, column)| format!(":{line}:{column}"));
            let (reason, hint) = parted(&why.reason);
            let what = format!(
                "{}{place} cannot be read: {}",
                shown(&name),
                visible(reason)
            );
            Refusal::new(what, hint)
        })?;
        let bytes = listed.text.into_bytes();
        let source = Source::from_bytes(name.clone(), bytes.clone());
        let source = source.map_err(|why| {
            let what = format!("{} cannot be read: {why}", shown(&name));
            Refusal::new(what, "")
        })?;
        Ok(Export {
            name,
            bytes,
            source,
            elements: Some((listed.element, listed.others)),
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
        let mut survey = Survey::of(&self.source, SourceId::default(), settings);
        if let Some((survey, (name, others))) = survey.as_mut().zip(self.elements.clone()) {
            survey.elements = Some(name);
            survey.left = others;
        }
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
