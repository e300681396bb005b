//! Generated libraries: each aims at one bounding rule, with the others mixed in.

use std::collections::BTreeMap;

use super::dice::Dice;

/// What a generated tool is made to run into.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Aim {
    Grip,
    GripBelow,
    Stop,
    MakerMin,
    MakerMax,
    Reach,
    Slender,
    Mouth,
    Bending,
    Square,
    Pocket,
    Little,
    Screw,
    RearFlutes,
    ColletMin,
    HolderMin,
}

pub(super) const AIMS: [Aim; 16] = [
    Aim::Grip,
    Aim::GripBelow,
    Aim::Stop,
    Aim::MakerMin,
    Aim::MakerMax,
    Aim::Reach,
    Aim::Slender,
    Aim::Mouth,
    Aim::Bending,
    Aim::Square,
    Aim::Pocket,
    Aim::Little,
    Aim::Screw,
    Aim::RearFlutes,
    Aim::ColletMin,
    Aim::HolderMin,
];

/// What may be mixed into a tool that aims at something else.
const MIXED: [Aim; 5] = [
    Aim::Stop,
    Aim::MakerMin,
    Aim::MakerMax,
    Aim::Reach,
    Aim::Bending,
];

/// A cell of a generated table: lengths in mm, written in the library's unit.
#[derive(Clone, Debug)]
pub(super) enum Content {
    Length(f64),
    Word(String),
}

pub(super) type Row = BTreeMap<&'static str, Content>;

/// A generated assembly.
#[derive(Clone, Debug)]
pub(super) struct Tool {
    pub(super) row: Row,
    pub(super) operations: Vec<Row>,
    overall: f64,
    setback: f64,
    land: f64,
    shank: f64,
}

fn put(row: &mut Row, name: &'static str, length: f64) {
    row.insert(name, Content::Length(length));
}

pub(super) fn word(row: &mut Row, name: &'static str, text: &str) {
    row.insert(name, Content::Word(text.to_owned()));
}

impl Tool {
    pub(super) fn new(aim: Aim, dice: &mut Dice) -> Tool {
        let mut tool = Tool::plain(aim, dice);
        let target = tool.target(aim, dice);
        tool.run_into(aim, target, dice);
        for other in MIXED {
            if other != aim && dice.chance(0.15) {
                let target = tool.target(other, dice);
                tool.run_into(other, target, dice);
            }
        }
        if dice.chance(0.5) {
            let least = tool.overall - tool.shank - 10.0;
            let stick_out = dice.between(least, tool.overall - 5.0);
            put(&mut tool.row, "stick_out", stick_out);
        }
        tool
    }

    /// Lengths that leave the plain rules a window.
    fn plain(aim: Aim, dice: &mut Dice) -> Tool {
        let land = dice.between(25.0, 45.0);
        // A mouth is stressed by a short grip only: there the land is never full.
        let part = if aim == Aim::Mouth {
            dice.between(0.88, 0.99)
        } else {
            dice.between(1.1, 1.5)
        };
        let shank = (land * part * 1e3).round() / 1e3;
        let overall = shank + dice.between(35.0, 75.0);
        let setback = dice.between(-2.0, 3.0);
        let diameter = dice.between(10.5, 17.5);
        let mut row = Row::new();
        word(&mut row, "clamping_kind", "taper collet");
        word(&mut row, "collet_size", "32");
        word(&mut row, "cutter_material", "carbide");
        put(&mut row, "overall_length", overall);
        put(&mut row, "shank_length", shank);
        put(&mut row, "bore_length", land);
        put(&mut row, "bore_setback", setback);
        put(&mut row, "face_setback", 0.0);
        put(&mut row, "chip_flute_length", 0.4 * (overall - shank));
        let mut tool = Tool {
            row,
            operations: Vec::new(),
            overall,
            setback,
            land,
            shank,
        };
        tool.diameter(diameter);
        tool
    }

    fn diameter(&mut self, diameter: f64) {
        for name in ["cutting_diameter", "shank_diameter", "bore_diameter"] {
            put(&mut self.row, name, diameter);
        }
    }

    /// A stick-out within what the grip leaves; for warnings, within what fills the land.
    fn target(&self, aim: Aim, dice: &mut Dice) -> f64 {
        let least = self.overall - self.shank - self.setback;
        let filled = self.overall - self.setback - self.land;
        let most = self.overall - self.setback - self.land * 2.0 / 3.0;
        let warns = matches!(aim, Aim::Slender | Aim::Bending);
        let most = if warns { filled.max(least) } else { most };
        dice.between(least, most)
    }

    fn run_into(&mut self, aim: Aim, at: f64, dice: &mut Dice) {
        let insertion = self.overall - at;
        match aim {
            Aim::Grip | Aim::GripBelow => {}
            // One millimetre is left behind the shank end.
            Aim::Stop => put(&mut self.row, "insertion_depth_max", insertion + 1.0),
            Aim::MakerMin => put(&mut self.row, "cutter clamping_length_min", insertion),
            Aim::ColletMin => put(&mut self.row, "collet clamping_length_min", insertion),
            Aim::HolderMin => put(&mut self.row, "holder clamping_length_min", insertion),
            Aim::MakerMax => put(&mut self.row, "collet clamping_length_max", insertion),
            Aim::Reach => self.reach(at, dice),
            Aim::Slender => {
                let steel = dice.chance(0.5);
                word(&mut self.row, "cutter_kind", "end mill");
                let material = if steel { "HSS" } else { "carbide" };
                word(&mut self.row, "cutter_material", material);
                self.diameter(at / if steel { 6.0 } else { 8.0 });
            }
            Aim::Mouth => self.socket(dice),
            Aim::Bending => self.bends(at),
            Aim::Square => self.squares(dice),
            Aim::Pocket => self.pocket(at, dice),
            // A chuck of which nobody states a minimum: the shank's own diameter counts.
            Aim::Little => word(&mut self.row, "clamping_kind", "shrink fit"),
            Aim::Screw => self.screw(insertion, dice),
            Aim::RearFlutes => self.rear_flutes(dice),
        }
    }

    /// One operation that needs the reach, and up to two that need less.
    fn reach(&mut self, at: f64, dice: &mut Dice) {
        let clearance = dice.between(0.0, 4.0);
        let mut needs = vec![(at - clearance, clearance)];
        while needs.len() < 3 && dice.chance(0.5) {
            needs.insert(0, (at * dice.between(0.5, 0.95), 0.0));
        }
        for (reach, clearance) in needs {
            let mut row = Row::new();
            put(&mut row, "reach", reach);
            put(&mut row, "clearance", clearance);
            self.operations.push(row);
        }
    }

    /// A clamp screw that meets its flat at this insertion.
    fn screw(&mut self, insertion: f64, dice: &mut Dice) {
        word(&mut self.row, "clamping_kind", "side-lock holder");
        word(&mut self.row, "shank_form", "HB");
        let flat = insertion * dice.between(0.3, 0.7);
        put(&mut self.row, "flat_distance", flat);
        put(&mut self.row, "screw_distance", insertion - flat);
    }

    /// A double-ended cutter with so much more shank.
    fn rear_flutes(&mut self, dice: &mut Dice) {
        let flutes = dice.between(8.0, 16.0);
        self.overall += flutes;
        self.shank += flutes;
        put(&mut self.row, "overall_length", self.overall);
        put(&mut self.row, "shank_length", self.shank);
        put(&mut self.row, "rear_flute_length", flutes);
    }

    fn socket(&mut self, dice: &mut Dice) {
        for (name, length) in [
            ("mouth_diameter", 33.0),
            ("taper_length", 40.0),
            ("nose_diameter", 38.2),
            ("nose_length", 14.0),
            ("body_diameter", 50.0),
            ("mouth_setback", dice.between(3.0, 5.0)),
        ] {
            put(&mut self.row, name, length);
        }
        if dice.chance(0.5) {
            word(&mut self.row, "nut_thread", "M40x1.5");
            let torque = format!("{} N·m", dice.between(200.0, 300.0));
            word(&mut self.row, "nut_torque", &torque);
        }
    }

    /// A finishing cut whose deflection comes near the limit at this stick-out. It grows as the
    /// overhang's compliance does, from a cut that bends 12 mm of carbide so.
    fn bends(&mut self, at: f64) {
        let length = |name: &str| match self.row.get(name) {
            Some(Content::Length(length)) => *length,
            _ => 12.0,
        };
        let (diameter, flutes) = (length("shank_diameter"), length("chip_flute_length"));
        let shank = (at.powi(3) - flutes.powi(3)) / diameter.powi(4);
        let front = flutes.powi(3) / (0.9 * diameter).powi(4);
        let depth = 8.0 / (shank + front) * (diameter / 12.0).powf(0.37);
        let mut row = Row::new();
        word(&mut row, "operation_kind", "milling");
        word(&mut row, "workpiece_material", "C45E");
        word(&mut row, "finishing", "yes");
        put(&mut row, "axial_depth", depth);
        put(&mut row, "radial_width", 6.0);
        put(&mut row, "feed_per_tooth", 0.06);
        self.mills();
        self.operations.push(row);
    }

    /// A pocket too narrow for the nut, whose edge stands so far above the floor.
    fn pocket(&mut self, at: f64, dice: &mut Dice) {
        let depth = dice.between(2.0, 12.0);
        put(&mut self.row, "nut_outer_diameter", 50.0);
        let mut row = Row::new();
        put(&mut row, "reach", at - depth - 1.0);
        put(&mut row, "clearance", 1.0);
        put(&mut row, "room_diameter", dice.between(20.0, 50.0));
        put(&mut row, "room_depth", depth);
        self.operations.push(row);
    }

    /// A tap with shank enough for its square, in a collet whose square is behind the land and
    /// ends where half of the tap's own still is in it.
    fn squares(&mut self, dice: &mut Dice) {
        let square = dice.between(6.0, 12.0);
        self.overall += 2.0 * square;
        self.shank += 2.0 * square;
        let least = self.overall - self.shank - self.setback;
        let filled = self.overall - self.setback - self.land - square;
        let insertion = self.overall - dice.between(least, filled);
        for (name, length) in [
            ("overall_length", self.overall),
            ("shank_length", self.shank),
            ("cutter drive_square", 8.0),
            ("collet drive_square", 8.0),
            ("drive_square_length", square),
            ("collet_length", insertion - square / 2.0),
        ] {
            put(&mut self.row, name, length);
        }
    }

    fn mills(&mut self) {
        word(&mut self.row, "flute_count", "3");
        word(&mut self.row, "helix_angle", "35");
    }

    /// The same tool, set to another stick-out.
    pub(super) fn set_to(&self, stick_out: f64) -> Tool {
        let mut tool = self.clone();
        put(&mut tool.row, "stick_out", stick_out);
        tool
    }
}
