//! Workbooks in folders, in an audit, on standard input and for a job.

use std::fs;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use shankwise::judge::Setup;
use shankwise::library::{Input, Kind, Loaded, load};
use tempfile::TempDir;

use super::made::{ods, ods_rows, xlsx, xlsx_rows};
use super::{HEADER, ROW};

const CUTTERS: &str =
    "id,cutting_diameter,shank_diameter,shank_length,overall_length\nEM12,12,12,45,83\n";
const TOOLS: &str = "tool_number,cutter,clamping_kind,stick_out,collet_size,bore_diameter,bore_length\n7,EM12,taper collet,33,32,12,40\n";

fn folder(files: &[(&str, &[u8])]) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, bytes) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    folder
}

fn loaded(path: &Path) -> Loaded {
    let setup = Setup::load(Some(path), None, &[], true).unwrap();
    load(Input::Path(path), &setup.read_settings())
}

fn shankwise(folder: &Path, arguments: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_shankwise"))
        .args(arguments)
        .current_dir(folder)
        .env_remove("SHANKWISE_CONFIG")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A program that reads no input may have ended before it is all written.
    let _ = child.stdin.take().unwrap().write_all(input);
    child.wait_with_output().unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

#[test]
fn a_table_of_a_folder_may_be_a_workbook() {
    let tools = xlsx(&[("Sheet1", &xlsx_rows(TOOLS))], &[]);
    let cutters = ods(&[
        ("prices", &ods_rows("a,b\n1,2\n")),
        ("Cutters", &ods_rows(CUTTERS)),
    ]);
    let own = folder(&[("assemblies.xlsx", &tools), ("cutters.ods", &cutters)]);
    let all = loaded(own.path());
    assert_eq!(all.errors, []);
    let library = all.library.unwrap();
    assert_eq!(library.records(Kind::Cutter).len(), 1);
    assert!(library.assemblies[0].part(Kind::Cutter).is_some());
    // One table in two files: one of them is out of date.
    let both = folder(&[
        ("assemblies.xlsx", &tools),
        ("cutters.ods", &cutters),
        ("cutters.csv", CUTTERS.as_bytes()),
    ]);
    let all = loaded(both.path());
    assert!(all.library.is_some());
    assert_eq!(all.errors.len(), 1);
    assert!(all.errors[0].file.ends_with("cutters.ods"));
    assert!(
        all.errors[0]
            .reason
            .starts_with("is not read, as `cutters.csv` lies beside it")
    );
}

#[test]
fn an_audit_finds_workbooks_and_says_which_it_passes_over() {
    let tools = xlsx(&[("Tools", &xlsx_rows(&format!("{HEADER}\n{ROW}\n")))], &[]);
    let prices = xlsx(&[("Prices", &xlsx_rows("article,price\nA,1\n"))], &[]);
    let parts = xlsx(&[("Sheet1", &xlsx_rows(TOOLS))], &[]);
    let (one, other) = (
        xlsx_rows(&format!("{HEADER}\n{ROW}\n")),
        xlsx_rows(&format!("{HEADER}\n13{}\n", &ROW[2..])),
    );
    let two = xlsx(&[("A", &one), ("B", &other)], &[]);
    let plant = folder(&[
        ("plant/mill/tools.xlsx", &tools),
        ("plant/prices.xlsx", &prices),
        ("plant/named/two.xlsx", &two),
        ("plant/named/shankwise.toml", b"sheet = \"B\"\n"),
        ("plant/two.xlsx", &two),
        (
            "plant/old.xls",
            &[0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1],
        ),
        ("plant/cell/assemblies.xlsx", &parts),
        ("plant/cell/cutters.csv", CUTTERS.as_bytes()),
    ]);
    let output = shankwise(
        plant.path(),
        &[
            "audit",
            "plant",
            "--out",
            "night",
            "--no-config",
            "--no-strict",
        ],
        b"",
    );
    assert!(
        output.status.code().is_some_and(|code| code < 2),
        "{}",
        text(&output.stderr)
    );
    let json = fs::read_to_string(plant.path().join("night/audit.json")).unwrap();
    for key in ["cell", "mill/tools.xlsx"] {
        assert!(json.contains(&format!("\"{key}\"")), "{key}: {json}");
    }
    for reason in ["old binary format", "more than one has the columns"] {
        assert!(json.contains(reason), "{reason}: {json}");
    }
    let output = shankwise(
        plant.path(),
        &["audit", "plant", "--out", "night2", "--no-strict"],
        b"",
    );
    assert!(
        output.status.code().is_some_and(|code| code < 2),
        "{}",
        text(&output.stderr)
    );
    let findings = fs::read_to_string(plant.path().join("night2/findings.csv")).unwrap();
    assert!(
        findings
            .lines()
            .next()
            .unwrap()
            .ends_with(",fingerprint,sheet,cell")
    );
    assert!(
        findings
            .lines()
            .any(|line| line.contains("named/two.xlsx") && line.contains(",B,")),
        "{findings}"
    );
}

#[test]
fn standard_input_is_known_by_its_bytes() {
    let tools = xlsx(&[("Tools", &xlsx_rows(&format!("{HEADER}\n{ROW}\n")))], &[]);
    let own = folder(&[]);
    let output = shankwise(own.path(), &["lint", "-", "--as", "brief"], &tools);
    assert_eq!(output.status.code(), Some(1), "{}", text(&output.stderr));
    let told = text(&output.stdout);
    assert!(
        told.starts_with("standard input: Tools!C2: error: grip/flutes-in-bore: tool 12"),
        "{told}"
    );
}

#[test]
fn a_job_may_be_a_workbook() {
    let tools = xlsx(
        &[(
            "Tools",
            &xlsx_rows(&format!("{HEADER}\n{ROW}\n13{}\n", &ROW[2..])),
        )],
        &[],
    );
    let job = ods(&[("Job", &ods_rows("tool_number,reach\n13,30\n14,\n"))]);
    let own = folder(&[("tools.xlsx", &tools), ("job.ods", &job)]);
    let output = shankwise(
        own.path(),
        &["lint", "tools.xlsx", "--job", "job.ods", "--as", "brief"],
        b"",
    );
    let told = text(&output.stdout);
    assert!(told.contains("14"), "{told} {}", text(&output.stderr));
    assert!(!told.contains("tool 12"), "{told}");
}
