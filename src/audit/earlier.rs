//! Reads an earlier audit: which libraries it had, and what it noted, one after the other.

use std::fs::File;
use std::io::{self, BufReader};
use std::path::{Path, PathBuf};

use serde::Deserialize;
use serde::de::{DeserializeSeed, Deserializer, IgnoredAny, SeqAccess, Visitor};

use super::baseline::{Baseline, Was};
use super::noted::Noted;
use super::table::{Row, rows};

/// The log of an audit, in its folder.
pub const LOG: &str = "audit.sarif";
/// The table of findings of an audit, in its folder.
pub const TABLE: &str = "findings.csv";

/// An earlier audit on disk.
#[derive(Debug)]
pub struct Earlier {
    log: PathBuf,
    /// The table of all its findings; none if there is none of the same run, and then only those
    /// in the log are known.
    table: Option<PathBuf>,
    header: Header,
}

#[derive(Clone, Debug, Default, Deserialize)]
struct Header {
    id: String,
    day: String,
    libraries: Vec<Library>,
}

#[derive(Clone, Debug, Default, Deserialize)]
struct Library {
    key: String,
    name: Option<String>,
    /// Rules of which the log has not every result.
    #[serde(default)]
    cut: Vec<String>,
}

/// Why an earlier audit cannot be used.
#[derive(Debug)]
pub struct NoAudit {
    /// The file.
    pub file: PathBuf,
    /// Why.
    pub why: String,
}

impl Earlier {
    /// Opens the audit in a folder, or the one that a log is of.
    ///
    /// # Errors
    /// If there is none, or it cannot be read.
    pub fn open(path: &Path) -> Result<Earlier, NoAudit> {
        let log = if path.is_dir() {
            path.join(LOG)
        } else {
            path.to_owned()
        };
        let refuse = |why: String| NoAudit {
            file: log.clone(),
            why,
        };
        let header = match header(&log) {
            Ok(Some(header)) => header,
            Ok(None) => return Err(refuse("is no log of an audit".to_owned())),
            Err(why) => return Err(refuse(format!("cannot be read: {why}"))),
        };
        let table = log.with_file_name(TABLE);
        let own = is_of(&table, &header.id).then_some(table);
        Ok(Earlier {
            table: own,
            header,
            log,
        })
    }

    /// What a later audit compares with.
    ///
    /// # Errors
    /// If it cannot be read to its end.
    pub fn baseline(&self) -> io::Result<Baseline> {
        let header = self.header.clone();
        let is_whole = self.table.is_some();
        let libraries = header.libraries.into_iter().map(|own| {
            let cut = if is_whole { Vec::new() } else { own.cut };
            Was::new(own.key, own.name, cut)
        });
        let libraries: Vec<Was> = libraries.collect();
        let keys = libraries.iter().enumerate();
        let numbers: std::collections::HashMap<String, usize> =
            keys.map(|(at, was)| (was.key.clone(), at)).collect();
        let mut baseline = Baseline::new(header.id, header.day, libraries);
        self.each(|noted| {
            if let Some(library) = numbers.get(&noted.library) {
                baseline.add(&noted, *library);
            }
            Ok(())
        })?;
        Ok(baseline)
    }

    /// Everything that it notes, what was gone already aside, in its order.
    ///
    /// # Errors
    /// If it cannot be read to its end, or the first that `take` returns.
    pub fn each(&self, mut take: impl FnMut(Noted) -> io::Result<()>) -> io::Result<()> {
        if let Some(table) = &self.table {
            for row in rows(table)? {
                let row = row?;
                if !row.is_gone() {
                    take(row.noted)?;
                }
            }
            return Ok(());
        }
        let mut reader =
            serde_json::Deserializer::from_reader(BufReader::new(File::open(&self.log)?));
        let results = InLog(&mut take);
        results.deserialize(&mut reader)??;
        Ok(())
    }
}

fn header(log: &Path) -> io::Result<Option<Header>> {
    #[derive(Deserialize)]
    struct Log {
        #[serde(default)]
        runs: Vec<Run>,
    }
    #[derive(Deserialize)]
    struct Run {
        properties: Option<Properties>,
    }
    #[derive(Deserialize)]
    struct Properties {
        audit: Option<Header>,
    }
    let log: Log = serde_json::from_reader(BufReader::new(File::open(log)?))?;
    let mut runs = log.runs.into_iter();
    Ok(runs.find_map(|run| run.properties?.audit))
}

/// Whether a table of findings belongs to a run; one without findings may.
fn is_of(table: &Path, id: &str) -> bool {
    let Ok(mut rows) = rows(table) else {
        return false;
    };
    match rows.next() {
        None => true,
        Some(Ok(Row { run, .. })) => run == id,
        Some(Err(_)) => false,
    }
}

/// A result as far as it is noted.
#[derive(Default, Deserialize)]
#[serde(rename_all = "camelCase", default)]
struct InResult {
    rule_id: String,
    level: String,
    message: Message,
    locations: Vec<Location>,
    partial_fingerprints: Fingerprints,
    suppressions: Vec<Suppression>,
    baseline_state: Option<String>,
    properties: Properties,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Message {
    text: String,
}

#[derive(Default, Deserialize)]
#[serde(rename_all = "camelCase", default)]
struct Location {
    physical_location: Physical,
}

#[derive(Default, Deserialize)]
#[serde(rename_all = "camelCase", default)]
struct Physical {
    artifact_location: Artifact,
    region: Region,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Artifact {
    uri: String,
}

#[derive(Default, Deserialize)]
#[serde(rename_all = "camelCase", default)]
struct Region {
    start_line: usize,
    start_column: usize,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Fingerprints {
    #[serde(rename = "shankwise/v1")]
    own: String,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Suppression {
    properties: Accepted,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Accepted {
    by: String,
    until: Option<String>,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Properties {
    library: String,
    outcome: String,
    title: String,
    tool_number: Option<String>,
    assembly: Option<String>,
    operation: Option<String>,
    machine: Option<String>,
    units: String,
    advice: String,
    shortfall: Option<Shortfall>,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct Shortfall {
    what: String,
    value: Option<f64>,
    needed: Option<f64>,
    unit: String,
    wanted: String,
}

impl InResult {
    fn noted(self) -> Noted {
        let InResult {
            properties: own, ..
        } = self;
        let shortfall = own.shortfall.unwrap_or_default();
        let place = self.locations.into_iter().next().unwrap_or_default();
        let Physical {
            artifact_location,
            region,
        } = place.physical_location;
        let accepted = self.suppressions.into_iter().next();
        let accepted = accepted.unwrap_or_default().properties;
        let prefix = own
            .tool_number
            .as_ref()
            .map(|tool| format!("tool {tool}: "));
        let text = self.message.text;
        let message = prefix.and_then(|prefix| text.strip_prefix(&prefix).map(str::to_owned));
        Noted {
            library: own.library,
            tool_number: own.tool_number.unwrap_or_default(),
            assembly: own.assembly.unwrap_or_default(),
            machine: own.machine.unwrap_or_default(),
            operation: own.operation.unwrap_or_default(),
            rule: self.rule_id,
            level: self.level,
            outcome: own.outcome,
            title: own.title,
            units: own.units,
            message: message.unwrap_or(text),
            advice: own.advice,
            what: shortfall.what,
            value: shortfall.value,
            needed: shortfall.needed,
            unit: shortfall.unit,
            wanted: shortfall.wanted,
            file: artifact_location.uri,
            line: region.start_line,
            column: region.start_column,
            field: String::new(),
            accepted_by: accepted.by,
            accepted_until: accepted.until.unwrap_or_default(),
            fingerprint: self.partial_fingerprints.own,
        }
    }
}

type Take<'t> = dyn FnMut(Noted) -> io::Result<()> + 't;

/// Takes the results out of a log, wherever they stand in it, without holding them.
struct InLog<'t>(&'t mut Take<'t>);
struct InRuns<'a, 't>(&'a mut Take<'t>);
struct InRun<'a, 't>(&'a mut Take<'t>);
struct InResults<'a, 't>(&'a mut Take<'t>);

/// Goes into one key of an object and passes over all others.
macro_rules! goes_into {
    ($from:ty, $key:literal, $into:ident) => {
        impl<'de> Visitor<'de> for $from {
            type Value = io::Result<()>;

            fn expecting(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                to.write_str("an object of a log")
            }

            fn visit_map<A: serde::de::MapAccess<'de>>(
                self,
                mut map: A,
            ) -> Result<Self::Value, A::Error> {
                while let Some(key) = map.next_key::<String>()? {
                    if key != $key {
                        map.next_value::<IgnoredAny>()?;
                    } else if let Err(why) = map.next_value_seed($into(&mut *self.0))? {
                        return Ok(Err(why));
                    }
                }
                Ok(Ok(()))
            }
        }

        impl<'de> DeserializeSeed<'de> for $from {
            type Value = io::Result<()>;

            fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Self::Value, D::Error> {
                from.deserialize_map(self)
            }
        }
    };
}

goes_into!(InLog<'_>, "runs", InRuns);
goes_into!(InRun<'_, '_>, "results", InResults);

impl<'de> DeserializeSeed<'de> for InRuns<'_, '_> {
    type Value = io::Result<()>;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Self::Value, D::Error> {
        from.deserialize_seq(self)
    }
}

impl<'de> Visitor<'de> for InRuns<'_, '_> {
    type Value = io::Result<()>;

    fn expecting(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        to.write_str("the runs of a log")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut runs: A) -> Result<Self::Value, A::Error> {
        while let Some(ended) = runs.next_element_seed(InRun(&mut *self.0))? {
            if ended.is_err() {
                return Ok(ended);
            }
        }
        Ok(Ok(()))
    }
}

impl<'de> DeserializeSeed<'de> for InResults<'_, '_> {
    type Value = io::Result<()>;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Self::Value, D::Error> {
        from.deserialize_seq(self)
    }
}

impl<'de> Visitor<'de> for InResults<'_, '_> {
    type Value = io::Result<()>;

    fn expecting(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        to.write_str("the results of a run")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut results: A) -> Result<Self::Value, A::Error> {
        while let Some(result) = results.next_element::<InResult>()? {
            if result.baseline_state.as_deref() == Some("absent") {
                continue;
            }
            if let Err(why) = (self.0)(result.noted()) {
                return Ok(Err(why));
            }
        }
        Ok(Ok(()))
    }
}
