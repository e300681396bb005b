//! Texts from input are cut where they are shown, whatever their length: a screen is no place for
//! a megabyte, and a length that no formatter bears must not end the program.

use super::{Bench, HEADER, SHORT, run, status};

/// Longer than a width that the standard library's formatter takes.
const LONG: usize = 65_528;
/// More than any of these runs has to say.
const MUCH: usize = 100_000;

fn long(letter: &str) -> String {
    letter.repeat(LONG)
}

/// Runs the program in all its forms over a path; what it says on either side stays small, and it
/// ends by itself.
fn stays_small(path: &str, with: &[&str]) {
    for form in [
        &["lint", "--show", "all"][..],
        &["lint", "--as", "plain", "--show", "all"],
        &["lint", "--as", "json", "--with-facts"],
        &["facts"],
        &["facts", "--as", "json"],
    ] {
        let mut arguments = form.to_vec();
        arguments.extend(with);
        arguments.push(path);
        let output = run(&arguments);
        let (said, told) = (output.stdout.len(), output.stderr.len());
        let start: String = String::from_utf8_lossy(&output.stderr)
            .chars()
            .take(300)
            .collect();
        assert!(status(&output) <= 2, "{form:?} {path}: {start}");
        assert!(
            said < MUCH && told < 8_000,
            "{form:?}: {said} {told} {start}"
        );
    }
}

#[test]
fn in_every_column() {
    let bench = Bench::new();
    for letter in ["7", "é", "\u{1b}"] {
        let long = long(letter);
        let row = SHORT.replacen('2', &long, 1);
        stays_small(&bench.put("number.csv", format!("{HEADER}\n{row}\n")), &[]);
        // Twice one number, so that two rows name each other.
        stays_small(
            &bench.put("twice.csv", format!("{HEADER}\n{row}\n{row}\n")),
            &[],
        );
        let columns = "assembly,machine,description,cutter,holder,cutter_kind,nut_thread,reach,\
                       clearance,operation,workpiece_material,sealed,flute_count";
        let cells = vec![long.as_str(); columns.split(',').count()].join(",");
        let text = format!("{HEADER},{columns}\n{SHORT},{cells}\n");
        stays_small(&bench.put("cells.csv", text), &[]);
        let headers = [
            long.clone(),
            format!("stick_out [{long}]"),
            format!("reach {long}"),
            format!("{long} reach"),
        ];
        let text = format!("{HEADER},{}\n{SHORT},1,1,1,1\n", headers.join(","));
        stays_small(&bench.put("headers.csv", text), &[]);
        let text = format!("{HEADER},reach,operation_kind\n{SHORT},3 {long},{long}\n");
        stays_small(&bench.put("unit.csv", text), &[]);
    }
}

#[test]
fn in_a_folder() {
    let bench = Bench::new();
    let long = long("k");
    bench.put(
        "l/assemblies.csv",
        format!("tool_number,cutter,collet,stick_out\n1,{long},C,65\n1,{long}x,D,65\n"),
    );
    bench.put(
        "l/cutters.csv",
        format!("cutter,overall_length\n{long},83\n{long},83\n{long}y,80\n"),
    );
    bench.put(
        "l/operations.csv",
        format!("operation,tool_number,reach\n{long},{long},50\n{long},1,50\n"),
    );
    bench.put("l/shankwise.toml", format!("name = \"{long}\"\n"));
    stays_small(&bench.text_path("l"), &[]);
}

#[test]
fn in_a_document() {
    let bench = Bench::new();
    let long = long("n");
    let document = |inside: &str| {
        format!("<shankwise xmlns='urn:shankwise:library:1' units='mm'>{inside}</shankwise>")
    };
    let assembly = |inside: &str| {
        document(&format!(
            "<assemblies><assembly tool-number='1'>{inside}</assembly></assemblies>"
        ))
    };
    let cases = [
        document(&format!("<{long}/><assemblies><assembly/></assemblies>")),
        document(&format!("<assemblies><{long}/><assembly/></assemblies>")),
        document(&format!(
            "<assemblies {long}='1'><assembly {long}='{long}'/></assemblies>"
        )),
        assembly(&format!("<{long}>1</{long}>")),
        assembly(&format!("<stick-out unit='{long}'>1</stick-out>")),
        assembly(&format!("<stick-out {long}='1'>1</stick-out>")),
        assembly(&format!("<stick-out>{long}</stick-out>")),
        assembly(&format!("<stick-out>1<{long}/></stick-out>")),
        assembly(&format!("<stick-out>&{long};</stick-out>")),
        assembly(&format!("<stick-out>1</{long}>")),
        assembly(&format!("<{long}:stick-out>1</{long}:stick-out>")),
        assembly(&format!("<?{long}:x?>")),
        assembly(&format!("<stick-out {long}='1' {long}='1'>1</stick-out>")),
        assembly(&format!("<stick-out a{long}=1>1</stick-out>")),
        document("<assemblies><assembly/></assemblies>").replace("'mm'", &format!("'{long}'")),
        format!("<{long}/>"),
        format!("<?xml version='1.0' encoding='{long}'?>{}", document("")),
        format!("<{long}"),
    ];
    for text in cases {
        stays_small(&bench.put("library.xml", text), &[]);
    }
}

#[test]
fn in_shop_files_and_rules() {
    let bench = Bench::new();
    let long = long("s");
    let library = bench.library("tools.csv", &[SHORT]);
    let configs = [
        format!("{long} = 1\n"),
        format!("[rule.\"{long}\"]\nlevel = \"off\"\n"),
        format!("[limit]\n{long} = 1\n"),
        format!("[limit]\nmin_grip_fraction = \"{long}\"\n"),
        format!("[units]\nlength = \"{long}\"\n"),
        format!("[columns]\n\"x\" = \"{long}\"\n"),
        format!("[rule.\"torque/not-stated\"]\nlevel = \"off\"\nreason = \"{long}\"\n"),
        format!(
            "[[accept]]\nrule = \"grip/short-grip\"\ntool_number = \"2\"\nreason = \"{long}\"\nby = \"{long}\"\nuntil = 2099-01-01\n"
        ),
        long.clone(),
    ];
    for text in configs {
        let config = bench.put("plant.toml", text);
        stays_small(&library, &["--config", &config]);
    }
    let rule = |expect: &str| {
        format!(
            "title = \"{long}\"\nlevel = \"error\"\nbasis = \"shop\"\nconsequence = \"scrap\"\nexpect = \"{expect}\"\nmessage = \"{long}\"\nwhy = \"{long}\"\nadvice = \"{long}\"\n"
        )
    };
    for expect in [
        "stick_out < 1 mm".to_owned(),
        format!("{long} < 1 mm"),
        format!("stick_out < '{long}'"),
    ] {
        bench.put("rules/reach/mine.toml", rule(&expect));
        stays_small(&library, &["--rules", &bench.text_path("rules")]);
    }
}

/// What a user types is shown again, and cut like everything else.
#[test]
fn in_arguments() {
    let long = long("a");
    for arguments in [
        &["lint", &long][..],
        &["lint", "--only", &long, "fixtures/demo"],
        &["lint", &format!("--{long}"), "fixtures/demo"],
        &["lint", "--fail-on", &long, "fixtures/demo"],
        &[&long],
        &["rules", &long],
        &["columns", &long],
        &["window", &format!("--{long}"), "1"],
        &["window", "--reach", &long],
        &["window", "--description", &long, "--reach", "10"],
    ] {
        let output = run(arguments);
        let command: String = arguments[0].chars().take(10).collect();
        assert!(status(&output) <= 2, "{command}");
        let (said, told) = (output.stdout.len(), output.stderr.len());
        assert!(said < MUCH && told < 8_000, "{command}: {said} {told}");
    }
}
