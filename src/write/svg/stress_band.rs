//! The stress in the socket as a graded band along its bore, with a scale.
//!
//! The shades are those of ColorBrewer's map YlOrBr (Apache-2.0), from light to dark, in the dark the
//! other way round: in order also for who tells colours apart otherwise, and in a grey print.

use super::super::json::{Drawn, Outlined, Stressed};
use super::Frame;
use super::marks::{Canvas, Pen};

/// Shades of the band, each a quarter of what a full grip puts into the mouth.
const SHADES: usize = 12;
const SHADE: f64 = 0.25;

/// The shade of a stress.
fn shade(ratio: f64) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a small number that is not negative"
    )]
    let shade = (ratio / SHADE).max(0.0) as usize;
    shade.min(SHADES - 1)
}

/// The band, outside the socket's bore on both sides of the axis.
pub(super) fn band(drawn: &Drawn, frame: &Frame, canvas: &mut Canvas) {
    let socket = drawn.around.iter().find(|one| one.of == "socket");
    let (Some(stress), Some(socket)) = (&drawn.stress, socket) else {
        return;
    };
    let Some(radius) = Bore::of(socket) else {
        return;
    };
    let thick = frame.size * 0.7;
    let stretches = stretches(stress);
    for (from, to, first) in &stretches {
        let (a, b) = (radius.at(*from), radius.at(*to));
        for side in [-1.0, 1.0] {
            let corners = [
                (*from, side * a),
                (*to, side * b),
                (*to, side * (b + thick)),
                (*from, side * (a + thick)),
            ];
            canvas.shape(&format!("s{}", shade(*first)), &corners);
        }
    }
    let ends = stress.stations.first().zip(stress.stations.last());
    let Some(((front, at_mouth), (_, at_end))) = ends else {
        return;
    };
    let pen = Pen::of(stress.assumed);
    for side in [-1.0, 1.0] {
        let edge = [*front, stress.end].map(|z| (z, side * (radius.at(z) + thick)));
        let fact = "mouth_stress_ratio";
        canvas.graded(fact, (edge[0], edge[1]), (*at_mouth, *at_end), pen);
        for (z, r) in edge {
            canvas.line((z, r - side * thick), (z, r), Pen::Thin);
        }
    }
}

/// What the shades mean, and what the mouth has, which beside other drawings is said by their
/// captions. How far down it goes, in sizes of its texts.
pub(super) fn scale(
    stress: &Stressed,
    top: f64,
    size: f64,
    is_small: bool,
    canvas: &mut Canvas,
) -> f64 {
    let wide = size * 1.5;
    let mut end = 0.0;
    for shade in 0..SHADES {
        canvas.box_of(&format!("s{shade}"), (end, top), (wide, size * 0.9));
        end += wide;
    }
    canvas.line((0.0, top), (end, top), Pen::Thin);
    canvas.line((0.0, top + size * 0.9), (end, top + size * 0.9), Pen::Thin);
    for (at, text) in [(0.0, "0"), (1.0, "1"), (2.0, "2"), (3.0, "3 and more")] {
        let x = at / SHADE * wide;
        canvas.line((x, top), (x, top + size * 1.2), Pen::Thin);
        canvas.text("mid", (x, top + size * 2.1), size * 0.85, text);
    }
    let Some((_, at_mouth)) = stress.stations.first().filter(|_| !is_small) else {
        return 2.6;
    };
    let sure = if stress.assumed {
        ", partly assumed"
    } else {
        ""
    };
    let words = format!(
        "stress in the socket, model{sure}; 1: at the mouth with a full grip. At the mouth here: {at_mouth:.1}"
    );
    canvas.text("start", (0.0, top + size * 3.4), size * 0.85, &words);
    4.0
}

/// Stretches of one shade: from, to, and what the first of it has.
fn stretches(stress: &Stressed) -> Vec<(f64, f64, f64)> {
    let mut all: Vec<(f64, f64, f64)> = Vec::new();
    let next = stress.stations.iter().skip(1).map(|(z, _)| *z);
    for ((z, ratio), after) in stress.stations.iter().zip(next.chain([stress.end])) {
        // A station is the middle of its stretch, but for the first, which is the mouth.
        let from = all.last().map_or(*z, |(_, to, _)| *to);
        let to = if after < stress.end {
            z.midpoint(after)
        } else {
            after
        };
        match all.last_mut() {
            Some(last) if shade(last.2) == shade(*ratio) => last.1 = to,
            _ => all.push((from, to, *ratio)),
        }
    }
    all
}

/// The bore of the socket: its radius along the axis.
struct Bore {
    from: f64,
    front: f64,
    slope: f64,
}

impl Bore {
    fn of(socket: &Outlined) -> Option<Bore> {
        let (front, rear, to) = (socket.front?, socket.rear?, socket.to?);
        let long = to.z - socket.from.z;
        (long > 0.0).then(|| Bore {
            from: socket.from.z,
            front: front / 2.0,
            slope: (rear - front) / 2.0 / long,
        })
    }

    fn at(&self, z: f64) -> f64 {
        (z - self.from).mul_add(self.slope, self.front)
    }
}
