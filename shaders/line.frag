#version 300 es
// Anti-aliased line, see line.vert.
precision highp float;
in vec4 v_colour;
in float v_across, v_half_width, v_along, v_dash;
out vec4 o_colour;

void main() {
  float cover = clamp(v_half_width + 0.5 - abs(v_across), 0.0, 1.0);
  if (v_dash > 0.0 && mod(v_along, 2.0 * v_dash) > v_dash) cover = 0.0;
  o_colour = vec4(v_colour.rgb, v_colour.a * cover);
}
