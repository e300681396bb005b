//! Remedies: what cures, what does not, what is nearest where nothing does.

mod agree;
mod any_library;
mod cures;
mod demo;
mod plan;
mod rejected;
mod renamed;
mod shop;
mod sound;

use shop::Shop;

/// A pocket 65 deep, with 2 of clearance: 67 needed. The tool is 92 long; the land of its collet
/// is 40 and begins 1 behind the nut's face, so that 26.67 of grip are needed and at most
/// 92 − 1 − 26.67 = 64.33 may stick out. It sticks out 68, and 23 are gripped.
fn pocket() -> Shop {
    Shop::new(&[
        (
            "assemblies",
            "tool_number,cutter,collet,nut,holder,stick_out,nut_torque
             1,em16,c32-16,n32,h32,68,120",
        ),
        (
            "cutters",
            "cutter,cutter_kind,cutter_material,cutting_diameter,flute_count,depth_of_cut_max,chip_flute_length,shank_diameter,shank_length,overall_length
             em16,end mill,carbide,16,4,32,38,16,48,92",
        ),
        (
            "collets",
            "collet,collet_size,bore_diameter,bore_diameter_min,collet_length,bore_length,torque_recommended
             c32-16,32,16,15,40,40,120",
        ),
        (
            "nuts",
            "nut,collet_size,nut_style,nut_thread,nut_outer_diameter,face_setback,torque_max
             n32,32,standard,M40x1.5,50,1,130",
        ),
        (
            "holders",
            "holder,clamping_kind,machine_interface,collet_size,nut_thread,gauge_length,insertion_depth_max
             h32,taper collet,steep taper 40,32,M40x1.5,70,80",
        ),
        (
            "operations",
            "operation,tool_number,operation_kind,workpiece_material,reach,clearance,wall,axial_depth,radial_width,feed_per_tooth,spindle_speed
             floor,1,milling,EN AW-6082,65,2,closed,2,1,0.02,2500",
        ),
    ])
}

/// A longer cutter in the crib: 125 long, of which 80 are shank.
const STOCK: &str = "cutter,cutter_kind,cutter_material,cutting_diameter,flute_count,depth_of_cut_max,chip_flute_length,shank_diameter,shank_length,overall_length,quantity,location
    em16-125,end mill,carbide,16,4,32,38,16,80,125,1,drawer 3";

/// The same with that cutter.
fn stocked() -> Shop {
    pocket().and("stock", STOCK)
}
