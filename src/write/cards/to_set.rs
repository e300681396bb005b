//! What is set and measured, row by row: name, value, what else is to be known, and a box.

use crate::sheet::{Card, Protruding, TorqueShown};
use crate::units::Unit;
use crate::units::print::{self, DisplayUnits, Rounding};

use super::in_words;

/// One row of a card.
#[derive(Default)]
pub(super) struct Row {
    /// What it is about.
    pub name: &'static str,
    /// What it must be, or is recorded as.
    pub value: String,
    /// What else is to be known.
    pub note: String,
    /// The unit of its box for what is measured; none without a box.
    pub measured: Option<&'static str>,
    /// Whether a value has to be entered before the tool is released.
    pub enter: bool,
}

/// Printed values of one library.
struct Print(DisplayUnits);

impl Print {
    fn length(&self, length: f64) -> String {
        print::value(length, Unit::Mm, self.0)
    }

    fn torque(&self, torque: f64) -> String {
        print::value(torque, Unit::Nm, self.0)
    }

    fn fine(&self, length: f64) -> String {
        print::finely(length, Unit::Mm, Rounding::Down, self.0)
    }
}

/// The recorded stick-out alone: of a tool that must not be built nothing else is set.
pub(super) fn recorded(card: &Card, units: DisplayUnits) -> Row {
    let shown = Print(units);
    match card.setting.stick_out {
        Some(out) => Row {
            name: "stick-out",
            value: shown.length(out.length),
            note: if out.derived {
                "recorded, by other lengths".into()
            } else {
                "recorded".into()
            },
            ..Row::default()
        },
        None => Row {
            name: "stick-out",
            value: "not recorded".into(),
            ..Row::default()
        },
    }
}

/// The recorded stick-out of a tool that must not be built.
pub(super) fn not_to_set(card: &Card, units: DisplayUnits) -> Row {
    let row = recorded(card, units);
    Row {
        note: match card.setting.stick_out {
            Some(_) => format!("{}; do not set it", row.note),
            None => row.note,
        },
        ..row
    }
}

/// All rows, in the order in which a tool is built.
pub(super) fn all(card: &Card, units: DisplayUnits) -> Vec<Row> {
    let shown = &Print(units);
    let mut rows = vec![length(card, shown)];
    rows.push(Row {
        measured: Some(units.length()),
        ..recorded(card, units)
    });
    if card.setting.held {
        rows.push(mark(card, shown));
        rows.push(grip(card, shown));
        rows.extend(stop(card, shown));
    }
    if let Some(torque) = &card.setting.torque {
        rows.push(self::torque(torque, shown));
    }
    rows.push(protruding(card, shown));
    rows.push(run_out(card, shown));
    rows.push(match card.setting.speed {
        Some((speed, part)) => Row {
            name: "speed",
            value: print::value(speed, Unit::PerMin, units),
            note: format!("of the {part}"),
            ..Row::default()
        },
        None => not_recorded("speed"),
    });
    rows
}

fn not_recorded(name: &'static str) -> Row {
    Row {
        name,
        value: "not recorded".into(),
        ..Row::default()
    }
}

fn length(card: &Card, shown: &Print) -> Row {
    let setting = &card.setting;
    let shortest = setting.shortest.map(|one| {
        let why = if one.stated {
            "as recorded"
        } else {
            "for this grip"
        };
        format!("at least {} {why}", shown.length(one.length))
    });
    let shank = card.shank_diameter.filter(|_| setting.held);
    let shank = shank.map(|own| format!("shank Ø {}", shown.length(own)));
    let notes: Vec<String> = shank.into_iter().chain(shortest).collect();
    Row {
        value: setting
            .overall_length
            .map_or_else(|| "not recorded".into(), |own| shown.length(own)),
        note: notes.join("; "),
        measured: Some(shown.0.length()),
        name: "length",
        enter: false,
    }
}

fn mark(card: &Card, shown: &Print) -> Row {
    let setting = &card.setting;
    let lengths = setting.mark.zip(setting.overall_length);
    let Some(((mark, overall), out)) = lengths.zip(setting.stick_out) else {
        return Row {
            note: "overall length as measured, less the stick-out".into(),
            ..not_recorded("mark")
        };
    };
    let face = in_words::face(card);
    Row {
        name: "mark",
        value: format!("{} from the shank end", shown.length(mark)),
        note: format!(
            "for a tool {} long (else: length less {}); flush with the {face} {}",
            shown.length(overall),
            shown.length(out.length),
            in_words::once(card)
        ),
        ..Row::default()
    }
}

fn grip(card: &Card, shown: &Print) -> Row {
    let setting = &card.setting;
    if let Some(needed) = setting.grip_needed {
        let own = setting.gripped;
        let own = own.map_or_else(|| "not known".into(), |own| shown.length(own));
        let of = setting.gripping_length;
        let of = of.map_or_else(String::new, |of| format!(" of {}", shown.length(of)));
        return Row {
            name: "min. grip",
            value: shown.length(needed),
            note: format!("gripped as recorded: {own}{of}"),
            ..Row::default()
        };
    }
    match setting.insertion_needed {
        Some(needed) => Row {
            name: "min. grip",
            value: shown.length(needed),
            note: format!("inserted behind the {}", in_words::face(card)),
            ..Row::default()
        },
        None => not_recorded("min. grip"),
    }
}

fn stop(card: &Card, shown: &Print) -> Option<Row> {
    let stop = card.setting.stop?;
    let face = in_words::face(card);
    let keep = stop.keep.map(|keep| {
        let draw_in = if stop.draw_in_known {
            ""
        } else {
            " and the draw-in"
        };
        format!("{}{draw_in}", shown.length(keep))
    });
    Some(match stop.depth {
        Some(depth) => {
            let keep = keep.map_or_else(String::new, |keep| format!(" ({keep} needed)"));
            let free = stop.free.map_or_else(String::new, |free| {
                format!("; {} free{keep}", shown.length(free))
            });
            Row {
                name: "stop",
                value: shown.length(depth),
                note: format!("from the {face}{free}"),
                ..Row::default()
            }
        }
        None => Row {
            note: keep.map_or_else(String::new, |keep| {
                format!("{keep} free behind the shank needed")
            }),
            ..not_recorded("stop")
        },
    })
}

fn torque(torque: &TorqueShown, shown: &Print) -> Row {
    let source = |placed: &crate::sheet::Placed| match &placed.place {
        Some((file, line)) => format!("{} line {line}", in_words::name(file)),
        None => "the shop's default".into(),
    };
    let mut notes = Vec::new();
    notes.extend(torque.set.as_ref().map(source));
    // Beside a torque that is set, another one would only be read instead of it.
    if torque.set.is_none() {
        notes.push("by whoever releases the tool".into());
        notes.extend(torque.recommended.as_ref().map(|own| {
            let value = shown.torque(own.value);
            format!("recommended {value} ({})", source(own))
        }));
        notes.extend(
            torque
                .limit
                .map(|(limit, part)| format!("at most {} for the {part}", shown.torque(limit))),
        );
    }
    Row {
        name: "torque",
        value: match &torque.set {
            Some(set) => shown.torque(set.value),
            None => "enter before release".into(),
        },
        note: notes.join("; "),
        measured: Some(print::bare(0.0, Unit::Nm, shown.0).1),
        enter: torque.set.is_none(),
    }
}

fn protruding(card: &Card, shown: &Print) -> Row {
    let (value, note) = match card.setting.protruding {
        Some(Protruding::Target { length, tolerance }) => (
            format!("{} ± {}", shown.length(length), shown.length(tolerance)),
            "gauge plane to tip".to_owned(),
        ),
        Some(Protruding::DrawnIn { nominal, draw_in }) => {
            let draw_in = draw_in.map_or_else(
                || "a draw-in that is not known".into(),
                |own| format!("a draw-in of about {}", shown.length(own)),
            );
            (
                "no target".to_owned(),
                format!(
                    "measure gauge plane to tip: {} at the nominal bore, less {draw_in}",
                    shown.length(nominal)
                ),
            )
        }
        None => (
            "no target".to_owned(),
            "measure gauge plane to tip; gauge length not recorded".to_owned(),
        ),
    };
    Row {
        name: "LPR",
        value,
        note,
        measured: Some(shown.0.length()),
        enter: false,
    }
}

fn run_out(card: &Card, shown: &Print) -> Row {
    let run_out = &card.setting.run_out;
    let class = run_out.class.map(|class| {
        format!(
            "new collet of normal class: {} at the tip (ISO 15488, second-hand)",
            shown.fine(class)
        )
    });
    let recorded = run_out.recorded;
    let recorded = recorded.map(|own| format!("recorded {}", shown.fine(own)));
    let (value, rule) = match &run_out.limit {
        Some((limit, rule)) => (
            format!("max. {}", shown.fine(*limit)),
            Some(format!("TIR, by {}", in_words::text(rule))),
        ),
        None => ("no limit recorded".into(), class),
    };
    let notes: Vec<String> = rule.into_iter().chain(recorded).collect();
    Row {
        name: "run-out",
        value,
        note: notes.join("; "),
        measured: Some(shown.0.length()),
        enter: false,
    }
}
