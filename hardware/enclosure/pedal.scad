// Pedal: a treadle on a 4 mm steel rod presses a sealed push-button with a changeover contact. Two stops take the
// foot's weight, so that the button never carries it. Low voltage only.
include <dimensions.scad>
$fn = 48;

hinge_y = pedal_l / 2 - 10;
hinge_z = base_h + treadle_rise - 2;
treadle_l = pedal_l - 18;
button_y = -pedal_l / 2 + button_from_front;

module plate(w, l, h, r) {
    linear_extrude(h) offset(r) square([w - 2 * r, l - 2 * r], center = true);
}

module base() {
    difference() {
        union() {
            plate(pedal_w, pedal_l, base_h, 6);
            // Ears for the rod.
            for (x = [-1, 1]) translate([x * (pedal_w / 2 - 5), hinge_y, base_h])
                rotate([0, 90, 0]) cylinder(r = treadle_rise + 3, h = 8, center = true);
            // Stops for the treadle.
            for (x = [-1, 1]) translate([x * 30, button_y - 18, base_h]) cylinder(d = 14, h = stop_h);
        }
        // Hollow from below, closed by the floor plate.
        translate([0, 0, -1]) plate(pedal_w - 2 * base_wall, pedal_l - 2 * base_wall, base_h - base_wall + 1, 4);
        translate([0, button_y, 0]) cylinder(d = button_hole_d, h = base_h + 10);
        translate([0, hinge_y, hinge_z]) rotate([0, 90, 0]) cylinder(d = rod_d, h = pedal_w + 2, center = true);
        translate([0, button_y + 32, base_h - 1.2]) cylinder(d = spring_d, h = 10);
        translate([0, bolt_y, 0]) cylinder(d = bolt_d, h = base_h + 10);
        translate([0, pedal_l / 2 - 5, 24]) rotate([-90, 0, 0]) cylinder(d = cable_d, h = 12);
    }
    // Corners that the floor plate is screwed to.
    for (x = [-1, 1], y = [-1, 1]) translate([x * foot_x, y * foot_y, floor_t]) difference() {
        cylinder(d = foot_d, h = base_h - base_wall - floor_t + 0.2);
        translate([0, 0, -1]) cylinder(d = 2.7, h = 13);
    }
}

foot_x = pedal_w / 2 - base_wall - foot_d / 2 + 0.5;
foot_y = pedal_l / 2 - base_wall - foot_d / 2 + 0.5;

module floor_plate() {
    difference() {
        plate(pedal_w - 2 * base_wall - floor_gap, pedal_l - 2 * base_wall - floor_gap, floor_t, 4);
        for (x = [-1, 1], y = [-1, 1]) translate([x * foot_x, y * foot_y, -1]) {
            cylinder(d = 3.4, h = floor_t + 2);
            // Countersunk, so that the rubber foot lies over the screw.
            cylinder(d1 = 9, d2 = 3.4, h = 3);
        }
    }
}

module treadle() {
    inner = pedal_w - 22;
    difference() {
        union() {
            translate([0, hinge_y - treadle_l / 2, 0]) plate(pedal_w - 4, treadle_l, treadle_t, 3);
            translate([0, hinge_y, 0]) rotate([0, 90, 0]) cylinder(d = 2 * treadle_rise - 6, h = inner, center = true);
            translate([0, button_y, -pusher_h]) cylinder(d = pusher_d, h = pusher_h + 1);
        }
        // Grip: grooves, so that it is printed lying on its top.
        for (y = [-40:10:30]) translate([0, y, treadle_t]) cube([pedal_w - 20, 2.5, 2], center = true);
        // The upper stop: a slot for the bolt, and room for its head.
        translate([0, bolt_y, -1]) cylinder(d = bolt_slot, h = treadle_t + 2);
        translate([0, bolt_y, treadle_t - bolt_head_t]) cylinder(d = bolt_head_d + 1, h = treadle_t);
        translate([0, hinge_y, 0]) rotate([0, 90, 0]) cylinder(d = rod_d, h = pedal_w, center = true);
        translate([0, button_y + 32, -1]) cylinder(d = spring_d, h = 3);
        // Room for the base's ears.
        for (x = [-1, 1]) translate([x * (pedal_w / 2 - 5), hinge_y, 0]) cube([10, 34, 60], center = true);
    }
}

part = "assembly";
if (part == "base") base();
else if (part == "treadle") translate([0, 0, treadle_t]) rotate([180, 0, 0]) treadle();
else if (part == "floor") floor_plate();
else {
    color("dimgray") base();
    color("tan") floor_plate();
    color("darkred") translate([0, hinge_y, hinge_z]) rotate([-rest_deg, 0, 0]) translate([0, -hinge_y, 0]) treadle();
}
