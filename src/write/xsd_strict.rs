//! The XSD for whoever writes an XML library: what is valid by it is read without a fault of form.
//!
//! It asks for more than the reader does. The reader takes every spelling of a word and every way
//! of writing a number; here a word is that of its list, and a number a decimal with its unit.

use std::fmt::Write as _;

use super::convert::{assembly_element, is_attribute};
use super::xsd::{section, xml_name};
use crate::library::{Field, Kind, PROPERTIES, Property, Range, ValueType, fields_of};
use crate::units::{Spelling, Unit};

const HEAD: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema"
           xmlns="urn:shankwise:library:1" xmlns:l="urn:shankwise:library:1"
           targetNamespace="urn:shankwise:library:1"
           elementFormDefault="qualified" version="1">
  <!-- For whoever writes a library. Made from the program's own vocabulary. -->
"#;

/// Simple types: their names, what they restrict, and how.
const SIMPLE: [(&str, &str, &str); 7] = [
    (
        "units",
        "string",
        r#"<xs:enumeration value="mm"/><xs:enumeration value="in"/>"#,
    ),
    ("text", "string", r#"<xs:minLength value="1"/>"#),
    (
        "flag",
        "string",
        r#"<xs:enumeration value="yes"/><xs:enumeration value="no"/>"#,
    ),
    (
        "thread",
        "string",
        r#"<xs:pattern value="M[0-9.]+(x[0-9.]+)?"/>"#,
    ),
    ("any", "decimal", ""),
    ("positive", "decimal", r#"<xs:minExclusive value="0"/>"#),
    ("not-negative", "decimal", r#"<xs:minInclusive value="0"/>"#),
];

/// The whole schema. Writing to a String cannot fail, here and below.
#[must_use]
pub fn strict_xsd() -> String {
    let mut text = HEAD.to_owned();
    for (name, base, facets) in SIMPLE {
        let _ = writeln!(
            text,
            "  <xs:simpleType name=\"{name}\">\n    <xs:restriction base=\"xs:{base}\">{facets}</xs:restriction>\n  </xs:simpleType>"
        );
    }
    for unit in Unit::ALL {
        text.push_str(&quantities(unit));
    }
    for kind in Kind::IN_DOCUMENT
        .into_iter()
        .filter(|kind| *kind != Kind::Stock)
    {
        text.push_str(&record(kind, kind.name(), &[kind]));
    }
    for kind in [Kind::Cutter, Kind::Collet] {
        let name = format!("stock-{}", kind.name());
        text.push_str(&record(kind, &name, &[kind, Kind::Stock]));
    }
    text.push_str("  <xs:element name=\"shankwise\">\n    <xs:complexType>\n      <xs:all>\n");
    for kind in Kind::IN_DOCUMENT {
        text.push_str(&section(kind, Some(u8::from(kind == Kind::Assembly))));
    }
    text.push_str("      </xs:all>\n      <xs:attribute name=\"units\" type=\"units\" use=\"required\"/>\n    </xs:complexType>\n");
    text.push_str(&keys());
    text.push_str("  </xs:element>\n</xs:schema>\n");
    text
}

/// What a unit measures, as a type's name begins.
const fn measured(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "length",
        Unit::One => "ratio",
        Unit::N => "force",
        Unit::Nm => "torque",
        Unit::MPa => "stress",
        Unit::NPerMm => "stiffness",
        Unit::Hz => "frequency",
        Unit::Deg => "angle",
        Unit::PerMin => "speed",
        Unit::MPerMin => "cutting-speed",
        Unit::KW => "power",
        Unit::Kg => "mass",
        Unit::GMm => "unbalance",
    }
}

const fn range(property: &Property) -> &'static str {
    match property.range {
        Range::Positive => "positive",
        Range::NotNegative => "not-negative",
        Range::Any => "any",
    }
}

/// The types of numbers in a unit: lengths are in the document's unit where they name none.
fn quantities(unit: Unit) -> String {
    let is =
        |property: &&Property| matches!(property.value, ValueType::Quantity(own) if own == unit);
    let mut ranges: Vec<&str> = PROPERTIES.iter().filter(is).map(range).collect();
    ranges.sort_unstable();
    ranges.dedup();
    let mut text = String::new();
    if ranges.is_empty() {
        return text;
    }
    let name = measured(unit);
    let units = Spelling::names(unit).map(|unit| format!("<xs:enumeration value=\"{unit}\"/>"));
    let units: String = units.collect();
    let _ = writeln!(
        text,
        "  <xs:simpleType name=\"unit-of-{name}\">\n    <xs:restriction base=\"xs:string\">{units}</xs:restriction>\n  </xs:simpleType>"
    );
    let needed = if unit == Unit::Mm {
        "optional"
    } else {
        "required"
    };
    for range in ranges {
        let _ = writeln!(
            text,
            "  <xs:complexType name=\"{name}-{range}\">\n    <xs:simpleContent>\n      <xs:extension base=\"{range}\"><xs:attribute name=\"unit\" type=\"unit-of-{name}\" use=\"{needed}\"/></xs:extension>\n    </xs:simpleContent>\n  </xs:complexType>"
        );
    }
    text
}

/// One type of record: its fields in any order, its ids as attributes. An assembly may also state
/// a property of its parts and of one operation.
fn record(own: Kind, name: &str, kinds: &[Kind]) -> String {
    let mut text = format!("  <xs:complexType name=\"{name}\">\n    <xs:all>\n");
    let of = |property: &&Property| kinds.contains(&property.kind) && !is_attribute(property);
    for property in PROPERTIES.iter().filter(of) {
        text.push_str(&element(&xml_name(property), property, ""));
    }
    if own == Kind::Assembly {
        for (name, property) in restated() {
            text.push_str(&element(&name, property, "For this one assembly: "));
        }
    }
    text.push_str("    </xs:all>\n");
    let attributes = PROPERTIES.iter().filter(|property| property.kind == own);
    for property in attributes.filter(|property| is_attribute(property)) {
        let _ = writeln!(
            text,
            "    <xs:attribute name=\"{}\" type=\"text\" use=\"{}\">{}</xs:attribute>",
            xml_name(property),
            if is_needed(property, kinds) {
                "required"
            } else {
                "optional"
            },
            documentation(property, "")
        );
    }
    text.push_str("  </xs:complexType>\n");
    text
}

/// Whether nothing can be done with a record that lacks it.
fn is_needed(property: &Property, kinds: &[Kind]) -> bool {
    let number = matches!(
        property.field,
        Field::ToolNumber | Field::OperationToolNumber
    );
    let is_part_id = Kind::PARTS
        .iter()
        .any(|kind| Field::id_of(*kind) == Some(property.field));
    number || (is_part_id && !kinds.contains(&Kind::Stock))
}

/// The elements of an assembly that speak of its parts and its operation: each property for
/// itself, and for all that share it.
fn restated() -> Vec<(String, &'static Property)> {
    let mut all: Vec<(String, &'static Property)> = Vec::new();
    for property in PROPERTIES {
        if !Kind::OF_A_ROW.contains(&property.kind) || property.kind == Kind::Assembly {
            continue;
        }
        let shared = fields_of(property.name, Kind::Assembly);
        let sets = [vec![property.field], shared];
        for fields in sets
            .iter()
            .filter(|fields| fields.contains(&property.field))
        {
            let Some(name) = assembly_element(fields) else {
                continue;
            };
            if fields_of(&name, Kind::Assembly) == *fields && all.iter().all(|one| one.0 != name) {
                all.push((name, property));
            }
        }
    }
    all
}

fn element(name: &str, property: &Property, before: &str) -> String {
    let documentation = documentation(property, before);
    let head = format!("      <xs:element name=\"{name}\" minOccurs=\"0\"");
    let of_type = match property.value {
        ValueType::Quantity(unit) => format!("{}-{}", measured(unit), range(property)),
        ValueType::Count => match property.range {
            Range::Positive => "xs:positiveInteger".to_owned(),
            Range::NotNegative => "xs:nonNegativeInteger".to_owned(),
            Range::Any => "xs:integer".to_owned(),
        },
        ValueType::Size => range(property).to_owned(),
        ValueType::Thread => "thread".to_owned(),
        ValueType::Flag => "flag".to_owned(),
        ValueType::Text | ValueType::Id | ValueType::Reference(_) => "text".to_owned(),
        ValueType::Word(words) => {
            let words = words
                .iter()
                .map(|word| format!("<xs:enumeration value=\"{}\"/>", word.word));
            let words: String = words.collect();
            return format!(
                "{head}>{documentation}\n        <xs:simpleType><xs:restriction base=\"xs:string\">{words}</xs:restriction></xs:simpleType>\n      </xs:element>\n"
            );
        }
    };
    format!("{head} type=\"{of_type}\">{documentation}</xs:element>\n")
}

/// What a property means, in what it is stored, and whether the main rules need it.
fn documentation(property: &Property, before: &str) -> String {
    let unit = match property.value {
        ValueType::Quantity(unit) => format!(", read in {}", unit.shown()),
        _ => String::new(),
    };
    let star = if property.starred {
        "; needed by the main rules"
    } else {
        ""
    };
    let meaning = property.meaning.replace('&', "&amp;").replace('<', "&lt;");
    format!(
        "<xs:annotation><xs:documentation>{before}{meaning}{unit}{star}</xs:documentation></xs:annotation>"
    )
}

/// Each id once among its kind, and each part that is named is there. A tool number is unique within
/// its machine and its group; a schema compares only those that state both.
fn keys() -> String {
    let mut text = String::new();
    for kind in Kind::PARTS {
        let (name, section) = (kind.name(), kind.section());
        let _ = writeln!(
            text,
            "    <xs:key name=\"{name}-id\"><xs:selector xpath=\"l:{section}/l:{name}\"/><xs:field xpath=\"@id\"/></xs:key>\n    <xs:keyref name=\"{name}-of\" refer=\"{name}-id\"><xs:selector xpath=\"l:assemblies/l:assembly\"/><xs:field xpath=\"@{name}\"/></xs:keyref>"
        );
    }
    text.push_str("    <xs:unique name=\"number-of-tool\"><xs:selector xpath=\"l:assemblies/l:assembly\"/><xs:field xpath=\"@tool-number\"/><xs:field xpath=\"l:machine\"/><xs:field xpath=\"l:program-tool-group\"/></xs:unique>\n");
    text
}
