//! The stress along the socket's bore, against a solid of revolution: in the whole taper within 7 %
//! of the stress at the mouth.

use shankwise::mechanics::mouth::{Filling, Loading, Socket, along, mouth};

/// Depths, mm, at which the solid was asked.
const DEPTHS: [f64; 8] = [2.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0];

/// Hoop stress at the bore under 100 kN, MPa, by axisymmetric finite elements (scikit-fem 12.0.2,
/// `tests/reference/mouth_fe.py`) for three engaged lengths, mm.
const SOLID: [(f64, [f64; 8]); 3] = [
    (
        40.0,
        [64.16, 63.82, 61.32, 59.32, 57.41, 57.39, 56.24, 50.59],
    ),
    (
        26.667,
        [111.0, 111.3, 107.5, 99.92, 85.57, 56.85, 55.59, 30.42],
    ),
    (
        20.0,
        [163.8, 163.3, 151.2, 125.7, 87.06, 66.32, 35.05, 15.47],
    ),
];

/// A mouth of 33, a taper of 40, a nose of 38.2 for 14 and then 50 mm; a carbide shank of 12 mm.
fn case() -> (Socket, Loading) {
    let socket = Socket {
        mouth_diameter: 33.0,
        taper_length: 40.0,
        outside: vec![(38.2, 0.0), (50.0, 14.0)],
        modulus: 210e3,
        poisson: 0.3,
    };
    let wedge = Loading::Wedge(Filling {
        shank_diameter: 12.0,
        shank_modulus: 600e3,
        shank_poisson: 0.22,
        collet_modulus: 210e3,
    });
    (socket, wedge)
}

#[test]
fn the_whole_bore_is_near_the_solid() {
    let (socket, wedge) = case();
    for (engaged, solid) in SOLID {
        let stations = along(&socket, wedge, engaged, 100e3);
        let at_mouth = stations[0].stress;
        for (depth, expected) in DEPTHS.into_iter().zip(solid) {
            let after = stations.iter().position(|one| one.depth >= depth).unwrap();
            let (a, b) = (stations[after - 1], stations[after]);
            let part = (depth - a.depth) / (b.depth - a.depth);
            let found = a.stress + (b.stress - a.stress) * part;
            assert!(
                (found - expected).abs() <= 0.07 * at_mouth,
                "{engaged} engaged, {depth}: {found}, not {expected}"
            );
        }
    }
}

#[test]
fn it_begins_with_the_stress_of_the_mouth_and_ends_with_the_taper() {
    let (socket, wedge) = case();
    for loading in [wedge, Loading::Uniform] {
        let stations = along(&socket, loading, 20.0, 100e3);
        let own = mouth(&socket, loading, 20.0, 100e3).stress;
        assert!((stations[0].stress - own).abs() < 1e-9 * own);
        assert!(
            stations
                .windows(2)
                .all(|pair| pair[0].depth < pair[1].depth)
        );
        let last = stations.last().unwrap().depth;
        assert!((39.0..40.0).contains(&last), "{last}");
    }
}

/// Limit case: the middle of a long tube under equal pressure, whose bore hardly narrows, has the
/// hoop stress of Lamé's thick cylinder, which no end disturbs.
#[test]
fn far_from_the_ends_it_is_lames_cylinder() {
    let socket = Socket {
        mouth_diameter: 400.0,
        taper_length: 400.0,
        outside: vec![(480.0, 0.0)],
        modulus: 210e3,
        poisson: 0.3,
    };
    let stations = along(&socket, Loading::Uniform, 400.0, 1e6);
    let middle = stations.iter().find(|one| one.depth > 200.0).unwrap();
    let radius = 200.0 - middle.depth * 8_f64.to_radians().tan();
    // The pressure that makes 1 MN over the cone.
    let (front, rear) = (200.0, 200.0 - 400.0 * 8_f64.to_radians().tan());
    let surface = std::f64::consts::PI * (front * front - rear * rear) / 8_f64.to_radians().sin();
    let pressure = 1e6 / surface;
    let (b, r) = (240.0_f64.powi(2), radius.powi(2));
    let lame = pressure * (b + r) / (b - r);
    assert!(
        (middle.stress / lame - 1.0).abs() < 0.06,
        "{} not {lame}",
        middle.stress
    );
}
