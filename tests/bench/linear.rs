//! What a row costs as a library grows: the same from a thousand rows to a million,
//! whatever is wrong with them. Where the last column is far above 1, something is quadratic.

use std::fmt::Write as _;
use std::fs;
use std::hint::black_box;
use std::time::Instant;

use shankwise::judge::Setup;
use shankwise::library::{Input, load};

/// Rows, columns or ids of each run.
const SIZES: [usize; 4] = [1_000, 10_000, 100_000, 1_000_000];
/// Runs of each; the best counts. What takes seconds is run once.
const RUNS: usize = 3;

const HEADER: &str = "tool_number,cutter_kind,cutting_diameter,overall_length,shank_diameter,shank_length,collet_size,bore_diameter,bore_length,stick_out,nut_torque,reach,clamping_kind,face_setback,clearance";

/// A row: its number, and what stands in it for the kind, the bore's length and the stick-out.
fn row(number: usize, [kind, length, stick_out]: [&str; 3]) -> String {
    format!("{number},{kind},12,83,12,45,32,12,{length},{stick_out},100,35,taper collet,0,1\n")
}

const SOUND: [&str; 3] = ["end mill", "40", "43"];

/// A table of rows that are all alike.
fn rows(count: usize, cells: [&str; 3]) -> String {
    let head = format!("{HEADER}\n");
    (1..=count).fold(head, |text, number| text + &row(number, cells))
}

/// Unknown columns in a table of one row.
fn columns(count: usize) -> String {
    let mut text = HEADER.to_owned();
    for number in 0..count {
        // Writing to a String cannot fail.
        let _ = write!(text, ",xq{number}");
    }
    text + "\n" + row(1, SOUND).trim_end() + &",1".repeat(count) + "\n"
}

/// A folder whose assemblies name cutters that are nearly those of its table.
fn ids(count: usize) -> [(&'static str, String); 2] {
    let mut assemblies = "tool_number,cutter,stick_out\n".to_owned();
    let mut cutters = "cutter,overall_length\n".to_owned();
    for number in 0..count {
        let _ = writeln!(assemblies, "{number},EM-{number:06}x,43");
        let _ = writeln!(cutters, "EM-{number:06},83");
    }
    [("assemblies.csv", assemblies), ("cutters.csv", cutters)]
}

/// A table by how many rows or columns it has.
type Shape = fn(usize) -> String;

/// Tables by what is wrong with them, each by the number of its rows, columns or ids.
const SHAPES: [(&str, Shape); 9] = [
    ("sound", |count| rows(count, SOUND)),
    ("held too short", |count| {
        rows(count, ["end mill", "40", "65"])
    }),
    ("one cell missing", |count| {
        rows(count, ["end mill", "", "43"])
    }),
    ("one cell unreadable", |count| {
        rows(count, ["end mill", "x4", "43"])
    }),
    ("one number for all", |count| {
        format!("{HEADER}\n{}", row(7, SOUND).repeat(count))
    }),
    ("one open quote", |count| {
        rows(count, SOUND).replacen("end mill", "\"end mill", 1)
    }),
    ("an open quote in each row", |count| {
        rows(count, ["\"end mill", "40", "43"])
    }),
    ("header swallowed by a quote", |count| {
        rows(count, SOUND).replacen("cutter_kind", "\"cutter_kind", 1)
    }),
    ("unknown columns", columns),
];

/// Best time of loading, in microseconds for each of `count`.
fn cost(count: usize, load: &dyn Fn()) -> f64 {
    let run = |_| {
        let start = Instant::now();
        load();
        start.elapsed().as_secs_f64()
    };
    let runs = if count > 100_000 { 1 } else { RUNS };
    let best = (0..runs).map(run).fold(f64::INFINITY, f64::min);
    // So few rows are counted exactly.
    best * 1e6 / f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

fn line(name: &str, costs: &[f64]) {
    let ratio = costs
        .last()
        .zip(costs.first())
        .map_or(1.0, |(last, first)| last / first);
    print!("{name:<34} ");
    for cost in costs {
        print!("{cost:>9.2}");
    }
    println!(" {ratio:>12.2}");
}

/// Prints what loading a row costs, for each shape and size.
pub(crate) fn costs(setup: &Setup) {
    let settings = setup.read_settings();
    print!("\n{:<34} ", "load, µs a row, column or id");
    for size in SIZES {
        print!("{size:>9}");
    }
    println!(" {:>12}", "last/first");
    for (name, shape) in SHAPES {
        let of = |size: &usize| {
            let text = shape(*size);
            cost(*size, &|| {
                black_box(load(Input::Bytes("bench.csv", text.as_bytes()), &settings));
            })
        };
        line(name, &SIZES.iter().map(of).collect::<Vec<f64>>());
    }
    let of = |size: &usize| {
        let folder = tempfile::tempdir().expect("there is room for a folder");
        for (name, text) in ids(*size) {
            fs::write(folder.path().join(name), text).expect("there is room for a table");
        }
        cost(*size, &|| {
            black_box(load(Input::Path(folder.path()), &settings));
        })
    };
    line("unknown ids", &SIZES.iter().map(of).collect::<Vec<f64>>());
}
