#version 300 es
// Lines of a given width on the screen. In: both ends in the boat frame, which end and side this corner is,
// colour, width and dash [px]. Each line is drawn as a rectangle half a pixel wider all round, faded there.
layout(location = 0) in vec3 a_from;
layout(location = 1) in vec3 a_to;
layout(location = 2) in vec2 a_corner;  // x: 0 from, 1 to; y: -1 or 1
layout(location = 3) in vec4 a_colour;
layout(location = 4) in vec2 a_width_dash;
uniform mat4 u_boat_to_world;
uniform mat4 u_world_to_clip;
uniform vec2 u_picture;  // [px]
uniform float u_lift;    // towards the viewer, in clip depth, so that hull lines lie on the hull
out vec4 v_colour;
out float v_across, v_half_width, v_along, v_dash;

void main() {
  vec4 from = u_world_to_clip * (u_boat_to_world * vec4(a_from, 1.0));
  vec4 to = u_world_to_clip * (u_boat_to_world * vec4(a_to, 1.0));
  vec2 from_px = from.xy * 0.5 * u_picture, to_px = to.xy * 0.5 * u_picture;
  vec2 way = to_px - from_px;
  float size = length(way);
  vec2 ahead = size > 1e-4 ? way / size : vec2(1.0, 0.0);
  vec2 aside = vec2(-ahead.y, ahead.x);
  float reach = 0.5 * a_width_dash.x + 0.5;
  vec2 px = mix(from_px, to_px, a_corner.x) + aside * a_corner.y * reach + ahead * (a_corner.x - 0.5) * 0.6;
  v_colour = a_colour;
  v_across = a_corner.y * reach;
  v_half_width = 0.5 * a_width_dash.x;
  v_along = px.x + px.y;  // dashes run on from one short piece to the next
  v_dash = a_width_dash.y;
  gl_Position = vec4(px / (0.5 * u_picture), mix(from.z, to.z, a_corner.x) - u_lift, 1.0);
}
