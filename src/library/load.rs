//! Loading a library: which files, in which form, into which records.
//!
//! Reading never stops at the first fault. A file that cannot be read at all is reported, and
//! the rest is still judged.

mod of_documents;
mod tables_beside;

use std::path::Path;

use crate::input::{Column, Fault, Faults, assets, fault_kind, sheet};
use crate::text::{Place, Source, SourceId, Sources, Unread, quoted};

use super::as_written::Written;
use super::beside_rows;
use super::columns::Host;
use super::files::{self, File};
use super::framing::{self, Lines};
use super::gaps::Gaps;
use super::hints;
use super::link::{self, Doubts};
use super::stray::{self, Stray};
use super::tables::Reading;
use super::workbook::{self, About, Search};
use super::{
    Form, Kind, Library, ReadError, ReadSettings, Record, columns, shankless, sheet_faults,
};

/// Where a library comes from.
#[derive(Clone, Copy, Debug)]
pub enum Input<'a> {
    /// A file or folder.
    Path(&'a Path),
    /// Bytes already read, from standard input, and the name they are shown by.
    Bytes(&'a str, &'a [u8]),
}

/// What came of loading.
#[derive(Debug)]
pub struct Loaded {
    /// The library, if there is enough to judge.
    pub library: Option<Library>,
    /// Inputs that could not be read.
    pub errors: Vec<ReadError>,
}

/// Loads a library.
#[must_use]
pub fn load(input: Input<'_>, settings: &ReadSettings) -> Loaded {
    load_for(input, settings, Beside::default())
}

/// What is read beside a library that does not lie with it.
#[derive(Clone, Copy, Debug, Default)]
pub struct Beside<'a> {
    /// What a job asks of its tools: a table of operations.
    pub job: Option<&'a Path>,
    /// A folder of tables, of a document of assets.
    pub tables: Option<&'a Path>,
}

/// Loads a library, and all it states as it was written.
#[must_use]
pub fn load_written(input: Input<'_>, settings: &ReadSettings) -> (Loaded, Written) {
    let mut loading = begun(input, settings, Some(Written::default()));
    let mut written = loading.written.take().unwrap_or_default();
    written.settle();
    (loading.finish(), written)
}

/// Loads a library, and what is read beside it.
#[must_use]
pub fn load_for(input: Input<'_>, settings: &ReadSettings, beside: Beside<'_>) -> Loaded {
    let mut loading = match beside.tables {
        Some(tables) => Loader::with_tables(input, settings, tables),
        None => begun(input, settings, None),
    };
    if let Some(job) = beside.job {
        loading.job(files::one(Kind::Operation, job));
    }
    loading.finish()
}

/// Reads all tables of a library, which are not linked yet.
fn begun(input: Input<'_>, settings: &ReadSettings, written: Option<Written>) -> Loader {
    let (path, files) = match input {
        Input::Path(path) if path.is_dir() => (path.display().to_string(), files::folder(path)),
        Input::Path(path) => {
            let file = files::one(Kind::Assembly, path);
            (path.display().to_string(), vec![(Kind::Assembly, file)])
        }
        Input::Bytes(name, bytes) => {
            let file = File {
                kind: Kind::Assembly,
                name: name.to_owned(),
                bytes: bytes.to_vec(),
            };
            (name.to_owned(), vec![(Kind::Assembly, Ok(file))])
        }
    };
    let mut loading = Loader::new(path, settings);
    loading.written = written;
    if let Input::Path(path) = input
        && path.is_dir()
    {
        loading.library.form = Form::Folder;
        loading.read(files);
        loading.stray_tables(path);
    } else {
        if let Input::Path(path) = input {
            loading.named = table_named(path);
        }
        loading.read(files);
        let is_one_of_many = match input {
            Input::Path(path) => files::has_neighbours(path),
            Input::Bytes(..) => true,
        };
        if is_one_of_many {
            loading.library.headers = None;
        }
    }
    // Where no other table is, an id may be only a name; a document is one whole. The operations
    // of a job are no part of the library.
    let library = &loading.library;
    let has_parts = library.records.iter().any(|list| !list.is_empty());
    let is_whole = library.form == Form::Xml && !loading.is_of_assets;
    loading.doubts.names_only = !is_whole && !has_parts;
    loading
}

/// The table that a file is by its name, if it is one of parts, operations or stock.
fn table_named(path: &Path) -> Option<Kind> {
    let name = path.file_name()?.to_string_lossy().to_lowercase();
    let mut kinds = Kind::ALL.into_iter();
    kinds.find(|kind| *kind != Kind::Assembly && kind.table() == name)
}

/// A library in the making.
struct Loader {
    library: Library,
    /// The table that a lone file is by its name.
    named: Option<Kind>,
    settings: ReadSettings,
    /// Rows of assemblies, until they are linked.
    rows: Vec<Record>,
    doubts: Doubts,
    errors: Vec<ReadError>,
    /// All that is stated as it was written, where somebody wants it.
    written: Option<Written>,
    /// What is to be said of sheets, once their columns are known.
    sheets: Vec<(SourceId, About)>,
    /// Assets that lie beside the tables.
    assets: Vec<Record>,
    /// Whether it is a document of assets, which describes no collet.
    is_of_assets: bool,
}

impl Loader {
    fn new(path: String, settings: &ReadSettings) -> Loader {
        let stem = Path::new(&path).file_stem();
        let stem = stem.map_or_else(|| path.clone(), |stem| stem.to_string_lossy().into_owned());
        Loader {
            library: Library {
                name: settings.name.clone().unwrap_or(stem),
                path,
                form: Form::Flat,
                units: settings.display(),
                sources: Sources::default(),
                assemblies: Vec::new(),
                records: Default::default(),
                headers: Some(Vec::new()),
                own: settings.own.clone(),
                faults: Faults::default(),
                gaps: Gaps::default(),
                unread: Vec::new(),
            },
            named: None,
            settings: settings.clone(),
            rows: Vec::new(),
            doubts: Doubts::default(),
            errors: Vec::new(),
            written: None,
            sheets: Vec::new(),
            assets: Vec::new(),
            is_of_assets: false,
        }
    }

    fn read(&mut self, files: Vec<(Kind, Result<File, ReadError>)>) {
        let mut sources = Vec::new();
        for (kind, file) in files {
            let source = self.source(file);
            match source {
                Ok(source) => sources.extend(source),
                Err(error) => self.refuse(kind, error),
            }
        }
        let in_folder = self.library.form == Form::Folder;
        for (kind, id) in sources {
            let source = self.library.sources.get(id);
            let is_xml = source.sheet().is_none() && source.text().trim_start().starts_with('<');
            let read = match (is_xml, in_folder) {
                (true, true) if assets::is_one(source.text()) => self.assets(id),
                (true, true) => Err(ReadError::of(
                    source.name(),
                    "is an XML document under a table's name; an XML library is one document, named by itself",
                )),
                (true, false) => self.document(id),
                (false, _) => self.table(kind, id),
            };
            if let Err(error) = read {
                self.refuse(kind, error);
            }
        }
    }

    /// Takes a file among the sources, or what is read of it.
    fn source(
        &mut self,
        file: Result<File, ReadError>,
    ) -> Result<Vec<(Kind, SourceId)>, ReadError> {
        let file = file?;
        if sheet::is_workbook(&file.bytes) {
            return self.workbook(&file);
        }
        let source = Source::from_bytes(file.name.clone(), file.bytes);
        let source = source.map_err(|why| ReadError::of(file.name, why.to_string()))?;
        Ok(vec![(file.kind, self.library.sources.add(source))])
    }

    /// Takes the sheets of a workbook among the sources, and says which are left.
    fn workbook(&mut self, file: &File) -> Result<Vec<(Kind, SourceId)>, ReadError> {
        let alone = self.library.form != Form::Folder && file.kind == Kind::Assembly;
        let search = Search {
            only: (!alone).then_some(file.kind),
            named: self.settings.sheet.as_deref(),
            own: &self.settings.columns,
        };
        let workbook = workbook::open(&file.name, &file.bytes, search)
            .map_err(|reason| ReadError::of(file.name.clone(), reason))?;
        if alone {
            self.library.form = workbook.form;
        }
        let mut sources = Vec::new();
        for taken in workbook.taken {
            let id = self.library.sources.add(taken.source);
            self.sheets.push((id, taken.about));
            sources.push((taken.kind, id));
        }
        if let Some((_, first)) = sources.first() {
            let mut faults = Faults::of(&self.library.sources);
            faults.extend(sheet_faults::left(&workbook.left, *first));
            self.library.faults.append(&faults, 0);
        }
        Ok(sources)
    }

    /// Reads the operations of a job.
    fn job(&mut self, file: Result<File, ReadError>) {
        let read = self.source(file).and_then(|read| {
            let mut each = read.into_iter();
            each.try_for_each(|(kind, id)| self.table(kind, id))
        });
        if let Err(error) = read {
            self.refuse(Kind::Operation, error);
        }
    }

    fn refuse(&mut self, kind: Kind, error: ReadError) {
        self.doubts.unread.push(kind);
        let reason = error.reason.clone();
        let unread = Unread::new(error.file.clone(), reason);
        self.library.unread.push(unread);
        self.errors.push(error);
    }

    fn stray_tables(&mut self, path: &Path) {
        for Stray {
            name,
            near,
            instead,
        } in stray::stray(path)
        {
            let shown = path.join(&name).display().to_string();
            let near_name = near.table();
            if instead {
                let reason = format!("is not a table of a library; did you mean `{near_name}`?");
                let unread = Unread::new(shown.clone(), reason);
                self.library.unread.push(unread);
            }
            let Ok(source) = Source::from_bytes(shown, Vec::new()) else {
                continue;
            };
            let place = Place::file(self.library.sources.add(source));
            let mut faults = Faults::of(&self.library.sources);
            faults.push(
                Fault::new(fault_kind::UNKNOWN_TABLE, place, "")
                    .quoting("table", &name)
                    .with("near", near_name),
            );
            self.library.faults.append(&faults, 0);
        }
    }

    /// Keeps the records of one table.
    fn keep(&mut self, kind: Kind, records: Vec<Record>) {
        if kind == Kind::Assembly && self.rows.is_empty() {
            self.rows = records;
        } else if kind == Kind::Assembly {
            self.rows.extend(records);
        } else if let Some(own) = self.library.records.get_mut(kind as usize) {
            own.extend(records);
        }
    }

    /// Reads one CSV table.
    fn table(&mut self, kind: Kind, id: SourceId) -> Result<(), ReadError> {
        let source = self.library.sources.get(id);
        let error = |reason: &str| match source.sheet() {
            Some(sheet) => {
                let sheet = quoted(sheet.name());
                ReadError::of(source.name(), format!("sheet `{sheet}`: {reason}"))
            }
            None => ReadError::of(source.name(), reason),
        };
        let mut faults = Faults::of(&self.library.sources);
        let Some(mut table) = framing::open((source, id), kind, &self.settings) else {
            return Err(error(
                "is empty; expected a header line and a line for each record",
            ));
        };
        let alone = self.library.form.is_flat() && kind == Kind::Assembly;
        if let Some(kind) = self.part_table(&table.columns).filter(|_| alone) {
            return Err(error(&format!(
                "is a table of {}, not a library: it does not say how tools are set up. Name its folder, with assemblies.csv in it, or a file with a row for each tool",
                kind.section()
            )));
        }
        let host = Host::table(kind);
        let mut around = Faults::of(&self.library.sources);
        around.extend(framing::around(&table));
        let headers = (table.columns.as_slice(), table.units.as_slice());
        // Nobody asks for them but a shop file that has headers of its own.
        let has_own = !self.settings.columns.is_empty();
        if let Some(all) = self.library.headers.as_mut().filter(|_| has_own) {
            let keys = columns::keys(&table.columns).into_iter();
            all.extend(keys.map(std::borrow::Cow::into_owned));
        }
        let targets = columns::resolve(headers, host, &self.settings.columns, &mut faults);
        if targets.iter().all(|target| target.fields.is_empty()) {
            let headers = table.columns.iter().map(|column| column.name.as_ref());
            let mut error = error(&hints::no_column_known(headers, host));
            let header = table.columns.first().map(|column| column.place);
            error.position = header
                .filter(|_| source.sheet().is_none())
                .map(|place| self.library.sources.position(place));
            return Err(error);
        }
        if let Some((_, about)) = self.sheets.iter().find(|(own, _)| *own == id) {
            let header = table.columns.first().map(|column| column.place);
            faults.extend(sheet_faults::of(source, about, &targets, header));
        }
        let delimiter = table.shape().delimiter;
        let cells = ((&self.library.sources, id), Some(delimiter));
        let fields = targets.iter().map(|target| target.fields.as_slice());
        let lines = Lines::new(headers, (fields, kind), self.settings.framing);
        let reading = Reading::new(kind, &targets, &self.settings, table.manner, cells)
            .of_lines(lines)
            .keeping(self.written.is_some());
        let mut records = reading.batches(&mut table);
        if let Some(all) = &mut self.written {
            let rows = std::mem::take(&mut records.written);
            all.add((kind, None), &table.columns, &reading, &targets, rows);
        }
        if records.list.is_empty() && kind == Kind::Assembly {
            return Err(error(
                "has a header and no record; expected a line for each assembly",
            ));
        }
        self.doubts.ragged |= kind == Kind::Assembly && records.ragged;
        let header = table.columns.first().map(|column| column.place);
        if let Some((span, many)) = framing::blank_rows(source, header, records.blank) {
            let place = Place { source: id, span };
            let is_sheet = source.sheet().is_some();
            around.push(framing::blank_rows_told(place, many, is_sheet));
        }
        let library = &mut self.library;
        library.faults.append(&around, 0);
        library.faults.append(&records.rows, 0);
        library.faults.take(faults);
        // Rows of assemblies are numbered through all tables of them.
        library.faults.append(&records.cells, self.rows.len());
        self.keep(kind, records.list);
        Ok(())
    }

    /// The table of parts, operations or stock that a lone file is, by its name or its columns.
    fn part_table(&self, columns: &[Column<'_>]) -> Option<Kind> {
        if stray::sets_tools(columns) {
            return None;
        }
        let fitting = stray::kinds_of(columns);
        self.named.or(fitting.first().copied())
    }

    fn finish(mut self) -> Loaded {
        let library = &mut self.library;
        library.faults.read_from(&library.sources);
        // What was not read may have any header, and a document has elements.
        if !self.errors.is_empty() || !library.unread.is_empty() || library.form == Form::Xml {
            library.headers = None;
        }
        let joined = beside_rows::join(&mut self.rows, self.assets);
        let linked = link::link(self.rows, &library.records, &library.sources, &self.doubts);
        library.assemblies = linked.assemblies;
        for (row, asset) in joined {
            if let Some(assembly) = library.assemblies.get_mut(row) {
                assembly.asset = Some(Box::new(asset));
            }
        }
        let (twice, gaps) = rayon::join(
            || link::taken_twice(&library.assemblies, &library.sources),
            || Gaps::of(library),
        );
        for found in [&linked.first, &twice, &linked.last] {
            library.faults.append(found, 0);
        }
        shankless::need_no_shank(library);
        library.faults.shrink();
        library.gaps = gaps;
        Loaded {
            library: (!library.assemblies.is_empty()).then_some(self.library),
            errors: self.errors,
        }
    }
}
