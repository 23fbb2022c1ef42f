// Every dimension of box and pedal, in millimetres. The drawings read this file too: one value a line, sums allowed.

// The board: 48 × 35 holes of 2.54 mm; screw holes as in hardware/board.py.
pitch = 2.54;
board_w = 122;
board_d = 89;
board_t = 1.6;
board_y = -6;
screw_dx = 45 * pitch;
screw_dy = 32 * pitch;
post_h = 6;
post_d = 8;
post_hole_d = 2.7;

// The box, inside; the display is wider than the board.
wall = 2.4;
inner_w = 146;
inner_d = 112;
inner_h = 46;
corner_r = 4;
lid_t = 2.4;
lid_lip = 2.0;
lid_gap = 0.3;
lid_post_d = 9;
lid_screw_d = 3.4;

// The display: four modules in a row, a strip of red film or acrylic before it.
display_w = 128.5;
display_d = 32.5;
window_w = 126;
window_d = 30;
film_t = 2.0;
film_w = 128;
film_d = 32;
display_t = 12;
display_y = 27;
// Two bars hold display and film in the frame, each on two bosses; a strip of foam takes up what is left.
frame_t = 3;
frame_h = 6;
foam_t = 1;
bar_x = 40;
bar_w = 10;
bar_t = 4;
boss_d = 8;
boss_h = film_t + display_t + foam_t;
boss_y = display_d / 2 + frame_t + boss_d / 2 - 0.5;

// Sounder: a ring of small holes.
sounder_x = 0;
sounder_y = -18;
sounder_holes = 7;
sounder_hole_d = 2.2;
sounder_ring_r = 5;

// Cable exits in the lower wall, from left to right: lamp, white light, pedal 1, pedal 2, sensor, supply.
// Pedals and supply have round locking sockets of 12 mm, three pins and two: neither goes into the other.
gland_d = 12.5;
socket_d = 12.2;
small_d = 6.5;
exit_pitch = 23;
exit_z = 24;

// Slot for the computer's cable in the upper wall, above the Pico's socket, closed by a plug in wet work.
usb_w = 14;
usb_h = 10;
usb_x = 0;
usb_z = post_h + 1.6 + 13;

// Pedal: base, treadle on a steel rod, a sealed push-button with a 16 mm thread beneath it.
pedal_w = 110;
pedal_l = 140;
base_h = 42;
base_wall = 3.2;
button_hole_d = 16.3;
button_from_front = 45;
rod_d = 4.3;
treadle_t = 8;
treadle_rise = 9;
stop_h = 5.5;
spring_d = 11;
cable_d = 6.5;
rubber_d = 20;

// The button, of 16 mm: what stands above and below the base, its travel, and where it clicks at the latest.
button_above = 3.5;
button_below = 28;
button_travel = 3;
button_click = 1.8;
// What presses it stands below the treadle, 85 mm before the hinge.
pusher_h = 4.7;
pusher_d = 12;
// Upper stop: the head of an M4 bolt, in the treadle's front; its nut sits below the base's roof.
bolt_y = -56;
bolt_d = 4.3;
bolt_slot = 6.5;
bolt_head_d = 9;
bolt_head_t = 4;
rest_deg = 3;
// The floor plate keeps the wet floor from the button's terminals.
floor_t = 3;
floor_gap = 0.4;
foot_d = 12;
