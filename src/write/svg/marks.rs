//! Marks on a drawing: every length is in millimetres, and nothing of a library is taken for markup.

use std::fmt::Write as _;

use crate::text::visible;

/// How wide a character is on average, as a part of its size.
const WIDE: f64 = 0.58;

/// What is drawn so far.
#[derive(Default)]
pub(super) struct Canvas {
    lines: String,
    /// Written last: a line never crosses a text.
    texts: String,
}

/// How sure an edge is, and how heavy: the kinds of line of ISO 128.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pen {
    /// An edge that is seen: continuous, wide.
    Edge,
    /// An edge that rests on what is only assumed: dashed.
    Assumed,
    /// Dimensions and leaders: continuous, narrow.
    Thin,
    /// The axis: long dashes and dots, narrow.
    Axis,
}

impl Pen {
    /// Of an edge.
    pub(super) const fn of(assumed: bool) -> Pen {
        if assumed { Pen::Assumed } else { Pen::Edge }
    }

    const fn class(self) -> &'static str {
        match self {
            Pen::Edge => "edge",
            Pen::Assumed => "assumed",
            Pen::Thin => "thin",
            Pen::Axis => "axis",
        }
    }
}

impl Canvas {
    /// All of it.
    pub(super) fn drawn(&self) -> String {
        format!("{}{}", self.lines, self.texts)
    }

    /// A line.
    pub(super) fn line(&mut self, from: (f64, f64), to: (f64, f64), pen: Pen) {
        self.marked(pen.class(), from, to);
    }

    /// A line of a class of its own.
    pub(super) fn marked(&mut self, class: &str, (x1, y1): (f64, f64), (x2, y2): (f64, f64)) {
        // Writing to a String cannot fail, here and below.
        let _ = write!(
            self.lines,
            "<line class=\"{class}\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>",
            n(x1),
            n(y1),
            n(x2),
            n(y2)
        );
    }

    /// A filled shape on both sides of the axis, from one radius to another.
    pub(super) fn band(&mut self, class: &str, (from, to): (f64, f64), (front, rear): (f64, f64)) {
        let _ = write!(
            self.lines,
            "<polygon class=\"{class}\" points=\"{},{} {},{} {},{} {},{}\"/>",
            n(from),
            n(-front),
            n(to),
            n(-rear),
            n(to),
            n(rear),
            n(from),
            n(front)
        );
    }

    /// A filled shape.
    pub(super) fn shape(&mut self, class: &str, corners: &[(f64, f64)]) {
        let corners: Vec<String> = corners
            .iter()
            .map(|(x, y)| format!("{},{}", n(*x), n(*y)))
            .collect();
        let _ = write!(
            self.lines,
            "<polygon class=\"{class}\" points=\"{}\"/>",
            corners.join(" ")
        );
    }

    /// The edge of a graded band, with the values of its ends for whoever measures the drawing.
    pub(super) fn graded(
        &mut self,
        fact: &str,
        ((x1, y1), (x2, y2)): ((f64, f64), (f64, f64)),
        (first, last): (f64, f64),
        pen: Pen,
    ) {
        let _ = write!(
            self.lines,
            "<line class=\"{}\" data-model=\"{fact}\" data-first=\"{}\" data-last=\"{}\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>",
            pen.class(),
            n(first),
            n(last),
            n(x1),
            n(y1),
            n(x2),
            n(y2)
        );
    }

    /// A rectangle.
    pub(super) fn box_of(&mut self, class: &str, (x, y): (f64, f64), (width, height): (f64, f64)) {
        let _ = write!(
            self.lines,
            "<rect class=\"{class}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
            n(x),
            n(y),
            n(width.max(0.0)),
            n(height.max(0.0))
        );
    }

    /// The same stretch of a line on both sides of the axis.
    pub(super) fn edges(&mut self, (from, to): (f64, f64), (front, rear): (f64, f64), pen: Pen) {
        self.line((from, -front), (to, -rear), pen);
        self.line((from, front), (to, rear), pen);
    }

    /// A text.
    pub(super) fn text(&mut self, class: &str, (x, y): (f64, f64), size: f64, text: &str) {
        let _ = write!(
            self.texts,
            "<text class=\"{class}\" x=\"{}\" y=\"{}\" font-size=\"{}\">{}</text>",
            n(x),
            n(y),
            n(size),
            escaped(text)
        );
    }

    /// A dimension of ISO 129: its line from edge to edge with arrows, its extension lines, its
    /// value above it.
    pub(super) fn dimension(&mut self, of: &Dimension<'_>, size: f64) {
        let (low, high) = (of.from.min(of.to), of.from.max(of.to));
        for x in [low, high] {
            self.line(
                (x, of.edge),
                (x, of.at + size * 0.4 * of.at.signum()),
                Pen::Thin,
            );
        }
        let class = if of.is_assumed {
            "assumed dim"
        } else {
            "thin dim"
        };
        let _ = write!(
            self.lines,
            "<line class=\"{class}\" data-fact=\"{}\" x1=\"{}\" y1=\"{y}\" x2=\"{}\" y2=\"{y}\"/>",
            of.fact,
            n(of.from),
            n(of.to),
            y = n(of.at)
        );
        let arrow = size * 0.7;
        // Arrows that would meet stand outside, and point inwards.
        let outside = high - low < arrow * 2.5;
        for (x, way) in [(low, 1.0), (high, -1.0)] {
            let way = if outside { -way } else { way };
            let _ = write!(
                self.lines,
                "<path class=\"arrow\" d=\"M{},{y}l{},{}v{}z\"/>",
                n(x),
                n(way * arrow),
                n(-arrow / 3.0),
                n(arrow * 2.0 / 3.0),
                y = n(of.at)
            );
        }
        self.value(of, (low, high), size);
    }

    /// The value of a dimension: above its line, or beside it if it is longer than the line.
    fn value(&mut self, of: &Dimension<'_>, (low, high): (f64, f64), size: f64) {
        #[expect(clippy::cast_precision_loss, reason = "characters of a label")]
        let width = of.label.chars().count() as f64 * size * WIDE;
        let y = of.at - size * 0.35;
        if width < high - low {
            self.text("value", (low.midpoint(high), y), size, of.label);
            return;
        }
        let ledge = high + size * 1.2;
        self.line((high, of.at), (ledge + width, of.at), Pen::Thin);
        self.text("start", (ledge, y), size, of.label);
    }
}

/// A dimension.
pub(super) struct Dimension<'a> {
    /// The fact or property that it shows.
    pub fact: &'a str,
    /// From where to where, mm from the tip.
    pub from: f64,
    pub to: f64,
    /// How far from the axis its line is.
    pub at: f64,
    /// Where its extension lines begin.
    pub edge: f64,
    /// Its value in words.
    pub label: &'a str,
    pub is_assumed: bool,
}

/// A length as it stands in an attribute: to a thousandth of a millimetre.
pub(super) fn n(length: f64) -> String {
    let text = format!("{length:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    match text {
        "-0" | "" => "0".to_owned(),
        text => text.to_owned(),
    }
}

/// A text that is no markup, and shows what would act on a reader.
pub(in crate::write) fn escaped(text: &str) -> String {
    let mut escaped = String::new();
    for c in visible(text).chars() {
        match c {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&#39;"),
            '\n' | '\t' => escaped.push(' '),
            c => escaped.push(c),
        }
    }
    escaped
}
