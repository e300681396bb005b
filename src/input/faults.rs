//! Faults of form by the million: what says the same is held once, and of each fault only where
//! it stands and whose it is. The words are put together when a fault is asked for.

use std::borrow::Cow;
use std::collections::HashMap;

use super::pool::Pool;
use super::{Fault, FaultPlace};
use crate::text::{Place, Sources, quoted};

/// Faults of form, in the order in which they were found.
#[derive(Clone, Debug, Default)]
pub struct Faults {
    /// What their places stand in: words that stand there are read there.
    sources: Sources,
    shapes: Vec<FaultShape>,
    shape_of: HashMap<FaultShape, u32>,
    words: Pool,
    list: Vec<One>,
    /// Their places behind the first.
    further: Vec<Place>,
    /// Their own words, by number in the pool.
    own: Vec<u32>,
}

/// What all faults that say the same have in common.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
struct FaultShape {
    kind: &'static str,
    args: Vec<(&'static str, FaultWord)>,
    /// The field of each place, and whether it is absent there.
    places: Vec<(FaultWord, bool)>,
    missing: Option<&'static str>,
}

/// Where a word of a fault comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum FaultWord {
    /// It is always the same.
    Fixed(&'static str),
    /// It is what stands at this place of the fault, cut to what a line bears.
    At(usize),
    /// It is the line of this place.
    LineOf(usize),
    /// It is the fault's own.
    Own,
}

impl FaultShape {
    /// How many words of the message are the fault's own.
    fn own_args(&self) -> usize {
        let args = self.args.iter();
        args.filter(|(_, word)| *word == FaultWord::Own).count()
    }

    /// How many words are the fault's own, names of fields with them.
    fn own(&self) -> usize {
        let fields = self.places.iter();
        self.own_args() + fields.filter(|(word, _)| *word == FaultWord::Own).count()
    }
}

/// One fault.
#[derive(Clone, Copy, Debug)]
struct One {
    shape: u32,
    /// Number of the assembly that it belongs to; `NOBODY` if to none.
    of: u32,
    place: Place,
    /// Where its further places and its own words begin.
    further: u32,
    own: u32,
}

const NOBODY: u32 = u32::MAX;

/// A fault among others, of which nothing is put together yet.
#[derive(Clone, Copy, Debug)]
pub struct Kept<'f> {
    all: &'f Faults,
    one: One,
    shape: &'f FaultShape,
}

fn small(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

impl Faults {
    /// None yet, of these sources.
    #[must_use]
    pub fn of(sources: &Sources) -> Faults {
        Faults {
            sources: sources.clone(),
            ..Faults::default()
        }
    }

    /// Says what the places of those from elsewhere stand in.
    pub fn read_from(&mut self, sources: &Sources) {
        self.sources = sources.clone();
    }

    /// Gives back what was taken in advance.
    pub fn shrink(&mut self) {
        self.list.shrink_to_fit();
        self.further.shrink_to_fit();
        self.own.shrink_to_fit();
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// Adds one.
    pub fn push(&mut self, fault: Fault) {
        let places: Vec<Place> = fault.places.iter().map(|at| at.place).collect();
        let mut own = Vec::new();
        let mut word = |name: &str, text: Cow<'static, str>| match text {
            Cow::Borrowed(text) => FaultWord::Fixed(text),
            Cow::Owned(text) => self.word(name, text, &places, &mut own),
        };
        let args = fault.args.into_iter();
        let args = args.map(|(name, text)| (name, word(name, text))).collect();
        let fields = fault.places.into_iter();
        let shape = FaultShape {
            kind: fault.kind,
            args,
            places: fields.map(|at| (word("", at.field), at.absent)).collect(),
            missing: fault.missing,
        };
        let one = One {
            shape: self.shape(shape),
            of: fault.of.map_or(NOBODY, small),
            place: places.first().copied().unwrap_or_default(),
            further: small(self.further.len()),
            own: small(self.own.len()),
        };
        self.list.push(one);
        self.further.extend(places.iter().skip(1));
        for text in own {
            self.own.push(self.words.id(&text));
        }
    }

    /// Where a word comes from; one that comes from nowhere else becomes the fault's own.
    fn word(&self, name: &str, text: String, places: &[Place], own: &mut Vec<String>) -> FaultWord {
        let mut each = places.iter();
        let found = if name == "line" {
            let is = |place: &Place| self.sources.position(*place).line.to_string() == text;
            each.position(is).map(FaultWord::LineOf)
        } else {
            let is = |place: &Place| quoted(&self.sources.cell(*place)) == text;
            each.position(is).map(FaultWord::At)
        };
        found.unwrap_or_else(|| {
            own.push(text);
            FaultWord::Own
        })
    }

    fn shape(&mut self, shape: FaultShape) -> u32 {
        if let Some(known) = self.shape_of.get(&shape) {
            return *known;
        }
        let id = small(self.shapes.len());
        self.shapes.push(shape.clone());
        self.shape_of.insert(shape, id);
        id
    }

    /// Adds those of others behind its own. Where they count assemblies from 0, `first` is the
    /// number of the first.
    pub fn append(&mut self, others: &Faults, first: usize) {
        let shapes: Vec<u32> = others
            .shapes
            .iter()
            .map(|one| self.shape(one.clone()))
            .collect();
        for kept in others.iter() {
            let shape = shapes.get(kept.one.shape as usize);
            self.list.push(One {
                shape: shape.copied().unwrap_or_default(),
                of: kept.of().map_or(NOBODY, |of| small(of + first)),
                further: small(self.further.len()),
                own: small(self.own.len()),
                ..kept.one
            });
            let places = 1..kept.shape.places.len();
            self.further.extend(places.map(|at| kept.place_of(at)));
            for at in 0..kept.shape.own() {
                self.own.push(self.words.id(kept.own(at)));
            }
        }
    }

    /// Adds those of others, which are held but once where there are no others yet.
    pub fn take(&mut self, others: Faults) {
        if self.is_empty() {
            *self = others;
            self.shrink();
        } else {
            self.append(&others, 0);
        }
    }

    /// Gives a word that is the program's own another text, in those that are chosen.
    pub fn reword(
        &mut self,
        (name, text): (&'static str, &'static str),
        is_chosen: impl Fn(Kept<'_>) -> bool,
    ) {
        for at in 0..self.list.len() {
            let chosen = self.get(at).filter(|kept| is_chosen(*kept));
            let Some(mut shape) = chosen.map(|kept| kept.shape.clone()) else {
                continue;
            };
            for (own, word) in &mut shape.args {
                if *own == name && matches!(word, FaultWord::Fixed(_)) {
                    *word = FaultWord::Fixed(text);
                }
            }
            let shape = self.shape(shape);
            if let Some(one) = self.list.get_mut(at) {
                one.shape = shape;
            }
        }
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = Kept<'_>> {
        self.list.iter().filter_map(|one| self.kept(*one))
    }

    /// One by its number.
    #[must_use]
    pub fn get(&self, number: usize) -> Option<Kept<'_>> {
        self.kept(*self.list.get(number)?)
    }

    fn kept(&self, one: One) -> Option<Kept<'_>> {
        let shape = self.shapes.get(one.shape as usize)?;
        Some(Kept {
            all: self,
            one,
            shape,
        })
    }
}

impl Extend<Fault> for Faults {
    fn extend<T: IntoIterator<Item = Fault>>(&mut self, faults: T) {
        for fault in faults {
            self.push(fault);
        }
    }
}

impl<'f> Kept<'f> {
    /// Its kind.
    #[must_use]
    pub fn kind(self) -> &'static str {
        self.shape.kind
    }

    /// Number of the assembly that it belongs to.
    #[must_use]
    pub fn of(self) -> Option<usize> {
        (self.one.of != NOBODY).then_some(self.one.of as usize)
    }

    /// Its first place.
    #[must_use]
    pub fn place(self) -> Place {
        self.one.place
    }

    /// The field at its first place.
    #[must_use]
    pub fn field(self) -> Cow<'f, str> {
        let first = self.shape.places.first();
        let Some((word, _)) = first else {
            return Cow::Borrowed("");
        };
        self.text(*word, self.shape.own_args())
    }

    fn place_of(self, number: usize) -> Place {
        let Some(further) = number.checked_sub(1) else {
            return self.one.place;
        };
        let at = self.one.further as usize + further;
        self.all.further.get(at).copied().unwrap_or_default()
    }

    /// One of its own words.
    fn own(self, number: usize) -> &'f str {
        let id = self.all.own.get(self.one.own as usize + number);
        id.map_or("", |id| self.all.words.get(*id))
    }

    /// A word; `own` tells which of the fault's own words it is if it is one.
    fn text(self, word: FaultWord, own: usize) -> Cow<'f, str> {
        let sources = &self.all.sources;
        match word {
            FaultWord::Fixed(text) => Cow::Borrowed(text),
            FaultWord::At(place) => match sources.cell(self.place_of(place)) {
                Cow::Borrowed(text) => quoted(text),
                Cow::Owned(text) => Cow::Owned(quoted(&text).into_owned()),
            },
            FaultWord::LineOf(place) => {
                let line = sources.position(self.place_of(place)).line;
                Cow::Owned(line.to_string())
            }
            FaultWord::Own => Cow::Borrowed(self.own(own)),
        }
    }

    /// The whole fault.
    #[must_use]
    pub fn fault(self) -> Fault {
        let mut own = 0;
        let mut text = |word: FaultWord| -> Cow<'static, str> {
            let at = own;
            own += usize::from(word == FaultWord::Own);
            match word {
                FaultWord::Fixed(text) => Cow::Borrowed(text),
                other => Cow::Owned(self.text(other, at).into_owned()),
            }
        };
        let args = self.shape.args.iter();
        let args = args.map(|(name, word)| (*name, text(*word))).collect();
        let places = self.shape.places.iter().enumerate();
        let places = places.map(|(at, (word, absent))| FaultPlace {
            place: self.place_of(at),
            field: text(*word),
            absent: *absent,
        });
        Fault {
            kind: self.shape.kind,
            args,
            places: places.collect(),
            of: self.of(),
            missing: self.shape.missing,
        }
    }
}
