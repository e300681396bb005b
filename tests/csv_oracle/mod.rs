//! Records and the places of their fields, against the `csv` crate's own fields and against a
//! splitter of one loop.
//!
//! With the crate all agrees but for three differences, all deliberate:
//!
//! * blanks behind a closing quote are no part of the field here, and its end there;
//! * text behind a closing quote keeps the quotes as characters here (`"M" 40` is shown as it
//!   was typed), and loses them there;
//! * a quote that is never closed, or that is "closed" in a later line in the middle of a
//!   cell, is a character here, and swallows further lines there.

mod splitter;

use proptest::prelude::*;
use shankwise::input::csv::{CsvField, CsvRecord, Records, cell_of};
use shankwise::text::Span;
use splitter::Splitter;

use crate::support::cases;
use crate::window::dice::Dice;

/// What the tested texts are made of: mostly what a splitter can trip over.
const PIECES: [&str; 16] = [
    "\"", "\"", "\"\"", ",", ",", "\r", "\n", "\r\n", " ", "\t", ";", "a", "7", "é", "∅", "\u{a0}",
];

fn hostile() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(&PIECES[..]);
    prop::collection::vec(piece, 0..60).prop_map(|pieces| pieces.concat())
}

/// A cell as a spreadsheet writes it.
fn quoted(cell: &str) -> String {
    format!("\"{}\"", cell.replace('"', "\"\""))
}

/// Well-formed text: what needs quotes has them, and some that does not.
fn well_formed() -> impl Strategy<Value = String> {
    let cell = (hostile(), any::<bool>()).prop_map(|(cell, quote)| {
        if quote || cell.contains(['"', ',', '\r', '\n']) {
            quoted(&cell)
        } else {
            cell
        }
    });
    let end = prop::sample::select(&["\n", "\r\n", "\r", "\n\n"][..]);
    let record = (prop::collection::vec(cell, 1..5), end)
        .prop_map(|(cells, end)| format!("{}{end}", cells.join(",")));
    prop::collection::vec(record, 0..6).prop_map(|records| records.concat())
}

fn oracle(text: &str, delimiter: u8) -> Vec<Vec<String>> {
    csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .from_reader(text.as_bytes())
        .into_records()
        .map(|record| record.unwrap().iter().map(str::to_owned).collect())
        .collect()
}

fn split(text: &str, delimiter: u8) -> Vec<CsvRecord> {
    let mut records = Records::new(text, delimiter);
    std::iter::from_fn(|| records.read().cloned()).collect()
}

fn raw<'t>(text: &'t str, field: &CsvField) -> &'t str {
    &text[field.span.range()]
}

/// A field's content: cut out, and unescaped where the splitter says so.
fn content(text: &str, field: &CsvField) -> String {
    if field.escaped {
        raw(text, field).replace("\"\"", "\"")
    } else {
        raw(text, field).to_owned()
    }
}

/// What the `csv` crate makes of a whole field with its quotes: inside them a doubled quote is
/// one; what follows the closing quote is taken as it stands.
fn as_the_oracle_reads(whole: &str) -> String {
    let Some(mut rest) = whole.strip_prefix('"') else {
        return whole.to_owned();
    };
    let mut text = String::new();
    while let Some(at) = rest.find('"') {
        text.push_str(&rest[..at]);
        rest = &rest[at + 1..];
        match rest.strip_prefix('"') {
            Some(after) => {
                text.push('"');
                rest = after;
            }
            None => break,
        }
    }
    text + rest
}

/// Walks over a record byte by byte and returns each field with all that belongs to it.
/// Nothing may lie between fields but their delimiter, nothing may be read twice.
fn whole_fields<'t>(text: &'t str, record: &CsvRecord, delimiter: u8) -> Vec<&'t str> {
    let bytes = text.as_bytes();
    let mut at = record.span.start as usize;
    let mut wholes = Vec::new();
    for (index, field) in record.fields.iter().enumerate() {
        if index > 0 {
            assert_eq!(bytes[at], delimiter, "between fields of {text:?}");
            at += 1;
        }
        let range = field.span.range();
        let inside_quotes = range.start == at + 1;
        assert!(inside_quotes || range.start == at, "{field:?} in {text:?}");
        let mut end = range.end;
        if inside_quotes {
            assert_eq!((bytes[at], bytes[end]), (b'"', b'"'), "{text:?}");
            end += 1;
            while end < record.span.end as usize && bytes[end] != delimiter {
                assert!(bytes[end].is_ascii_whitespace(), "lost text in {text:?}");
                end += 1;
            }
        }
        wholes.push(&text[at..end]);
        at = end;
    }
    assert_eq!(at, record.span.end as usize, "end of a record of {text:?}");
    wholes
}

fn is_line_ends(text: &str) -> bool {
    text.bytes().all(|byte| matches!(byte, b'\r' | b'\n'))
}

/// Every byte of the text stands in one field, or is a quote, a delimiter or a line end.
fn check_places(text: &str, delimiter: u8) -> Vec<(CsvRecord, Vec<&str>)> {
    let mut at = 0;
    let records = split(text, delimiter).into_iter().map(|record| {
        let between = &text[at..record.span.start as usize];
        assert!(
            (at == 0 || !between.is_empty()) && is_line_ends(between),
            "{between:?} between records of {text:?}"
        );
        at = record.span.end as usize;
        let wholes = whole_fields(text, &record, delimiter);
        (record, wholes)
    });
    let records: Vec<_> = records.collect();
    assert!(
        is_line_ends(&text[at..]),
        "{:?} is lost at the end of {text:?}",
        &text[at..]
    );
    records
}

/// Compares with the oracle; `false` where a quote is left open, which it reads differently.
fn agrees(text: &str, delimiter: u8) -> bool {
    let records = check_places(text, delimiter);
    if records.iter().any(|(record, _)| record.unclosed.is_some()) {
        return false;
    }
    let mut expected = Vec::new();
    for (record, wholes) in &records {
        for (field, whole) in record.fields.iter().zip(wholes) {
            let read = content(text, field);
            let theirs = as_the_oracle_reads(whole);
            let kept_quotes = whole.starts_with('"') && raw(text, field).starts_with(whole);
            if kept_quotes {
                assert_eq!(raw(text, field), *whole);
            } else {
                // Equal but for blanks behind a closing quote.
                let blanks = theirs.strip_prefix(&read);
                let blanks = blanks.unwrap_or_else(|| panic!("{read:?} in {text:?}"));
                assert!(blanks.bytes().all(|byte| byte.is_ascii_whitespace()));
                assert!(blanks.is_empty() || whole.starts_with('"'));
            }
        }
        let theirs = wholes.iter().map(|whole| as_the_oracle_reads(whole));
        expected.push(theirs.collect::<Vec<_>>());
    }
    assert_eq!(expected, oracle(text, delimiter), "{text:?}");
    true
}

proptest! {
    #![proptest_config(cases(256))]

    #[test]
    fn hostile_text_is_split_as_the_oracle_splits_it(text in hostile()) {
        for delimiter in [b',', b';', b'\t'] {
            agrees(&text, delimiter);
        }
    }

    #[test]
    fn well_formed_text_is_split_as_the_oracle_splits_it(text in well_formed()) {
        prop_assert!(agrees(&text, b','), "no quote is open in {:?}", text);
    }

    #[test]
    fn no_text_makes_it_panic_or_loses_a_byte(text in any::<String>()) {
        check_places(&text, b',');
    }
}

fn cells(text: &str) -> Vec<Vec<String>> {
    let records = split(text, b',');
    let read = |record: &CsvRecord| record.fields.iter().map(|f| content(text, f)).collect();
    records.iter().map(read).collect()
}

/// What the generated tables are made of: what people write, and where their quotes go astray.
const CELLS: [&str; 16] = [
    ",",
    ",",
    ",",
    ",",
    "\n",
    "\n",
    "\r\n",
    "\"",
    "\"\"",
    "12",
    "1/2\" mill",
    "\"stub",
    "end\"",
    "\"a, b\"",
    "\"two\nlines\"",
    "Ø12 ",
];

/// A cell's place, worked out anew from its record, is where the cell was read.
fn check_cells(text: &str, record: &CsvRecord, delimiter: u8) {
    let found = |column| cell_of(text, record.span, delimiter, column);
    for (column, field) in record.fields.iter().enumerate() {
        let raw = raw(text, field);
        let start = field.span.range().start + raw.len() - raw.trim_start().len();
        let expected = Span::new(start, start + raw.trim().len());
        assert_eq!(found(column), Some(expected), "{column} of {text:?}");
    }
    assert_eq!(found(record.fields.len()), None, "{text:?}");
}

/// 100,000 texts; half of pieces that a splitter can trip over, half like tables.
#[test]
fn every_record_and_place_is_as_a_single_loop_over_the_bytes_finds_them() {
    let mut dice = Dice::new(12);
    let lengths: Vec<usize> = (0..60).collect();
    let mut strays = 0;
    for round in 0..100_000 {
        let pieces = if round % 2 == 0 { &PIECES } else { &CELLS };
        let mark = if dice.chance(0.02) { "\u{feff}" } else { "" };
        let body = (0..dice.pick(&lengths)).map(|_| dice.pick(pieces));
        let text = std::iter::once(mark).chain(body).collect::<String>();
        let delimiter = dice.pick(b",;\t");
        let expected = Splitter::new(&text, delimiter);
        // A line without any character is a record there.
        let expected = expected.filter(|record| record.span.start < record.span.end);
        let expected: Vec<_> = expected
            .map(|record| (record.span, record.fields, record.unclosed))
            .collect();
        let read: Vec<_> = split(&text, delimiter)
            .into_iter()
            .map(|record| (record.span, record.fields, record.unclosed))
            .collect();
        for record in split(&text, delimiter).iter().filter(|_| round % 8 < 2) {
            check_cells(&text, record, delimiter);
        }
        strays += usize::from(read.iter().any(|(_, _, unclosed)| unclosed.is_some()));
        assert_eq!(read, expected, "{text:?}");
    }
    assert!((20_000..80_000).contains(&strays), "{strays} stray quotes");
}

#[test]
fn a_blank_line_is_no_record() {
    assert_eq!(cells("a\n\n\r\nb\n\n"), [["a"], ["b"]]);
    assert_eq!(cells("\n\n"), [[]; 0] as [[&str; 0]; 0]);
}

#[test]
fn a_second_byte_order_mark_is_text() {
    let text = "\u{feff}\"a,b\",c\nd";
    let expected = [vec!["\u{feff}\"a", "b\"", "c"], vec!["d"]];
    assert_eq!(cells(text), expected);
}

#[test]
fn blanks_behind_a_closing_quote_are_left_out() {
    assert_eq!(cells("\"a\" ,b"), [["a", "b"]]);
    assert_eq!(oracle("\"a\" ,b", b','), [["a ", "b"]]);
}

#[test]
fn text_behind_a_closing_quote_keeps_the_quotes() {
    assert_eq!(cells("\"M\" 40,b"), [["\"M\" 40", "b"]]);
    assert_eq!(oracle("\"M\" 40,b", b','), [["M 40", "b"]]);
}

#[test]
fn an_inch_mark_is_a_character() {
    assert_eq!(cells("1/2\" end mill,5\"\n"), [["1/2\" end mill", "5\""]]);
    assert_eq!(cells("\"1/2\"\" long\",b"), [["1/2\" long", "b"]]);
}

#[test]
fn a_quote_without_end_is_a_character_and_its_line_ends_where_it_ends() {
    let text = "a,\"b,c\nd,e\n";
    assert_eq!(cells(text), [vec!["a", "\"b", "c"], vec!["d", "e"]]);
    let records = split(text, b',');
    assert_eq!(records[0].unclosed, Some(2));
    assert_eq!(records[1].unclosed, None);
    assert_eq!(oracle(text, b','), [["a", "b,c\nd,e\n"]]);
}

#[test]
fn a_quote_closed_lines_later_in_the_middle_of_a_cell_was_never_meant_to_be_closed() {
    let text = "a,\"b,c\nd,1/2\" mill\ne,f\n";
    let expected = [
        vec!["a", "\"b", "c"],
        vec!["d", "1/2\" mill"],
        vec!["e", "f"],
    ];
    assert_eq!(cells(text), expected);
    assert_eq!(split(text, b',')[0].unclosed, Some(2));
    assert_eq!(oracle(text, b',').len(), 2, "the oracle loses a record");
}

#[test]
fn a_newline_in_a_properly_closed_cell_stays_in_it() {
    assert_eq!(cells("\"a\r\nb\",c\rd"), [vec!["a\r\nb", "c"], vec!["d"]]);
}

#[test]
fn an_empty_text_has_no_record_and_a_trailing_delimiter_an_empty_field() {
    assert!(split("", b',').is_empty());
    assert_eq!(cells("a,"), [["a", ""]]);
    assert_eq!(cells("\"\""), [[""]]);
}

#[test]
fn many_stray_quotes_take_time_in_proportion_to_the_text() {
    // Each line opens a quote; were each searched to the end of the file, 20 000 lines would
    // cost 10^10 steps, and this test minutes.
    let text = "\"a,b\n".repeat(20_001);
    check_places(&text, b',');
    let text = "\"\"\"\"x,\"\"\n".repeat(20_001);
    check_places(&text, b',');
    // Each line ends the quotation of the one before and opens another: to the csv crate all
    // are one record, from whichever line it starts.
    let text = "b\"q,z,\"a\n".repeat(20_001);
    let records = check_places(&text, b',');
    assert_eq!(records.len(), 20_001);
    // Only the first quote is stray, and all behind it is sound.
    let text = format!("a,\"b\n{}", "c,d\n".repeat(100_000));
    let records = check_places(&text, b',');
    assert_eq!(records.len(), 100_001);
}
