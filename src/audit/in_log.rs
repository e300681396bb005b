//! The results of a log, as they were noted: one after the other, however large the log.

use std::io::{self, Read};

use serde::Deserialize;
use serde::de::{DeserializeSeed, Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor};

use super::noted::Noted;

/// Takes all results of a log but those that were gone already.
///
/// # Errors
/// If the log cannot be read to its end, or the first that `take` returns.
pub(super) fn each(
    log: impl Read,
    mut take: impl FnMut(Noted) -> io::Result<()>,
) -> io::Result<()> {
    let mut reader = serde_json::Deserializer::from_reader(log);
    InLog(&mut take).deserialize(&mut reader)?
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
    logical_locations: Vec<Logical>,
}

/// The cell of a sheet: its whole name is the sheet's, `!`, and its own.
#[derive(Default, Deserialize)]
#[serde(rename_all = "camelCase", default)]
struct Logical {
    name: String,
    fully_qualified_name: String,
}

impl Logical {
    fn sheet(&self) -> &str {
        let before = self.fully_qualified_name.strip_suffix(&self.name);
        before
            .and_then(|sheet| sheet.strip_suffix('!'))
            .unwrap_or_default()
    }
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
        let cell = place
            .logical_locations
            .into_iter()
            .next()
            .unwrap_or_default();
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
            // Only what is found today counts again today.
            accepted_no_more: String::new(),
            fingerprint: self.partial_fingerprints.own,
            sheet: cell.sheet().to_owned(),
            cell: cell.name,
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

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
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
