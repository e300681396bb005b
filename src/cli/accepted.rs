//! `shankwise accepted`: the register of what shop files accept, and what became of it.

use std::collections::BTreeSet;
use std::path::PathBuf;

use crate::audit::{Candidate, tree};
use crate::judge::{Options, Selection};
use crate::sheet::register;
use crate::write::{Look, OfLibrary, register_json, register_text};

use super::accept_args::AcceptedArgs;
use super::args::ListForm;
use super::audit::Columns;
use super::day::of_run;
use super::judged::{input_name, read};
use super::output::{look_of, write};
use super::progress::Shows;
use super::refusal::{Refusal, shown};
use super::{COULD_NOT, here};

/// Lists the entries of all libraries.
pub(super) fn run(arguments: &AcceptedArgs) -> u8 {
    let look = look_of(arguments.colour.color, None);
    let paths = match here::named(&arguments.paths) {
        Ok(paths) => paths,
        Err(why) => {
            why.tell(look);
            return COULD_NOT;
        }
    };
    let options = Options::on(of_run(arguments.day.as_of));
    let (libraries, is_whole) = all(&paths, arguments, &options, look);
    let text = match arguments.form {
        ListForm::Text => register_text(&libraries),
        ListForm::Json => register_json(&libraries, &options.today.to_string()),
    };
    let status = write(&text, look);
    if is_whole { status } else { COULD_NOT }
}

/// The entries of each library below the paths, and whether all of them could be read. An entry
/// about a library that there is not is seen from every library below its file, and listed once.
fn all(
    paths: &[PathBuf],
    arguments: &AcceptedArgs,
    options: &Options,
    look: Look,
) -> (Vec<OfLibrary>, bool) {
    let setup = arguments.setup.below(paths);
    let columns = Columns::new(&setup);
    let tree = tree(paths, &[], &|folder| columns.of(folder));
    for one in &tree.unreadable {
        Refusal::new(format!("{} {}", shown(&one.file), one.reason), "").tell(look);
    }
    if tree.libraries.is_empty() && tree.unreadable.is_empty() {
        let hint = "name a library, or a folder above libraries";
        Refusal::new("there is no library here", hint).tell(look);
        return (Vec::new(), false);
    }
    let mut is_whole = tree.unreadable.is_empty();
    let mut seen = BTreeSet::new();
    let mut libraries = Vec::new();
    for Candidate { path, .. } in &tree.libraries {
        let selection = Selection::default();
        let Ok(library) = read(path, &setup, &selection, look, Shows::none()) else {
            is_whole = false;
            continue;
        };
        is_whole &= library.unreadable.is_empty();
        let mut entries = register(&library.library, library.setup(), options);
        entries
            .retain(|entry| !entry.is_of_none() || seen.insert((entry.file.clone(), entry.line)));
        libraries.push(OfLibrary {
            library: input_name(path),
            entries,
        });
    }
    (libraries, is_whole)
}
