//! Sane tools that a rule could easily cry at, one by one.

use crate::support::lint_text;
use shankwise::judge::Outcome;
use shankwise::rulebook::Level;

/// Nothing above a note, nothing unjudged, and none of the notes named.
fn is_quiet(what: &str, text: &str, not_even: &[&str]) {
    let report = lint_text(text);
    for finding in &report.findings {
        let said = format!("{what}: {} {}", finding.rule, finding.message);
        assert_eq!(finding.level, Some(Level::Note), "{said}");
        assert!(!not_even.contains(&finding.rule.as_str()), "{said}");
    }
}

/// A collet of size 32 with the cutter of 12 by DIN 6527 and DIN 6535, and what a case adds.
fn end_mill(columns: &str, cells: &str) -> String {
    format!(
        "tool_number,stick_out,cutter_kind,cutting_diameter,shank_diameter,shank_length,\
         overall_length,collet_size,bore_diameter,bore_length,face_setback{columns}\n\
         7,40,end mill,12,12,45,83,32,12,40,0{cells}\n"
    )
}

#[test]
fn standard_twist_drills_thinner_than_any_end_mill() {
    // DIN 338, lengths from memory: the drill is its own shank.
    for (drill, overall, flutes) in [(0.5, 22.0, 6.0), (0.75, 28.0, 9.0), (1.0, 34.0, 12.0)] {
        let shank = overall - flutes;
        let text = format!(
            "tool_number,stick_out,cutter_kind,cutting_diameter,shank_diameter,shank_length,\
             overall_length,chip_flute_length,collet_size,bore_diameter,bore_length,face_setback\n\
             7,{flutes},drill,{drill},{drill},{shank},{overall},{flutes},11,{drill},10,0\n"
        );
        is_quiet(&format!("drill {drill}"), &text, &[]);
    }
}

#[test]
fn tool_as_long_from_the_gauge_plane_as_the_cutter_alone() {
    let text = end_mill(",gauge_length,LPR,LF", ",43,83,83");
    is_quiet("gauge length equals insertion", &text, &[]);
}

#[test]
fn shank_at_the_lower_end_of_its_tolerance() {
    // ISO 286-2: 12 h6 is 11.989 to 12.
    let text = end_mill("", "").replace(",12,12,45", ",12,11.989,45");
    is_quiet("12 h6", &text, &["grip/collapsed-collet"]);
    let sealed = end_mill(
        ",collet sealed,coolant,coolant_channels",
        ",yes,through,yes",
    );
    let text = sealed.replace(",12,12,45", ",12,11.989,45");
    is_quiet(
        "12 h6 in a sealed collet",
        &text,
        &["grip/collapsed-collet"],
    );
}

#[test]
fn descriptions_that_people_write() {
    for description in [
        "EM D12 L83",
        "EM 12 L83 Z4",
        "\"Ø12,0 R0,5\"",
        "D12h6",
        "DIA 12MM",
        "M6 HSS",
        "R0.5",
        "SIZE 32 12MM",
        "DIN 6527 L",
        "2D DEEP",
        "D12/D12",
        "EM D.4724 IN",
        "D 12 x 26 x 83",
    ] {
        let text = end_mill(",description", &format!(",{description}"));
        is_quiet(description, &text, &["record/description-disagrees"]);
    }
}

#[test]
fn lengths_rounded_to_a_tenth_or_taken_by_hand() {
    let text = end_mill(",LSC,gauge_length,LPR", ",42.6,70,110.4");
    is_quiet("within half a millimetre", &text, &[]);
    let ground = end_mill(",overall_length_actual,LSC", ",82.1,42.1");
    is_quiet("reground", &ground, &[]);
}

#[test]
fn gripped_to_two_thirds_rounded_to_hundredths() {
    // 83 - 2/3 * 40 = 56.333: written as 56.33 or 56.34.
    for stick_out in ["56.33", "56.34"] {
        let text = end_mill("", "").replace("7,40,", &format!("7,{stick_out},"));
        is_quiet(stick_out, &text, &["grip/short-grip"]);
    }
}

#[test]
fn what_is_held_by_no_shank() {
    for kind in ["arbor", "screwed-on head", "one piece", "none"] {
        let text = format!("tool_number,stick_out,clamping_kind,DC\n7,40,{kind},12\n");
        is_quiet(kind, &text, &["torque/not-stated", "record/field-missing"]);
    }
}

/// The clampings in which the holder's own bore grips.
const CHUCKS: [&str; 7] = [
    "shrink fit",
    "hydraulic chuck",
    "side-lock holder",
    "milling chuck",
    "drill chuck",
    "tapping attachment",
    "other",
];

/// A carbide drill of 12 with 43 of its shank in a chuck, and what a case adds.
fn in_chuck(kind: &str, columns: &str, cells: &str) -> String {
    format!(
        "tool_number,stick_out,clamping_kind,cutter_kind,cutter_material,DC,shank_diameter,\
         shank_length,overall_length{columns}\n\
         7,75,{kind},drill,carbide,12,12,45,118{cells}\n"
    )
}

/// With the holder's minimum, or the places of flat and screw, there is nothing left to ask.
#[test]
fn what_sits_in_a_chuck() {
    for kind in CHUCKS {
        let (columns, cells) = if kind == "side-lock holder" {
            (",shank_form,flat_distance,screw_distance", ",HB,22.5,20.5")
        } else {
            (",holder clamping_length_min", ",43")
        };
        let columns = format!("{columns},holder bore_recess");
        let text = in_chuck(kind, &columns, &format!("{cells},0"));
        is_quiet(kind, &text, &["torque/not-stated", "record/field-missing"]);
    }
    let text = in_chuck(
        "other collet",
        ",collet_size,bore_diameter,bore_length,face_setback",
        ",25,12,30,0",
    );
    is_quiet("other collet", &text, &["torque/not-stated"]);
}

/// How much shank is enough nobody guesses: unstated, the clamping's own rule waits, and names
/// what it waits for.
#[test]
fn what_sits_in_a_chuck_that_asks_for_nothing_known() {
    let own = |kind| match kind {
        "side-lock holder" => ("grip/screw-misses-flat", "cutter.flat_distance"),
        "other collet" => ("grip/short-grip", "collet.bore_length"),
        _ => ("grip/below-holder-minimum", "holder.clamping_length_min"),
    };
    for kind in CHUCKS.into_iter().chain(["other collet"]) {
        let (rule, field) = own(kind);
        let report = lint_text(&in_chuck(kind, ",shank_form", ",HB"));
        let waits = report.findings.iter().any(|found| {
            let names = found.missing.contains(&field);
            found.rule == rule && found.outcome == Outcome::NotJudged && names
        });
        assert!(
            waits,
            "{kind}: {rule} waits for {field}: {:#?}",
            report.findings
        );
        assert_eq!(report.summary.grip_judged, 0, "{kind}");
        assert_eq!(report.summary.held_by_shank, 1, "{kind}");
    }
}

/// A tap in a floating attachment is fed a little less than its pitch, on purpose.
#[test]
fn tap_fed_less_than_its_pitch_in_an_attachment() {
    for feed in ["1.25", "1.23"] {
        let text = format!(
            "tool_number,stick_out,clamping_kind,cutter_kind,DC,TP,operation_kind,F,reach,\
             clearance,shank_diameter,shank_length,overall_length,drive_square,\
             drive_square_length,holder clamping_length_min,holder bore_recess\n\
             7,60,tapping attachment,tap,8,1.25,tapping,{feed},20,1,8,50,90,6.2,9,20,0\n"
        );
        is_quiet(feed, &text, &[]);
    }
}
