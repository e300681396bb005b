//! Assets as they fill: their attributes, what stands in them, their rows.

use std::borrow::Cow;

use super::departures::{Departures, missing};
use super::leaf::{Leaf, Said};
use super::measurements::{BOTH, BY_SYMBOL, Level, MEASUREMENTS, unit};
use super::{Attribute, Document};
use crate::input::xml::{Group, Section};
use crate::input::{Cell, Column, Faults, Manner, Row, Table};
use crate::text::{Place, SourceId, Span};
use crate::units::Decimal;

/// A tool.
pub(super) const TOOL: &str = "CuttingTool";
/// A kind of tool, as it is meant to be.
pub(super) const ARCHETYPE: &str = "CuttingToolArchetype";

/// Elements that say one thing each, and the column of it.
const SAYS: [(&str, &str); 6] = [
    ("ProgramToolNumber", "tool_number"),
    ("ProgramToolGroup", "program_tool_group"),
    ("Location", "pot"),
    ("Description", "description"),
    ("ConnectionCodeMachineSide", "machine_interface"),
    ("CuttingToolArchetypeReference", REFERENCE),
];
const REFERENCE: &str = "cutter";
/// Where the programmed speed is limited.
const SPEED: &str = "ProcessSpindleSpeed";
/// Columns of a tool that a cutter has too.
const OF_CUTTERS: [&str; 18] = [
    "id",
    "description",
    "APMX",
    "DC",
    "OAL",
    "DMM",
    "LS",
    "shank_length_nominal",
    "RE",
    "SIG",
    "cutter_speed_max",
    "LCF",
    "LSCN",
    "LSCX",
    "LU",
    "LH",
    "NOF",
    "FHA",
];

/// One value of an asset.
#[derive(Clone)]
struct Value<'a> {
    column: &'static str,
    said: Said<'a>,
    unit: Option<(Cow<'a, str>, Place)>,
}

/// The columns of an overall length.
const OVERALL: [&str; 2] = ["OAL", "overall_length_actual"];

impl Value<'_> {
    /// A length, mm; none if it is no plain number.
    fn millimetres(&self) -> Option<f64> {
        let number: f64 = self.said.0.trim().parse().ok()?;
        let inch = self.unit.as_ref().is_some_and(|(unit, _)| unit == "in");
        Some(if inch { number * 25.4 } else { number })
    }
}

/// An asset.
struct Asset<'a> {
    is_archetype: bool,
    span: Span,
    end: u32,
    tool_id: Option<Said<'a>>,
    values: Vec<Value<'a>>,
    /// Values of cutting items, which count where all items agree.
    items: Vec<Value<'a>>,
    departs: Departures,
}

/// The assets of a document.
pub(super) struct Assets<'a> {
    source: SourceId,
    /// Names of the open elements.
    stack: Vec<String>,
    /// How many were open when the open asset began.
    depth: usize,
    open: Option<Asset<'a>>,
    leaf: Option<(usize, Leaf<'a>)>,
    done: Vec<Asset<'a>>,
}

impl<'a> Assets<'a> {
    pub(super) fn new(source: SourceId) -> Assets<'a> {
        Assets {
            source,
            stack: Vec::new(),
            depth: 0,
            open: None,
            leaf: None,
            done: Vec::new(),
        }
    }

    /// Whether an element is open.
    pub(super) fn is_open(&self) -> bool {
        !self.stack.is_empty()
    }

    pub(super) fn open(&mut self, name: &str, attributes: Vec<Attribute<'a>>, span: Span) {
        let parent = self.stack.last().map_or("", String::as_str);
        let is_measured = parent == "Measurements";
        let is_of_life = parent == "CuttingToolLifeCycle";
        self.stack.push(name.to_owned());
        let Some(asset) = &mut self.open else {
            if name == TOOL || name == ARCHETYPE {
                self.depth = self.stack.len();
                self.open = Some(Asset::begin(name, attributes, (self.source, span)));
            }
            return;
        };
        if is_of_life {
            asset.departs.child(name);
        }
        let says =
            SAYS.iter().any(|(known, _)| *known == name) || name == SPEED || name == "Status";
        if self.leaf.is_none() && (is_measured || says) {
            self.leaf = Some((self.stack.len(), Leaf::new(name, attributes)));
        }
    }

    pub(super) fn words(&mut self, words: Cow<'a, str>, span: Span) {
        let depth = self.stack.len();
        if let Some((_, leaf)) = self.leaf.as_mut().filter(|(at, _)| *at == depth) {
            leaf.words(words, span);
        }
    }

    pub(super) fn close(&mut self, span: Span) {
        let depth = self.stack.len();
        let in_item = self.stack.iter().any(|name| name == "CuttingItem");
        if self.leaf.as_ref().is_some_and(|(at, _)| *at == depth)
            && let (Some((_, leaf)), Some(asset)) = (self.leaf.take(), &mut self.open)
        {
            asset.take(&leaf, in_item, self.source);
        }
        if depth == self.depth
            && let Some(mut asset) = self.open.take()
        {
            asset.end = span.end;
            asset.tell_holder_apart();
            self.done.push(asset);
        }
        self.stack.pop();
    }

    /// The sections of a library: archetypes are cutters where there are tools. In a document that
    /// stands alone a tool names its design as its cutter.
    pub(super) fn finish(self, alone: bool, faults: &mut Faults) -> Document<'a> {
        let has_tools = self.done.iter().any(|asset| !asset.is_archetype);
        let (cutters, tools): (Vec<Asset<'_>>, Vec<Asset<'_>>) = self
            .done
            .into_iter()
            .partition(|asset| has_tools && asset.is_archetype);
        let source = self.source;
        let refers = alone && cutters.is_empty();
        for asset in tools.iter().chain(&cutters) {
            faults.extend(asset.departs.told(place(source, asset.span)));
        }
        let tools = tools.into_iter().map(|asset| asset.row(source, refers));
        let cutters = cutters.into_iter().map(|asset| {
            let (row, mut values) = asset.row(source, false);
            values.retain(|value| OF_CUTTERS.contains(&value.column));
            (row, values)
        });
        let sections = vec![
            section("cutters", "cutter", cutters.collect()),
            section("assemblies", "assembly", tools.collect()),
        ];
        Document {
            units: None,
            sections: sections.into_iter().flatten().collect(),
        }
    }
}

fn place(source: SourceId, span: Span) -> Place {
    Place { source, span }
}

impl<'a> Asset<'a> {
    fn begin(
        name: &str,
        attributes: Vec<Attribute<'a>>,
        (source, span): (SourceId, Span),
    ) -> Asset<'a> {
        let tag = Leaf::new(name, attributes);
        let is_archetype = name == ARCHETYPE;
        let mut asset = Asset {
            is_archetype,
            span,
            end: span.end,
            tool_id: tag.attribute("toolId", source),
            values: Vec::new(),
            items: Vec::new(),
            departs: Departures::default(),
        };
        for (attribute, column) in [("assetId", "id"), ("deviceUuid", "machine")] {
            if let Some(said) = tag.attribute(attribute, source) {
                asset.say(column, said);
            }
        }
        for needed in ["assetId", "timestamp", "toolId"] {
            let is_missing = tag.attribute(needed, source).is_none();
            if is_missing && !(is_archetype && needed == "toolId") {
                asset.departs.say(missing(needed));
            }
        }
        asset
    }

    fn say(&mut self, column: &'static str, said: Said<'a>) {
        self.values.push(Value {
            column,
            said,
            unit: None,
        });
    }

    /// Takes what an element says.
    fn take(&mut self, leaf: &Leaf<'a>, in_item: bool, source: SourceId) {
        let name = leaf.name.as_str();
        if name == "Status" {
            if let Some((status, _)) = leaf.text(source).filter(|_| !in_item) {
                self.departs.status(&status);
            }
            return;
        }
        if name == SPEED {
            if let Some(said) = leaf.attribute("maximum", source) {
                let unit = Some((Cow::Borrowed("rpm"), said.1));
                self.values.push(Value {
                    column: "cutter_speed_max",
                    said,
                    unit,
                });
            }
            return;
        }
        let mut says = SAYS.iter();
        if let Some((_, column)) = says.find(|(known, _)| *known == name) {
            if let Some(said) = leaf.text(source).filter(|_| !in_item) {
                self.say(column, said);
            }
            return;
        }
        self.measurement(leaf, in_item, source);
    }

    fn measurement(&mut self, leaf: &Leaf<'a>, in_item: bool, source: SourceId) {
        let mut all = MEASUREMENTS.iter();
        let known = all.find(|one| one.element == leaf.name);
        let own = if in_item { Level::Item } else { Level::Tool };
        let (column, default) = match known {
            Some(known) if ![own, Level::Both].contains(&known.level) => {
                self.departs.wrong_level(known.element, in_item);
                return;
            }
            Some(known) => (known.column, known.unit),
            None => {
                let symbol = leaf.attribute("code", source);
                let symbol = symbol
                    .and_then(|(symbol, _)| BY_SYMBOL.into_iter().find(|known| *known == symbol));
                (symbol, if symbol == Some("FHA") { "deg" } else { "mm" })
            }
        };
        let Some(column) = column else {
            return;
        };
        let measured = leaf.text(source);
        let nominal = leaf.attribute("nominal", source);
        let units = leaf.attribute("units", source);
        if units.is_none() && leaf.attribute("nativeUnits", source).is_some() {
            self.departs.native(&leaf.name, default);
        }
        let value = |column: &'static str, said: Said<'a>| {
            let at = said.1;
            let unit = match &units {
                Some((word, place)) => (Cow::Owned(unit(word).to_owned()), *place),
                None => (Cow::Borrowed(default), at),
            };
            Value {
                column,
                said,
                unit: (column != "NOF").then_some(unit),
            }
        };
        let mut both = BOTH.into_iter();
        let both = both.find(|(known, ..)| *known == column);
        let to = if in_item {
            &mut self.items
        } else {
            &mut self.values
        };
        match (measured, nominal, both) {
            (Some(measured), Some(nominal), Some((_, as_measured, as_meant))) => {
                to.push(value(as_measured, measured));
                to.push(value(as_meant, nominal));
            }
            // What is measured is the tool as it is.
            (Some(said), ..) | (None, Some(said), _) => to.push(value(column, said)),
            (None, None, _) => {}
        }
    }

    /// The overall length is the cutter's, and some write that of the tool with its holder, which would
    /// look like more shank in the collet than there is. A cutter ends before the gauge line, and what
    /// is not shorter than the tool protrudes from there is not the cutter's.
    fn tell_holder_apart(&mut self) {
        let lengths = |columns: &[&str]| {
            let own = self.values.iter();
            let own = own.filter(|value| columns.contains(&value.column));
            own.filter_map(Value::millimetres).reduce(f64::max)
        };
        let overall = lengths(&OVERALL);
        let protruding = lengths(&["LPR"]);
        if let (Some(overall), Some(protruding)) = (overall, protruding)
            && overall >= protruding
        {
            self.values.retain(|value| !OVERALL.contains(&value.column));
            self.departs.say(format!(
                "its overall length {overall} mm is not less than its protruding length {protruding} mm: it is not read, as it may be that of the tool with its holder"
            ));
        }
    }

    /// Its row and values; `refers` says whether its design is the name of its cutter.
    fn row(mut self, source: SourceId, refers: bool) -> (Row<'a>, Vec<Value<'a>>) {
        let states =
            |values: &[Value<'_>], column: &str| values.iter().any(|one| one.column == column);
        let design = self.tool_id.take().filter(|_| refers);
        if let Some(design) = design.filter(|_| !states(&self.values, REFERENCE)) {
            self.say(REFERENCE, design);
        }
        let items = std::mem::take(&mut self.items);
        for item in &items {
            let mut same = items.iter().filter(|one| one.column == item.column);
            let agree = same.all(|one| one.said.0 == item.said.0);
            if agree && !states(&self.values, item.column) {
                self.values.push(item.clone());
            }
        }
        let row = Row {
            place: place(source, self.span),
            end: self.end,
            cells: Vec::new(),
            ragged: false,
        };
        (row, self.values)
    }
}

/// A section of records of one element; none if there are none.
fn section<'a>(
    name: &str,
    element: &str,
    records: Vec<(Row<'a>, Vec<Value<'a>>)>,
) -> Option<Section<'a>> {
    let place = records.first()?.0.place;
    let mut columns: Vec<Column<'a>> = Vec::new();
    let mut rows = Vec::with_capacity(records.len());
    for (mut row, values) in records {
        for Value { column, said, unit } in values {
            let known = columns.iter().position(|known| known.name == column);
            let at = known.unwrap_or_else(|| {
                columns.push(Column {
                    name: Cow::Borrowed(column),
                    place: said.1,
                });
                columns.len() - 1
            });
            row.cells.push(Cell {
                column: at,
                text: said.0,
                place: said.1,
                unit: unit.map(Box::new),
            });
        }
        rows.push(row);
    }
    let table = Table {
        columns,
        rows,
        manner: Manner {
            decimal: Decimal::Point,
            semicolons: false,
            in_sheet: false,
        },
    };
    Some(Section {
        name: name.to_owned(),
        place,
        groups: vec![Group {
            element: element.to_owned(),
            table,
        }],
    })
}
