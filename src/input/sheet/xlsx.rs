//! Workbooks in Office Open XML, `.xlsx`: ECMA-376 and ISO/IEC 29500, part 1.

use std::collections::HashMap;

use super::archive::Archive;
use super::grid::Grid;
use super::rich_text::rich;
use super::value::{self, Shown};
use super::xml::{Node, Xml, attribute, flag, number};
use super::{Sheet, Wanted, worksheet};

/// Longest text of the strings that cells share, bytes.
const STRINGS: usize = 256 << 20;

/// What stands in the workbook for all its sheets.
#[derive(Default)]
pub(super) struct Book {
    /// Name of each sheet, its part, and whether it is hidden.
    sheets: Vec<(String, String, bool)>,
    pub strings: Vec<String>,
    /// How the cells of each style show numbers.
    pub styles: Vec<Shown>,
    pub since_1904: bool,
}

/// Reads the sheets of a workbook.
pub(super) fn read(archive: &mut Archive<'_>, wanted: Wanted) -> Result<Vec<Sheet>, String> {
    let book = book(archive)?;
    let mut sheets = Vec::new();
    for (name, part, hidden) in &book.sheets {
        let mut grid = Grid::default();
        let read = archive.part(part, |xml| worksheet::read(xml, &book, wanted, &mut grid))?;
        if read.is_some() {
            sheets.push(Sheet {
                name: name.clone(),
                hidden: *hidden,
                grid,
            });
        }
    }
    Ok(sheets)
}

fn book(archive: &mut Archive<'_>) -> Result<Book, String> {
    let main = relations(archive, "")?
        .into_iter()
        .find(|relation| relation.kind == "officeDocument")
        .map_or_else(|| "xl/workbook.xml".to_owned(), |relation| relation.target);
    let related = relations(archive, &main)?;
    let target = |kind: &str| {
        let found = related.iter().find(|relation| relation.kind == kind);
        found.map(|relation| relation.target.as_str())
    };
    let mut book = Book::default();
    let mut named = Vec::new();
    archive
        .part(&main, |xml| workbook(xml, &mut book, &mut named))?
        .ok_or("is an archive, and neither a workbook nor a document in OpenDocument; save the table as .xlsx, .ods or CSV")?;
    for (name, id, hidden) in named {
        let own = related.iter().find(|relation| relation.id == id);
        // A chart may be a sheet of its own.
        let own = own.filter(|relation| relation.kind == "worksheet");
        book.sheets
            .extend(own.map(|relation| (name, relation.target.clone(), hidden)));
    }
    if let Some(part) = target("styles") {
        book.styles = archive.part(part, styles)?.unwrap_or_default();
    }
    if let Some(part) = target("sharedStrings") {
        book.strings = archive.part(part, strings)?.unwrap_or_default();
    }
    Ok(book)
}

/// What a part refers to.
struct Relation {
    id: String,
    /// The last word of its type.
    kind: String,
    /// The name of the other part.
    target: String,
}

/// What a part refers to; `""` is the workbook as a whole.
fn relations(archive: &mut Archive<'_>, of: &str) -> Result<Vec<Relation>, String> {
    let (folder, file) = of.rsplit_once('/').unwrap_or(("", of));
    let own = absolute(folder, &format!("_rels/{file}.rels"));
    let mut all = Vec::new();
    let read = |xml: &mut Xml<'_>| {
        loop {
            match xml.next()? {
                Node::Open(tag) if tag.local_name().as_ref() == "Relationship" => {
                    let kind = attribute(&tag, "Type").unwrap_or_default();
                    all.push(Relation {
                        id: attribute(&tag, "Id").unwrap_or_default(),
                        kind: kind.rsplit('/').next().unwrap_or_default().to_owned(),
                        target: absolute(folder, &attribute(&tag, "Target").unwrap_or_default()),
                    });
                }
                Node::End => return Ok(()),
                _ => {}
            }
        }
    };
    archive.part(&own, read)?;
    Ok(all)
}

/// The name of a part, from one that counts from a folder.
fn absolute(folder: &str, target: &str) -> String {
    let (mut parts, target): (Vec<&str>, _) = match target.strip_prefix('/') {
        Some(target) => (Vec::new(), target),
        None => (
            folder.split('/').filter(|one| !one.is_empty()).collect(),
            target,
        ),
    };
    for part in target.split('/') {
        match part {
            ".." => drop(parts.pop()),
            "" | "." => {}
            part => parts.push(part),
        }
    }
    parts.join("/")
}

/// Names of sheets, their relation, and whether they are hidden.
type Named = Vec<(String, String, bool)>;

fn workbook(xml: &mut Xml<'_>, book: &mut Book, named: &mut Named) -> Result<(), String> {
    loop {
        let tag = match xml.next()? {
            Node::Open(tag) => tag,
            Node::End => return Ok(()),
            _ => continue,
        };
        match tag.local_name().as_ref() {
            "workbookPr" => book.since_1904 = flag(&tag, "date1904"),
            "sheet" => {
                let state = attribute(&tag, "state").unwrap_or_default();
                named.push((
                    attribute(&tag, "name").unwrap_or_default(),
                    attribute(&tag, "id").unwrap_or_default(),
                    state.ends_with("idden"),
                ));
            }
            _ => {}
        }
    }
}

/// How the cells of each style show numbers.
fn styles(xml: &mut Xml<'_>) -> Result<Vec<Shown>, String> {
    let mut own: HashMap<u32, Shown> = HashMap::new();
    let mut of_cells = Vec::new();
    let mut within = false;
    loop {
        match xml.next()? {
            Node::Open(tag) => match tag.local_name().as_ref() {
                "numFmt" => {
                    if let (Some(id), Some(code)) =
                        (number(&tag, "numFmtId"), attribute(&tag, "formatCode"))
                    {
                        own.insert(id, value::of_format(&code));
                    }
                }
                "cellXfs" => within = true,
                "xf" if within => {
                    let id = number(&tag, "numFmtId").unwrap_or_default();
                    let known = own.get(&id).copied();
                    of_cells.push(known.unwrap_or_else(|| value::of_number(id)));
                }
                _ => {}
            },
            Node::Close(tag) if tag.local_name().as_ref() == "cellXfs" => within = false,
            Node::End => return Ok(of_cells),
            _ => {}
        }
    }
}

/// The texts that cells share.
fn strings(xml: &mut Xml<'_>) -> Result<Vec<String>, String> {
    let mut all = Vec::new();
    let mut size = 0;
    loop {
        match xml.next()? {
            Node::Open(tag) if tag.local_name().as_ref() == "si" => {
                let text = rich(xml)?;
                size += text.len() + size_of::<String>();
                if size > STRINGS {
                    return Err("it has more text than any tool library".to_owned());
                }
                all.push(text);
            }
            Node::End => return Ok(all),
            _ => {}
        }
    }
}
