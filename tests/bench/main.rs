//! Benches: speed as ratios to the `csv` crate, measured in one run on one machine.
//!
//! Absolute times say more about the machine than about the program; what is compared from
//! change to change is the last column. What a row costs as a library grows follows, and what the
//! facts cost, in microseconds.

#![allow(
    clippy::print_stdout,
    clippy::expect_used,
    reason = "a bench prints, and stops when it cannot run"
)]

mod facts;
mod linear;

use std::fmt::Write as _;
use std::hint::black_box;
use std::time::{Duration, Instant};

use shankwise::advice::advise;
use shankwise::input::csv::Records;
use shankwise::judge::{Options, Selection, Setup, judge};
use shankwise::library::{Input, load};
use shankwise::rulebook::{Date, Level};
use shankwise::write;

/// Assemblies in the generated library.
const ROWS: usize = 20_000;
/// Counted runs of each bench; they take turns, so that a drift of the machine hits all.
const RUNS: usize = 9;
/// What a counted run takes at least.
const LEAST: Duration = Duration::from_millis(20);

fn main() {
    let text = library();
    let setup = Setup::load(None, None, &[], true).expect("the built-in rules load");
    // `cargo bench -- linear` prints only what a row costs as a library grows.
    if std::env::args().any(|word| word == "linear") {
        linear::costs(&setup);
        return;
    }
    let settings = setup.read_settings();
    let read = || load(Input::Bytes("bench.csv", text.as_bytes()), &settings);
    let library = read().library.expect("the library loads");
    let options = Options {
        strict: false,
        fail_on: Level::Error,
        selection: Selection::default(),
        with_facts: false,
        today: Date {
            year: 2026,
            month: 1,
            day: 1,
        },
    };
    let report = judge(&library, &setup, &options);
    let advised = |remedies: bool| {
        // Advice is put into the report, so that each run needs its own.
        let mut report = report.clone();
        black_box(advise(&library, &setup, &options, remedies, &mut report));
    };
    let benches: [(&str, &dyn Fn()); 8] = [
        ("csv crate: read all records", &|| csv_crate(&text)),
        ("read: all fields with places", &|| {
            let mut records = Records::new(&text, b',');
            while let Some(record) = records.read() {
                black_box(record);
            }
        }),
        ("load: typed, linked library", &|| {
            black_box(read());
        }),
        ("judge: all rules", &|| {
            black_box(judge(&library, &setup, &options));
        }),
        ("advise: windows of what fails", &|| advised(false)),
        ("advise: windows and remedies", &|| advised(true)),
        ("write: JSON", &|| {
            black_box(write::to_json_line(&write::json(&report)));
        }),
        ("set up: rules and tables", &|| {
            black_box(Setup::load(None, None, &[], true).expect("loads"));
        }),
    ];
    let times = measure(&benches.map(|(_, bench)| bench));
    let base = times.first().map_or(1.0, Duration::as_secs_f64);
    println!(
        "{ROWS} assemblies, {} kB; the shortest of {RUNS} runs",
        text.len() / 1000
    );
    println!("{:<34} {:>10} {:>12}", "bench", "ms", "to csv crate");
    for ((name, _), time) in benches.iter().zip(times) {
        let seconds = time.as_secs_f64();
        println!(
            "{name:<34} {:>10.2} {:>12.2}",
            seconds * 1e3,
            seconds / base
        );
    }
    linear::costs(&setup);
    facts::costs(&setup);
}

/// The shortest time of each bench; all run once in every round, each so often that its clock
/// shows at least [`LEAST`]. The base takes a millisecond or two: whatever else runs on the machine
/// would stretch it more than the long ones, and every ratio with it.
fn measure(benches: &[&dyn Fn()]) -> Vec<Duration> {
    let mut plans: Vec<(u32, Duration)> = Vec::new();
    for bench in benches {
        let start = Instant::now();
        bench();
        let once = start.elapsed().max(Duration::from_micros(1));
        let times = LEAST.as_nanos().div_ceil(once.as_nanos());
        plans.push((u32::try_from(times).unwrap_or(1).max(1), Duration::MAX));
    }
    for _ in 0..RUNS {
        for (bench, (times, least)) in benches.iter().zip(&mut plans) {
            let start = Instant::now();
            for _ in 0..*times {
                bench();
            }
            *least = (*least).min(start.elapsed() / *times);
        }
    }
    plans.into_iter().map(|(_, least)| least).collect()
}

fn csv_crate(text: &str) {
    let mut reader = csv::ReaderBuilder::new()
        .flexible(true)
        .from_reader(text.as_bytes());
    let mut record = csv::ByteRecord::new();
    let mut fields = 0;
    while reader.read_byte_record(&mut record).expect("reads") {
        fields += record.len();
    }
    black_box(fields);
}

/// An invented library: sound tools, one in twenty of them held short.
fn library() -> String {
    let mut text = "tool_number,description,cutter_kind,cutter_material,cutting_diameter,overall_length,shank_length,shank_diameter,chip_flute_length,collet_size,bore_diameter,bore_length,stick_out,nut_torque,collet torque_recommended,insertion_depth_max,reach\n".to_owned();
    for row in 0..ROWS {
        let stick_out = if row % 20 == 0 { 60 } else { 43 };
        // Writing to a String cannot fail.
        let _ = writeln!(
            text,
            "{row},\"end mill, 12\",end mill,carbide,12,83,45,12,26,32,12,40,{stick_out},100,100,70,35"
        );
    }
    text
}
