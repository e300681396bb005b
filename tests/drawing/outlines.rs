//! What is drawn around the cutter.

use shankwise::draw::{Around, Drawing, Outline};

use super::{TOOL, drawing};

const HOLDER: &str = "clamping_kind=taper collet,mouth_setback=10,mouth_diameter=33,\
    taper_length=40,nose_diameter=42,nose_length=15,body_diameter=50,insertion_depth_max=80";

fn outline(drawing: &Drawing, kind: Around) -> Option<Outline> {
    let mut found = drawing.around.iter().filter(|outline| outline.kind == kind);
    let first = found.next().copied();
    assert_eq!(found.next(), None);
    first
}

/// From, to and diameters.
fn sizes(outline: Outline) -> (f64, Option<f64>, Option<f64>, Option<f64>) {
    let to = outline.to.map(|mark| mark.z);
    (outline.from.z, to, outline.front, outline.rear)
}

#[test]
fn holder_nut_and_collet_stand_where_their_dimensions_say() {
    let tool = drawing(&[TOOL, HOLDER, "collet_length=40"]);
    let of = |kind| sizes(outline(&tool, kind).unwrap());
    assert_eq!(of(Around::Nut), (40.0, None, Some(50.0), Some(50.0)));
    assert_eq!(
        of(Around::Collet),
        (41.0, Some(81.0), Some(12.0), Some(12.0))
    );
    assert_eq!(of(Around::Nose), (50.0, Some(65.0), Some(42.0), Some(42.0)));
    assert_eq!(of(Around::Body), (65.0, None, Some(50.0), Some(50.0)));
    let (from, to, front, rear) = of(Around::Socket);
    assert_eq!((from, to, front), (50.0, Some(90.0), Some(33.0)));
    let narrower = 33.0 - 80.0 * 8f64.to_radians().tan();
    assert!((rear.unwrap() - narrower).abs() < 1e-9);
}

#[test]
fn a_recess_moves_the_land_and_not_the_collet() {
    let tool = drawing(&[TOOL, "collet_length=40,bore_recess=5,bore_length=30"]);
    let collet = outline(&tool, Around::Collet).unwrap();
    assert_eq!((collet.from.z, collet.to.unwrap().z), (41.0, 81.0));
    let land = tool.land.unwrap().span().unwrap();
    assert_eq!((land.from, land.to), (46.0, 76.0));
}

#[test]
fn dimensions_that_are_not_stated_are_not_drawn() {
    let plain = drawing(&[TOOL, "nut_outer_diameter="]);
    assert_eq!(outline(&plain, Around::Nut), None);
    assert_eq!(outline(&plain, Around::Socket), None);
    // Of a holder whose mouth's place is not known nothing has a place.
    let adrift = drawing(&[TOOL, HOLDER, "mouth_setback="]);
    for kind in [Around::Socket, Around::Nose, Around::Body] {
        assert_eq!(outline(&adrift, kind), None);
    }
    // Behind an extension the holder's socket is not the tool's.
    let extended = drawing(&[TOOL, HOLDER, "extension=e1"]);
    for kind in [Around::Socket, Around::Nose, Around::Body] {
        assert_eq!(outline(&extended, kind), None);
    }
    assert_eq!(extended.stop, None);
}

#[test]
fn a_nose_that_is_the_front_face_begins_there() {
    let shrunk = drawing(&["tool_number=1,overall_length=83,stick_out=40,\
        clamping_kind=shrink fit,nose_diameter=24"]);
    let nose = outline(&shrunk, Around::Nose).unwrap();
    assert_eq!(sizes(nose), (40.0, None, Some(24.0), Some(24.0)));
    assert_eq!(outline(&shrunk, Around::Nut), None);
}

#[test]
fn closing_the_collet_brings_the_tail_nearer_to_the_stop() {
    let nominal = drawing(&[TOOL, HOLDER]).stop.unwrap();
    assert_eq!((nominal.z, nominal.assumed), (120.0, false));
    // A gap of 0.5 mm is closed over 1.78 mm of travel.
    let closed = drawing(&[TOOL, HOLDER, "shank_diameter=11.5"]).stop;
    assert!((closed.unwrap().z - (120.0 - 1.779)).abs() < 1e-3);
    let gap_not_known = drawing(&[TOOL, HOLDER, "bore_diameter="]).stop.unwrap();
    assert!(gap_not_known.assumed);
}

#[test]
fn the_job_has_a_surface_and_a_clearance() {
    let job = "operation_kind=milling,reach=30,clearance=2";
    let work = drawing(&[TOOL, job]).workpiece.unwrap();
    assert_eq!(
        (work.surface.z, work.keep_above.map(|mark| mark.z)),
        (30.0, Some(32.0))
    );
    assert_eq!(drawing(&[TOOL]).workpiece, None);
}
