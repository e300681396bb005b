//! The closed lists of words: an enum each, with the other ways in which the trade writes them.
//! Whoever asks for a kind or a form compares these, and no text; only rules name them by word.

use super::Field;
use crate::units::Word;

/// The words of a property that takes no others.
pub trait ClosedList: Copy + Eq + 'static {
    /// All of them, in the order in which they are listed.
    const ALL: &'static [Self];
    /// The same as words.
    const WORDS: &'static [Word];

    /// The word that it is.
    fn word(self) -> &'static Word;

    /// The one that a word is; `None` for a word of another list.
    #[must_use]
    fn of(word: &Word) -> Option<Self> {
        let at = usize::from(word.at);
        let own = Self::WORDS.get(at).filter(|own| own.word == word.word);
        own.and(Self::ALL.get(at).copied())
    }

    /// The one that a text spells.
    #[must_use]
    fn named(text: &str) -> Option<Self> {
        find(Self::WORDS, text).and_then(Self::of)
    }
}

/// A list that belongs to one property alone.
pub trait OfOneField: ClosedList {
    /// The property.
    const FIELD: Field;
}

macro_rules! closed_lists {
    ($($(#[$doc:meta])* $list:ident {
        $($id:ident $word:literal [$($also:literal)*];)*
    })*) => {
        $(
            $(#[$doc])*
            #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
            #[repr(u8)]
            pub enum $list { $(#[doc = $word] $id,)* }

            impl ClosedList for $list {
                const ALL: &'static [$list] = &[$($list::$id,)*];
                const WORDS: &'static [Word] = &[$(Word {
                    word: $word,
                    also: &[$($also),*],
                    at: $list::$id as u8,
                },)*];

                fn word(self) -> &'static Word {
                    match self {
                        $($list::$id => &Word {
                            word: $word,
                            also: &[$($also),*],
                            at: $list::$id as u8,
                        },)*
                    }
                }
            }
        )*
    };
}

closed_lists! {
    /// Kinds of cutter.
    CutterKind {
        BallNose "ball nose" ["ball end mill" "ball mill" "ball nose end mill"];
        BallWithUndercut "ball with undercut" [];
        Barrel "barrel" [];
        BoringBar "boring bar" [];
        CentreDrill "centre drill" ["center drill"];
        Chamfer "chamfer" [];
        Counterbore "counterbore" [];
        Countersink "countersink" [];
        Dovetail "dovetail" [];
        Drill "drill" ["twist drill"];
        EndMill "end mill" ["slot drill"];
        EndMillWithCornerRadius "end mill with corner radius" ["bull nose" "bull nose end mill"];
        Engraver "engraver" [];
        FaceMill "face mill" [];
        Indexable "indexable" [];
        Probe "probe" [];
        Reamer "reamer" [];
        SlittingSaw "slitting saw" [];
        SpotDrill "spot drill" [];
        StepDrill "step drill" [];
        TSlot "T-slot" [];
        Tap "tap" [];
        Tapered "tapered" [];
        ThreadMill "thread mill" [];
        Other "other" [];
    }
    /// Materials of a cutter.
    CutterMaterial {
        Carbide "carbide" ["solid carbide" "hardmetal"];
        Hss "HSS" [];
        HssCo "HSS-Co" [];
        Steel "steel" [];
    }
    /// Forms of a shank, DIN 6535 where they have a letter.
    ShankForm {
        Ha "HA" ["plain" "HA plain" "cylindrical"];
        Hb "HB" ["drive flat" "HB drive flat"];
        He "HE" ["sloping flat" "HE sloping flat"];
        Flat "flat" ["DIN 1835 B" "1835 B" "ISO 3338-2" "ISO 9766" "inch flat"];
        Square "square" [];
        MorseTaper "Morse taper" ["Morse" "taper shank"];
    }
    /// What a clamp screw is made for: a flat, a sloping flat, or the round of a bar.
    SeatForm {
        Hb "HB" [];
        He "HE" [];
        Round "round" [];
    }
    /// Hands of cut, helix and rotation.
    Hand {
        Right "right" ["r" "rh" "right hand"];
        Left "left" ["l" "lh" "left hand"];
    }
    /// Systems of collets.
    ColletSystem {
        Iso15488 "ISO 15488" ["8°" "8 deg"];
        Iso10897 "ISO 10897" ["1:10"];
        Straight "straight" [];
        Other "other" [];
    }
    /// Forms of a collet's bore.
    BoreForm {
        Through "through" [];
        RelievedAtTheRear "relieved at the rear" ["counterbored" "relieved rear" "rear"];
        RelievedInFront "relieved in front" ["relieved front" "front"];
        Tapping "tapping" [];
    }
    /// Styles of a nut.
    NutStyle {
        Standard "standard" [];
        Reduced "reduced" [];
        Sealing "sealing" ["sealed"];
        Bearing "bearing" [];
    }
    /// What clamps the tool.
    ClampingKind {
        ColletChuck "collet chuck" ["taper collet ISO 15488" "taper collet" "collet"];
        OtherCollet "other collet" [];
        ShrinkFit "shrink fit" ["shrink"];
        HydraulicChuck "hydraulic chuck" ["hydraulic"];
        SideLock "side-lock holder" ["clamp screw on flat" "side lock" "side-lock"];
        MillingChuck "milling chuck" [];
        DrillChuck "drill chuck" [];
        TappingAttachment "tapping attachment" [];
        Arbor "arbor" [];
        ScrewedOnHead "screwed-on head" [];
        OnePiece "one piece" [];
        Nothing "none" [];
        Other "other" [];
    }
    /// Kinds of operation.
    OperationKind {
        Milling "milling" [];
        Drilling "drilling" [];
        Reaming "reaming" [];
        Tapping "tapping" [];
        Boring "boring" [];
    }
    /// Walls beside the cut.
    Wall {
        Open "open" [];
        Closed "closed" [];
    }
    /// Ways of coolant.
    Coolant {
        Dry "dry" [];
        Air "air" [];
        Flood "flood" [];
        Mist "mist" [];
        Through "through" [];
    }
}

macro_rules! of_one_field {
    ($($list:ident)*) => {
        $(impl OfOneField for $list {
            const FIELD: Field = Field::$list;
        })*
    };
}

of_one_field! {
    CutterKind CutterMaterial ShankForm SeatForm ColletSystem BoreForm NutStyle ClampingKind
    OperationKind Wall Coolant
}

impl CutterKind {
    /// Whether it ends in a point.
    #[must_use]
    pub const fn is_pointed(self) -> bool {
        matches!(
            self,
            CutterKind::Drill
                | CutterKind::CentreDrill
                | CutterKind::SpotDrill
                | CutterKind::StepDrill
                | CutterKind::Countersink
                | CutterKind::Chamfer
        )
    }

    /// Whether it ends in a ball.
    #[must_use]
    pub const fn is_ball(self) -> bool {
        matches!(self, CutterKind::BallNose | CutterKind::BallWithUndercut)
    }
}

impl ShankForm {
    /// Whether it has a flat that a clamp screw meets.
    #[must_use]
    pub const fn has_flat(self) -> bool {
        matches!(self, ShankForm::Hb | ShankForm::He | ShankForm::Flat)
    }
}

impl ClampingKind {
    /// Whether a collet closes on the shank under a nut.
    #[must_use]
    pub const fn is_collet(self) -> bool {
        matches!(self, ClampingKind::ColletChuck | ClampingKind::OtherCollet)
    }

    /// Whether it holds a shank at all.
    #[must_use]
    pub const fn holds_shank(self) -> bool {
        !matches!(
            self,
            ClampingKind::Arbor
                | ClampingKind::ScrewedOnHead
                | ClampingKind::OnePiece
                | ClampingKind::Nothing
        )
    }
}

/// Yes and no.
pub static FLAG: &[Word] = &[
    Word {
        word: "yes",
        also: &["y", "true", "1", "x"],
        at: 0,
    },
    Word {
        word: "no",
        also: &["n", "false", "0"],
        at: 1,
    },
];

/// The word of a list that a text spells, ignoring case, blanks, `_` and `-`.
#[must_use]
pub fn find(list: &'static [Word], text: &str) -> Option<&'static Word> {
    // Most cells have the word itself.
    let is = |word: &&Word| word.word == text;
    let spells = |known: &str| folded(known).eq(folded(text));
    let means = |word: &&Word| spells(word.word) || word.also.iter().any(|also| spells(also));
    list.iter().find(is).or_else(|| list.iter().find(means))
}

fn folded(text: &str) -> impl Iterator<Item = char> {
    let letters = text
        .chars()
        .filter(|c| !c.is_whitespace() && !matches!(c, '_' | '-'));
    letters.flat_map(char::to_lowercase)
}
