//! Words that no text for people uses, each with what to write instead.

/// A word or phrase, and what stands in its place.
pub struct Banned {
    /// The phrase, in small letters, whole words.
    pub phrase: &'static str,
    /// What to write.
    pub instead: &'static str,
    /// Words in front of it, or behind it, with which it is good English.
    pub unless: &'static [&'static str],
}

const fn not(phrase: &'static str, instead: &'static str) -> Banned {
    Banned {
        phrase,
        instead,
        unless: &[],
    }
}

const fn unless(
    phrase: &'static str,
    unless: &'static [&'static str],
    instead: &'static str,
) -> Banned {
    Banned {
        phrase,
        instead,
        unless,
    }
}

/// All of them.
pub const BANNED: &[Banned] = &[
    // The trade's words.
    not("land", "gripping length"),
    not("lands", "gripping lengths"),
    not("crib", "stock"),
    not("setback", "recess behind the nut face"),
    unless("window", &["shankwise window"], "stick-out limits"),
    unless("windows", &["windows-1252"], "stick-out limits"),
    not("maker", "manufacturer"),
    not("makers", "manufacturers"),
    unless("least", &["at least"], "minimum"),
    not("greatest", "maximum"),
    not("furthest", "deepest, foremost"),
    not("tail", "shank end"),
    not("tails", "shank ends"),
    not("room", "free width, free depth, clearance"),
    not("front face", "nut face, holder face"),
    not("fouls", "collides with"),
    not("foul", "collide with"),
    unless(
        "bell",
        &["bell-mouth", "bell-mouths", "bell-mouthed"],
        "bell-mouth",
    ),
    not("bells", "bell-mouths"),
    not("belled", "bell-mouthed"),
    not("1/min", "rpm"),
    not("clamp screw on flat", "side-lock holder"),
    not("taper collet iso 15488", "collet chuck"),
    not("flute run-out", "flute washout"),
    not("run-out of the flutes", "flute washout"),
    not("proud", "projecting"),
    // Outcomes and verdicts.
    not("rule holds", "is met"),
    not("rules hold", "are met"),
    not("library holds", "nothing found"),
    not("checks hold", "agree"),
    not("holds for", "applies to"),
    not("limits hold", "the limits apply"),
    not("cannot be judged", "is not judged"),
    not("could not be judged", "is not judged"),
    not("is broken", "is not met"),
    not("safety factor", "ratio"),
    // Translated idiom.
    not("cure", "fix, correct"),
    not("cures", "fixes, corrects"),
    not("cured", "fixed, corrected"),
    not("curable", "that can be fixed"),
    not("put right", "corrected"),
    not("for want of", "because … is missing"),
    not("weakened", "relaxed"),
    not("weakens", "relaxes"),
    not("comes to", "the new … is"),
    not("come to", "become, are"),
    not("stay", "remain"),
    not("stays", "remains"),
    not("stands", "is"),
    unless("stand", &["stand-in", "stand-ins"], "be"),
    unless(
        "is no",
        &["there is no", "that is no longer", "is no longer"],
        "is not a",
    ),
    unless("are no", &["there are no", "are no longer"], "are not"),
    unless("is none", &["there is none"], "is not one"),
    not("are none", "are not"),
    not("a number that cannot be", "impossible value"),
    not("goes in", "inserted"),
    not("go in", "be inserted"),
    not("does not go on", "does not fit"),
    not("taken twice", "used twice"),
    not("is taken in", "is already used in"),
    not("look that", "check that"),
    not("are missing", "short"),
    not("close on", "grip; the gripping length sits on"),
    not("closes on", "grips; the gripping length sits on"),
    not("further than", "past, more than"),
    not("built like that", "assembled as recorded"),
    not("not led to", "does not reach"),
    not("part of the chip", "large for the feed per tooth"),
    not("to be suspected", "suspicious"),
    not("belong into", "allowed in"),
    not("belongs into", "allowed in"),
    not("whose it is", "the part whose manufacturer states it"),
    not("whose the", "which … belongs to"),
    not("takes a set", "is permanently deformed"),
    not("take a set", "are permanently deformed"),
    not("serve", "meet the limits, suit"),
    not("serves", "meets the limits, suits"),
    not("nobody", "… is not stated, not known"),
    not("somebody", "someone; or name the person's job"),
    not("a revolution", "per revolution"),
    not("a minute", "per minute"),
    not("slip of the pen", "typing error"),
    not("slips of the pen", "typing errors"),
    not("all the same", "nevertheless, still"),
    not("in its own way", "differently"),
    not("out of its range", "outside its range"),
];
