//! The closed lists of words, each with the other ways in which the trade writes it.

/// A word and what else is read as it.
#[derive(Debug, PartialEq, Eq)]
pub struct Word {
    /// The word as stored and shown.
    pub word: &'static str,
    /// Other spellings accepted on input.
    pub also: &'static [&'static str],
}

const fn word(word: &'static str) -> Word {
    Word { word, also: &[] }
}

const fn also(word: &'static str, also: &'static [&'static str]) -> Word {
    Word { word, also }
}

/// Kinds of cutter.
pub static CUTTER_KIND: &[Word] = &[
    word("ball nose"),
    word("ball with undercut"),
    word("barrel"),
    word("boring bar"),
    also("centre drill", &["center drill"]),
    word("chamfer"),
    word("counterbore"),
    word("countersink"),
    word("dovetail"),
    word("drill"),
    word("end mill"),
    word("end mill with corner radius"),
    word("engraver"),
    word("face mill"),
    word("indexable"),
    word("probe"),
    word("reamer"),
    word("slitting saw"),
    word("spot drill"),
    word("step drill"),
    word("T-slot"),
    word("tap"),
    word("tapered"),
    word("thread mill"),
    word("other"),
];

/// Materials of a cutter.
pub static CUTTER_MATERIAL: &[Word] = &[
    also("carbide", &["solid carbide", "hardmetal"]),
    word("HSS"),
    word("HSS-Co"),
    word("steel"),
];

/// Forms of a shank, DIN 6535 where they have a letter.
pub static SHANK_FORM: &[Word] = &[
    also("HA", &["plain", "HA plain"]),
    also("HB", &["drive flat", "HB drive flat"]),
    also("HE", &["sloping flat", "HE sloping flat"]),
    also(
        "flat",
        &[
            "DIN 1835 B",
            "1835 B",
            "ISO 3338-2",
            "ISO 9766",
            "inch flat",
        ],
    ),
    word("square"),
    also("Morse taper", &["Morse", "taper shank"]),
];

/// What a clamp screw is made for: a flat, a sloping flat, or the round of a bar.
pub static SEAT_FORM: &[Word] = &[word("HB"), word("HE"), word("round")];

/// Hands of cut, helix and rotation.
pub static HAND: &[Word] = &[
    also("right", &["r", "rh", "right hand"]),
    also("left", &["l", "lh", "left hand"]),
];

/// Systems of collets.
pub static COLLET_SYSTEM: &[Word] = &[
    also("ISO 15488", &["8°", "8 deg"]),
    also("ISO 10897", &["1:10"]),
    word("straight"),
    word("other"),
];

/// Forms of a collet's bore.
pub static BORE_FORM: &[Word] = &[
    word("through"),
    also(
        "relieved at the rear",
        &["counterbored", "relieved rear", "rear"],
    ),
    also("relieved in front", &["relieved front", "front"]),
    word("tapping"),
];

/// Styles of a nut.
pub static NUT_STYLE: &[Word] = &[
    word("standard"),
    word("reduced"),
    word("sealing"),
    word("bearing"),
];

/// What clamps the tool.
pub static CLAMPING_KIND: &[Word] = &[
    also(
        "collet chuck",
        &["taper collet ISO 15488", "taper collet", "collet"],
    ),
    word("other collet"),
    also("shrink fit", &["shrink"]),
    also("hydraulic chuck", &["hydraulic"]),
    also(
        "side-lock holder",
        &["clamp screw on flat", "side lock", "side-lock"],
    ),
    word("milling chuck"),
    word("drill chuck"),
    word("tapping attachment"),
    word("arbor"),
    word("screwed-on head"),
    word("one piece"),
    word("none"),
    word("other"),
];

/// Kinds of operation.
pub static OPERATION_KIND: &[Word] = &[
    word("milling"),
    word("drilling"),
    word("reaming"),
    word("tapping"),
    word("boring"),
];

/// Walls beside the cut.
pub static WALL: &[Word] = &[word("open"), word("closed")];

/// Ways of coolant.
pub static COOLANT: &[Word] = &[word("dry"), word("air"), word("flood"), word("through")];

/// Yes and no.
pub static FLAG: &[Word] = &[
    also("yes", &["y", "true", "1"]),
    also("no", &["n", "false", "0"]),
];

/// The word of a list that a text spells, ignoring case, blanks, `_` and `-`.
#[must_use]
pub fn find(list: &'static [Word], text: &str) -> Option<&'static str> {
    position(list, text).and_then(|at| Some(list.get(at)?.word))
}

/// Where in its list the word stands that a text spells.
pub(super) fn position(list: &'static [Word], text: &str) -> Option<usize> {
    // Most cells have the word itself.
    let is = |word: &Word| word.word == text;
    if let Some(at) = list.iter().position(is) {
        return Some(at);
    }
    let spells = |known: &str| folded(known).eq(folded(text));
    list.iter()
        .position(|word| spells(word.word) || word.also.iter().any(|also| spells(also)))
}

fn folded(text: &str) -> impl Iterator<Item = char> {
    let letters = text
        .chars()
        .filter(|c| !c.is_whitespace() && !matches!(c, '_' | '-'));
    letters.flat_map(char::to_lowercase)
}
