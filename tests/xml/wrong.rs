//! Names, texts and units where none belong: told once, at their place, and never believed.

use shankwise::library::{Field, Kind, Library};

use super::{PARTS, document, library};

/// Rule, place and the words behind the last semicolon of each fault of form in the document.
fn told(library: &Library) -> Vec<(String, String, String)> {
    let wanted = library
        .faults()
        .filter(|fault| fault.missing.is_none() && fault.kind != "record/part-unused");
    wanted
        .map(|fault| {
            let word = |name: &str| {
                let mut args = fault.args.iter();
                args.find(|(word, _)| *word == name)
                    .map_or("", |(_, value)| value.as_ref())
            };
            let at = library.sources.position(fault.places[0].place);
            let what = match fault.kind {
                "record/unknown-element" => format!(
                    "{} in {}: {}",
                    word("element"),
                    word("parent"),
                    word("hint")
                ),
                _ => format!("{}: {}", word("property"), word("problem")),
            };
            (
                fault.kind.trim_start_matches("record/").to_owned(),
                format!("{}:{}", at.line, at.column),
                what,
            )
        })
        .collect()
}

fn changed(from: &str, to: &str) -> Library {
    assert!(PARTS.contains(from), "{from}");
    library(&document(&PARTS.replacen(from, to, 1)))
}

fn one(from: &str, to: &str) -> (Library, String) {
    let library = changed(from, to);
    let told = told(&library);
    let [(kind, place, what)] = told.as_slice() else {
        panic!("{to}: {told:?}");
    };
    let told = format!("{kind} {place} {what}");
    (library, told)
}

const STICK: &str = "<stick-out>65</stick-out>";

#[test]
fn each_is_told_with_what_was_meant() {
    let cases = [
        (
            "<cutters>",
            "<cutters from='crib'>",
            "unknown-element 2:16 from in cutters: ",
        ),
        (
            "<cutter id",
            "<cutter made='1987' id",
            "unknown-element 2:24 made in cutter: ",
        ),
        (
            "<cutter id",
            "<cutter bore-length='3' id",
            "unknown-element 2:31 bore-length in cutter: `bore-length` belongs to the collet",
        ),
        (
            STICK,
            "<stick-out>65</stick-out><stik-out>1</stik-out>",
            "unknown-element 4:91 stik-out in assembly: did you mean `stick-out`?",
        ),
        (
            STICK,
            "<stick-out measured='mm'>65</stick-out>",
            "unknown-element 4:87 measured in stick-out: only `unit` is allowed there",
        ),
        (
            STICK,
            "<stick-out>65</stick-out> about 3",
            "unknown-element 4:92 text in assembly: put each value in an element of its own",
        ),
        (
            "<assembly ",
            "or <assembly ",
            "unknown-element 4:13 text in assemblies: put each value in an element of its own",
        ),
        (
            "<cutters>",
            "cutters: <cutters>",
            "unknown-element 2:1 text in shankwise: put each value in an element of its own",
        ),
        (
            STICK,
            "<stick-out>65</stick-out><description unit='mm'>long</description>",
            "unknown-element 4:110 unit in description: only quantities have one",
        ),
        (
            STICK,
            "<stick-out unit='N m'>65</stick-out>",
            "cell-unreadable 4:83 stick_out: `N·m` does not measure this; expected mm, in, cm, m or µm",
        ),
        (
            STICK,
            "<stick-out>65 N m</stick-out>",
            "cell-unreadable 4:77 stick_out: `N·m` does not measure this; expected mm, in, cm, m or µm",
        ),
        (
            "<assemblies>",
            "<gadgets><x/></gadgets><assemblies>",
            "unknown-element 4:1 gadgets in shankwise: expected one of: assemblies, cutters, collets, nuts, holders, operations, stock",
        ),
        (
            "<cutters>",
            "<cutters><collet id='c'/>",
            "unknown-element 2:10 collet in cutters: expected `cutter`",
        ),
    ];
    for (from, to, expected) in cases {
        assert_eq!(one(from, to).1, expected, "{to}");
    }
    let root = document(PARTS).replace("units=", "unitts=");
    let told = told(&library(&root));
    assert_eq!(told[0].1, "1:52");
    assert_eq!(told[0].2, "unitts in shankwise: did you mean `units`?");
}

#[test]
fn a_value_with_an_element_in_it_is_not_believed() {
    for inside in [
        "<b>6</b>5",
        "6<b/>5",
        "65<b><c>1</c></b>",
        "<v:x xmlns:v='urn:v'/>65",
    ] {
        let text = format!("<stick-out>{inside}</stick-out>");
        let (library, told) = one(STICK, &text);
        assert!(told.contains("so `stick-out` is not read either"), "{told}");
        assert!(library.assemblies[0].record.get(Field::StickOut).is_none());
    }
}

#[test]
fn what_another_namespace_says_is_left_to_it() {
    let note = "<v:note xmlns:v='urn:v' a='1'><v:stick-out>1</v:stick-out>text</v:note>";
    let (library, told) = one(STICK, &format!("{STICK}{note}{note}"));
    assert_eq!(
        told,
        "unknown-element 4:91 v:note in assembly: it is of another namespace"
    );
    let entry = library.assemblies[0].record.get(Field::StickOut).unwrap();
    assert_eq!(entry.value.number(), Some(65.0));
    let other = "<stick-out xmlns='urn:v'>1</stick-out>";
    let (library, _) = one(STICK, other);
    assert!(library.assemblies[0].record.get(Field::StickOut).is_none());
}

#[test]
fn where_the_schema_lies_is_no_content() {
    let text = document(PARTS).replace(
        "units=",
        "xmlns:xsi='http://www.w3.org/2001/XMLSchema-instance' \
         xsi:schemaLocation='urn:shankwise:library:1 http://127.0.0.1:9/x.xsd' xml:lang='de' units=",
    );
    assert_eq!(told(&library(&text)), []);
}

#[test]
fn an_unknown_name_is_told_once_a_section() {
    let row = |n: i32| {
        format!(
            "<assembly tool-number='{n}'><colour>red</colour><stick-out by='me'>40</stick-out></assembly>"
        )
    };
    let rows = (0..50).map(row).collect::<Vec<_>>().concat();
    let library = library(&document(&format!("<assemblies>{rows}</assemblies>")));
    assert_eq!(library.assemblies.len(), 50);
    assert_eq!(told(&library).len(), 2);
}

#[test]
fn a_field_stated_twice_points_at_both() {
    let library = changed(STICK, "<stick-out>65</stick-out><stick-out>60</stick-out>");
    let mut faults = library.faults();
    let fault = faults
        .find(|fault| fault.kind == "record/column-twice")
        .unwrap();
    let texts: Vec<&str> = fault
        .places
        .iter()
        .map(|p| library.sources.text(p.place))
        .collect();
    assert_eq!(texts, ["60", "65"]);
    // Which of the two is right nobody knows.
    assert_eq!(library.assemblies[0].record.value(Field::StickOut), None);
    let mut faults = library.faults();
    assert!(faults.any(|fault| fault.kind == "record/stated-two-ways"));
    // An element that states nothing takes nothing away.
    let library = changed(
        STICK,
        "<stick-out/><stick-out> </stick-out><stick-out>60</stick-out>",
    );
    assert_eq!(told(&library), []);
    let entry = library.assemblies[0].record.get(Field::StickOut).unwrap();
    assert_eq!(entry.value.number(), Some(60.0));
}

#[test]
fn what_the_crib_has_is_read_by_its_element() {
    let stock = "<stock>\
        <collet id='c1'><drive-square>9</drive-square><clamping-length-min>30</clamping-length-min><location>B4</location></collet>\
        <cutter id='e1'><drive-square>8</drive-square><overall-length>110</overall-length><quantity>3</quantity></cutter>\
        <cutter id='e2'><bore-length>4</bore-length></cutter></stock><assemblies>";
    let (library, told) = one("<assemblies>", stock);
    assert!(
        told.ends_with("bore-length in cutter: `bore-length` belongs to the collet"),
        "{told}"
    );
    let stock = library.records(Kind::Stock);
    let fields = |at: usize| -> Vec<&str> {
        let entries = stock[at].entries();
        entries.map(|entry| entry.field.qualified()).collect()
    };
    let mut collet = fields(0);
    collet.sort_unstable();
    assert_eq!(
        collet,
        [
            "collet.clamping_length_min",
            "collet.collet",
            "collet.drive_square",
            "stock.location"
        ]
    );
    let mut cutter = fields(1);
    cutter.sort_unstable();
    assert_eq!(
        cutter,
        [
            "cutter.cutter",
            "cutter.drive_square",
            "cutter.overall_length",
            "stock.quantity"
        ]
    );
    assert_eq!(fields(2), ["cutter.cutter"]);
}
