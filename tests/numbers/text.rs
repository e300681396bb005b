//! Text and its places: encodings, lines and columns, and what a terminal must not see.

use proptest::prelude::*;
use shankwise::text::{
    NameIndex, NotText, Place, Position, Source, Sources, Span, closest, visible,
};

use crate::support::cases;

fn source(bytes: &[u8]) -> Source {
    Source::from_bytes("t.csv", bytes.to_vec()).expect("this is text")
}

/// Line and column by walking over every character from the start.
fn naive(text: &str, offset: usize) -> Position {
    let (mut line, mut column) = (1, 1);
    for (at, c) in text.char_indices() {
        if at + c.len_utf8() > offset {
            break;
        }
        let line_end = c == '\n' || (c == '\r' && !text[at + 1..].starts_with('\n'));
        if line_end {
            (line, column) = (line + 1, 1);
        } else {
            column += 1;
        }
    }
    Position { line, column }
}

#[test]
fn lines_and_columns_of_every_kind_of_text() {
    let texts = [
        "a,b\nc,d\n",
        "a,b\r\nc,d\r\n",
        "a,b\rc,d\r",
        "a\n\r\nb\r\r\nc",
        "Ø,µm\r\n∅12,\u{1f527}x\r\n",
        "a,\"quoted\r\nnewline\",b\nc",
        "",
        "\n",
        "no line end",
    ];
    for text in texts {
        for mark in ["", "\u{feff}"] {
            let source = source(format!("{mark}{text}").as_bytes());
            assert_eq!(source.text(), text, "a byte-order mark is no text");
            for offset in 0..=text.len() {
                let expected = naive(text, offset);
                assert_eq!(source.position(offset), expected, "{text:?} at {offset}");
            }
            let end = source.position(text.len());
            assert_eq!(source.position(text.len() + 7), end, "past the end");
        }
    }
}

#[test]
fn a_position_in_words() {
    let source = source("tool,Ø\r\n\"a\r\nb\",µ12\r\n".as_bytes());
    let at = source.text().find("12").unwrap();
    assert_eq!(source.position(at), Position { line: 3, column: 5 });
}

proptest! {
    #![proptest_config(cases(256))]

    #[test]
    fn positions_agree_with_a_walk_from_the_start(pieces in prop::collection::vec(
        prop::sample::select(&["\r", "\n", "\r\n", "a", ",", "\"", "µ", "∅", "\u{1f527}"][..]), 0..40))
    {
        let text = pieces.concat();
        let source = source(text.as_bytes());
        for offset in 0..=text.len() {
            prop_assert_eq!(source.position(offset), naive(&text, offset));
        }
    }

    #[test]
    fn nothing_that_a_terminal_acts_on_is_left(text in any::<String>()) {
        let shown = visible(&text);
        prop_assert!(!shown.chars().any(acts));
        if !text.chars().any(acts) {
            prop_assert_eq!(shown.as_ref(), text.as_str());
        }
    }

    #[test]
    fn no_bytes_make_decoding_panic(bytes in any::<Vec<u8>>()) {
        if let Ok(source) = Source::from_bytes("t", bytes) {
            prop_assert!(!source.text().contains('\0'));
            let _ = source.position(source.text().len());
        }
    }
}

/// Control characters (Unicode category Cc), line and paragraph separators, and the characters
/// with the property Bidi_Control (Unicode Standard Annex 9).
fn acts(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{2028}' | '\u{2029}')
        || matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[test]
fn everything_that_a_terminal_acts_on_becomes_visible() {
    for c in (0..=0x0010_ffff).filter_map(char::from_u32) {
        let shown = visible(&format!("a{c}b")).into_owned();
        assert!(!shown.chars().any(acts), "{c:?}");
    }
    assert_eq!(visible("\u{1b}[2J"), "\\u{1b}[2J");
    assert_eq!(visible("a\tb\nc"), "a\\u{9}b\\u{a}c");
    assert_eq!(visible("Ø 12 µm ∅ 刀"), "Ø 12 µm ∅ 刀");
}

#[test]
fn encodings() {
    let text = "Ø;µm\r\n";
    let little: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let big: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
    assert_eq!(source(&[&[0xff, 0xfe][..], &little].concat()).text(), text);
    assert_eq!(source(&[&[0xfe, 0xff][..], &big].concat()).text(), text);
    assert_eq!(
        source(&[&[0xef, 0xbb, 0xbf], text.as_bytes()].concat()).text(),
        text
    );
    assert_eq!(source(b"\xd8;\xb5m\r\n").text(), text, "Windows-1252");
    assert_eq!(source(b"1/2\x94 mill").text(), "1/2” mill", "Windows-1252");
}

#[test]
fn bytes_that_are_no_text() {
    let refused = |bytes: &[u8]| Source::from_bytes("t", bytes.to_vec()).err();
    assert_eq!(refused(b"ab\0c"), Some(NotText::Binary(2)));
    assert_eq!(refused(b"\0"), Some(NotText::Binary(0)));
    assert_eq!(
        refused(b"\xff\xfea"),
        Some(NotText::Binary(2)),
        "half a UTF-16 unit"
    );
    // é in Windows-1252, then a byte that the code page leaves open.
    assert_eq!(refused(b"ab\xe9c\x81"), Some(NotText::Binary(4)));
    assert_eq!(refused(b"ab\xe9c\x02"), Some(NotText::Binary(4)));
    assert_eq!(refused(b""), None, "an empty text is a text");
    let told = NotText::Binary(4).to_string();
    assert!(
        told.starts_with("byte 5 ") && told.contains("UTF-8"),
        "{told}"
    );
}

#[test]
fn did_you_mean() {
    let known = ["overall_length", "shank_length", "nut", "reach"];
    let near = |name| closest(name, known);
    assert_eq!(near("overal_length"), Some("overall_length"));
    assert_eq!(near("Shank_Lenght"), Some("shank_length"));
    assert_eq!(near("nuts"), Some("nut"));
    assert_eq!(near("price"), None);
    assert_eq!(near(""), None);
    assert_eq!(
        near(&"x".repeat(100_000)),
        None,
        "a cell of 100 kB is no name"
    );
}

/// Of many names an index picks what is compared: whoever is one slip away is found whatever
/// stands between, two slips where the names begin alike, and the choice is that of few names.
#[test]
fn did_you_mean_among_many() {
    let ids: Vec<String> = (0..20_000).map(|at| format!("EM-{at:05}-x")).collect();
    let all = NameIndex::new(ids.iter().map(String::as_str));
    let slips = [
        "EM-01234-",
        "EM-01234x",
        "em-01234-X",
        "EM-91234-x",
        "M-01234-x",
        "EM-01234-xx",
        "EM-01234-y",
    ];
    for slip in slips {
        let near = closest(slip, ids.iter().map(String::as_str));
        assert_eq!(all.closest(slip), near, "{slip}");
        assert!(near.is_some(), "{slip}");
    }
    assert_eq!(all.closest("EM-01234-xyz"), Some("EM-01234-x"), "two slips");
    // A name is never proposed for itself.
    assert_ne!(all.closest("EM-01234-x"), Some("EM-01234-x"));
    assert_eq!(all.closest("price"), None);
    assert_eq!(all.closest(&"x".repeat(100_000)), None);
    // Of few names all are compared.
    let few = NameIndex::new(["overall_length", "reach"]);
    assert_eq!(few.closest("ovral_lenth"), Some("overall_length"));
}

#[test]
fn a_file_as_a_whole_stands_nowhere_in_it() {
    let mut sources = Sources::default();
    let id = sources.add(source(b"a,b\nc,d\n"));
    let file = Place::file(id);
    assert!(file.is_file());
    assert_eq!(sources.name(file), "t.csv");
    assert_eq!(sources.text(file), "");
    assert_eq!(sources.cell(file), "");
    assert_eq!(sources.position(file), Position { line: 1, column: 1 });
    // The empty text at its start is a place within it.
    let start = Place {
        source: id,
        span: Span::new(0, 0),
    };
    assert!(!start.is_file() && start != file);
}
