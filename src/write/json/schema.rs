//! The JSON Schema of the output, made from the types that write it.

use schemars::generate::SchemaSettings;
use serde_json::Value;

use crate::text::described;

use super::object::Object;

/// The schema of one object of the output. It takes keys that it does not know: later versions may
/// add some.
#[must_use]
pub(crate) fn output_schema() -> Value {
    let settings = SchemaSettings::draft2020_12().for_serialize();
    let generator = settings.into_generator();
    described(
        generator.into_root_schema_for::<Object<'static>>(),
        "output",
    )
}
