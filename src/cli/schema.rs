//! `shankwise schema`: JSON Schemas of what is written and of the files that people write.

use serde_json::Value;

use crate::judge::Setup;
use crate::rulebook::rule_schema;
use crate::write::audit::audit_schema;
use crate::write::{output_schema, shop_schema};

use super::COULD_NOT;
use super::args::{SchemaArgs, SchemaOf};
use super::output::{look_of, write};
use super::unreadable::complain_setup;

/// Prints one.
pub(super) fn run(arguments: &SchemaArgs) -> u8 {
    let look = look_of(arguments.colour.color, None);
    let schema: Value = match arguments.of {
        SchemaOf::Output => output_schema(),
        SchemaOf::Audit => audit_schema(),
        SchemaOf::Rule => rule_schema(),
        SchemaOf::Shop => match Setup::load(None, None, &[], true) {
            Ok(setup) => shop_schema(&setup.book),
            Err(error) => {
                complain_setup(&error, look);
                return COULD_NOT;
            }
        },
    };
    write(&format!("{schema:#}\n"), look)
}
