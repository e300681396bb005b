//! What each fact costs on one assembly with everything stated, and what a library without
//! operations is spared.

use std::hint::black_box;
use std::time::{Duration, Instant};

use shankwise::facts::{Fact, Scene};
use shankwise::judge::{Setup, settings_of};
use shankwise::library::{Input, Library, Overrides, Settings, View, load};
use shankwise::mechanics::mouth::{Filling, Loading, Socket, mouth};

/// Evaluations of each fact; every one in a scene of its own.
const ROUNDS: usize = 2001;
/// What three solutions of the mouth may cost together, µs.
const THREE_MOUTHS: f64 = 15.0;

/// An invented assembly that states everything.
const EVERYTHING: &str = "\
tool_number,description,clamping_kind,stick_out,overall_length,shank_length,shank_diameter,shank_form,cutting_diameter,cutter_kind,cutter_material,point_angle,flute_count,helix_angle,chip_flute_length,head_length,gauge_length,insertion_depth_max,collet_size,bore_diameter,bore_length,face_setback,bore_recess,nut_thread,nut_torque,torque_max,collet torque_recommended,clamping_length_min,clamping_length_max,mouth_diameter,taper_length,mouth_setback,nose_diameter,nose_length,body_diameter,cutter_speed_max,nut_speed_max,holder_speed_max,balance_grade,balance_speed,assembly_mass,run_out,nut_outer_diameter,room_diameter,operation_kind,workpiece_material,reach,axial_depth,radial_width,feed_per_tooth,spindle_speed
1,D12,taper collet,50,83,45,12,HB,12,end mill,carbide,140,4,30,26,38,80,70,32,12,40,1,0,M40x1.5,150,180,150,30,60,33,40,10,38.2,14,50,30000,20000,25000,2.5,20000,1.6,0.008,50,80,milling,C45E,40,12,3,0.06,8000
";

/// Prints the cost of every fact and of what the rules of holding rest on.
pub fn costs(setup: &Setup) {
    let read = load(
        Input::Bytes("all.csv", EVERYTHING.as_bytes()),
        &setup.read_settings(),
    );
    let library = read.library.expect("the library loads");
    let settings = settings_of(&setup.book);
    let nothing = Overrides::default();
    let scene = || scene(&library, &nothing, &settings);
    // What every measurement contains besides the fact.
    let empty = median(|| {
        black_box(scene());
    });
    println!(
        "\nfacts of one assembly with everything stated; median of {ROUNDS}, each in a new scene, \u{b5}s"
    );
    for info in Fact::all() {
        let cost = median(|| {
            black_box(scene().fact(black_box(info.fact)));
        });
        let known = if scene().fact(info.fact).is_known() {
            ""
        } else {
            "  (not known here)"
        };
        println!("{:<34} {:>10.2}{known}", info.name, (cost - empty).max(0.0));
    }
    mouths();
    spared(&library, &nothing, &settings);
}

fn scene<'a>(
    library: &'a Library,
    overrides: &'a Overrides<'a>,
    settings: &'a Settings,
) -> Scene<'a> {
    let assembly = library.assemblies.first().expect("one assembly");
    let view = View::new(
        library,
        assembly,
        assembly.operations.first().copied(),
        overrides,
    );
    Scene::new(view, settings)
}

/// Median of single runs, in microseconds.
fn median(run: impl Fn()) -> f64 {
    let mut times: Vec<Duration> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            run();
            start.elapsed()
        })
        .collect();
    times.sort();
    let middle = times.get(times.len() / 2).copied().unwrap_or_default();
    middle.as_secs_f64() * 1e6
}

/// Three solutions, as stress, its upper bound and the ratio's full land need.
fn mouths() {
    let socket = Socket {
        mouth_diameter: 33.0,
        taper_length: 40.0,
        outside: vec![(38.2, 0.0), (50.0, 14.0)],
        modulus: 210e3,
        poisson: 0.3,
    };
    let wedge = Loading::Wedge(Filling {
        shank_diameter: 12.0,
        shank_modulus: 600e3,
        shank_poisson: 0.22,
        collet_modulus: 210e3,
    });
    let three = median(|| {
        for (loading, engaged) in [(wedge, 26.7), (wedge, 40.0), (Loading::Uniform, 26.7)] {
            black_box(mouth(black_box(&socket), loading, engaged, 1e5));
        }
    });
    println!(
        "{:<34} {three:>10.2}  (at most {THREE_MOUTHS})",
        "three solutions of the mouth"
    );
}

/// All facts of the assembly alone against all facts with its operation: the cutting models are
/// asked for by the latter only.
fn spared(library: &Library, nothing: &Overrides<'_>, settings: &Settings) {
    let all = |of_operation: bool| {
        median(|| {
            let scene = scene(library, nothing, settings);
            for info in Fact::all() {
                if of_operation || !info.of_operation {
                    black_box(scene.fact(info.fact));
                }
            }
        })
    };
    let (assembly, operation) = (all(false), all(true));
    println!("{:<34} {assembly:>10.2}", "all facts of the assembly");
    println!("{:<34} {operation:>10.2}", "the same with one operation");
}
