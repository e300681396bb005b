//! The characters of a sketch, each with a stand-in for terminals that know ASCII only.

/// Which characters draw what.
#[derive(Debug)]
pub(super) struct Glyphs {
    pub gripped: char,
    pub bare: char,
    /// Land of which it is not known whether it grips.
    pub open: char,
    pub face: char,
    pub stop: char,
    pub flutes: char,
    pub neck: char,
    pub square: char,
    pub edge: char,
    /// An edge whose place is only assumed.
    pub assumed: char,
    pub wall: char,
    /// Corners of a body: front above, rear above, front below, rear below.
    pub corners: [char; 4],
    pub rule: char,
    /// On the rule: first, between, last.
    pub ticks: [char; 3],
    pub leader: char,
    /// From a leader to text on its right, on its left; and the same where it goes on.
    pub hooks: [char; 2],
    pub tees: [char; 2],
}

pub(super) const UNICODE: Glyphs = Glyphs {
    gripped: '█',
    bare: '░',
    open: '▒',
    face: '┃',
    stop: '▐',
    flutes: '╱',
    neck: '═',
    square: '╳',
    edge: '─',
    assumed: '┄',
    wall: '│',
    corners: ['┌', '┐', '└', '┘'],
    rule: '─',
    ticks: ['├', '┬', '┤'],
    leader: '│',
    hooks: ['└', '┘'],
    tees: ['├', '┤'],
};

pub(super) const ASCII: Glyphs = Glyphs {
    gripped: '#',
    bare: '.',
    open: ':',
    face: '|',
    stop: ']',
    flutes: '/',
    neck: '=',
    square: 'x',
    edge: '-',
    assumed: '~',
    wall: '|',
    corners: ['+'; 4],
    rule: '-',
    ticks: ['+'; 3],
    leader: '|',
    hooks: ['+'; 2],
    tees: ['+'; 2],
};
