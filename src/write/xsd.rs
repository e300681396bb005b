//! The shape of an XML library as an XSD 1.0: names and nesting, no keys, nothing required.
//!
//! Words have many spellings, so their elements are plain texts here; what they mean is judged
//! when the library is read.

use std::fmt::Write as _;

use super::convert::is_attribute;
use crate::library::{Kind, PROPERTIES, Property, ValueType};

const HEAD: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema"
           xmlns="urn:shankwise:library:1"
           targetNamespace="urn:shankwise:library:1"
           elementFormDefault="qualified" version="1">
  <!-- Shape only: no keys, all properties optional. Made from the program's own vocabulary. -->
  <xs:simpleType name="units">
    <xs:restriction base="xs:string"><xs:enumeration value="mm"/><xs:enumeration value="in"/></xs:restriction>
  </xs:simpleType>
  <xs:complexType name="quantity">
    <xs:simpleContent>
      <xs:extension base="xs:string"><xs:attribute name="unit" type="xs:string"/></xs:extension>
    </xs:simpleContent>
  </xs:complexType>
"#;

/// The whole schema.
#[must_use]
pub fn xsd() -> String {
    let mut text = HEAD.to_owned();
    for kind in Kind::ALL.into_iter().filter(|kind| *kind != Kind::Stock) {
        text.push_str(&record(kind, kind.name(), &[kind]));
    }
    for kind in [Kind::Cutter, Kind::Collet] {
        text.push_str(&record(
            kind,
            &format!("stock-{}", kind.name()),
            &[kind, Kind::Stock],
        ));
    }
    text.push_str("  <xs:element name=\"shankwise\">\n    <xs:complexType>\n      <xs:choice minOccurs=\"0\" maxOccurs=\"unbounded\">\n");
    for kind in Kind::ALL {
        text.push_str(&section(kind, None));
    }
    text.push_str("      </xs:choice>\n      <xs:attribute name=\"units\" type=\"units\"/>\n    </xs:complexType>\n  </xs:element>\n</xs:schema>\n");
    text
}

pub(super) fn xml_name(property: &Property) -> String {
    match property.value {
        ValueType::Id => "id".to_owned(),
        _ => property.name.replace('_', "-"),
    }
}

/// One type of record: its fields in any order, its ids as attributes.
fn record(own: Kind, name: &str, kinds: &[Kind]) -> String {
    let of = |property: &&Property| kinds.contains(&property.kind);
    let mut text = format!("  <xs:complexType name=\"{name}\">\n    <xs:all>\n");
    for property in PROPERTIES.iter().filter(of).filter(|p| !is_attribute(p)) {
        let of_type = match property.value {
            ValueType::Quantity(_) => "quantity",
            _ => "xs:string",
        };
        // Writing to a String cannot fail, here and below.
        let _ = writeln!(
            text,
            "      <xs:element name=\"{}\" type=\"{of_type}\" minOccurs=\"0\"/>",
            xml_name(property)
        );
    }
    text.push_str("    </xs:all>\n");
    let attributes = PROPERTIES.iter().filter(|property| property.kind == own);
    for property in attributes.filter(|property| is_attribute(property)) {
        let _ = writeln!(
            text,
            "    <xs:attribute name=\"{}\" type=\"xs:string\"/>",
            xml_name(property)
        );
    }
    text.push_str("  </xs:complexType>\n");
    text
}

/// The section of a kind, which holds so many records at the least; without a number it may also be
/// left out, as all may in any order.
pub(super) fn section(kind: Kind, least: Option<u8>) -> String {
    let records: Vec<(&str, String)> = match kind {
        Kind::Stock => [Kind::Cutter, Kind::Collet]
            .map(|kind| (kind.name(), format!("stock-{}", kind.name())))
            .to_vec(),
        _ => vec![(kind.name(), kind.name().to_owned())],
    };
    let times = least.map_or_else(String::new, |least| format!(" minOccurs=\"{least}\""));
    let mut text = format!(
        "        <xs:element name=\"{}\"{times}>\n          <xs:complexType><xs:choice minOccurs=\"{}\" maxOccurs=\"unbounded\">\n",
        kind.section(),
        least.unwrap_or(0)
    );
    for (element, of_type) in records {
        let _ = writeln!(
            text,
            "            <xs:element name=\"{element}\" type=\"{of_type}\"/>"
        );
    }
    text.push_str("          </xs:choice></xs:complexType>\n        </xs:element>\n");
    text
}
