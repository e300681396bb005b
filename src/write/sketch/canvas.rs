//! A grid of characters, each in one of few inks.

/// Columns of a drawing, its indent not counted.
pub(super) const COLUMNS: u16 = 74;
/// Blanks in front of every line.
pub(super) const INDENT: usize = 2;

/// What a character is drawn with. Colour only ever repeats what the character says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Ink {
    #[default]
    Plain,
    Gripped,
    Bare,
    Face,
}

impl Ink {
    /// What switches the ink on. Green and magenta are told apart by those who confuse green
    /// with red or yellow, and read on light and dark ground.
    const fn code(self) -> &'static str {
        match self {
            Ink::Plain => "",
            Ink::Gripped => "\u{1b}[32m",
            Ink::Bare => "\u{1b}[35m",
            Ink::Face => "\u{1b}[1m",
        }
    }

    /// Text in this ink; as it is where there is no colour.
    pub(super) fn paint(self, text: &str, colour: bool) -> String {
        match self {
            Ink::Plain => text.to_owned(),
            _ if !colour => text.to_owned(),
            _ => format!("{}{text}\u{1b}[0m", self.code()),
        }
    }
}

/// The grid; what lies outside of it is not drawn.
pub(super) struct Canvas {
    rows: Vec<Vec<(char, Ink)>>,
}

impl Canvas {
    pub(super) fn new(rows: usize) -> Canvas {
        let row = vec![(' ', Ink::Plain); usize::from(COLUMNS)];
        Canvas {
            rows: vec![row; rows],
        }
    }

    pub(super) fn put(&mut self, row: usize, column: usize, glyph: char, ink: Ink) {
        let cell = self.rows.get_mut(row).and_then(|row| row.get_mut(column));
        if let Some(cell) = cell {
            *cell = (glyph, ink);
        }
    }

    pub(super) fn text(&mut self, row: usize, column: usize, text: &str) {
        for (at, letter) in text.chars().enumerate() {
            self.put(row, column + at, letter, Ink::Plain);
        }
    }

    /// The lines, without blanks at their ends; rows with nothing on them are left out.
    pub(super) fn lines(&self, colour: bool) -> String {
        let mut text = String::new();
        for row in &self.rows {
            let used = row.iter().rposition(|(glyph, _)| *glyph != ' ');
            let Some(used) = used.and_then(|last| row.get(..=last)) else {
                continue;
            };
            text.push_str(&" ".repeat(INDENT));
            for run in used.chunk_by(|a, b| a.1 == b.1) {
                let glyphs: String = run.iter().map(|(glyph, _)| glyph).collect();
                let ink = run.first().map_or(Ink::Plain, |(_, ink)| *ink);
                text.push_str(&ink.paint(&glyphs, colour));
            }
            text.push('\n');
        }
        text
    }
}
