//! Every stated value points at its text, however it is written.

use shankwise::library::{Kind, Record};
use shankwise::text::Position;
use shankwise::units::Scalar;

use super::library;

/// Lines of a document in which every value stands once, with what is read and the text that
/// its place must show; `|` marks where that begins.
const LINES: [(&str, &[(&str, &str)]); 11] = [
    (
        "<shankwise xmlns='urn:shankwise:library:1' units=' mm '><!-- Ø -->",
        &[],
    ),
    ("<cutters>", &[]),
    ("  <cutter id=' |em12 '>", &[("em12", "em12")]),
    ("    <description>Ø12 |&#216;12 long</description>", &[]),
    (
        "    <overall-length unit='mm'>\t|83 </overall-length>",
        &[("83", "83")],
    ),
    (
        "    <shank-length><![CDATA[ |45 ]]></shank-length>",
        &[("45", "45")],
    ),
    (
        "    <shank-tolerance> |&#104;6 </shank-tolerance>",
        &[("h6", "&#104;6")],
    ),
    (
        "    <cutter-kind>|end <!-- not a --><![CDATA[mill]]> </cutter-kind></cutter></cutters>",
        &[("end mill", "end <!-- not a --><![CDATA[mill")],
    ),
    (
        "<assemblies><assembly tool-number=\"|7 &amp; &#56;\"",
        &[("7 & 8", "7 &amp; &#56;")],
    ),
    ("  cutter='|em12'><stick-out", &[("em12", "em12")]),
    (
        "  >|65</stick-out></assembly></assemblies></shankwise>",
        &[("65", "65")],
    ),
];

fn check(line_end: &str) {
    let written: Vec<String> = LINES
        .iter()
        .map(|(line, _)| line.replace('|', ""))
        .collect();
    let text = written.join(line_end);
    let library = library(&text);
    let records: [&Record; 2] = [
        &library.records(Kind::Cutter)[0],
        &library.assemblies[0].record,
    ];
    let entries: Vec<_> = records.iter().flat_map(|record| record.entries()).collect();
    for (number, (line, values)) in LINES.iter().enumerate() {
        for (value, shown) in *values {
            let column = line.chars().position(|c| c == '|').unwrap() + 1;
            let at = Position {
                line: number + 1,
                column,
            };
            let entry = entries
                .iter()
                .find(|entry| library.sources.position(entry.place()) == at);
            let entry = entry.unwrap_or_else(|| panic!("nothing at {at:?} of\n{text}"));
            assert_eq!(library.sources.text(entry.place()), *shown);
            let read = match &entry.value {
                Scalar::Number(number) => number.to_string(),
                Scalar::Text(text) => text.to_string(),
                Scalar::Word(word) => word.word.to_owned(),
                Scalar::Truth(flag) => panic!("{flag}"),
            };
            assert_eq!(read, *value);
        }
    }
    let stated: usize = LINES.iter().map(|(_, values)| values.len()).sum();
    assert_eq!(entries.len(), stated + 1, "and the description");
}

#[test]
fn every_line_end() {
    check("\n");
    check("\r\n");
    check("\r");
}
