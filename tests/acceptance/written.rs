//! What `accept` writes: one more entry, and every other byte as it was.

use std::fs;

use super::{Cell, GRIP, REACH, said};

const SHOP: &str = "# The cell's own file.\n\nname   =   'cell 3' # as we call it\n\n[limit]\n# Our stops are locked.\nclosing_room = \"0.5 mm\"   # ground\n\n\n[[accept]] # first\nby=\"somebody\"\nrule = \"stiffness/tip-bends\"\ntool_number = \"99\"\nreason = '''two\nlines'''\n\n[rule.\"torque/not-stated\"]\nlevel = \"warning\"\n# The end.\n";

/// The old file is the beginning of the new one.
#[test]
fn comments_and_order_are_as_they_were() {
    for old in [
        SHOP,
        SHOP.trim_end(),
        "# only a comment",
        "name = \"c\"\n\n",
        "",
        "\n",
        "\u{feff}name = \"c\"\n",
    ] {
        let cell = Cell::new();
        cell.put("cell/shankwise.toml", old);
        let cell = cell.accepted(GRIP);
        let new = cell.read("cell/shankwise.toml");
        let added = new.strip_prefix(old).unwrap_or_else(|| panic!("{new}"));
        assert!(
            added.trim_start().starts_with("[[accept]]\nrule = "),
            "{added:?}"
        );
        assert!(!new.contains("\n\n\n[[accept]]\nrule"), "{new:?}");
        assert!(cell.finding(GRIP)["accepted"].is_object(), "{new}");
        assert!(!new.contains('\r'));
    }
}

/// The lines end as the file's lines end, and no reader sees a mixture.
#[test]
fn line_ends_are_those_of_the_file() {
    for old in [
        SHOP.replace('\n', "\r\n"),
        SHOP.trim_end().replace('\n', "\r\n"),
    ] {
        let cell = Cell::new();
        cell.put("cell/shankwise.toml", &old);
        let cell = cell.accepted(GRIP).accepted(REACH);
        let new = cell.read("cell/shankwise.toml");
        assert!(new.starts_with(&old));
        assert_eq!(
            new.matches('\n').count(),
            new.matches("\r\n").count(),
            "{new:?}"
        );
        for rule in [GRIP, REACH] {
            assert!(cell.finding(rule)["accepted"].is_object(), "{rule}");
        }
    }
}

/// The line that it names is that of the entry.
#[test]
fn it_says_where() {
    let cell = Cell::new();
    cell.put("cell/shankwise.toml", SHOP);
    let output = cell.accept(GRIP, &["--until", "2027-01-31"]);
    let told = super::printed(&output);
    let line = told.trim_end().rsplit(':').next().unwrap();
    let line: usize = line.parse().unwrap();
    let new = cell.read("cell/shankwise.toml");
    assert_eq!(new.lines().nth(line - 1), Some("[[accept]]"), "{told}");
    assert_eq!(new.lines().nth(line), Some("rule = \"grip/short-grip\""));
}

/// A file that cannot take an entry is left alone.
#[test]
fn files_that_cannot_take_one() {
    let inline = "accept = [{ rule = \"stiffness/tip-bends\", tool_number = \"7\", reason = \"r\", by = \"b\" }]\n";
    for (old, words) in [
        (inline.as_bytes().to_vec(), "[[accept]] tables"),
        (b"name = \"z\xe4hl\"\n".to_vec(), "UTF-8"),
    ] {
        let cell = Cell::new();
        fs::write(cell.path("cell/shankwise.toml"), &old).unwrap();
        let output = cell.accept(GRIP, &["--until", "2027-01-31"]);
        assert_eq!(output.status.code(), Some(2), "{}", said(&output));
        assert!(said(&output).contains(words), "{}", said(&output));
        assert_eq!(fs::read(cell.path("cell/shankwise.toml")).unwrap(), old);
    }
}

/// Nothing else in the folder is touched, and nothing is left in it.
#[test]
fn no_other_file_is_touched() {
    let cell = Cell::new();
    let all = |cell: &Cell| {
        let entries = fs::read_dir(cell.path("cell")).unwrap();
        let mut all: Vec<_> = entries
            .map(|entry| {
                let path = entry.unwrap().path();
                let bytes = fs::read(&path).unwrap();
                (path, bytes)
            })
            .filter(|(path, _)| !path.ends_with("shankwise.toml"))
            .collect();
        all.sort();
        all
    };
    cell.put("shankwise.toml", "name = \"plant\"\n");
    let before = all(&cell);
    let cell = cell.accepted(GRIP);
    assert_eq!(all(&cell), before);
    assert_eq!(cell.read("shankwise.toml"), "name = \"plant\"\n");
}

/// The plant's file that --config names is read, and not written.
#[test]
fn the_plants_file_is_only_read() {
    let cell = Cell::new();
    let plant = "[acceptance]\nlongest = \"10 d\"\n";
    cell.put("plant.toml", plant);
    let long = cell.accept(GRIP, &["--until", "2027-01-31", "--config", "plant.toml"]);
    assert_eq!(long.status.code(), Some(2), "{}", said(&long));
    let short = cell.accept(GRIP, &["--until", "2026-12-01", "--config", "plant.toml"]);
    assert_eq!(short.status.code(), Some(0), "{}", said(&short));
    assert_eq!(cell.read("plant.toml"), plant);
    assert!(
        cell.read("cell/shankwise.toml")
            .contains("until = 2026-12-01")
    );
}

/// A link is followed, modes are kept, and a file that may not be written stays.
#[cfg(unix)]
#[test]
fn links_modes_and_what_may_not_be_written() {
    use std::os::unix::fs::{PermissionsExt as _, symlink};
    let cell = Cell::new();
    cell.put("common.toml", "name = \"common\"\n");
    let mode =
        |mode| fs::set_permissions(cell.path("common.toml"), fs::Permissions::from_mode(mode));
    mode(0o640).unwrap();
    symlink("../common.toml", cell.path("cell/shankwise.toml")).unwrap();
    let output = cell.accept(GRIP, &["--until", "2027-01-31"]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert!(cell.path("cell/shankwise.toml").is_symlink());
    assert!(cell.read("common.toml").contains("[[accept]]"));
    let node = fs::metadata(cell.path("common.toml")).unwrap();
    assert_eq!(node.permissions().mode() & 0o777, 0o640);
}

/// Root writes through modes, so somebody without rights tries.
#[cfg(unix)]
#[test]
fn a_read_only_file_or_folder_is_left_alone() {
    use std::os::unix::fs::{MetadataExt as _, PermissionsExt as _};
    use std::os::unix::process::CommandExt as _;
    let is_root = fs::metadata("/proc/self").is_ok_and(|own| own.uid() == 0);
    for (file, folder) in [(0o444, 0o777), (0o666, 0o555)] {
        let cell = Cell::new();
        cell.put("cell/shankwise.toml", SHOP);
        let fingerprint = cell.finding(GRIP)["fingerprint"]
            .as_str()
            .unwrap()
            .to_owned();
        let mode = |name: &str, mode| {
            fs::set_permissions(cell.path(name), fs::Permissions::from_mode(mode)).unwrap();
        };
        mode("", 0o755);
        mode("cell/shankwise.toml", file);
        mode("cell", folder);
        let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_shankwise"));
        command
            .args(["accept", "cell", &fingerprint])
            .args(super::WHO)
            .current_dir(cell.path(""))
            .env_remove("SHANKWISE_CONFIG");
        if is_root {
            command.uid(65_534).gid(65_534);
        }
        // Where an unprivileged user cannot start the program there is nothing to see.
        let Ok(output) = command.output() else {
            return;
        };
        mode("cell", 0o755);
        assert_eq!(output.status.code(), Some(2), "{}", said(&output));
        assert!(
            said(&output).contains("cannot write cell/shankwise.toml"),
            "{}",
            said(&output)
        );
        assert_eq!(cell.read("cell/shankwise.toml"), SHOP);
        let names = fs::read_dir(cell.path("cell")).unwrap().count();
        assert_eq!(names, 7, "no temporary file is left");
    }
}

/// A folder or a pipe under the name of the shop file is refused before anything is written.
#[test]
fn what_is_no_file() {
    let cell = Cell::new();
    let fingerprint = cell.finding(GRIP)["fingerprint"]
        .as_str()
        .unwrap()
        .to_owned();
    fs::create_dir(cell.path("cell/shankwise.toml")).unwrap();
    let output = cell.run(&[&["accept", "cell", &fingerprint][..], &super::WHO].concat());
    assert_eq!(output.status.code(), Some(2));
    assert!(cell.path("cell/shankwise.toml").is_dir());
}
