//! Standard sizes: what a standard or the trade says where a library is silent.
//!
//! The values stand in `rules/tables/`, each table with basis and source. From memory or not,
//! they only ever make assumptions.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::{Deserialize, Deserializer, de};

use super::{ClosedList, CutterKind, Thread};

/// What every table says of itself.
#[derive(Debug, Deserialize)]
pub struct Standing<T> {
    /// What it lists.
    pub title: String,
    /// Unit of its lengths.
    pub unit: String,
    /// What it rests on.
    pub basis: String,
    /// Where it is printed.
    pub source: String,
    /// Why it may stand in for what is not stated.
    pub reason: String,
    /// Its rows.
    #[serde(flatten)]
    pub table: T,
}

/// Plain shank lengths, DIN 6535.
#[derive(Debug, Deserialize)]
pub struct Shanks {
    /// Diameter and length, mm.
    pub rows: Vec<[f64; 2]>,
}

/// Sizes of collets.
#[derive(Debug, Deserialize)]
pub struct Collets {
    /// The sizes.
    pub size: Vec<ColletSize>,
}

/// One size of collet.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ColletSize {
    /// The size's number.
    pub size: f64,
    /// Diameter of the collet's front, mm.
    pub front_diameter: f64,
    /// Overall length, mm.
    pub length: f64,
    /// Largest nominal bore, mm.
    pub bore_max: f64,
    /// How far below its nominal bore it is normally closed, mm.
    pub collapse: f64,
}

/// Standard nuts.
#[derive(Debug, Deserialize)]
pub struct Nuts {
    /// The nuts by size of collet.
    pub size: Vec<NutSize>,
}

/// The standard nut of one size of collet.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NutSize {
    /// The size's number.
    pub size: f64,
    /// Thread.
    pub thread: Thread,
    /// Where the thread is from: read second-hand in the standard, or from memory.
    pub thread_basis: String,
    /// Outer diameter, mm, if it is known.
    pub outer_diameter: Option<f64>,
}

/// Drive flats, DIN 6535.
#[derive(Debug, Deserialize)]
pub struct Flats {
    /// The flats by shank diameter.
    pub flat: Vec<Flat>,
}

/// The drive flats of one shank diameter.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Flat {
    /// Shank diameter, mm.
    pub diameter: f64,
    /// What the place of form HB's flat rests on.
    pub basis: String,
    /// Tail to the middle of the flat of form HB, mm.
    pub centre: f64,
    /// Length of that flat along the shank, mm.
    pub width: f64,
    /// From that flat to the other side of the shank, mm.
    pub height: f64,
    /// To the second flat, which lies nearer the tail, mm.
    pub spacing: Option<f64>,
    /// Tail to the front end of the sloping flat of form HE, mm.
    pub sloping: f64,
}

/// Lower deviations of h6, ISO 286-2.
#[derive(Debug, Deserialize)]
pub struct Tolerances {
    /// Over, up to and including, lower deviation, mm.
    pub rows: Vec<[f64; 3]>,
}

/// Run-out classes, ISO 15488.
#[derive(Debug, Deserialize)]
pub struct RunOuts {
    /// Over, up to and including, test distance, class 1, class 2, mm.
    pub rows: Vec<[f64; 5]>,
}

/// Drills that go by a number or a letter.
#[derive(Debug, Deserialize)]
pub struct Drills {
    /// Diameters from number 1 on, in.
    pub numbers: Vec<f64>,
    /// Diameters from letter A on, in.
    pub letters: Vec<f64>,
}

/// Words that shops use as headers.
#[derive(Debug, Deserialize)]
pub struct HeaderWords {
    /// Words with which a line of totals begins.
    pub totals: Vec<String>,
    /// Words that look like a property and are none.
    pub none: Vec<String>,
    /// Properties, and the words that mean them.
    pub means: BTreeMap<String, Vec<String>>,
    /// Words, and the properties that they may mean.
    pub may_mean: BTreeMap<String, Vec<String>>,
}

/// Words that shops write into cells.
#[derive(Debug, Deserialize)]
pub struct CellWords {
    /// Properties, the words of their lists, and the words that mean those.
    pub words: BTreeMap<String, BTreeMap<String, Vec<String>>>,
}

/// Workpiece materials.
#[derive(Debug, Deserialize)]
pub struct Materials {
    /// The materials.
    pub material: Vec<Material>,
    /// Other names of them.
    pub alias: Vec<Alias>,
}

/// Another name of a workpiece material.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Alias {
    /// The other name.
    pub name: String,
    /// The material's name in the table.
    pub of: String,
    /// Which system of names it belongs to.
    pub system: String,
    /// `same`: the same material; `nearest`: the nearest in the table, which is an assumption.
    pub standing: String,
    /// What it rests on that the two belong together.
    pub basis: String,
}

impl Alias {
    /// Whether it names the same material, and not only the nearest.
    #[must_use]
    pub fn is_same(&self) -> bool {
        self.standing == "same"
    }
}

/// What one workpiece material resists a cutting edge with.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// Its short name, the key of an operation's `workpiece_material`.
    pub name: String,
    /// Main group of ISO 513.
    pub group: String,
    /// Specific cutting force k_c1.1, MPa.
    pub kc11: f64,
    /// Its exponent m_c.
    pub mc: f64,
    /// What the row rests on.
    pub basis: String,
}

/// Common shank diameters.
#[derive(Debug, Deserialize)]
pub struct ShankSizes {
    /// Of inch make, mm.
    pub inch: Vec<f64>,
    /// Of metric make, mm.
    pub metric: Vec<f64>,
}

/// What is plausible of a cutter.
#[derive(Debug, Deserialize)]
pub struct Plausible {
    /// Numbers of flutes by kind.
    pub flutes: Vec<Flutes>,
}

/// The most flutes that some kinds of cutter have.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Flutes {
    /// The kinds, as `cutter_kind` has them.
    #[serde(deserialize_with = "words")]
    pub kinds: Vec<CutterKind>,
    /// The most flutes, or teeth.
    pub most: f64,
    /// Why so many.
    pub reason: String,
}

/// Words of a closed list.
fn words<'de, L: ClosedList, D: Deserializer<'de>>(from: D) -> Result<Vec<L>, D::Error> {
    let texts = Vec::<String>::deserialize(from)?;
    let word = |text: String| {
        L::named(&text).ok_or_else(|| de::Error::custom(format!("`{text}` is not a known word")))
    };
    texts.into_iter().map(word).collect()
}

macro_rules! tables {
    ($($(#[$doc:meta])* $name:ident: $table:ty, $file:literal;)*) => {
        $(
            $(#[$doc])*
            pub static $name: LazyLock<Standing<$table>> =
                LazyLock::new(|| parsed(include_str!(concat!("../../rules/tables/", $file))));
        )*
    };
}

tables! {
    /// Plain shank lengths.
    SHANKS: Shanks, "shanks.toml";
    /// Sizes of collets.
    COLLETS: Collets, "collets.toml";
    /// Standard nuts.
    NUTS: Nuts, "nuts.toml";
    /// Drive flats.
    FLATS: Flats, "flats.toml";
    /// Tolerance class h6.
    H6: Tolerances, "h6.toml";
    /// Run-out classes.
    RUN_OUT: RunOuts, "run-out.toml";
    /// Number and letter drills.
    DRILLS: Drills, "drill-sizes.toml";
    /// Words of cells.
    CELL_WORDS: CellWords, "cell-words.toml";
    /// Words of headers.
    HEADER_WORDS: HeaderWords, "header-words.toml";
    /// Workpiece materials.
    MATERIALS: Materials, "materials.toml";
    /// Common shank diameters.
    SHANK_SIZES: ShankSizes, "shank-sizes.toml";
    /// What is plausible of a cutter.
    PLAUSIBLE: Plausible, "plausible.toml";
}

#[expect(
    clippy::expect_used,
    reason = "the tables are part of the program, and a test reads them all"
)]
fn parsed<T: for<'de> Deserialize<'de>>(text: &str) -> Standing<T> {
    toml::from_str(text).expect("a built-in table is well formed")
}

/// Diameters nearer than this are one size of a table, mm.
const SAME_SIZE: f64 = 0.01;

fn is(size: f64, diameter: f64) -> bool {
    (size - diameter).abs() <= SAME_SIZE
}

/// Plain shank length of DIN 6535 for a shank diameter of its table, mm.
#[must_use]
pub fn shank_length(diameter: f64) -> Option<f64> {
    let mut rows = SHANKS.table.rows.iter();
    rows.find(|[standard, _]| is(*standard, diameter))
        .map(|[_, length]| *length)
}

/// The size of collet with this number.
#[must_use]
pub fn collet_size(size: f64) -> Option<&'static ColletSize> {
    COLLETS.table.size.iter().find(|row| row.size == size)
}

/// The standard nut of a size of collet.
#[must_use]
pub fn nut_size(size: f64) -> Option<&'static NutSize> {
    NUTS.table.size.iter().find(|row| row.size == size)
}

/// The drive flats of a shank diameter.
#[must_use]
pub fn flat(diameter: f64) -> Option<&'static Flat> {
    FLATS
        .table
        .flat
        .iter()
        .find(|row| is(row.diameter, diameter))
}

/// The workpiece material of this name, ignoring case, blanks and hyphens.
#[must_use]
pub fn material(name: &str) -> Option<&'static Material> {
    let folded = |text: &str| -> String {
        let letters = text.chars().filter(|c| c.is_alphanumeric());
        letters.flat_map(char::to_lowercase).collect()
    };
    let wanted = folded(name);
    let mut rows = MATERIALS.table.material.iter();
    rows.find(|row| folded(&row.name) == wanted)
}

/// The most flutes that a kind of cutter has.
#[must_use]
pub fn most_flutes(kind: CutterKind) -> Option<f64> {
    let mut rows = PLAUSIBLE.table.flutes.iter();
    rows.find(|row| row.kinds.contains(&kind))
        .map(|row| row.most)
}

/// Test distance of a bore and the greatest run-out there of the normal class, mm.
#[must_use]
pub fn run_out(bore: f64) -> Option<(f64, f64)> {
    let mut rows = RUN_OUT.table.rows.iter();
    rows.find(|[over, to, ..]| bore > *over && bore <= *to)
        .map(|[_, _, distance, _, normal]| (*distance, *normal))
}
