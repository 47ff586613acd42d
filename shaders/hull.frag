#version 300 es
// Lit surface. u_glass 0: opaque. u_glass > 0: see-through, thicker towards the rim, with u_glass the opacity
// seen square on.
precision highp float;
in vec3 v_normal;
in vec4 v_colour;
in float v_height;
uniform vec3 u_towards_viewer;
uniform float u_glass;
out vec4 o_colour;

void main() {
  vec3 n = normalize(v_normal);
  float facing = dot(n, u_towards_viewer);
  if (facing < 0.0) n = -n;
  facing = abs(facing);
  vec3 sun = normalize(u_towards_viewer * 0.55 + vec3(0.25, -0.1, 0.9));
  float light = 0.52 + 0.30 * max(dot(n, sun), 0.0) + 0.18 * (0.5 + 0.5 * n.z);
  float shine = pow(max(dot(reflect(-sun, n), u_towards_viewer), 0.0), 40.0);
  vec3 lit = v_colour.rgb * light * 1.12;
  if (u_glass <= 0.0) {
    o_colour = vec4(lit + 0.12 * shine, 1.0);
    return;
  }
  float rim = pow(1.0 - facing, 2.2);
  float alpha = mix(u_glass, 0.85, rim);
  o_colour = vec4(mix(lit, lit * 0.7, rim) + 0.35 * shine, alpha + 0.25 * shine);
}
