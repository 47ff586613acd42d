#version 300 es
// u_sky 1: pale sky, lighter towards the water. Else one face of the pond: darker with depth; on the surface
// (u_surface 1) soft standing ripples. u_depth: where the water is darkest [m]. u_opacity: of the face.
precision highp float;
in vec3 v_world;
uniform float u_sky, u_surface, u_depth, u_opacity;
out vec4 o_colour;

const vec3 kShallow = vec3(0.52, 0.76, 0.85);
const vec3 kDeep = vec3(0.13, 0.38, 0.52);

void main() {
  if (u_sky > 0.5) {
    o_colour = vec4(mix(vec3(0.97, 0.985, 0.99), vec3(0.84, 0.91, 0.95), 0.5 + 0.5 * v_world.y), 1.0);
    return;
  }
  if (u_surface > 0.5) {
    vec2 q = v_world.xy / u_depth;
    float ripple = sin(9.0 * q.x + 2.2 * sin(5.0 * q.y)) * sin(11.0 * q.y + 1.7 * sin(6.0 * q.x));
    o_colour = vec4(kShallow + 0.05 * ripple, u_opacity);
    return;
  }
  float down = clamp(-v_world.z / u_depth, 0.0, 1.0);
  o_colour = vec4(mix(kShallow, kDeep, sqrt(down)), u_opacity);
}
