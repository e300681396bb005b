//! The bytes decide the encoding; a declaration that disagrees is refused, not misread.

use shankwise::library::Field;

use super::{PARTS, document, read, refused};

/// A document whose description has letters beyond ASCII.
fn text(declared: Option<&str>) -> String {
    let told = declared.map_or(String::new(), |name| {
        format!("<?xml version=\"1.0\" encoding=\"{name}\"?>\n")
    });
    let parts = PARTS.replace(
        "<stick-out>",
        "<description>Fräser Ø12</description><stick-out>",
    );
    told + &document(&parts)
}

fn code_page(text: &str) -> Vec<u8> {
    // Of the characters used, each is its own byte in Windows-1252.
    text.chars().map(|c| u8::try_from(c).unwrap()).collect()
}

fn utf_16(text: &str, big: bool) -> Vec<u8> {
    let bytes = |unit: u16| {
        if big {
            unit.to_be_bytes()
        } else {
            unit.to_le_bytes()
        }
    };
    let mark = bytes(0xfeff);
    mark.into_iter()
        .chain(text.encode_utf16().flat_map(bytes))
        .collect()
}

fn reads(bytes: &[u8]) {
    let loaded = read(bytes);
    assert_eq!(loaded.errors, []);
    let library = loaded.library.unwrap();
    let record = &library.assemblies[0].record;
    assert_eq!(record.text(Field::AssemblyDescription), Some("Fräser Ø12"));
    assert_eq!(
        library.faults().count(),
        super::library(&text(None)).faults().count()
    );
}

#[test]
fn what_agrees_is_read() {
    for name in [None, Some("UTF-8"), Some("utf8")] {
        reads(text(name).as_bytes());
        reads(&[&b"\xef\xbb\xbf"[..], text(name).as_bytes()].concat());
    }
    for big in [false, true] {
        reads(&utf_16(&text(None), big));
        reads(&utf_16(&text(Some("UTF-16")), big));
    }
    for name in ["windows-1252", "ISO-8859-1"] {
        reads(&code_page(&text(Some(name))));
        // A program that changed the bytes and forgot the declaration.
        reads(text(Some(name)).as_bytes());
    }
}

#[test]
fn what_disagrees_is_refused() {
    let (place, reason) = refused(&code_page(&text(None)));
    assert_eq!(place, "4:81", "{reason}");
    assert!(reason.contains("not UTF-8"), "{reason}");
    let (place, reason) = refused(&code_page(&text(Some("UTF-8"))));
    assert_eq!(place, "5:81", "{reason}");
    for name in ["ISO-8859-2", "Shift_JIS"] {
        let (place, reason) = refused(text(Some(name)).as_bytes());
        assert_eq!(place, "1:1");
        assert!(
            reason.contains(name) && reason.contains("save the document in UTF-8"),
            "{reason}"
        );
    }
    let (_, reason) = refused(text(Some("klingon")).as_bytes());
    assert!(reason.contains("is not known"), "{reason}");
    // Nothing beyond ASCII: every code page that holds it says the same.
    let plain = text(Some("ISO-8859-2")).replace("ä", "a").replace("Ø", "D");
    assert_eq!(read(plain.as_bytes()).errors, []);
}

#[test]
fn the_declaration_opens_the_file() {
    let (place, reason) = refused(format!("\n{}", text(Some("UTF-8"))).as_bytes());
    assert_eq!(place, "2:1");
    assert!(reason.contains("must open the file"), "{reason}");
}

#[test]
fn bytes_that_no_text_holds_are_refused() {
    let whole = document(PARTS);
    let nul = whole.replace(">65<", ">6\u{0}5<");
    let (_, reason) = refused(nul.as_bytes());
    let at = nul.find('\0').unwrap() + 1;
    assert!(reason.contains(&format!("byte {at} ")), "{reason}");
    // UTF-16 without its mark is full of NUL.
    let bare: Vec<u8> = whole.encode_utf16().flat_map(u16::to_le_bytes).collect();
    assert!(refused(&bare).1.contains("byte 2 "));
    let mut odd = utf_16(&whole, false);
    odd.pop();
    assert!(!refused(&odd).1.is_empty());
}
