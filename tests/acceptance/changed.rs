//! What was accepted counts again when it is worse, or of other parts or another job.

use super::{Cell, GRIP, REACH, UNTIL, entry, lapsed};

const WAS: &str = "until = 2027-01-31\nnot_worse_than = \"18.0 mm\"\npart_of_needed = 0.675\n";

#[test]
fn what_is_as_it_was_counts() {
    let cell = Cell::accepting(WAS);
    let finding = cell.finding(GRIP);
    assert_eq!(finding["accepted"]["at"], "18.0 mm of 26.7 mm");
    assert_eq!(finding["accepted"]["until"], "2027-01-31");
    assert!(finding["lapsed"].is_null());
    assert_eq!(finding["level"], "error");
    assert_eq!(cell.judged()["summary"]["accepted"], 1);
}

#[test]
fn what_is_better_counts() {
    let cell = Cell::accepting(WAS);
    cell.change("assemblies", ",65,", ",62,");
    assert!(cell.finding(GRIP)["accepted"].is_object());
}

/// Pulled out further: the finding says what was accepted, and what it is now.
#[test]
fn what_is_worse_counts_again() {
    let cell = Cell::accepting(WAS);
    cell.change("assemblies", ",65,", ",67,");
    let finding = cell.finding(GRIP);
    assert_eq!(lapsed(&finding), ["it is 16.0 mm now"]);
    let message = finding["message"].as_str().unwrap();
    let told = "; accepted by J. Example until 2027-01-31 at 18.0 mm of 26.7 mm; it is 16.0 mm now";
    assert!(message.ends_with(told), "{message}");
    let judged = cell.judged();
    assert_eq!(judged["summary"]["accepted"], 0);
    assert_eq!(judged["fails"], true);
}

/// A hundredth of a millimetre is what lengths are equal within.
#[test]
fn less_than_can_be_set_is_no_change() {
    let cell = Cell::accepting(WAS);
    cell.change("assemblies", ",65,", ",65.009,");
    assert!(cell.finding(GRIP)["accepted"].is_object());
    cell.change("assemblies", ",65.009,", ",65.02,");
    assert_eq!(lapsed(&cell.finding(GRIP)).len(), 1);
}

/// The value is as it was, and more is needed.
#[test]
fn what_is_worse_in_its_share_counts_again() {
    let cell = Cell::accepting(&format!("{WAS}\n[limit]\nmin_grip_fraction = \"3/4\"\n"));
    let why = lapsed(&cell.finding(GRIP));
    assert_eq!(why, ["it is 18.0 mm of 30.0 mm now"]);
    // Without the share the value alone is compared.
    let value = WAS.replace("part_of_needed = 0.675\n", "");
    let cell = Cell::accepting(&format!("{value}\n[limit]\nmin_grip_fraction = \"3/4\"\n"));
    assert_eq!(cell.finding(GRIP)["accepted"]["at"], "18.0 mm");
}

#[test]
fn another_part_counts_again() {
    for (part, key) in [
        ("em12", "cutter"),
        ("c12", "collet"),
        ("n32", "nut"),
        ("h32", "holder"),
    ] {
        let cell = Cell::accepting(&format!("{WAS}{key} = \"{part}\"\n"));
        assert!(cell.finding(GRIP)["accepted"].is_object(), "{key}");
        let other = format!("{part}-b");
        cell.change("assemblies", &format!(",{part},"), &format!(",{other},"));
        let why = lapsed(&cell.finding(GRIP));
        assert_eq!(why, [format!("the {key} is `{other}` now, not `{part}`")]);
    }
}

/// An empty id says that there was none.
#[test]
fn a_part_where_there_was_none_counts_again() {
    let cell = Cell::accepting(&format!("{WAS}nut = \"\"\n"));
    let why = lapsed(&cell.finding(GRIP));
    assert_eq!(why, ["the nut is `n32` now; none was stated then"]);
    cell.change("assemblies", ",n32,", ",,");
    assert!(cell.finding(GRIP)["accepted"].is_object());
}

#[test]
fn another_torque_counts_again() {
    let cell = Cell::accepting(&format!("{WAS}nut_torque = \"80 N·m\"\n"));
    assert!(cell.finding(GRIP)["accepted"].is_object());
    cell.change("assemblies", ",65,80", ",65,95");
    let why = lapsed(&cell.finding(GRIP));
    assert_eq!(why, ["the tightening torque is 95.0 N·m now, not 80.0 N·m"]);
    cell.change("assemblies", ",65,95", ",65,");
    let why = lapsed(&cell.finding(GRIP));
    assert_eq!(
        why,
        ["the tightening torque is not stated now; it was 80.0 N·m"]
    );
    let cell = Cell::accepting(&format!("{WAS}nut_torque = \"\"\n"));
    let why = lapsed(&cell.finding(GRIP));
    assert_eq!(
        why,
        ["the tightening torque is 80.0 N·m now; none was stated then"]
    );
}

#[test]
fn another_job_counts_again() {
    let more = "operation = \"pocket\"\nnot_worse_than = \"65 mm\"\nuntil = 2027-01-31\noperation_values = { reach = \"70 mm\", clearance = \"2 mm\", operation_kind = \"milling\" }\n";
    let cell = Cell::new();
    cell.put("cell/shankwise.toml", &entry(REACH, more));
    let finding = cell.finding(REACH);
    assert!(finding["accepted"].is_object(), "{finding}");
    cell.change("operations", ",70,2", ",75,2");
    assert_eq!(
        lapsed(&cell.finding(REACH)),
        ["reach is 75.0 mm now, not 70.0 mm"]
    );
    cell.change("operations", ",75,2", ",70,");
    let why = lapsed(&cell.finding(REACH));
    assert_eq!(why, ["clearance is not stated now; it was 2.0 mm"]);
    cell.change("operations", "milling,70,", "drilling,70,2");
    let why = lapsed(&cell.finding(REACH));
    assert_eq!(why, ["operation_kind is `drilling` now, not `milling`"]);
}

/// A feed of a few hundredths is no length within which a tool is set.
#[test]
fn a_small_value_may_change_too() {
    let values = "operation_values = { feed_per_tooth = \"0.060 mm\" }\n";
    let cell = Cell::new();
    cell.put(
        "cell/shankwise.toml",
        &entry(REACH, &format!("{UNTIL}{values}")),
    );
    cell.change("operations", "clearance\n", "clearance,feed_per_tooth\n");
    cell.change("operations", ",70,2", ",70,2,0.06");
    assert!(cell.finding(REACH)["accepted"].is_object());
    cell.change("operations", ",0.06", ",0.065");
    assert_eq!(lapsed(&cell.finding(REACH)).len(), 1);
}

#[test]
fn another_machine_or_operation_is_another_tool() {
    let cell = Cell::accepting(&format!("{WAS}machine = \"mill 2\"\n"));
    assert!(cell.finding(GRIP)["accepted"].is_object());
    cell.change("assemblies", "mill 2", "mill 3");
    let finding = cell.finding(GRIP);
    assert!(finding["accepted"].is_null() && finding["lapsed"].is_null());
}

/// What is no longer judged is no longer known to be as it was.
#[test]
fn what_is_not_judged_any_more_counts_again() {
    let cell = Cell::accepting(WAS);
    cell.change(
        "cutters",
        "em12,end mill,12,83,12,45",
        "em12,end mill,12,83,12,",
    );
    let finding = cell.finding(GRIP);
    assert_eq!(finding["level"], "none", "{finding}");
    assert_eq!(lapsed(&finding), ["it is not judged now"]);
}

#[test]
fn all_that_has_changed_is_said() {
    let cell = Cell::accepting(&format!(
        "{WAS}cutter = \"em12\"\nnut_torque = \"80 N·m\"\n"
    ));
    cell.change(
        "assemblies",
        "em12,c12,n32,h32,65,80",
        "em12-b,c12,n32,h32,67,95",
    );
    assert_eq!(lapsed(&cell.finding(GRIP)).len(), 3);
}

/// A value in a unit of something else accepts nothing.
#[test]
fn a_value_that_measures_something_else() {
    let cell = Cell::accepting("until = 2027-01-31\nnot_worse_than = \"18 N\"\n");
    let why = lapsed(&cell.finding(GRIP));
    assert_eq!(why, ["that does not measure this and accepts nothing"]);
    let cell = Cell::accepting("until = 2027-01-31\nnot_worse_than = 18\n");
    assert_eq!(lapsed(&cell.finding(GRIP)).len(), 1, "a length has a unit");
}

/// Of two entries for one finding the one that counts is heard.
#[test]
fn an_old_entry_is_in_nobodys_way() {
    let old = "until = 2026-01-31\nnot_worse_than = \"25.0 mm\"\n";
    let cell = Cell::new();
    let both = format!("{}\n{}", entry(GRIP, old), entry(GRIP, WAS));
    cell.put("cell/shankwise.toml", &both);
    assert_eq!(cell.finding(GRIP)["accepted"]["at"], "18.0 mm of 26.7 mm");
}

/// A rule with several conditions: what was accepted of one says nothing of another.
#[test]
fn a_value_of_something_else() {
    let cell = Cell::accepting(&format!("{WAS}value_of = \"gripped_length\"\n"));
    assert!(cell.finding(GRIP)["accepted"].is_object());
    let cell = Cell::accepting(&format!("{WAS}value_of = \"needed_grip\"\n"));
    let why = lapsed(&cell.finding(GRIP));
    assert_eq!(why, ["it is about gripped_length now, not needed_grip"]);
}

/// A question is none of the library in whose folder it is asked.
#[test]
fn a_question_accepts_nothing() {
    let cell = Cell::new();
    cell.put("shankwise.toml", &entry(GRIP, UNTIL));
    let question = [
        "window",
        "--bore-length",
        "40",
        "--overall-length",
        "83",
        "--shank-diameter",
        "12",
        "--shank-length",
        "45",
        "--as",
        "json",
    ];
    let output = cell.run(&question);
    let answer = super::printed(&output);
    assert!(
        answer.contains("\"findings\":[") && !answer.contains("record/accepted"),
        "{answer}"
    );
    assert!(!answer.contains("grip/short-grip\",\"level"), "{answer}");
}
