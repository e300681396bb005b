//! What is proposed for a header that is not known: the property that it means, or those that it may
//! mean, and never a neighbour that only looks alike.

use shankwise::library::{Kind, PROPERTIES, fields_of, standard_sizes};

use super::{only, word};
use crate::support::library;

/// What a lone flat file proposes for a header.
fn proposed(header: &str) -> Vec<String> {
    let library = library(&format!("tool_number,stick_out,\"{header}\"\n1,33,x\n"));
    let hint = word(only(&library, "record/unknown-column"), "hint");
    let names = hint.split('`').skip(1).step_by(2);
    names.map(str::to_owned).collect()
}

/// Headers of invented exports, and what may be proposed for each: nothing else may.
const HEADERS: &[(&str, &[&str])] = &[
    // What means one thing.
    ("Tool no", &["tool_number"]),
    ("Tool No.", &["tool_number"]),
    ("TOOL #", &["tool_number"]),
    ("Werkzeugnummer", &["tool_number"]),
    ("Wkz-Nr", &["tool_number"]),
    ("Bezeichnung", &["description"]),
    ("Maschine", &["machine"]),
    ("Pocket", &["pot"]),
    ("Magazinplatz", &["pot"]),
    ("Stickout", &["stick_out"]),
    ("Projection", &["stick_out"]),
    ("Tool overhang", &["stick_out"]),
    ("Auskraglänge", &["stick_out"]),
    ("Auskraglaenge", &["stick_out"]),
    ("Nut torque Nm", &["nut_torque [N·m]"]),
    ("Anzugsmoment", &["nut_torque"]),
    ("Runout", &["run_out"]),
    ("Rundlauf", &["run_out"]),
    ("Tool type", &["cutter_kind"]),
    ("Fräsertyp", &["cutter_kind"]),
    ("Schneidstoff", &["cutter_material"]),
    ("Cutter dia", &["cutting_diameter"]),
    ("Cutter dia mm", &["cutting_diameter"]),
    ("Tool diameter", &["cutting_diameter"]),
    ("Werkzeugdurchmesser", &["cutting_diameter"]),
    ("Corner rad", &["corner_radius"]),
    ("Eckenradius", &["corner_radius"]),
    ("Tip angle", &["point_angle"]),
    ("Spitzenwinkel", &["point_angle"]),
    ("Helix", &["helix_angle"]),
    ("Number of teeth", &["flute_count"]),
    ("Zähnezahl", &["flute_count"]),
    ("Z", &["flute_count"]),
    ("Flute length", &["chip_flute_length"]),
    ("Spannutlänge", &["chip_flute_length"]),
    ("Schneidenlänge", &["depth_of_cut_max"]),
    ("Neck dia", &["neck_diameter"]),
    ("Halslänge", &["neck_length"]),
    ("Shank dia", &["shank_diameter"]),
    ("Shank dia in", &["shank_diameter"]),
    ("Schaftdurchmesser", &["shank_diameter"]),
    ("Schaft-Ø", &["shank_diameter"]),
    ("Schaftlänge", &["shank_length"]),
    ("Schaftform", &["shank_form"]),
    ("Total length", &["overall_length"]),
    ("Gesamtlänge", &["overall_length"]),
    ("Pitch", &["thread_pitch"]),
    ("Innenkühlung", &["coolant_channels"]),
    ("Spannzange", &["collet"]),
    ("Collet bore", &["bore_diameter"]),
    ("Gripping length", &["bore_length"]),
    ("Nut dia", &["nut_outer_diameter"]),
    ("Toolholder", &["holder"]),
    ("Werkzeughalter", &["holder"]),
    ("Holder type", &["clamping_kind"]),
    ("Spannmittel", &["clamping_kind"]),
    ("Holder length", &["gauge_length"]),
    ("Width of cut", &["radial_width"]),
    ("Chip load", &["feed_per_tooth"]),
    ("Zahnvorschub", &["feed_per_tooth"]),
    ("RPM", &["spindle_speed"]),
    ("Drehzahl", &["spindle_speed"]),
    ("Schnittgeschwindigkeit", &["cutting_speed"]),
    ("Werkstoff", &["workpiece_material"]),
    // What shops mean different things by.
    ("T", &["tool_number", "reach"]),
    ("Dia", &["cutting_diameter", "shank_diameter"]),
    ("Dia.", &["cutting_diameter", "shank_diameter"]),
    ("Ø", &["cutting_diameter", "shank_diameter"]),
    ("D", &["cutting_diameter", "shank_diameter"]),
    ("Durchmesser", &["cutting_diameter", "shank_diameter"]),
    ("Length", &["overall_length", "stick_out"]),
    ("Länge", &["overall_length", "stick_out"]),
    (
        "Tool length",
        &["overall_length", "protruding_length", "stick_out"],
    ),
    ("LOC", &["depth_of_cut_max", "chip_flute_length"]),
    ("Length of cut", &["depth_of_cut_max", "chip_flute_length"]),
    ("OHL", &["stick_out", "overall_length"]),
    ("Flutes", &["flute_count", "chip_flute_length"]),
    ("Depth", &["reach", "axial_depth"]),
    ("Tiefe", &["reach", "axial_depth"]),
    (
        "Torque",
        &["nut_torque", "torque_max", "torque_recommended"],
    ),
    (
        "Torque Nm",
        &["nut_torque", "torque_max", "torque_recommended"],
    ),
    (
        "Drehmoment",
        &["nut_torque", "torque_max", "torque_recommended"],
    ),
    ("Angle", &["point_angle", "helix_angle"]),
    ("Speed", &["spindle_speed", "cutting_speed"]),
    ("Feed", &["feed_per_tooth", "feed_per_revolution"]),
    ("Vorschub", &["feed_per_tooth", "feed_per_revolution"]),
    ("Material", &["cutter_material", "workpiece_material"]),
    ("Type", &["cutter_kind", "clamping_kind"]),
    ("Typ", &["cutter_kind", "clamping_kind"]),
    ("Size", &["cutting_diameter", "collet_size"]),
    ("Collet type", &["collet_system", "collet_size"]),
    ("Einspannlänge", &["clamping_length", "bore_length"]),
    ("Radius", &["corner_radius"]),
    // Slips of the hand.
    ("stik_out", &["stick_out"]),
    ("overal lenght", &["overall_length"]),
    ("shank lenght", &["shank_length"]),
    ("cuting diameter", &["cutting_diameter"]),
    ("colet size", &["collet_size"]),
    ("bore_lenght", &["bore_length"]),
    ("flute cuont", &["flute_count"]),
    ("spindel speed", &["spindle_speed"]),
    // What only looks like a property.
    ("Price", &[]),
    ("Cost", &[]),
    ("Supplier", &[]),
    ("Order no", &[]),
    ("Drawing", &[]),
    ("Picture", &[]),
    ("Remark", &[]),
    ("Bemerkung", &[]),
    ("Checked by", &[]),
    ("Date", &[]),
    ("Status", &[]),
    ("Colour", &[]),
    ("Coating", &[]),
    ("Beschichtung", &[]),
    ("Grade", &[]),
    ("Insert", &[]),
    ("Weight of box", &[]),
    ("Life", &[]),
    ("Standzeit", &[]),
    ("Tool life min", &[]),
    ("Offset H", &[]),
    ("Offset D", &[]),
    ("H", &[]),
    ("X", &[]),
    ("Cycle time", &[]),
    ("Program", &[]),
    ("Programm", &[]),
    ("Operator", &[]),
    ("Setup by", &[]),
    ("Lieferant", &[]),
    ("Preis", &[]),
    ("Kommentar", &[]),
    ("Datum", &[]),
    ("EAN", &[]),
    ("Barcode", &[]),
    ("Group", &[]),
    ("Gruppe", &[]),
    ("Category", &[]),
    ("Nut colour", &[]),
    ("Collet colour", &[]),
    ("Holder status", &[]),
    ("Nose", &[]),
    ("Cone", &[]),
    ("Chamfer", &[]),
    ("Fase", &[]),
    ("Toleranz", &[]),
    ("Gauge", &[]),
    ("Serial no", &[]),
    ("Bin", &[]),
    ("Unit", &[]),
    ("Rev", &[]),
    ("Sister tool", &[]),
    ("Wechselplatte", &[]),
    ("Probe depth check", &[]),
];

#[test]
fn no_proposal_is_a_dangerous_neighbour() {
    assert!(HEADERS.len() >= 150, "{}", HEADERS.len());
    let wrong = HEADERS.iter().filter_map(|(header, may)| {
        let found = proposed(header);
        (found != *may).then(|| format!("{header}: {found:?}, not {may:?}"))
    });
    let wrong: Vec<String> = wrong.collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The headers that the table knows are none of the vocabulary's, and what they mean is there.
#[test]
fn words_of_headers_mean_properties() {
    let table = &standard_sizes::HEADER_WORDS.table;
    let is_known = |name: &String| PROPERTIES.iter().any(|property| property.name == *name);
    let properties = table.means.keys().chain(table.may_mean.values().flatten());
    for name in properties {
        assert!(is_known(name), "{name}");
    }
    let words = table.means.values().flatten().chain(table.may_mean.keys());
    let known = words.filter(|word| !fields_of(word, Kind::Assembly).is_empty());
    let known: Vec<&String> = known.collect();
    assert!(known.is_empty(), "known already: {known:?}");
}
