//! A library of a document of assets: it remains as it is, and tables beside it say what it lacks.

use std::fs;
use std::io;
use std::path::Path;

use crate::library::{ASSETS, Field, Input, Kind, ReadSettings, is_of_assets, load};
use crate::rulebook::SHOP_FILE;
use crate::text::{Source, visible};
use crate::write::{AssetsStarted, Look, assets_described, assets_refreshed, assets_started};

use super::super::output::{exchange, terminal_width};
use super::super::refusal::{Refusal, shown};
use super::super::start_args::StartArgs;
use super::folder_made::{Making, grip_judged, is_free};
use super::refreshed::OLD;

/// The tables that are drafted beside a document, and their headers.
const TABLES: [(Kind, &str); 2] = [
    (
        Kind::Collet,
        "id,collet_size,bore_diameter,bore_length,bore_recess",
    ),
    (
        Kind::Holder,
        "id,clamping_kind,collet_size,gauge_length,bore_diameter,clamping_length_min,insertion_depth_max",
    ),
];
/// What an assembly says that no asset does.
const LACKING: &str = "collet,nut,holder,nut_torque";

/// A document of assets.
pub(super) struct Assets {
    name: String,
    bytes: Vec<u8>,
    /// The number and the id of each tool.
    tools: Vec<(String, String)>,
}

impl Assets {
    /// Reads a file; none if it is no such document.
    pub(super) fn read(path: &Path, settings: &ReadSettings) -> Result<Option<Assets>, Refusal> {
        let name = path.display().to_string();
        // What cannot be read is said where it is read as a table.
        let Ok(bytes) = fs::read(path) else {
            return Ok(None);
        };
        let source = Source::from_bytes(name.clone(), bytes.clone());
        if !source.is_ok_and(|source| is_of_assets(source.text())) {
            return Ok(None);
        }
        let loaded = load(Input::Bytes(&name, &bytes), settings);
        let Some(library) = loaded.library else {
            let why = loaded.errors.first().map_or("", |error| &error.reason);
            let place = loaded.errors.first().and_then(|error| error.position);
            let place = place.map_or_else(String::new, |at| format!(":{}:{}", at.line, at.column));
            let what = format!("{}{place} cannot be read: {}", shown(&name), visible(why));
            return Err(Refusal::new(what, ""));
        };
        let tools = library.assemblies.iter().map(|assembly| {
            let said = |field| assembly.record.text(field).unwrap_or_default().to_owned();
            (said(Field::ToolNumber), said(Field::Assembly))
        });
        Ok(Some(Assets {
            tools: tools.collect(),
            name,
            bytes,
        }))
    }

    /// What may be done with it.
    pub(super) fn described(&self) -> String {
        assets_described(&self.name, self.tools.len(), terminal_width())
    }

    /// Makes a folder of it.
    pub(super) fn make(
        &self,
        folder: &Path,
        (arguments, look): (&StartArgs, Look),
    ) -> Result<String, Refusal> {
        is_free(folder)?;
        let fails = |why: io::Error| {
            let name = shown(&folder.display().to_string());
            Refusal::new(format!("{name} cannot be written: {why}"), "")
        };
        let making = Making::begin(folder).map_err(fails)?;
        let mut files = vec![format!("{ASSETS} (a copy of the document)")];
        making.put(ASSETS, &self.bytes).map_err(fails)?;
        let rows = self.rows();
        let tables = TABLES.map(|(kind, header)| (kind.table(), format!("{header}\n")));
        let shop =
            "# How this shop works; it is yours now. `shankwise help rules` lists all keys.\n";
        let all = [(Kind::Assembly.table(), rows), (SHOP_FILE, shop.to_owned())];
        for (file, text) in all.into_iter().chain(tables) {
            making.put(file, text.as_bytes()).map_err(fails)?;
            files.push(file.to_owned());
        }
        making.commit(folder).map_err(fails)?;
        let started = AssetsStarted {
            folder: folder.display().to_string(),
            files,
            judged: grip_judged(folder, (arguments, look)),
        };
        Ok(assets_started(&started, terminal_width()))
    }

    /// A row for each tool, with what no asset says left blank.
    fn rows(&self) -> String {
        let mut writer = csv::Writer::from_writer(Vec::new());
        let lacking = LACKING.split(',');
        // Into memory nothing fails, and all rows are of one length.
        let _ = writer.write_record(["tool_number", "assembly"].into_iter().chain(lacking));
        for (number, id) in &self.tools {
            let blank = LACKING.split(',').map(|_| "");
            let _ = writer.write_record([number.as_str(), id].into_iter().chain(blank));
        }
        let bytes = writer.into_inner().unwrap_or_default();
        String::from_utf8_lossy(&bytes).into_owned()
    }

    /// Puts it in the place of the document in a folder.
    pub(super) fn refresh(
        &self,
        folder: &Path,
        settings: &ReadSettings,
    ) -> Result<String, Refusal> {
        let path = folder.join(ASSETS);
        let Some(before) = Assets::read(&path, settings).ok().flatten() else {
            let name = shown(&folder.display().to_string());
            return Err(Refusal::new(
                format!("{name} has no {ASSETS} to replace"),
                "name a folder that `shankwise start FILE --into` has made of such a document",
            ));
        };
        let fails = |why: io::Error| {
            let path = shown(&path.display().to_string());
            Refusal::new(format!("{path} cannot be written: {why}"), "")
        };
        if before.bytes != self.bytes {
            let kept = path.with_file_name(format!("{ASSETS}.{OLD}"));
            let older = fs::read(&kept).unwrap_or_default();
            exchange(&kept, &older, &before.bytes).map_err(fails)?;
        }
        exchange(&path, &before.bytes, &self.bytes).map_err(fails)?;
        let folder = folder.display().to_string();
        let tools = (before.tools.len(), self.tools.len());
        Ok(assets_refreshed(&folder, tools, terminal_width()))
    }
}
