// Box and lid for the controller. Hang it on the wall with the cable exits down, so that nothing drips in.
include <dimensions.scad>
$fn = 48;

// Bodies that stand on another are sunk into it a little, so that they become one.
sink = 0.2;

module rounded(w, d, h, r) {
    linear_extrude(h) offset(r) square([w - 2 * r, d - 2 * r], center = true);
}

module at_corners(dx, dy) {
    for (x = [-1, 1], y = [-1, 1]) translate([x * dx / 2, y * dy / 2, 0]) children();
}

// The posts run half a millimetre into the walls.
lid_dx = inner_w - lid_post_d + 1;
lid_dy = inner_d - lid_post_d + 1;

module exits() {
    d = [gland_d, gland_d, socket_d, socket_d, small_d, socket_d];
    for (k = [0:5])
        translate([(k - 2.5) * exit_pitch, -inner_d / 2 - wall - 1, exit_z])
            rotate([-90, 0, 0]) cylinder(d = d[k], h = wall + 2);
}

module usb_slot(grow) {
    translate([usb_x, inner_d / 2 + wall / 2, usb_z])
        cube([usb_w + grow, wall + 2, usb_h + grow], center = true);
}

module box() {
    difference() {
        rounded(inner_w + 2 * wall, inner_d + 2 * wall, inner_h + wall, corner_r);
        translate([0, 0, wall]) rounded(inner_w, inner_d, inner_h + 1, corner_r - wall / 2);
        translate([0, 0, wall]) exits();
        translate([0, 0, wall]) usb_slot(0);
        // Keyholes for two wall screws.
        for (x = [-1, 1]) translate([x * 45, 30, -1]) {
            cylinder(d = 8, h = wall + 2);
            translate([-2.2, 0, 0]) cube([4.4, 9, wall + 2]);
        }
    }
    translate([0, board_y, wall - sink]) at_corners(screw_dx, screw_dy) difference() {
        cylinder(d = post_d, h = post_h + sink);
        translate([0, 0, sink]) cylinder(d = post_hole_d, h = post_h + 1);
    }
    translate([0, 0, wall - sink]) at_corners(lid_dx, lid_dy) difference() {
        cylinder(d = lid_post_d, h = inner_h - lid_lip + sink);
        translate([0, 0, inner_h - 16]) cylinder(d = post_hole_d, h = 20);
    }
}

module lid() {
    difference() {
        union() {
            rounded(inner_w + 2 * wall, inner_d + 2 * wall, lid_t, corner_r);
            translate([0, 0, lid_t - sink]) difference() {
                rounded(inner_w - lid_gap, inner_d - lid_gap, lid_lip + sink, corner_r - wall / 2);
                translate([0, 0, -1]) rounded(inner_w - 6, inner_d - 6, lid_lip + 2, 2);
                translate([0, 0, -1]) at_corners(lid_dx, lid_dy) cylinder(d = lid_post_d + 1.5, h = 9);
            }
            // Frame that holds the film and the display's edge, and the bosses for the bars behind them.
            translate([0, display_y, lid_t - sink]) difference() {
                rounded(display_w + 2 * frame_t, display_d + 2 * frame_t, frame_h + sink, 2);
                translate([0, 0, -1]) rounded(display_w, display_d, frame_h + 2, 1);
            }
            translate([0, display_y, lid_t - sink]) at_corners(2 * bar_x, 2 * boss_y) cylinder(d = boss_d, h = boss_h + sink);
        }
        translate([0, display_y, -1]) rounded(window_w, window_d, lid_t + 2, 1);
        at_corners(lid_dx, lid_dy) translate([0, 0, -1]) cylinder(d = lid_screw_d, h = lid_t + 2);
        translate([0, display_y, lid_t + boss_h - 10]) at_corners(2 * bar_x, 2 * boss_y) cylinder(d = post_hole_d, h = 11);
        translate([sounder_x, sounder_y, -1]) {
            cylinder(d = sounder_hole_d, h = lid_t + 2);
            for (k = [1:sounder_holes - 1]) rotate(k * 360 / (sounder_holes - 1))
                translate([sounder_ring_r, 0, 0]) cylinder(d = sounder_hole_d, h = lid_t + 2);
        }
    }
}

module usb_plug() {
    rounded(usb_w + 6, usb_h + 6, 2, 2);
    translate([0, 0, 2 - sink]) rounded(usb_w - 0.4, usb_h - 0.4, 4 + sink, 1);
}

module bar() {
    difference() {
        rounded(bar_w, 2 * boss_y + boss_d, bar_t, 3);
        for (y = [-1, 1]) translate([0, y * boss_y, -1]) cylinder(d = lid_screw_d, h = bar_t + 2);
    }
}

part = "assembly";
if (part == "box") box();
else if (part == "bar") bar();
else if (part == "lid") lid();
else if (part == "usb-plug") usb_plug();
else {
    color("dimgray") box();
    color("darkred", 0.9) translate([0, 0, inner_h + wall + lid_t + 30]) mirror([0, 0, 1]) lid();
    color("dimgray") for (x = [-1, 1]) translate([x * bar_x, display_y, inner_h + wall + 30 - boss_h - bar_t]) bar();
    color("tan") translate([0, board_y, wall + post_h + board_t / 2]) cube([board_w, board_d, board_t], center = true);
    color("dimgray") translate([usb_x, inner_d / 2 + 30, usb_z]) rotate([90, 0, 0]) usb_plug();
}
