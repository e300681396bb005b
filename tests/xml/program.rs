//! The program and XML: known by what it is, refused with exit status 2.

use std::fs;
use std::io::Write as _;
use std::process::{Command, Output, Stdio};

use super::{PARTS, document};
use crate::support::root;

fn run(arguments: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_shankwise"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut pipe = child.stdin.take().unwrap();
    // A program that stops early has closed the pipe.
    let _ = pipe.write_all(input);
    drop(pipe);
    child.wait_with_output().unwrap()
}

fn lint(input: &[u8]) -> (Option<i32>, String, String) {
    let output = run(&["lint", "--color", "never", "-"], input);
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    (
        output.status.code(),
        text(&output.stdout),
        text(&output.stderr),
    )
}

#[test]
fn a_document_is_known_by_what_it_holds() {
    let text = document(PARTS);
    let (status, shown, complaint) = lint(text.as_bytes());
    assert_eq!((status, complaint.as_str()), (Some(1), ""));
    assert!(shown.contains("standard input:4:77"), "{shown}");
    let folder = tempfile::TempDir::new().unwrap();
    for name in ["library", "library.csv", "library.txt"] {
        let path = folder.path().join(name);
        fs::write(&path, format!("\u{feff}{text}")).unwrap();
        let path = path.display().to_string();
        let output = run(&["lint", "--as", "json", &path], b"");
        assert_eq!(output.status.code(), Some(1));
        let shown = String::from_utf8(output.stdout).unwrap();
        assert!(shown.contains("\"form\":\"xml\""), "{shown}");
    }
}

#[test]
fn what_is_refused_is_told_with_its_place_and_nothing_else() {
    let secret = tempfile::NamedTempFile::new().unwrap();
    fs::write(secret.path(), "the secret of the shop").unwrap();
    let path = secret.path().display();
    let entities = [
        format!("<!DOCTYPE x [<!ENTITY e SYSTEM \"file://{path}\">]>"),
        format!("<!DOCTYPE x [<!ENTITY e SYSTEM '{path}'>]>"),
        format!("<!DOCTYPE x [<!ENTITY % p SYSTEM \"file://{path}\">%p;]>"),
        "<!DOCTYPE x SYSTEM \"http://127.0.0.1:9/x.dtd\">".to_owned(),
        "<!DOCTYPE x [<!ENTITY a 'ha'><!ENTITY e '&a;&a;&a;&a;&a;&a;'>]>".to_owned(),
        "<!DOCTYPE shankwise>".to_owned(),
    ];
    let body = document(&PARTS.replace(">65<", ">&e;<"));
    for entity in entities {
        let (status, shown, complaint) = lint(format!("{entity}\n{body}").as_bytes());
        assert_eq!((status, shown.as_str()), (Some(2), ""), "{entity}");
        assert!(complaint.contains("standard input:1:1"), "{complaint}");
        assert!(!complaint.contains("secret") && !complaint.contains("haha"));
    }
    // The element itself names another file: an include is only an unknown element.
    let include = format!(
        "<stick-out>65</stick-out><xi:include xmlns:xi='http://www.w3.org/2001/XInclude' parse='text' href='{path}'/>"
    );
    let text = document(&PARTS.replace("<stick-out>65</stick-out>", &include));
    let (status, shown, complaint) = lint(text.as_bytes());
    assert_eq!((status, complaint.as_str()), (Some(1), ""));
    assert!(!shown.contains("secret"), "{shown}");
}

#[test]
fn the_schema_is_printed() {
    let output = run(&["columns", "--xsd"], b"");
    assert_eq!(output.status.code(), Some(0));
    let committed = fs::read(root().join("tests/schema/library.xsd")).unwrap();
    assert_eq!(output.stdout, committed);
}
