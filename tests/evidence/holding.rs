//! Outside checks of torque, slip, stress and cuts that a row of the evidence cannot say.

use shankwise::mechanics::clamping::{
    SETTING_ANGLE, axial_force, face_arm, normal_force, radial_force, thread_arm,
};
use shankwise::mechanics::cutting::{
    Cut, Resistance, ball_diameter, mean_torque, peak_torque, tapping_torque,
};
use shankwise::mechanics::mouth::{Loading, Socket, mouth, outside_validity};

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    let off = (found - expected).abs() / expected.abs();
    assert!(
        off <= tolerance,
        "{found} is not {expected}: off by {off:.2e}"
    );
}

/// Shigley, Mechanical Engineering Design, Prob. 8-4: both moments together, 16.23 N·m to raise
/// and 6.622 to lower 6 kN, and an efficiency of 0.294.
#[test]
fn a_power_screw() {
    let collar = face_arm(0.05, 20.0, 90f64.to_radians());
    let raise = thread_arm(22.5, 5.0, 0.08, 0.0);
    let lower = thread_arm(22.5, -5.0, 0.08, 0.0);
    near((raise + collar) * 6.0, 16.23, 5e-4);
    near((lower + collar) * 6.0, 6.622, 5e-4);
    near(axial_force(16.23, raise, collar), 6e3, 5e-4);
    let work = 6e3 * 5.0 / (2.0 * std::f64::consts::PI);
    near(work / ((raise + collar) * 6e3), 0.294, 2e-3);
}

/// The forces on the wedge close: normal force and friction give back both the axial and the
/// radial one, with and without an axial slip at the bore.
#[test]
fn the_forces_of_the_wedge_close() {
    let (axial, friction) = (17_051.0, 0.15);
    for bore in [0.0, 0.1] {
        let radial = radial_force(axial, SETTING_ANGLE, friction, bore);
        let normal = normal_force(radial, SETTING_ANGLE, friction);
        let (sin, cos) = SETTING_ANGLE.sin_cos();
        near(normal * (cos - friction * sin), radial, 1e-12);
        near(
            normal * (sin + friction * cos) + bore * radial,
            axial,
            1e-12,
        );
    }
}

fn socket(nose: f64, taper_length: f64) -> Socket {
    Socket {
        mouth_diameter: 30.0,
        taper_length,
        outside: vec![(nose, 0.0)],
        modulus: 210e3,
        poisson: 0.3,
    }
}

/// The ends of what the reference sockets span, each from both sides.
#[test]
fn the_socket_model_knows_its_ends() {
    // Radius 15: walls from 1.8 to 7.8, tapers from 30 to 49.5.
    let fine = |nose, taper, engaged| outside_validity(&socket(nose, taper), engaged).is_none();
    assert!(fine(33.6, 40.0, 40.0) && !fine(33.58, 40.0, 40.0));
    assert!(fine(45.6, 40.0, 40.0) && !fine(45.62, 40.0, 40.0));
    assert!(fine(40.0, 30.0, 30.0) && !fine(40.0, 29.9, 29.9));
    assert!(fine(40.0, 49.5, 49.5) && !fine(40.0, 49.6, 49.6));
    assert!(fine(40.0, 40.0, 10.0) && !fine(40.0, 40.0, 9.99));
}

/// No cliff at two thirds: from millimetre to millimetre the stress changes smoothly.
#[test]
fn there_is_no_cliff() {
    let socket = socket(38.0, 40.0);
    let at = |engaged: f64| mouth(&socket, Loading::Uniform, engaged, 1e5).stress;
    for tenths in 120..390 {
        let engaged = f64::from(tenths) / 10.0;
        let (less, here, more) = (at(engaged - 0.5), at(engaged), at(engaged + 0.5));
        assert!(less > here && here > more, "falls at {engaged}");
        let bend = (less - here) / (here - more);
        assert!((0.7..1.6).contains(&bend), "{bend} at {engaged}");
    }
}

fn slot(flutes: f64, helix: f64) -> Cut {
    Cut {
        diameter: 12.0,
        flutes,
        helix: helix.to_radians(),
        depth: 9.0,
        width: 12.0,
        feed: 0.06,
    }
}

const STEEL: Resistance = Resistance {
    kc11: 2220.0,
    mc: 0.14,
    correction: 1.0,
};

/// One straight tooth at its thickest chip: k_c1.1 h^(1 − m_c) a_p D/2, worked by hand. The mean
/// does not know the helix, and where an edge winds on for ever there is no peak.
#[test]
fn teeth_straight_and_wound() {
    let by_hand = 2220.0 * 0.06f64.powf(0.86) * 9.0 * 6.0 / 1e3;
    near(peak_torque(slot(1.0, 0.0), STEEL), by_hand, 1e-4);
    near(peak_torque(slot(2.0, 0.0), STEEL), by_hand, 1e-4);
    let mean = mean_torque(slot(3.0, 0.0), STEEL);
    near(mean_torque(slot(3.0, 45.0), STEEL), mean, 1e-12);
    near(peak_torque(slot(3.0, 89.99), STEEL), mean, 1e-3);
    // More teeth than any cutter has take no longer to reckon than a few.
    near(
        peak_torque(slot(1e12, 30.0), STEEL),
        mean_torque(slot(1e12, 30.0), STEEL),
        1e-9,
    );
}

/// A width beyond the diameter is a slot, a depth beyond the radius cuts at the whole diameter.
#[test]
fn cuts_beyond_the_cutter() {
    let wide = Cut {
        width: 30.0,
        ..slot(3.0, 30.0)
    };
    near(
        peak_torque(wide, STEEL),
        peak_torque(slot(3.0, 30.0), STEEL),
        1e-12,
    );
    near(ball_diameter(10.0, 7.0), 10.0, 1e-12);
    near(tapping_torque(10.0, 1.5, 3020.0), 8.49375, 1e-9);
}
