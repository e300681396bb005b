//! Formulas by name, for the evidence: each row names one with its inputs.

use std::collections::BTreeMap;

use crate::mechanics::axial::{self, Land, Shank};
use crate::mechanics::bending::{self, Step};
use crate::mechanics::clamping;
use crate::mechanics::cutting::{self, Cut, Resistance};
use crate::mechanics::drilling;
use crate::mechanics::mouth::{self, Filling, Loading, Socket};
use crate::mechanics::reach;
use crate::mechanics::rotation;
use crate::mechanics::side;

type Inputs = BTreeMap<String, f64>;

/// The value of a formula; `None` if it or one of its inputs is not known.
pub(super) fn value(formula: &str, inputs: &Inputs) -> Option<f64> {
    let (topic, name) = formula.split_once('.')?;
    let get = |name: &str| inputs.get(name).copied();
    match topic {
        "axial" => axial_value(name, &get).or_else(|| bore_value(name, &get)),
        "reach" => reach_value(name, &get),
        "clamping" => clamping_value(name, &get),
        "mouth" => mouth_value(name, &get),
        "bending" => bending_value(name, &get),
        "cutting" => cutting_value(name, &get)
            .or_else(|| side_value(name, &get))
            .or_else(|| drilling_value(name, &get)),
        "rotation" => rotation_value(name, &get),
        _ => None,
    }
}

type Get<'g> = &'g dyn Fn(&str) -> Option<f64>;

fn shank(get: Get<'_>) -> Option<Shank> {
    Some(Shank {
        overall_length: get("overall_length")?,
        shank_length: get("shank_length")?,
        square_length: get("square_length").unwrap_or(0.0),
    })
}

fn land(get: Get<'_>) -> Option<Land> {
    Some(Land {
        stick_out: get("stick_out")?,
        bore_setback: get("bore_setback").unwrap_or(0.0),
        bore_length: get("bore_length")?,
    })
}

fn axial_value(name: &str, get: Get<'_>) -> Option<f64> {
    Some(match name {
        "gripped_length" => axial::gripped_length(shank(get)?, land(get)?),
        "ungripped_front" => axial::ungripped_front(shank(get)?, land(get)?),
        "insertion" => axial::insertion(get("overall_length")?, get("stick_out")?),
        "needed_grip" => axial::needed_grip(get("fraction")?, get("bore_length")?),
        "draw_in" => axial::draw_in(get("bore_gap")?),
        "shortest_overall_length" => axial::shortest_overall_length(
            land(get)?,
            get("needed_grip")?,
            get("square_length").unwrap_or(0.0),
        ),
        "shortest_for_flutes" => axial::shortest_for_flutes(
            get("overall_length")?,
            get("chip_flute_length")?,
            get("reach")?,
        ),
        "point_length" => axial::point_length(get("cutting_diameter")?, get("point_angle")?),
        "protruding_length" => axial::protruding_length(get("gauge_length")?, get("stick_out")?),
        _ => return None,
    })
}

/// What collet and shank have of each other.
fn bore_value(name: &str, get: Get<'_>) -> Option<f64> {
    Some(match name {
        "bore_setback" => axial::bore_setback(get("face_setback")?, get("bore_recess")?),
        "plain_shank" => axial::plain_shank(get("shank_length")?, get("square_length")?),
        "grip_fraction" => axial::grip_fraction(get("gripped_length")?, get("bore_length")?),
        "bore_gap" => axial::bore_gap(get("bore_diameter")?, get("shank_diameter")?),
        "flat_in_bore" => axial::flat_in_bore(
            get("overall_length")?,
            get("from_tail")?,
            get("to_tail")?,
            land(get)?,
        ),
        "plain_insertion" => axial::plain_insertion(
            shank(get)?,
            get("stick_out")?,
            get("bore_setback").unwrap_or(0.0),
        ),
        "flat_stick_out" => axial::flat_stick_out(
            get("overall_length")?,
            get("flat_distance")?,
            get("screw_distance")?,
        ),
        "draw_in_one_in_ten" => axial::draw_in_one_in_ten(get("bore_gap")?),
        "collet_rear" => axial::collet_rear(get("face_setback")?, get("collet_length")?),
        "square_engagement" => axial::square_engagement(
            get("insertion")?,
            get("square_length")?,
            Land {
                stick_out: 0.0,
                bore_setback: get("bore_setback")?,
                bore_length: get("bore_length")?,
            },
            get("rear")?,
        ),
        "square_insertion" => {
            let land = Land {
                stick_out: 0.0,
                bore_setback: get("bore_setback")?,
                bore_length: get("bore_length")?,
            };
            axial::square_insertion(land, get("square_length")?, get("share")?)
        }
        "insertion_needed" => {
            let asks = |name| get(name).unwrap_or(f64::NEG_INFINITY);
            let others = (asks("maker"), asks("square_insertion"));
            axial::insertion_needed(
                get("bore_setback")?,
                get("needed_grip")?,
                get("square_length").unwrap_or(0.0),
                others,
            )
        }
        "deepest_square" => {
            axial::deepest_square(get("rear")?, get("square_length")?, get("share")?)
        }
        "deepest_insertion" => {
            axial::deepest_insertion(get("depth")?, get("draw_in")?, get("room")?)
        }
        "least_stick_out" => axial::least_stick_out(
            shank(get)?,
            get("bore_setback")?,
            get("needs")?,
            get("deepest").unwrap_or(f64::INFINITY),
        ),
        _ => return None,
    })
}

fn reach_value(name: &str, get: Get<'_>) -> Option<f64> {
    Some(match name {
        "needed" => reach::needed(get("reach")?, get("clearance")?),
        "margin" => reach::margin(get("has")?, get("needs")?),
        "rubbing_excess" => reach::rubbing_excess(get("following")?, get("cutting_diameter")?),
        "nut_room" => reach::nut_room(get("room")?, get("nut")?, get("clearance")?),
        "overhang_ratio" => reach::overhang_ratio(get("length")?, get("diameter")?),
        "functional_length" => {
            reach::functional_length(get("protruding_length")?, get("point_length")?)
        }
        _ => return None,
    })
}

/// From the nut's torque to its force; one friction where the face has none of its own.
fn nut_force(get: Get<'_>) -> Option<f64> {
    let (pitch, friction) = (get("pitch")?, get("friction")?);
    let mean = clamping::pitch_diameter(get("diameter")?, pitch);
    let thread = clamping::thread_arm(mean, pitch, friction, clamping::METRIC_FLANK);
    let on_face = get("face_friction").unwrap_or(friction);
    let face = clamping::face_arm(on_face, get("radius")?, get("half_angle")?.to_radians());
    Some(clamping::axial_force(get("torque")?, thread, face))
}

/// From the nut's torque to the torque at which the shank slips: the whole chain.
fn nut_to_slip(get: Get<'_>) -> Option<f64> {
    let force = nut_force(get)?;
    let taper = clamping::SETTING_ANGLE;
    let radial =
        clamping::radial_force(force, taper, get("taper_friction")?, get("bore_friction")?);
    Some(clamping::slip_torque(
        get("shank_friction")?,
        radial,
        get("shank")?,
    ))
}

fn clamping_value(name: &str, get: Get<'_>) -> Option<f64> {
    let degrees = |name: &str| get(name).map(f64::to_radians);
    Some(match name {
        "pitch_diameter" => clamping::pitch_diameter(get("diameter")?, get("pitch")?),
        "thread_arm" => clamping::thread_arm(
            get("pitch_diameter")?,
            get("pitch")?,
            get("friction")?,
            degrees("flank")?,
        ),
        "face_arm" => clamping::face_arm(get("friction")?, get("radius")?, degrees("half_angle")?),
        "axial_force" => nut_force(get)?,
        "nut_to_slip" => nut_to_slip(get)?,
        "radial_force" => clamping::radial_force(
            get("axial")?,
            degrees("half_angle")?,
            get("friction")?,
            get("bore_friction").unwrap_or(0.0),
        ),
        "cone_force" => {
            clamping::cone_force(get("axial")?, degrees("half_angle")?, get("friction")?)
        }
        "core_diameter" => clamping::core_diameter(get("diameter")?, get("pitch")?),
        "taper_diameter" => clamping::taper_diameter(get("mouth")?, get("depth")?),
        "ring_tension" => clamping::ring_tension(get("force")?, get("outer")?, get("inner")?),
        "normal_force" => {
            clamping::normal_force(get("radial")?, degrees("half_angle")?, get("friction")?)
        }
        "grip_force" => clamping::grip_force(get("friction")?, get("radial")?),
        "slip_torque" => clamping::slip_torque(get("friction")?, get("radial")?, get("diameter")?),
        "slip_ratio" => clamping::slip_ratio(get("slip")?, get("torque")?),
        "edge_ratio" => clamping::edge_ratio(
            get("overhang")?,
            get("bare").unwrap_or(0.0),
            get("engaged")?,
            get("full")?,
        ),
        "pull_out_ratio" => {
            clamping::pull_out_ratio(get("grip")?, get("torque")?, get("pull")?, get("diameter")?)
        }
        "edge_pressure" => clamping::edge_pressure(
            get("force")?,
            get("overhang")?,
            get("diameter")?,
            get("engaged")?,
        ),
        "ring_hoop" => {
            clamping::ring_hoop(get("pressure")?, get("inner")?, get("outer")?, get("at")?)
        }
        _ => return None,
    })
}

fn mouth_value(name: &str, get: Get<'_>) -> Option<f64> {
    let mut outside = vec![(get("nose")?, 0.0)];
    if let (Some(body), Some(from)) = (get("body"), get("nose_length")) {
        outside.push((body, from));
    }
    let socket = Socket {
        mouth_diameter: get("mouth")?,
        taper_length: get("taper")?,
        outside,
        modulus: get("modulus")?,
        poisson: get("poisson")?,
    };
    let wedge = || {
        Some(Loading::Wedge(Filling {
            shank_diameter: get("shank")?,
            shank_modulus: get("shank_modulus")?,
            shank_poisson: get("shank_poisson")?,
            collet_modulus: get("collet_modulus")?,
        }))
    };
    let engaged = get("engaged")?;
    let stress = |loading, engaged| {
        let force = get("normal_force")?;
        Some(mouth::mouth(&socket, loading, engaged, force).stress)
    };
    match name {
        // By one name held against the solid, by the other against the beam solved finely.
        "stress" | "beam_stress" => stress(wedge()?, engaged),
        "stress_upper" | "beam_stress_upper" => stress(Loading::Uniform, engaged),
        "ratio" => Some(stress(wedge()?, engaged)? / stress(wedge()?, socket.taper_length)?),
        "ratio_upper" => Some(
            stress(Loading::Uniform, engaged)? / stress(Loading::Uniform, socket.taper_length)?,
        ),
        "opening" => Some(mouth::mouth(&socket, wedge()?, engaged, get("normal_force")?).opening),
        _ => None,
    }
}

/// Steps from the tip: `length1`, `diameter1`, `modulus1`, `density1`, and so on.
fn steps(get: Get<'_>) -> Vec<Step> {
    let all = (1..=9).map_while(|number| {
        let of = |name: &str| get(&format!("{name}{number}"));
        Some(Step {
            length: of("length")?,
            diameter: of("diameter")?,
            modulus: of("modulus")?,
            density: of("density").unwrap_or(0.0),
        })
    });
    all.collect()
}

fn bending_value(name: &str, get: Get<'_>) -> Option<f64> {
    let steps = steps(get);
    match name {
        _ if steps.is_empty() => None,
        "tip_deflection" => {
            let height = get("height").unwrap_or(0.0);
            Some(bending::tip_deflection(&steps, get("force")?, height))
        }
        "tip_stiffness" => Some(bending::tip_stiffness(&steps)),
        "first_frequency" => Some(bending::first_frequency(&steps)),
        _ => None,
    }
}

fn material(get: Get<'_>) -> Option<Resistance> {
    Some(Resistance {
        kc11: get("kc11")?,
        mc: get("mc")?,
        correction: get("correction").unwrap_or(1.0),
    })
}

fn cut(get: Get<'_>) -> Option<Cut> {
    Some(Cut {
        diameter: get("diameter")?,
        flutes: get("flutes")?,
        helix: get("helix")?.to_radians(),
        depth: get("depth")?,
        width: get("width")?,
        feed: get("feed")?,
    })
}

/// What the cut does besides turning: it pushes sideways, and along the axis.
fn side_value(name: &str, get: Get<'_>) -> Option<f64> {
    let degrees = |name: &str| get(name).map(f64::to_radians);
    Some(match name {
        "side_force" => side::side_force(cut(get)?, material(get)?, get("radial_share")?),
        "side_deflection" => {
            let beam = bending::Beam::from(steps(get).as_slice());
            let cut = side::SideCut::new(cut(get)?, material(get)?, get("radial_share")?);
            cut.effect(|height| beam.compliance(height))
        }
        "tangential_force" => side::tangential_force(get("torque")?, get("diameter")?),
        "axial_pull" => side::axial_pull(get("force")?, degrees("helix")?),
        "axial_pull_with_friction" => side::axial_pull_with_friction(
            get("force")?,
            degrees("helix")?,
            degrees("rake")?,
            degrees("friction")?,
        ),
        _ => return None,
    })
}

fn drilling_value(name: &str, get: Get<'_>) -> Option<f64> {
    let point = get("point")?.to_radians();
    let (diameter, feed, material) = (get("diameter")?, get("feed")?, material(get)?);
    Some(match name {
        "drilling_torque" => drilling::torque(diameter, feed, point, material),
        "drill_thrust" => drilling::thrust(diameter, feed, point, material),
        _ => return None,
    })
}

fn cutting_value(name: &str, get: Get<'_>) -> Option<f64> {
    let degrees = |name: &str| get(name).map(f64::to_radians);
    let (material, cut) = (|| material(get), || cut(get));
    Some(match name {
        "cutting_speed" => cutting::cutting_speed(get("diameter")?, get("speed")?),
        "engagement_angle" => {
            cutting::engagement_angle(get("width")?, get("diameter")?).to_degrees()
        }
        "mean_chip_thickness" => cutting::mean_chip_thickness(
            get("width")?,
            get("diameter")?,
            get("feed")?,
            degrees("edge_angle")?,
        ),
        "specific_force" => material()?.specific_force(get("thickness")?),
        "peak_torque" => cutting::peak_torque(cut()?, material()?),
        "mean_torque" => cutting::mean_torque(cut()?, material()?),
        "peak_over_mean" => {
            cutting::peak_torque(cut()?, material()?) / cutting::mean_torque(cut()?, material()?)
        }
        "milling_power" => cutting::milling_power(
            get("depth")?,
            get("width")?,
            get("feed_speed")?,
            get("specific_force")?,
        ),
        "tapping_torque" => {
            cutting::tapping_torque(get("diameter")?, get("pitch")?, get("specific_force")?)
        }
        "power" => cutting::power(get("torque")?, get("speed")?),
        "ball_diameter" => cutting::ball_diameter(get("diameter")?, get("depth")?),
        _ => return None,
    })
}

fn rotation_value(name: &str, get: Get<'_>) -> Option<f64> {
    Some(match name {
        "permissible_unbalance" => {
            rotation::permissible_unbalance(get("grade")?, get("mass")?, get("speed")?)
        }
        "run_out_at_tip" => {
            rotation::run_out_at_tip(get("run_out")?, get("distance")?, get("stick_out")?)
        }
        "neighbour_difference" => rotation::neighbour_difference(get("run_out")?, get("flutes")?),
        "thickest_chip" => rotation::thickest_chip(get("feed")?, get("width")?, get("diameter")?),
        "run_out_share" => rotation::run_out_share(get("difference")?, get("chip")?),
        "speed_of_teeth" => rotation::speed_of_teeth(get("frequency")?, get("flutes")?),
        "tooth_frequency" => rotation::tooth_frequency(get("speed")?, get("flutes")?),
        "grade_at" => rotation::grade_at(get("grade")?, get("balanced_at")?, get("speed")?),
        _ => return None,
    })
}
