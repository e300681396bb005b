//! `shankwise convert`: a library in another form.

use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use crate::judge::Setup;
use crate::library::{ASSETS, Form, Kind, Loaded, load_written};
use crate::rulebook::SHOP_FILE;
use crate::text::visible;
use crate::write::{Conversion, Trouble, counted, parted};

use super::args::{OutputArgs, OutputForm};
use super::convert_args::{ConvertArgs, ConvertTo};
use super::output::{self, Destination, Files, Folder, complain};
use super::refusal::{Refusal, shown};
use super::unreadable::complain_setup;
use super::{COULD_NOT, NOTHING_FAILS, judged};

/// Writes a library in another form.
pub(super) fn run(arguments: &ConvertArgs) -> u8 {
    let look = output::look_of(arguments.colour.color, arguments.out.as_deref());
    let setup = match arguments.setup.load(&arguments.path) {
        Ok(setup) => setup,
        Err(error) => {
            complain_setup(&error, look);
            return COULD_NOT;
        }
    };
    if arguments.path.is_dir() && arguments.path.join(ASSETS).exists() {
        let what = format!("what {ASSETS} adds to the tables of a folder is not converted");
        let hint = "convert the document by itself, or move it away first";
        Refusal::new(what, hint).tell(look);
        return COULD_NOT;
    }
    let bytes = judged::bytes(&arguments.path, look);
    let Ok(bytes) = bytes else {
        return COULD_NOT;
    };
    let input = judged::input(&arguments.path, &bytes);
    let (Loaded { library, errors }, written) = load_written(input, &setup.read_settings());
    for error in &errors {
        complain(&Trouble::Read(error), look);
    }
    let Some(library) = library.filter(|_| errors.is_empty()) else {
        if !errors.is_empty() {
            let hint = "all of a library is converted, or nothing";
            Refusal::new("nothing is written", hint).tell(look);
        }
        return COULD_NOT;
    };
    let shop = of_shop(&setup, arguments.to);
    let mut conversion = Conversion::of(&library, &written, arguments.to.form(), shop);
    let done = match (arguments.to, &arguments.out) {
        (ConvertTo::Folder, None) => Err(Refusal::new(
            "a folder is not printed to a terminal",
            "name one with --out",
        )),
        (ConvertTo::Folder, Some(out)) => folder(arguments, out, &mut conversion),
        (ConvertTo::Csv | ConvertTo::Xml, _) => Ok(file(arguments, &mut conversion)),
    };
    match done {
        Ok(true) => {
            tell(&conversion, arguments);
            NOTHING_FAILS
        }
        Ok(false) => COULD_NOT,
        Err(refusal) => {
            refusal.tell(look);
            COULD_NOT
        }
    }
}

/// Writes one file; whether that was done, which is told if not.
fn file(arguments: &ConvertArgs, conversion: &mut Conversion<'_>) -> bool {
    let output = OutputArgs {
        form: OutputForm::Plain,
        out: arguments.out.clone(),
        quiet: false,
        colour: arguments.colour.clone(),
    };
    let paths = std::slice::from_ref(&arguments.path);
    let Some(to) = Destination::of(&output, paths, &arguments.setup) else {
        return false;
    };
    let mut sink = to.open();
    if let Err(why) = conversion.write(&mut sink) {
        sink.fail(&why);
    }
    sink.finish()
}

/// Writes the tables of a folder, all of them or none; other files in it are left alone.
fn folder(
    arguments: &ConvertArgs,
    out: &Path,
    conversion: &mut Conversion<'_>,
) -> Result<bool, Refusal> {
    let cannot = |why: &str| {
        let (why, hint) = parted(why);
        let out = out.display().to_string();
        Refusal::new(format!("cannot write into {}: {why}", shown(&out)), hint)
    };
    let own: Vec<Kind> = conversion.tables().collect();
    let paths = std::slice::from_ref(&arguments.path);
    let tables: Vec<PathBuf> = own.iter().map(|kind| out.join(kind.table())).collect();
    if let Some(clash) = output::clash(&tables, paths, &arguments.setup) {
        return Err(cannot(&clash));
    }
    let names = Kind::ALL.into_iter().flat_map(Kind::tables);
    let mut others = names.filter(|name| own.iter().all(|kind| kind.table() != *name));
    let stale = others.find(|name| out.join(name).symlink_metadata().is_ok());
    if let Some(table) = stale {
        return Err(cannot(&format!(
            "{table} is there, which this library does not have, and would be read as part of it; delete it or name another folder"
        )));
    }
    let folder = Folder::take(out).map_err(|why| cannot(&why.to_string()))?;
    let written = tables_of(&folder, &own, conversion);
    written.map_err(|why| cannot(&why.to_string()))?;
    Ok(true)
}

/// All tables are written before the first takes its place, that of the assemblies last: who finds
/// it finds all.
fn tables_of(folder: &Folder, own: &[Kind], conversion: &mut Conversion<'_>) -> io::Result<()> {
    let mut files: Vec<Files> = Vec::new();
    for kind in own.iter().rev() {
        let mut file = folder.file(kind.table())?;
        conversion.table(*kind, &mut file)?;
        files.push(file);
    }
    files.into_iter().try_for_each(Files::commit)
}

/// Says on standard error what was written, and what is not the same there.
fn tell(conversion: &Conversion<'_>, arguments: &ConvertArgs) {
    let counts = conversion.counts().into_iter();
    let counts: Vec<String> = counts.map(|(kind, count)| counted(kind, count)).collect();
    let mut text = match &arguments.out {
        Some(out) => format!(
            "{} written to {}\n",
            counts.join(", "),
            visible(&out.display().to_string())
        ),
        None => String::new(),
    };
    let told = conversion.told();
    if !told.is_empty() {
        text.push_str("Not the same as in the source:\n");
        text.extend(told.iter().map(|line| format!("  {line}\n")));
    }
    // Where standard error is closed there is nobody to tell.
    let _ = io::stderr().write_all(text.as_bytes());
}

/// What there is to say of the shop files that had a part in reading.
fn of_shop(setup: &Setup, to: ConvertTo) -> Vec<String> {
    let mut lines = Vec::new();
    if setup.files.is_empty() {
        return lines;
    }
    let settings = setup.read_settings();
    if !settings.columns.is_empty() {
        let line = "headers and words of [columns] are written as the properties and values that they mean";
        lines.push(line.to_owned());
    }
    if !settings.own.defaults.constants.is_empty() {
        let line = "what is the same in all rows is stated in [columns] and nowhere else: it is not in the output";
        lines.push(line.to_owned());
    }
    if settings.length.name == "in" && to != ConvertTo::Xml {
        lines.push(format!(
            "each header names its unit, so that the output needs no [units]; only where a {SHOP_FILE} beside it says so are findings shown in inches"
        ));
    }
    lines.push(format!(
        "limits, rules, defaults and what is accepted remain in the {SHOP_FILE} of the source: copy it beside the output"
    ));
    lines
}

impl ConvertTo {
    const fn form(self) -> Form {
        match self {
            ConvertTo::Csv => Form::Flat,
            ConvertTo::Folder => Form::Folder,
            ConvertTo::Xml => Form::Xml,
        }
    }
}
