//! Documents: an XML library, or assets, which stand alone or beside tables.

use crate::input::{Faults, assets, xml};
use crate::text::{Source, SourceId};
use crate::units::{Spelling, Unit};

use super::super::{Form, Kind, ReadError, Record, xml_sections};
use super::Loader;

/// A document that is refused.
fn refused(source: &Source, refusal: xml::Refusal) -> ReadError {
    ReadError {
        file: source.name().to_owned(),
        position: Some(source.position(refusal.span.range().start)),
        reason: refusal.reason,
    }
}

impl Loader {
    /// Reads one XML document, which holds all kinds of record.
    pub(super) fn document(&mut self, id: SourceId) -> Result<(), ReadError> {
        self.library.form = Form::Xml;
        let source = self.library.sources.get(id);
        let mut faults = Faults::of(&self.library.sources);
        self.is_of_assets = assets::is_one(source.text());
        let document = if self.is_of_assets {
            assets::read(source, id, true, &mut faults)
        } else {
            xml::read(source, id, &mut faults)
        };
        let document = document.map_err(|refusal| refused(source, refusal))?;
        if let Some((units, place)) = &document.units {
            let length = Spelling::find(units, Unit::Mm).filter(|s| ["mm", "in"].contains(&s.name));
            let Some(length) = length else {
                return Err(ReadError {
                    file: source.name().to_owned(),
                    position: Some(self.library.sources.position(*place)),
                    reason: "the document's units must be mm or in".to_owned(),
                });
            };
            self.settings.set_length(length);
            self.library.units = self.settings.display();
        }
        if let Some(all) = &mut self.written {
            (all.comments, all.instructions) = xml::asides(source.text());
        }
        let mut kept = Vec::new();
        for section in document.sections {
            let rows = kept.iter().filter(|(kind, _)| *kind == Kind::Assembly);
            let rows: usize = rows
                .map(|(_, records): &(_, Vec<Record>)| records.len())
                .sum();
            let sources = (&self.library.sources, id);
            let settings = &self.settings;
            kept.extend(xml_sections::read(
                (&section, rows),
                settings,
                sources,
                &mut faults,
                self.written.as_mut(),
            ));
        }
        let name = source.name().to_owned();
        self.library.faults.append(&faults, 0);
        for (kind, records) in kept {
            self.keep(kind, records);
        }
        if self.rows.is_empty() {
            let reason = if self.is_of_assets {
                "has no CuttingTool and no CuttingToolArchetype"
            } else {
                "has no assembly; expected <assemblies> with an <assembly> in it"
            };
            return Err(ReadError::of(name, reason));
        }
        Ok(())
    }

    /// Reads a document of assets that lies beside the tables.
    pub(super) fn assets(&mut self, id: SourceId) -> Result<(), ReadError> {
        let source = self.library.sources.get(id);
        let mut faults = Faults::of(&self.library.sources);
        let document = assets::read(source, id, false, &mut faults);
        let document = document.map_err(|refusal| refused(source, refusal))?;
        let mut kept = Vec::new();
        for section in document.sections {
            let sources = (&self.library.sources, id);
            // A row may have its asset: until they are joined, no fault belongs to a tool.
            let of = (&section, usize::MAX / 2);
            kept.extend(xml_sections::read(
                of,
                &self.settings,
                sources,
                &mut faults,
                None,
            ));
        }
        self.library.faults.append(&faults, 0);
        for (kind, records) in kept {
            if kind == Kind::Assembly {
                self.assets.extend(records);
            } else {
                self.keep(kind, records);
            }
        }
        Ok(())
    }
}
