//! The limits of a stick-out as a scale, with the recorded value and the one to set.

use std::fmt::Write as _;

use crate::units::Unit;
use crate::units::print::{self, DisplayUnits};

use super::escaped;

pub(super) const STYLE: &str = include_str!("limits_scale.css");

/// What the scale shows; lengths in mm.
pub(in crate::write) struct LimitsScale {
    /// The limits of all rules; none if no stick-out meets them, or neither is known.
    pub limits: Option<(Option<f64>, Option<f64>)>,
    /// The limits within which it is advised.
    pub advised: Option<(Option<f64>, Option<f64>)>,
    /// What is recorded, with the word for it.
    pub recorded: Option<(&'static str, f64)>,
    /// What it should be set to.
    pub recommended: Option<f64>,
    /// The units that its people read.
    pub units: DisplayUnits,
}

/// Where the line lies, and from where to where.
const LINE: f64 = 34.0;
const LEFT: f64 = 10.0;
const WIDE: f64 = 580.0;

impl LimitsScale {
    /// The scale as SVG.
    pub(in crate::write) fn drawn(&self) -> String {
        let limits = self.limits.map_or([None; 2], |(min, max)| [min, max]);
        let advised = self.advised.map_or([None; 2], |(min, max)| [min, max]);
        let values = limits
            .into_iter()
            .chain(advised)
            .chain([self.recorded.map(|(_, at)| at), self.recommended])
            .flatten();
        let high = values.fold(1.0_f64, f64::max) * 1.15;
        let x = |length: f64| LEFT + length / high * WIDE;
        let mut drawn = format!(
            "<svg class=\"scale\" role=\"img\" aria-label=\"stick-out limits\" viewBox=\"0 0 600 64\"><line class=\"axisline\" x1=\"{LEFT}\" y1=\"{LINE}\" x2=\"{}\" y2=\"{LINE}\"/>",
            LEFT + WIDE
        );
        if let Some(limits) = self.limits {
            let bars = [("free", Some(limits), 18.0), ("advised", self.advised, 8.0)];
            for (class, ends, height) in bars {
                let Some((min, max)) = ends else { continue };
                let (min, max) = (min.unwrap_or(0.0), max.unwrap_or(high));
                if max >= min {
                    // Writing to a String cannot fail, here and below.
                    let _ = write!(
                        drawn,
                        "<rect class=\"{class}\" x=\"{:.1}\" y=\"{:.1}\" width=\"{:.1}\" height=\"{height}\"/>",
                        x(min),
                        LINE - height / 2.0,
                        (x(max) - x(min)).max(1.0)
                    );
                }
            }
        }
        let recommended = self.recommended.map(|at| ("set to", at));
        for (class, mark, y) in [("own", self.recorded, 60.0), ("rec", recommended, 12.0)] {
            let Some((name, at)) = mark else { continue };
            let anchor = match x(at) {
                ..120.0 => "start",
                480.0.. => "end",
                _ => "middle",
            };
            let _ = write!(
                drawn,
                "<line class=\"{class}\" x1=\"{x:.1}\" y1=\"18\" x2=\"{x:.1}\" y2=\"50\"/><text x=\"{x:.1}\" y=\"{y}\" text-anchor=\"{anchor}\" font-size=\"13\">{name} {}</text>",
                escaped(&print::value(at, Unit::Mm, self.units)),
                x = x(at),
            );
        }
        drawn + "</svg>"
    }
}
