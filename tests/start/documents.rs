//! Exports that are XML: of unknown make, a library, assets.

use std::fs;
use std::path::Path;

use tempfile::TempDir;

use super::{said, text};
use crate::support::{fixture, run};

/// What a program of unknown make may write: names as attributes, as elements, as pairs.
const TOOLS: &str = r#"<?xml version="1.0"?>
<!-- an invented export -->
<export created="2026-03-01">
 <machine name="mill 3"/>
 <tools units="mm">
  <tool nr="7">
   <name>end mill, roughing</name>
   <geometry><OAL>83</OAL><DC>12</DC></geometry>
   <shank dia="12" len="45"/>
   <stickout>62</stickout>
   <collet>C32-12</collet>
   <param name="Flutes">4</param><param name="Coat">TiN</param>
  </tool>
  <tool nr="8">
   <name>drill &amp; chamfer; &#248; 8,5</name>
   <geometry><OAL>79</OAL><DC>8.5</DC></geometry>
   <shank dia="10" len="40"/>
   <stickout unit="in">1.5</stickout>
   <collet>C32-10</collet>
   <note/>
   <param name="Flutes">2</param>
  </tool>
  <tool nr="9"><name>end mill</name><collet>C32-8</collet></tool>
 </tools>
</export>
"#;

fn start(folder: &Path, content: &str, more: &[&str]) -> std::process::Output {
    let file = folder.join("export.xml");
    fs::write(&file, content).unwrap();
    let file = file.display().to_string();
    run(&[&["start", &file], more].concat())
}

#[test]
fn elements_that_repeat_are_the_rows() {
    let folder = TempDir::new().unwrap();
    let output = start(folder.path(), TOOLS, &[]);
    let shown = text(&output);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert!(
        shown.contains("3 rows; 12 columns, a row for each element `tool`"),
        "{shown}"
    );
    // The last part of a path is a word of the trade, and never more than a guess.
    for part in [
        "\"shank/dia\"  12, 10\n      shank_diameter? ",
        "\"geometry/OAL\"  83, 79\n      overall_length? ",
        "\"stickout\"  62, 1.5 in\n      stick_out? ",
        "\"Flutes\"  4, 2\n",
        "\"note\"",
    ] {
        assert!(shown.contains(part), "{part}: {shown}");
    }
}

#[test]
fn a_library_is_made_of_an_export_in_xml_and_replaced() {
    let folder = TempDir::new().unwrap();
    let library = folder.path().join("library");
    let shown = library.display().to_string();
    let output = start(folder.path(), TOOLS, &["--into", &shown]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let page = text(&output)
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert!(
        page.contains("assemblies.csv (made from the export's elements"),
        "{page}"
    );
    assert_eq!(
        fs::read_to_string(library.join("assemblies.csv")).unwrap(),
        "tools/units,nr,name,geometry/OAL,geometry/DC,shank/dia,shank/len,stickout,collet,Flutes,Coat,note\n\
         mm,7,\"end mill, roughing\",83,12,12,45,62,C32-12,4,TiN,\n\
         mm,8,\"drill & chamfer; ø 8,5\",79,8.5,10,40,1.5 in,C32-10,2,,\n\
         mm,9,end mill,,,,,,C32-8,,,\n"
    );
    let collets = fs::read_to_string(library.join("collets.csv")).unwrap();
    assert!(collets.contains("\nC32-12,32,12,"), "{collets}");
    let newer = folder.path().join("newer.xml");
    fs::write(&newer, TOOLS.replace(">62<", ">55<")).unwrap();
    let newer = newer.display().to_string();
    let output = run(&["start", "--refresh", &newer, "--into", &shown]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let table = fs::read_to_string(library.join("assemblies.csv")).unwrap();
    assert!(
        table.contains("mm,7,\"end mill, roughing\",83,12,12,45,55,"),
        "{table}"
    );
}

#[test]
fn decimal_commas_and_groups_are_kept() {
    let folder = TempDir::new().unwrap();
    let library = folder.path().join("library");
    let shown = library.display().to_string();
    let grouped = "<a><g type='drill'><t no='1'><OAL>83,5</OAL></t><t no='2'><OAL>70</OAL></t></g>\
         <g type='end mill'><t no='3'><OAL>60</OAL></t><t no='4'><OAL>61</OAL></t></g></a>";
    let output = start(folder.path(), grouped, &["--into", &shown]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert_eq!(
        fs::read_to_string(library.join("assemblies.csv")).unwrap(),
        "g/type;no;OAL\ndrill;1;83,5\ndrill;2;70\nend mill;3;60\nend mill;4;61\n"
    );
}

/// A document often says its unit once, where no row does.
#[test]
fn inches_that_a_document_states_are_asked_for() {
    for (units, asked) in [("inch", true), ("in", true), ("mm", false)] {
        let folder = TempDir::new().unwrap();
        let library = folder.path().join("library");
        let shown = library.display().to_string();
        let tools = TOOLS.replace("units=\"mm\"", &format!("units=\"{units}\""));
        let output = start(folder.path(), &tools, &["--into", &shown]);
        let page = text(&output)
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        let question = "`tools/units` says inch in every row: are bare lengths in inches?";
        assert_eq!(page.contains(question), asked, "{units}: {page}");
        let shop = fs::read_to_string(library.join("shankwise.toml")).unwrap();
        let drafted = "\n# `tools/units` says inch in every row.\n# [units]\n# length = \"in\"\n";
        assert_eq!(shop.contains(drafted), asked, "{units}: {shop}");
    }
}

#[test]
fn other_elements_that_repeat_are_named() {
    let folder = TempDir::new().unwrap();
    let two = "<a><holder id='h1' make='x'/><holder id='h2' make='x'/><holder id='h3' make='x'/>\
         <tool tool_number='1' stick_out='40'/><tool tool_number='2' stick_out='41'/></a>";
    let shown = text(&start(folder.path(), two, &[]));
    assert!(shown.contains("a row for each element `tool`"), "{shown}");
    assert!(shown.contains("Not read: 3 elements `holder`."), "{shown}");
    // Columns called as a property are taken, as in any table.
    assert!(shown.contains("stick_out: its name"), "{shown}");
}

#[test]
fn a_document_that_is_none_or_wants_harm_is_refused_with_its_place() {
    let folder = TempDir::new().unwrap();
    let deep = format!("<a>{}{}</a>", "<b>".repeat(100), "</b>".repeat(100));
    let many: Vec<String> = (0..6000).map(|at| format!("<e{at}/>")).collect();
    let many = many.concat();
    let many = format!("<a><t/><t/>{many}</a>");
    for (content, why) in [
        ("<tools/>", "no element repeats"),
        ("<a><t><x>1</x></t></a>", "no element repeats"),
        ("<a><t x='1'/>\n<t x='2'></b></a>", ":2:"),
        ("<a><t x='1'/>\n<t x='2'/>", "cut short"),
        ("<a><t x='1'/><t x='2'/></a><b/>", "a second root element"),
        ("<a><t x='1' x='2'/><t x='2'/></a>", ":1:4"),
        (
            "<!DOCTYPE a [<!ENTITY e \"ee\">]><a><t>&e;</t><t/></a>",
            "document type",
        ),
        ("<a><t><x>&e;</x></t><t><x>1</x></t></a>", "not expanded"),
        (&deep, "deep"),
        (&many, "different elements"),
    ] {
        let output = start(folder.path(), content, &[]);
        let told = said(&output)
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        let start: String = content.chars().take(60).collect();
        assert_eq!(output.status.code(), Some(2), "{start}");
        assert!(told.contains(why), "{start}: {told}");
    }
}

#[test]
fn a_library_in_xml_needs_no_start() {
    let folder = TempDir::new().unwrap();
    let own = "<shankwise xmlns=\"urn:shankwise:library:1\"/>";
    let told = said(&start(folder.path(), own, &[]));
    assert!(
        told.contains("nothing is to be guessed: shankwise lint"),
        "{told}"
    );
}

#[test]
fn a_document_of_assets_becomes_a_folder_beside_which_tables_are_drafted() {
    let folder = TempDir::new().unwrap();
    let document = fs::read_to_string(fixture("assets/version-2.0.xml")).unwrap();
    let output = start(folder.path(), &document, &[]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let shown = text(&output)
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert!(shown.contains("1 tool"), "{shown}");
    assert!(shown.contains("shankwise lint"), "{shown}");
    assert!(shown.contains("--into FOLDER"), "{shown}");
    let library = folder.path().join("library");
    let into = library.display().to_string();
    let output = start(folder.path(), &document, &["--into", &into]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert_eq!(
        fs::read_to_string(library.join("assets.xml")).unwrap(),
        document
    );
    assert_eq!(
        fs::read_to_string(library.join("assemblies.csv")).unwrap(),
        "tool_number,assembly,collet,nut,holder,nut_torque\n12,T12-0815,,,,\n"
    );
    // Filled in, the folder is judged.
    fs::write(
        library.join("assemblies.csv"),
        "tool_number,assembly,collet,nut,holder,nut_torque\n12,T12-0815,c,,h,\n",
    )
    .unwrap();
    fs::write(
        library.join("collets.csv"),
        "id,collet_size,bore_diameter,bore_length\nc,32,16,40\n",
    )
    .unwrap();
    fs::write(
        library.join("holders.csv"),
        "id,clamping_kind,collet_size,gauge_length\nh,collet chuck,32,70\n",
    )
    .unwrap();
    let linted = run(&["lint", &into, "--as", "json"]);
    let linted: serde_json::Value = serde_json::from_slice(&linted.stdout).unwrap();
    assert_eq!(linted["summary"]["coverage"]["grip_judged"], 1, "{linted}");
    // A newer document takes the place of the copy.
    let newer = folder.path().join("newer.xml");
    fs::write(&newer, document.replace(">116.1<", ">116.2<")).unwrap();
    let newer = newer.display().to_string();
    let output = run(&["start", "--refresh", &newer, "--into", &into]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert!(
        fs::read_to_string(library.join("assets.xml"))
            .unwrap()
            .contains(">116.2<")
    );
    assert!(library.join("assets.xml.old").exists());
}
