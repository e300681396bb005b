//! A document of assets that lies elsewhere than the tables that say what it lacks.

use std::path::Path;

use super::super::files::{self, File};
use super::super::{Form, Kind, ReadSettings};
use super::{Input, Loader};

impl Loader {
    /// Reads a document of assets and the tables of a folder, which are not linked yet. A document of
    /// assets that lies in that folder is another one.
    pub(super) fn with_tables(input: Input<'_>, settings: &ReadSettings, folder: &Path) -> Loader {
        let (path, document) = match input {
            Input::Path(path) => (path.display().to_string(), files::one(Kind::Assembly, path)),
            Input::Bytes(name, bytes) => {
                let file = File {
                    kind: Kind::Assembly,
                    name: name.to_owned(),
                    bytes: bytes.to_vec(),
                };
                (name.to_owned(), Ok(file))
            }
        };
        let mut loading = Loader::new(path, settings);
        loading.library.form = Form::Folder;
        loading.is_of_assets = true;
        match document.and_then(files::of_assets) {
            Err(error) => loading.refuse(Kind::Assembly, error),
            Ok(file) => {
                let mut files = files::beside(folder);
                files.push((Kind::Assembly, Ok(file)));
                loading.read(files);
                loading.stray_tables(folder);
            }
        }
        loading.library.form = Form::Xml;
        let mut lists = loading.library.records.iter();
        loading.doubts.names_only = lists.all(Vec::is_empty);
        loading
    }
}
