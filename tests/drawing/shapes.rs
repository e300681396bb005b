//! What the cutter and its grip are drawn as.

use shankwise::draw::{self, Drawing, Grip, PartKind, Tip};
use shankwise::facts::Fact;
use shankwise::library::Field;

use super::{TOOL, drawing, row, with_scene};

/// Kind and ends of every part.
fn parts(drawing: &Drawing) -> Vec<(PartKind, f64, f64)> {
    let parts = drawing.cutter.iter();
    parts
        .map(|part| (part.kind, part.span.from, part.span.to))
        .collect()
}

#[test]
fn a_plain_tool_is_flutes_run_out_and_shank() {
    let tool = drawing(&[TOOL]);
    let expected = [
        (PartKind::Flutes, 0.0, 32.0),
        (PartKind::RunOut, 32.0, 38.0),
        (PartKind::Shank, 38.0, 83.0),
    ];
    assert_eq!(parts(&tool), expected);
    assert!(tool.cutter.iter().all(|part| !part.span.assumed));
    assert_eq!(tool.cutter[1].front, Some(12.0));
    assert_eq!(tool.tail.unwrap().z, 83.0);
    assert_eq!(tool.face.unwrap().z, 40.0);
    assert!(tool.face_is_nut);
}

#[test]
fn drive_flats_lie_where_the_standard_or_the_library_has_them() {
    let flats = |cells: &str| {
        let tool = drawing(&[TOOL, cells]);
        let all = tool.flats.iter();
        all.map(|flat| (flat.span.from, flat.span.to, flat.span.assumed, flat.depth))
            .collect::<Vec<_>>()
    };
    let near = |found: Option<f64>, depth: f64| (found.unwrap() - depth).abs() < 1e-9;
    // DIN 6535, form HB, 12 mm, from memory: middle at 22.5, 8 long, 10.4 across.
    let [(from, to, assumed, depth)] = flats("shank_form=HB")[..] else {
        panic!("one flat");
    };
    assert_eq!((from, to, assumed), (56.5, 64.5, true));
    assert!(near(depth, 1.6), "{depth:?}");
    // 25 mm, as printed: two flats, 17 apart, 23 across.
    let wide = flats("shank_form=HB,shank_diameter=25,cutting_diameter=25,overall_length=121");
    assert_eq!(wide.len(), 2);
    assert_eq!((wide[0].0, wide[0].1, wide[0].2), (83.0, 95.0, false));
    assert_eq!((wide[1].0, wide[1].1), (100.0, 112.0));
    assert!(near(wide[0].3, 2.0), "{wide:?}");
    // How deep a sloping flat is nobody has confirmed, and a plain shank has none.
    assert_eq!(flats("shank_form=HE"), [(50.0, 83.0, true, None)]);
    assert_eq!(flats("shank_form=plain"), []);
    assert_eq!(flats("description=x"), []);
}

#[test]
fn a_neck_lies_between_flutes_and_run_out() {
    let tool = drawing(&[TOOL, "neck_diameter=11,neck_length=36"]);
    let expected = [
        (PartKind::Flutes, 0.0, 32.0),
        (PartKind::Neck, 32.0, 36.0),
        (PartKind::RunOut, 36.0, 38.0),
        (PartKind::Shank, 38.0, 83.0),
    ];
    assert_eq!(parts(&tool), expected);
    assert_eq!(
        (tool.cutter[2].front, tool.cutter[2].rear),
        (Some(11.0), Some(12.0))
    );
}

#[test]
fn a_square_at_the_tail_is_no_shank() {
    let tool = drawing(&[TOOL, "drive_square=9,drive_square_length=10"]);
    let last = tool.cutter.last().unwrap();
    assert_eq!(
        (last.kind, last.span.from, last.front),
        (PartKind::Square, 73.0, Some(9.0))
    );
    assert!(matches!(tool.grip, Grip::Over(grip) if grip.to == 73.0));
}

#[test]
fn a_regrind_takes_its_share_off_the_flutes() {
    let tool = drawing(&[TOOL, "overall_length_actual=81"]);
    let expected = [
        (PartKind::Flutes, 0.0, 30.0),
        (PartKind::RunOut, 30.0, 36.0),
        (PartKind::Shank, 36.0, 81.0),
    ];
    assert_eq!(parts(&tool), expected);
}

#[test]
fn what_is_only_assumed_is_marked() {
    let tool = drawing(&["tool_number=1,cutting_diameter=12,overall_length=83,\
        chip_flute_length=32,shank_diameter=12,collet_size=32,bore_diameter=12,bore_length=40,\
        stick_out=40"]);
    let shank = tool.cutter.last().unwrap();
    assert_eq!((shank.kind, shank.span.from), (PartKind::Shank, 32.0));
    assert!(shank.span.assumed);
    assert!(!tool.cutter[0].span.assumed, "stated next to assumed");
    assert!(matches!(tool.grip, Grip::Over(grip) if grip.assumed));
    assert!(!tool.face.unwrap().assumed);
}

#[test]
fn what_is_not_known_is_left_out() {
    let no_shank = drawing(&["tool_number=1,cutting_diameter=8,overall_length=83,\
        chip_flute_length=32,shank_diameter=12,collet_size=32,bore_length=40,stick_out=40"]);
    let expected = [
        (PartKind::Flutes, 0.0, 32.0),
        (PartKind::Unstated, 32.0, 83.0),
    ];
    assert_eq!(parts(&no_shank), expected);
    let Grip::Unknown(missing) = no_shank.grip else {
        panic!("{:?}", no_shank.grip);
    };
    assert!(missing.contains(Field::ShankLength));
    assert_eq!(no_shank.ungripped(), []);

    let no_land = drawing(&[TOOL, "bore_length="]);
    assert_eq!(no_land.land.unwrap().from.z, 41.0);
    assert_eq!(no_land.land.unwrap().to, None);
    assert!(matches!(no_land.grip, Grip::Unknown(_)));

    let no_stick_out = drawing(&[TOOL, "stick_out="]);
    assert_eq!((no_stick_out.face, no_stick_out.land), (None, None));

    let no_collet = drawing(&[TOOL, "clamping_kind=shrink fit"]);
    assert_eq!((no_collet.grip, no_collet.land), (Grip::NoCollet, None));
    assert!(!no_collet.face_is_nut);
}

#[test]
fn the_grip_and_what_is_left_of_the_land() {
    // The land is [51, 91]: the shank from 38 fills it up to the tail at 83.
    let out = drawing(&[TOOL, "stick_out=50"]);
    assert!(matches!(out.grip, Grip::Over(grip) if (grip.from, grip.to) == (51.0, 83.0)));
    let bare: Vec<_> = out.ungripped().iter().map(|s| (s.from, s.to)).collect();
    assert_eq!(bare, [(83.0, 91.0)]);
    // The land is [31, 71]: flutes and run-out lie under its front.
    let deep = drawing(&[TOOL, "stick_out=30"]);
    let bare: Vec<_> = deep.ungripped().iter().map(|s| (s.from, s.to)).collect();
    assert_eq!(bare, [(31.0, 38.0)]);
    // The land is [91, 131], behind the shank end.
    let gone = drawing(&[TOOL, "stick_out=90"]);
    assert_eq!(gone.grip, Grip::Nothing);
    assert_eq!(gone.ungripped().len(), 1);
    // A rounding of inches is no part of the land without grip.
    let filled = drawing(&[TOOL, "shank_length=41.995,stick_out=40"]);
    assert_eq!(filled.ungripped(), []);
}

#[test]
fn overrides_move_the_face_and_the_land_and_nothing_of_the_cutter() {
    let library = row(&[TOOL]);
    let before = with_scene(&library, &[], draw::assembly);
    let after = with_scene(&library, &[(Field::StickOut, 62.0)], draw::assembly);
    assert_eq!(after.face.unwrap().z, 62.0);
    let (land, was) = (after.land.unwrap(), before.land.unwrap());
    assert_eq!(land.from.z - was.from.z, 22.0);
    assert_eq!(after.cutter, before.cutter);
}

#[test]
fn the_grip_is_as_long_as_the_fact_says() {
    for stick_out in 1..100 {
        let library = row(&[TOOL, "drive_square_length=6"]);
        let numbers = [(Field::StickOut, f64::from(stick_out))];
        let fact = with_scene(&library, &numbers, |scene| {
            scene.number(Fact::GrippedLength).value
        });
        let drawn = match with_scene(&library, &numbers, draw::assembly).grip {
            Grip::Over(grip) => grip.length(),
            _ => 0.0,
        };
        assert!((drawn - fact.unwrap()).abs() < 1e-9, "{stick_out}");
    }
}

#[test]
fn tips_are_flat_pointed_or_round() {
    let tip = |cells| drawing(&[TOOL, cells]).tip;
    assert_eq!(tip("cutter_kind=end mill"), Tip::Square);
    assert_eq!(tip("cutter_kind=drill"), Tip::Square, "no angle is stated");
    let cone = tip("cutter_kind=drill,point_angle=90");
    assert!(matches!(cone, Tip::Cone(length) if (length - 6.0).abs() < 1e-9));
    assert_eq!(tip("cutter_kind=ball nose"), Tip::Round(6.0));
    assert_eq!(tip("corner_radius=2"), Tip::Round(2.0));
    assert_eq!(tip("corner_radius=20"), Tip::Square, "no tool has it");
}
